package heat

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Food is a row of foods.csv: what is known of how a food heats.
type Food struct {
	Name string // the catalogue's
	Stuff
	From   float64 // what it usually starts at: a fridge or a larder
	Done   Done
	Cuts   []Cut // it is cut so, the usual first
	Source string
}

// Method is a row of methods.csv: a way to bring heat to food from outside.
type Method struct {
	Name    string // "boil"
	Said    string // "boiled"
	Celsius float64
	Film    float64 // W/m²K
	Dry     bool    // hot air: the temperature may be set
	Share   float64 // of the excess over 100 °C that counts for food that softens
	Source  string
}

//go:embed foods.csv
var foodsCSV string

//go:embed methods.csv
var methodsCSV string

var table = sync.OnceValue(func() map[string]*Food {
	list, err := readFoods("foods.csv", strings.NewReader(foodsCSV))
	if err != nil {
		panic(err) // the tables are part of the program, and a test reads them
	}
	all := map[string]*Food{}
	for i := range list {
		all[list[i].Name] = &list[i]
	}
	return all
})

var methods = sync.OnceValue(func() []Method {
	list, err := readMethods("methods.csv", strings.NewReader(methodsCSV))
	if err != nil {
		panic(err)
	}
	return list
})

// Of finds a food by its name in the catalogue; nil where nothing is known of how
// it heats.
func Of(food string) *Food { return table()[food] }

// By finds a method by its name; nil none.
func By(name string) *Method {
	for i := range methods() {
		if methods()[i].Name == name {
			return &methods()[i]
		}
	}
	return nil
}

// Methods gives all of them. The slice belongs to the package: do not change it.
func Methods() []Method { return methods() }

func readFoods(name string, r io.Reader) (list []Food, err error) {
	err = rows(name, r, []string{"food", "k", "alpha", "from", "soft", "core", "hold", "cuts", "source"}, func(c []string, number func(i int, least, most float64) float64) string {
		f := Food{Name: c[0], Stuff: Stuff{number(1, 0.1, 1), number(2, 5e-8, 3e-7)}, From: number(3, -20, 40), Source: c[8],
			Done: Done{Soft: number(4, 0, 300), Core: number(5, 0, 99), Hold: number(6, 0, 60)}}
		for _, s := range strings.Split(c[7], ";") {
			cut := Cut(s)
			if !slices.Contains([]Cut{AsCube, AsSlice, AsStick, AsWhole}, cut) {
				return fmt.Sprintf("%q is no cut", s)
			}
			f.Cuts = append(f.Cuts, cut)
		}
		list = append(list, f)
		switch {
		case f.Name == "" || f.Source == "":
			return "a food and a source are needed"
		case (f.Done.Soft > 0) == (f.Done.Core > 0):
			return "either soft or core says when it is done"
		}
		return ""
	})
	return list, err
}

func readMethods(name string, r io.Reader) (list []Method, err error) {
	err = rows(name, r, []string{"method", "said", "celsius", "film", "share", "source"}, func(c []string, number func(i int, least, most float64) float64) string {
		m := Method{Name: c[0], Said: c[1], Celsius: number(2, 50, 300), Film: number(3, 1, 20000), Dry: c[4] != "", Share: number(4, 0, 1), Source: c[5]}
		list = append(list, m)
		if m.Name == "" || m.Said == "" || m.Source == "" {
			return "a name, how it is said and a source are needed"
		}
		return ""
	})
	return list, err
}

// rows reads a table; what is wrong with a row is said with its line.
func rows(name string, r io.Reader, columns []string, row func(cells []string, number func(i int, least, most float64) float64) string) error {
	c := csv.NewReader(r)
	c.FieldsPerRecord = len(columns)
	head, err := c.Read()
	if err != nil || !slices.Equal(head, columns) {
		return fmt.Errorf("%s: the first line must be %s", name, strings.Join(columns, ","))
	}
	for {
		cells, err := c.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		wrong := ""
		number := func(i int, least, most float64) float64 {
			if cells[i] == "" {
				return 0
			}
			n, err := strconv.ParseFloat(cells[i], 64)
			if err != nil || n < least || n > most {
				wrong = fmt.Sprintf("%s %q is no number from %g to %g", columns[i], cells[i], least, most)
			}
			return n
		}
		said := row(cells, number)
		if wrong == "" {
			wrong = said
		}
		if line, _ := c.FieldPos(0); wrong != "" {
			return fmt.Errorf("%s: line %d: %s", name, line, wrong)
		}
	}
}
