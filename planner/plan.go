package planner

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/pantry/measure"
	"scullion/planner/share"
	"scullion/planner/technique"
	"scullion/planner/timetable"
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
	Sweet    int            // so many of the dishes are sweet
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
	After   []string // IDs of steps that must have ended
	Within  []int    // for each of these, the most minutes that what it made may wait; negative any
	Cook    int      // whose hands, from 1; 0 nobody's
	Ends    bool     // the dish, or what is beside it, is ready after it
	Hold    int      // where it ends: minutes that this may wait for the others; negative any
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
// one family, in one palette or led by one food, nor both smooth, with tinned pulses, in pastry, or on one
// sort of starch (where no such menu exists, Relaxed says which rule was given up); times are reckoned for
// amounts near the top of what a dish may take. Under these Proven plans use the most
// edible weight, what spoils soon counting for more, weighed against how well foods and
// seasoning suit, what is not held, and what is of the cupboard (worthOf, quality).
func MakePlan(ctx context.Context, a PlanAsk, progress func(used, bound float64)) (Plan, error) {
	a.Cooks, a.Dishes, a.Portions = max(1, a.Cooks), max(1, a.Dishes), max(1, a.Portions)
	if a.Kit == nil {
		a.Kit = DefaultKit()
	}
	k := newKitchen(Ask{Stock: a.Stock, Minutes: max(1, a.Minutes), Kit: a.Kit, Portions: a.Portions, Turned: a.Turned, Needs: a.Needs, Serve: a.Serve})
	m := &menu{kitchen: k, ask: &a, progress: progress}
	if !m.weigh() {
		return Plan{}, ErrNothing
	}
	m.list()
	return m.choose(ctx)
}

// menu is a plan being made.
type menu struct {
	*kitchen
	ask      *PlanAsk
	plates   []plate
	lines    []int   // of the crate, as share numbers them
	at       []int   // for each line of the kitchen its number there; -1 none
	stock    []int64 // edible milligrams
	weight   []int64
	total    float64 // edible grams of the crate
	progress func(used, bound float64)
	doubt    bool            // a timetable was not found in time, and may exist
	unfit    map[string]bool // choices that were found not to be ready in time with what they got
}

// urgencySteps is how finely it is told how soon food spoils.
const urgencySteps = 20

// weigh notes what there is of the crate, and what each gram is worth.
func (m *menu) weigh() bool {
	m.at = make([]int, len(m.kitchen.lines))
	for i := range m.kitchen.lines {
		l := &m.kitchen.lines[i]
		m.at[i] = -1
		if !l.Crate {
			continue
		}
		m.at[i] = len(m.lines)
		m.lines = append(m.lines, i)
		m.stock = append(m.stock, int64(l.edible()*1000))
		m.weight = append(m.weight, max(1, int64(urgencySteps*l.urgency+0.5)))
		m.total += l.edible()
	}
	return m.total > 0
}

// list finds the dishes that may be chosen: all that can be ready in time by themselves.
func (m *menu) list() {
	alone := map[string]bool{} // by clock: whether it can be ready in time
	for _, x := range m.kitchen.plates(m.ask) {
		key := m.keyOf(&x.dish)
		if slices.ContainsFunc(m.ask.Not, func(no string) bool { return isLike(no, key) }) && !slices.Contains(m.ask.Keep, key) {
			continue
		}
		x.nominal(m.kitchen)
		steps := m.kitchen.steps(&x.dish)
		x.clock, x.loads = clockOf(x.number, steps), loadsOf(steps)
		fits, known := alone[x.clock]
		if !known {
			fits = m.fitTogether([]*plate{&x})
			alone[x.clock] = fits
		}
		if fits {
			m.plates = append(m.plates, x)
		}
	}
}

