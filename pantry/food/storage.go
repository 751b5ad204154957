package food

import (
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// storage.csv says how long food keeps in states that its row in foods.csv does
// not speak of. Figures are days, the shorter published one for safety; a row
// without one says that the label is all there is to go by.

//go:embed storage.csv
var storageCSV string

// State is how a food stands: as it was delivered, or what was done to it since.
type State string

// The states. Raw is as delivered, whatever it is.
const (
	Raw    State = "raw"
	Opened State = "opened" // its pack was
	Cooked State = "cooked"
	MadeUp State = "made up" // made here of several foods: a soup, a dip
	Frozen State = "frozen"  // here
	Thawed State = "thawed"
	// Uncooked was made up here of raw meat or fish, and is still raw: burgers, a marinade.
	Uncooked State = "uncooked"
)

// States lists them; the order is kept in files and is not to be changed.
var States = []State{Raw, Opened, Cooked, MadeUp, Frozen, Thawed, Uncooked}

// Guidance is what storage guidance says of a food in a state. It is a help:
// the label and the local rules go first.
type Guidance struct {
	What         string // what the figure is of: "cooked rice"
	Days         int    // whole days from the one on which it came into the state; 0 that day, or no figure
	Place        string // "fridge", "cupboard" or "freezer"
	Date         string // "use-by" (safety) or "best-before" (quality)
	Jurisdiction string // whose figure it is: "UK", "US", "UK/US", "Canada"; "" the food table's
	Caution      string
	Source       string // who says so, and "common practice, no source" where nobody does
}

// By is who says so, in short: "UK FSA", "UK common practice, no source".
func (g Guidance) By() string {
	if strings.HasPrefix(g.Source, "common practice") {
		return strings.TrimSpace(strings.ReplaceAll(g.Jurisdiction, "/", " and ") + " common practice, no source")
	}
	by, _, _ := strings.Cut(g.Source, ",")
	by, _, _ = strings.Cut(by, " (")
	if g.Jurisdiction != "" && !strings.Contains(by, g.Jurisdiction) && !strings.Contains(by, "UK") {
		return g.Jurisdiction + ", " + by
	}
	return by
}

// guide is a row of storage.csv.
type guide struct {
	Guidance
	of     string
	what   []string
	names  [][]string // of "name": the words, folded
	states []State
}

// Ways in which a row of storage.csv may say what it is of, the most telling first.
// "raw" is a name as well, of dishes that stay raw: what is made with them, as tartare sauce,
// is not. "dish" is a name that goes before another: a meat loaf is no bread.
var guideOf = []string{"raw", "dish", "name", "food", "kind", "group", "keeping", "any"}

var guides = sync.OnceValue(func() []guide {
	list, _ := readGuides("storage.csv", storageCSV) // the table is embedded; a test reads it and names any fault
	return list
})

func readGuides(name, text string) (list []guide, err error) {
	head := []string{"called", "what", "of", "state", "place", "days", "date", "jurisdiction", "caution", "source"}
	err = eachRow(name, strings.NewReader(text), head, func(rec []string) error {
		g, err := readGuide(rec)
		list = append(list, g)
		return err
	})
	return list, err
}

func readGuide(rec []string) (guide, error) {
	r := &row{}
	at := func(column string, i int) *row { r.column, r.cell = column, rec[i]; return r }
	g := guide{what: at("what", 1).list(), of: at("of", 2).oneOf(guideOf)}
	for _, s := range at("state", 3).list() {
		if g.states = append(g.states, State(s)); !slices.Contains(States[1:], State(s)) || State(s) == Frozen {
			r.fail(fmt.Sprintf("%q is no state with a row of its own", s))
		}
	}
	g.What, g.Place = strings.Clone(rec[0]), at("place", 4).oneOf(places)
	if at("days", 5); r.cell != "" {
		if g.Days = r.whole(mostDays); g.Days == 0 {
			r.fail("is empty where there is no figure")
		}
	}
	g.Date = at("date", 6).oneOf([]string{"use-by", "best-before"})
	g.Jurisdiction = at("jurisdiction", 7).oneOf([]string{"UK", "US", "UK/US", "Canada"})
	g.Caution, g.Source = strings.Clone(rec[8]), strings.Clone(rec[9])
	if g.isNamed() {
		for _, n := range g.what {
			g.names = append(g.names, folded(n))
		}
	}
	if r.err == nil && (g.What == "" || g.Source == "") {
		return g, errors.New("a row needs what it is called, and a source")
	}
	return g, r.err
}

// checkGuides says which food, kind or group of storage.csv the foods do not have.
func checkGuides(foods []Food) error {
	list, err := readGuides("storage.csv", storageCSV)
	if err != nil {
		return err
	}
	known := map[string]bool{"any any": true, "keeping use-by": true}
	for i := range foods {
		known["food "+foods[i].Name], known["group "+foods[i].Group] = true, true
		for _, k := range foods[i].Kinds {
			known["kind "+k] = true
		}
	}
	for _, g := range list {
		for _, w := range g.what {
			if !g.isNamed() && !known[g.of+" "+w] {
				return fmt.Errorf("storage.csv: %s: no %s is called %q", g.What, g.of, w)
			}
		}
	}
	return nil
}

// fits says whether the row is of a food, which may be nil, that goes by a name.
func (g *guide) fits(words []string, f *Food) bool {
	switch {
	case g.of == "any":
		return true
	case g.of == "raw" && len(words) > 0 && slices.Contains(besideRaw, words[len(words)-1]):
		return false
	case g.isNamed():
		return slices.ContainsFunc(g.names, func(n []string) bool { return sideBySide(words, n) })
	case f == nil:
		return false
	case g.of == "food":
		return slices.Contains(g.what, f.Name)
	case g.of == "kind":
		return slices.ContainsFunc(g.what, func(k string) bool { return slices.Contains(f.Kinds, k) })
	case g.of == "group":
		return slices.Contains(g.what, f.Group)
	}
	return f.Keeps.Place == "fridge" && f.Keeps.Date == "use-by"
}

// besideRaw end the name of what goes with a raw dish: "sushi rice" is cooked.
var besideRaw = []string{"sauce", "dressing", "rice", "vinegar", "ginger", "mayonnaise", "mayo"}

// sideBySide says whether part stands in words side by side.
func sideBySide(words, part []string) bool {
	for i := 0; i+len(part) <= len(words); i++ {
		if slices.Equal(words[i:i+len(part)], part) {
			return true
		}
	}
	return false
}

// Guidance is what storage guidance says of the food in a state and a place
// ("" where such food stands), for a jurisdiction, "UK" or "US"; false where it has no figure,
// and there may still be a caution. What is said of just such food goes before what is
// said of food in general, a figure of the jurisdiction's own before another's, and
// of several the shortest. By what is said of all opened food none keeps longer than it did
// closed.
func (f *Food) Guidance(state State, place, jurisdiction string) (Guidance, bool) {
	return Guide(f.Name, f, state, place, jurisdiction)
}

// Guide is Food.Guidance for what a kitchen calls by a name of its own, as "leek
// soup" or "cooked rice"; f may be nil.
func Guide(name string, f *Food, state State, place, jurisdiction string) (Guidance, bool) {
	if state == Frozen {
		state, place = Raw, "freezer"
	}
	if state == Raw {
		return f.asDelivered(place)
	}
	words := folded(name)
	var best *guide
	rank := 0
	for i := range guides() {
		g := &guides()[i]
		if !slices.Contains(g.states, state) || place != "" && g.Place != place || place == "" && g.Place == "freezer" && g.Days > 0 || !g.fits(words, f) {
			continue
		}
		own := 1
		if strings.Contains(g.Jurisdiction, jurisdiction) {
			own = 0
		}
		n := 2*slices.Index(guideOf, g.of) + own
		if best == nil || n < rank || n == rank && g.Days > 0 && (best.Days == 0 || g.Days < best.Days) {
			best, rank = g, n
		}
	}
	if best == nil {
		return Guidance{}, false
	}
	g := best.Guidance
	general := best.of == "keeping" || best.of == "any"
	if f != nil && state == Opened && general && f.Keeps.Date == "use-by" && f.Keeps.Days > 0 && (g.Days == 0 || f.Keeps.Days < g.Days) && f.Keeps.Place == "fridge" {
		closed, _ := f.asDelivered("")
		closed.Caution = g.Caution
		return closed, true
	}
	return g, g.Days > 0 || best.of == "raw"
}

// isNamed says whether a row is of food by what it is called.
func (g *guide) isNamed() bool { return g.of == "name" || g.of == "raw" || g.of == "dish" }

// IsMade says whether a name tells of food that is made up of others, of which
// storage guidance speaks: "leek soup", "garlic oil".
func IsMade(name string) bool {
	words := folded(name)
	return slices.ContainsFunc(guides(), func(g guide) bool {
		return g.isNamed() && slices.Contains(g.states, MadeUp) && g.fits(words, nil)
	})
}

// asDelivered is what the food's own row says.
func (f *Food) asDelivered(place string) (Guidance, bool) {
	if f == nil {
		return Guidance{}, false
	}
	g := Guidance{What: f.Name, Days: f.Keeps.Days, Place: f.Keeps.Place, Date: f.Keeps.Date, Source: f.keptBy()}
	switch place {
	case "", g.Place:
		return g, g.Days > 0
	case "freezer":
		g.Days, g.Date = f.Keeps.Freezer, "best-before"
	case "fridge":
		g.Days = f.Keeps.Fridge
	default:
		g.Days = f.Keeps.Cup
	}
	g.Place = place
	return g, g.Days > 0
}

// keptBy is the source of the figures of keeping, out of the food's own.
func (f *Food) keptBy() string {
	if _, s, ok := strings.Cut(f.Source, "keeping: "); ok {
		s, _, _ = strings.Cut(s, "; ")
		return s
	}
	return f.Source
}
