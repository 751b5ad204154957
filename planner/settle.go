package planner

import (
	"context"
	"errors"
	"math"
	"slices"

	"scullion/pantry/measure"
	"scullion/planner/share"
	"scullion/planner/timetable"
)

// settle writes the plan down: amounts, and the best timetable for them.
func (m *menu) settle(ctx context.Context, r share.Result) (Plan, error) {
	var plan Plan
	used := make([]float64, len(m.lines))
	var chosen []*plate
	for i, n := range r.Chosen {
		x := m.plates[n]
		x.parts = slices.Clone(x.parts)
		m.pour(&x, r.Amounts[i], m.problemUses(&x), used)
		chosen = append(chosen, &x)
	}
	g, t, sure, err := m.timetable(ctx, chosen)
	if err != nil {
		return plan, err
	}
	plan.Minutes = t.Makespan
	sum := 0.0
	for _, grams := range used {
		sum += grams
	}
	plan.Used = sum / m.total
	plan.Proven = r.Proven && t.Proven && sure && !m.doubt
	for i, x := range chosen {
		m.kitchen.nameAll(&x.dish, g.steps[i], g.ways[i])
		plan.Dishes = append(plan.Dishes, m.planned(x, i, g, t))
	}
	for _, d := range plan.Dishes {
		for _, c := range d.Cautions {
			if !slices.Contains(plan.Cautions, c) {
				plan.Cautions = append(plan.Cautions, c)
			}
		}
	}
	assign(plan.Dishes, m.ask.Cooks)
	m.even(plan.Dishes)
	plan.Left = m.left(plan.Dishes)
	return plan, nil
}

// timetable finds the best timetable of dishes in their usual ways, or, where there is
// none, in any; sure says that it was right to look further.
func (m *menu) timetable(ctx context.Context, chosen []*plate) (g *agenda, t timetable.Result, sure bool, err error) {
	for _, all := range []bool{false, true} {
		wider := m.agendaOf(chosen, all)
		if all && !wider.isWider() {
			break
		}
		timing, cancel := m.atLeast(ctx, leastTiming)
		found, failed := timetable.Solve(timing, wider.problem)
		cancel()
		if !all || failed == nil {
			g, t, sure, err = wider, found, !all || errors.Is(err, timetable.ErrInfeasible) || errors.Is(err, timetable.ErrInvalid), failed
		}
		if err == nil || ctx.Err() != nil {
			break
		}
	}
	return g, t, sure, err
}

// even gives what whole grams have left of a line, where it is next to nothing, to the
// dish that takes most of it, and takes from that what they have added.
func (m *menu) even(dishes []Planned) {
	for _, i := range m.lines {
		l := &m.kitchen.lines[i]
		left := l.Free
		var most *Use
		for d := range dishes {
			for u := range dishes[d].Uses {
				if x := &dishes[d].Uses[u]; x.Item == l.Item {
					left -= x.Amount
					if most == nil || x.Amount > most.Amount {
						most = x
					}
				}
			}
		}
		if most != nil && left < max(scrap, min(wisp, most.Amount/20)) {
			most.Amount += left
		}
	}
}

// left gives what dishes leave of the crate, what spoils first at the head.
func (m *menu) left(dishes []Planned) (list []Use) {
	for _, i := range m.lines {
		l := &m.kitchen.lines[i]
		left := l.Free
		for _, d := range dishes {
			for _, u := range d.Uses {
				if u.Item == l.Item {
					left -= u.Amount
				}
			}
		}
		if left > 0 {
			list = append(list, l.use(left))
		}
	}
	return list
}

// problemUses gives the lines of a plate's draws as share has them, each once.
func (m *menu) problemUses(x *plate) (lines []int) {
	for _, d := range x.draws {
		if !slices.Contains(lines, d.line) {
			lines = append(lines, d.line)
		}
	}
	return lines
}

// pour puts the amounts that were shared out into the parts of a plate. What a line gives
// beyond its staples goes to its part.
func (m *menu) pour(x *plate, amounts []int64, lines []int, used []float64) {
	for j, line := range lines {
		grams := float64(amounts[j]) / 1000
		used[m.at[line]] += grams
		for _, d := range x.draws {
			if d.line == line && d.part < 0 {
				grams -= d.least
			}
		}
		for _, d := range x.draws {
			if d.line == line && d.part >= 0 {
				p := &x.parts[d.part]
				p.grams = grams
				p.amount = m.kitchen.lines[line].ap(grams)
			}
		}
	}
}

// scrap is what nobody weighs out: so little is not left behind; nor is a wisp, where twenty
// times as much goes into a dish. Common practice, no source.
const (
	scrap = 2500   // mg, or µl
	wisp  = 10_000 // mg, or µl
)

// ap gives so much edible weight as purchased, in whole grams, or eggs: all there is where
// next to nothing would be left.
func (l *line) ap(grams float64) measure.Amount {
	if l.whole {
		return min(l.Free, inWhole(l.Food, measure.Amount(grams*1000)))
	}
	a := measure.Amount(math.Floor(grams/l.share+1e-6)) * 1000
	if a >= l.Free-scrap {
		return l.Free
	}
	return a
}
