package food

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

//go:embed foods.csv
var foodsCSV string

// Catalogue is a set of foods that can be found by name. It does not change
// after New, so it may be shared between goroutines.
type Catalogue struct {
	foods []Food
	index *Index
	byKey map[string]int
}

// Default gives the embedded catalogue.
var defaultCatalogue = sync.OnceValue(func() *Catalogue {
	foods, err := Read("foods.csv", strings.NewReader(foodsCSV))
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	c, err := New(foods)
	if err != nil {
		panic(err)
	}
	return c
})

// Default gives the embedded catalogue, foods.csv. It is made once.
func Default() *Catalogue { return defaultCatalogue() }

// New makes a catalogue of foods, such as Default's and a kitchen's own read
// with Read. Names and other names must be unique among them; general words
// may be shared.
func New(foods []Food) (*Catalogue, error) {
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
		c.index.Add(i, foods[i].Called()...)
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

// Foods gives all foods. The slice belongs to the catalogue: do not change it.
func (c *Catalogue) Foods() []Food { return c.foods }

// Food gives the food with this name or other name, singular or plural. For a
// general word ("onion") it is the usual one: the first row that has the word.
// There is no allowance for slips; use Find for what a person typed.
func (c *Catalogue) Food(name string) (*Food, bool) {
	i, ok := c.byKey[key(name)]
	if !ok {
		return nil, false
	}
	return &c.foods[i], true
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
