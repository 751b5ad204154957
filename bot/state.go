package bot

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/account"
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
	Gone     GoneNow
	Chat     []string // the names of cooks who speak in a chat
	Needs    []string // who cannot eat what: "2 nut allergies (tree nuts, peanuts) at table 4"
}

// StockLine is what there is of one food.
type StockLine struct {
	Item    string
	Left    string  // "600 g", "about 3 (400 g)"
	Of      string  // what came in of it, where some of that has gone: "1.2 kg"
	Short   string  // how much more is claimed than is there; "" none
	Free    string  // "" all of it is
	Holders string  // "dee 200 g for the tart"; "" nobody
	When    string  // "2 days", "today"; "" no date
	Came    string  // when it last came in: "today", "2 days ago"; "" not known
	Days    int     // until its date; a large number where it has none
	Share   float64 // of what came in of its lots that is still there, from 0 to 1
	Held    float64 // of what is there, claimed, from 0 to 1
	Claims  []Claim // what Holders says

	line int64
}

// Claim is what a cook has asked to keep.
type Claim struct {
	Cook, Amount, Dish string
	DishN              int // the dish's number in the plan that is on, from 1; 0 it is not of that
}

// DishNow is a dish, and what went into it or is kept for it.
type DishNow struct {
	Name     string
	Portions int
	In       []string // "300 g leek"
	N        int      // its number in the plan that is on, from 1; 0 it is not of that
	Ready    string   // "18:15"; "" not of a plan
}

// TimerNow is a timer that runs.
type TimerNow struct {
	About, Cook string
	Due         time.Time
}

// SaidNow is a message that was for the kitchen, and the answer.
type SaidNow struct {
	ID                string // of the message
	Cook, Text, Reply string
	At                time.Time
}

// GoneNow is where the crate has gone since the last wrap-up, by the account: amounts in words, ""
// none. Shares are of all that has gone, from 0 to 1.
type GoneNow struct {
	Used, Given, Trim, Binned                     string
	UsedShare, GivenShare, TrimShare, BinnedShare float64
}

