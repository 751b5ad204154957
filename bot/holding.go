package bot

import (
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
)

// holding is what a dish, or food on hand, is known to hold, and what of it brings that.
type holding struct {
	contents
	name    string
	from    map[string][]string // by allergen
	mayFrom map[string][]string
	noIdea  []string // what nobody knows the allergens of
	items   []string // all that is in it, by name
	when    string   // ", as cooked Tue 3 Mar"; "" now
	known   bool     // anything is known of what is in it
	logged  bool     // and not only because somebody said so
	open    bool     // something that was told of it is not settled
}

func newHolding(name string) *holding {
	return &holding{name: name, from: map[string][]string{}, mayFrom: map[string][]string{}}
}

// brings notes what a part brings.
func (h *holding) brings(part string, holds, may []string) {
	for _, a := range holds {
		h.holds, h.from[a] = appendOnce(h.holds, a), appendOnce(h.from[a], part)
	}
	for _, a := range may {
		h.may, h.mayFrom[a] = appendOnce(h.may, a), appendOnce(h.mayFrom[a], part)
	}
}

// addFood adds a food that is no line here.
func (h *holding) addFood(name string, f *food.Food) {
	h.known, h.logged, h.items, h.names = true, true, appendOnce(h.items, name), append(h.names, name)
	if f == nil || f.Unasked {
		h.noIdea, h.unknown = appendOnce(h.noIdea, name), true
	}
	h.bringsFood(name, name, f)
}

// bringsFood notes what a food brings; where no table knows it, what its name says.
func (h *holding) bringsFood(part, name string, f *food.Food) {
	if f == nil {
		f, part = food.Named(name), part+" by its name"
		if name == h.name {
			part = "its name"
		}
	} else {
		h.foods = append(h.foods, f)
	}
	h.brings(part, f.Allergen, f.MayCarry)
}

// addLine adds a line: by its food, by what it was made of, and by what cooks have said is in it.
// Via is what it is in, itself something made; "" nothing.
func (t *turn) addLine(h *holding, x *Records, l *pantry.Line, via string, deep int) error {
	part := l.Name
	if via != "" {
		part += " in the " + via
	}
	f := t.ear.foodOf(l)
	var of []int64
	if l.Made > 0 && deep > 0 {
		p, err := x.read(1)
		if err != nil {
			return err
		}
		of = p.made[l.ID]
	}
	told := t.k.ToldOf(l.Name)
	t.addSaid(h, told)
	if l.Name != h.name || len(of) == 0 { // what is left of a dish is not in itself
		h.items = appendOnce(h.items, l.Name)
	}
	h.names, h.known = append(h.names, l.Name), h.known || f != nil || len(of) > 0
	h.logged = true
	if f == nil && (len(of) == 0 || l.Received > 0) || f != nil && f.Unasked || l.Made > 0 && len(of) == 0 && !isJustCooked(l.Name) {
		h.noIdea, h.unknown = appendOnce(h.noIdea, part), true
	}
	if l.Name != h.name { // what of it itself is not settled is told before all else
		for _, what := range unsettledIn(t.k, l) {
			h.noIdea, h.unknown = appendOnce(h.noIdea, what), true
		}
	}
	h.bringsFood(part, l.Name, f)
	for _, id := range of {
		if o := t.k.Line(id); o != nil && o != l && !slices.Contains(h.names, o.Name) {
			if err := t.addLine(h, x, o, l.Name, deep-1); err != nil {
				return err
			}
		}
	}
	return nil
}

