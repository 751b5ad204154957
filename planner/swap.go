package planner

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"scullion/planner/technique"
)

// Swap is a dish of a plan that has begun, in the place of which another is wanted.
type Swap struct {
	Rest
	Out int     // which of its Dishes goes; nothing of it that takes hands or heat has begun
	By  int     // the minute by which all is to be ready
	Ask PlanAsk // Stock, Portions, Needs and the like; the rest of it follows from the plan

	Same bool // the same dish again, for as many as Ask.Portions says
}

// ErrTooLate is given where there are no minutes left for another dish.
var ErrTooLate = errors.New("there is no time left for another dish")

// MakeSwap finds a dish, another or the Same for another number, for what is free, the hands, the kit and the minutes that are left,
// unlike those that stay, and puts the rest of the plan into one timetable. What has begun
// stays. It gives the plan as Replan does. Of s it changes nothing. The errors are ErrTooLate
// and those of MakePlan and Replan.
func MakeSwap(ctx context.Context, s Swap) (dishes []Planned, minutes int, proven bool, err error) {
	a := s.ask()
	if a.Minutes < 1 || a.Cooks < 1 {
		return nil, 0, false, ErrTooLate
	}
	for {
		made, err := makePlan(ctx, a, nil, true)
		if err != nil {
			return nil, 0, false, err
		}
		if s.Same && made.Dishes[0].Key != s.Dishes[s.Out].Key {
			return nil, 0, false, ErrNoDishes
		}
		dishes, minutes, proven, err = s.join(ctx, made.Dishes[0])
		if err == nil || a.Kit["oven"] == 0 {
			return dishes, minutes, proven, err
		}
		a.Kit["oven"] = 0 // what it is hot for only the timetable knows
	}
}

// ask is what MakePlan is asked for: one dish beside those that stay, with what these leave.
func (s *Swap) ask() PlanAsk {
	a := s.Ask
	a.Dishes, a.Minutes, a.Cooks = 1, s.By-s.Now, max(0, s.Cooks-len(s.Gone))
	a.Kit = map[string]int{}
	for k, n := range s.Kit {
		a.Kit[k] = n
	}
	a.Off, a.Without = slices.Clone(a.Off), slices.Clone(a.Without)
	if s.Same {
		a.Keep = []string{s.Dishes[s.Out].Key}
	} else {
		a.Not = append(slices.Clone(a.Not), s.Dishes[s.Out].Key)
	}
	if a.Sweet = 0; isSweet(s.Dishes[s.Out].Frame) {
		a.Sweet = 1
	}
	cold := 0
	for i, d := range s.Dishes {
		if i == s.Out || len(d.Steps) == 0 { // dropped
			continue
		}
		if d.Serve == Cold {
			cold++
		}
		if !s.Same { // that was settled as it was chosen
			a.Beside = append(a.Beside, d)
			a.Off = append(a.Off, d.Palette)
			if f := frameByID(d.Frame); f != nil {
				a.Without = append(a.Without, f.Family)
			}
		}
		for _, x := range d.Steps {
			for _, k := range x.Kit {
				a.Busy = append(a.Busy, Busy{k, x.Start - s.Now, x.Start + x.Minutes - s.Now})
			}
			if x.HandsOn > 0 && !s.Gone[x.Cook] {
				a.Busy = append(a.Busy, Busy{"hands", x.Start - s.Now, x.Start + x.HandsOn - s.Now})
			}
		}
	}
	a.Cold = min(1, max(0, a.Cold-cold))
	for cook, until := range s.Held {
		if !s.Gone[cook] {
			a.Busy = append(a.Busy, Busy{"hands", 0, until - s.Now})
		}
	}
	a.Busy = slices.DeleteFunc(a.Busy, func(b Busy) bool { return b.To <= 0 || b.To <= b.From })
	return a
}

// join puts a dish into the place of the one that goes, and all into one timetable.
func (s *Swap) join(ctx context.Context, d Planned) (dishes []Planned, minutes int, proven bool, err error) {
	for i := range d.Steps {
		d.Steps[i].Start += s.Now
	}
	r := s.Rest
	r.Dishes = Replace(s.Dishes, s.Out, d)
	if dishes, minutes, proven, err = Replan(ctx, r); err != nil {
		return nil, 0, false, err
	}
	before := 0
	for _, o := range s.Dishes {
		before = max(before, o.Ready)
	}
	if minutes > max(s.By, before) {
		return nil, 0, false, ErrTooLate
	}
	return dishes, minutes, proven, nil
}

