// Package share finds which dishes to make, and how much of what goes into each, so that as much worth as possible
// is used of a stock. It says how good its answer is: every result carries a proven upper bound.
//
// Choose is the one call; ChooseWith tells of better answers and tighter bounds on the way. The package knows lines,
// candidates and whole numbers, no food. Amounts may be in any one unit as long as it is the same throughout.
//
// For a fixed choice the amounts are a flow from dishes to lines whose worth is on the lines, solved exactly by the
// greedy method for polymatroids (amounts.go). The choice itself is found by a beam (beam.go), bettered in ever larger
// neighbourhoods (neighbourhood.go) and proven by depth-first branch and bound (search.go, bound.go).
package share

import (
	"context"
	"errors"
)

// Problem asks for exactly Choose of the candidates, at most one of each family, and an amount of each stock line for
// each chosen candidate. What is sought is the greatest sum of the Value of the candidates chosen and of Weight times
// the amount used of every line.
//
// Groups, Least, Limits and Fits are optional. No amount is negative, nor a weight; the worth of everything in stock and of
// any choice must fit into 58 bits even if each dish had the stock for itself.
type Problem struct {
	Stock      []int64 // amount free of each line
	Weight     []int64 // worth of using one unit of each line
	Choose     int     // how many candidates are chosen
	Candidates []Candidate

	Groups []Group // further sets of candidates of which few, or some, are chosen
	Least  []int64 // at least this much of each line is used in all; nil: none
	Limits []int64 // what the Loads of those chosen may come to, of each sort of load; nil: none

	// Fits says whether candidates may be chosen together, where numbers cannot say it; nil: always. It must be
	// monotone: false for a set means false for every set that holds it. It gets indexes in ascending order, in a
	// slice of its own, and is asked once for a set, and only where a choice would be the best so far or where one
	// that does not fit is cut down to what is to blame.
	Fits func(chosen []int) bool
}

// Candidate is a dish that may be made: a total between Min and Max, out of lines in amounts between bounds.
type Candidate struct {
	Family   int     // at most one candidate of a family is chosen; negative: no family
	Uses     []Use   // lines it can take, each named once
	Min, Max int64   // bounds on the candidate's total when chosen
	Value    int64   // worth of choosing it at all, may be negative
	Loads    []int64 // what it loads each of Limits with, not negative; nil: nothing
}

// Use bounds what a candidate takes of a line when it is chosen.
type Use struct {
	Line     int
	Min, Max int64
}

// Group says how many of its members are chosen: at least Least and at most Most, of which 0 is none at all.
type Group struct {
	Members     []int // indexes of candidates, each named once
	Least, Most int
}

// Result is a choice, an amount of each line for each candidate chosen, and how good it is.
type Result struct {
	Chosen  []int     // indexes of the chosen candidates, ascending
	Amounts [][]int64 // Amounts[i][j]: amount of Chosen[i]'s Uses[j]; where several are equally good, any of them
	Value   int64
	Bound   int64 // no choice has a greater value
	Proven  bool  // Value is Bound
}

// What Choose cannot do.
var (
	ErrInvalid    = errors.New("share: invalid problem")                   // wrapped with the reason
	ErrInfeasible = errors.New("share: no such choice exists")             // proven
	ErrNoneFound  = errors.New("share: stopped before a choice was found") // wrapped with the cause; one may exist
)

// Choose gives the best choice that is found before ctx ends, or the best there is if that can be proven earlier.
// The same problem gives the same answer wherever it is proven. A few milliseconds pass at most between the end of ctx
// and the return, and the longest call of Fits.
//
// The error is ErrInvalid, ErrInfeasible or ErrNoneFound; in the last case Result.Bound still holds.
func Choose(ctx context.Context, p Problem) (Result, error) {
	return ChooseWith(ctx, p, nil)
}

// ChooseWith is Choose and calls progress, where not nil, with every better choice found and with the best choice
// again whenever the bound shrinks. The last call has what is returned.
func ChooseWith(ctx context.Context, p Problem, progress func(Result)) (Result, error) {
	if err := check(&p); err != nil {
		return Result{}, err
	}
	s := newSearch(ctx, newModel(&p), progress)
	s.run()
	return s.result()
}
