package food

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// Own gathers what a kitchen says of its own foods, on top of a catalogue: its
// own table, and what its cooks have taught. What is said later goes first.
type Own struct {
	base  *Catalogue
	foods []Food
}

// Own begins a kitchen's own foods on top of c.
func (c *Catalogue) Own() *Own { return &Own{base: c} }

// Catalogue gives the catalogue with all that has been said.
func (o *Own) Catalogue() (*Catalogue, error) {
	if len(o.foods) == 0 {
		return o.base, nil
	}
	return o.base.With(slices.Clone(o.foods))
}

// Read reads a kitchen's own food table, as the function Read does. It may have
// one column more, "like", which names a food that the row's food is like in
// all that the row does not say.
func (o *Own) Read(name string, r io.Reader) error {
	seen := map[string]bool{}
	return eachFood(name, r, append(Header(), likeColumn), func(cells map[string]string) error {
		k := key(cells["name"])
		if seen[k] {
			return fmt.Errorf("%q is there twice", cells["name"])
		}
		seen[k] = true
		_, err := o.Describe(cells)
		return err
	})
}

// likeColumn names the food that another is like.
const likeColumn = "like"

// Describe adds a food from its cells, by the columns of a food table. Of a
// food that is known by that name it changes what the cells say, and leaves the
// rest. A name that another food goes by is refused if that is its first name,
// or one that this kitchen has given it.
func (o *Own) Describe(cells map[string]string) (Food, error) {
	known, ok := o.Food(cells["name"])
	if ok && !known.isCalled(cells["name"]) {
		return Food{}, fmt.Errorf("%s may be more than one food: say which, as in %s", cells["name"], known.Name)
	}
	if ok && cells[likeColumn] == "" {
		return o.amend(known, cells)
	}
	var model *Food
	if cells[likeColumn] != "" {
		if model, ok = o.Food(cells[likeColumn]); !ok {
			return Food{}, fmt.Errorf("like: no food is called %q", cells[likeColumn])
		}
	}
	f, err := readCells(cells, model)
	if err == nil && known != nil {
		err = f.holdTo(known, cells)
	}
	if err != nil {
		return f, err
	}
	return f, o.add(f, f.own())
}

// holdTo keeps what a kitchen says of a known food to the safe side: it may add
// allergens and not take them off, nor make a food vegan, nor lengthen the days
// of one that has a use-by date.
func (f *Food) holdTo(known *Food, cells map[string]string) error {
	if cells["allergens"] == "none" && len(known.Allergen) > 0 {
		return fmt.Errorf("%s holds %s by the tables, and that stays", known.Name, strings.Join(known.Allergen, ", "))
	}
	for _, a := range known.Allergen {
		f.Allergen = addOnce(slices.Clip(f.Allergen), a)
	}
	for _, a := range known.MayCarry {
		if !slices.Contains(f.Allergen, a) {
			f.MayCarry = addOnce(slices.Clip(f.MayCarry), a)
		}
	}
	if known.Vegan == "no" && f.Vegan == "yes" || known.Meatless == "no" && f.Meatless == "yes" {
		return fmt.Errorf("%s is not for them, by the tables: %s", known.Name, strings.Join(known.WhyNot, ", "))
	}
	if k := known.Keeps; k.Date == "use-by" && k.Days > 0 && (f.Keeps.Days > k.Days || f.Keeps.Fridge > max(k.Fridge, k.Days)) {
		return fmt.Errorf("%s has a use-by date, and the tables give it no more than %d in the %s, in days; a label with a later date goes with the delivery", known.Name, k.Days, k.Place)
	}
	return nil
}

// amend changes what cells say of a known food.
func (o *Own) amend(known *Food, cells map[string]string) (Food, error) {
	f, err := readCells(cells, known)
	if err == nil {
		err = f.holdTo(known, cells)
	}
	if err != nil {
		return f, err
	}
	added := f.Names
	f.Name, f.Names = known.Name, slices.Clone(known.Names)
	for _, n := range added {
		if !f.isCalled(n) {
			f.Names = append(f.Names, n)
		}
	}
	if cells["general"] == "" {
		f.General = known.General
	}
	if cells["allergens"] == "" {
		f.Unasked = known.Unasked
	}
	if cells["vegan"] == "" {
		f.Vegan = known.Vegan
	}
	if cells["vegetarian"] == "" {
		f.Meatless = known.Meatless
	}
	if cells["source"] == "" {
		f.Source = known.Source + "; some of it as this kitchen says"
	}
	return f, o.add(f, added)
}

// isCalled says whether a name is one of the food's own.
func (f *Food) isCalled(name string) bool {
	return slices.ContainsFunc(f.own(), func(n string) bool { return key(n) == key(name) })
}

// Name gives the food called of, by any of its names, one more.
func (o *Own) Name(name, of string) (Food, error) {
	f, ok := o.Food(of)
	if !ok {
		return Food{}, fmt.Errorf("no food is called %q", of)
	}
	if key(name) == "" {
		return Food{}, fmt.Errorf("%q is no name", name)
	}
	for i := range o.foods { // what was taught later holds
		if other := &o.foods[i]; key(other.Name) != key(f.Name) && key(other.Name) != key(name) {
			other.Names = slices.DeleteFunc(slices.Clone(other.Names), func(n string) bool { return key(n) == key(name) })
		}
	}
	more := f.copied()
	more.Names = append(more.Names, name)
	return more, o.add(more, []string{name})
}

// add adds a food in place of one of the same name, new names of which must not be another's first name, nor
// one that this kitchen has given another.
func (o *Own) add(f Food, names []string) error {
	others := slices.DeleteFunc(slices.Clone(o.foods), func(x Food) bool { return key(x.Name) == key(f.Name) })
	for _, n := range names {
		if other, ok := o.Food(n); ok && key(other.Name) == key(n) && key(n) != key(f.Name) {
			return fmt.Errorf("%s is a food of its own", other.Name)
		}
		for i := range others {
			if other := &others[i]; slices.ContainsFunc(other.Called(), func(x string) bool { return key(x) == key(n) }) {
				return fmt.Errorf("%s is %s here", n, other.Name)
			}
		}
	}
	o.foods = append(others, f)
	return nil
}

// Food finds a food by any of its names, the kitchen's own first.
func (o *Own) Food(name string) (*Food, bool) {
	for i := len(o.foods) - 1; i >= 0; i-- {
		if o.foods[i].isCalled(name) {
			return &o.foods[i], true
		}
	}
	if f, ok := o.base.Food(name); ok && (f.isCalled(name) || !o.replaced(f)) {
		return f, true
	}
	for i := len(o.foods) - 1; i >= 0; i-- { // a general word
		if slices.ContainsFunc(o.foods[i].General, func(n string) bool { return key(n) == key(name) }) {
			return &o.foods[i], true
		}
	}
	return nil, false
}

// replaced says whether the kitchen has a food of its own in f's place.
func (o *Own) replaced(f *Food) bool {
	return slices.ContainsFunc(o.foods, func(x Food) bool { return key(x.Name) == key(f.Name) })
}
