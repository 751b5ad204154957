package planner

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"scullion/planner/share"
	"scullion/planner/technique"
)

// problem puts the menu into numbers.
func (m *menu) problem(try int) share.Problem {
	p := share.Problem{Stock: m.stock, Weight: m.weight, Choose: m.ask.Dishes, Candidates: make([]share.Candidate, len(m.plates))}
	groups := map[string][]int{}
	var cold, sweet []int
	kept := map[string][]int{}
	unit := m.quality()
	for i := range m.plates {
		x := &m.plates[i]
		c := &p.Candidates[i]
		c.Min, c.Max = int64(x.least*1000), int64(x.most*1000)
		c.Value = int64(x.worth * unit)
		for _, d := range x.draws {
			u := share.Use{Line: m.at[d.line], Min: int64(d.least * 1000), Max: int64(d.most * 1000)}
			if u.Max > m.stock[u.Line] {
				u.Max = m.stock[u.Line]
			}
			u.Min = min(u.Min, u.Max)
			if at := slices.IndexFunc(c.Uses, func(o share.Use) bool { return o.Line == u.Line }); at >= 0 {
				c.Uses[at].Min, c.Uses[at].Max = min(c.Uses[at].Min+u.Min, m.stock[u.Line]), min(c.Uses[at].Max+u.Max, m.stock[u.Line])
				continue
			}
			c.Uses = append(c.Uses, u)
		}
		c.Family = m.familyOf(x, rules[try].kin)
		for _, g := range m.sorts(x, try) {
			groups[g] = append(groups[g], i)
		}
		if x.frame.Family == "sweet" {
			sweet = append(sweet, i)
		} else if x.page.cold {
			cold = append(cold, i)
		}
		if key := m.keyOf(&x.dish); slices.Contains(m.ask.Keep, key) {
			kept[key] = append(kept[key], i)
		}
	}
	if like := m.likeBeside(try); len(like) > 0 {
		p.Groups = append(p.Groups, share.Group{Members: like})
	}
	names := make([]string, 0, len(groups))
	for g := range groups {
		names = append(names, g)
	}
	slices.Sort(names)
	for _, g := range names {
		most := 1
		if g == pulses && rules[try].led {
			most = 2
		}
		p.Groups = append(p.Groups, share.Group{Members: groups[g], Most: most})
	}
	if m.ask.Cold > 0 {
		p.Groups = append(p.Groups, share.Group{Members: cold, Least: m.ask.Cold, Most: m.ask.Dishes})
	}
	if len(sweet) > 0 || m.ask.Sweet > 0 {
		p.Groups = append(p.Groups, share.Group{Members: sweet, Least: m.ask.Sweet, Most: m.ask.mostSweet()})
	}
	for _, key := range m.ask.Keep {
		if len(kept[key]) > 0 {
			p.Groups = append(p.Groups, share.Group{Members: kept[key], Least: 1, Most: 1})
		}
	}
	for _, item := range m.ask.With {
		p.Groups = append(p.Groups, share.Group{Members: m.holding(item), Least: 1, Most: m.ask.Dishes})
	}
	if len(m.ask.UseUp) > 0 {
		p.Least = make([]int64, len(m.stock))
		for at, i := range m.lines {
			if slices.ContainsFunc(m.ask.UseUp, func(item string) bool { return strings.EqualFold(item, m.kitchen.lines[i].Item) }) {
				p.Least[at] = m.stock[at]
			}
		}
	}
	m.load(&p)
	p.Fits = m.fits
	return p
}

// load tells how many minutes of hands and of each kit a plate takes, and how many there
// are: what is too much of any cannot be ready in time, whatever the timetable.
func (m *menu) load(p *share.Problem) {
	minutes := int64(max(1, m.ask.Minutes))
	p.Limits = []int64{int64(m.ask.Cooks) * minutes}
	for _, word := range technique.Scarce {
		n := m.ask.Kit[word]
		if word == "oven" {
			n *= shelves
		}
		p.Limits = append(p.Limits, int64(n)*minutes)
	}
	for _, b := range m.ask.Busy {
		if t, ok := m.held(b); ok {
			for i, n := range t.Needs {
				p.Limits[i] = max(0, p.Limits[i]-int64(n*t.Minutes))
			}
		}
	}
	for i := range m.plates {
		p.Candidates[i].Loads = m.plates[i].loads
	}
}

// loadsOf gives the minutes that steps hold hands and each kit, whatever way they are done. To heat an oven is not
// counted: it may be hot for another dish.
func loadsOf(steps []Step) []int64 {
	loads := make([]int64, 1+len(technique.Scarce))
	for i := range steps {
		s := &steps[i]
		hands, whole := s.hands, s.whole
		for j := range s.ways {
			if w := &s.ways[j]; s.mayBe(w, true) {
				if hands = min(hands, w.hands); w.Kit != s.Kit {
					whole = 0
				}
			}
		}
		loads[0] += int64(hands)
		if at := slices.Index(technique.Scarce, s.Kit); at >= 0 && !s.heats() {
			loads[1+at] += int64(whole)
		}
	}
	return loads
}