// clockOf tells the times of a plate from those of others: of two that have the same, each
// may stand for the other in a timetable.
func clockOf(frame int, steps []Step) string {
	b := strconv.AppendInt(nil, int64(frame), 10)
	for _, s := range steps {
		b = append(b, s.Kit...)
		b = strconv.AppendInt(b, int64(s.Temp), 10)
		b = append(b, ' ')
		b = strconv.AppendInt(b, int64(s.whole), 10)
		b = append(b, '/')
		b = strconv.AppendInt(b, int64(s.hands), 10)
	}
	return string(b)
}

// nominal sets the amounts of a plate for which its times are reckoned: near the top of
// what it may take.
func (x *plate) nominal(k *kitchen) {
	least, most := x.sums()
	f := 0.0
	if most > least {
		f = min(1, (x.most-least)/(most-least))
	}
	for _, d := range x.draws {
		if d.part >= 0 {
			x.parts[d.part].grams = d.least + f*(d.most-d.least)
		}
	}
}

// keyOf names a dish by its frame, its foods, the leading one first, and its palette.
func (m *menu) keyOf(d *dish) string {
	var items []string
	for _, p := range d.parts {
		items = append(items, m.kitchen.lines[p.line].Item)
	}
	if len(items) > 1 {
		slices.Sort(items[1:])
	}
	palette := ""
	if d.blend >= 0 {
		palette = theBook().blends[d.blend].ID
	}
	return d.frame.ID + "|" + strings.Join(append(items, "~"+palette), "|")
}

// isLike says whether two Keys are of one frame led by one food.
func isLike(a, b string) bool {
	x, y := strings.SplitN(a, "|", 3), strings.SplitN(b, "|", 3)
	return len(x) == 3 && len(y) == 3 && x[0] == y[0] && x[1] == y[1]
}

// choose shares the crate out; a menu that cannot be had under all rules is sought under
// fewer.
func (m *menu) choose(ctx context.Context) (Plan, error) {
	if len(m.plates) == 0 {
		return Plan{}, ErrNoDishes
	}
	m.unfit = map[string]bool{}
	wish, asked, late, doubt := *m.ask, m.ask.Dishes, false, false
	for ; m.ask.Dishes > 0; m.ask.Dishes-- {
		m.ask.UseUp, m.ask.Cold = wish.UseUp, min(wish.Cold, m.ask.Dishes)
		var fewer []string
		if m.ask.Dishes < asked {
			fewer = append(fewer, noneOf(asked, doubt))
		}
		for _, w := range wishes {
			if w.drop != nil && !w.drop(m.ask) {
				continue
			}
			if w.given != "" {
				fewer = append(fewer, w.given)
			}
			relaxed := slices.Clone(fewer)
			for try, rule := range rules {
				if try > 0 {
					if m.ask.Dishes == 1 {
						break // it is alone
					}
					relaxed = append(relaxed, rule.given)
				}
				plan, err := m.under(ctx, try)
				if err == nil {
					plan.Relaxed = relaxed
					return plan, nil
				}
				if late = errors.Is(err, ErrNoTime); !late && !errors.Is(err, share.ErrInfeasible) {
					return plan, err
				}
				doubt = doubt || late
			}
		}
	}
	if late {
		return Plan{}, ErrNoTime
	}
	return Plan{}, ErrNoDishes
}

// noneOf says that so many dishes cannot be had; where that is in doubt, that they were not
// found.
func noneOf(dishes int, doubt bool) string {
	if doubt {
		return fmt.Sprintf("no %d such dishes were found in the time to think: more minutes or another cook may help", dishes)
	}
	return fmt.Sprintf("no %d such dishes can be made in the time, of what is free: more minutes or another cook may help", dishes)
}

