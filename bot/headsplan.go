package bot

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/measure"
)

// More and fewer at the table while a plan is on.

// headsInPlan makes the dishes that have not begun for another number. Done is false where no dish of the plan is meant.
func (t *turn) headsInPlan(on running, q *language.Question) (r Reply, done bool, err error) {
	if t.m.Edit {
		if err := t.unsayLive(&on); err != nil {
			return r, false, err
		}
	}
	var dishes []int
	heads := q.N
	switch q.About {
	case language.AboutDishFor:
		n, _ := strconv.Atoi(q.Food)
		if n < 1 || n > len(on.Plan.Dishes) {
			return Reply{Kind: Answer, Text: fmt.Sprintf("The plan has no dish %d.", n)}, true, nil
		}
		dishes = []int{n - 1}
	case language.AboutNamedFor:
		n := t.dishInPlan(&on, q.Food)
		if n < 0 {
			return r, false, nil
		}
		dishes = []int{n}
	case language.AboutMoreOf:
		heads = on.covers() + q.N
	case language.AboutFewer:
		if heads = on.covers() - q.N; heads < 1 {
			return Reply{Kind: Answer, Text: fmt.Sprintf(`The plan is for %d. %d fewer leaves nobody: "drop" and a dish's number takes one off.`, on.covers(), q.N)}, true, nil
		}
	}
	if heads > mostHeads {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Plans are for up to %d.", mostHeads)}, true, nil
	}
	was := on.heldTo()
	if dishes == nil {
		for n := range on.Plan.Dishes {
			if !on.Plan.Dishes[n].isOff() {
				dishes = append(dishes, n)
			}
		}
		on.Wish.Portions = heads
	}
	x := told{was: on.times(), ready: on.Plan.Minutes}
	times := on.times()
	if err := t.forMany(&on, dishes, heads, &x); err != nil {
		return r, true, err
	}
	if err := t.mendPlan(&on, &x); err != nil {
		return r, true, err
	}
	said := ""
	if on.Wish.Portions != was.Portions {
		said = fmt.Sprintf("%d at the table", heads)
	}
	if x.moved || said != "" {
		on.turn(t.said.ID, said, was, times)
		t.turnedNow = true
	}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	lines, err := t.tellMended(on, &x)
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: x.moved && t.m.Room != ""}, true, err
}

// mostHeads is for how many a plan may be. The program's own choice.
const mostHeads = 200

// covers is for how many the plan is.
func (on *running) covers() int {
	if on.Wish.Portions > 0 {
		return on.Wish.Portions
	}
	return usualPortions
}

// forMany makes dishes for so many that have not begun, where enough is free; of the others it says why they stay.
func (t *turn) forMany(on *running, dishes []int, heads int, x *told) error {
	list, err := t.kept(on)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), t.b.o.Think/mending)
	defer cancel()
	for _, n := range dishes {
		d := &on.Plan.Dishes[n]
		old := d.Portions
		switch {
		case d.isOff():
			x.lines = append(x.lines, on.dishCalled(n)+", is off.")
			continue
		case d.Portions == heads:
			x.lines = append(x.lines, fmt.Sprintf("%s, is for %d already.", on.dishCalled(n), heads))
			continue
		case t.isAt(on, n, list):
			x.lines = append(x.lines, fmt.Sprintf("%s, has begun and stays for %d.%s", on.dishCalled(n), old, t.sayFor(on, n, heads)))
			continue
		}
		err := t.swapFor(ctx, on, n, heads)
		if cannot(err) {
			x.lines = append(x.lines, fmt.Sprintf("%s, stays for %d.%s", on.dishCalled(n), old, t.sayFor(on, n, heads)))
			continue
		}
		if err != nil {
			return err
		}
		x.lines = append(x.lines, fmt.Sprintf("%s, is for %d, not %d: %s.", on.dishCalled(n), heads, old, Idea{Uses: on.Plan.Dishes[n].Uses}.sayUses(len(on.Plan.Dishes[n].Uses))))
		x.moved = true
		if list, err = t.kept(on); err != nil {
			return err
		}
		if err := t.claim(on, list); err != nil {
			return err
		}
	}
	return nil
}

// sayFor tells how much more a dish takes for so many, and what is free of that; "" for fewer.
func (t *turn) sayFor(on *running, n, heads int) string {
	d := &on.Plan.Dishes[n]
	if heads <= d.Portions {
		return fmt.Sprintf(" For %d that is larger portions, or some left over.", heads)
	}
	var more, short []string
	for _, u := range d.Uses {
		l := t.k.Named(u.Item)
		if l == nil {
			continue
		}
		u.Amount *= float64(heads-d.Portions) / float64(d.Portions)
		u.Pieces *= float64(heads-d.Portions) / float64(d.Portions)
		more = append(more, u.say())
		if free := l.Free().Units(); free < u.Amount {
			short = append(short, fmt.Sprintf("%s (%s free)", u.Item, measure.Say(l.Free(), l.Unit)))
		}
	}
	text := fmt.Sprintf(" For %d it takes so much more: %s.", heads, both(more, "and"))
	if len(short) > 0 {
		text += " Not enough: " + both(short, "and") + "."
	}
	return text
}
