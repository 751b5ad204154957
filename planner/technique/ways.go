package technique

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Way is another way to do a step, with other kit: one row of ways.csv. It stands for
// every step with its kit and its words, of the frames and techniques it is of.
type Way struct {
	Kit, Words string
	Of         []string // ids of frames and techniques; nil all
	Foods      []string // foods or kinds: all that is in the step is one of them; nil any
	Most       float64  // grams that the step handles; 0 no limit
	To         string   // kit, one of Scarce or Plenty
	Temp       int      // C; 0 where none is set
	Says       string   // in place of Words
	Source     string

	hands, alone pace
}

// pace is minutes: times those of the usual way, plus some, plus some per 100 g.
type pace struct{ times, plus, per100 float64 }

//go:embed ways.csv
var waysCSV string

// waysHeader is the first line of ways.csv.
//
//	words   what the words of the step hold, and says is put in its place
//	of      ids of frames and techniques parted by "/"; empty: all
//	foods   what all food in the step is one of; "any"
//	hands   minutes fixed+per 100 g, or "*" and a factor on the usual ones, +minutes
//	alone   unattended minutes, or "*" and a factor, +minutes; an oven is heated in them
var waysHeader = []string{"kit", "words", "of", "foods", "most_g", "to", "temp", "hands", "alone", "says", "source"}

// Ways gives the embedded table. The slice belongs to the package: do not change it.
var Ways = sync.OnceValue(func() []Way {
	list, err := readWays(waysCSV)
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// readWays reads a table of ways. The first fault ends it, with file, line and reason.
func readWays(text string) (list []Way, err error) {
	err = eachRow("ways.csv", strings.NewReader(text), waysHeader, func(r *row) {
		kit := slices.Concat(Scarce, Plenty)
		w := Way{
			Kit: r.oneOf("kit", Scarce), Words: r.must("words"), To: r.oneOf("to", kit), Says: r.must("says"), Source: r.must("source"),
			hands: r.pace("hands"), alone: r.pace("alone"),
		}
		if of := r.text("of"); of != "" {
			w.Of = strings.Split(of, "/")
		}
		if r.must("foods") != "any" {
			w.Foods = r.list("foods")
		}
		if most := r.text("most_g"); most != "" {
			w.Most = r.number("most_g", most, 1, 10000)
		}
		if temp := r.text("temp"); temp != "" {
			w.Temp = int(r.number("temp", temp, 30, 300))
		}
		if w.To == w.Kit {
			r.fail("to", "is the kit of the usual way")
		}
		if (Step{What: w.Says}).Heats() {
			r.fail("says", "is what a step says that only brings kit to heat")
		}
		if w.To == "oven" && (w.Temp == 0 || w.alone.times != 0 || w.alone.plus < 15) {
			r.fail("to", "an oven has a temperature, and minutes in which it is heated too")
		}
		list = append(list, w)
	})
	return list, err
}

// pace reads "1.5+0.2", "9", "*1.2" or "*1+5": what follows a factor is minutes, what
// follows minutes is minutes per 100 g.
func (r *row) pace(column string) (p pace) {
	first, more, both := strings.Cut(r.must(column), "+")
	n := 0.0
	if both {
		n = r.number(column, more, 0, 60)
	}
	if factor, ok := strings.CutPrefix(first, "*"); ok {
		return pace{times: r.number(column, factor, 0, 10), plus: n}
	}
	if column == "alone" && both {
		r.fail(column, fmt.Sprintf("%q: unattended minutes do not grow with the grams", r.text(column)))
	}
	return pace{plus: r.number(column, first, 0, 600), per100: n}
}

// Is says whether it is a way to do a step of the frame or technique of that id.
func (w *Way) Is(id string, s Step) bool {
	return s.Kit == w.Kit && strings.Contains(s.What, w.Words) && (w.Of == nil || slices.Contains(w.Of, id))
}

// Takes says whether a food may be in a step that is done this way. What safety wants at
// the boil stays where it boils, and what it wants minutes of is in a pan or in the oven.
func (w *Way) Takes(s Subject) bool {
	if heat, boil, _ := Need(s); w.To != "ring" && (boil > 0 || heat == Boil) {
		return false
	}
	if w.To != "ring" && w.To != "oven" && LeastCook(s) > 0 {
		return false
	}
	return w.Foods == nil || slices.ContainsFunc(w.Foods, s.Is)
}

// Step gives the step done this way.
func (w *Way) Step(s Step) Step {
	s.What = strings.Replace(s.What, w.Words, w.Says, 1)
	s.Kit, s.Temp = w.To, w.Temp
	s.Fixed, s.Per100 = w.hands.times*s.Fixed+w.hands.plus, w.hands.times*s.Per100+w.hands.per100
	s.Unattended = w.alone.times*s.Unattended + w.alone.plus
	return s
}

// String gives a way for errors.
func (w *Way) String() string {
	return strconv.Quote(w.Words) + ": " + w.Kit + " to " + w.To
}
