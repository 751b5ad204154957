package planner

import (
	"cmp"
	"math"
	"slices"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// Plates is what a portion of a dish on a menu must be.
type Plates struct {
	Grams      [2]float64 // on the plate, the least and the most
	Kcal       [2]float64
	Vegetables float64 // grams at least, raw
}

// A main, a lighter one, and something sweet. Grams: what is agreed for plans; energy: what a kitchen lead
// asks where nothing is said; vegetables: UK NHS, a portion of 5 A Day.
var (
	Main    = Plates{Grams: [2]float64{300, 600}, Kcal: [2]float64{450, 900}, Vegetables: 80}
	Pudding = Plates{Grams: [2]float64{120, 350}, Kcal: [2]float64{120, 700}}
	Lighter = Plates{Grams: [2]float64{220, 450}, Kcal: [2]float64{250, 550}, Vegetables: 80}
)

// plate is a dish that may be on a menu, and how much of the crate may go into it.
type plate struct {
	dish
	page        *page
	portions    int
	draws       []draw
	least, most float64 // grams edible of all draws together
	grams, kcal float64 // on the plate without the draws, for all portions
	worth       float64 // how good it is, 0 to 1
	missing     int     // staples that no line holds
	clock       string  // its times, as clockOf tells them
	loads       []int64 // minutes of hands and of each kit, as loadsOf gives them
}

// draw is what a plate may take of a line of the crate, in grams edible for all portions.
type draw struct {
	line        int
	part        int // index of the part; -1 a staple
	least, most float64
	plated      float64 // what a gram weighs on the plate
	kcal        float64 // of a gram
}

// plateOf works out how much of the crate a seasoned dish may take so that every portion
// is as it must be, whatever is taken within that. It is false where that cannot be.
// Of the cupboard it takes the middle of what a role takes, or as much as it takes where
// that has too little energy.
func (k *kitchen) plateOf(d dish, page *page, portions int, want Plates) (x plate, ok bool) {
	for _, full := range []float64{0.25, 0.5, 1} {
		if x, ok = k.plateWith(d, page, portions, want, full); ok {
			break
		}
	}
	return x, ok
}

func (k *kitchen) plateWith(d dish, page *page, portions int, want Plates, full float64) (plate, bool) {
	d.parts = slices.Clone(d.parts)
	x := plate{dish: d, page: page, portions: portions}
	n := float64(portions)
	for r := range d.frame.Roles {
		if !k.drawRole(&x, r, full) {
			return x, false
		}
	}
	if !k.drawSide(&x) {
		return x, false
	}
	for _, s := range slices.Concat(d.staples, d.bought) {
		if !k.addStapleOf(&x, s) {
			return x, false
		}
	}
	if !x.enoughGreen(n*want.Vegetables, k, isVegetable) || x.frame.Family == "salad" && !x.enoughGreen(n*leastFresh, k, isFresh) || !x.enoughEnergy(n*want.Kcal[0]) {
		return x, false
	}
	sumLeast, sumMost := x.sums()
	x.least = x.reach(n*want.Grams[0]-x.grams, func(d *draw) float64 { return d.plated }, 1)
	if x.kcalAt(x.least, 1) < n*want.Kcal[0] && !x.raiseEnergy(n*want.Kcal[0]) {
		return x, false
	}
	x.least = max(sumLeast, x.least)
	x.most = min(sumMost, x.reach(n*want.Grams[1]-x.grams, func(d *draw) float64 { return d.plated }, -1))
	if !x.lowerEnergy(n * want.Kcal[1]) {
		return x, false
	}
	sumLeast, sumMost = x.sums()
	x.least, x.most = max(x.least, sumLeast), min(x.most, sumMost)
	return x, len(x.draws) > 0 && x.least <= x.most
}

// drawRole adds what the lines in a role may give. Several share its range evenly, as far
// as there is enough of each.
func (k *kitchen) drawRole(x *plate, r int, full float64) bool {
	role := &x.frame.Roles[r]
	n := float64(x.portions)
	least, most, several := role.Min*n, role.Max*n, 0
	for _, p := range x.parts {
		if p.role == r {
			several++
		}
	}
	left := several
	for i := range x.parts { // what there is too little of gives all it has
		if l := &k.lines[x.parts[i].line]; x.parts[i].role == r && several > 1 && l.edible() < least/float64(several) {
			least, most, left = least-l.edible(), most-l.edible(), left-1
		}
	}
	for i := range x.parts {
		p := &x.parts[i]
		if p.role != r {
			continue
		}
		l := &k.lines[p.line]
		d := draw{line: p.line, part: i, plated: x.frame.Plated(r, l.subject), kcal: l.Food.Kcal / 100}
		if several > 1 && l.edible() < role.Min*n/float64(several) {
			d.least, d.most = l.edible(), l.edible()
		} else {
			d.least, d.most = least/float64(left), min(most/float64(left), l.edible())
		}
		bears := x.frame.Bears(r, l.subject) * n
		if d.most = min(d.most, bears); role.Max <= minor { // a little of what is potent fills its place
			d.least = min(d.least, d.most)
		}
		if l.whole {
			each := l.Food.PieceMg.Units()
			d.least = each * math.Ceil(d.least/each-1e-9)
			d.most = max(d.least, each*math.Floor(d.most/each+1e-9))
			if d.least >= bears+each { // an omelette of whites alone
				return false
			}
		}
		if d.least > d.most+1e-6 || d.most > l.edible()+1e-6 {
			return false
		}
		p.grams = (d.least + d.most) / 2
		if !l.Crate {
			p.grams = d.least + full*(d.most-d.least)
			p.amount = l.drawn(p.grams)
			x.grams += p.grams * d.plated
			x.kcal += p.grams * d.kcal
			continue
		}
		x.draws = append(x.draws, d)
	}
	return true
}

// addStapleOf reckons a staple, which is the same whatever else is taken.
func (k *kitchen) addStapleOf(x *plate, s seasoning) bool {
	amount := s.Amount * measure.Amount(x.portions)
	f := k.foodOf(s)
	kept := 1.0
	if s.Unit == measure.Millilitre && s.Amount >= much && x.frame.Drinks() >= 0 {
		kept = technique.Steamed
	}
	if s.Names[0] == "water" || f == nil {
		x.grams += amount.Units() * kept
		return true
	}
	l := (*line)(nil)
	if s.line >= 0 {
		l = &k.lines[s.line]
		a, ok := l.measured(amount, s.Unit)
		if !ok {
			return false
		}
		amount = min(inWhole(f, a), l.Free)
	} else if !slices.ContainsFunc(s.Names, alwaysThere) {
		x.missing++
	}
	if l == nil {
		amount = inWhole(f, amount)
	}
	grams := amount.Units()
	x.kcal += grams * f.Kcal / 100
	swells := 1.0
	if r := slices.IndexFunc(x.bought, func(b seasoning) bool { return b.Names[0] == s.Names[0] }); r >= 0 && s.heat > technique.None {
		swells = x.frame.Plated(x.frame.Lead, technique.Of(f, false))
	}
	x.grams += grams * swells * kept
	if l != nil && l.Crate {
		e := min(grams*l.share, l.edible())
		x.draws = append(x.draws, draw{line: s.line, part: -1, least: e, most: e})
	}
	return true
}

func (x *plate) sums() (least, most float64) {
	for _, d := range x.draws {
		least, most = least+d.least, most+d.most
	}
	return least, most
}

// reach gives the total of the draws from which on their sum by a measure is sure to be
// at least (way 1) or is never more than (way -1) so much: those that measure least, or
// most, are taken to be filled first.
func (x *plate) reach(want float64, by func(*draw) float64, way float64) float64 {
	total := 0.0
	for i := range x.draws {
		d := &x.draws[i]
		total += d.least
		want -= d.least * by(d)
	}
	if want <= 0 && way > 0 {
		return total
	}
	if want < 0 { // it is too much already
		return -1
	}
	for _, i := range x.inOrder(by, way) {
		d := &x.draws[i]
		room := d.most - d.least
		if u := by(d); room*u >= want {
			return total + want/u
		}
		total += room
		want -= room * by(d)
	}
	if way > 0 {
		return math.Inf(1)
	}
	return total
}

// inOrder gives the draws from the one that measures least on (way 1), or most.
func (x *plate) inOrder(by func(*draw) float64, way float64) []int {
	order := make([]int, len(x.draws))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(way*by(&x.draws[a]), way*by(&x.draws[b])) })
	return order
}