// under makes the best plan under the rules of a try. What cannot be ready in time with
// the amounts that it got is not chosen again.
func (m *menu) under(ctx context.Context, try int) (Plan, error) {
	p := m.problem(try)
	for {
		sharing, cancel := sharingTime(ctx)
		r, err := share.ChooseWith(sharing, p, m.tell())
		cancel()
		if errors.Is(err, share.ErrNoneFound) {
			return Plan{}, ErrNoTime
		}
		if err != nil {
			return Plan{}, err
		}
		plan, err := m.settle(ctx, r)
		switch {
		case errors.Is(err, timetable.ErrNoneFound):
			return plan, ErrNoTime
		case err == nil:
			plan.Bound = max(plan.Used, min(m.bound(r.Bound), m.boundByWeight(ctx, p)))
			return plan, nil
		case !errors.Is(err, timetable.ErrInfeasible):
			return plan, err
		}
		m.unfit[fmt.Sprint(r.Chosen)] = true
	}
}

// sharingTime is the part of the time to think that sharing out may take: the timetable
// takes the rest.
func sharingTime(ctx context.Context) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	if !ok {
		return ctx, func() {}
	}
	return context.WithDeadline(ctx, end.Add(-time.Until(end)*3/5))
}

// rules are how much of the variety of a menu is asked for, the most first.
var rules = []struct {
	given string // the rule that was given up
	alike bool   // dishes may be alike in form, starch and pastry
	led   bool   // and be led by one food, and two hold tinned pulses
	kin   bool   // and be of one family, though not of one frame
}{
	{},
	{given: "dishes may be alike in form or starch", alike: true},
	{given: "one food may lead two dishes", alike: true, led: true},
	{given: "two dishes may be of one family", alike: true, led: true, kin: true},
}

// wishes are what was asked that is given up when no menu can be had with it, each on top
// of the one before; a menu without it is sought under all rules again.
var wishes = []struct {
	given string
	drop  func(*PlanAsk) bool // takes back what was asked; false where it was not
}{
	{},
	{given: "what was to be used up does not fit in whole", drop: func(a *PlanAsk) bool {
		had := len(a.UseUp) > 0
		a.UseUp = nil
		return had
	}},
	{given: "no cold dish can be had", drop: func(a *PlanAsk) bool {
		had := a.Cold > 0
		a.Cold = 0
		return had
	}},
}

// problem puts the menu into numbers.
func (m *menu) problem(try int) share.Problem {
	p := share.Problem{Stock: m.stock, Weight: m.weight, Choose: m.ask.Dishes, Candidates: make([]share.Candidate, len(m.plates))}
	groups := map[string][]int{}
	var cold, sweet []int
	kept := map[string][]int{}
	unit := m.quality()
	for i := range m.plates {
		x := &m.plates[i]
		c := &p.Candidates[i]
		c.Min, c.Max = int64(x.least*1000), int64(x.most*1000)
		c.Value = int64(x.worth * unit)
		for _, d := range x.draws {
			u := share.Use{Line: m.at[d.line], Min: int64(d.least * 1000), Max: int64(d.most * 1000)}
			if u.Max > m.stock[u.Line] {
				u.Max = m.stock[u.Line]
			}
			u.Min = min(u.Min, u.Max)
			if at := slices.IndexFunc(c.Uses, func(o share.Use) bool { return o.Line == u.Line }); at >= 0 {
				c.Uses[at].Min, c.Uses[at].Max = min(c.Uses[at].Min+u.Min, m.stock[u.Line]), min(c.Uses[at].Max+u.Max, m.stock[u.Line])
				continue
			}
			c.Uses = append(c.Uses, u)
		}
		c.Family = m.familyOf(x, rules[try].kin)
		for _, g := range m.sorts(x, try) {
			groups[g] = append(groups[g], i)
		}
		if x.page.cold {
			cold = append(cold, i)
		}
		if x.frame.Family == "sweet" {
			sweet = append(sweet, i)
		}
		if key := m.keyOf(&x.dish); slices.Contains(m.ask.Keep, key) {
			kept[key] = append(kept[key], i)
		}
	}
	names := make([]string, 0, len(groups))
	for g := range groups {
		names = append(names, g)
	}
	slices.Sort(names)
	for _, g := range names {
		most := 1
		if g == pulses && rules[try].led {
			most = 2
		}
		p.Groups = append(p.Groups, share.Group{Members: groups[g], Most: most})
	}
	if m.ask.Cold > 0 {
		p.Groups = append(p.Groups, share.Group{Members: cold, Least: m.ask.Cold, Most: m.ask.Dishes})
	}
	if m.ask.Sweet > 0 {
		p.Groups = append(p.Groups, share.Group{Members: sweet, Least: m.ask.Sweet, Most: m.ask.Sweet})
	}
	for _, key := range m.ask.Keep {
		if len(kept[key]) > 0 {
			p.Groups = append(p.Groups, share.Group{Members: kept[key], Least: 1, Most: 1})
		}
	}
	for _, item := range m.ask.With {
		p.Groups = append(p.Groups, share.Group{Members: m.holding(item), Least: 1, Most: m.ask.Dishes})
	}
	if len(m.ask.UseUp) > 0 {
		p.Least = make([]int64, len(m.stock))
		for at, i := range m.lines {
			if slices.ContainsFunc(m.ask.UseUp, func(item string) bool { return strings.EqualFold(item, m.kitchen.lines[i].Item) }) {
				p.Least[at] = m.stock[at]
			}
		}
	}
	m.load(&p)
	p.Fits = m.fits
	return p
}