// Replace gives the dishes with d in the place of the one numbered out. Steps of that which
// others wait for, such as an oven that is heated for two, go over to these; an oven that is
// heated to what d wants is not heated again. The steps of d get names that no other has.
// It changes nothing of what it is given.
func Replace(dishes []Planned, out int, d Planned) []Planned {
	list := make([]Planned, len(dishes))
	most := -1
	for i, o := range dishes {
		o.Steps = slices.Clone(o.Steps)
		list[i] = o
		for _, s := range o.Steps {
			if n, err := strconv.Atoi(strings.TrimLeft(s.ID, "abcdefghijklmnopqrstuvwxyz")); err == nil {
				most = max(most, n)
			}
		}
	}
	for _, s := range list[out].Steps {
		for i := range list {
			if i != out && slices.ContainsFunc(list[i].Steps, func(o PlanStep) bool { return slices.Contains(o.After, s.ID) }) {
				list[i].Steps = append(list[i].Steps, s)
				break
			}
		}
	}
	names := map[string]string{}
	d.Steps = slices.Clone(d.Steps)
	for i := range d.Steps {
		names[d.Steps[i].ID] = fmt.Sprintf("%c%d", 'a'+rune(out), most+1+i)
	}
	d.Steps = slices.DeleteFunc(d.Steps, func(s PlanStep) bool {
		hot := heatedTo(list, out, s)
		if hot != "" {
			names[s.ID] = hot
		}
		return hot != ""
	})
	for i := range d.Steps {
		s := &d.Steps[i]
		s.ID = names[s.ID]
		s.After = slices.Clone(s.After)
		for j, a := range s.After {
			if names[a] != "" {
				s.After[j] = names[a]
			}
		}
	}
	list[out] = d
	return list
}

// heatedTo gives the step of another dish that heats the oven as a step does; "" none.
func heatedTo(dishes []Planned, out int, s PlanStep) string {
	if !s.Readies() || !slices.Contains(s.Kit, "oven") {
		return ""
	}
	for i, d := range dishes {
		for _, o := range d.Steps {
			if i != out && o.Do == s.Do && o.Temp == s.Temp && slices.Contains(o.Kit, "oven") {
				return o.ID
			}
		}
	}
	return ""
}

// Readies says whether a step takes neither hands nor food: it heats the oven, or the kettle.
func (s *PlanStep) Readies() bool {
	return s.HandsOn == 0 && (strings.HasPrefix(s.Do, "heat ") || slices.Contains(s.Kit, "kettle"))
}

// HasBegun says whether hands or heat have begun on a dish by a minute.
func (p *Planned) HasBegun(now int) bool {
	return slices.ContainsFunc(p.Steps, func(s PlanStep) bool { return s.Start < now && !s.Readies() })
}

// isSweet says whether a frame is of a pudding.
func isSweet(frame string) bool {
	f := frameByID(frame)
	return f != nil && f.Family == "sweet"
}

// StandIn gives the food that may take the place of one that is short in a dish: it fills a
// role that this does, is allowed, and brings no allergen and no meat that the dish has not.
// What there is enough of goes first, then what suits best, then the freest; none is less
// than half of what is short.
func StandIn(stock []Stock, needs Needs, d Planned, short Stock) (s Stock, ok bool) {
	f := frameByID(d.Frame)
	if f == nil || short.Food == nil {
		return s, false
	}
	k := newKitchen(Ask{Stock: stock, Needs: needs})
	roleIn := func(p place) bool { return &technique.Frames()[p.frame] == f }
	var roles []int
	for _, p := range knownOf(short.Food, technique.Cooked(short.Food, short.Item)).places {
		if roleIn(p) {
			roles = append(roles, p.role)
		}
	}
	best := [3]int64{}
	for i := range k.lines {
		l := &k.lines[i]
		if l.Item == short.Item || l.Unit != short.Unit || 2*l.Free < short.Free || !needs.allow(l.Food) || l.Food.Meatless == "no" && short.Food.Meatless != "no" ||
			slices.ContainsFunc(l.Food.Allergen, func(a string) bool { return !slices.Contains(d.Allergens, a) }) {
			continue
		}
		for _, p := range l.places {
			if !roleIn(p) || !slices.Contains(roles, p.role) {
				continue
			}
			rank := [3]int64{int64(b2i(l.Free >= short.Free)), int64(p.grade), int64(l.Free)}
			if !ok || slices.Compare(rank[:], best[:]) > 0 {
				s, ok, best = *l.Stock, true, rank
			}
		}
	}
	return s, ok
}

// Instead gives the food that does for seasoning that is short, by the table of swaps: it is
// free, allowed, and brings no allergen that the dish has not.
func Instead(stock []Stock, needs Needs, d Planned, short string) (s Stock, ok bool) {
	for _, w := range technique.Swaps(short) {
		for _, x := range stock {
			if x.Food != nil && x.Food.Name == w.By && x.Item != short && x.Free > 0 && needs.allow(x.Food) &&
				!slices.ContainsFunc(x.Food.Allergen, func(a string) bool { return !slices.Contains(d.Allergens, a) }) {
				return x, true
			}
		}
	}
	return s, false
}