// kcalAt gives the least (way 1) or the most energy that the dish has when so much is
// drawn in all.
func (x *plate) kcalAt(total, way float64) float64 {
	sum := x.kcal
	for _, d := range x.draws {
		sum += d.least * d.kcal
		total -= d.least
	}
	for _, i := range x.inOrder(func(d *draw) float64 { return d.kcal }, way) {
		d := &x.draws[i]
		take := min(max(total, 0), d.most-d.least)
		sum += take * d.kcal
		total -= take
	}
	return sum
}

// leastFresh is how much of what is no pulse a salad has, in grams a portion. Common
// practice, no source.
const leastFresh = 50

// enoughGreen raises the least of the vegetables until they suffice, of those that count.
func (x *plate) enoughGreen(want float64, k *kitchen, counts func(*food.Food) bool) bool {
	for _, p := range x.parts {
		if l := &k.lines[p.line]; !l.Crate && counts(l.Food) {
			want -= p.grams
		}
	}
	for _, d := range x.draws {
		if counts(k.lines[d.line].Food) {
			want -= d.least
		}
	}
	for i := range x.draws {
		if d := &x.draws[i]; counts(k.lines[d.line].Food) && want > 0 {
			more := min(want, d.most-d.least)
			d.least += more
			want -= more
		}
	}
	return want <= 1e-6
}

// enoughEnergy says whether the dish can have so much energy at all.
func (x *plate) enoughEnergy(want float64) bool {
	_, most := x.sums()
	return x.kcalAt(most, 1) >= want
}

// raiseEnergy raises the least of what has most energy until the dish has enough of it
// whatever else is taken.
func (x *plate) raiseEnergy(want float64) bool {
	for _, i := range x.inOrder(func(d *draw) float64 { return d.kcal }, -1) {
		short := want - x.kcalAt(x.least, 1)
		if short <= 0 {
			return true
		}
		d := &x.draws[i]
		if d.kcal > 0 {
			d.least += min(short/d.kcal, d.most-d.least)
		}
	}
	return x.kcalAt(x.least, 1) >= want-1e-6
}

// lowerEnergy lowers the most of what has most energy until the dish never has too much.
func (x *plate) lowerEnergy(want float64) bool {
	for _, i := range x.inOrder(func(d *draw) float64 { return d.kcal }, -1) {
		over := x.kcalAt(x.most, -1) - want
		if over <= 0 {
			return true
		}
		d := &x.draws[i]
		if d.kcal > 0 {
			d.most -= min(over/d.kcal, d.most-d.least)
		}
	}
	return x.kcalAt(x.most, -1) <= want+1e-6
}
