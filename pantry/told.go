package pantry

import (
	"strings"
	"time"
)

// Told is what a cook has said is in a dish, or in what a line is called, besides what was logged.
// It is taught as a Lesson, whose cells say so, and it is never a clearance of anything.
type Told struct {
	Name    string   // of the dish or the line
	Of      string   // what is in it, in words: "fish sauce"
	Holds   []string // which allergens of the 14 that brings; none of a food that holds none
	May     []string // which such food often carries
	By      string   // the cook, as entries call the cook
	At      time.Time
	Message int64
}

const toldHolds = "holds"

// Lesson is what was said as it is taught.
func (x Told) Lesson() Lesson {
	return Lesson{Name: x.Name, Cells: map[string]string{"name": x.Name, "told": toldHolds, "of": x.Of, "allergens": strings.Join(x.Holds, "+"), "may": strings.Join(x.May, "+"), "by": x.By, "at": x.At.UTC().Format(time.RFC3339)}}
}

// Told gives what was said is in a dish; ok is false where the lesson is none of that.
func (l Lesson) Told() (x Told, ok bool) {
	if l.Cells["told"] != toldHolds {
		return x, false
	}
	x = Told{Name: l.Name, Of: l.Cells["of"], By: l.Cells["by"], Message: l.Message}
	if a := l.Cells["allergens"]; a != "" {
		x.Holds = strings.Split(a, "+")
	}
	if a := l.Cells["may"]; a != "" {
		x.May = strings.Split(a, "+")
	}
	x.At, _ = time.Parse(time.RFC3339, l.Cells["at"]) // zero where it cannot be read: it is only shown
	return x, true
}

// ToldOf lists what was said is in what a line is called, in the order in which it was said.
func (k *Kitchen) ToldOf(line string) []Told {
	return k.told(func(name string) bool { return name == line })
}

// ToldOfDish lists what was said is in a dish. What was said of the satay is of the chicken satay
// too: who said it may have meant that.
func (k *Kitchen) ToldOfDish(dish string) []Told {
	return k.told(func(name string) bool { return name == dish || strings.HasSuffix(dish, " "+name) })
}

func (k *Kitchen) told(fits func(name string) bool) (list []Told) {
	for _, l := range k.Lessons {
		if x, ok := l.Told(); ok && fits(x.Name) {
			list = append(list, x)
		}
	}
	return list
}
