package bot

import (
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/planner"
)

// serviceLong is how long what was begun or turned down counts: a service.
const serviceLong = 12 * time.Hour

// service is what goes on in the kitchen now.
type service struct {
	turned []planner.Choice // ideas not wanted
	menu   []planner.Choice // ideas begun
	busy   map[string]int   // kit in use
	hands  time.Duration    // until this cook's hands are free of what was begun
	at     string           // that begun thing
	left   int              // minutes left in the service that was planned; 0 none is on
}

func (t *turn) service() (s service, err error) {
	s.busy = map[string]int{}
	choices, err := t.book.Chosen(t.m.At.Add(-serviceLong))
	if err != nil {
		return s, err
	}
	for _, c := range choices {
		x := planner.Choice{Technique: c.Technique, Item: c.Item, Palette: c.Palette}
		if !c.Taken {
			s.turned = append(s.turned, x)
			continue
		}
		s.menu = append(s.menu, x)
		if c.Until.After(t.m.At) {
			for _, k := range c.Kit {
				s.busy[k]++
			}
		}
		if wait := c.Hands.Sub(t.m.At); c.Cook == t.cook && wait > s.hands {
			s.hands, s.at = wait, Idea{Title: c.Title}.name()
		}
	}
	if err := t.planned(&s); err != nil {
		return s, err
	}
	timers, err := t.book.Timers()
	if err != nil {
		return s, err
	}
	for _, x := range timers {
		if k := kitNamed(x.About); k != "" && !x.IsCall() && !x.Daily && !slices.ContainsFunc(choices, func(c pantry.Choice) bool { return c.Message == x.Message }) {
			s.busy[k]++
		}
	}
	return s, nil
}

// wait gives the whole minutes until the cook's hands are free.
func (s service) wait() int { return int((s.hands + time.Minute - 1) / time.Minute) }

// planned adds what the plan that was begun holds now, and its dishes.
func (t *turn) planned(s *service) error {
	on, running, err := t.running()
	if err != nil || !running {
		return err
	}
	now := on.minute(t.m.At)
	s.left = max(1, int(on.Due.Sub(t.m.At)/time.Minute))
	for _, d := range on.Plan.Dishes {
		if d.isOff() || len(d.Uses) == 0 {
			continue
		}
		s.menu = append(s.menu, planner.Choice{Technique: d.Frame, Palette: d.Palette, Item: d.Uses[0].Item})
		for _, x := range d.Steps {
			if now < x.Start || now >= x.Start+x.Minutes {
				continue
			}
			for _, k := range x.Kit {
				s.busy[k]++
			}
			if free := time.Duration(x.Start+x.HandsOn-now) * time.Minute; x.Cook > 0 && on.cook(t.cook) == x.Cook && free > s.hands {
				s.hands, s.at = free, Idea{Title: d.Name}.name()
			}
		}
	}
	return nil
}

// kitNamed gives the kit that the name of a timer tells of: "tart in the oven".
func kitNamed(about string) string {
	for _, w := range strings.Fields(strings.ToLower(about)) {
		if planner.DefaultKit()[w] > 0 {
			return w
		}
	}
	return ""
}

// kit gives what there is to cook on and with now: the usual, less what is in use
// and what was said not to be there.
func (s service) kit(l language.Limits) map[string]int {
	kit := planner.DefaultKit()
	for k, n := range s.busy {
		kit[k] -= n
	}
	for _, k := range l.Without {
		delete(kit, k)
	}
	if len(l.Only) > 0 {
		for k := range kit {
			if !slices.Contains(l.Only, k) {
				delete(kit, k)
			}
		}
	}
	return kit
}

// ideasFor gives ideas within limits for one line, or for any.
func (t *turn) ideasFor(s service, item string, l language.Limits, shown []shown, most int) []shown {
	if l.Minutes == 0 {
		l.Minutes = s.left
	}
	if l.Minutes > 0 && l.Minutes <= s.wait() {
		return nil
	}
	a := IdeaAsk{Item: item, Minutes: max(0, l.Minutes-s.wait()), Portions: l.Portions, Kit: s.kit(l), Serve: planner.Serve(l.Serve),
		Needs: t.mustNot(l), Turned: slices.Clone(s.turned), Menu: s.menu, Most: most}
	for _, i := range shown {
		a.Turned = append(a.Turned, planner.Choice{Technique: i.Technique, Item: i.main()})
	}
	return ideas(t.fit(), pantry.DateOf(t.m.At), a, t.ear.foodOf)
}

// Needs gives what the table must not be given.
func Needs(l language.Limits) planner.Needs {
	return planner.Needs{Avoid: l.Avoid, Vegan: l.Diet == "vegan", Meatless: l.Diet == "vegetarian"}
}

// main is the line that an idea is about.
func (i Idea) main() string {
	if len(i.Uses) == 0 {
		return ""
	}
	return i.Uses[0].Item
}
