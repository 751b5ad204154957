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

	"scullion/planner/share"
	"scullion/planner/timetable"
)

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
	haste    bool            // it ends with the time to think, and bounds nothing
	alone    map[string]bool // by clock: whether it can be ready in time by itself
	doubt    bool            // a timetable was not found in time, and may exist
	unfit    map[string]bool // choices that were found not to be ready in time with what they got
	usual    bool            // dishes are to be ready in time in their usual ways
}

// A keeper that has days left weighs so much of what its days alone would: carried over it
// is no waste. The planner's own judgement, no source.
const (
	pressing = 3 // days
	keeping  = 0.6
)

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
		w := urgencySteps * l.urgency
		if l.Food.Keeper && l.Days > pressing {
			w *= keeping
		}
		m.weight = append(m.weight, max(1, int64(w+0.5)))
		m.total += l.edible()
	}
	return m.total > 0
}

// list finds the dishes that may be chosen: all that can be ready in time by themselves. In
// haste that is looked at when one is about to be chosen.
func (m *menu) list() {
	m.alone = map[string]bool{}
	for _, x := range m.kitchen.plates(m.ask) {
		key := m.keyOf(&x.dish)
		if slices.ContainsFunc(m.ask.Not, func(no string) bool { return isLike(no, key) }) && !slices.Contains(m.ask.Keep, key) {
			continue
		}
		x.nominal(m.kitchen)
		steps := m.kitchen.steps(&x.dish)
		x.clock, x.loads = clockOf(x.number, steps), loadsOf(steps)
		if m.haste || m.fitsAlone(&x) {
			m.plates = append(m.plates, x)
		}
	}
}

// fitsAlone says whether a dish can be ready in time by itself.
func (m *menu) fitsAlone(x *plate) bool {
	fits, known := m.alone[x.clock]
	if !known {
		fits = m.fitTogether([]*plate{x})
		m.alone[x.clock] = fits
	}
	return fits
}

// clockOf tells the times of a plate from those of others: of two that have the same, each
// may stand for the other in a timetable.
func clockOf(frame int, steps []Step) string {
	b := strconv.AppendInt(nil, int64(frame), 10)
	for i := range steps {
		b = steps[i].clock(b)
		for j := range steps[i].ways {
			b = steps[i].ways[j].clock(append(b, '|'))
		}
	}
	return string(b)
}

