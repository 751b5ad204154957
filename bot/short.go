package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
	"scullion/planner"
)

// A dish stands with less of a food: a tenth less always, a third less where what is on the
// plate is enough still. The planner's own judgement, no source.
const (
	lessAlways = 10
	lessAtMost = 3
)

// told are the lines that tell what became of a plan, and the times as they were.
type told struct {
	lines []string
	was   map[string]PlanStep
	ready int
	moved bool // the timetable is another
	anew  []int
}

// keepPlan sees to it, after what a message has done to the stock, that the dishes of the
// plan that is on have what they need. What does not is made with less, or gives way to
// another dish, as far as it has not begun; the room is told what changes.
func (t *turn) keepPlan(r Reply) (Reply, error) {
	if r.Kind != Log && len(r.Entries) == 0 && !t.m.Edit && !t.m.Delete && len(t.unsaid) == 0 {
		return r, nil
	}
	on, ok, err := t.running()
	if err != nil || !ok || on.Message == t.said.ID {
		return r, err
	}
	on.complete(t)
	x := told{was: on.times(), ready: on.Plan.Minutes}
	if err := t.putBack(&on, &x); err != nil {
		return r, err
	}
	if err := t.unstretch(&on, &x); err != nil {
		return r, err
	}
	if err := t.unturn(&on, &x); err != nil {
		return r, err
	}
	if err := t.mendPlan(&on, &x); err != nil {
		return r, err
	}
	if err := t.save(on); err != nil {
		return r, err
	}
	lines, err := t.tellMended(on, &x)
	if err != nil || len(lines) == 0 {
		return r, err
	}
	t.plain = false
	if r.Kind == Log { // what an idea would take may be kept by now
		r.Text, r.Ideas = r.Brief(), nil
	}
	r.Text = strings.TrimSpace(r.Text + "\n" + strings.Join(lines, "\n"))
	r.Timed = r.Timed || x.moved && t.m.Room != ""
	if r.Kind == Silent {
		r.Kind = Answer
	}
	return r, nil
}

// mendPlan keeps what there is for the dishes, and mends what has too little.
func (t *turn) mendPlan(on *running, x *told) error {
	ctx, cancel := context.WithTimeout(context.Background(), t.b.o.Think/mending)
	defer cancel()
	for range 2 * len(on.Plan.Dishes) { // a dish that comes in may do so but once
		again, err := t.mendOne(ctx, on, x)
		if err != nil || !again {
			return err
		}
	}
	return nil
}

// tellMended gives what is told of a plan that was mended, and sets its timers anew.
func (t *turn) tellMended(on running, x *told) ([]string, error) {
	if !x.moved {
		return x.lines, nil
	}
	lines := x.lines
	now := on.minute(t.m.At)
	for _, c := range on.changes(x.was, now) {
		lines = append(lines, t.sayChange(on, c, x.was[c.ID]))
	}
	ready := "All ready " + on.at(on.Plan.Minutes, t.m.At)
	switch late := on.Plan.Minutes - x.ready; {
	case x.ready == 0: // nothing was left of it
	case late > 0:
		ready += fmt.Sprintf(", %d min later", late)
	case late < 0:
		ready += fmt.Sprintf(", %d min earlier", -late)
	}
	ready += "."
	if len(x.anew) > 0 {
		ready += " " + sayHints(x.anew)
	}
	return append(lines, ready), t.retime(on)
}

// sayHints: "“dish 1” and “dish 3” tell more, “swap 1” looks for another."
func sayHints(dishes []int) string {
	var list []string
	for _, n := range slices.Compact(slices.Sorted(slices.Values(dishes))) {
		list = append(list, fmt.Sprintf(`"dish %d"`, n+1))
	}
	tell := "tells it"
	if len(list) > 1 {
		tell = "tell more"
	}
	return fmt.Sprintf(`%s %s, "swap %d" looks for another.`, both(list, "and"), tell, dishes[0]+1)
}

// times gives the steps of a plan by their names.
func (on *running) times() map[string]PlanStep {
	was := map[string]PlanStep{}
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			was[s.ID] = s
		}
	}
	return was
}

// mendOne keeps what there is for the dishes, and mends the first that has too little since;
// again says that it changed the plan.
func (t *turn) mendOne(ctx context.Context, on *running, x *told) (again bool, err error) {
	list, err := t.kept(on)
	if err != nil {
		return false, err
	}
	if err := t.claim(on, list); err != nil {
		return false, err
	}
	spice, err := t.ofCupboard(on)
	if err != nil {
		return false, err
	}
	list = append(list, spice...)
	var without, there []keep
	for n := range on.Plan.Dishes {
		var lacks []keep
		more := false
		for _, k := range list {
			if k.dish != n {
				continue
			}
			known := on.Short[on.shortKey(k.dish, k.line.Name)]
			body := t.isMainly(on, &k)
			switch lack := k.lack(); {
			case lack > known && !body:
				without = append(without, k)
			case lack > known:
				more = true
			case k.cupboard && lack == 0 && known > 0 && k.need > 0:
				there = append(there, k)
			case !k.cupboard && (lack < known || k.anew):
				x.lines = append(x.lines, t.sayKept(on, k))
			}
			if on.note(k); k.lack() > 0 && body {
				lacks = append(lacks, k)
			}
		}
		if !more || on.isOver(n, t.m.At) {
			continue
		}
		switch {
		case t.isAt(on, n, list):
			x.lines = append(x.lines, t.sayShort(on, n, lacks))
		case t.bearsLess(on, n, lacks):
			x.lines = append(x.lines, t.sayLess(on, n, lacks))
		default:
			x.lines = append(x.lines, slices.Concat(sayThere(there), t.sayWithout(on, without))...)
			return t.swapShort(ctx, on, x, n, lacks)
		}
	}
	x.lines = append(x.lines, slices.Concat(sayThere(there), t.sayWithout(on, without))...)
	return false, nil
}

