package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// running is a plan that was begun.
type running struct {
	pantry.Service `json:"-"`
	Plan           Plan
	Cooks          []string     // who the plan's cooks are, as far as they have said anything: its cook 1 first
	Hands          int          // how many cooks it was made for
	Down           []string     // kit that is broken
	Gone           map[int]bool // cooks who have left
	Held           map[int]int  // cooks who are late, and until which minute
	Wish           language.Plan
	Off            []string                  // palettes that are not wanted
	End            int                       // the minute by which all was to be ready
	Room           string                    // where it was accepted: its timers ring there
	Shown          []string                  // Keys of its dishes as it was accepted
	Names          []string                  // what the ledger calls its dishes
	Short          map[string]measure.Amount // what dishes lack, as far as that was told
	Swapped        []swapped                 // dishes that others have taken the place of
	Quiet          []string                  // steps whose timers were stopped, by ID
	Served         map[string]int            // of a note that is no service: for how many dishes were
	Yield          map[string]cookedWeight   // of such a note: what dishes came to
	Stretched      []stretched               // steps that end at another minute than they were to
	From           int                       // the minute before which nobody wants it; 0 as soon as it is ready
	Fewer          map[string]int            // kit that there is several of: how many are broken
	Turned         []turned                  // what was said of it since
}

// late is how long after its end a service is still on.
const lateService = time.Hour

// running gives the plan that is on now; ok is false where none is.
func (t *turn) running() (on running, ok bool, err error) {
	if k, ok := t.b.idle.Load(t.k.ID); ok && k == t.k { // a Kitchen that another program has written to is another
		return on, false, nil
	}
	list, err := t.book.Services(t.m.At.Add(-serviceLong))
	if err != nil || len(list) == 0 {
		if err == nil {
			t.b.idle.Store(t.k.ID, t.k)
		}
		return on, false, err
	}
	list = slices.DeleteFunc(list, isNote)
	if len(list) == 0 {
		return on, false, nil
	}
	s := list[len(list)-1]
	if !s.Ended.IsZero() || t.m.At.After(s.Due.Add(lateService)) || t.m.At.Before(s.Begun) {
		return on, false, nil
	}
	err = json.Unmarshal(s.Body, &on)
	on.Service = s
	return on, err == nil, err
}

// isNote says whether it is no service, but what was said of one: it is over as it begins.
func isNote(s pantry.Service) bool { return !s.Ended.IsZero() && s.Ended.Equal(s.Begun) }

// save keeps what was begun.
func (t *turn) save(on running) error {
	body, err := json.Marshal(on)
	if err != nil {
		return err
	}
	on.Body = body
	t.b.idle.Delete(t.k.ID)
	return t.book.SaveService(on.Service)
}

// minute is how far the service is.
func (on *running) minute(now time.Time) int { return int(now.Sub(on.Begun) / time.Minute) }

// at is the time of a minute of the service.
func (on *running) at(minute int, now time.Time) string {
	return on.Begun.Add(time.Duration(minute) * time.Minute).In(now.Location()).Format("15:04")
}

// cook is which of the plan's cooks somebody is; 0 none.
func (on *running) cook(name string) int { return slices.Index(on.Cooks, name) + 1 }

// cooks is how many cooks the plan is for.
func (on *running) cooks() int { return max(1, on.Hands) }

