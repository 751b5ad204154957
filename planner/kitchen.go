package planner

import (
	"regexp"
	"slices"
	"strings"

	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// kitchen is an Ask made ready: lines that may be used, and who holds which
// staple.
type kitchen struct {
	out      []string // foods that cannot be got
	lines    []line
	have     []int32 // for each staple name the line that has it, counted from 1
	minutes  float64
	kit      uint8
	asked    int     // portions
	focused  bool    // a food was named
	crate    bool    // there is food that must be used up, and none was named
	along    float64 // what using other crate food along with it counts
	turned   []Choice
	menu     []chosen
	needs    Needs
	serve    Serve
	palettes []string         // of the dishes begun in this service
	without  []*regexp.Regexp // ways of cooking that are not wanted
}

// chosen is a Choice made ready.
type chosen struct {
	page *page
	item string
}

type line struct {
	*Stock
	*known
	urgency float64
	focus   bool
}

func newKitchen(a Ask) *kitchen {
	k := &kitchen{minutes: float64(a.Minutes), kit: kitBits(a.Kit), asked: min(max(a.Portions, 0), 100), turned: a.Turned, needs: a.Needs, serve: a.Serve, focused: a.Focus != ""}
	for _, m := range a.Menu {
		if p := theBook().page(m.Technique); p != nil {
			k.menu = append(k.menu, chosen{p, m.Item})
			k.palettes = append(k.palettes, m.Palette)
		}
	}
	if a.Minutes <= 0 {
		k.minutes = Usual
	}
	k.along = 0.3
	if a.Focus != "" { // the cook looks at one food: what is simple with it comes first
		k.along = 0.08
	}
	k.lines = make([]line, 0, len(a.Stock))
	for i := range a.Stock {
		s := &a.Stock[i]
		if s.Food == nil || s.Free <= 0 {
			continue
		}
		l := line{s, knownOf(s.Food, technique.Cooked(s.Food, s.Item)), urgency(s), meant(s, a.Focus)}
		if l.fitToEat() {
			k.lines = append(k.lines, l)
			k.crate = k.crate || l.Crate && a.Focus == ""
		}
	}
	k.shelve()
	return k
}

func meant(s *Stock, focus string) bool {
	return focus == "" || strings.EqualFold(s.Item, focus)
}

// fitToEat refuses food past its date where the date is for safety, and raw
// meat and fish that is still frozen. A best-before date is about quality, and
// the cook is told (pastBest).
func (l *line) fitToEat() bool {
	if l.Days < 0 && (l.Food.Keeps.Date != "best-before" || l.animal) {
		return false
	}
	return !(l.animal && has(l.Item, "frozen") && !has(l.Food.Name, "frozen"))
}

func has(s, word string) bool { return strings.Contains(strings.ToLower(s), word) }

func (l *line) pastBest() bool { return l.Days < 0 }

// shelve notes which line has which staple: crate before cupboard, then what
// goes off first, then the larger.
func (k *kitchen) shelve() {
	k.have = make([]int32, len(theBook().numbers))
	for i := range k.lines {
		if !k.needs.allow(k.lines[i].Food) {
			continue
		}
		for _, n := range k.lines[i].provides {
			if h := k.have[n]; h == 0 || k.lines[i].before(&k.lines[h-1]) {
				k.have[n] = int32(i + 1)
			}
		}
	}
}

func (l *line) before(o *line) bool {
	switch {
	case l.Crate != o.Crate:
		return l.Crate
	case l.Days != o.Days:
		return l.Days < o.Days
	}
	return l.Free > o.Free
}

// holder gives the line that has staple i of a candidate's technique, -1 for
// none. Its own line is no staple of it (see line.is), nor is food that the
// technique does not cook enough: no raw bean goes into a salad by this door.
func (k *kitchen) holder(c *candidate, i int) int {
	for _, n := range c.fit.page.staples[i] {
		if h := int(k.have[n]) - 1; h >= 0 && h != c.line && k.lines[h].cooks(c.fit) && k.lines[h].covers(&c.fit.Staples[i], c.portions) {
			return h
		}
	}
	return -1
}

// much is from how many grams or millilitres a portion on a staple makes the dish, and
// is not a seasoning: an omelette of one egg for four is none.
const much = 15_000

// covers says whether the line has enough of a staple for so many portions: nine parts
// in ten of what makes the dish, half of what seasons it. Common practice, no source.
func (l *line) covers(s *technique.Staple, portions int) bool {
	a, ok := l.measured(s.Amount*measure.Amount(portions), s.Unit)
	if s.Amount >= much {
		return ok && a <= l.Free+l.Free/9
	}
	return ok && a <= 2*l.Free
}

// short says whether a line has a staple that makes the dish, but too little of it.
func (k *kitchen) short(c *candidate) bool {
	for i, s := range c.fit.Staples {
		if s.Amount < much || k.holder(c, i) >= 0 {
			continue
		}
		one := *c
		if one.portions = 1; k.holder(&one, i) >= 0 {
			return true
		}
	}
	return false
}

// cooks says whether a technique cooks the line enough where it goes in beside
// the technique's own food. Minutes at the boil it cannot promise.
func (l *line) cooks(f *fit) bool { return l.need <= f.Heat && l.boil == 0 }

// is says whether the line answers to one of the staple's names.
func (l *line) is(names []int) bool {
	return slices.ContainsFunc(names, func(n int) bool { return slices.Contains(l.provides, n) })
}

func kitBits(kit map[string]int) uint8 {
	if kit == nil {
		kit = DefaultKit()
	}
	var bits uint8
	for i, word := range technique.Scarce {
		if kit[word] > 0 {
			bits |= 1 << i
		}
	}
	return bits
}

func kitWords(bits uint8) []string {
	var words []string
	for i, word := range technique.Scarce {
		if bits&(1<<i) != 0 {
			words = append(words, word)
		}
	}
	return words
}

// isTurned says whether a technique was turned down for the line; a frame, with no
// line, for any.
func (k *kitchen) isTurned(id string, l *line) bool {
	return slices.ContainsFunc(k.turned, func(c Choice) bool {
		return c.Technique == id && (c.Item == "" || l == nil || c.Item == l.Item)
	})
}

// serves says whether what a technique or frame makes comes to the table as asked: what
// is put by, or strewn over something else, does not.
func (k *kitchen) serves(p *page) bool {
	return k.serve == "" || p.now && p.cold == (k.serve == Cold)
}
