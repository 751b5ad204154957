// Package timetable finds what happens when, on which kit and by whose hands, so that all is done as early as can be
// and then as little as possible waits. It says how good its answer is: every result carries a proven lower bound.
//
// Solve is the one call; SolveFrom starts from an earlier timetable and tells of better ones on the way; First is
// content with any. The package knows tasks, resources and whole minutes, no food.
//
// A problem that has none of the optional limits gets its first timetable by serial schedule generation (first.go) and
// improvement (improve.go). What is open then, and everything else, is left to a search that decides, draws conclusions
// and learns from conflicts (engine.go, learn.go), over bounds of variables instead of Booleans (atom.go). How a problem
// becomes variables and rules is in post.go; what is tried in which order in solve.go.
package timetable

import (
	"context"
	"errors"
)

// Problem is a resource-constrained scheduling problem: to start every task so that precedences hold and no more of
// any resource is held at once than there is. What is sought is the least makespan, which is when the last task ends,
// and among the timetables with that makespan one with the least waiting, the sum over tasks of Weight times the
// minutes from its end to the makespan, and of the Cost of the modes taken.
//
// Everything but Capacity, Tasks, Minutes, Needs and After is optional: zero values make a plain problem. Minutes are
// counted from 0, where everything may start.
type Problem struct {
	Capacity []int // units of each resource
	Tasks    []Task

	// Setting says which resources have a setting, such as an oven its temperature; nil: none. Such a resource serves
	// tasks of one setting at a time and goes to each setting once: it is held by all its tasks of one setting before
	// or after all its tasks of another.
	Setting []bool

	Due int // the makespan must not exceed this minute; 0: no limit
}

// Task is one step: it runs without a break once it is started.
type Task struct {
	Minutes int   // duration, >= 0
	Needs   []int // units of each resource held while it runs; same length as Capacity, or nil: none
	After   []int // indexes of tasks that must have ended

	For      []int // of each resource, the first minutes for which its units are held; nil, 0 or too many: all through
	Within   []int // parallel to After: most minutes between that task's end and this start; nil or negative: any
	Earliest int   // not started before this minute
	Latest   int   // must have ended by this minute; 0: no limit
	Setting  int   // setting it wants of the resources that have one and that it needs
	Else     []Mode
	Weight   int // cost of each minute between its end and the makespan
}

// Mode is another way to do a task.
type Mode struct {
	Minutes int
	Needs   []int
	For     []int
	Setting int
	Cost    int // counts as waiting where the mode is taken
}

// Result is a timetable and how good it is.
type Result struct {
	Start    []int // start minute of each task
	Mode     []int // way of each task: 0 its own, k for Else[k-1]; nil if no task has another
	Makespan int
	Bound    int  // no timetable has a smaller makespan
	Proven   bool // Makespan is Bound

	Waiting       int  // sum of Weight x (Makespan - end), and of the Cost of modes
	WaitingBound  int  // no timetable with this makespan waits less
	WaitingProven bool // the makespan is proven and Waiting is WaitingBound
}

// What Solve cannot do.
var (
	ErrInvalid    = errors.New("timetable: invalid problem")                      // wrapped with the reason
	ErrInfeasible = errors.New("timetable: no timetable exists")                  // proven
	ErrNoneFound  = errors.New("timetable: stopped before a timetable was found") // wrapped with the cause; one may exist
)

// Solve gives the best timetable that is found before ctx ends, or the best there is if that can be proven earlier.
// The same problem gives the same answer wherever both objectives are proven. A few milliseconds pass at most between
// the end of ctx and the return.
//
// The error is ErrInvalid, ErrInfeasible or ErrNoneFound; in the last case Result.Bound still holds.
func Solve(ctx context.Context, p Problem) (Result, error) {
	return SolveFrom(ctx, p, Result{}, nil)
}

// SolveFrom is Solve with a timetable of a like problem to start from: of its Start and Mode whatever has the right
// length is used, as the first answer if it holds here and as advice if not. It calls progress, where not nil, with
// every better timetable and again whenever a bound grows. The last call comes before the return and may be less than
// what is returned.
func SolveFrom(ctx context.Context, p Problem, from Result, progress func(Result)) (Result, error) {
	m, err := newModel(&p)
	if err != nil {
		return Result{}, err
	}
	s := newSolver(ctx, m, progress)
	s.advise(from)
	s.run(false)
	return s.result()
}

// First gives a timetable at once, with a quick lower bound. For a plain problem that takes well under a millisecond;
// where there are windows, settings or other ways it is searched for until one is found or ctx ends. Errors are those
// of Solve.
func First(ctx context.Context, p Problem) (Result, error) {
	m, err := newModel(&p)
	if err != nil {
		return Result{}, err
	}
	s := newSolver(ctx, m, nil)
	s.run(true)
	return s.result()
}
