package timetable

import (
	"context"
	"testing"

	sat "github.com/crillab/gophersat/solver"
)

// TestAgainstOracle asks a SAT solver of other make whether plain problems can be done in the least makespan found,
// and not in less.
func TestAgainstOracle(t *testing.T) {
	open := 0 // problems that the first timetable and the critical path do not settle
	for seed := range seeds(150) {
		d := fromSeed(seed)
		p := plainProblem(d, size{tasks: 8 + d(0, 12), minutes: 6, resources: 3, units: 4})
		r, err := Solve(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		if first, err := First(context.Background(), p); err != nil || !first.Proven {
			open++
		}
		if !satisfiable(p, r.Makespan) {
			t.Errorf("seed %d: the oracle finds nothing within %d: %+v", seed, r.Makespan, p)
		}
		if satisfiable(p, r.Makespan-1) {
			t.Errorf("seed %d: the oracle finds less than %d: %+v", seed, r.Makespan, p)
		}
	}
	if open < seeds(20) {
		t.Errorf("only %d problems were worth asking about", open)
	}
}

// satisfiable encodes a plain problem by literals that say a task has started by some minute. Each literal is in a row
// once, and the solver is in its default mode: its cutting planes are not to be trusted in this version.
func satisfiable(p Problem, makespan int) bool {
	if makespan < 0 {
		return false
	}
	o := &oracle{started: make([][]int, len(p.Tasks))}
	for i := range p.Tasks {
		for range makespan + 1 {
			o.started[i] = append(o.started[i], o.literal())
		}
	}
	for i, t := range p.Tasks {
		latest := makespan - t.Minutes
		if latest < 0 {
			return false
		}
		o.clause(o.started[i][latest])
		for m := 1; m <= makespan; m++ {
			o.clause(-o.started[i][m-1], o.started[i][m])
		}
		for _, j := range t.After {
			for m := range makespan + 1 {
				if by := m - p.Tasks[j].Minutes; by < 0 {
					o.clause(-o.started[i][m])
				} else {
					o.clause(-o.started[i][m], o.started[j][by])
				}
			}
		}
	}
	for minute := range makespan {
		o.limit(p, minute)
	}
	problem := sat.ParsePBConstrs(o.rows)
	return problem.Status != sat.Unsat && sat.New(problem).Solve() == sat.Sat
}

type oracle struct {
	started [][]int
	rows    []sat.PBConstr
	last    int
}

func (o *oracle) literal() int { o.last++; return o.last }

func (o *oracle) clause(lits ...int) { o.rows = append(o.rows, sat.PropClause(lits...)) }

// limit keeps what runs at a minute within the capacities.
func (o *oracle) limit(p Problem, minute int) {
	running := make([]int, len(p.Tasks))
	for i, t := range p.Tasks {
		running[i] = o.literal()
		switch by := minute - t.Minutes; {
		case t.Minutes == 0:
		case by < 0:
			o.clause(-o.started[i][minute], running[i])
		default:
			o.clause(-o.started[i][minute], o.started[i][by], running[i])
		}
	}
	for k, capacity := range p.Capacity {
		var lits, weights []int
		for i, t := range p.Tasks {
			if t.Needs != nil && t.Needs[k] > 0 {
				lits, weights = append(lits, running[i]), append(weights, t.Needs[k])
			}
		}
		if len(lits) > 0 {
			o.rows = append(o.rows, sat.LtEq(lits, weights, capacity))
		}
	}
}
