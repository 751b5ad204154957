package technique

import (
	_ "embed"
	"math"
	"strings"
	"sync"
)

//go:embed limits.csv
var limitsCSV string

// limits reads limits.csv: food, or kind of food, that takes over a dish if there
// is more of it.
var limits = sync.OnceValue(func() map[string]float64 {
	out := map[string]float64{}
	err := eachRow("limits.csv", strings.NewReader(limitsCSV), []string{"what", "grams", "source"}, func(r *row) {
		out[r.must("what")] = r.number("grams", r.text("grams"), 0.1, 1000)
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// paste is the frame in which herbs are what the sauce is made of.
const paste = "paste-pasta"

// Bears gives the grams of a food that a portion takes in a role, at most; see Most.
func (f *Frame) Bears(role int, s Subject) float64 {
	if f.ID == paste && f.Roles[role].Name == "sauce" {
		return math.Inf(1)
	}
	if f.ID == curry && role == f.Lead {
		return min(curryLead, Most(s))
	}
	if f.Roles[role].Heat == None && s.Is("wilting leaf") {
		return min(rawLeaf, Most(s))
	}
	if f.Roles[role].Heat == None && s.Is("allium") {
		return min(rawOnion, Most(s))
	}
	return Most(s)
}

// curry is the frame of curries, and curryLead the most grams of one food that leads it: its sauce
// weighs as much. Common practice, no source.
const (
	curry     = "coconut-curry"
	curryLead = 150
)

// rawOnion is the most grams of onion, of leaf or bulb, that a portion of a dish has raw. Common
// practice, no source.
const rawOnion = 25

// rawLeaf is the most grams of spinach and the like that a portion of a dish has raw. Common
// practice, no source.
const rawLeaf = 80

// Most gives the grams of a food (ml, where it is poured) that a portion of any
// dish takes, whatever the range of the role; +Inf where there is no such limit.
// What its own name says goes before what its kinds say.
func Most(s Subject) float64 {
	if g, ok := limits()[s.Name]; ok {
		return g
	}
	least := math.Inf(1)
	for _, k := range s.Kinds {
		if g, ok := limits()[k]; ok {
			least = min(least, g)
		}
	}
	return least
}
