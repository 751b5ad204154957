package timetable

import "fmt"

// Limits that keep every sum of minutes, and every sum of weights times minutes, within 30 bits.
const (
	mostMinutes = 1 << 29 // of all tasks in their longest ways, after the last Earliest
	mostWaiting = 1 << 30
	mostUnits   = 1 << 20
)

func invalid(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrInvalid, fmt.Sprintf(format, args...))
}

// check refuses a problem that makes no sense or whose sums would overflow.
func check(p *Problem) error {
	for r, c := range p.Capacity {
		if c < 0 || c > mostUnits {
			return invalid("resource %d: capacity %d", r, c)
		}
	}
	if p.Setting != nil && len(p.Setting) != len(p.Capacity) {
		return invalid("%d resources but %d settings", len(p.Capacity), len(p.Setting))
	}
	if p.Due < 0 {
		return invalid("due at %d", p.Due)
	}
	for i := range p.Tasks {
		if err := checkTask(p, i); err != nil {
			return err
		}
	}
	return checkSums(p)
}

func checkTask(p *Problem, i int) error {
	t := &p.Tasks[i]
	switch {
	case t.Within != nil && len(t.Within) != len(t.After):
		return invalid("task %d: %d tasks before it but %d limits", i, len(t.After), len(t.Within))
	case t.Earliest < 0 || t.Earliest > mostMinutes:
		return invalid("task %d: earliest start %d", i, t.Earliest)
	case t.Latest < 0:
		return invalid("task %d: latest end %d", i, t.Latest)
	case t.Weight < 0 || t.Weight > mostWaiting:
		return invalid("task %d: weight %d", i, t.Weight)
	}
	for _, j := range t.After {
		if j < 0 || j >= len(p.Tasks) {
			return invalid("task %d: no task %d to come after", i, j)
		}
	}
	fits := 0
	for k := range 1 + len(t.Else) {
		ok, err := checkMode(p, i, modeOf(t, k))
		if err != nil {
			return err
		}
		if ok {
			fits++
		}
	}
	if fits == 0 {
		return invalid("task %d: needs more than there is", i)
	}
	return nil
}

// modeOf gives the way k of a task: 0 its own, k for Else[k-1].
func modeOf(t *Task, k int) Mode {
	if k == 0 {
		return Mode{Minutes: t.Minutes, Needs: t.Needs, For: t.For, Setting: t.Setting}
	}
	return t.Else[k-1]
}

// checkMode also says whether the capacities allow the mode.
func checkMode(p *Problem, i int, w Mode) (fits bool, err error) {
	switch {
	case w.Minutes < 0 || w.Minutes > mostMinutes:
		return false, invalid("task %d: %d minutes", i, w.Minutes)
	case w.Cost < 0 || w.Cost > mostWaiting:
		return false, invalid("task %d: cost %d", i, w.Cost)
	case w.Needs != nil && len(w.Needs) != len(p.Capacity):
		return false, invalid("task %d: %d resources but %d needs", i, len(p.Capacity), len(w.Needs))
	case w.For != nil && len(w.For) != len(p.Capacity):
		return false, invalid("task %d: %d resources but %d times they are held for", i, len(p.Capacity), len(w.For))
	}
	fits = true
	for r, u := range w.Needs {
		if u < 0 {
			return false, invalid("task %d: needs %d of resource %d", i, u, r)
		}
		if u > p.Capacity[r] {
			fits = false
		}
	}
	for r, f := range w.For {
		if f < 0 {
			return false, invalid("task %d: holds resource %d for %d minutes", i, r, f)
		}
	}
	return fits, nil
}

func checkSums(p *Problem) error {
	minutes, latest, weight, cost := 0, 0, 0, 0
	for i := range p.Tasks {
		t := &p.Tasks[i]
		longest, dearest := 0, 0
		for k := range 1 + len(t.Else) {
			longest, dearest = max(longest, modeOf(t, k).Minutes), max(dearest, modeOf(t, k).Cost)
		}
		minutes += longest
		latest = max(latest, t.Earliest)
		weight += t.Weight
		cost += dearest
		if minutes+latest > mostMinutes {
			return invalid("tasks %d to %d take more minutes than can be planned", 0, i)
		}
		if weight > mostWaiting || cost > mostWaiting {
			return invalid("weights add up to more than can be planned")
		}
	}
	if weight > 0 && minutes+latest > (mostWaiting-cost)/weight {
		return invalid("weights times minutes add up to more than can be planned")
	}
	return nil
}