// accept begins a plan that was shown: it keeps what its dishes need and starts the clock
// of the service.
func (t *turn) accept(p planned) (Reply, error) {
	on, already, err := t.running()
	if err != nil {
		return Reply{}, err
	}
	keys := p.Plan.keys()
	if already && slices.Equal(on.Shown, keys) {
		return Reply{Kind: Answer, Text: "That plan is on since " + on.at(0, t.m.At) + ". \"what's next?\" tells each cook."}, nil
	}
	if q, err := t.mayNotAccept(p); err != nil {
		return Reply{}, err
	} else if q != nil {
		return t.ask([]pending{*q}, t.said)
	}
	kept := map[int64]measure.Amount{}
	t.suitsTold = true
	p.Plan.Dishes = slices.Clone(p.Plan.Dishes)
	var names []string
	for n := range p.Plan.Dishes {
		d := &p.Plan.Dishes[n]
		names = append(names, t.nameOf(names, d.Name))
		d.Uses = slices.Clone(d.Uses)
		for i := range d.Uses {
			u := &d.Uses[i]
			l := t.k.Named(u.Item)
			if l == nil {
				continue
			}
			want := measure.Amount(u.Amount*1000 + 0.5)
			base := min(l.Free()-kept[l.ID], want)
			if base < want-want/20 {
				return Reply{Kind: Error, Text: fmt.Sprintf("%s is short since: %s is free, the plan takes %s. \"plan\" it again, the same words will do.", title(l.Name), measure.Say(max(0, base), l.Unit), measure.Say(want, l.Unit))}, nil
			}
			kept[l.ID] += base
			u.Amount = base.Units()
			t.ready = append(t.ready, pantry.Entry{Act: pantry.Claim, Line: l.ID, Amount: base, Dish: names[n], Cook: t.cook, At: t.m.At, Said: u.say(), Approx: true})
		}
	}
	if _, err := t.book.Revise(t.said, t.said, pantry.Said, t.ready); err != nil {
		return Reply{}, err
	}
	if err := t.dishes(t.ready); err != nil {
		return Reply{}, err
	}
	r := Reply{Kind: Log}
	for _, e := range t.ready {
		r.Entries = append(r.Entries, t.show(e))
	}
	if already { // one service at a time
		on.Ended = t.m.At
		if err := t.save(on); err != nil {
			return r, err
		}
		if err := t.stopFor(on.Message); err != nil {
			return r, err
		}
		if err := t.freeKept(on.Message); err != nil {
			return r, err
		}
	}
	begun := t.said.At
	on = running{Service: pantry.Service{Message: t.said.ID, Cook: t.cook, Begun: begun, Due: begun.Add(time.Duration(p.Plan.Minutes) * time.Minute)}, Plan: p.Plan, Cooks: []string{t.cook}, Hands: p.Wish.Cooks,
		Wish: p.Wish, Off: p.Off, End: p.end(begun), Room: t.m.Room, Shown: keys, Names: names}
	if err := t.save(on); err != nil {
		return r, err
	}
	timed, err := t.timeSteps(on)
	if err != nil {
		return r, err
	}
	r.Timed = t.m.Room != ""
	r.Text = t.sayBegun(on, timed)
	r.Look = t.lookRunning(on)
	return r, nil
}

// end is the minute of a service by which what was wished for is to be ready.
func (p *planned) end(begun time.Time) int {
	due := p.Start.Add(time.Duration(cmp.Or(p.Wish.Minutes, usualMinutes)) * time.Minute)
	if p.Wish.Until != "" {
		due, _ = dueBy(p.Start, p.Wish)
	}
	return max(p.Plan.Minutes, int(due.Sub(begun)/time.Minute))
}

// keys are those of the dishes.
func (p *Plan) keys() (list []string) {
	for _, d := range p.Dishes {
		list = append(list, d.Key)
	}
	return list
}

// due sets by when the service is over.
func (on *running) due() {
	on.Due = on.Begun.Add(time.Duration(on.Plan.Minutes) * time.Minute)
}

// askOver is what a call to wrap up is about: overFor after its end, once the room is quiet for
// quietFor, it is asked whether the service is over.
const (
	askOver  = "is the service over?"
	overFor  = 20 * time.Minute
	quietFor = 10 * time.Minute
)

// callFor is from how many unattended minutes on a step has a timer.
const callFor = 4

