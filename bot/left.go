package bot

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// LeftLine is one food that is left, as `scullion left --json` prints it.
// Amounts are grams or millilitres.
type LeftLine struct {
	Item     string   `json:"item"`
	Shelf    string   `json:"shelf"`
	Unit     string   `json:"unit"`
	OnHand   float64  `json:"on_hand"`
	Claimed  float64  `json:"claimed"`
	Free     float64  `json:"free"`
	Short    float64  `json:"short,omitempty"`
	Pieces   *float64 `json:"pieces,omitempty"`
	Frozen   float64  `json:"frozen,omitempty"` // how much of on_hand is in the freezer here
	UseBy    string   `json:"use_by,omitempty"`
	Keeps    bool     `json:"keeps,omitempty"` // use_by is the food's usual keeping, not a label
	DaysLeft *int     `json:"days_left,omitempty"`

	k    *pantry.Kitchen
	line *pantry.Line
	days int
}

// Left lists what is on hand or claimed, what must go first on top: the crate
// before the cupboard, by date, then by how much there is.
func Left(k *pantry.Kitchen, today pantry.Date) []LeftLine {
	list := []LeftLine{}
	for _, l := range k.Lines {
		if l.OnHand() == 0 && l.Claimed() == 0 {
			continue
		}
		list = append(list, leftLine(k, l, today))
	}
	slices.SortStableFunc(list, func(a, b LeftLine) int {
		return cmp.Or(
			cmp.Compare(b2i(a.line.Shelf == food.Cupboard), b2i(b.line.Shelf == food.Cupboard)),
			cmp.Compare(a.days, b.days),
			cmp.Compare(b.OnHand, a.OnHand),
			cmp.Compare(a.Item, b.Item))
	})
	return list
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func leftLine(k *pantry.Kitchen, l *pantry.Line, today pantry.Date) LeftLine {
	s := LeftLine{Item: l.Name, Shelf: string(l.Shelf), Unit: l.Unit.String(), OnHand: l.OnHand().Units(), Claimed: l.Claimed().Units(),
		Free: l.Free().Units(), Short: l.Short().Units(), k: k, line: l, days: math.MaxInt32}
	if l.PieceMg() > 0 {
		n := math.Round(float64(l.Pieces())/100) / 10
		s.Pieces = &n
	}
	frozen, _ := l.In(food.Frozen)
	s.Frozen = frozen.Units()
	if date, label := l.Soonest(); date != "" {
		s.UseBy, s.Keeps = string(date), !label
		s.days = date.Days(today)
		d := s.days
		s.DaysLeft = &d
	}
	return s
}

// SayLeft puts the list in words, one food a line, the cupboard in one.
func SayLeft(list []LeftLine) string {
	var crate, cupboard []string
	for _, l := range list {
		if l.line.Shelf == food.Cupboard {
			cupboard = append(cupboard, l.Item+" "+measure.Say(l.line.OnHand(), l.line.Unit)+l.opened())
			continue
		}
		crate = append(crate, l.say())
	}
	if len(cupboard) > 0 {
		crate = append(crate, "Cupboard: "+strings.Join(cupboard, ", "))
	}
	if len(crate) == 0 {
		return "The pantry is empty. Take something in: \"got 2kg leeks\"."
	}
	return strings.Join(crate, "\n")
}

// SayFree is SayLeft for what no cook has claimed.
func SayFree(list []LeftLine) string {
	var crate, cupboard []string
	for _, l := range list {
		s := measure.Say(l.line.Free(), l.line.Unit) + " " + l.Item
		switch {
		case l.Free == 0:
		case l.line.Shelf == food.Cupboard:
			cupboard = append(cupboard, l.Item+" "+measure.Say(l.line.Free(), l.line.Unit))
		case l.Claimed > 0:
			crate = append(crate, s+l.freePieces()+" of "+measure.Say(l.line.OnHand(), l.line.Unit)+l.when())
		default:
			crate = append(crate, s+l.freePieces()+l.when())
		}
	}
	if len(cupboard) > 0 {
		crate = append(crate, "Cupboard: "+strings.Join(cupboard, ", "))
	}
	if len(crate) == 0 {
		return "Nothing is free. \"what's left?\" shows who has what."
	}
	return "Free:\n" + strings.Join(crate, "\n")
}

// say: "600 g leek, 400 g free (dee 200 g for the tart), 2 days".
func (l LeftLine) say() string {
	s := measure.Say(l.line.OnHand(), l.line.Unit) + " " + l.Item
	if l.OnHand == 0 {
		return "no " + l.Item + ", " + measure.Say(l.line.Short(), l.line.Unit) + " short (" + holders(l.k, l.line) + ")"
	}
	if l.Pieces != nil && l.OnHand > 0 {
		s += fmt.Sprintf(" (about %s)", measure.SayPieces(int64(*l.Pieces*1000)))
	}
	if l.Claimed > 0 {
		s += ", " + measure.Say(l.line.Free(), l.line.Unit) + " free (" + holders(l.k, l.line) + ")"
	}
	if l.Short > 0 {
		s += ", " + measure.Say(l.line.Short(), l.line.Unit) + " short"
	}
	return s + l.when() + l.frozen()
}

// frozen: ", 400 g of it frozen".
func (l LeftLine) frozen() string {
	switch a, _ := l.line.In(food.Frozen); {
	case a == 0:
		return ""
	case a == l.line.OnHand():
		return ", frozen"
	default:
		return ", " + measure.Say(a, l.line.Unit) + " of it frozen"
	}
}

// opened: " (400 g opened, 2 days)", of what else would stand in the cupboard.
func (l LeftLine) opened() string {
	a, lot := l.line.In(food.Opened)
	if a == 0 || lot.Date == "" {
		return ""
	}
	return " (" + measure.Say(a, l.line.Unit) + " opened" + l.when() + ")"
}

// freePieces: " (about 2)".
func (l LeftLine) freePieces() string {
	if l.Pieces == nil || l.OnHand == 0 {
		return ""
	}
	return fmt.Sprintf(" (about %s)", measure.SayPieces(int64(*l.Pieces*1000*l.Free/l.OnHand)))
}

// when: ", 2 days".
func (l LeftLine) when() string {
	switch {
	case l.DaysLeft == nil:
		return ""
	case *l.DaysLeft < 0:
		return ", past its date"
	case *l.DaysLeft == 0:
		return ", today"
	case *l.DaysLeft == 1:
		return ", 1 day"
	case *l.DaysLeft <= 14:
		return fmt.Sprintf(", %d days", *l.DaysLeft)
	}
	return ""
}

// Completions lists the names of foods and dishes that a cook may be typing.
func Completions(k *pantry.Kitchen) (list []string) {
	for _, l := range k.Lines {
		list = append(list, l.Name)
	}
	return append(list, k.Dishes...)
}
