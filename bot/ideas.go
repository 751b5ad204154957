package bot

import (
	"fmt"
	"math"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// IdeaAsk says what ideas are wanted.
type IdeaAsk struct {
	Item     string         // for this line; "" any
	Minutes  int            // 0: the planner's usual
	Kit      map[string]int // nil: the planner's usual
	Portions int            // 0: what the amount is good for
	Serve    planner.Serve
	Needs    planner.Needs
	Turned   []planner.Choice // not these
	Menu     []planner.Choice // what is being made already
	Most     int              // 0: five
}

// Ideas computes what could be made of what is free, best first. Foods are those
// that this kitchen knows; see the function Foods.
func Ideas(k *pantry.Kitchen, foods *food.Catalogue, today pantry.Date, a IdeaAsk) []Idea {
	var list []Idea
	for _, i := range ideas(k, today, a, func(l *pantry.Line) *food.Food { return foodOf(foods, l) }) {
		list = append(list, i.Idea)
	}
	return list
}

// shown is an idea with what is told of it only when asked.
type shown struct {
	Idea
	Why   []planner.Reason
	Steps []step
}

// ideas is Ideas with a quicker way to a line's food, where there is one.
func ideas(k *pantry.Kitchen, today pantry.Date, a IdeaAsk, foodOf func(*pantry.Line) *food.Food) (list []shown) {
	if a.Most == 0 {
		a.Most = 5
	}
	for _, i := range planner.Ideas(planner.Ask{Stock: stock(k, today, foodOf), Minutes: a.Minutes, Kit: a.Kit, Focus: a.Item, Portions: a.Portions,
		Serve: a.Serve, Needs: a.Needs, Turned: a.Turned, Menu: a.Menu, Most: a.Most}) {
		list = append(list, shown{idea(i), i.Why, stepsOf(i.Steps)})
	}
	return list
}

// stock is the kitchen as the planner is handed it.
func stock(k *pantry.Kitchen, today pantry.Date, foodOf func(*pantry.Line) *food.Food) []planner.Stock {
	list := make([]planner.Stock, 0, len(k.Lines))
	for _, l := range k.Lines {
		fit, date := fitToUse(l, foodOf(l), today)
		free := min(l.Free(), fit)
		if free == 0 {
			continue
		}
		s := planner.Stock{Item: l.Name, Free: free, Unit: l.Unit, Crate: l.Shelf == food.Crate, Days: planner.Undated, Food: foodOf(l)}
		if l.Weighed() {
			s.Each = l.PieceMg()
		}
		if date != "" {
			s.Days = date.Days(today)
		}
		list = append(list, s)
	}
	return list
}

func idea(i planner.Idea) Idea {
	s := Idea{Title: i.Title, Technique: i.Technique, Palette: i.Palette, How: i.How, Minutes: i.Minutes, HandsOn: i.HandsOn, Kit: i.Kit, Portions: i.Portions,
		Allergens: i.Allergens, Cautions: i.Cautions, Uses: quantities(i.Uses), Cupboard: quantities(i.Cupboard)}
	if s.Kit == nil {
		s.Kit = []string{}
	}
	if s.Cautions == nil {
		s.Cautions = []string{}
	}
	return s
}

func quantities(uses []planner.Use) []Quantity {
	list := []Quantity{}
	for _, u := range uses {
		q := Quantity{Item: u.Item, Amount: u.Amount.Units(), Unit: u.Unit.String(), Cut: u.Cut}
		if n := float64(u.Amount) / float64(u.Each); u.Each >= smallest && n >= 0.25 && n <= mostCounted {
			q.Pieces = math.Round(n*2) / 2
			if n >= 3 {
				q.Pieces = math.Round(n)
			}
		}
		list = append(list, q)
	}
	return list
}

// mostUses is how many of what an idea uses are told on its line.
const mostUses = 4

// say: "charred leek wedges, mustard dressing, from 400 g leek (halves of 30 mm), for
// 4, 12 min (6 hands-on), ring."
func (i Idea) say() string {
	return fmt.Sprintf("%s, from %s, for %d, %s", i.Title, i.sayUses(mostUses), i.Portions, i.sayTime()) + i.warn()
}

// sayTime: "12 min (6 hands-on), ring."
func (i Idea) sayTime() string {
	s := fmt.Sprintf("%d min", i.Minutes)
	if i.HandsOn < i.Minutes {
		s += fmt.Sprintf(" (%d hands-on)", i.HandsOn)
	}
	if len(i.Kit) > 0 {
		s += ", " + strings.Join(i.Kit, " and ")
	}
	return s + "."
}

// warn: " Contains milk: check labels. Caution: hot oil."
func (i Idea) warn() (s string) {
	if len(i.Allergens) > 0 {
		s += " Contains " + both(i.Allergens, "and") + ": check labels."
	}
	if len(i.Cautions) > 0 {
		s += " Caution: " + strings.Join(i.Cautions, "; ") + "."
	}
	return s
}

func (q Quantity) say() string {
	unit, err := measure.ParseKind(q.Unit)
	if err != nil {
		return q.Item
	}
	return measure.Say(measure.Amount(math.Round(q.Amount*1000)), unit) + " " + q.Item
}

// What is small, or many, is weighed and not counted.
const (
	smallest    = 25_000 // mg
	mostCounted = 15
)

// sayUses: "400 g leek (halves of 30 mm), 20 g butter", and where there are more than
// most how many more. A cut that has no measure, "as it is", tells nothing.
func (i Idea) sayUses(most int) string {
	var uses []string
	for n, u := range i.Uses {
		if rest := len(i.Uses) - n; n == most-1 && rest > 1 {
			return strings.Join(uses, ", ") + fmt.Sprintf(" and %d more", rest)
		}
		s, more := u.say(), []string{}
		if u.Pieces > 0 {
			more = append(more, "about "+measure.SayPieces(int64(u.Pieces*1000)))
		}
		if strings.ContainsAny(u.Cut, "0123456789") {
			more = append(more, u.Cut)
		}
		if len(more) > 0 {
			s += " (" + strings.Join(more, "; ") + ")"
		}
		uses = append(uses, s)
	}
	return strings.Join(uses, ", ")
}

// SayIdeas puts ideas in words, one a line, numbered, with what each uses.
func SayIdeas(ideas []Idea) string { return sayIdeas(ideas, 1) }

func sayIdeas(ideas []Idea, from int) string {
	var list []string
	for n, i := range ideas {
		list = append(list, fmt.Sprintf("%d %s", n+from, title(i.say())))
	}
	return strings.Join(list, "\n")
}
