package share_test

import (
	"math/rand/v2"

	"scullion/planner/share"
)

// menu makes a problem as a kitchen has it: lines in milligrams with weights by how soon they spoil, frames with a
// few roles that some of the lines can fill, a palette on each filled frame, and at most one of a frame, of a palette
// and of a leading line. Value is a matter of taste. The same seed gives the same problem.
func menu(seed uint64, lines, dishes, choose int) share.Problem {
	rng := rand.New(rand.NewPCG(seed, 1))
	p := share.Problem{Choose: choose}
	for range lines {
		p.Stock = append(p.Stock, 50_000+rng.Int64N(16)*50_000)
		p.Weight = append(p.Weight, 1000+rng.Int64N(9000))
	}
	const frames, palettes = 40, 25
	byPalette, byLead := make([][]int, palettes), make([][]int, lines)
	for frame := range frames {
		roles := 2 + rng.IntN(3)
		for range dishes / frames {
			c := share.Candidate{Family: frame, Min: 600_000, Max: 1_000_000, Value: -rng.Int64N(300_000_000)}
			c.Uses = fill(rng, lines, frame, roles)
			palette := rng.IntN(palettes)
			byPalette[palette] = append(byPalette[palette], len(p.Candidates))
			byLead[c.Uses[0].Line] = append(byLead[c.Uses[0].Line], len(p.Candidates))
			p.Candidates = append(p.Candidates, c)
		}
	}
	for _, members := range append(byPalette, byLead...) {
		p.Groups = append(p.Groups, share.Group{Members: members, Most: 1})
	}
	return p
}

// fill seats lines in the roles of a frame: about half of all lines suit a role.
func fill(rng *rand.Rand, lines, frame, roles int) (uses []share.Use) {
	taken := map[int]bool{}
	for role := range roles {
		for range 1 + rng.IntN(3) {
			line := rng.IntN(lines)
			if taken[line] || (line*7+frame*3+role*5)%4 < 2 {
				continue
			}
			taken[line] = true
			low := 20_000 + rng.Int64N(10)*10_000
			uses = append(uses, share.Use{Line: line, Min: low, Max: low * (2 + rng.Int64N(4))})
		}
	}
	if len(uses) == 0 {
		return []share.Use{{Line: frame % lines, Min: 100_000, Max: 900_000}}
	}
	return uses
}

// timetable stands in for one: each dish has minutes and kit of its own, two dishes that want the same kit for long do
// not go together, nor do dishes that take too long in all. calls counts.
func timetable(p *share.Problem, seed uint64, calls *int) {
	rng := rand.New(rand.NewPCG(seed, 2))
	minutes, kit := make([]int, len(p.Candidates)), make([]int, len(p.Candidates))
	for i := range minutes {
		minutes[i], kit[i] = 5+rng.IntN(25), rng.IntN(6)
	}
	p.Fits = func(chosen []int) bool {
		*calls++
		total, onKit := 0, [6]int{}
		for _, c := range chosen {
			total += minutes[c]
			onKit[kit[c]] += minutes[c]
		}
		for _, m := range onKit {
			if m > 35 {
				return false
			}
		}
		return total <= 16*p.Choose
	}
}
