package planner

import (
	"slices"
	"sync"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// fit is a technique made to measure for a food, with what Ideas asks of it
// worked out beforehand.
type fit struct {
	technique.Fit
	page *page
}

// page is a technique with its kit and staples as numbers.
type page struct {
	kit     uint8   // bits in the order of technique.Scarce
	family  int     // place in technique.Families
	staples [][]int // for each staple the numbers of its names
	always  []bool  // for each staple: no kitchen is without
	worth   float64
	role    string
	taste   []int   // numbers of the staples that it tastes of
	forms   uint32  // bits: which of the forms its title names
	cold    bool    // eaten cold
	now     bool    // a thing to eat, today
	ways    [][]int // for each step the rows of other ways to do it

	wordings [][]int // for each step the rows of wordings
	timed    [][]int // those of them that have minutes of their own, and are for its usual way
	cutting  []bool  // for each step of a frame whether it does nothing but cut
}

// tastesLike says whether two techniques season alike: they share most of what
// either tastes of.
func (p *page) tastesLike(o *page) bool {
	shared := 0
	for _, n := range p.taste {
		if slices.Contains(o.taste, n) {
			shared++
		}
	}
	return shared > 0 && 2*shared > max(len(p.taste), len(o.taste))
}

// known is what is worked out once for a food, cooked already or not.
type known struct {
	fits     []fit
	provides []int          // numbers of the staple names that the food answers to
	share    float64        // edible share of the weight as purchased
	whole    bool           // comes in pieces that are not cut: eggs
	animal   bool           // raw meat or fish
	cooked   bool           // already
	need     technique.Heat // the least it must be cooked
	boil     float64        // the least minutes at the boil
	places   []place        // roles of frames that it may fill
	subject  technique.Subject
	sides    technique.Sides
	bears    float64  // the most grams of it that a portion of a dish can take
	likes    []int8   // how it goes with each palette
	ways     []bool   // for each row of other ways whether it may be in a step that is done so
	uncut    bool     // it needs no knife
	least    float64  // minutes that it cooks at least in one step: wild mushrooms
	done     []doneIn // for each frame
	timed    bool     // some of these say something
}

// doneIn is between which minutes a food is done in a frame; 0 none.
type doneIn struct{ least, most float64 }

type knownKey struct {
	food   *food.Food
	cooked bool
}

var knownFoods sync.Map // knownKey -> *known

// knownOf gives what is known of a food, from memory after the first time. It
// keeps an entry for every *food.Food it is ever handed, so hand it those of a
// catalogue that lasts.
func knownOf(f *food.Food, cooked bool) *known {
	key := knownKey{f, cooked}
	if k, ok := knownFoods.Load(key); ok {
		return k.(*known)
	}
	k, _ := knownFoods.LoadOrStore(key, study(f, cooked))
	return k.(*known)
}

func study(f *food.Food, cooked bool) *known {
	s := technique.Of(f, cooked)
	k := &known{cooked: cooked, share: edibleShare(f, cooked), whole: isOf(f, "egg") && f.PieceMg > 0, animal: !cooked && isOf(f, animals...)}
	k.need, k.boil, _ = technique.Need(s)
	k.subject = s
	k.sides, k.places, k.likes, k.bears = technique.SidesOf(s), placesOf(s), likesOf(s), technique.Most(s)
	k.ways, k.uncut = takenBy(s), technique.Uncut(s)
	k.least = technique.LeastCook(s)
	k.timed = k.least > 0
	for i := range technique.Frames() {
		least, most := technique.Frames()[i].DoneIn(s)
		k.done = append(k.done, doneIn{least, most})
		k.timed = k.timed || least+most > 0
	}
	list := technique.Default()
	for i := range list {
		if m, ok := list[i].Fit(s); ok && (cooked || eatenSo(f, m.Technique)) {
			k.fits = append(k.fits, fit{m, &theBook().pages[i]})
		}
	}
	if !cooked {
		k.provides = theBook().answers(f)
	}
	return k
}

// eatenSo says whether a food may be eaten as the technique leaves it: what the
// table of foods calls "not raw" needs heat, now or, from the freezer, later.
func eatenSo(f *food.Food, t *technique.Technique) bool {
	return t.Heat > technique.None || f.Taste.Raw != "not raw" || t.Family == "keep"
}

func isOf(f *food.Food, kinds ...string) bool {
	return slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(kinds, k) })
}

// book is the table of techniques in numbers.
type book struct {
	pages   []page // of techniques
	frames  []page
	takes   [][]int          // for each frame the palettes that may season it
	blends  []blend          // palettes
	numbers map[string]int   // staple names
	ids     map[string]*page // of techniques and frames
}

// page finds a technique's; nil where there is none.
func (b *book) page(id string) *page {
	return b.ids[id]
}

var theBook = sync.OnceValue(func() *book {
	b := &book{numbers: map[string]int{}, ids: map[string]*page{}}
	for _, t := range technique.Default() {
		p := page{family: slices.Index(technique.Families, t.Family), worth: worth(&t), role: t.Role, cold: t.Cold(), now: t.Family != "keep" && t.Role != "season"}
		p.kit, p.forms, p.ways = kitOf(t.Steps), formsOf(t.Title), waysOf(t.ID, t.Steps)
		p.wordings = wordingsOf(t.ID, t.Steps, p.ways)
		for _, s := range t.Staples {
			var nums []int
			for _, n := range s.Names {
				nums = append(nums, b.number(n))
			}
			p.staples = append(p.staples, nums)
			p.always = append(p.always, slices.ContainsFunc(s.Names, alwaysThere))
			if !slices.ContainsFunc(s.Names, plain) {
				p.taste = append(p.taste, nums[0])
			}
		}
		b.pages = append(b.pages, p)
	}
	for i, t := range technique.Default() {
		b.ids[t.ID] = &b.pages[i]
	}
	b.addFrames()
	return b
})

