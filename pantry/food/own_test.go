package food

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/measure"
)

func TestOwnTable(t *testing.T) {
	own := Default().Own()
	err := own.Read("own.csv", strings.NewReader(`name,like,parts,allergens,fridge_days,names,piece_g,vegan,vegetarian
sea beet,spinach,handful=30,,2,wild spinach,,,
whey cheese,ricotta,,milk,,,,no,yes
# a cook may leave remarks
leek,,handful=60,,,long onion,250,,
orache,sea beet,,none,,,,yes,yes
`))
	if err != nil {
		t.Fatal(err)
	}
	c, err := own.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	beet, _ := c.Food("wild spinaches")
	if beet == nil || beet.Name != "sea beet" || !beet.Unasked || beet.Vegan != "check label" || beet.Keeps.Days != 2 || len(beet.Trim) == 0 {
		t.Errorf("sea beet: %+v", beet)
	}
	if mg, ok := beet.PartMg("handful"); !ok || mg != 30_000 {
		t.Errorf("a handful of sea beet is %d mg", mg)
	}
	if f, _ := c.Food("whey cheese"); f.Unasked || !slices.Equal(f.Allergen, []string{"milk"}) || f.Meatless != "yes" {
		t.Errorf("whey cheese: %+v", f)
	}
	if f, _ := c.Food("long onion"); f == nil || f.Name != "leek" || f.PieceMg != 250_000 || f.Refuse != 56 || f.Unasked || f.Vegan != "yes" || len(f.Kinds) == 0 {
		t.Errorf("leek, as this kitchen has it: %+v", f)
	}
	if f, _ := c.Food("leek"); len(f.Parts) != 2 || f.Parts[0].Name != "slice" || f.Parts[1] != (Part{"handful", 60_000}) {
		t.Errorf("leek is counted by %v", f.Parts)
	}
	spoon := Default().Own()
	if f, err := spoon.Describe(map[string]string{"name": "nut pesto", "like": "pesto", "density": "1"}); err != nil || f.TbspMg > 0 || f.CupMg > 0 || f.Density != 1000 {
		t.Errorf("a spoon of nut pesto is still one of pesto: %+v, %v", f, err)
	}
	if f, _ := c.Food("orache"); f == nil || f.Unasked || f.Vegan != "yes" || f.Keeps.Days != 2 {
		t.Errorf("orache is like sea beet: %+v", f)
	}
	if f, _ := Default().Food("leek"); f.PieceMg == 250_000 || len(f.Names) > 0 && slices.Contains(f.Names, "long onion") {
		t.Error("the embedded catalogue was changed")
	}
}

func TestOwnTableRefused(t *testing.T) {
	for in, want := range map[string]string{
		"name,like\nsea beet,spinnach\n":           `own.csv:2: like: no food is called "spinnach"`,
		"name,parts\nsamphire,handful\n":           `own.csv:2: parts: "handful" is not of the form clove=5`,
		"name,names\nsea beet,leek\n":              "own.csv:2: leek is a food of its own",
		"name\nsea beet\nSea beets\n":              `own.csv:3: "Sea beets" is there twice`,
		"name,names\na beet,c\nb beet,c\n":         "own.csv:3: c is a beet here",
		"name,piece_g\nonion,150\n":                "own.csv:2: onion may be more than one food: say which, as in brown onion",
		"name,allergens\nnut cream,nuts\n":         `own.csv:2: allergens: "nuts" is not one of gluten cereals, `,
		"name,piece_g,large_g\nsea beet,50,20\n":   "own.csv:2: piece_g: must lie between",
		"name,vegan,vegetarian\nsea beet,yes,no\n": "own.csv:2: vegetarian: what is vegan is vegetarian",
		"name,unit\nsap,ml\n":                      "own.csv:2: density: a food that is poured needs one",
		"name,shade\nleek,green\n":                 `own.csv: there is no column "shade"; known are name, names, `,
		"":                                         "own.csv: is empty",
	} {
		err := Default().Own().Read("own.csv", strings.NewReader(in))
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: error %v, want %s", in, err, want)
		}
	}
}

func TestOwnNames(t *testing.T) {
	own := Default().Own()
	for _, c := range []struct{ name, of, wrong string }{
		{"knobbly", "celery root", ""},
		{"monster root", "celeriac", ""},
		{"knobbly", "swede", ""}, // what was taught later holds
		{"turnip", "swede", "turnip is a food of its own"},
		{"thing", "no such food", "no food is called"},
		{"!!", "swede", `"!!" is no name`},
		{"neep", "turnip", ""}, // in the embedded table it is a swede
	} {
		_, err := own.Name(c.name, c.of)
		if (err == nil) != (c.wrong == "") || err != nil && !strings.Contains(err.Error(), c.wrong) {
			t.Errorf("%s is %s: %v, want %q", c.name, c.of, err, c.wrong)
		}
	}
	c, err := own.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"knobbly": "swede", "monster roots": "celeriac", "celery root": "celeriac", "neeps": "turnip", "swede": "swede"} {
		if f, ok := c.Food(name); !ok || f.Name != want {
			t.Errorf("%s is %v, want %s", name, f, want)
		}
		if m := c.Find(name); len(m) == 0 || c.Foods()[m[0].ID].Name != want || m[0].Score != 1 {
			t.Errorf("%s finds %v, want %s", name, m, want)
		}
	}
}

// Foods that a kitchen says nothing of are the same ones, so that what others
// have worked out for them holds.
func TestWithKeepsFoods(t *testing.T) {
	own := Default().Own()
	if _, err := own.Name("knobbly", "celeriac"); err != nil {
		t.Fatal(err)
	}
	c, err := own.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	changed := 0
	for _, f := range c.Foods() {
		if was, ok := Default().Food(f.Name); ok && was != f {
			changed++
		}
	}
	if changed != 1 || len(c.Foods()) != len(Default().Foods()) {
		t.Errorf("%d of %d foods are new ones", changed, len(c.Foods()))
	}
}

func TestSizes(t *testing.T) {
	egg, _ := Default().Food("egg")
	for _, c := range []struct {
		f    *Food
		s    Size
		want measure.Amount
	}{
		{egg, "", 58_000}, {egg, Small, 48_000}, {egg, Medium, 58_000}, {egg, Large, 68_000},
		{&Food{PieceMg: 300_000}, Small, 225_000}, {&Food{PieceMg: 300_000}, Large, 400_000}, {&Food{}, Large, 0},
	} {
		if got := c.f.PieceOf(c.s); got != c.want {
			t.Errorf("a %s %s is %d mg, want %d", c.s, c.f.Name, got, c.want)
		}
	}
	if got := Sized(116_000, Large, egg); got != 136_000 {
		t.Errorf("where one is twice the weight, a large one is %d mg", got)
	}
	for _, f := range Default().Foods() {
		if low, high := f.PieceSpread(); low > f.PieceMg || high < f.PieceMg || f.PieceMg > 0 && low == high {
			t.Errorf("%s: one is %d mg, between %d and %d", f.Name, f.PieceMg, low, high)
		}
	}
}
