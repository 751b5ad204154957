package technique

import (
	"math"
	"slices"
)

// Grade says how well a technique fits a food.
type Grade int

const (
	ByKind Grade = iota // suits its kind
	Named               // suits the food by name
	Best                // what a cook thinks of first
)

// Fit is a technique made to measure for one food.
type Fit struct {
	*Technique
	Grade Grade
	Steps []Step   // the technique's, with this food's time and the safety rules' time
	Says  []string // cautions, the food's before the technique's
}

// Fit says whether the technique may be used for the food, and how. A food fits
// if suits names it outright, or if suits names one of its kinds and never
// names neither it nor a kind of it. Two things stand over that: what is barred
// for safety, and what the safety rules ask for.
func (t *Technique) Fit(s Subject) (Fit, bool) {
	grade, ok := grade(t.Suits, s)
	if !ok || barred(t.Suits, t.Never, s) {
		return Fit{}, false
	}
	heat, boil, says := Need(s)
	if t.Heat < heat {
		return Fit{}, false
	}
	f := Fit{t, grade, slices.Clone(t.Steps), says}
	f.setTime(s)
	f.setBoil(boil)
	if !f.setCook(LeastCook(s)) {
		return Fit{}, false
	}
	for _, c := range t.Caution {
		if c.Concerns(s) && !slices.Contains(f.Says, c.Says) {
			f.Says = append(f.Says, c.Says)
		}
	}
	return f, true
}

func grade(suits []Suit, s Subject) (g Grade, ok bool) {
	for _, suit := range suits {
		switch {
		case !s.Is(suit.What):
			continue
		case suit.Best:
			return Best, true
		case suit.What == s.Name:
			g, ok = Named, true
		default:
			ok = true
		}
	}
	return g, ok
}

func barred(suits []Suit, nevers []Never, s Subject) bool {
	named := slices.ContainsFunc(suits, func(suit Suit) bool { return suit.What == s.Name })
	for _, n := range nevers {
		if s.Is(n.What) && (n.Reason != "" || !named) {
			return true
		}
	}
	return false
}

// setTime puts the food's own minutes into the main step: those under its name
// before those under a kind of it.
func (f *Fit) setTime(s Subject) {
	for _, named := range []bool{true, false} {
		for _, t := range f.Times {
			if s.Is(t.What) && (t.What == s.Name) == named {
				f.Steps[f.Main].Unattended = t.Minutes
				return
			}
		}
	}
}

// setBoil lengthens the longest step at the boil to the least that is safe.
func (f *Fit) setBoil(minutes float64) {
	at := -1
	for i, s := range f.Steps {
		if s.boils() && (at < 0 || s.Unattended > f.Steps[at].Unattended) {
			at = i
		}
	}
	if at >= 0 {
		f.Steps[at].Unattended = max(f.Steps[at].Unattended, minutes)
	}
}

// setCook lengthens the longest step that cooks to the least that is safe, and says so. It
// is false where no step can: then the technique is not for the food.
func (f *Fit) setCook(minutes float64) bool {
	if minutes == 0 {
		return true
	}
	at := -1
	for i, s := range f.Steps {
		if s.Cooks() && (at < 0 || s.Unattended > f.Steps[at].Unattended) {
			at = i
		}
	}
	if at < 0 {
		return false
	}
	f.Steps[at].Unattended = max(f.Steps[at].Unattended, minutes)
	f.Steps[at].What = InLeast(f.Steps[at].What, "", minutes)
	return true
}

// MainMinutes gives the minutes that the main step takes for so many grams,
// hands and unattended together; 0 where there is none.
func (f *Fit) MainMinutes(grams float64) float64 {
	if f.Main < 0 {
		return 0
	}
	s := f.Steps[f.Main]
	if u := s.Unattended * growth(s, grams); u > 0 {
		return math.Round(u)
	}
	return math.Round(s.Hands(grams))
}
