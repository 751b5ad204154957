package planner

import (
	"cmp"
	"regexp"
	"slices"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// The fillings of a frame are all ways to seat the crate's food in its roles. Roles that
// make the dish are tried with every set of foods up to mostTogether, and with one of the
// cupboard where the crate's do not suffice; small ones (minor) take what presses most, or the next. Of the fillings that one food leads, those are
// kept that can take most of what presses.
const (
	minor      = 40     // grams a portion: a role of no more is small
	mostTried  = 10_000 // fillings tried of a frame
	keptOfLead = 40     // fillings kept of those that one food leads
)

// filler tries the fillings of one frame.
type filler struct {
	*kitchen
	frame    *technique.Frame
	number   int
	portions float64
	order    []int    // of the roles
	ways     [][]way  // of each role in that order
	parts    []part   // as seated now
	gets     []needed // what must be bought for roles that no line fills
	tried    int
	found    []filling
}

// way is a set of lines in a role; neither seats nor buys: it stays empty.
type way struct {
	seats []seat
	buys  *needed
}

// needed is food that a role takes from a cupboard that does not hold it.
type needed struct {
	role int
	seasoning
}

// filling is a frame with its roles filled.
type filling struct {
	parts   []part
	gets    []needed
	presses float64 // how much of what must go first it can take
}

// fillings gives the fillings of a frame that are worth a look.
func (k *kitchen) fillings(number int, seats []seat, portions int) []filling {
	f := &technique.Frames()[number]
	x := &filler{kitchen: k, frame: f, number: number, portions: float64(portions), order: []int{f.Lead}}
	for pass := range 2 {
		for r, role := range f.Roles {
			if r != f.Lead && (role.Least > 0) == (pass == 0) {
				x.order = append(x.order, r)
			}
		}
	}
	for _, r := range x.order {
		ways := x.waysOf(r, seats)
		if len(ways) == 0 {
			return nil
		}
		x.ways = append(x.ways, ways)
	}
	x.fill(0)
	return x.best()
}

// waysOf gives the ways to fill a role.
func (x *filler) waysOf(r int, seats []seat) (ways []way) {
	role := &x.frame.Roles[r]
	need := role.Min * x.portions
	var crate, cupboard []seat
	for _, s := range seats {
		l := &x.lines[s.line]
		if s.role != r || !x.needs.allow(l.Food) || l.edible() < sliver[x.frame.Mixes]*need {
			continue
		}
		if l.Crate {
			crate = append(crate, s)
		} else if l.edible() >= need {
			cupboard = append(cupboard, s)
		}
	}
	slices.SortStableFunc(crate, func(a, b seat) int { return cmp.Compare(x.presses(r, b), x.presses(r, a)) })
	slices.SortStableFunc(cupboard, func(a, b seat) int { return cmp.Compare(b.grade, a.grade) })
	if onion := x.onionFor(role, crate, cupboard); onion != nil {
		ways = append(ways, way{seats: []seat{*onion}})
		for _, s := range crate[:min(len(crate), 2)] {
			if x.lines[s.line].Food.Group != "allium" {
				ways = append(ways, way{seats: []seat{*onion, s}})
			}
		}
	} else if role.Max <= minor && role.Least < 2 {
		for _, s := range crate[:min(len(crate), 2)] {
			ways = append(ways, way{seats: []seat{s}})
		}
	} else {
		ways = x.together(role, crate[:min(len(crate), 8)], cupboard[:min(len(cupboard), 2)])
	}
	if len(cupboard) > 0 && (role.Least > 0 || role.Name == "crunch") && (len(ways) == 0 || role.Max > minor) && role.Least < 2 {
		for _, s := range cupboard[:min(len(cupboard), 2)] {
			ways = append(ways, way{seats: []seat{s}})
		}
	}
	if role.Least == 0 && (len(ways) == 0 || role.Max > minor) {
		ways = append(ways, way{})
	}
	if len(ways) == 0 {
		if b := x.bought(r); b != nil {
			ways = append(ways, way{buys: b})
		}
	}
	return ways
}

// onionFor gives the onion that what seasons a dish begins with, where there is one: ginger
// comes to it, not in its place. Nil where the role is another, or wants none. Common practice,
// no source.
func (x *filler) onionFor(role *technique.FrameRole, crate, cupboard []seat) *seat {
	if role.Name != "season" || role.Least != 1 || role.Most < 2 || role.Heat == technique.None {
		return nil
	}
	for _, s := range slices.Concat(crate, cupboard) {
		if f := x.lines[s.line].Food; f.Group == "allium" && f.Keeper && f.Name != "garlic" {
			return &s
		}
	}
	return nil
}

// presses says how much a line in a role would do for the crate.
func (x *filler) presses(r int, s seat) float64 {
	l := &x.lines[s.line]
	return l.urgency * min(l.edible(), x.frame.Roles[r].Max*x.portions) * gradeWorth[s.grade]
}

// mostTogether is how many foods are tried together in a role, but for one that wants
// more, by how gladly the frame takes odds and ends.
var mostTogether = [...]int{1: 3, 2: 4, 3: 5}

// together gives the sets of crate lines that a role may take and that suffice for it,
// alone or with one of the cupboard.
func (x *filler) together(role *technique.FrameRole, crate, cupboard []seat) (ways []way) {
	most := min(role.Most, max(mostTogether[x.frame.Mixes], role.Least))
	for set := 1; set < 1<<len(crate); set++ {
		var seats []seat
		sum := 0.0
		for i, s := range crate {
			if set>>i&1 == 1 {
				seats = append(seats, s)
				sum += min(x.lines[s.line].edible(), role.Max*x.portions)
			}
		}
		need := role.Min * x.portions
		if len(seats) >= role.Least && len(seats) <= most && sum >= need {
			ways = append(ways, way{seats: seats})
			continue
		}
		for _, s := range cupboard {
			if n := len(seats) + 1; n >= role.Least && n <= most && sum < need && sum+x.lines[s.line].edible() >= need {
				ways = append(ways, way{seats: append(slices.Clone(seats), s)})
			}
		}
	}
	return ways
}

// larder are the kinds that stand in most cupboards: a dish may be led by what is held of
// them. Starches are those of which it may take much that is not held: rice can be got,
// but no dish is made of beans that nobody has. Common practice, no source.
var (
	starches = []string{"pasta", "rice", "grain", "noodle", "flour", "bread", "flatbread"}
	larder   = append([]string{"tinned pulse"}, starches...)
)

// bought gives what can be got for a role that no line fills: little of anything, and of
// a starch as much as it takes.
func (x *filler) bought(r int) *needed {
	role := &x.frame.Roles[r]
	for _, s := range role.Suits {
		f, _ := food.Default().Food(s.What)
		if f == nil || !x.needs.allow(f) || isOf(f, "bread", "flatbread") && isBread(x.frame) || (role.Max > mostBought || r == x.frame.Lead) && !isOf(f, starches...) {
			continue
		}
		grams := role.Min
		if role.Max > mostBought {
			grams = (role.Min + role.Max) / 2
		}
		return &needed{r, seasoning{Staple: technique.Staple{Names: []string{f.Name}, Amount: measure.Amount(grams * 1000), Unit: f.Unit}, heat: role.Heat, line: -1, role: r + 1}}
	}
	return nil
}

// breadDish finds in a frame's title that bread carries the dish: toast without bread is none,
// while eggs that want bread beside them are eggs without it.
var breadDish = regexp.MustCompile(`\b(bread|toast|toasted|flatbreads?)\b`)

func isBread(f *technique.Frame) bool { return breadDish.MatchString(f.Title) }

// fill seats the roles from the i-th on, in every way.
func (x *filler) fill(i int) {
	if x.tried >= mostTried {
		return
	}
	if i == len(x.order) {
		x.tried++
		x.keep()
		return
	}
	r := x.order[i]
	parts, gets := len(x.parts), len(x.gets)
	for _, w := range x.ways[i] {
		if x.seats(r, w) {
			x.fill(i + 1)
		}
		x.parts, x.gets = x.parts[:parts], x.gets[:gets]
	}
}

// seats puts lines into a role, if they go with what is there.
func (x *filler) seats(r int, w way) bool {
	if w.buys != nil {
		if f, _ := food.Default().Food(w.buys.Names[0]); x.holds(&dish{parts: x.parts}, f) {
			return false
		}
		x.gets = append(x.gets, *w.buys)
	}
	if x.frame.Roles[r].Least == 0 && len(w.seats) > 0 && len(x.parts)+len(w.seats) > mostFoods[x.frame.Mixes] {
		return false
	}
	d := dish{frame: x.frame, parts: x.parts}
	for _, g := range x.gets {
		d.bought = append(d.bought, g.seasoning)
	}
	for _, s := range w.seats {
		if !x.goesWith(&d, &x.lines[s.line], s.line) || x.isOnionToo(&d, &x.lines[s.line], r) {
			return false
		}
		d.parts = append(d.parts, part{line: s.line, role: r, grade: s.grade, says: s.says})
	}
	if x.isHeavy(&d) {
		return false
	}
	x.parts = d.parts
	return true
}

// isHeavy says whether two starchy roots or more lie with another starch, of which there is
// more than is strewn: potatoes and parsnips do not need dumplings too. Common practice, no
// source.
func (k *kitchen) isHeavy(d *dish) bool {
	roots, others := 0, 0
	for _, p := range d.parts {
		if f := k.lines[p.line].Food; isOf(f, "starchy root") {
			roots++
		} else if p.role != beside && d.frame.Roles[p.role].Max > minor && isOf(f, starches...) {
			others++
		}
	}
	if roots < 2 {
		return false
	}
	for _, b := range d.bought {
		if b.role > 0 && d.frame.Roles[b.role-1].Max > minor && isOf(k.foodOf(b), starches...) {
			others++
		}
	}
	return others > 0
}

// keep notes a filling that takes any of the crate, and is led by food of the crate or by
// what any larder has.
func (x *filler) keep() {
	if x.isOnions() || x.isBareSalad(x.frame, x.parts) {
		return
	}
	sum := 0.0
	for _, p := range x.parts {
		l := &x.lines[p.line]
		if l.Crate {
			sum += l.urgency * min(l.edible(), x.frame.Roles[p.role].Max*x.portions)
		} else if p.role == x.frame.Lead && !isOf(l.Food, larder...) {
			return
		}
	}
	if sum > 0 {
		x.found = append(x.found, filling{parts: slices.Clone(x.parts), gets: slices.Clone(x.gets), presses: sum})
	}
}

// isOnions says whether onions are what a dish is made of: nothing else leads it, two or more of
// them, or they fill a role of what is eaten by the fork. Soups, stews, omelettes and tarts may
// be so. Common practice, no source.
func (x *filler) isOnions() bool {
	if slices.Contains([]string{"soup", "stew", "egg", "bake"}, x.frame.Family) {
		return false
	}
	for r, role := range x.frame.Roles {
		onions, others, keepers := 0, 0, 0
		for _, p := range x.parts {
			if p.role != r {
				continue
			}
			if f := x.lines[p.line].Food; f.Group != "allium" {
				others++
			} else if onions++; f.Keeper {
				keepers++
			}
		}
		if onions > 0 && others == 0 && (r == x.frame.Lead && onions > 1 || keepers > 0 && keepers == onions && role.Min >= forked) {
			return true
		}
	}
	return false
}

// forked is from how many grams a portion on a role is eaten by the fork. Common practice, no
// source.
const forked = 100

// best gives the fillings to keep, those that take most of what presses first.
func (x *filler) best() (list []filling) {
	slices.SortStableFunc(x.found, func(a, b filling) int { return cmp.Compare(b.presses, a.presses) })
	led := map[int]int{}
	for _, f := range x.found {
		lead := -1
		if len(f.parts) > 0 {
			lead = f.parts[0].line
		}
		if led[lead]++; led[lead] <= keptOfLead {
			list = append(list, f)
		}
	}
	return list
}