// Desk is where a State is read from: one snapshot of the ledger.
type Desk interface {
	LastCame() (map[int64]time.Time, error)
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
	came, err := d.LastCame()
	if err != nil {
		return nil, err
	}
	for i := range s.Crate {
		if at, ok := came[s.Crate[i].line]; ok {
			s.Crate[i].Came = ago(pantry.DateOf(now).Days(pantry.DateOf(at.In(now.Location()))))
		}
	}
	from := int64(1)
	if n := len(x.WrapUps); n > 0 {
		from = x.WrapUps[n-1].N + 1
	}
	on := x.runningAt(now)
	if on != nil {
		s.Plan = on.now(x.Kitchen)
	}
	if err := s.dishes(x, on, from); err != nil {
		return nil, err
	}
	for _, l := range s.Crate {
		for i := range l.Claims {
			if n := slices.IndexFunc(s.Dishes, func(d DishNow) bool { return d.Name == l.Claims[i].Dish }); n >= 0 {
				l.Claims[i].DishN = s.Dishes[n].N
			}
		}
	}
	s.Needs = sayEach(k, NeedsAt(k, now))
	for _, p := range k.People {
		if p.Name != "" {
			s.Chat = append(s.Chat, p.Name)
		}
	}
	slices.Sort(s.Chat)
	timers, err := d.Timers()
	if err != nil {
		return nil, err
	}
	for _, t := range timers {
		if ofPlan := on != nil && t.Message == on.Message; !t.Daily && !t.IsCall() && !isOver(t, now) && !ofPlan { // the plan's steps tell theirs
			s.Timers = append(s.Timers, TimerNow{About: t.About, Cook: k.CookName(t.Cook), Due: t.Due})
		}
	}
	said, err := d.Said(mostSaid)
	for _, m := range said {
		var r Reply
		if json.Unmarshal(m.Reply, &r) == nil {
			s.Said = append(s.Said, SaidNow{ID: m.ID, Cook: k.CookName(m.Cook), Text: m.Text, Reply: r.Brief(), At: m.At})
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
	x := StockLine{line: l.line.ID, Item: l.Item, Left: measure.Say(l.line.OnHand(), l.line.Unit) + l.frozen() + l.opened(), When: l.when(), Days: l.days}
	if len(x.When) > 2 && x.When[:2] == ", " {
		x.When = x.When[2:]
	}
	if l.line.Claimed() > 0 {
		x.Free, x.Holders = measure.Say(l.line.Free(), l.line.Unit), holders(k, l.line)
		for _, h := range l.line.Holds {
			x.Claims = append(x.Claims, Claim{Cook: k.CookName(h.Cook), Amount: measure.Say(h.Amount, l.line.Unit), Dish: h.Dish})
		}
	}
	if n := l.line.Short(); n > 0 {
		x.Short = measure.Say(n, l.line.Unit)
	}
	var came measure.Amount
	for _, o := range l.line.Lots {
		if o.Left > 0 {
			came += o.Came
		}
	}
	if came > 0 {
		x.Share = min(1, float64(l.line.OnHand())/float64(came))
		if l.line.OnHand() < came {
			x.Of = measure.Say(came, l.line.Unit)
		}
	}
	if on := l.line.OnHand(); on > 0 {
		x.Held = min(1, float64(l.line.Claimed())/float64(on))
	}
	return x
}

// ago puts days in words.
func ago(days int) string {
	switch days {
	case 0:
		return "today"
	case 1:
		return "yesterday"
	}
	return fmt.Sprintf("%d days ago", days)
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

// gone puts in words where the crate has gone.
func gone(c account.Crate) (g GoneNow) {
	all := float64(max(0, c.Dishes.AP) + c.Given.AP + c.Trim.AP + c.Binned.AP)
	for _, x := range []struct {
		mg    int64
		say   *string
		share *float64
	}{{c.Dishes.AP, &g.Used, &g.UsedShare}, {c.Given.AP, &g.Given, &g.GivenShare}, {c.Trim.AP, &g.Trim, &g.TrimShare}, {c.Binned.AP, &g.Binned, &g.BinnedShare}} {
		if x.mg > 0 {
			*x.say, *x.share = sayMg(x.mg), float64(x.mg)/all
		}
	}
	return g
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
			x.N, x.Portions, x.Ready = n+1, d.Portions, on.at(d.Ready, s.At)
		}
	}
	var steps []pantry.Placed
	var order []string
	err := x.Ledger.Between(from, 1<<62, func(e pantry.Placed) error {
		steps = append(steps, e)
		if _, away := pantry.Away(e.Dish); e.Act == pantry.Use && e.Dish != "" && !away {
			order = appendOnce(order, e.Dish)
		}
		return nil
	})
	p := account.Period{}
	in := map[string][]string{}
	made := map[int64]bool{}
	for _, l := range x.Kitchen.Lines {
		before := l.Made
		for i := range steps {
			if steps[i].Line == l.ID && steps[i].Act == pantry.Make {
				before -= steps[i].Amount
			}
		}
		made[l.ID] = before > 0
	}
	for _, a := range account.Flow(steps, made) {
		l := x.Kitchen.Line(a.ID)
		if l == nil {
			continue
		}
		p.Lines = append(p.Lines, *a)
		for _, d := range a.Of {
			if d.Amount > 0 {
				in[d.Name] = append(in[d.Name], measure.Say(d.Amount, l.Unit)+" "+l.Name)
			}
		}
	}
	for _, name := range order {
		if len(in[name]) > 0 {
			d := add(name)
			d.In = append(d.In, in[name]...)
		}
	}
	s.Gone = gone(p.Total(x.Kitchen, x.FoodOf))
	return err
}
