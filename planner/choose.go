package planner

import (
	"context"
	"errors"
	"fmt"
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
	haste    bool
	alone    map[string]bool // by clock: whether it can be ready in time by itself
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
// the amounts that it got is not chosen again.
func (m *menu) under(ctx context.Context, try int) (Plan, error) {
	p := m.problem(try)
	for {
		sharing, cancel := m.atLeast(ctx, leastSharing)
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
			if m.haste {
				return plan, nil
			}
			plan.Bound = max(plan.Used, min(m.bound(r.Bound), m.boundByWeight(ctx, p)))
			return plan, nil
		case !errors.Is(err, timetable.ErrInfeasible):
			return plan, err
		}
		m.unfit[fmt.Sprint(r.Chosen)], m.doubt = true, true // with other amounts they might be
	}
}

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
