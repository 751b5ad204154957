package technique

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
)

// FrameFamilies are the families of frame, in the order of a menu.
var FrameFamilies = []string{
	"soup", "stew", "egg", "fry", "noodle", "pasta", "grain", "bake", "roast", "grill", "bread", "salad", "cold plate", "sweet",
}

// Serves are the ways a frame comes to the table.
var Serves = []string{"hot", "warm", "cold"}

// Forms are what a frame makes of the food that leads it.
var Forms = []string{"smooth", "pieces", "shreds", "whole", "crust"}

// Frame is the shape of a dish, one row of frames.csv: roles to fill with what
// there is, and the steps that make a plate of them. Roles are named by their
// index in Roles.
type Frame struct {
	ID      string // "blended-soup"
	Name    string // as a cook says it
	Family  string // one of FrameFamilies
	Serve   string // one of Serves
	Lead    int    // the role whose food leads
	Form    string // of the leading food, one of Forms
	Cuts    []Cut  // what the leading food is cut to, the first that is of it; none: it is left as it is
	Roles   []FrameRole
	Never   []Never // in any role, and in the seasoning
	Staples []Staple
	Steps   []Step
	Handles [][]int // for each step the roles whose grams it grows with; nil: with none
	Cooks   [][]int // for each step the roles that it cooks
	Holds   []string
	Mixes   int       // how gladly it takes odds and ends: 1 hardly, 3 that is what it is for
	Title   string    // with "{base}" and so on for the food, or two foods, of a role that is always filled
	How     string    // one line for a phone
	Caution []Caution // said with a dish of it, or with one that holds what it is of
	Source  string
}

// FrameRole is a place in a frame.
type FrameRole struct {
	Name        string // one of Roles
	Least, Most int    // number of foods; Least 0: the role may stay empty
	Min, Max    float64
	Suits       []Suit
	Heat        Heat    // how far the frame cooks what is in it
	Boil        float64 // the longest unattended minutes at the boil that it gets; 0 for none
}

//go:embed frames.csv
var framesCSV string

var frames = sync.OnceValue(func() []Frame {
	list, err := ReadFrames("frames.csv", strings.NewReader(framesCSV))
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// Frames gives the embedded frames. The slice belongs to the package: do not
// change it.
func Frames() []Frame { return frames() }

// Cut is what foods are cut to: "dice of 10 mm".
type Cut struct {
	Of []string // foods or kinds
	To string
}

// CutOf gives what the frame cuts a leading food to, "" where it is left as it is.
func (f *Frame) CutOf(s Subject) string {
	for _, c := range f.Cuts {
		if slices.ContainsFunc(c.Of, s.Is) {
			return c.To
		}
	}
	return ""
}

// Role gives the index of the role of that name, -1 for none.
func (f *Frame) Role(name string) int {
	return slices.IndexFunc(f.Roles, func(r FrameRole) bool { return r.Name == name })
}

// Fits says whether the food may fill the role, how well, and what to say of
// the food; the frame's own Caution comes on top. As with a technique, a food
// fits by name, or by kind unless never names it or a kind of it; and where it
// stands in for a food that is named, as if by kind. What is barred
// for safety, and what the safety rules ask for beyond the heat or the minutes
// at the boil that the role gets, does not fit at all; nor does what a role of
// one food would need more of than a dish can bear (Most).
func (f *Frame) Fits(role int, s Subject) (g Grade, says []string, ok bool) {
	r := &f.Roles[role]
	if g, ok = grade(r.Suits, s); !ok && !f.standsIn(role, s) || barred(r.Suits, f.Never, s) {
		return 0, nil, false
	}
	heat, boil, says := Need(s)
	if r.Heat < heat || r.Boil < boil || (r.Most == 1 && f.Bears(role, s) < r.Min) {
		return 0, nil, false
	}
	return g, says, true
}

// Takes says whether a palette may season the frame: sweet with sweet, nothing
// in it that the frame never takes, and no clash with what the frame always
// holds. What both name, salt or oil, is taken once, the larger amount.
func (f *Frame) Takes(p *Palette) bool {
	if p.Sweet != (f.Family == "sweet") {
		return false
	}
	for _, c := range p.Components {
		if known, ok := food.Default().Food(c.Food); ok && barred(nil, f.Never, Of(known, false)) {
			return false
		}
	}
	for _, st := range f.Staples {
		if known, ok := food.Default().Food(st.Names[0]); ok && p.Suits(Of(known, false)) < 0 {
			return false
		}
	}
	return true
}

// StepGrams gives the grams that a step handles, of the grams in each role.
func (f *Frame) StepGrams(step int, gramsByRole []float64) float64 {
	sum := 0.0
	for _, r := range f.Handles[step] {
		sum += gramsByRole[r]
	}
	return sum
}

// Skips says whether a step falls away because all the roles that it handles
// are empty.
func (f *Frame) Skips(step int, gramsByRole []float64) bool {
	return f.Handles[step] != nil && f.StepGrams(step, gramsByRole) == 0
}

// Minutes gives how long one cook with cold kit takes, and how much of it is
// hands-on, for so many grams in each role (all portions, edible raw weight).
// It reckons as Minutes does; steps that the dish skips take no time.
func (f *Frame) Minutes(gramsByRole []float64) (total, hands float64) {
	steps := slices.Clone(f.Steps)
	for i := range steps {
		if f.Skips(i, gramsByRole) {
			steps[i] = Step{Kit: "hands", After: steps[i].After}
		}
	}
	return minutes(steps, func(i int) float64 { return f.StepGrams(i, gramsByRole) })
}
