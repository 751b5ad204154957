package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// State is what a kitchen's board shows: how things stand at one moment. Amounts are in words.
type State struct {
	At       time.Time
	Kitchen  string
	Crate    []StockLine // what must go first on top
	Cupboard []string    // "flour 900 g"
	Dishes   []DishNow   // of this service, planned ones first
	Plan     *PlanNow    // the timetable that is on; nil none
	Timers   []TimerNow
	Said     []SaidNow // the last first
	Waste    WasteNow
}

// StockLine is what there is of one food.
type StockLine struct {
	Item    string
	Left    string  // "600 g", "about 3 (400 g)"
	Free    string  // "" all of it is
	Holders string  // "dee 200 g for the tart"; "" nobody
	When    string  // "2 days", "use by today"; "" no date
	Days    int     // until its date; a large number where it has none
	Share   float64 // of what came in of its lots that is still there, from 0 to 1
	Held    float64 // of what is there, claimed, from 0 to 1
}

// DishNow is a dish, and what went into it or is kept for it.
type DishNow struct {
	Name     string
	Portions int
	In       []string // "300 g leek"
	Planned  bool     // of the plan that is on
	Ready    string   // "18:15"; "" not of a plan
}

// PlanNow is the timetable that is on.
type PlanNow struct {
	Begun, Ready time.Time
	Lanes        []Lane
}

// Lane is what one cook, or one piece of kit, does when. Steps do not overlap unless kit has room for
// several.
type Lane struct {
	Name  string
	Cook  bool
	Steps []LaneStep
}

// LaneStep is a step in its lane, From minutes after the plan began.
type LaneStep struct {
	From, Minutes int
	Do            string
	Dish          string
	DishN         int // its number in the plan, from 1
	Alone         bool
}

// TimerNow is a timer that runs.
type TimerNow struct {
	About, Cook string
	Due         time.Time
}

// SaidNow is a message that was for the kitchen, and the answer.
type SaidNow struct {
	Cook, Text, Reply string
	At                time.Time
}

// WasteNow is what has gone since the last wrap-up, in words.
type WasteNow struct {
	Binned, Trim, Used string
}

// Desk is where a State is read from: one snapshot of the ledger.
type Desk interface {
	Timers() ([]pantry.Timer, error)
	Said(n int) ([]*pantry.Message, error)
}

// mostSaid is how many messages a board shows.
const mostSaid = 8

// StateOf tells how a kitchen stands at a moment. Wraps and services are read from x, the rest from d.
func StateOf(x *Records, d Desk, now time.Time) (*State, error) {
	k := x.Kitchen
	s := &State{At: now, Kitchen: k.Name}
	s.Crate, s.Cupboard = Stock(k, pantry.DateOf(now))
	from := int64(1)
	if n := len(x.WrapUps); n > 0 {
		from = x.WrapUps[n-1].N + 1
	}
	on := x.runningAt(now)
	if on != nil {
		s.Plan = on.now(x)
	}
	if err := s.dishes(x, on, from); err != nil {
		return nil, err
	}
	timers, err := d.Timers()
	if err != nil {
		return nil, err
	}
	for _, t := range timers {
		if !t.Daily && t.Due.After(t.Begun) {
			s.Timers = append(s.Timers, TimerNow{About: t.About, Cook: k.CookName(t.Cook), Due: t.Due})
		}
	}
	said, err := d.Said(mostSaid)
	for _, m := range said {
		var r Reply
		if json.Unmarshal(m.Reply, &r) == nil {
			s.Said = append(s.Said, SaidNow{Cook: k.CookName(m.Cook), Text: m.Text, Reply: r.Brief(), At: m.At})
		}
	}
	return s, err
}

// Stock tells what there is, in words: the crate by what must go first, and the cupboard.
func Stock(k *pantry.Kitchen, today pantry.Date) (crate []StockLine, cupboard []string) {
	for _, l := range Left(k, today) {
		if l.line.Shelf == food.Cupboard {
			cupboard = append(cupboard, l.Item+" "+measure.Say(l.line.OnHand(), l.line.Unit))
			continue
		}
		crate = append(crate, stockLine(k, l))
	}
	return crate, cupboard
}

func stockLine(k *pantry.Kitchen, l LeftLine) StockLine {
	x := StockLine{Item: l.Item, Left: measure.Say(l.line.OnHand(), l.line.Unit) + l.frozen() + l.opened(), When: l.when(), Days: l.days}
	if len(x.When) > 2 && x.When[:2] == ", " {
		x.When = x.When[2:]
	}
	if l.line.Claimed() > 0 {
		x.Free, x.Holders = measure.Say(l.line.Free(), l.line.Unit), holders(k, l.line)
	}
	var came measure.Amount
	for _, o := range l.line.Lots {
		if o.Left > 0 {
			came += o.Came
		}
	}
	if came > 0 {
		x.Share = min(1, float64(l.line.OnHand())/float64(came))
	}
	if on := l.line.OnHand(); on > 0 {
		x.Held = min(1, float64(l.line.Claimed())/float64(on))
	}
	return x
}

