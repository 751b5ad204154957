package planner

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// palettesOfFilling is in how many palettes a filling is thought of: the best of those that
// suit it, for a menu must not taste alike. A few more are tried, for some of them want
// what is not held.
const (
	palettesOfFilling = 3
	palettesTried     = 6
)

// Where hands are scarce a dish is thought of once more with little more than the least in
// it, which is cut and cooked sooner.
const (
	leanest    = 1.1 // times the least
	handsOfOne = 16  // minutes of hands that a dish of any size takes: common practice, no source
)

// isTight says whether there are few hands for so many dishes: then nothing stands beside
// them.
func (a *PlanAsk) isTight() bool { return a.Cooks*a.Minutes < handsOfOne*a.Dishes }

// sidesOfPlate is with how many sides a dish is thought of, what presses most first.
const sidesOfPlate = 3

// plates gives the dishes that may be on a menu: every frame that kit and table allow,
// filled in the ways that are worth a look, each in the palettes that suit it.
func (k *kitchen) plates(a *PlanAsk) []plate {
	list := k.platesWith(a, mostLacking)
	var frames []int
	for i := range list {
		if f := &list[i]; f.frame.Family != "sweet" && !slices.Contains(frames, f.number) {
			frames = append(frames, f.number)
		}
	}
	if len(frames) < a.Dishes && k.isStocked() {
		return k.platesWith(a, mostLackingOfAll)
	}
	return list
}

// platesWith is plates, with palettes of which so many foods at most have to be got.
func (k *kitchen) platesWith(a *PlanAsk, most int) (list []plate) {
	frames := technique.Frames()
	byFrame := make([][]seat, len(frames))
	for i := range k.lines {
		for _, p := range k.lines[i].places {
			byFrame[p.frame] = append(byFrame[p.frame], seat{i, p})
		}
	}
	var sides []side
	if !a.isTight() {
		sides = k.sides(a)
	}
	for i := range frames {
		f := &frames[i]
		page := &theBook().frames[i]
		if k.lacks(f, page) || !k.serves(page) || f.Family == "sweet" && a.mostSweet() == 0 || k.isTurned(f.ID, nil) || k.rulesOut(a, f) || !canBe(f, a) {
			continue
		}
		for _, filled := range k.fillings(i, byFrame[i], a.Portions) {
			list = append(list, k.seasoned(i, page, &filled, sides, a, most)...)
		}
	}
	return list
}

// canBe says whether a frame with the least in its roles can be ready in time at all, with
// hands enough.
func canBe(f *technique.Frame, a *PlanAsk) bool {
	grams := make([]float64, len(f.Roles))
	for r, role := range f.Roles {
		if role.Least > 0 {
			grams[r] = role.Min * float64(a.Portions)
		}
	}
	ends := make([]float64, len(f.Steps))
	last := 0.0
	for i, s := range f.Steps {
		for _, b := range s.After {
			ends[i] = max(ends[i], ends[b])
		}
		if !f.Skips(i, grams) {
			ends[i] += leastMinutes(f, i, f.StepGrams(i, grams), a.Kit)
		}
		last = max(last, ends[i])
	}
	return last <= float64(a.Minutes+len(f.Steps)) // minutes are rounded, step by step
}