// load tells how many minutes of hands and of each kit a plate takes, and how many there
// are: what is too much of any cannot be ready in time, whatever the timetable.
func (m *menu) load(p *share.Problem) {
	minutes := int64(max(1, m.ask.Minutes))
	p.Limits = []int64{int64(m.ask.Cooks) * minutes}
	for _, word := range technique.Scarce {
		n := m.ask.Kit[word]
		if word == "oven" {
			n *= shelves
		}
		p.Limits = append(p.Limits, int64(n)*minutes)
	}
	for _, b := range m.ask.Busy {
		if t, ok := m.held(b); ok {
			for i, n := range t.Needs {
				p.Limits[i] = max(0, p.Limits[i]-int64(n*t.Minutes))
			}
		}
	}
	for i := range m.plates {
		p.Candidates[i].Loads = m.plates[i].loads
	}
}

// loadsOf gives the minutes that steps hold hands and each kit. To heat an oven is not
// counted: it may be hot for another dish.
func loadsOf(steps []Step) []int64 {
	loads := make([]int64, 1+len(technique.Scarce))
	for i := range steps {
		s := &steps[i]
		loads[0] += int64(s.hands)
		if at := slices.Index(technique.Scarce, s.Kit); at >= 0 && !s.heats() {
			loads[1+at] += int64(s.whole)
		}
	}
	return loads
}

// holding lists the plates that take of a line.
func (m *menu) holding(item string) (list []int) {
	for i := range m.plates {
		if slices.ContainsFunc(m.plates[i].draws, func(d draw) bool { return strings.EqualFold(m.kitchen.lines[d.line].Item, item) }) {
			list = append(list, i)
		}
	}
	return list
}

// quality is what a perfect dish is worth beside what it uses: a tenth of what a large
// one can use. Of two plans that use about as much the one that suits better is taken,
// and a few grams more are no reason for a worse dish. The planner's own judgement, no
// source.
func (m *menu) quality() float64 {
	best := 0.0
	for i := range m.plates {
		best = max(best, m.plates[i].most)
	}
	most := int64(1)
	for _, w := range m.weight {
		most = max(most, w)
	}
	return best * 1000 * float64(most) * 0.1
}

// familyOf numbers what no two dishes of a menu may both be.
func (m *menu) familyOf(x *plate, kin bool) int {
	if kin {
		return x.number
	}
	return slices.Index(technique.FrameFamilies, x.frame.Family)
}

// pulses from a tin are in most cupboards, and would be in every dish.
const pulses = "tinned pulse"

