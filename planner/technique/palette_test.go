package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// The count is pinned so that no row is lost unseen. Raise it with the table.
func TestPaletteCount(t *testing.T) {
	if n := len(Palettes()); n != 46 {
		t.Errorf("%d palettes", n)
	}
}

func TestPaletteRows(t *testing.T) {
	known, catalogue := known(), food.Default()
	for _, p := range Palettes() {
		for _, c := range p.Components {
			x, ok := catalogue.Food(c.Food)
			if !ok || x.Name != c.Food {
				t.Errorf("%s: the catalogue has no food %q", p.ID, c.Food)
				continue
			}
			if x.Unit != c.Unit {
				t.Errorf("%s: %s is counted in %v", p.ID, c.Food, x.Unit)
			}
			if p.Suits(Of(x, false)) < 0 {
				t.Errorf("%s: %s is in it and clashes with it", p.ID, c.Food)
			}
		}
		for _, w := range slices.Concat(p.Likes, p.Clashes) {
			if !known[w] {
				t.Errorf("%s: no food or kind is called %q", p.ID, w)
			}
		}
		if len(p.Components) < 3 || len(p.Likes) < 5 || len(p.Clashes) < 3 || len(p.Taste) > 3 {
			t.Errorf("%s: %d components, %d suits, %d clashes, %d tastes", p.ID, len(p.Components), len(p.Likes), len(p.Clashes), len(p.Taste))
		}
		if salt := saltOf(&p); salt > 2.5 {
			t.Errorf("%s: %.1f g of salt a portion", p.ID, salt)
		}
	}
}

// saltOf gives the grams of salt of a palette by its saltiest components: soy
// sauce about 15 %, fish sauce about 25 %. Both are from memory, makers differ.
func saltOf(p *Palette) (grams float64) {
	for _, c := range p.Components {
		switch c.Food {
		case "table salt":
			grams += c.Amount.Units()
		case "soy sauce":
			grams += c.Amount.Units() * 0.15
		case "fish sauce":
			grams += c.Amount.Units() * 0.25
		}
	}
	return grams
}

func TestPalettesNear(t *testing.T) {
	for _, p := range Palettes() {
		for _, id := range p.Near {
			i := slices.IndexFunc(Palettes(), func(o Palette) bool { return o.ID == id })
			if i < 0 || !slices.Contains(Palettes()[i].Near, p.ID) || id == p.ID {
				t.Errorf("%s is near %s, and not the other way", p.ID, id)
			}
		}
	}
}

func TestPaletteSuits(t *testing.T) {
	p := Palette{Likes: []string{"leek", "egg", "cabbage"}, Clashes: []string{"red cabbage", "allium", "sturdy leaf"}}
	for name, want := range map[string]int{
		"leek": 2, "shallot": -1, "hen's egg": 1, "white cabbage": 1, "red cabbage": -1, "Savoy cabbage": -1, "carrot": 0,
	} {
		x, _ := food.Default().Food(name)
		if got := p.Suits(Of(x, false)); got != want {
			t.Errorf("%s: %d, want %d", name, got, want)
		}
	}
	if got := p.Suits(Subject{}); got != 0 {
		t.Errorf("nothing: %d", got)
	}
}

// What a cook never seasons so: soy on a gratin, butter in noodles, lime and fish sauce
// on a crumble; and what belongs.
func TestFramesRefusePalettes(t *testing.T) {
	for _, c := range []struct {
		frame, palette string
		takes          bool
	}{
		{"gratin", "soy-ginger", false}, {"gratin", "lime-chilli", false}, {"gratin", "yoghurt-dill", false}, {"gratin", "thyme-wine", true},
		{"savoury-crumble", "lime-chilli", false}, {"savoury-crumble", "honey-mustard", false}, {"savoury-crumble", "rosemary-garlic", true},
		{"stir-fry", "rosemary-garlic", false}, {"stir-fry", "tomato-basil", false}, {"stir-fry", "soy-ginger", true},
		{"leaf-salad", "rosemary-garlic", false}, {"leaf-salad", "tomato-basil", false}, {"leaf-salad", "honey-mustard", true},
		{"warm-salad", "butter-parsley", false}, {"warm-salad", "lemon-parsley", true},
		{"coconut-curry", "rosemary-garlic", false}, {"coconut-curry", "turmeric-ginger", true},
		{"topped-pie", "tomato-basil", false}, {"topped-pie", "brown-ale-onion", true},
		{"sauced-pasta", "peanut-lime", false}, {"sauced-pasta", "caper-anchovy", true},
	} {
		f := &Frames()[slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == c.frame })]
		p := &Palettes()[slices.IndexFunc(Palettes(), func(p Palette) bool { return p.ID == c.palette })]
		if got := f.Takes(p); got != c.takes {
			t.Errorf("%s takes %s: %v", c.frame, c.palette, got)
		}
	}
}

