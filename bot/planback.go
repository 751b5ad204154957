package bot

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"scullion/pantry"
)

// What was said of a plan that is on, kept so that it can be taken back.

// heldTo is what a plan that is on is held to, beside its dishes.
type heldTo struct {
	Down      []string       // kit that is broken
	Fewer     map[string]int // and how many of kit that there is several of
	Gone      map[int]bool
	Held      map[int]int
	Hands     int
	End, From int
	Portions  int
}

// turned is what somebody said of a plan that is on: what it was held to before and after, and the steps that took other
// minutes by it.
type turned struct {
	By      string // the message
	Said    string
	Was, Is heldTo
	Steps   []stretched
	Before  []Planned `json:",omitempty"` // the dishes as they were, where by it steps are done another way or are left out
}

// heldTo is what the plan is held to now.
func (on *running) heldTo() heldTo {
	return heldTo{Down: slices.Clone(on.Down), Fewer: maps.Clone(on.Fewer), Gone: maps.Clone(on.Gone), Held: maps.Clone(on.Held), Hands: on.Hands, End: on.End, From: on.From, Portions: on.Wish.Portions}
}

// turn notes what a message changed of a plan that was held to was, and whose steps had such times.
func (on *running) turn(by, said string, was heldTo, times map[string]PlanStep) {
	x := turned{By: by, Said: said, Was: was, Is: on.heldTo()}
	if slices.ContainsFunc(on.Stretched, func(y stretched) bool { return y.By == by }) { // unstretch tells of it
		x.Said = ""
	}
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			o, had := times[s.ID]
			if !had || s.isOther(&o) || s.Shelves != o.Shelves || s.Minutes == o.Minutes && s.HandsOn == o.HandsOn ||
				slices.ContainsFunc(on.Stretched, func(y stretched) bool { return y.By == by && y.Step == s.ID }) {
				continue
			}
			x.Steps = append(x.Steps, stretched{Step: s.ID, Minutes: s.Minutes - o.Minutes, Hands: s.HandsOn - o.HandsOn})
		}
	}
	on.Turned = append(on.Turned, x)
}

// otherWay notes the dishes as they were before what a message said had steps done another way, or left out.
func (on *running) otherWay(by string, was []Planned) {
	i := slices.IndexFunc(on.Turned, func(o turned) bool { return o.By == by })
	if i < 0 || len(was) != len(on.Plan.Dishes) {
		return
	}
	now := on.times()
	for _, d := range was {
		if slices.ContainsFunc(d.Steps, func(s PlanStep) bool { x, has := now[s.ID]; return !has || x.isOther(&s) }) {
			on.Turned[i].Before = was
			return
		}
	}
}

// usualWay puts steps that have not begun back to how they were done before, and those that were left out.
func (on *running) usualWay(o *turned, now int) {
	if len(o.Before) != len(on.Plan.Dishes) {
		return
	}
	has := on.times()
	on.Plan.Dishes = slices.Clone(on.Plan.Dishes)
	for n := range on.Plan.Dishes {
		d, was := &on.Plan.Dishes[n], &o.Before[n]
		if d.Key != was.Key || d.Portions != was.Portions || d.isOff() {
			continue
		}
		list := slices.Clone(d.Steps)
		for _, s := range was.Steps {
			x, there := has[s.ID]
			if there && (x.Start < now || !x.isOther(&s)) {
				continue
			}
			s.Start = max(s.Start, now)
			if i := slices.IndexFunc(list, func(y PlanStep) bool { return y.ID == s.ID }); i >= 0 {
				list[i] = s
				continue
			}
			list = append(list, s)
		}
		for i := range list { // what waited for what was left out waits again
			if j := slices.IndexFunc(was.Steps, func(y PlanStep) bool { return y.ID == list[i].ID }); j >= 0 && list[i].Start >= now {
				list[i].After, list[i].Within = was.Steps[j].After, was.Steps[j].Within
			}
		}
		d.Steps = list
	}
}

// unturn takes back what was said of a plan, of what has been taken back now.
func (t *turn) unturn(on *running, x *told) error {
	back := false
	now := on.minute(t.m.At)
	on.Turned = slices.DeleteFunc(slices.Clone(on.Turned), func(o turned) bool {
		if !t.isUnsaid(o.By) {
			return false
		}
		on.stand(&o)
		on.usualWay(&o, now)
		for _, y := range o.Steps {
			for d := range on.Plan.Dishes {
				for i := range on.Plan.Dishes[d].Steps {
					if s := &on.Plan.Dishes[d].Steps[i]; s.ID == y.Step {
						s.Minutes, s.HandsOn = max(1, s.Minutes-y.Minutes), max(0, s.HandsOn-y.Hands)
						s.HandsOn = min(s.HandsOn, s.Minutes)
					}
				}
			}
		}
		if o.Said != "" {
			x.lines = append(x.lines, "Taken back: "+lowFirst(strings.TrimSuffix(o.Said, "."))+".")
		}
		back = true
		return true
	})
	if !back {
		return nil
	}
	x.moved = true
	if on.isEmpty() {
		return nil
	}
	err := on.rest(now, t.b.o.Think/replanning)
	if err != nil && !cannot(err) {
		return err
	}
	on.due()
	return nil
}

