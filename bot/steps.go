package bot

import (
	"fmt"
	"math"

	"scullion/planner"
)

// step is a step on the way to a dish, as it is told.
type step struct {
	Do      string
	Minutes int
	HandsOn int
	Kit     string
	Temp    int
}

func stepsOf(list []planner.Step) (steps []step) {
	for _, s := range list {
		steps = append(steps, step{Do: s.Do, Minutes: whole(s.Minutes), HandsOn: whole(s.HandsOn), Kit: s.Kit, Temp: s.Temp})
	}
	return steps
}

// whole gives the minutes that are told for a time: none is told as nothing.
func whole(minutes float64) int { return max(1, int(math.Round(minutes))) }

// say: "roast, turn once, 33 min (2 hands-on), oven 210 C".
func (s step) say() string {
	text := fmt.Sprintf("%s, %d min", s.Do, s.Minutes)
	if s.HandsOn == 0 {
		text += " by itself"
	} else if s.HandsOn < s.Minutes {
		text += fmt.Sprintf(" (%d hands-on)", s.HandsOn)
	}
	if s.Kit != "" {
		text += ", " + s.Kit
		if s.Kit == "oven" || s.Kit == "grill" {
			text += fmt.Sprintf(" %d C", s.Temp)
		}
	}
	return text
}
