package technique

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

// Wording is how a step is told, and how long it takes, for the food that is in it: one row
// of wordings.csv. A frame speaks of any food; a cook is told of this dish's, and never of
// butter or cheese that is not in it.
type Wording struct {
	Words  string   // what the words of the step hold
	Frames []string // and techniques; nil all
	Roles  []string // whose food is looked at; nil all that is in the step
	When   string   // one of Occasions
	Of     []string // foods or kinds; "any"
	Told   string   // in place of Words; "{foods}" those of them, "{rest}" the others
	Timed  bool     // the step takes minutes of its own
	Source string

	hands, alone pace
}

// Occasions are when a wording is for a step: any or all of the food in it, in its roles, is of
// what the row names, or none; or something in the dish is, its seasoning too, or nothing.
var Occasions = []string{"any", "all", "none", "in the dish", "not in the dish"}

//go:embed wordings.csv
var wordingsCSV string

// wordingsHeader is the first line of wordings.csv. Of rows with the same words the first
// that is for the dish is taken.
//
//	frames  ids of frames and techniques parted by "/"; empty: all
//	roles   roles parted by "+"; empty: all that the step handles or cooks
//	of      foods or kinds; "any"
//	hands   minutes as in ways.csv, of hands; empty, with alone: as they are
//	alone   the same, unattended
var wordingsHeader = []string{"words", "frames", "roles", "when", "of", "told", "hands", "alone", "source"}

// Wordings gives the embedded table. The slice belongs to the package: do not change it.
var Wordings = sync.OnceValue(func() []Wording {
	list, err := readWordings(wordingsCSV)
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// readWordings reads a table of wordings. The first fault ends it, with file, line and reason.
func readWordings(text string) (list []Wording, err error) {
	err = eachRow("wordings.csv", strings.NewReader(text), wordingsHeader, func(r *row) {
		w := Wording{Words: r.record[0], When: r.oneOf("when", Occasions), Told: r.record[slices.Index(r.columns, "told")], Source: r.must("source"), Frames: named(r.text("frames"))}
		r.must("words")
		if roles := r.text("roles"); roles != "" {
			w.Roles = strings.Split(roles, "+")
			for _, n := range w.Roles {
				if !slices.Contains(Roles, n) {
					r.fail("roles", "there is no role "+n)
				}
			}
		}
		if r.must("of") != "any" {
			w.Of = r.list("of")
		}
		if (r.text("hands") == "") != (r.text("alone") == "") {
			r.fail("hands", "minutes of hands and unattended ones go together")
		}
		if w.Timed = r.text("hands") != ""; w.Timed {
			w.hands, w.alone = r.pace("hands"), r.pace("alone")
		}
		if (Step{What: w.Told}).Heats() {
			r.fail("told", "is what a step says that only brings kit to heat")
		}
		list = append(list, w)
	})
	return list, err
}

// Is says whether a row is for a step of the frame or technique of that id.
func (w *Wording) Is(id string, s Step) bool {
	return strings.Contains(s.What, w.Words) && (w.Frames == nil || slices.Contains(w.Frames, id))
}

// About says whether a food is one that the row names. What safety wants at the boil keeps
// its minutes there.
func (w *Wording) About(s Subject) bool {
	if heat, boil, _ := Need(s); w.Timed && (boil > 0 || heat == Boil) {
		return false
	}
	return w.Of == nil || slices.ContainsFunc(w.Of, s.Is)
}

// Step gives the step in the minutes of the row.
func (w *Wording) Step(s Step) Step {
	if w.Timed {
		s.Fixed, s.Per100 = w.hands.times*s.Fixed+w.hands.plus, w.hands.times*s.Per100+w.hands.per100
		s.Unattended = w.alone.times*s.Unattended + w.alone.plus
	}
	return s
}

//go:embed uncut.csv
var uncutCSV string

// uncut reads uncut.csv: food, and kinds of food, that go in as they are.
var uncut = sync.OnceValue(func() map[string]bool {
	out := map[string]bool{}
	err := eachRow("uncut.csv", strings.NewReader(uncutCSV), []string{"what", "source"}, func(r *row) {
		out[r.must("what")] = true
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// Uncut says whether a food needs no knife: beans out of a tin, peas, eggs, cream.
func Uncut(s Subject) bool {
	return uncut()[s.Name] || slices.ContainsFunc(s.Kinds, func(k string) bool { return uncut()[k] })
}