// seasoned gives a filling in the palettes that suit it best; where the leading food
// likes none, as it is. Of a palette so many foods at most may have to be got.
func (k *kitchen) seasoned(number int, page *page, filled *filling, sides []side, a *PlanAsk, mostLacking int) (list []plate) {
	base := dish{frame: &technique.Frames()[number], number: number, blend: -1, parts: filled.parts, serves: a.Portions}
	for _, b := range filled.gets {
		base.bought = append(base.bought, b.seasoning)
	}
	type choice struct {
		blend int
		likes float64
	}
	choices := []choice{}
	if len(base.parts) > 0 && !k.hasPaste(&base) {
		for _, n := range theBook().takes[number] {
			if v := k.seasons(&base, n); v > 0 && !a.isOff(theBook().blends[n].ID) && k.mayUse(&base, n) && (k.lacking(n) <= mostLacking || !k.isStocked()) {
				choices = append(choices, choice{n, v})
			}
		}
		slices.SortStableFunc(choices, func(x, y choice) int { return cmp.Compare(y.likes, x.likes) })
	}
	choices = choices[:min(len(choices), palettesTried)]
	if len(choices) == 0 || seasonsItself(base.frame) {
		choices = append(choices, choice{-1, 1})
	}
	type tasted struct {
		plate
		likes float64
	}
	var found []tasted
	for _, c := range choices {
		d := base
		d.parts, d.bought, d.blend = slices.Clone(base.parts), slices.Clone(base.bought), c.blend
		k.sourOnce(&d)
		k.dress(&d)
		for i := range d.staples {
			if s := &d.staples[i]; s.line >= 0 && !k.lines[s.line].covers(&s.Staple, a.Portions) {
				s.line = -1
			}
		}
		if k.isBland(&d, page) || !k.dishAllows(&d) {
			continue
		}
		x, ok := k.plateOf(d, page, a.Portions, a.plates(base.frame))
		if !ok {
			x, ok = k.withBread(d, page, a)
		}
		if ok && k.isCookedUnwanted(&x.dish) {
			continue
		}
		if ok && k.isStocked() && k.lacksWhatCarries(&x) {
			continue
		}
		if x.least = max(x.least, leastOfCrate*float64(a.Portions)); !ok || x.least > x.most || k.substance(&x) < leastOfCrate*float64(a.Portions) || x.missing > mostMissing && k.isStocked() {
			continue
		}
		x.worth = k.worthOf(&x, c.likes)
		found = append(found, tasted{x, c.likes})
		if y, ok := k.withBread(d, page, a); ok && !x.bread && k.hasBread(&y) && slices.Contains(breaded, base.frame.Family) {
			y.worth = k.worthOf(&y, c.likes)
			found = append(found, tasted{y, c.likes})
		}
	}
	slices.SortStableFunc(found, func(x, y tasted) int { return cmp.Compare(y.worth, x.worth) })
	for _, x := range found[:min(len(found), palettesOfFilling)] {
		list = append(list, x.plate)
		if a.isTight() && x.least < x.most {
			lean := x.plate
			lean.parts = slices.Clone(x.parts)
			lean.most = min(x.most, x.least*leanest)
			list = append(list, lean)
		}
		var had []int // lines
		for _, s := range sides {
			if slices.Contains(had, s.line) {
				continue
			}
			if y, ok := k.withSide(&x.plate, s, a); ok && (y.missing <= mostMissing || !k.isStocked()) {
				y.worth = k.worthOf(&y, x.likes)
				list = append(list, y)
				if had = append(had, s.line); len(had) == sidesOfPlate {
					break
				}
			}
		}
	}
	return list
}

// isCookedUnwanted says whether a step of a dish, as it is told, is of a way of cooking that is
// not wanted, whatever its frame calls it.
func (k *kitchen) isCookedUnwanted(d *dish) bool {
	return len(k.without) > 0 && slices.ContainsFunc(k.named(d, k.steps(d)), func(s Step) bool { return k.isUnwanted(s.Do) })
}

// mostLacking is how many of a palette's foods may have to be got where the cupboard is
// stocked, and mostLackingOfAll where fewer dishes than are asked for can be had with so few:
// chanterelles on pasta want parsley and lemon, or they are bland. The planner's own judgement, no source.
const (
	mostLacking      = 1
	mostLackingOfAll = 2
)

// lacking counts the foods of a palette that no line has, nor what does instead.
func (k *kitchen) lacking(n int) (count int) {
	for _, c := range theBook().blends[n].parts {
		if !k.isHeld(&c) {
			count++
		}
	}
	return count
}

// leastOfCrate is the grams of the crate that a portion takes at least: a dish of less is
// not made of it. The planner's own judgement, no source.
const leastOfCrate = 40

