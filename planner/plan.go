package planner

import (
	"context"
	"errors"
)

// PlanAsk is a service to be planned: so many dishes for so many, in so many minutes.
type PlanAsk struct {
	Stock    []Stock
	Dishes   int
	Portions int
	Minutes  int
	Cooks    int            // 0: one
	Kit      map[string]int // nil: DefaultKit
	Needs    Needs          // of the table, hard limits
	Serve    Serve          // all of it hot, or cold
	Cold     int            // so many cold dishes at least
	Sweet    int            // so many of the dishes are sweet; 0: one at most, where there are three or more
	UseUp    []string       // items that are to be used to the last gram
	With     []string       // items that must be in one of the dishes
	Without  []string       // families of frame, and ways of cooking, "fried", that are not wanted
	Off      []string       // palettes that are not wanted
	Keep     []string       // Keys of dishes that are to stay
	Not      []string       // Keys of dishes of which none like it is wanted again
	Light    bool           // lighter plates
	Kcal     [2]float64     // energy of a portion, the least and the most; zero: that of the plate
	Turned   []Choice       // frames turned down
	Busy     []Busy         // kit and hands that are not free all the time
	Beside   []Planned      // dishes that are made besides: none is to be like them
	Out      []string       // names of foods that have run out, and cannot be got now
}

// Busy is kit, or a cook ("hands"), that is held for a while.
type Busy struct {
	What     string
	From, To int // minutes from now
}

// Plan is what to make of the crate, and when.
type Plan struct {
	Dishes   []Planned
	Minutes  int     // until all is ready
	Used     float64 // edible crate weight in dishes, of all that is free
	Bound    float64 // no plan uses more
	Proven   bool    // no plan is better under the rules of the package
	Left     []Use   // of the crate, that no dish takes; as purchased
	Relaxed  []string
	Cautions []string
}

// Planned is a dish of a plan.
type Planned struct {
	Key       string // tells it from other dishes that might be made
	Title     string
	Frame     string // id
	Palette   string // id; "" none
	Seasoned  string // the palette's name
	How       string
	Portions  int
	Grams     int // on the plate, a portion
	Kcal      int // a portion
	Serve     Serve
	Allergens []string
	Cautions  []string
	Uses      []Use // of the crate
	Cupboard  []Use
	Missing   []string // of these, what is not held
	Steps     []PlanStep
	Ready     int // minutes from the start
	Holds     []string
}

// PlanStep is a step of a plan with its time.
type PlanStep struct {
	ID      string // "a1": a is the dish, 1 the step
	Do      string
	Start   int // minutes from the start
	Minutes int
	HandsOn int
	Kit     []string
	Temp    int      // C; 0 none
	Shelves int      // of an oven, that its minutes are reckoned for: all of them where nothing else is in
	After   []string // IDs of steps that must have ended
	Within  []int    // for each of these, the most minutes that what it made may wait; negative any
	Cook    int      // whose hands, from 1; 0 nobody's
	Ends    bool     // the dish, or what is beside it, is ready after it
	Hold    int      // where it ends: minutes that this may wait for the others; negative any
	Else    []PlanWay
}

// PlanWay is another way to do a step of a plan, with kit that was there when it was made.
type PlanWay struct {
	Do      string
	Minutes int
	HandsOn int
	Kit     []string
	Temp    int
	Shelves int
	Wait    int // the most minutes that what it makes may wait for the next step; negative any
}

// What MakePlan cannot do.
var (
	ErrNothing  = errors.New("nothing is free to plan with")
	ErrNoDishes = errors.New("no such dishes can be made of what is free")
	ErrNoTime   = errors.New("no plan was found in the time given")
)

// MakePlan chooses dishes, shares the crate out among them and puts their steps into a
// timetable. It thinks until it has the best plan or ctx ends; progress, where not nil, is
// told of better plans and tighter bounds: shares of the crate.
//
// The rules: every dish is a frame with its roles filled as in fillings, seasoned with one
// of the palettes that suit it best; every portion is as plates says; no two dishes are of
// one family, in one palette or led by one food (nor is that beside another, or meat, fish
// or cheese in it), nor both smooth, with tinned pulses, in pastry, or on one sort of starch
// (where no such menu exists, Relaxed says which rule was given up); one of three or more may
// be sweet where none was asked for; times are reckoned for amounts near the top of what a
// dish may take. Under these Proven plans use the most edible weight, what spoils soon
// counting for more and what keeps for less, weighed against how well foods and seasoning
// suit, what is not held, and what is of the cupboard (worthOf, quality).
//
// A step is done in its usual way where there is kit for it; where not, in another of the
// table of ways; where the dishes could not be ready in time so, any step may be, but what
// has an oven stays in it.
func MakePlan(ctx context.Context, a PlanAsk, progress func(used, bound float64)) (Plan, error) {
	return makePlan(ctx, a, progress, false)
}

// makePlan is MakePlan; in haste it ends with ctx, and bounds nothing.
func makePlan(ctx context.Context, a PlanAsk, progress func(used, bound float64), haste bool) (Plan, error) {
	a.Cooks, a.Dishes, a.Portions = max(1, a.Cooks), max(1, a.Dishes), max(1, a.Portions)
	if a.Kit == nil {
		a.Kit = DefaultKit()
	}
	k := newKitchen(Ask{Stock: a.Stock, Minutes: max(1, a.Minutes), Kit: a.Kit, Portions: a.Portions, Turned: a.Turned, Needs: a.Needs, Serve: a.Serve})
	k.out = a.Out
	for _, w := range a.Without {
		if re := cookedBy[w]; re != nil {
			k.without = append(k.without, re)
		}
	}
	m := &menu{kitchen: k, ask: &a, progress: progress, haste: haste}
	if !m.weigh() {
		return Plan{}, ErrNothing
	}
	m.list()
	return m.choose(ctx)
}
