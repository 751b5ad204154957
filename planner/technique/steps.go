package technique

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// steps reads the steps column with the after column.
func (r *row) steps() []Step {
	items := r.list("steps")
	if len(items) == 0 {
		r.fail("steps", "is empty")
		return nil
	}
	after := r.list("after")
	if after != nil && len(after) != len(items) {
		r.fail("after", fmt.Sprintf("%d entries for %d steps", len(after), len(items)))
		return nil
	}
	steps := make([]Step, len(items))
	for i, item := range items {
		steps[i] = r.step(item)
		steps[i].After = r.after(after, i)
	}
	r.heated(steps)
	return steps
}

// step reads "what|fixed+per 100 g|unattended|kit|temp".
func (r *row) step(s string) Step {
	f := strings.Split(s, "|")
	if len(f) != 5 || f[0] == "" {
		r.fail("steps", fmt.Sprintf("%q is not what|hands|unattended|kit|temp", s))
		return Step{}
	}
	fixed, per100, ok := strings.Cut(f[1], "+")
	if !ok {
		r.fail("steps", fmt.Sprintf("%q: hands are fixed+per 100 g", s))
	}
	step := Step{
		What: f[0], Kit: f[3],
		Fixed: r.number("steps", fixed, 0, 60), Per100: r.number("steps", per100, 0, 20),
		Unattended: r.number("steps", f[2], 0, 50000),
	}
	if !slices.Contains(Scarce, step.Kit) && !slices.Contains(Plenty, step.Kit) {
		r.fail("steps", fmt.Sprintf("%q: no kit is called %q", s, step.Kit))
	}
	if f[4] != "" {
		step.Temp = int(r.number("steps", f[4], 30, 300))
	}
	return step
}

// after gives the steps that step i waits for: those named, else the one before.
func (r *row) after(named []string, i int) []int {
	if named == nil {
		if i == 0 {
			return nil
		}
		return []int{i - 1}
	}
	if named[i] == "-" {
		return nil
	}
	var out []int
	for _, s := range strings.Split(named[i], "+") {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 || n > i {
			r.fail("after", fmt.Sprintf("%q does not name a step before step %d", s, i+1))
		}
		out = append(out, n-1)
	}
	return out
}

// heated refuses an oven that no step has brought to heat, or one without a
// temperature.
func (r *row) heated(steps []Step) {
	for i, s := range steps {
		if s.Kit != "oven" {
			continue
		}
		warm := slices.ContainsFunc(steps[:i], func(b Step) bool { return b.Kit == "oven" && b.Heats() })
		if s.Temp == 0 || (!s.Heats() && !warm) || (s.Heats() && s.Unattended < 5) {
			r.fail("steps", fmt.Sprintf("%q: an oven has a temperature, and a step before that heats it", s.What))
		}
	}
}

func (s Step) boils() bool { return s.Temp >= 98 && s.Kit == "ring" }

func (s Step) hot() bool {
	return slices.Contains([]string{"ring", "oven", "grill", "microwave", "kettle"}, s.Kit) && !s.Heats()
}
