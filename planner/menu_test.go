package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"scullion/planner/share"
)

// On small menus every pair of dishes is tried, each with the best amounts for it and a
// timetable of its own: none is worth more than what is chosen and said to be proven.
func TestMenuAgainstAllPairs(t *testing.T) {
	r := rand.New(rand.NewPCG(11, *seed))
	compared, menus := 0, 60
	if testing.Short() {
		menus = 20
	}
	for range menus {
		a := PlanAsk{Stock: delivery(r, 6, 6), Dishes: 2, Portions: 2, Minutes: 20 + r.IntN(30), Cooks: 1 + r.IntN(2), Kit: DefaultKit()}
		m := &menu{kitchen: newKitchen(Ask{Stock: a.Stock, Kit: a.Kit, Minutes: a.Minutes, Portions: a.Portions}), ask: &a, unfit: map[string]bool{}}
		m.weigh()
		m.list()
		if len(m.plates) < 4 {
			continue
		}
		if len(m.plates) > 120 {
			keep := m.plates[:0]
			for i := 0; len(keep) < 120; i += max(1, len(m.plates)/120) {
				keep = append(keep, m.plates[i%len(m.plates)])
			}
			m.plates = keep
		}
		p := m.problem(0)
		got, err := share.Choose(context.Background(), p)
		if err != nil && !errors.Is(err, share.ErrInfeasible) {
			t.Fatal(err)
		}
		best, found := int64(0), false
		for i := range m.plates {
			for j := range i {
				v, ok := pairWorth(t, m, p, j, i)
				if ok && (!found || v > best) {
					best, found = v, true
				}
			}
		}
		if found != (err == nil) || found && (got.Value != best || !got.Proven) {
			t.Errorf("%d plates: the best pair is worth %d, %v; chosen %v, worth %d, proven %v, %v", len(m.plates), best, found, got.Chosen, got.Value, got.Proven, err)
		}
		if found {
			compared++
		}
	}
	if compared < menus/6 {
		t.Errorf("only %d menus compared", compared)
	}
}

// pairWorth gives what two plates are worth together, where they may be: the rules are
// looked up one by one, and only the amounts are left to share.
func pairWorth(t *testing.T, m *menu, p share.Problem, i, j int) (int64, bool) {
	if p.Candidates[i].Family == p.Candidates[j].Family {
		return 0, false
	}
	for _, g := range p.Groups {
		if slices.Contains(g.Members, i) && slices.Contains(g.Members, j) {
			return 0, false
		}
	}
	if !m.fitTogether([]*plate{&m.plates[i], &m.plates[j]}) {
		return 0, false
	}
	pair := []share.Candidate{p.Candidates[i], p.Candidates[j]}
	pair[0].Loads, pair[1].Loads = nil, nil // the timetable has looked at them
	r, err := share.Choose(context.Background(), share.Problem{Stock: p.Stock, Weight: p.Weight, Choose: 2, Candidates: pair})
	if errors.Is(err, share.ErrInfeasible) {
		return 0, false
	}
	if err != nil {
		t.Fatal(err)
	}
	return r.Value, true
}