// substance is how much of the crate a plate can take, in grams, of what a dish is made of:
// the onion and the lemon in it are not, unless they lead it.
func (k *kitchen) substance(x *plate) (grams float64) {
	for _, d := range x.draws {
		if d.part >= 0 && (x.parts[d.part].role == x.frame.Lead || !Seasons(k.lines[d.line].Food)) {
			grams += d.most
		}
	}
	return grams
}

// Seasons says whether a food is in every second dish for its taste: where it does not lead,
// a dish can be made without.
func Seasons(f *food.Food) bool {
	return isOf(f, "aromatic", "citrus", "butter", "soft herb", "hard herb", "chilli") || isOf(f, "allium") && f.Keeper
}

// GoesInLate says whether a food of the cupboard goes into a dish while that cooks, rather than as it is begun: what fills it, and
// stock. The planner's own judgement, no source.
func GoesInLate(f *food.Food) bool { return isOf(f, starches...) || f.Group == "stock" }

// seasonsItself says whether a frame brings spice, acid or soy sauce of its own.
func seasonsItself(f *technique.Frame) bool {
	return slices.ContainsFunc(f.Staples, func(s technique.Staple) bool {
		known, _ := food.Default().Food(s.Names[0])
		return !slices.ContainsFunc(s.Names, alwaysThere) && (kin(s.Names[0]) == "lemon" || kin(s.Names[0]) == "vinegar" || s.Names[0] == "soy sauce" || known != nil && known.Group == "spice")
	})
}

// mostMissing is how much of a dish may have to be got where the cupboard is stocked: more
// is a shopping list. A cupboard is stocked that has a dozen things in it. Both the
// planner's own judgement, no source.
const (
	mostMissing = 3
	dozen       = 12
)

func (k *kitchen) isStocked() bool {
	n := 0
	for i := range k.lines {
		if !k.lines[i].Crate {
			n++
		}
	}
	return n >= dozen
}

// breadBeside is what goes beside a portion of what has too little energy by itself: bread, and
// butter or oil on it. Common practice, no source.
var breadBeside = []technique.Staple{
	{Names: []string{"white bread", "bread", "pitta bread", "naan", "chapati", "flour tortilla", "corn tortilla"}, Amount: 90_000, Unit: measure.Gram},
	{Names: []string{"butter", "olive oil", "oil"}, Amount: 10_000, Unit: measure.Gram},
}

// leastBread is the mg of bread a portion that will do where there is no more.
// Common practice, no source.
const leastBread = 60_000

// breaded are the families of dish that bread goes beside, whether they need it or not.
var breaded = []string{"soup", "stew", "egg", "salad"}

// hasBread says whether the bread beside a dish is of the crate.
func (k *kitchen) hasBread(x *plate) bool {
	return slices.ContainsFunc(x.draws, func(d draw) bool { return isOf(k.lines[d.line].Food, "bread") })
}

// withBread puts bread beside a dish that has no starch under it.
func (k *kitchen) withBread(d dish, page *page, a *PlanAsk) (x plate, ok bool) {
	if slices.ContainsFunc(d.parts, func(p part) bool {
		return isOf(k.lines[p.line].Food, "bread", "flatbread", "pastry", "pasta", "noodle", "rice", "grain", "starchy root", "flour")
	}) || d.frame.Family == "sweet" || slices.ContainsFunc(d.frame.Staples, func(s technique.Staple) bool {
		return s.Amount >= much && slices.ContainsFunc(s.Names, func(n string) bool { return n == "flour" })
	}) || len(d.bought) > 0 && slices.ContainsFunc(d.bought, func(s seasoning) bool { return isOf(k.foodOf(s), larder...) }) {
		return x, false
	}
	d.bread, d.bought = true, slices.Clone(d.bought)
	for _, s := range breadBeside {
		x := k.seasoningOf(s, technique.None)
		if x.line >= 0 {
			l := &k.lines[x.line]
			if each := l.Free / measure.Amount(a.Portions); each < x.Amount && each >= leastBread && l.Unit == x.Unit && isOf(l.Food, "bread") { // thinner slices
				x.Amount = each
			}
			if !l.covers(&x.Staple, a.Portions) {
				x.line = -1
			}
		}
		if f := k.foodOf(x); f != nil && k.needs.allow(f) {
			d.bought = append(d.bought, x)
		} else if len(d.bought) == 0 {
			return plate{}, false
		}
	}
	return k.plateOf(d, page, a.Portions, a.plates(d.frame))
}

