package bot

import (
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/measure"
	"scullion/planner"
)

// keep is what a dish of the plan that is on still needs of a line, and what it has.
type keep struct {
	dish, use int            // in the plan
	line      *pantry.Line   //
	need      measure.Amount // that has not gone in yet
	gets      measure.Amount // of that, what there is for it
	in        measure.Amount // that has gone in
	anew      bool           // it got more than was kept, of what is free
	cupboard  bool           // use is in Cupboard: nothing of it is claimed
	claim     measure.Amount // to be claimed with the plan, so that what was drawn since leaves gets
}

// lack is what is missing.
func (x *keep) lack() measure.Amount { return x.need - x.gets }

// claims is what a plan asks to keep of one line, and what became of it since.
type claims struct {
	t     *turn
	on    *running
	line  *pantry.Line
	was   pantry.Line    // before the plan
	since []pantry.Entry // of other messages
	list  []keep         // of the dishes that take of the line
}

// kept works out what the dishes of a plan still need and get. What is claimed for others is
// theirs; of the rest what has begun takes first.
func (t *turn) kept(on *running) (list []keep, err error) {
	said, err := t.book.Message(on.Message)
	if err != nil {
		return nil, err
	}
	entries, err := t.book.InForce(said)
	if err != nil {
		return nil, err
	}
	for _, l := range t.k.Lines {
		c := claims{t: t, on: on, line: l}
		for n, d := range on.Plan.Dishes {
			if on.Names[n] == "" { // it is about to go
				continue
			}
			for i, u := range d.Uses {
				if u.Item != l.Name {
					continue
				}
				x := keep{dish: n, use: i, line: l}
				for _, e := range entries {
					if e.Line == l.ID && e.Dish == on.Names[n] && e.Act == pantry.Claim {
						x.claim += e.Amount
					}
				}
				c.list = append(c.list, x)
			}
		}
		if len(c.list) == 0 {
			continue
		}
		if c.was, err = t.book.LineBefore(l.ID, said); err != nil {
			return nil, err
		}
		if c.since, err = t.book.Since(l.ID, said); err != nil {
			return nil, err
		}
		if err := c.settle(); err != nil {
			return nil, err
		}
		list = append(list, c.list...)
	}
	slices.SortStableFunc(list, func(a, b keep) int { return a.dish - b.dish })
	return list, nil
}

// mostTries is more often than a claim has to be made larger, each time twice, so that other
// uses of its cook, which draw on it first, leave what is needed.
const mostTries = 40

// settle finds what to claim so that every dish is left with what it gets.
func (c *claims) settle() error {
	for try := range mostTries {
		l, err := c.fold()
		if err != nil {
			return err
		}
		c.share(l)
		again := false
		for i := range c.list {
			x := &c.list[i]
			have := claimedFor(l, c.on.Names[x.dish])
			beyond := x.claim - c.want(x) // what others have drawn is made good
			x.anew = x.anew || try == 0 && x.claim > 0 && have < x.gets
			switch {
			case have < x.gets && have == 0 && x.claim > 0:
				x.claim *= 2
			case have < x.gets:
				x.claim += x.gets - have
			case have > x.gets && l.Short() > 0 && x.claim > 0 && !c.on.isOver(x.dish, c.t.m.At):
				x.claim = max(0, x.claim-(have-x.gets))
			case have > x.gets && beyond > 0:
				x.claim -= min(have-x.gets, beyond)
			default:
				continue
			}
			again = true
		}
		if !again {
			break
		}
	}
	return nil
}

// fold gives the line as it is with these claims, and notes what has gone into the dishes:
// what was said to, and of what no dish was named for, what their cooks may have meant.
func (c *claims) fold() (*pantry.Line, error) {
	l := c.was
	l.Lots, l.Holds = slices.Clone(c.was.Lots), slices.Clone(c.was.Holds)
	given := make([]measure.Amount, len(c.list))
	for i := range c.list {
		x := &c.list[i]
		x.in = 0
		if _, err := l.Apply(pantry.Entry{Act: pantry.Claim, Line: l.ID, Cook: c.on.Cook, Dish: c.on.Names[x.dish], Amount: x.claim}); err != nil {
			return nil, err
		}
	}
	for _, e := range c.since {
		before := make([]measure.Amount, len(c.list))
		for i := range c.list {
			before[i] = claimedFor(&l, c.on.Names[c.list[i].dish])
		}
		if _, err := l.Apply(e); err != nil {
			return nil, err
		}
		left := e.Amount
		for i := range c.list {
			x := &c.list[i]
			want := c.want(x) - given[i]
			switch {
			case e.Act == pantry.Use && e.Dish == c.on.Names[x.dish]:
				x.in += e.Amount
			case e.Act == pantry.Use && e.Dish == "" && x.in < want && c.on.hasBegun(x.dish, e.At):
				n := min(left, want-x.in)
				x.in, left = x.in+n, left-n
			case e.Act == pantry.Return && e.Dish == c.on.Names[x.dish]:
				x.in = max(0, x.in-e.Amount)
			case e.Act == pantry.Release && e.Cook == c.on.Cook:
				given[i] += before[i] - claimedFor(&l, c.on.Names[x.dish])
			}
		}
	}
	for i := range c.list {
		x := &c.list[i]
		x.need = max(0, c.want(x)-x.in-given[i])
	}
	return &l, nil
}

