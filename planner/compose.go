package planner

import (
	"cmp"
	"math"
	"slices"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// dish is a frame filled with what is free.
type dish struct {
	frame   *technique.Frame
	number  int                // of the frame
	palette *technique.Palette // nil: the frame seasons itself
	blend   int                // of the palette; -1 none
	parts   []part             // as picked: the leading role first
	staples []seasoning        // of the frame and the palette
	bought  []seasoning        // for roles that no line can fill
	bread   bool               // there is bread beside it
	serves  int                // portions
	side    *fit               // how the last part is treated, which stands beside the dish and is in no role; nil none does
}

// part is a line in a role of a dish.
type part struct {
	line   int
	role   int
	grams  float64        // edible
	amount measure.Amount // as purchased
	grade  technique.Grade
	says   []string
}

// seasoning is a staple of a dish, for a portion, with the line that has it.
type seasoning struct {
	technique.Staple
	heat technique.Heat
	line int // -1 none has it
	role int // of bought food: the role of the frame that it fills, counted from 1
}

// place is a role of a frame that a food may fill.
type place struct {
	frame, role int
	grade       technique.Grade
	says        []string
}

// seat is a line that may fill a role.
type seat struct {
	line int
	place
}

// placesOf finds every role that a food may fill.
func placesOf(s technique.Subject) (list []place) {
	frames := technique.Frames()
	for i := range frames {
		for r := range frames[i].Roles {
			if g, says, ok := frames[i].Fits(r, s); ok {
				list = append(list, place{i, r, g, says})
			}
		}
	}
	return list
}

// dishes fills every frame that kit and minutes allow, once.
func (k *kitchen) dishes() (out []candidate) {
	frames := technique.Frames()
	tasted := make([]int, len(theBook().blends))
	byFrame := make([][]seat, len(frames))
	for i := range k.lines {
		for _, p := range k.lines[i].places {
			byFrame[p.frame] = append(byFrame[p.frame], seat{i, p})
		}
	}
	for i := range frames {
		page := &theBook().frames[i]
		if !k.hasWanted(byFrame[i]) || page.kit&^k.kit != 0 || !k.serves(page) || k.isTurned(frames[i].ID, nil) {
			continue
		}
		if c, ok := k.compose(i, page, byFrame[i], tasted); ok {
			out = append(out, c)
			if c.dish.blend >= 0 {
				tasted[c.dish.blend]++
			}
		}
	}
	return out
}

// hasWanted says whether any of the lines may be in a dish, and where a food was named,
// that one.
func (k *kitchen) hasWanted(seats []seat) bool {
	return slices.ContainsFunc(seats, func(s seat) bool { return !k.focused || k.lines[s.line].focus })
}

// compose fills a frame for as many portions as there is food and time for; tasted is
// how often each palette was taken for the dishes before.
func (k *kitchen) compose(number int, page *page, seats []seat, tasted []int) (candidate, bool) {
	f := &technique.Frames()[number]
	n := k.asked
	if n == 0 {
		n = usualPortions
	}
	for ; n > 0; n-- {
		d := dish{frame: f, number: number, blend: -1, serves: n}
		if !k.fill(&d, seats, n) {
			continue
		}
		c := candidate{line: d.parts[0].line, page: page, portions: n, dish: &d, amount: d.parts[0].amount}
		c.minutes, c.hands = f.Minutes(d.gramsByRole())
		if math.Ceil(c.minutes) > k.minutes {
			continue
		}
		k.season(&d, tasted)
		for i := range d.staples {
			if s := &d.staples[i]; s.line >= 0 && !k.lines[s.line].covers(&s.Staple, n) {
				s.line = -1
			}
		}
		if k.isBland(&d, page) || !k.dishAllows(&d) || !k.dishRescues(&d) {
			return c, false
		}
		k.rateDish(&c)
		c.score = scoreOf(&c.speaks)
		return c, true
	}
	return candidate{}, false
}

func (d *dish) gramsByRole() []float64 {
	grams := make([]float64, len(d.frame.Roles))
	for _, p := range d.parts {
		if p.role != beside {
			grams[p.role] += p.grams
		}
	}
	for _, b := range d.bought {
		if b.role > 0 {
			grams[b.role-1] += b.Amount.Units() * float64(d.serves)
		}
	}
	return grams
}

// fill seats lines in every role that must be filled, the leading one first, and in
// the others what must be used up. A food that was named is in the dish, or there is
// none.
func (k *kitchen) fill(d *dish, seats []seat, portions int) bool {
	order := []int{d.frame.Lead}
	for pass := range 2 {
		for r, role := range d.frame.Roles {
			if r != d.frame.Lead && (role.Least > 0) == (pass == 0) {
				order = append(order, r)
			}
		}
	}
	for _, r := range order {
		role := &d.frame.Roles[r]
		if role.Least == 0 && len(d.parts) >= mostFoods[d.frame.Mixes] {
			continue
		}
		if !k.fillRole(d, r, seats, float64(portions)) && role.Least > 0 && !k.buy(d, role) {
			return false
		}
	}
	return len(d.parts) > 0 && !k.isBareSalad(d.frame, d.parts) && (!k.focused || slices.ContainsFunc(d.parts, func(p part) bool { return k.lines[p.line].focus }))
}

// mostFoods is how many foods a dish has at most, by how gladly its frame takes odds
// and ends: more than a guest can name taste of nothing in particular. Common
// practice, no source.
var mostFoods = [...]int{1: 4, 2: 5, 3: 6}

// sliver is the share of what a role needs under which a line is not worth a place
// in it, by how gladly the frame takes odds and ends. Common practice, no source.
var sliver = [...]float64{1: 0.3, 2: 0.2, 3: 0.1}

// fillRole seats lines in one role: what presses most, first; where that is too
// little, what there is most of.
func (k *kitchen) fillRole(d *dish, r int, seats []seat, portions float64) bool {
	role := &d.frame.Roles[r]
	need, room := role.Min*portions, role.Max*portions
	var fits []seat
	for _, s := range seats {
		l := &k.lines[s.line]
		if s.role == r && l.edible() >= sliver[d.frame.Mixes]*need && (role.Least > 0 || l.Crate) && k.goesWith(d, l, s.line) && k.needs.allow(l.Food) {
			fits = append(fits, s)
		}
	}
	presses := func(s seat) float64 {
		l := &k.lines[s.line]
		v := l.usedUp(math.Min(l.edible(), room)) * gradeWorth[s.grade]
		if k.focused && l.focus {
			v += 10
		}
		return v
	}
	slices.SortStableFunc(fits, func(a, b seat) int { return cmp.Compare(presses(b), presses(a)) })
	if k.seat(d, fits, r, portions) {
		return true
	}
	slices.SortStableFunc(fits, func(a, b seat) int {
		return cmp.Compare(k.lines[b.line].edible(), k.lines[a.line].edible())
	})
	return k.seat(d, fits, r, portions)
}

// seat takes lines in the order given until the role is full. It takes nothing
// where they do not suffice.
func (k *kitchen) seat(d *dish, fits []seat, r int, portions float64) bool {
	role := &d.frame.Roles[r]
	need, room := role.Min*portions, role.Max*portions
	had, sum := len(d.parts), 0.0
	for _, s := range fits {
		l := &k.lines[s.line]
		if n := len(d.parts) - had; n == role.Most || n > 0 && n >= role.Least && len(d.parts) >= mostFoods[d.frame.Mixes] || sum >= room*0.95 {
			break
		}
		if !k.goesWith(d, l, s.line) || k.isOnionToo(d, l, r) { // with what was seated just now
			continue
		}
		most := room - sum
		if role.Least > 1 && len(d.parts) == had { // leave room for the others
			most = room / float64(role.Least) * 1.3
		}
		p := part{line: s.line, role: r, grade: s.grade, says: s.says}
		most = math.Min(most, d.frame.Bears(r, l.subject)*portions)
		p.grams = math.Min(l.edible(), most)
		if l.edible() <= most*1.15 { // no scrap is left behind, as the function taken has it
			p.grams = l.edible()
		}
		p.amount = l.drawn(p.grams)
		if len(d.parts) > had && l.isScrap(p.amount, need, portions) {
			continue
		}
		p.grams = p.amount.Units() * l.share
		sum += p.grams
		d.parts = append(d.parts, p)
	}
	if len(d.parts)-had < max(1, role.Least) || sum < need {
		d.parts = d.parts[:had]
		return false
	}
	return true
}

// isScrap says whether an amount is too little to stand beside the first food of a
// role: nobody finds an eighth of an egg on the plate.
func (l *line) isScrap(a measure.Amount, need, portions float64) bool {
	if l.whole {
		return a.Units()*2 < l.Food.PieceMg.Units()*portions
	}
	return a.Units()*l.share < leastBeside*need
}

// leastBeside is the least share of what a role needs that a second food in it brings.
// Common practice, no source.
const leastBeside = 0.25

// edible is what there is of a line that is food, in grams or millilitres.
func (l *line) edible() float64 { return l.Free.Units() * l.share }

// goesWith says whether a line may go beside what is in the dish: it is not there
// yet, nor got for it, and clashes with nothing.
func (k *kitchen) goesWith(d *dish, l *line, i int) bool {
	for _, p := range d.parts {
		if p.line == i || k.lines[p.line].Food == l.Food || k.lines[p.line].sides.With(l.sides) > technique.Fine {
			return false
		}
	}
	return !slices.ContainsFunc(d.bought, func(b seasoning) bool { return b.Names[0] == l.Food.Name })
}

// buy fills a small role that no line can fill with the first food it names, as a
// staple that is not held: a kitchen that has no lemon can get one, but no salmon.
func (k *kitchen) buy(d *dish, role *technique.FrameRole) bool {
	if role.Max > mostBought {
		return false
	}
	for _, s := range role.Suits {
		if f, _ := food.Default().Food(s.What); f != nil && k.needs.allow(f) && !k.holds(d, f) {
			d.bought = append(d.bought, seasoning{Staple: technique.Staple{Names: []string{s.What}, Amount: measure.Amount(role.Min * 1000), Unit: f.Unit}, line: -1, role: d.frame.Role(role.Name) + 1})
			return true
		}
	}
	return false
}

// holds says whether a food is one of a dish's parts already.
func (k *kitchen) holds(d *dish, f *food.Food) bool {
	return slices.ContainsFunc(d.parts, func(p part) bool { return k.lines[p.line].Food == f })
}

// mostBought is the most grams a portion that a role may want and still be filled
// with what is not held.
const mostBought = 40