// stand puts back what was changed of what the plan is held to; what others have changed since stays.
func (on *running) stand(o *turned) {
	for _, k := range o.Is.Down {
		if !slices.Contains(o.Was.Down, k) {
			on.Down = slices.DeleteFunc(slices.Clone(on.Down), func(d string) bool { return d == k })
		}
	}
	for _, k := range o.Was.Down {
		if !slices.Contains(o.Is.Down, k) && !slices.Contains(on.Down, k) {
			on.Down = append(on.Down, k)
		}
	}
	on.Fewer = backIn(on.Fewer, o.Was.Fewer, o.Is.Fewer)
	on.Gone = backIn(on.Gone, o.Was.Gone, o.Is.Gone)
	on.Held = backIn(on.Held, o.Was.Held, o.Is.Held)
	on.End += o.Was.End - o.Is.End
	if o.Was.From != o.Is.From {
		on.From = o.Was.From
	}
	if more := o.Is.Hands - o.Was.Hands; more > 0 {
		on.Hands = max(1, on.Hands-more)
		on.Cooks = on.Cooks[:min(len(on.Cooks), on.Hands)]
	}
	if o.Was.Portions != o.Is.Portions {
		on.Wish.Portions = o.Was.Portions
	}
}

// backIn gives a map with what changed from was to is put back.
func backIn[K, V comparable](now, was, is map[K]V) map[K]V {
	now = maps.Clone(now)
	if now == nil {
		now = map[K]V{}
	}
	for k, v := range is {
		if o, had := was[k]; !had {
			delete(now, k)
		} else if o != v {
			now[k] = o
		}
	}
	for k, v := range was {
		if _, has := is[k]; !has {
			now[k] = v
		}
	}
	return now
}

// isUnsaid says whether a message has been taken back now, or is being read anew: what it says then has been done
// already.
func (t *turn) isUnsaid(id string) bool {
	return slices.Contains(t.unsaid, id) && !(t.turnedNow && id == t.said.ID)
}

// lastMoved is the message that changed the plan that is on last; nil none.
func (t *turn) lastMoved(on *running) (last *pantry.Message, err error) {
	var ids []string
	if n := len(on.Stretched); n > 0 {
		ids = append(ids, on.Stretched[n-1].By)
	}
	if n := len(on.Turned); n > 0 {
		ids = append(ids, on.Turned[n-1].By)
	}
	if n := len(on.Swapped); n > 0 && len(on.Swapped[n-1].By) > 0 {
		ids = append(ids, on.Swapped[n-1].By[0])
	}
	for _, id := range ids {
		m, err := t.book.Message(id)
		if err != nil {
			return nil, err
		}
		if last == nil || m.N > last.N {
			last = m
		}
	}
	return last, nil
}

// turnedBack takes back what the cook said last of the plan that is on, if nothing was logged or changed since; logged
// are the messages by which the cook logged something.
func (t *turn) turnedBack(logged []*pantry.Message) (r Reply, done bool, err error) {
	on, ok, err := t.running()
	if err != nil || !ok || len(on.Turned) == 0 {
		return r, false, err
	}
	by, err := t.lastMoved(&on)
	if err != nil || by == nil || by.Cook != t.cook || len(logged) > 0 && logged[0].N >= by.N ||
		!slices.ContainsFunc(on.Turned, func(o turned) bool { return o.By == by.ID }) {
		return r, false, err
	}
	x := told{was: on.times(), ready: on.Plan.Minutes}
	t.unsaid = append(t.unsaid, by.ID)
	if err := t.putBack(&on, &x); err != nil {
		return r, true, err
	}
	if err := t.unstretch(&on, &x); err != nil {
		return r, true, err
	}
	if err := t.unturn(&on, &x); err != nil {
		return r, true, err
	}
	t.unsaid = nil
	if len(x.lines) == 0 { // the step is on no more, or swappedBack says why the dish cannot come back
		return r, false, nil
	}
	list, err := t.kept(&on)
	if err != nil {
		return r, true, err
	}
	if err := t.claim(&on, list); err != nil { // told with the dish
		return r, true, err
	}
	if err := t.mendPlan(&on, &x); err != nil {
		return r, true, err
	}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	lines, err := t.tellMended(on, &x)
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: t.m.Room != ""}, true, err
}

// undoPlan is for how long an "undo" takes back that a plan began. Later somebody is cooking by it, and it has to be said of the
// plan. The program's own choice.
const undoPlan = 5 * time.Minute

// wholePlan is what is said instead where an undo would take the plan that is on off; "" where it would not.
func (t *turn) wholePlan(logged []*pantry.Message) (string, error) {
	on, ok, err := t.running()
	if err != nil || !ok || !on.isPlan() || on.isEmpty() || len(logged) == 0 || logged[0].ID != on.Message || t.m.At.Sub(on.Begun) < undoPlan {
		return "", err
	}
	return fmt.Sprintf(`What you logged last began the plan that is on since %s: nothing was taken back. "cancel the plan" takes it off, and frees what is kept for it.`, on.at(0, t.m.At)), nil
}

// lowFirst is a text that begins in the middle of a sentence.
func lowFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + s[n:]
}