// heldByDish gathers what went into a dish in the last service in which it was made, what is kept for it,
// what the plan that is on puts in and what cooks have said.
func (t *turn) heldByDish(x *Records, list []*Wrap, dish string) (*holding, error) {
	h := newHolding(dish)
	add := func(name, of string) error {
		if l := t.k.Named(name); l != nil {
			return t.addLine(h, x, l, "", mostMade)
		}
		f, ok := t.ear.all.Food(name)
		if !ok && of != "" {
			f, _ = t.ear.all.Food(of)
		}
		h.addFood(name, f)
		return nil
	}
	for back := 0; ; back++ {
		w := WithDishes(list, back)
		if w == nil {
			break
		}
		if !slices.ContainsFunc(w.Dishes, func(d WrapDish) bool { return d.Name == dish }) {
			continue
		}
		s, err := x.Sheet(w, dish)
		if err != nil {
			return nil, err
		}
		if w.Until != nil && back > 0 {
			h.when = ", as cooked " + s.Cooked.In(t.m.At.Location()).Format("Mon 2 Jan")
		}
		for _, p := range s.Parts {
			if err := add(p.Item, p.Food); err != nil {
				return nil, err
			}
		}
		break
	}
	if h.logged { // a fish pie holds fish, and pies often eggs, whatever was logged
		holds, may := namedIn(dish, h.items)
		h.brings("its name", missing(holds, h.holds), missing(may, append(slices.Clone(h.holds), h.may...)))
	}
	for _, l := range t.k.Lines {
		if slices.ContainsFunc(l.Holds, func(c pantry.Hold) bool { return c.Dish == dish }) && !slices.Contains(h.items, l.Name) {
			if err := add(l.Name, ""); err != nil {
				return nil, err
			}
		}
	}
	on, running, err := t.running()
	if err != nil {
		return nil, err
	}
	if running {
		on.complete(t)
		for n := range on.Plan.Dishes {
			if n >= len(on.Names) || on.Names[n] != dish || on.Plan.Dishes[n].isOff() {
				continue
			}
			for _, name := range on.Plan.Dishes[n].items() {
				if !slices.Contains(h.items, name) {
					if err := add(name, ""); err != nil {
						return nil, err
					}
				}
			}
		}
	}
	t.addSaid(h, t.k.ToldOfDish(dish))
	return h, nil
}

// namedIn is what the name of a dish says that it holds and may carry, where food of these names went in: a
// sponge of gf flour only may hold gluten.
func namedIn(dish string, items []string) (holds, may []string) {
	named := food.Named(dish)
	may = named.MayCarry
	for _, a := range named.Allergen {
		if slices.ContainsFunc(items, func(name string) bool { return slices.Contains(food.FreeBy(name), a) }) {
			may = appendOnce(slices.Clone(may), a)
			continue
		}
		holds = append(holds, a)
	}
	return holds, may
}

// missing are those of a list that another has not.
func missing(list, in []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(a string) bool { return slices.Contains(in, a) })
}

// addSaid adds what cooks have said is in it.
func (t *turn) addSaid(h *holding, told []pantry.Told) {
	h.addTold(told)
	for _, o := range told {
		h.known, h.items = true, appendOnce(h.items, o.Of)
		h.brings(sayTold(t.k, o), o.Holds, o.May)
	}
}

// heldBy gathers what something is known to hold that words call: a dish, food on hand, both where
// they are called the same, or a food of the tables; nil where they call nothing that is known.
func (t *turn) heldBy(x *Records, list []*Wrap, said string) (*holding, error) {
	dish := t.dishCalled(list, said)
	h, err := t.heldByDish(x, list, dish)
	if err != nil {
		return nil, err
	}
	found := t.ear.find(said)
	lines := found.lines
	if !found.exact || found.sound {
		lines = nil
	}
	if food.IsDishOf(said) { // what goes into a lasagne its sheets do not tell
		lines, found.food = nil, nil
		if l := potLine(t.k, said); l != nil {
			lines = []*pantry.Line{l}
		}
	}
	if l := t.k.Named(dish); l != nil && !slices.Contains(lines, l) {
		lines = []*pantry.Line{l}
	}
	if !h.known || slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.Name == dish }) {
		for _, l := range lines {
			if err := t.addLine(h, x, l, "", mostMade); err != nil {
				return nil, err
			}
			h.known = true
		}
		if len(lines) == 1 {
			h.name = lines[0].Name
		}
		if len(lines) == 0 && found.exact && found.food != nil && !found.sound {
			h.name = found.food.Name
			h.addFood(found.food.Name, found.food)
		}
	}
	if !h.known && !slices.Contains(t.k.Dishes, dish) {
		return nil, nil
	}
	return h, nil
}

// dishCalled is the dish that words call: of those that were made, are planned, or of which
// something was said.
func (t *turn) dishCalled(list []*Wrap, said string) string {
	dish := t.dish(strings.ToLower(said))
	if slices.Contains(t.k.Dishes, dish) || len(t.k.ToldOfDish(dish)) > 0 {
		return dish
	}
	for back := 0; ; back++ {
		w := WithDishes(list, back)
		if w == nil {
			return dish
		}
		if n := w.Dish(said); n >= 0 {
			return w.Dishes[n].Name
		}
	}
}

// allergens are what it holds, or may carry, with what brings them, in the order of the 14.
func (h *holding) allergens() (holds, may []account.Allergen) {
	for _, a := range food.Allergens() {
		if from := h.from[a]; len(from) > 0 {
			holds = append(holds, account.Allergen{Name: a, From: from})
		} else if from := h.mayFrom[a]; len(from) > 0 {
			may = append(may, account.Allergen{Name: a, From: from})
		}
	}
	return holds, may
}