// sorts names the sorts of dish that a plate is of, each of which a menu has once.
func (m *menu) sorts(x *plate, try int) (list []string) {
	if x.blend >= 0 {
		list = append(list, "palette "+theBook().blends[x.blend].ID)
	}
	if !rules[try].led && len(x.parts) > 0 {
		if l := &m.kitchen.lines[x.parts[0].line]; l.Crate {
			list = append(list, "led by "+l.Food.Name)
		}
	}
	if m.holds(x, pulses) {
		list = append(list, pulses)
	}
	if rules[try].alike {
		return list
	}
	if x.side != nil {
		list = append(list, "beside "+m.kitchen.lines[x.parts[len(x.parts)-1].line].Food.Name)
	}
	if x.frame.Form == "smooth" {
		list = append(list, "smooth")
	}
	for _, kind := range []string{"pasta", "pastry", "smoked fish", "rice", "noodle", "flatbread"} {
		if m.holds(x, kind) {
			list = append(list, kind)
		}
	}
	return list
}

// holds says whether there is food of a kind in a plate, of a line or bought.
func (m *menu) holds(x *plate, kind string) bool {
	return slices.ContainsFunc(x.parts, func(p part) bool { return isOf(m.kitchen.lines[p.line].Food, kind) }) ||
		slices.ContainsFunc(x.bought, func(b seasoning) bool { return isOf(m.kitchen.foodOf(b), kind) })
}

// tell passes on how far the sharing has come.
func (m *menu) tell() func(share.Result) {
	if m.progress == nil {
		return nil
	}
	return func(r share.Result) {
		used := 0.0
		for _, amounts := range r.Amounts {
			for _, a := range amounts {
				used += float64(a) / 1000
			}
		}
		m.progress(used/m.total, m.bound(r.Bound))
	}
}

// bound turns a bound on what is used by worth into one by weight: of all ways to reach
// that worth the one that weighs most takes what is worth least first, and no more than
// the largest dishes hold.
func (m *menu) bound(worth int64) float64 {
	order := make([]int, len(m.stock))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(m.weight[a] - m.weight[b]) })
	grams := 0.0
	left := float64(worth)
	for _, i := range order {
		take := min(float64(m.stock[i]), left/float64(m.weight[i]))
		grams += take / 1000
		left -= take * float64(m.weight[i])
	}
	var most []float64
	for i := range m.plates {
		most = append(most, m.plates[i].most)
	}
	slices.Sort(most)
	held := 0.0
	for _, g := range most[max(0, len(most)-m.ask.Dishes):] {
		held += g
	}
	return min(1, min(grams, held)/m.total)
}

// boundByWeight bounds what any plan uses where every gram counts alike. Timetables, which
// only take choices away, are left out of it.
func (m *menu) boundByWeight(ctx context.Context, p share.Problem) float64 {
	p.Fits, p.Weight, p.Candidates = nil, slices.Repeat([]int64{1}, len(m.stock)), slices.Clone(p.Candidates)
	for i := range p.Candidates {
		p.Candidates[i].Value = 0
	}
	ctx, cancel := context.WithTimeout(ctx, boundingTime)
	defer cancel()
	r, err := share.Choose(ctx, p)
	if err != nil && !errors.Is(err, share.ErrNoneFound) {
		return 1
	}
	return float64(r.Bound) / 1000 / m.total
}

// boundingTime is how long a bound by weight is thought about.
const boundingTime = 250 * time.Millisecond

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
	g := m.agendaOf(chosen)
	t, err := timetable.Solve(ctx, g.problem)
	if err != nil {
		return plan, err
	}
	plan.Minutes = t.Makespan
	sum := 0.0
	for _, grams := range used {
		sum += grams
	}
	plan.Used = sum / m.total
	plan.Proven = r.Proven && t.Proven && !m.doubt
	for i, x := range chosen {
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
		if most != nil && left < scrap {
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

// scrap is what nobody weighs out: so little is not left behind.
const scrap = 2500 // mg, or µl

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