// worthOf rates a plate from 0 to 1: how well its foods suit their roles and its palette
// suits them, what of it is not held, above all its starch, and how much of what lies on
// the starch is of the crate: a tin from the cupboard is the last thing to build a menu
// on. The weights are the planner's own judgement, no source.
func (k *kitchen) worthOf(x *plate, likes float64) float64 {
	suited, sum := 0.0, 0.0
	for _, p := range x.parts {
		suited += p.grams * gradeWorth[p.grade]
		sum += p.grams
	}
	w := 0.5
	if sum > 0 {
		w = suited / sum
	}
	crate, own := 0.0, 0.0
	for _, p := range x.parts {
		if l := &k.lines[p.line]; l.Crate {
			crate += p.grams
		} else if !isOf(l.Food, starches...) {
			own += p.grams
		}
	}
	if crate > 0 {
		w *= 0.4 + 0.6*crate/(crate+own)
	}
	for _, b := range x.bought {
		if b.Amount > mostBought*1000 && !x.bread {
			w *= 0.7
		}
	}
	if r := x.frame.Role("season"); r >= 0 && x.frame.Family != "sweet" && !slices.ContainsFunc(x.parts, func(p part) bool { return p.role == r }) {
		w *= 0.93 // no onion, no garlic
	}
	if k.isDry(&x.dish) {
		w *= 0.75
	}
	return w * min(1, 0.7+0.1*likes) * max(0.3, 1-0.1*float64(x.missing))
}

// rulesOut says whether a frame was ruled out: by its family's name ("soup"), or by a way
// of cooking that one of its steps has ("fried").
func (k *kitchen) rulesOut(a *PlanAsk, f *technique.Frame) bool {
	return slices.ContainsFunc(a.Without, func(w string) bool { return strings.EqualFold(w, f.Family) }) ||
		slices.ContainsFunc(f.Steps, func(s technique.Step) bool { return k.isUnwanted(s.What) })
}

// isUnwanted says whether words tell of a way of cooking that is not wanted.
func (k *kitchen) isUnwanted(words string) bool {
	return slices.ContainsFunc(k.without, func(re *regexp.Regexp) bool { return re.MatchString(words) })
}

// cookedBy finds a way of cooking in the words of a step.
var cookedBy = map[string]*regexp.Regexp{
	"fried":  regexp.MustCompile(`\bfr(y|ie)|\bbrown (the .* )?in (oil|fat|butter)`),
	"baked":  regexp.MustCompile(`\bbake`),
	"roast":  regexp.MustCompile(`\broast`),
	"boiled": regexp.MustCompile(`\bboil`),
	"mashed": regexp.MustCompile(`\bmash`),
}

// isOff says whether a palette was ruled out.
func (a *PlanAsk) isOff(palette string) bool { return slices.Contains(a.Off, palette) }

// mostSweet is how many dishes may be sweet: as many as were asked for, else one where
// there are three or more, if what is in the crate makes it worth it.
func (a *PlanAsk) mostSweet() int {
	if a.Sweet == 0 && a.Dishes >= 3 && !slices.Contains(a.Without, "sweet") {
		return 1
	}
	return a.Sweet
}

// plates is what a portion must be.
func (a *PlanAsk) plates(f *technique.Frame) Plates {
	p := Main
	switch {
	case f.Family == "sweet":
		return Pudding
	case a.Light:
		p = Lighter
	}
	if a.Kcal != [2]float64{} {
		p.Kcal = a.Kcal
	}
	return p
}
