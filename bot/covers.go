package bot

import (
	"cmp"
	"fmt"
	"strings"

	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// heads is for how many a dish was: N, 0 where nobody knows. Covers are those of its service where nobody
// told of the dish itself: not every guest eats of every dish. Stock is for nobody in particular.
type heads struct {
	N, Covers int
	Stock     bool
}

// untold says whether nobody told the portions.
func (h heads) untold() bool { return !h.Stock && (h.N == 0 || h.Covers > 0) }

// leastPortion is how much of a dish, as purchased, is the least that covers are taken for its portions of: of
// less nobody makes a portion for every guest. The program's own choice.
const leastPortion measure.Amount = 40_000

// portionsOf gives for how many a dish was: as somebody said, else as a plan says; else the covers of its
// service, if that leaves each of them a portion.
func (x *Records) portionsOf(p *account.Period, dish string) heads {
	served := 0
	x.notes(p, func(note *running) bool {
		served = note.Served[dish]
		return served > 0
	})
	if served > 0 {
		return heads{N: served}
	}
	if x.isStock(p, dish) {
		return heads{Stock: true}
	}
	if on, n := x.planOf(p, dish); on != nil {
		return heads{N: on.Plan.Dishes[n].Portions}
	}
	for i := len(x.Services) - 1; i >= 0; i-- {
		on := x.planAt(p, i)
		if on == nil || on.isPlan() || on.Wish.Portions == 0 {
			continue
		}
		h := heads{N: on.Wish.Portions, Covers: on.Wish.Portions}
		if went := allIn(p, dish); went < leastPortion*measure.Amount(h.N) {
			h.N = 0
		} else if on.Wish.Dishes == 1 { // "1 dish for 24" tells it of the dish
			h.Covers = 0
		}
		return h
	}
	return heads{}
}

// allIn is all that went into a dish, as purchased: mg, and µl of what is poured.
func allIn(p *account.Period, dish string) (sum measure.Amount) {
	for i := range p.Lines {
		for _, d := range p.Lines[i].Of {
			if d.Name == dish {
				sum += d.Amount
			}
		}
	}
	return sum
}

// sayUntold names the dishes of which nobody told the portions, and how that is done: "Portions not told: stew,
// slaw (6 g each for 100 covers). ..."; "" where all were told.
func (w *Wrap) sayUntold() string {
	var list []string
	first := ""
	for _, d := range w.Dishes {
		if !d.untold {
			continue
		}
		first = cmp.Or(first, d.Name)
		name := d.Name
		if taken := sayTaken(d); d.Portions == 0 && taken != "" {
			name += " (" + taken + ")"
		}
		list = append(list, name)
	}
	if len(list) == 0 {
		return ""
	}
	if more := len(list) - mostDishesTold; more > 0 {
		list = append(list[:mostDishesTold], fmt.Sprintf("%d more", more))
	}
	return "Portions not told: " + strings.Join(list, ", ") + ". " + tellPortions(first)
}

// sayTaken is what a dish's portions are taken for that nobody told: "taken as the 100 covers", "6 g each for 100
// covers"; "" where no covers were said.
func sayTaken(d WrapDish) string {
	switch {
	case d.Covers == 0:
		return ""
	case d.Portions == 0:
		return fmt.Sprintf("%s each for %d covers", sayMg(int64(d.Grams*1000)/int64(d.Covers)), d.Covers)
	}
	return fmt.Sprintf("taken as the %d covers", d.Covers)
}

// tellPortions is how a dish's portions are told.
func tellPortions(dish string) string {
	return fmt.Sprintf(`"the %s made 24 portions" tells it.`, dish)
}