// runningAt gives the service that is on at a moment, where it was begun with a plan; nil none.
func (x *Records) runningAt(now time.Time) *running {
	for i := len(x.Services) - 1; i >= 0; i-- {
		s := x.Services[i]
		if isNote(s) {
			continue
		}
		on := &running{}
		if !s.Ended.IsZero() || now.After(s.Due.Add(lateService)) || now.Before(s.Begun) || json.Unmarshal(s.Body, on) != nil || !on.isPlan() || on.isEmpty() {
			return nil
		}
		on.Service = s
		return on
	}
	return nil
}

// now is the timetable of the plan that is on.
func (on *running) now(x *Records) *PlanNow {
	return &PlanNow{Begun: on.Begun, Ready: on.Begun.Add(time.Duration(on.Plan.Minutes) * time.Minute),
		Lanes: on.Plan.Lanes(func(n int) string { return on.cookCalled(n, x.Kitchen) })}
}

// Lanes lays a plan out in lanes: its cooks, then its kit, in order of first use. Cook says what
// its n-th cook is called, from 1.
func (p *Plan) Lanes(cook func(n int) string) []Lane {
	var cooks, kit []Lane
	add := func(list []Lane, name string, cook bool, s LaneStep) []Lane {
		at := slices.IndexFunc(list, func(l Lane) bool { return l.Name == name })
		if at < 0 {
			at, list = len(list), append(list, Lane{Name: name, Cook: cook})
		}
		list[at].Steps = append(list[at].Steps, s)
		return list
	}
	for n := range p.Dishes {
		d := &p.Dishes[n]
		if d.isOff() {
			continue
		}
		name := Idea{Title: d.Name}.name()
		for i := range d.Steps {
			s := &d.Steps[i]
			step := LaneStep{From: s.Start, Minutes: max(1, s.Minutes), Do: s.Do, Dish: name, DishN: n + 1, Alone: s.HandsOn < s.Minutes}
			for _, k := range s.Kit {
				kit = add(kit, k, false, step)
			}
			if s.HandsOn > 0 && s.Cook > 0 {
				step.Minutes, step.Alone = s.HandsOn, false
				cooks = add(cooks, cook(s.Cook), true, step)
			}
		}
	}
	for _, list := range [][]Lane{cooks, kit} {
		for i := range list {
			slices.SortStableFunc(list[i].Steps, func(a, b LaneStep) int { return cmp.Compare(a.From, b.From) })
		}
		slices.SortStableFunc(list, func(a, b Lane) int { return cmp.Compare(a.Steps[0].From, b.Steps[0].From) })
	}
	return append(cooks, kit...)
}

// cookCalled is what the n-th cook of a plan is called.
func (on *running) cookCalled(n int, k *pantry.Kitchen) string {
	if n <= len(on.Cooks) && on.Cooks[n-1] != "" {
		return k.CookName(on.Cooks[n-1])
	}
	return fmt.Sprint("cook ", n)
}

// dishes lists what is in the dishes since a message, and what has gone.
func (s *State) dishes(x *Records, on *running, from int64) error {
	at := map[string]int{}
	add := func(name string) *DishNow {
		n, ok := at[name]
		if !ok {
			n, at[name] = len(s.Dishes), len(s.Dishes)
			s.Dishes = append(s.Dishes, DishNow{Name: name})
		}
		return &s.Dishes[n]
	}
	if on != nil {
		for n, d := range on.Plan.Dishes {
			if d.isOff() {
				continue
			}
			name := Idea{Title: d.Name}.name()
			if n < len(on.Names) {
				name = on.Names[n]
			}
			x := add(name)
			x.Planned, x.Portions, x.Ready = true, d.Portions, on.at(d.Ready, s.At)
		}
	}
	sums := map[string]map[int64]measure.Amount{}
	var order []string
	var binned, trim, used measure.Amount
	err := x.Ledger.Between(from, 1<<62, func(e pantry.Placed) error {
		l := x.Kitchen.Line(e.Line)
		if l == nil {
			return nil
		}
		crate := l.Shelf != food.Cupboard
		switch {
		case e.Act == pantry.Bin && e.Trim:
			trim += e.Amount
		case e.Act == pantry.Bin && crate:
			binned += e.Amount
		case (e.Act == pantry.Use || e.Act == pantry.Return) && !e.Trim:
			n := e.Amount
			if e.Act == pantry.Return {
				n = -n
			}
			if crate {
				used += n
			}
			if _, away := pantry.Away(e.Dish); e.Dish == "" || away {
				return nil
			}
			if sums[e.Dish] == nil {
				sums[e.Dish], order = map[int64]measure.Amount{}, append(order, e.Dish)
			}
			sums[e.Dish][e.Line] += n
		}
		return nil
	})
	for _, name := range order {
		d := add(name)
		for _, l := range x.Kitchen.Lines {
			if n := sums[name][l.ID]; n > 0 {
				d.In = append(d.In, measure.Say(n, l.Unit)+" "+l.Name)
			}
		}
	}
	s.Waste = WasteNow{Used: measure.Say(max(0, used), measure.Gram)}
	if binned > 0 {
		s.Waste.Binned = measure.Say(binned, measure.Gram)
	}
	if trim > 0 {
		s.Waste.Trim = measure.Say(trim, measure.Gram)
	}
	return err
}
