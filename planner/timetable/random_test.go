package timetable

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// draw gives a number between two, both included.
type draw func(lo, hi int) int

func fromRapid(t *rapid.T) draw {
	return func(lo, hi int) int { return rapid.IntRange(lo, hi).Draw(t, "n") }
}

func fromSeed(seed int) draw {
	r := rand.New(rand.NewPCG(uint64(seed), 1))
	return func(lo, hi int) int { return lo + r.IntN(hi-lo+1) }
}

// fromBytes uses up bytes and then gives the least number.
func fromBytes(b []byte) draw {
	return func(lo, hi int) int {
		if len(b) == 0 {
			return lo
		}
		n := lo + int(b[0])%(hi-lo+1)
		b = b[1:]
		return n
	}
}

// seeds gives how many random problems to try: a tenth where little time is wanted.
func seeds(n int) int {
	if testing.Short() {
		return n / 10
	}
	return n
}

func (d draw) oneIn(n int) bool { return d(1, n) == n }

// size says how large a random problem is.
type size struct{ tasks, minutes, resources, units int }

// plainProblem has precedences and needs only.
func plainProblem(d draw, s size) Problem {
	var p Problem
	for range d(1, s.resources) {
		p.Capacity = append(p.Capacity, d(1, s.units))
	}
	for i := range d(1, s.tasks) {
		t := Task{Minutes: d(0, s.minutes), Needs: randomNeeds(d, p.Capacity)}
		for j := range i {
			if d.oneIn(4) {
				t.After = append(t.After, j)
			}
		}
		p.Tasks = append(p.Tasks, t)
	}
	return p
}

func randomNeeds(d draw, capacity []int) []int {
	if d.oneIn(8) {
		return nil
	}
	needs := make([]int, len(capacity))
	for r, c := range capacity {
		if d.oneIn(2) {
			needs[r] = d(0, c)
		}
	}
	return needs
}

func randomFor(d draw, capacity []int) []int {
	if !d.oneIn(3) {
		return nil
	}
	list := make([]int, len(capacity))
	for r := range list {
		list[r] = d(0, 3)
	}
	return list
}

// fullProblem uses every field there is.
func fullProblem(d draw, s size) Problem {
	p := plainProblem(d, s)
	if d.oneIn(2) {
		for range p.Capacity {
			p.Setting = append(p.Setting, d.oneIn(2))
		}
	}
	if d.oneIn(3) {
		p.Due = d(1, s.tasks*s.minutes)
	}
	for i := range p.Tasks {
		t := &p.Tasks[i]
		t.For = randomFor(d, p.Capacity)
		t.Setting = d(0, 2)
		if d.oneIn(4) {
			t.Earliest = d(0, 4)
		}
		if d.oneIn(4) {
			t.Latest = t.Earliest + t.Minutes + d(0, 6)
		}
		if d.oneIn(2) {
			for range t.After {
				t.Within = append(t.Within, d(-1, 3))
			}
		}
		if d.oneIn(2) {
			t.Weight = d(0, 3)
		}
		for range d(0, 3) / 2 {
			t.Else = append(t.Else, Mode{d(0, s.minutes), randomNeeds(d, p.Capacity), randomFor(d, p.Capacity), d(0, 2), d(0, 2)})
		}
		if len(t.Else) > 0 && t.Minutes > 0 && d.oneIn(4) { // its own way cannot be taken
			t.Needs = make([]int, len(p.Capacity))
			t.Needs[0] = p.Capacity[0] + 1
		}
	}
	return p
}