// timeSteps sets timers for what cooks unattended, and calls for what is to be set going when
// nobody's hands are sent there, where there is a room to call in. N counts the timers.
func (t *turn) timeSteps(on running) (n int, err error) {
	room := cmp.Or(on.Room, t.m.Room)
	if room == "" {
		return 0, nil
	}
	part := 0
	set := func(about string, from time.Time, minutes int) error {
		x := pantry.Timer{Message: on.Message, Part: part, Cook: on.Cook, Room: room, About: about, Begun: from, Due: from.Add(time.Duration(minutes) * time.Minute)}
		if !x.Due.After(t.m.At) {
			return nil
		}
		if part++; minutes > 0 {
			n++
		}
		return t.book.SetTimer(x)
	}
	for _, d := range on.Plan.Dishes {
		dish := " (" + Idea{Title: d.Name}.name() + ")"
		for _, s := range d.Steps {
			from := on.Begun.Add(time.Duration(s.Start) * time.Minute)
			if s.Cook == 0 && s.Start > 0 {
				if err := set(s.setGoing()+dish, from, 0); err != nil {
					return n, err
				}
			}
			if s.Minutes-s.HandsOn < callFor || len(s.Kit) == 0 || slices.Contains(on.Quiet, s.ID) {
				continue
			}
			if err := set(s.Do+dish, from, s.Minutes); err != nil {
				return n, err
			}
		}
	}
	return n, set(askOver, on.Due.Add(overFor), 0)
}

// setGoing: "heat the oven, 190 C", "cover with a spoon of water, full power, microwave".
func (s PlanStep) setGoing() string {
	text := s.Do
	for _, k := range s.Kit {
		if !slices.Contains(strings.Fields(strings.ToLower(text)), k) {
			text += ", " + k
		}
		if k == "oven" && s.Temp > 0 {
			text += fmt.Sprintf(", %d C", s.Temp)
		}
	}
	return text
}

// sayBegun says that a plan is on, and where each cook begins.
func (t *turn) sayBegun(on running, timed int) string {
	text := fmt.Sprintf("Begun: %s, ready at %s. What is needed is kept.", counted1(len(on.Plan.Dishes), "dish", "dishes"), on.at(on.Plan.Minutes, t.m.At))
	if timed > 0 {
		text += " " + title(counted1(timed, "timer", "timers")) + " set."
	}
	for cook := 1; cook <= on.cooks(); cook++ {
		if s, d := on.stepOf(cook, 0); s != nil {
			text += fmt.Sprintf("\nCook %d%s: %s %s, %s.", cook, t.called1(on, cook), on.at(s.Start, t.m.At), s.Do, Idea{Title: d.Name}.name())
		}
	}
	for _, s := range on.Plan.unattendedAt(0) {
		text += "\nAt once: " + s.Do + "."
	}
	return text + "\n\"what's next?\" tells each cook."
}

// counted1 counts: "1 dish", "3 dishes".
func counted1(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// called1 names who a cook of the plan is, where that is known: " (ana)".
func (t *turn) called1(on running, cook int) string {
	if cook > len(on.Cooks) {
		return ""
	}
	return " (" + t.k.CookName(on.Cooks[cook-1]) + ")"
}

// stepOf gives a cook's step that is on at a minute or comes next, with its dish.
func (on *running) stepOf(cook, minute int) (best *PlanStep, dish *Planned) {
	for d := range on.Plan.Dishes {
		for s := range on.Plan.Dishes[d].Steps {
			x := &on.Plan.Dishes[d].Steps[s]
			if x.Cook == cook && x.Start+x.HandsOn > minute && (best == nil || x.Start < best.Start) {
				best, dish = x, &on.Plan.Dishes[d]
			}
		}
	}
	return best, dish
}

// unattendedAt gives the steps that begin at a minute and take nobody's hands: the oven
// on, the kettle on.
func (p *Plan) unattendedAt(minute int) (list []PlanStep) {
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			if s.Start == minute && s.Cook == 0 {
				list = append(list, s)
			}
		}
	}
	return list
}