// want is what the plan puts into a dish.
func (c *claims) want(x *keep) measure.Amount {
	return measure.Amount(c.on.Plan.Dishes[x.dish].Uses[x.use].Amount*1000 + 0.5)
}

// share shares out what there is.
func (c *claims) share(l *pantry.Line) {
	free := l.OnHand()
	for _, h := range l.Holds {
		if !slices.ContainsFunc(c.list, func(x keep) bool { return c.on.Names[x.dish] == h.Dish }) {
			free -= h.Amount
		}
	}
	free = max(0, free)
	for _, begun := range []bool{true, false} {
		for i := range c.list {
			x := &c.list[i]
			if c.on.hasBegun(x.dish, c.t.m.At) != begun {
				continue
			}
			if c.on.isOver(x.dish, c.t.m.At) { // nobody said what went in
				x.need = min(x.need, claimedFor(l, c.on.Names[x.dish]))
			}
			x.gets = min(x.need, free)
			free -= x.gets
		}
	}
}

func claimedFor(l *pantry.Line, dish string) (sum measure.Amount) {
	for _, h := range l.Holds {
		if h.Dish == dish {
			sum += h.Amount
		}
	}
	return sum
}

// hasBegun says whether hands or heat have begun on a dish.
func (on *running) hasBegun(dish int, at time.Time) bool {
	d := toPlanner(&on.Plan.Dishes[dish])
	return d.HasBegun(on.minute(at))
}

// isOver says whether a dish is done by the timetable.
func (on *running) isOver(dish int, at time.Time) bool {
	return on.Plan.Dishes[dish].Ready <= on.minute(at)
}

// claim writes what a plan keeps down with the message that began it.
func (t *turn) claim(on *running, list []keep) error {
	said, err := t.book.Message(on.Message)
	if err != nil {
		return err
	}
	var entries []pantry.Entry
	for _, x := range list {
		if x.claim > 0 {
			entries = append(entries, pantry.Entry{Act: pantry.Claim, Line: x.line.ID, Amount: x.claim, Dish: on.Names[x.dish], Cook: on.Cook, At: on.Begun,
				Said: on.Plan.Dishes[x.dish].Uses[x.use].say(), Approx: true})
		}
	}
	was, err := t.book.InForce(said)
	if err != nil || sameClaims(was, entries) {
		return err
	}
	if _, err := t.book.Revise(said, t.said, pantry.Corrected, entries); err != nil {
		return err
	}
	return t.dishes(entries)
}

// sameClaims says whether two lists of claims keep the same.
func sameClaims(a, b []pantry.Entry) bool {
	type of struct {
		line int64
		dish string
	}
	sums := map[of]measure.Amount{}
	for _, e := range a {
		sums[of{e.Line, e.Dish}] += e.Amount
	}
	for _, e := range b {
		sums[of{e.Line, e.Dish}] -= e.Amount
	}
	for _, n := range sums {
		if n != 0 {
			return false
		}
	}
	return true
}

// toPlanner is a dish as the planner has it, as far as it wants to know it again.
func toPlanner(d *Planned) planner.Planned {
	x := planner.Planned{Key: d.Key, Title: d.Name, Frame: d.Frame, Palette: d.Palette, Serve: planner.Serve(d.Serve), Portions: d.Portions, Allergens: d.Allergens, Ready: d.Ready}
	for _, u := range d.Uses {
		x.Uses = append(x.Uses, planner.Use{Item: u.Item})
	}
	for _, u := range d.Cupboard {
		x.Cupboard = append(x.Cupboard, planner.Use{Item: u.Item})
	}
	for i := range d.Steps {
		x.Steps = append(x.Steps, d.Steps[i].step())
	}
	return x
}
