package technique

import (
	_ "embed"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

// Palette is a set of seasonings that belong together, one row of palettes.csv.
type Palette struct {
	ID         string // "tomato-basil"
	Name       string // in plain words, as it may stand in a dish's name
	Region     string // region or tradition
	Sweet      bool   // for sweet dishes, and for no others
	Components []Component
	Taste      []string // what it tastes of, the leading word first
	Strength   int      // 1 carries others, 2 is heard, 3 takes over
	Likes      []string // foods and kinds
	Clashes    []string // foods and kinds
	Near       []string // ids of palettes too like it for one menu; they name it too
	Note       string
	Source     string
}

// Component is a seasoning of a palette.
type Component struct {
	Food   string // its name in the catalogue
	Amount measure.Amount
	Unit   measure.Kind
	When   string // one of Whens
}

// Whens are when a seasoning goes in: first, into the fat; while it cooks; when
// it is off the heat.
var Whens = []string{"start", "in", "end"}

// Tastes are the words for what a palette tastes of.
var Tastes = []string{"sweet", "sour", "salty", "bitter", "umami", "hot", "fat", "earthy", "grassy", "floral", "smoky", "nutty"}

//go:embed palettes.csv
var palettesCSV string

var palettes = sync.OnceValue(func() []Palette {
	list, err := ReadPalettes("palettes.csv", strings.NewReader(palettesCSV))
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// Palettes gives the embedded palettes. The slice belongs to the package: do
// not change it.
func Palettes() []Palette { return palettes() }

// Suits says how a palette goes with a food: 2 it is named outright, 1 a kind of
// it is, 0 neither way, -1 they clash. A food's own name goes before its kinds,
// and among kinds a clash goes first.
func (p *Palette) Suits(s Subject) int {
	named := func(w string) bool { return w == s.Name }
	switch {
	case s.Name != "" && slices.ContainsFunc(p.Clashes, named):
		return -1
	case s.Name != "" && slices.ContainsFunc(p.Likes, named):
		return 2
	case slices.ContainsFunc(p.Clashes, s.Is):
		return -1
	case slices.ContainsFunc(p.Likes, s.Is):
		return 1
	}
	return 0
}

// paletteHeader is the first line of a table of palettes. Lists are parted by
// ";"; components are food|amount and unit for a portion|when.
var paletteHeader = []string{
	"id", "name", "region", "course", "components", "taste", "strength", "suits", "clashes", "near", "note", "source",
}

// ReadPalettes reads a table of palettes; name stands before the line number in
// errors. The first fault ends it, with file, line and reason. A palette that is
// near another must be named by that other too.
func ReadPalettes(name string, r io.Reader) ([]Palette, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	near := map[string][]string{}
	each := func(f func(*row)) error { return eachRow(name, strings.NewReader(string(text)), paletteHeader, f) }
	if err := each(func(row *row) { near[row.text("id")] = row.list("near") }); err != nil {
		return nil, err
	}
	var list []Palette
	seen := map[string]bool{}
	err = each(func(row *row) {
		p := row.palette()
		if seen[p.ID] || seen[p.Name] {
			row.fail("id", "id or name is there already: "+p.ID)
		}
		seen[p.ID], seen[p.Name] = true, true
		for _, n := range p.Near {
			if n == p.ID || !slices.Contains(near[n], p.ID) {
				row.fail("near", n+" does not name "+p.ID+" in turn")
			}
		}
		list = append(list, p)
	})
	if err != nil {
		return nil, err
	}
	return list, nil
}

func (r *row) palette() Palette {
	p := Palette{
		ID: r.must("id"), Name: r.must("name"), Region: r.must("region"),
		Sweet: r.oneOf("course", []string{"savoury", "sweet"}) == "sweet", Components: r.components(),
		Taste: r.list("taste"), Strength: int(r.number("strength", r.text("strength"), 1, 3)),
		Likes: r.list("suits"), Clashes: r.list("clashes"), Near: r.list("near"),
		Note: r.must("note"), Source: r.must("source"),
	}
	for _, w := range p.Taste {
		if !slices.Contains(Tastes, w) {
			r.fail("taste", fmt.Sprintf("%q is not one of %q", w, Tastes))
		}
	}
	if p.Taste == nil || p.Likes == nil {
		r.fail("suits", "taste or suits is empty")
	}
	for _, w := range p.Likes {
		if slices.Contains(p.Clashes, w) {
			r.fail("clashes", w+" both suits and clashes")
		}
	}
	return p
}

// components reads "food|amount unit|when".
func (r *row) components() []Component {
	var out []Component
	for _, s := range r.list("components") {
		part := strings.Split(s, "|")
		if len(part) != 3 || part[0] == "" || !slices.Contains(Whens, part[2]) {
			r.fail("components", fmt.Sprintf("%q is not food|amount unit|start, in or end", s))
			return nil
		}
		amount, word, _ := strings.Cut(part[1], " ")
		unit, err := measure.ParseKind(word)
		if err != nil {
			r.fail("components", err.Error())
		}
		if slices.ContainsFunc(out, func(c Component) bool { return c.Food == part[0] }) {
			r.fail("components", part[0]+" is there already")
		}
		grams := r.number("components", amount, 0.01, 200)
		out = append(out, Component{part[0], measure.Amount(math.Round(grams * 1000)), unit, part[2]})
	}
	if out == nil {
		r.fail("components", "is empty")
	}
	return out
}
