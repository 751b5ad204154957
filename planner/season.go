package planner

import (
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// season chooses the palette that suits the parts of a dish best, of which most is
// held, and that is not on the menu already, nor, as far as may be, behind a dish
// before (tasted); and takes what it and the frame need from the cupboard. What both
// name is taken once, the larger amount. Where the leading food likes no palette there
// is none: the frame seasons itself.
func (k *kitchen) season(d *dish, tasted []int) {
	best := 0.0
	for _, n := range theBook().takes[d.number] {
		if v := k.seasons(d, n) * paid(tasted[n], again); v > best && !k.hasPaste(d) && k.mayUse(d, n) {
			best, d.blend = v, n
		}
	}
	k.dress(d)
}

// sourOnce leaves out lemon that is to sharpen a dish whose frame or palette brings vinegar
// or lemon of its own: one will do.
func (k *kitchen) sourOnce(d *dish) {
	isSour := func(name string) bool { return slices.Contains([]string{"lemon", "lime", "vinegar"}, kin(name)) }
	brings := slices.ContainsFunc(d.frame.Staples, func(s technique.Staple) bool { return isSour(s.Names[0]) }) ||
		d.blend >= 0 && slices.ContainsFunc(theBook().blends[d.blend].Components, func(c technique.Component) bool { return isSour(c.Food) })
	if !brings {
		return
	}
	d.parts = slices.DeleteFunc(d.parts, func(p part) bool {
		role := &d.frame.Roles[p.role]
		return role.Name == "lift" && role.Least == 0 && isSour(k.lines[p.line].Food.Name)
	})
}

// dress takes what a dish and its palette, if it has one, need from the cupboard.
func (k *kitchen) dress(d *dish) {
	for _, s := range d.frame.Staples {
		if s, ok := k.forTable(s); ok && !k.isSpare(d, s) {
			k.addStapleTo(d, s, d.hottest())
		}
	}
	if d.blend >= 0 {
		d.palette = theBook().blends[d.blend].Palette
		for _, c := range d.palette.Components {
			heat := d.hottest()
			if c.When == "end" {
				heat = technique.None
			}
			k.addStapleTo(d, technique.Staple{Names: []string{c.Food}, Amount: c.Amount, Unit: c.Unit}, heat)
		}
	}
	if k.isSalted(d) {
		for i := range d.staples {
			if s := &d.staples[i]; kin(s.Names[0]) == "salt" {
				s.Amount /= 2
			}
		}
	}
}

// mostWater is up to how many microlitres of stock a portion water does as well: more is what
// a dish tastes of. Common practice, no source.
const mostWater = 150_000

// forTable gives a staple of a frame as the table may have it: water for a stock that its
// needs rule out, and no mustard in a dressing where that is ruled out, for oil and acid do.
func (k *kitchen) forTable(s technique.Staple) (technique.Staple, bool) {
	if k.needs.none() {
		return s, true
	}
	f := k.foodOf(k.seasoningOf(k.swapped(s), technique.Through))
	if f == nil || k.needs.allow(f) {
		return s, true
	}
	if f.Group == "stock" && s.Unit == measure.Millilitre && s.Amount <= mostWater {
		return technique.Staple{Names: []string{"water"}, Amount: s.Amount, Unit: s.Unit}, true
	}
	return s, kin(f.Name) != "mustard"
}

// What is salty seasons a dish from so many grams a portion on: of food that is a part of it,
// and of what it is seasoned with. Common practice, no source.
const (
	saltyPart   = 30
	saltyStaple = 5
)

// isSalted says whether something in a dish brings salt: bacon, feta, soy sauce. Half of the
// salt does then.
func (k *kitchen) isSalted(d *dish) bool {
	isSalty := func(f *food.Food) bool {
		return f != nil && f.Taste.Strength >= 2 && slices.Contains(f.Taste.Marks, "salty") && !isVegetable(f) && kin(f.Name) != "salt"
	}
	return slices.ContainsFunc(d.parts, func(p part) bool {
		return p.role != beside && d.frame.Roles[p.role].Max >= saltyPart && isSalty(k.lines[p.line].Food)
	}) || slices.ContainsFunc(d.staples, func(s seasoning) bool {
		return s.Amount >= saltyStaple*1000 && isSalty(k.foodOf(s))
	})
}

// isSpare says whether a dish does without a staple of its frame: spice beside a paste, baking
// powder in flour that rises by itself, a trace of garlic that would have to be got.
func (k *kitchen) isSpare(d *dish, s technique.Staple) bool {
	f, _ := food.Default().Food(s.Names[0])
	switch {
	case s.Names[0] == "garlic":
		return s.Amount < trace && k.lineOf(s.Names) < 0
	case s.Names[0] == "white wine" && len(s.Names) > 1: // more of the stock does
		return k.lineOf(s.Names[:1]) < 0
	case s.Names[0] == "baking powder":
		return slices.ContainsFunc(d.parts, func(p part) bool { return k.lines[p.line].Food.Name == "self-raising flour" })
	}
	return f != nil && f.Group == "spice" && !slices.ContainsFunc(s.Names, alwaysThere) && (k.hasPaste(d) || slices.ContainsFunc(d.bought, func(b seasoning) bool {
		return isOf(k.foodOf(b), "savoury paste", "bottled sauce")
	}))
}

// trace is from how many mg a portion on a seasoning is missed. The planner's own judgement,
// no source.
const trace = 2_000

// swapped takes what does instead of a staple that no line has: lemon for its juice, a
// cube for stock. It gives the staple as it is where nothing does.
func (k *kitchen) swapped(s technique.Staple) technique.Staple {
	if k.lineOf(s.Names[:1]) >= 0 {
		return s
	}
	for _, w := range technique.Swaps(s.Names[0]) {
		if at := k.lineOf([]string{w.By}); at >= 0 {
			return technique.Staple{Names: []string{w.By}, Amount: measure.Amount(float64(s.Amount) * w.Times), Unit: k.lines[at].Food.Unit}
		}
	}
	return s
}

// thinned is how little of a swap makes the rest water: a cube in its stock.
const thinned = 10

// paletteName names a dish's palette as the dish has it: cider vinegar where that does for
// sherry vinegar.
func (k *kitchen) paletteName(d *dish) string {
	name := d.palette.Name
	for _, c := range d.palette.Components {
		by := k.swapped(technique.Staple{Names: []string{c.Food}, Amount: c.Amount, Unit: c.Unit}).Names[0]
		if one := kin(by); one != "" { // one vinegar does for all
			if at := slices.IndexFunc(d.staples, func(s seasoning) bool { return k.kinOf(&s) == one }); at >= 0 {
				by = d.staples[at].Names[0]
				if l := d.staples[at].line; l >= 0 {
					by = k.lines[l].Food.Name
				}
			}
		}
		if of, by := strings.TrimSuffix(c.Food, " juice"), strings.TrimSuffix(by, " juice"); of != by {
			name = strings.Replace(name, of, by, 1)
		}
	}
	return name
}

// again is what a palette loses for each dish of the list that has it: the planner's
// own judgement, no source.
const again = 0.5

// hottest is how far the frame cooks what it cooks most.
func (d *dish) hottest() (h technique.Heat) {
	for _, r := range d.frame.Roles {
		h = max(h, r.Heat)
	}
	return h
}

// seasons rates a palette for a dish; 0 or less: it is not for it. The leading food
// must like it, whatever the onion or the bread beside it likes. The weights are the
// planner's own judgement, no source.
func (k *kitchen) seasons(d *dish, n int) float64 {
	if k.lines[d.parts[0].line].likes[n] <= 0 || d.hottest() == technique.None && theBook().blends[n].fries() {
		return 0
	}
	v, tasted, liked := 0.3, 0, 0
	for i, x := range d.parts {
		like := k.lines[x.line].likes[n]
		if like < 0 {
			return 0
		}
		w := 0.15
		switch {
		case i == 0: // the leading food
			w = 1
		case slices.Contains(heard, d.frame.Roles[x.role].Name):
			w = 0.5
		}
		v += w * float64(like)
		if w > 0.15 {
			tasted++
			liked += min(int(like), 1)
		}
	}
	if liked*2 < tasted { // most of it would rather have another
		return 0
	}
	p := &theBook().blends[n]
	for _, c := range p.parts {
		if !k.isHeld(&c) {
			v -= 0.25
		}
	}
	if slices.Contains(k.palettes, p.ID) {
		v *= 0.3
	}
	for _, id := range p.Near {
		if slices.Contains(k.palettes, id) {
			v *= 0.6
		}
	}
	return v
}

// isHeld says whether a line has a food of a palette, or what does instead.
func (k *kitchen) isHeld(c *spice) bool {
	return c.always || k.have[c.number] > 0 || slices.ContainsFunc(c.swaps, func(n int) bool { return k.have[n] > 0 })
}

// heard are the roles whose food a guest tastes beside the leading one.
var heard = []string{"star", "body", "green"}

// fries says whether a palette begins in hot fat with more than the fat, and so is
// not for a dish that no heat touches: raw garlic and rosemary are no dressing.
func (x *blend) fries() bool {
	return slices.ContainsFunc(x.Components, func(c technique.Component) bool {
		return c.When == "start" && kin(c.Food) != "oil"
	})
}

// mayUse says whether everything in a palette may be given, and goes with the dish.
func (k *kitchen) mayUse(d *dish, n int) bool {
	return !slices.ContainsFunc(theBook().blends[n].parts, func(c spice) bool {
		return c.food == nil || !k.needs.allow(c.food) || k.clashes(d, c.sides)
	})
}

// clashes says whether a seasoning goes ill with one of a dish's parts.
func (k *kitchen) clashes(d *dish, sides technique.Sides) bool {
	return slices.ContainsFunc(d.parts, func(p part) bool { return k.lines[p.line].sides.With(sides) > technique.Fine })
}

// lineOf finds the line that has one of the foods named, -1 none.
func (k *kitchen) lineOf(names []string) int {
	for _, name := range names {
		if n, ok := theBook().numbers[name]; ok && k.have[n] > 0 {
			return int(k.have[n]) - 1
		}
	}
	return -1
}

// addStapleTo takes a staple, or what does instead, once.
func (k *kitchen) addStapleTo(d *dish, wanted technique.Staple, heat technique.Heat) {
	s := k.swapped(wanted)
	for _, p := range d.parts { // it is in the dish already
		if heat == technique.None && isRaw(wanted.Names[0]) && p.role != beside && d.frame.Roles[p.role].Heat > technique.None {
			continue // an onion of the base is not the raw one over it
		}
		if p.role != beside && isOf(k.lines[p.line].Food, "egg") && wanted.Amount >= ofBatter && d.frame.Roles[p.role].Name == "star" {
			continue // an egg of the filling is not that of the batter
		}
		if l := &k.lines[p.line]; l.isNamed(wanted.Names) || l.isNamed(s.Names) || kin(s.Names[0]) != "" && kin(s.Names[0]) == kin(l.Food.Name) {
			return
		}
	}
	for i := range d.bought { // it is to be got already
		if o := &d.bought[i]; o.Names[0] == s.Names[0] && o.Unit == s.Unit {
			o.Amount = max(o.Amount, s.Amount)
			return
		}
	}
	for i := range d.staples {
		if o := &d.staples[i]; sameStaple(s.Names, o.Names) {
			if k.settles(o, &s, heat) {
				return
			}
		}
	}
	d.staples = append(d.staples, k.seasoningOf(s, heat))
	if s.Amount*thinned < wanted.Amount {
		d.staples = append(d.staples, seasoning{Staple: technique.Staple{Names: []string{"water"}, Amount: wanted.Amount, Unit: measure.Millilitre}, line: -1})
	}
}

// isRaw says whether a food of a finish is eaten raw with it, and is another thing cooked:
// onion.
func isRaw(name string) bool {
	f, _ := food.Default().Food(name)
	return f != nil && isOf(f, "allium") && f.Keeper
}

// settles says whether a staple that another may stand for is dealt with: the larger amount
// of the one, or the one in place of the other where that was only one of several that
// would do.
func (k *kitchen) settles(o *seasoning, s *technique.Staple, heat technique.Heat) bool {
	one := kin(s.Names[0])
	switch {
	case one == "" && k.isOneOf(o, s.Names) || one != "" && one == k.kinOf(o):
		if s.Unit == o.Unit {
			o.Amount = max(o.Amount, s.Amount)
		}
		if len(s.Names) < len(o.Names) { // it is to be this one, and no other for what comes after
			o.Names = s.Names
		}
	case k.isAsWanted(o, s.Names):
	case slices.ContainsFunc(o.Names, func(n string) bool { return n == s.Names[0] || one != "" && kin(n) == one }):
		*o = k.seasoningOf(*s, heat) // butter was named: not the oil that would have done
	case one != "":
		return false
	}
	return true
}

// isOneOf says whether what is taken for a staple is one of those named.
func (k *kitchen) isOneOf(o *seasoning, names []string) bool {
	if o.line >= 0 {
		return k.lines[o.line].isNamed(names)
	}
	return slices.Contains(names, o.Names[0])
}

// isAsWanted says whether what is taken for a staple is one of those named, or of the kind
// of one.
func (k *kitchen) isAsWanted(o *seasoning, names []string) bool {
	one := k.kinOf(o)
	return slices.ContainsFunc(names, func(n string) bool { return o.line < 0 && n == o.Names[0] || one != "" && kin(n) == one })
}

// seasoningOf finds the line that has a staple; none that is not cooked enough so.
func (k *kitchen) seasoningOf(s technique.Staple, heat technique.Heat) seasoning {
	t := seasoning{Staple: s, heat: heat, line: k.lineOf(s.Names)}
	if t.line >= 0 {
		if l := &k.lines[t.line]; l.need > heat || l.boil > 0 {
			t.line = -1
		}
	}
	return t
}

// kinOf names the kind of what is taken for a staple.
func (k *kitchen) kinOf(s *seasoning) string {
	if s.line >= 0 {
		return kin(k.lines[s.line].Food.Name)
	}
	return kin(s.Names[0])
}

// isNamed says whether the line answers to one of the names.
func (l *line) isNamed(names []string) bool {
	for _, name := range names {
		if n, ok := theBook().numbers[name]; ok && slices.Contains(l.provides, n) {
			return true
		}
	}
	return false
}

// sameStaple says whether one may stand for the other: no dish takes two oils.
func sameStaple(a, b []string) bool {
	return slices.ContainsFunc(a, func(n string) bool {
		return slices.ContainsFunc(b, func(m string) bool { return n == m || kin(n) != "" && kin(n) == kin(m) })
	})
}

// kins are the kinds of which a dish takes one, by the names of their foods.
var kins = sync.OnceValue(func() map[string]string {
	m := map[string]string{
		"lemon": "lemon", "lemon juice": "lemon", "lime": "lime", "lime juice": "lime", "salt": "salt", "table salt": "salt", "sea salt": "salt",
		"Dijon mustard": "mustard", "wholegrain mustard": "mustard", "English mustard": "mustard", "yellow mustard": "mustard",
	}
	for _, f := range food.Default().Foods() {
		for _, kind := range []string{"oil", "vinegar", "butter"} {
			if slices.Contains(f.Kinds, kind) {
				m[f.Name] = kind
			}
		}
	}
	m["oil"], m["vinegar"], m["butter"] = "oil", "vinegar", "butter"
	return m
})

// kin names the kind that a staple or a food is one of; "" for most.
func kin(name string) string { return kins()[name] }
