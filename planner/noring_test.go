package planner

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// A kitchen with no ring, only oven, grill, microwave, kettle and blender, makes more than
// cold plates: two dishes of most crates.
func TestNoRing(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	kit := DefaultKit()
	delete(kit, "ring")
	full, dishes, frames := 0, 0, map[string]bool{}
	const crates = 25
	for range crates {
		a := PlanAsk{Stock: kept(r, delivery(r, 12, 12)), Dishes: 3, Portions: 4, Minutes: 60, Cooks: 2, Kit: kit} // bread is held, or nothing stands on it
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err != nil {
			continue
		}
		dishes += len(p.Dishes)
		if len(p.Dishes) == 3 {
			full++
		}
		for _, d := range p.Dishes {
			frames[d.Frame] = true
			for _, s := range d.Steps {
				if slices.Contains(s.Kit, "ring") {
					t.Errorf("%s: %q on a ring that is not there", d.Title, s.Do)
				}
			}
		}
	}
	t.Logf("%d of %d crates make 3 dishes, %d dishes of %d frames", full, crates, dishes, len(frames))
	if full < 5 || dishes < 40 || len(frames) < 15 {
		t.Errorf("only %d of %d crates make 3 dishes, %d dishes of %d frames", full, crates, dishes, len(frames))
	}
}
