package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// outOfPot drafts what has to be put by of a dish so that a draft, which bins it or gives it away,
// can draw on it: "binned 500g stew" of a stew that is in no line yet. Nil where no dish is meant; tell
// says why nothing can be written.
func (t *turn) outOfPot(d *draft) (put *draft, tell string, err error) {
	if d.Line != 0 || d.New != nil || d.Trim || d.State != "" || d.Act != pantry.Bin && (d.Act != pantry.Use || sayAway(d.Dish) == "") || !t.namesMade(d.Food) {
		return nil, "", nil
	}
	dish, err := d.Food, error(nil)
	if !d.Plate {
		dish, err = t.inPot(d.Food)
	}
	if err != nil || dish == "" {
		return nil, "", err
	}
	q := language.Question{Amount: d.Amount}
	if whole := d.Amount.How == language.Share && d.Amount.N.Num == d.Amount.N.Den; d.Amount.How == language.Unsaid || whole { // what was served is known to nobody
		return nil, fmt.Sprintf(`How much %s was that? Weigh it, or tell the portions: "binned 600g %s", "binned 2 portions of %s".`, dish, dish, dish), nil
	}
	if d.Amount.How == language.Pieces && d.Amount.Part == "portion" && d.Amount.N.Den == 1 {
		q.N, q.Amount = int(d.Amount.N.Num), language.Amount{}
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return nil, "", err
	}
	if q.N > 0 && s.Portions == 0 {
		return nil, fmt.Sprintf(`How much is that? Weigh it, or say first for how many it was: "the %s %s for 6".`, dish, was(dish)), nil
	}
	a, ok := partOf(s, &q)
	if !ok {
		return nil, "", nil
	}
	d.Food, d.Amount = dish, a
	put = &draft{Act: pantry.Make, Food: dish, Amount: a, Dish: dish, Day: t.day(), Who: d.Who}
	if l := t.k.Named(dish); l != nil {
		put.Line = l.ID
	} else {
		put.New = &newLine{Name: dish, Unit: a.Kind.String()}
	}
	return put, "", nil
}

// taken drafts what was taken out of a pot to make something else of: so much is put by, and used. As
// much as came of it where nobody said; none where that is not known either.
func (t *turn) taken(dish string, it, product language.Item, into, who string) []draft {
	a := it.Amount
	if a.How != language.Measured || a.Vague() {
		a = product.Amount
		a.Approx = true
	}
	if a.How != language.Measured {
		return nil
	}
	put := draft{Act: pantry.Make, Food: dish, Amount: a, Dish: dish, Day: t.day(), Who: t.ear.cook(who)}
	if l := t.k.Named(dish); l != nil {
		put.Line = l.ID
	} else {
		put.New = &newLine{Name: dish, Unit: a.Kind.String()}
	}
	return []draft{put, {Act: pantry.Use, Food: dish, Amount: a, Who: t.ear.cook(who), Dish: into, Taken: true}}
}

// portionsGone writes that portions of a dish were thrown or given away.
func (t *turn) portionsGone(q *language.Question, why string) (r Reply, done bool, err error) {
	d := draft{Act: pantry.Bin, Food: q.Food, Day: t.day(), Amount: language.Amount{How: language.Pieces, N: measure.Whole(int64(q.N)), Part: "portion", Said: counted1(q.N, "portion", "portions")}}
	if q.About == language.AboutGiven {
		food, to, _ := strings.Cut(q.Food, " to ")
		d.Act, d.Food, d.Dish = pantry.Use, food, pantry.AwayTo(to)
	}
	if dish, _, err := t.cooked(d.Food); err != nil || dish == "" {
		return r, false, err
	}
	r, err = t.write([]draft{d}, why)
	return r, r.Kind != Silent, err
}

// inPot gives the dish that words mean which was cooked lately and is in no line since; "" none.
func (t *turn) inPot(said string) (string, error) {
	said = strings.ToLower(said)
	dish, _, err := t.cooked(said)
	if err != nil || dish == "" {
		return "", err
	}
	if dish != said && dish != plural(said) && plural(dish) != said { // "chicken" is the raw one, as long as there is some
		if h := t.ear.find(said); h.exact && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 }) {
			return "", nil
		}
	}
	if l := t.k.Named(dish); l != nil && l.OnHand() > 0 {
		if anew, err := t.cookedSince(l, dish); err != nil || !anew {
			return "", err
		}
	}
	return dish, nil
}

// isPassing says whether an entry puts by what the next one takes away whole: then that says all.
func isPassing(entries []pantry.Entry, i int) bool {
	if i+1 >= len(entries) {
		return false
	}
	e, next := entries[i], entries[i+1]
	return e.Act == pantry.Make && e.Dish != "" && next.Line == e.Line && next.Amount == e.Amount && (next.Act == pantry.Bin || next.Act == pantry.Use)
}