// isAt says whether a dish has begun: by the timetable, or as something has gone into it.
func (t *turn) isAt(on *running, n int, list []keep) bool {
	return on.hasBegun(n, t.m.At) || slices.ContainsFunc(list, func(k keep) bool { return k.dish == n && k.in > 0 })
}

// shortKey is by what a shortage is known again.
func (on *running) shortKey(dish int, item string) string { return on.Names[dish] + "/" + item }

// note remembers what a dish lacks, so that it is told once.
func (on *running) note(k keep) {
	if on.Short == nil {
		on.Short = map[string]measure.Amount{}
	}
	key := on.shortKey(k.dish, k.line.Name)
	if on.Short[key] = k.lack(); k.lack() == 0 {
		delete(on.Short, key)
	}
}

// forget forgets what a dish lacked that is on no more.
func (on *running) forget(name string) {
	for k := range on.Short {
		if strings.HasPrefix(k, name+"/") {
			delete(on.Short, k)
		}
	}
}

// bearsLess says whether a dish can be made with so much less.
func (t *turn) bearsLess(on *running, n int, lacks []keep) bool {
	d := &on.Plan.Dishes[n]
	few := true
	for _, k := range lacks {
		want := measure.Amount(on.amount(&k).Amount * 1000)
		if k.lack()*lessAtMost > want {
			return false
		}
		few = few && k.lack()*lessAlways <= want
	}
	least := planner.Main.Grams[0]
	switch {
	case on.Wish.Lighter:
		least = planner.Lighter.Grams[0]
	case float64(d.Grams) < least:
		least = planner.Pudding.Grams[0]
	}
	less := t.less(on, n)
	return few || float64(less.Grams) >= least
}

// less gives a dish as it is with what it lacks.
func (t *turn) less(on *running, n int) Planned {
	d := on.Plan.Dishes[n]
	d.Uses, d.Cupboard = slices.Clone(d.Uses), slices.Clone(d.Cupboard)
	for i := range len(d.Uses) + len(d.Cupboard) {
		u := d.quantity(i)
		l := t.k.Named(u.Item)
		lack := on.Short[on.shortKey(n, u.Item)].Units()
		if l == nil || lack == 0 || u.Amount == 0 {
			continue
		}
		if lack >= u.Amount {
			d.Missing = append(slices.Clone(d.Missing), u.Item)
		}
		u.Pieces *= 1 - lack/u.Amount
		u.Amount -= lack
		grams, kcal := lack, 0.0
		if f := t.ear.foodOf(l); f != nil {
			grams *= f.Edible().Float()
			kcal = grams * f.Kcal / 100
		}
		d.Grams -= int(grams / float64(max(1, d.Portions)))
		d.Kcal -= int(kcal / float64(max(1, d.Portions)))
	}
	d.Uses, d.Cupboard = slices.DeleteFunc(d.Uses, isNone), slices.DeleteFunc(d.Cupboard, isNone)
	return d
}

func isNone(q Quantity) bool { return q.Amount <= 0 }

// quantity gives the i-th of what goes in: of the crate, then of the cupboard.
func (d *Planned) quantity(i int) *Quantity {
	if i < len(d.Uses) {
		return &d.Uses[i]
	}
	return &d.Cupboard[i-len(d.Uses)]
}

// dishCalled: "2, the leek tart".
func (on *running) dishCalled(n int) string {
	return fmt.Sprintf("%d, the %s", n+1, Idea{Title: on.Plan.Dishes[n].Name}.name())
}

// sayKept: "Kept again for 2, the leek tart: 300 g leek."
func (t *turn) sayKept(on *running, k keep) string {
	return "Kept again for " + on.dishCalled(k.dish) + ": " + measure.Say(k.gets, k.line.Unit) + " " + k.line.Name + "."
}

// sayLess: "2, the leek tart, gets 250 g leek instead of 300 g."
func (t *turn) sayLess(on *running, n int, lacks []keep) string {
	var list []string
	for _, k := range lacks {
		list = append(list, fmt.Sprintf("%s %s instead of %s", measure.Say(k.gets+k.in, k.line.Unit), k.line.Name, measure.Say(k.need+k.in, k.line.Unit)))
	}
	return on.dishCalled(n) + ", gets " + both(list, "and") + ", and stands."
}

// sayCause: "no leek is left", "only 100 g of the 400 g leek is there".
func sayCause(lacks []keep) string {
	var list []string
	for _, k := range lacks {
		if k.gets == 0 {
			list = append(list, "no "+k.line.Name+" is left")
			continue
		}
		list = append(list, fmt.Sprintf("only %s of the %s %s is there", measure.Say(k.gets, k.line.Unit), measure.Say(k.need, k.line.Unit), k.line.Name))
	}
	return both(list, "and")
}

// sayShort tells what a dish that has begun lacks, and what could stand in for it.
func (t *turn) sayShort(on *running, n int, lacks []keep) string {
	text := on.dishCalled(n) + ", has begun and stays: " + sayCause(lacks) + "."
	free := stock(t.fit(), pantry.DateOf(t.m.At), t.ear.foodOf)
	for _, k := range lacks {
		short := planner.Stock{Item: k.line.Name, Free: k.lack(), Unit: k.line.Unit, Food: t.ear.foodOf(k.line)}
		if s, ok := planner.StandIn(free, t.mustNot(on.Wish.Limits), toPlanner(&on.Plan.Dishes[n]), short); ok {
			text += fmt.Sprintf(" %s is free, %s, and could stand in.", title(s.Item), measure.Say(s.Free, s.Unit))
		}
	}
	return text
}
