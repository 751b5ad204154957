package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
	"scullion/planner"
)

// swapped is a dish that another has taken the place of.
type swapped struct {
	By  []string // the messages that brought it about: the one that was said, and what it has changed
	N   int      // in the plan
	Was Planned
	At  int // the minute
}

// complete fills in what a plan that was begun by an earlier version of the program lacks.
func (on *running) complete(t *turn) {
	for n := len(on.Names); n < len(on.Plan.Dishes); n++ {
		on.Names = append(on.Names, t.nameOf(on.Names, on.Plan.Dishes[n].Name))
	}
	on.End = max(on.End, on.Plan.Minutes)
}

// nameOf gives what the ledger calls a dish of a plan: none is called like another.
func (t *turn) nameOf(others []string, title string) string {
	name := t.sameDish(Idea{Title: title}.name())
	if slices.Contains(others, name) {
		name = title
	}
	return name
}

// swapShort puts another dish into the place of one that lacks what it needs.
func (t *turn) swapShort(ctx context.Context, on *running, x *told, n int, lacks []keep) (again bool, err error) {
	cause := title(sayCause(lacks))
	old := on.dishCalled(n)
	done, err := t.swap(ctx, on, n)
	switch {
	case cannot(err):
		x.lines = append(x.lines, fmt.Sprintf(`%s: %s, cannot be made. %s What is kept for it stays kept. "swap %d" looks again.`, cause, old, on.sayNone(err, t.m.At), n+1))
		return true, nil
	case err != nil:
		return false, err
	}
	x.lines = append(x.lines, cause+": "+t.sayAnew(on, n, done))
	x.moved, x.anew = true, append(x.anew, n)
	return true, nil
}

// sayNone says why no other dish can be had.
func (on *running) sayNone(err error, at time.Time) string {
	switch {
	case errors.Is(err, planner.ErrNothing):
		return "Nothing is free for another dish."
	case errors.Is(err, planner.ErrNoTime):
		return "No other dish was found in the time to think."
	}
	return fmt.Sprintf("No other dish of what is free can be ready in the %d min left.", max(0, on.End-on.minute(at)))
}

// sayAnew: "2 is now the carrot fritters, not the leek tart. 18:14 grate the carrots, by cook
// 2 (bo). Contains eggs: check labels."
func (t *turn) sayAnew(on *running, n int, was string) string {
	d := &on.Plan.Dishes[n]
	i := Idea{Title: d.Name, Allergens: d.Allergens}
	text := fmt.Sprintf("%d is now the %s, not the %s.", n+1, i.name(), was)
	for _, s := range d.Steps {
		if s.HandsOn == 0 {
			continue
		}
		text += fmt.Sprintf(" %s %s", on.at(s.Start, t.m.At), s.Do)
		if s.Cook > 0 {
			text += fmt.Sprintf(", by cook %d%s", s.Cook, t.called1(*on, s.Cook))
		}
		text += "."
		break
	}
	text += i.warn()
	if len(d.Missing) > 0 {
		text += " Not held: " + both(d.Missing, "and") + "."
	}
	if avoid := t.mustNot(on.Wish.Limits).Avoid; len(avoid) > 0 {
		text += " Left out: what holds or often carries " + both(avoid, "or") + "."
	}
	return text
}

// swap puts another dish into the place of one that has not begun, and gives what that was
// called. Where there is none, cannot says so of the error, and nothing is changed.
func (t *turn) swap(ctx context.Context, on *running, n int) (was string, err error) {
	old := Idea{Title: on.Plan.Dishes[n].Name}.name()
	return old, t.swapTo(ctx, on, n, planner.Swap{Ask: t.swapAsk(on, n)})
}

// swapFor makes a dish that has not begun for so many. Errors are those of swap.
func (t *turn) swapFor(ctx context.Context, on *running, n, heads int) error {
	s := planner.Swap{Ask: t.swapAsk(on, n), Same: true}
	s.Ask.Portions = heads
	return t.swapTo(ctx, on, n, s)
}

// swapTo puts what is asked for into the place of a dish.
func (t *turn) swapTo(ctx context.Context, on *running, n int, s planner.Swap) error {
	s.Rest, s.Out, s.By = on.toRest(on.minute(t.m.At)), n, on.End
	for _, o := range on.Swapped {
		if o.N == n && !s.Same {
			s.Ask.Not = append(s.Ask.Not, o.Was.Key)
		}
	}
	kit := (service{}).kit(on.Wish.Limits)
	for k := range s.Kit {
		s.Kit[k] = min(s.Kit[k], kit[k])
	}
	ctx, cancel := context.WithTimeout(ctx, t.b.o.Think/swapping)
	defer cancel()
	dishes, minutes, proven, err := planner.MakeSwap(ctx, s)
	if err != nil {
		return err
	}
	old := on.Plan.Dishes[n]
	on.Plan.Dishes[n] = plannedOf(dishes[n])
	by := []string{t.said.ID}
	others, err := t.book.Revised(t.said)
	if err != nil {
		return err
	}
	for _, o := range others {
		if o.ID != on.Message {
			by = append(by, o.ID)
		}
	}
	on.Swapped = append(on.Swapped, swapped{By: by, N: n, Was: old, At: on.minute(t.m.At)})
	t.seat(on, n, dishes, minutes, proven)
	return nil
}

// cannot says whether an error is that no other dish can be had.
func cannot(err error) bool {
	return errors.Is(err, planner.ErrNoDishes) || errors.Is(err, planner.ErrNothing) || errors.Is(err, planner.ErrNoTime) ||
		errors.Is(err, planner.ErrNoRest) || errors.Is(err, planner.ErrTooLate)
}

