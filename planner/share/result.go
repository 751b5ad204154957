package share

import (
	"cmp"
	"fmt"
	"slices"
)

// result gives the outcome of a search that has run.
func (s *search) result() (Result, error) {
	switch {
	case s.best > nothing:
		return s.found(), nil
	case s.bound > nothing:
		return Result{Bound: s.bound}, fmt.Errorf("%w: %w", ErrNoneFound, s.ctx.Err())
	}
	return Result{}, ErrInfeasible
}

// report tells of the best choice as it stands.
func (s *search) report() {
	if s.progress != nil && s.best > nothing {
		s.progress(s.found())
	}
}

// found is the best choice with its amounts.
func (s *search) found() Result {
	s.flow.best(s.chosen)
	bound := max(s.bound, s.best)
	r := Result{Value: s.best, Bound: bound, Proven: bound == s.best}
	for _, k := range s.byIndex() {
		d := &s.m.dishes[s.chosen[k]]
		r.Chosen = append(r.Chosen, d.index)
		r.Amounts = append(r.Amounts, s.amounts(d, s.flow.arcs[s.flow.first[k]:s.flow.first[k+1]]))
	}
	return r
}

// byIndex gives the places of the chosen dishes in the order of candidates.
func (s *search) byIndex() []int {
	places := make([]int, len(s.chosen))
	for k := range places {
		places[k] = k
	}
	slices.SortFunc(places, func(a, b int) int { return cmp.Compare(s.chosen[a], s.chosen[b]) })
	return places
}

// amounts gives a dish's amounts in the order of the candidate's uses.
func (s *search) amounts(d *dish, arcs []arc) []int64 {
	uses := s.m.problem.Candidates[d.index].Uses
	amounts := make([]int64, len(uses))
	for i, u := range uses {
		for _, a := range arcs {
			if s.m.order[int(a.line)-len(s.chosen)] == u.Line {
				amounts[i] = a.amount
			}
		}
	}
	return amounts
}