func (s *Step) clock(b []byte) []byte {
	b = append(b, s.Kit...)
	b = strconv.AppendInt(b, int64(s.Temp), 10)
	b = append(b, ' ')
	b = strconv.AppendInt(b, int64(s.whole), 10)
	b = append(b, '/')
	return strconv.AppendInt(b, int64(s.hands), 10)
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
	var given []string
	if m.ask.Sweet > 0 && m.ask.Dishes > m.ask.Sweet && !slices.ContainsFunc(m.plates, func(x plate) bool { return x.frame.Family == "sweet" }) {
		m.ask.Dishes, m.ask.Sweet = m.ask.Dishes-m.ask.Sweet, 0
		given = append(given, "nothing sweet can be made of what is free")
	}
	wish, asked, late, doubt := *m.ask, m.ask.Dishes, false, false
	for ; m.ask.Dishes > 0; m.ask.Dishes-- {
		m.ask.UseUp, m.ask.Cold = wish.UseUp, min(wish.Cold, m.ask.Dishes)
		fewer := slices.Clone(given)
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
					if m.ask.Dishes+len(m.ask.Beside) == 1 {
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
				if doubt = doubt || late; late && m.haste && ctx.Err() != nil {
					return plan, err
				}
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
// the amounts that it got is not chosen again; with no more in it than its times were
// reckoned for it can be, and is what there is when nothing better turns up soon. After some
// misses only what can be ready in the usual ways is chosen, for other ways depend more on
// amounts.
func (m *menu) under(ctx context.Context, try int) (Plan, error) {
	p := m.problem(try)
	m.usual = false
	var spare Plan
	worth := int64(math.MinInt64) // of the spare
	for misses := 1; ; misses++ {
		sharing, cancel := m.atLeast(ctx, leastSharing)
		r, err := share.ChooseWith(sharing, p, m.tell())
		cancel()
		switch {
		case spare.Dishes != nil && (err != nil || r.Value <= worth):
			return spare, nil
		case errors.Is(err, share.ErrNoneFound):
			return Plan{}, ErrNoTime
		case err != nil:
			return Plan{}, err
		}
		plan, err := m.settle(ctx, r)
		switch {
		case errors.Is(err, timetable.ErrNoneFound):
			return plan, ErrNoTime
		case err == nil:
			m.setBound(ctx, &plan, p, r)
			return plan, nil
		case !errors.Is(err, timetable.ErrInfeasible):
			return plan, err
		}
		m.unfit[fmt.Sprint(r.Chosen)], m.doubt = true, true // with other amounts they might be
		if less, ok := m.lessOf(ctx, p, r); ok && less.Value > worth {
			if plan, err := m.settle(ctx, less); err == nil {
				m.setBound(ctx, &plan, p, r)
				spare, worth = plan, less.Value
			}
		}
		if misses > mostMisses && spare.Dishes != nil {
			return spare, nil
		}
		if m.usual = misses >= mostMisses; m.usual && (ctx.Err() != nil || misses >= allMisses) {
			return Plan{}, ErrNoTime
		}
	}
}

// setBound notes how much no plan can use more than; in haste nobody asks.
func (m *menu) setBound(ctx context.Context, plan *Plan, p share.Problem, r share.Result) {
	if m.haste {
		return
	}
	plan.Bound = max(plan.Used, min(m.bound(r.Bound), m.boundByWeight(ctx, p)))
}

// lessOf shares out among those chosen once more, with no more of anything than their times
// were reckoned for.
func (m *menu) lessOf(ctx context.Context, p share.Problem, r share.Result) (share.Result, bool) {
	q := share.Problem{Stock: p.Stock, Weight: p.Weight, Least: p.Least, Choose: len(r.Chosen)}
	for _, n := range r.Chosen {
		x, c := &m.plates[n], p.Candidates[n]
		c.Uses, c.Loads, c.Max = slices.Clone(c.Uses), nil, 0
		for u := range c.Uses {
			most := 0.0
			for _, d := range x.draws {
				if m.at[d.line] != c.Uses[u].Line {
					continue
				}
				if d.part >= 0 {
					most += min(d.most, x.parts[d.part].grams)
				} else {
					most += d.most
				}
			}
			c.Uses[u].Max = max(c.Uses[u].Min, min(c.Uses[u].Max, int64(most*1000)))
			c.Max += c.Uses[u].Max
		}
		c.Max = min(c.Max, p.Candidates[n].Max)
		q.Candidates = append(q.Candidates, c)
	}
	ctx, cancel := m.atLeast(ctx, leastTiming)
	defer cancel()
	got, err := share.Choose(ctx, q)
	if err != nil {
		return got, false
	}
	for i := range got.Chosen {
		got.Chosen[i] = r.Chosen[got.Chosen[i]]
	}
	got.Proven = false
	return got, true
}

// mostMisses is how many choices may turn out not to be ready in time with the amounts that
// they got before less is tried, and allMisses how many before none is.
const (
	mostMisses = 3
	allMisses  = 30
)

// What sharing out, and a timetable, get at least, even where the candidates have taken all
// the time that there was to think: an answer somewhat late is better than none.
const (
	leastSharing = 500 * time.Millisecond
	leastTiming  = 250 * time.Millisecond
)

// atLeast gives two fifths of the time to think that is left, and so much at least, but in
// haste. Who cancels ends it at once.
func (m *menu) atLeast(ctx context.Context, least time.Duration) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	switch {
	case !ok:
		return context.WithCancel(ctx)
	case m.haste:
		return context.WithTimeout(ctx, time.Until(end)*2/5)
	}
	within, cancel := context.WithTimeout(context.WithoutCancel(ctx), max(time.Until(end)*2/5, least))
	stop := context.AfterFunc(ctx, func() {
		if errors.Is(ctx.Err(), context.Canceled) {
			cancel()
		}
	})
	return within, func() { stop(); cancel() }
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