// seat notes the times of a plan in which the dish numbered n is another.
func (t *turn) seat(on *running, n int, dishes []planner.Planned, minutes int, proven bool) {
	for i, d := range dishes {
		on.Plan.Dishes[i].Steps, on.Plan.Dishes[i].Ready = planSteps(d.Steps), d.Ready
	}
	on.Plan.Minutes, on.Plan.Proven = minutes, proven
	on.due()
	on.forget(on.Names[n])
	on.Names[n] = ""
	on.Names[n] = t.nameOf(on.Names, on.Plan.Dishes[n].Name)
}

// swapAsk is what another dish is held to: the wish of the plan, and what is free once the
// dish numbered n has given back what was kept for it.
func (t *turn) swapAsk(on *running, n int) planner.PlanAsk {
	free := &pantry.Kitchen{}
	var out []string
	for _, l := range t.fit().Lines {
		if f := t.ear.foodOf(l); f != nil && l.OnHand() <= 0 {
			out = append(out, f.Name)
		}
		x := *l
		x.Holds = slices.DeleteFunc(slices.Clone(l.Holds), func(h pantry.Hold) bool { return h.Dish == on.Names[n] && h.Cook == on.Cook })
		free.Add(&x)
	}
	w := on.Wish
	return planner.PlanAsk{Stock: stock(free, pantry.DateOf(t.m.At), t.ear.foodOf), Portions: on.Plan.Dishes[n].Portions,
		Needs: t.mustNot(w.Limits), Serve: planner.Serve(w.Serve), Cold: w.Cold, Without: w.Unlike, Light: w.Lighter, Off: on.Off, Out: out}
}

// hasEnough says whether there is enough for a dish of a plan to be made.
func (t *turn) hasEnough(on *running, n int) (bool, error) {
	list, err := t.kept(on)
	if err != nil {
		return false, err
	}
	spice, err := t.ofCupboard(on)
	if err != nil {
		return false, err
	}
	with := *on
	with.Short = map[string]measure.Amount{}
	var lacks []keep
	for _, k := range append(list, spice...) {
		if k.dish == n && k.lack() > 0 && t.isMainly(on, &k) {
			with.note(k)
			lacks = append(lacks, k)
		}
	}
	return len(lacks) == 0 || t.bearsLess(&with, n, lacks), nil
}

// swapAsked puts other dishes into the place of those that a cook wants to go.
func (t *turn) swapAsked(on running, q *language.Question) (Reply, error) {
	on.complete(t)
	x := told{was: on.times(), ready: on.Plan.Minutes}
	list, err := t.kept(&on)
	if err != nil {
		return Reply{}, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), t.b.o.Think/mending)
	defer cancel()
	for _, n := range append([]int{q.N}, q.Others...) {
		switch n--; {
		case n < 0 || n >= len(on.Plan.Dishes):
			x.lines = append(x.lines, fmt.Sprintf("The plan has no dish %d.", n+1))
			continue
		case t.isAt(&on, n, list):
			x.lines = append(x.lines, title(on.dishCalled(n))+", has begun and stays.")
			continue
		}
		old := on.dishCalled(n)
		was, err := t.swap(ctx, &on, n)
		if cannot(err) {
			x.lines = append(x.lines, fmt.Sprintf("%s, stays. %s", old, on.sayNone(err, t.m.At)))
			continue
		}
		if err != nil {
			return Reply{}, err
		}
		x.lines = append(x.lines, t.sayAnew(&on, n, was))
		x.moved, x.anew = true, append(x.anew, n)
		if list, err = t.kept(&on); err != nil {
			return Reply{}, err
		}
		if err := t.claim(&on, list); err != nil {
			return Reply{}, err
		}
	}
	if err := t.mendPlan(&on, &x); err != nil { // what is free again may be another's
		return Reply{}, err
	}
	if err := t.save(on); err != nil {
		return Reply{}, err
	}
	lines, err := t.tellMended(on, &x)
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: x.moved && t.m.Room != ""}, err
}

// sayRunning tells a dish of the plan that is on, with what there is for it.
func (t *turn) sayRunning(on running, n int) Reply {
	on.complete(t)
	if n < 0 || n >= len(on.Plan.Dishes) {
		return Reply{Kind: Answer, Text: fmt.Sprintf("The plan has no dish %d.", n+1)}
	}
	if on.Plan.Dishes[n].isOff() {
		return Reply{Kind: Answer, Text: fmt.Sprintf(`%s, is off. "swap %d" looks for another.`, on.dishCalled(n), n+1)}
	}
	p := on.Plan
	p.Dishes = slices.Clone(p.Dishes)
	p.Dishes[n] = t.less(&on, n)
	return Reply{Kind: Answer, Text: p.sayDish(n, on.Begun.In(t.m.At.Location()))}
}

// dishOn gives the one dish of the plan that is on which is meant by "dish 2", or by words of
// its name of which the last says what it is: "the dip" of "yoghurt dip with carrots". "" none.
func (t *turn) dishOn(said string) string {
	on, ok, err := t.running()
	if err != nil || !ok {
		return ""
	}
	on.complete(t)
	if n, err := strconv.Atoi(strings.TrimPrefix(said, "dish ")); err == nil && n >= 1 && n <= len(on.Names) {
		return on.Names[n-1]
	}
	meant := ""
	for _, name := range on.Names {
		if !fitsName(name, said) || !fitsName(coreOf(name), lastWord(said)) {
			continue
		}
		if meant != "" {
			return ""
		}
		meant = name
	}
	return meant
}

// coreOf is the part of a dish's name that says what it is.
func coreOf(name string) string {
	for _, w := range []string{" with ", " on ", " in ", " filled ", " from ", " under ", " over "} {
		name, _, _ = strings.Cut(name, w)
	}
	return name
}