// nextStep tells the cook what to do now and next, or all of the plan.
func (t *turn) nextStep(on running, whole bool) (Reply, error) {
	now := on.minute(t.m.At)
	if !on.isPlan() {
		return Reply{Kind: Answer, Text: "On since " + on.at(0, t.m.At) + ", due " + sayDue(on.Due, t.m.At) + `. No plan yet: "plan" makes one, "ideas?" gives single things.`}, nil
	}
	if on.isEmpty() {
		return Reply{Kind: Answer, Text: nothingLeft}, nil
	}
	if whole {
		lines := []string{fmt.Sprintf("On since %s, all ready %s.", on.at(0, t.m.At), on.at(on.Plan.Minutes, t.m.At))}
		for n, d := range on.Plan.Dishes {
			if d.isOff() {
				lines = append(lines, fmt.Sprintf("%d %s: off.", n+1, title(d.Name)))
				continue
			}
			lines = append(lines, fmt.Sprintf("%d %s, for %d, ready %s.", n+1, title(d.Name), d.Portions, on.at(d.Ready, t.m.At)))
		}
		return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Look: t.lookRunning(on)}, nil
	}
	cook := on.cook(t.cook)
	if cook == 0 && len(on.Cooks) < on.cooks() {
		on.Cooks = append(on.Cooks, t.cook)
		cook = len(on.Cooks)
		if err := t.save(on); err != nil {
			return Reply{}, err
		}
	}
	var lines []string
	if cook == 0 {
		lines = append(lines, "The plan is for "+counted1(on.cooks(), "cook, who is", "cooks, and they are")+" at it.")
	} else if s, d := on.stepOf(cook, now); s == nil {
		lines = append(lines, "Nothing more for your hands.")
	} else {
		lines = append(lines, t.sayStep(on, s, d, now))
		if after, d := on.stepOf(cook, s.Start+s.HandsOn); after != nil {
			lines = append(lines, t.sayStep(on, after, d, now))
		}
	}
	if cooking := on.cooking(now); len(cooking) > 0 {
		var list []string
		for _, s := range cooking {
			list = append(list, fmt.Sprintf("%s until %s", s.Do, on.at(s.Start+s.Minutes, t.m.At)))
		}
		lines = append(lines, "By itself: "+strings.Join(list, "; ")+".")
	}
	for _, s := range on.soon(now) {
		lines = append(lines, fmt.Sprintf("%s: %s.", on.at(s.Start, t.m.At), s.Do))
	}
	lines = append(lines, "All ready "+on.at(on.Plan.Minutes, t.m.At)+".")
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n")}, nil
}

// sayStep: "18:10 cut the roots, 4 min hands-on (tray roast)."
func (t *turn) sayStep(on running, s *PlanStep, d *Planned, now int) string {
	when := on.at(s.Start, t.m.At)
	if s.Start <= now {
		when = "Now, until " + on.at(s.Start+s.HandsOn, t.m.At) + ":"
	}
	text := fmt.Sprintf("%s %s, %d min", when, s.Do, s.HandsOn)
	if len(s.Kit) > 0 {
		text += ", " + strings.Join(s.Kit, " and ")
		if s.Temp > 0 && s.Kit[0] == "oven" {
			text += fmt.Sprintf(" %d C", s.Temp)
		}
	}
	return text + " (" + Idea{Title: d.Name}.name() + ")."
}

// cooking gives the steps that go on without hands.
func (on *running) cooking(minute int) (list []PlanStep) {
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			if s.Start+s.HandsOn <= minute && minute < s.Start+s.Minutes {
				list = append(list, s)
			}
		}
	}
	slices.SortFunc(list, func(a, b PlanStep) int { return cmp.Compare(a.Start+a.Minutes, b.Start+b.Minutes) })
	return list
}

// soon gives what is to be set going without hands in the next minutes.
func (on *running) soon(minute int) (list []PlanStep) {
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			if s.Cook == 0 && s.Start > minute && s.Start <= minute+callFor {
				list = append(list, s)
			}
		}
	}
	return list
}
