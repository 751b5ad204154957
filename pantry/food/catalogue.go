package food

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

//go:embed foods.csv
var foodsCSV string

// prepared.csv has what kitchens buy ready or make of many foods. Who made it decides
// what is in it: allergens are those that its name entails, and more is unknown.
//
//go:embed prepared.csv
var preparedCSV string

// prepared is the group of its foods.
const prepared = "prepared"

// Table gives the embedded food table as it stands in the program, for a cook
// to read and to copy rows from.
func Table() string { return foodsCSV }

// Catalogue is a set of foods that can be found by name. It does not change
// after New, so it may be shared between goroutines.
type Catalogue struct {
	foods []*Food
	index *Index
	byKey map[string]int
}

var defaultCatalogue = sync.OnceValue(func() *Catalogue {
	c, err := embedded()
	if err != nil {
		panic(err) // the embedded tables are checked by a test
	}
	return c
})

// Default gives the embedded catalogue, foods.csv with trimmings.csv, and
// prepared.csv. It is made once.
func Default() *Catalogue { return defaultCatalogue() }

func embedded() (*Catalogue, error) {
	foods, err := Read("foods.csv", strings.NewReader(foodsCSV))
	if err != nil {
		return nil, err
	}
	more, err := Read("prepared.csv", strings.NewReader(preparedCSV))
	if err != nil {
		return nil, err
	}
	for i := range more {
		more[i].Unasked = true
	}
	if err := readTrimmings("trimmings.csv", strings.NewReader(trimmingsCSV), foods); err != nil {
		return nil, err
	}
	if err := checkGuides(foods); err != nil {
		return nil, err
	}
	if _, err := readRules("temperatures.csv", temperaturesCSV); err != nil {
		return nil, err
	}
	return New(append(foods, more...))
}

// New makes a catalogue of foods, such as Read gives. Names and other names
// must be unique among them; general words may be shared.
func New(foods []Food) (*Catalogue, error) {
	var list []*Food
	for i := range foods {
		list = append(list, &foods[i])
	}
	return gathered(list)
}

func gathered(foods []*Food) (*Catalogue, error) {
	c := &Catalogue{foods: foods, index: NewIndex(), byKey: map[string]int{}}
	for i := range foods {
		for _, n := range foods[i].own() {
			k := key(n)
			if at, ok := c.byKey[k]; ok && at != i {
				return nil, fmt.Errorf("%q is a name of both %s and %s", n, foods[at].Name, foods[i].Name)
			}
			c.byKey[k] = i
		}
	}
	for i := range foods {
		if foods[i].Group == prepared {
			c.index.AddWhole(i, foods[i].Called()...)
		} else {
			c.index.Add(i, foods[i].Called()...)
		}
		for _, n := range foods[i].General {
			if k := key(n); !c.has(k) {
				c.byKey[k] = i
			}
		}
	}
	return c, nil
}

func (c *Catalogue) has(key string) bool {
	_, ok := c.byKey[key]
	return ok
}

// With gives c with a kitchen's own foods. One of the same name takes the
// other's place, and what a kitchen calls its own food is no longer an other
// name of another: in their kitchen they are right.
func (c *Catalogue) With(own []Food) (*Catalogue, error) {
	named, called := map[string]bool{}, map[string]bool{}
	for i := range own {
		named[key(own[i].Name)] = true
		for _, n := range own[i].Called() {
			called[key(n)] = true
		}
	}
	theirs := func(n string) bool { return called[key(n)] }
	var foods []*Food
	for _, f := range c.foods {
		if named[key(f.Name)] {
			continue
		}
		if slices.ContainsFunc(f.Called(), theirs) {
			less := f.copied()
			less.Names, less.General = slices.DeleteFunc(less.Names, theirs), slices.DeleteFunc(less.General, theirs)
			f = &less
		}
		foods = append(foods, f) // the same one: others keep what they have worked out for it
	}
	for i := range own {
		foods = append(foods, &own[i])
	}
	return gathered(foods)
}

// Foods gives all foods. They and the slice belong to the catalogue: do not
// change them.
func (c *Catalogue) Foods() []*Food { return c.foods }

// Food gives the food with this name or other name, singular or plural. For a
// general word ("onion") it is the usual one: the first row that has the word.
// There is no allowance for slips; use Find for what a person typed.
func (c *Catalogue) Food(name string) (*Food, bool) {
	i, ok := c.byKey[key(name)]
	if !ok {
		return nil, false
	}
	return c.foods[i], true
}

// Find finds foods by what people call them; a Match's ID is a place in Foods.
func (c *Catalogue) Find(phrase string) []Match { return c.index.Find(phrase) }

// Index gives the catalogue's index; an ID in it is a place in Foods. It is
// for reading only.
func (c *Catalogue) Index() *Index { return c.index }

// Called gives everything the food is called: its name, its other names, and
// the general words that it may share with other foods.
func (f *Food) Called() []string { return append(f.own(), f.General...) }

// own gives the names that are this food's alone.
func (f *Food) own() []string { return append([]string{f.Name}, f.Names...) }