// Every frame can be seasoned in several ways, and every palette has dishes.
func TestFramesTakePalettes(t *testing.T) {
	takes := map[string]int{}
	for i := range Frames() {
		f, n := &Frames()[i], 0
		for j := range Palettes() {
			p := &Palettes()[j]
			if f.Takes(p) {
				n++
				takes[p.ID]++
			}
			if p.Sweet != (f.Family == "sweet") && f.Takes(p) {
				t.Errorf("%s takes %s", f.ID, p.ID)
			}
		}
		if n < 3 {
			t.Errorf("%s: only %d palettes", f.ID, n)
		}
	}
	for _, p := range Palettes() {
		if takes[p.ID] < 3 {
			t.Errorf("%s: only %d frames", p.ID, takes[p.ID])
		}
	}
	for id, not := range map[string]string{"risotto": "soy-ginger", "fried-rice": "tomato-basil", "chowder": "kimchi-sesame", "gratin": "lime-chilli"} {
		i := slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == id })
		j := slices.IndexFunc(Palettes(), func(p Palette) bool { return p.ID == not })
		if Frames()[i].Takes(&Palettes()[j]) {
			t.Errorf("%s takes %s", id, not)
		}
	}
}

var goodPalette = map[string]string{
	"id": "plain", "name": "oil and lemon", "region": "anywhere", "course": "savoury",
	"components": "olive oil|10 ml|start;lemon juice|4.5 ml|end", "taste": "fat;sour", "strength": "1",
	"suits": "leek;egg", "clashes": "milk", "near": "", "note": "good oil", "source": "common practice, no source",
}

func TestReadPalettesTakesAGoodRow(t *testing.T) {
	near := changed(goodPalette, "id", "other", "name", "other", "near", "plain", "course", "sweet")
	list, err := ReadPalettes("t.csv", strings.NewReader(written(paletteHeader, changed(goodPalette, "near", "other"), near)))
	if err != nil || len(list) != 2 {
		t.Fatalf("got %d rows, %v", len(list), err)
	}
	p := list[0]
	if c := p.Components[1]; c.Food != "lemon juice" || c.Amount != 4500 || c.Unit.String() != "ml" || c.When != "end" {
		t.Errorf("component %+v", c)
	}
	if p.Sweet || !list[1].Sweet || p.Strength != 1 || !slices.Equal(p.Near, []string{"other"}) {
		t.Errorf("%+v", p)
	}
}

func TestReadPalettesRefuses(t *testing.T) {
	for name, c := range map[string]struct{ column, value, says string }{
		"no id":            {"id", "", "id: is empty"},
		"id twice":         {"id", "first", "already"},
		"name twice":       {"name", "first", "already"},
		"no region":        {"region", "", "region"},
		"unknown course":   {"course", "cheese", "course"},
		"no components":    {"components", "", "components"},
		"component short":  {"components", "olive oil|10 ml", "food|amount unit"},
		"unknown when":     {"components", "olive oil|10 ml|later", "food|amount unit"},
		"no unit":          {"components", "olive oil|10|start", "unit"},
		"other unit":       {"components", "olive oil|10 cup|start", "cup"},
		"no amount":        {"components", "olive oil|0 ml|start", "not a number"},
		"component twice":  {"components", "olive oil|10 ml|start;olive oil|1 ml|end", "already"},
		"unknown taste":    {"taste", "nice", "taste"},
		"no taste":         {"taste", "", "taste"},
		"too strong":       {"strength", "4", "strength"},
		"suits nothing":    {"suits", "", "suits"},
		"suits and not":    {"clashes", "egg", "both"},
		"near nothing":     {"near", "nowhere", "in turn"},
		"near one way":     {"near", "first", "in turn"},
		"near itself":      {"near", "plain", "in turn"},
		"no note":          {"note", "", "note"},
		"no source":        {"source", "", "source: is empty"},
		"an empty item":    {"suits", "leek;;egg", "empty item"},
		"an empty clash":   {"clashes", "milk;", "empty item"},
		"an empty seconds": {"components", "olive oil|10 ml|start;", "empty item"},
	} {
		t.Run(name, func(t *testing.T) {
			text := written(paletteHeader, changed(goodPalette, "id", "first", "name", "first"), changed(goodPalette, c.column, c.value))
			_, err := ReadPalettes("own.csv", strings.NewReader(text))
			if err == nil {
				t.Fatal("taken")
			}
			if !strings.HasPrefix(err.Error(), "own.csv:3: ") || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q does not say file, line and %q", err, c.says)
			}
		})
	}
	if _, err := ReadPalettes("own.csv", strings.NewReader("id,name\n")); err == nil || !strings.HasPrefix(err.Error(), "own.csv:1: ") {
		t.Errorf("other columns: %v", err)
	}
}