// addFrames makes pages of the frames, and numbers of all that they and the
// palettes name. A dish tastes of its frame's staples; of its palette see season.
func (b *book) addFrames() {
	frames := technique.Frames()
	b.frames = make([]page, len(frames))
	for i, f := range frames {
		p := page{family: len(technique.Families) + slices.Index(technique.FrameFamilies, f.Family), worth: 1, role: "dish", cold: f.Serve == "cold", now: true, kit: kitOf(f.Steps), forms: formsOf(f.Title), ways: waysOf(f.ID, f.Steps)}
		p.wordings = wordingsOf(f.ID, f.Steps, p.ways)
		for n, s := range f.Steps {
			p.cutting = append(p.cutting, onlyCuts(s))
			p.timed = append(p.timed, slices.DeleteFunc(slices.Clone(p.wordings[n]), func(w int) bool {
				return !technique.Wordings()[w].Timed || !technique.Wordings()[w].Is(f.ID, s)
			}))
		}
		for _, s := range f.Staples {
			for _, n := range s.Names {
				b.number(n)
			}
			if !slices.ContainsFunc(s.Names, plain) {
				p.taste = append(p.taste, b.number(s.Names[0]))
			}
		}
		b.frames[i] = p
		b.ids[f.ID] = &b.frames[i]
	}
	b.addPalettes()
}

// blend is a palette with what season asks of it worked out beforehand.
type blend struct {
	*technique.Palette
	parts []spice
}

type spice struct {
	food   *food.Food // nil: no table knows it
	number int        // of its name
	swaps  []int      // numbers of what does instead
	always bool       // no kitchen is without
	sides  technique.Sides
}

func (b *book) addPalettes() {
	list := technique.Palettes()
	for i := range list {
		x := blend{Palette: &list[i]}
		for _, c := range list[i].Components {
			f, _ := food.Default().Food(c.Food)
			s := spice{food: f, number: b.number(c.Food), always: alwaysThere(c.Food)}
			if f != nil {
				s.sides = technique.SidesOf(technique.Of(f, false))
			}
			for _, w := range technique.Swaps(c.Food) {
				s.swaps = append(s.swaps, b.number(w.By))
			}
			x.parts = append(x.parts, s)
		}
		b.blends = append(b.blends, x)
	}
	frames := technique.Frames()
	b.takes = make([][]int, len(frames))
	for i := range frames {
		for n := range list {
			if frames[i].Takes(&list[n]) && !(frames[i].Serve == "cold" && b.blends[n].sets()) {
				b.takes[i] = append(b.takes[i], n)
			}
		}
	}
}

// sets says whether a palette has a fat that is hard when it is cold, and so is not for
// a cold dish.
func (x *blend) sets() bool {
	return slices.ContainsFunc(x.parts, func(s spice) bool {
		return s.food != nil && (slices.Contains(s.food.Kinds, "butter") || slices.Contains(s.food.Kinds, "cooking fat"))
	})
}

// likesOf says how a food goes with each palette.
func likesOf(s technique.Subject) []int8 {
	list := technique.Palettes()
	likes := make([]int8, len(list))
	for i := range list {
		likes[i] = int8(list[i].Suits(s))
	}
	return likes
}

// kitOf gives the scarce kit that steps want, as bits.
func kitOf(steps []technique.Step) (bits uint8) {
	for _, s := range steps {
		if i := slices.Index(technique.Scarce, s.Kit); i >= 0 {
			bits |= 1 << i
		}
	}
	return bits
}

func (b *book) number(name string) int {
	n, ok := b.numbers[name]
	if !ok {
		n = len(b.numbers)
		b.numbers[name] = n
		for _, w := range technique.Swaps(name) {
			b.number(w.By)
		}
	}
	return n
}

// answers gives the numbers of the staple names that mean the food.
func (b *book) answers(f *food.Food) []int {
	var out []int
	for _, n := range append(f.Called(), f.Kinds...) {
		if kinds()[n] && !isOf(f, n) { // sesame oil is called oil, and is none to fry in
			continue
		}
		if n == "bread" && isOf(f, "pastry") { // no crumbs of croissants
			continue
		}
		if i, ok := b.numbers[n]; ok && !slices.Contains(out, i) {
			out = append(out, i)
		}
	}
	return out
}

// plain says whether a staple is in so many dishes that none tastes of it.
func plain(name string) bool {
	return alwaysThere(name) || slices.Contains([]string{"butter", "olive oil", "rapeseed oil", "sunflower oil", "plain flour", "caster sugar", "vegetable stock"}, name)
}

// kinds are all the kinds that foods have.
var kinds = sync.OnceValue(func() map[string]bool {
	m := map[string]bool{}
	for _, f := range food.Default().Foods() {
		for _, k := range f.Kinds {
			m[k] = true
		}
	}
	return m
})

// alwaysThere says whether no kitchen is without the staple.
func alwaysThere(name string) bool {
	return slices.Contains([]string{"salt", "black pepper", "oil", "water"}, name)
}