// holding lists the plates that take of a line.
func (m *menu) holding(item string) (list []int) {
	for i := range m.plates {
		if slices.ContainsFunc(m.plates[i].draws, func(d draw) bool { return strings.EqualFold(m.kitchen.lines[d.line].Item, item) }) {
			list = append(list, i)
		}
	}
	return list
}

// quality is what a perfect dish is worth beside what it uses: a tenth of what a large
// one can use. Of two plans that use about as much the one that suits better is taken,
// and a few grams more are no reason for a worse dish. The planner's own judgement, no
// source.
func (m *menu) quality() float64 {
	best := 0.0
	for i := range m.plates {
		best = max(best, m.plates[i].most)
	}
	most := int64(1)
	for _, w := range m.weight {
		most = max(most, w)
	}
	return best * 1000 * float64(most) * 0.1
}

// familyOf numbers what no two dishes of a menu may both be.
func (m *menu) familyOf(x *plate, kin bool) int {
	if kin {
		return x.number
	}
	return slices.Index(technique.FrameFamilies, x.frame.Family)
}

// pulses from a tin are in most cupboards, and would be in every dish.
const pulses = "tinned pulse"

// sorts names the sorts of dish that a plate is of, each of which a menu has once.
func (m *menu) sorts(x *plate, try int) (list []string) {
	if x.blend >= 0 {
		list = append(list, "palette "+theBook().blends[x.blend].ID)
	}
	if !rules[try].led && len(x.parts) > 0 {
		if l := &m.kitchen.lines[x.parts[0].line]; l.Crate {
			list = append(list, "led by "+l.Food.Name)
		}
	}
	if m.holds(x, pulses) {
		list = append(list, pulses)
	}
	if rules[try].alike {
		return list
	}
	for i, p := range x.parts { // who had the salmon does not want it again
		if i > 0 && p.role != beside && m.kitchen.isMet(&x.dish, p) {
			list = append(list, "led by "+m.kitchen.lines[p.line].Food.Name)
		}
	}
	if x.side != nil {
		list = append(list, "led by "+m.kitchen.lines[x.parts[len(x.parts)-1].line].Food.Name)
	}
	if x.frame.Form == "smooth" {
		list = append(list, "smooth")
	}
	for _, kind := range onceOnly {
		if m.holds(x, kind) {
			list = append(list, kind)
		}
	}
	return list
}

// onceOnly are the kinds of food that one dish of a menu has.
var onceOnly = []string{"pasta", "pastry", "smoked fish", "rice", "noodle", "flatbread"}

// holds says whether there is food of a kind in a plate, of a line or bought.
func (m *menu) holds(x *plate, kind string) bool {
	return slices.ContainsFunc(x.parts, func(p part) bool { return isOf(m.kitchen.lines[p.line].Food, kind) }) ||
		slices.ContainsFunc(x.bought, func(b seasoning) bool { return isOf(m.kitchen.foodOf(b), kind) })
}

// tell passes on how far the sharing has come.
func (m *menu) tell() func(share.Result) {
	if m.progress == nil {
		return nil
	}
	return func(r share.Result) {
		used := 0.0
		for _, amounts := range r.Amounts {
			for _, a := range amounts {
				used += float64(a) / 1000
			}
		}
		m.progress(used/m.total, m.bound(r.Bound))
	}
}

// bound turns a bound on what is used by worth into one by weight: of all ways to reach
// that worth the one that weighs most takes what is worth least first, and no more than
// the largest dishes hold.
func (m *menu) bound(worth int64) float64 {
	order := make([]int, len(m.stock))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(m.weight[a] - m.weight[b]) })
	grams := 0.0
	left := float64(worth)
	for _, i := range order {
		take := min(float64(m.stock[i]), left/float64(m.weight[i]))
		grams += take / 1000
		left -= take * float64(m.weight[i])
	}
	var most []float64
	for i := range m.plates {
		most = append(most, m.plates[i].most)
	}
	slices.Sort(most)
	held := 0.0
	for _, g := range most[max(0, len(most)-m.ask.Dishes):] {
		held += g
	}
	return min(1, min(grams, held)/m.total)
}

// boundByWeight bounds what any plan uses where every gram counts alike. Timetables, which
// only take choices away, are left out of it.
func (m *menu) boundByWeight(ctx context.Context, p share.Problem) float64 {
	p.Fits, p.Weight, p.Candidates = nil, slices.Repeat([]int64{1}, len(m.stock)), slices.Clone(p.Candidates)
	for i := range p.Candidates {
		p.Candidates[i].Value = 0
	}
	ctx, cancel := context.WithTimeout(ctx, boundingTime)
	defer cancel()
	r, err := share.Choose(ctx, p)
	if err != nil && !errors.Is(err, share.ErrNoneFound) {
		return 1
	}
	return float64(r.Bound) / 1000 / m.total
}

// boundingTime is how long a bound by weight is thought about.
const boundingTime = 250 * time.Millisecond
