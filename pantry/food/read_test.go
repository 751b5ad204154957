package food

import (
	"bufio"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"scullion/pantry/measure"
)

const rowCount = 898 // 745 of foods.csv, the others of prepared.csv

func TestTables(t *testing.T) {
	if _, err := readTables(); err != nil {
		t.Error(err)
	}
	c, err := embedded()
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Foods()) != rowCount {
		t.Errorf("%d foods, want %d", len(c.Foods()), rowCount)
	}
	if head, _, _ := strings.Cut(Table(), "\n"); head != strings.Join(Header(), ",") {
		t.Errorf("foods.csv leaves out a column, or has them in another order: %s", head)
	}
	for heard, words := range tables().sound {
		name := strings.Join(words, " ")
		if m := Default().Find(name); len(m) == 0 || m[0].Score < worthHead {
			t.Errorf("soundalikes.csv: %q leads to %q, which is no food: %v", heard, name, m)
		}
		if f, ok := Default().Food(heard); ok {
			t.Errorf("soundalikes.csv: %q is a name of %s itself", heard, f.Name)
		}
	}
}

// manyOnly are names that have no singular in a kitchen.
var manyOnly = []string{"spring greens", "mustard greens", "porridge oats", "buckwheat groats", "mixed salad leaves"}

func TestRows(t *testing.T) {
	for _, f := range Default().Foods() {
		words := split(f.Name)
		last := words[len(words)-1]
		if i := slices.Index(words, "in"); i > 0 {
			last = words[i-1]
		}
		if Fold(last) != last && !slices.Contains(manyOnly, f.Name) {
			t.Errorf("%s: not a singular, %q would be", f.Name, Fold(last))
		}
		if f.Group == "prepared" { // whoever made it decides the rest
			if !f.Unasked || f.Source == "" || f.Vegan == "yes" && len(f.WhyNot) > 0 {
				t.Errorf("%s: unasked %v, vegan %s, because of %q, source %q", f.Name, f.Unasked, f.Vegan, f.WhyNot, f.Source)
			}
			continue
		}
		if len(f.Source) < 15 || !strings.Contains(f.Source, "keeping: ") {
			t.Errorf("%s: source is %q", f.Name, f.Source)
		}
		if k := f.Keeps; k.Days == 0 || f.Shelf == Crate && k.Place != "freezer" && k.Days > 400 || k.Date == "use-by" && k.Place != "freezer" && k.Days > 60 {
			t.Errorf("%s: keeps %+v on the shelf %s", f.Name, k, f.Shelf)
		}
		if f.Group == "own" || f.Unasked || (f.Vegan != "yes" || f.Meatless != "yes") != (len(f.WhyNot) > 0) {
			t.Errorf("%s: group %s, unasked %v, vegan %s, vegetarian %s, because of %q", f.Name, f.Group, f.Unasked, f.Vegan, f.Meatless, f.WhyNot)
		}
		if len(f.Taste.Marks) == 0 || f.Taste.Strength == 0 || f.Taste.Raw == "" || f.Taste.Cooked == "" || f.Taste.Water == "" {
			t.Errorf("%s: tastes %+v", f.Name, f.Taste)
		}
		if f.Vegan == "yes" && (slices.Contains(f.Allergen, "milk") || slices.Contains(f.Allergen, "eggs") ||
			slices.Contains(f.Allergen, "fish") || slices.Contains(f.Allergen, "crustaceans") || slices.Contains(f.Allergen, "molluscs")) {
			t.Errorf("%s: vegan, with %v", f.Name, f.Allergen)
		}
		checkWeights(t, f)
	}
}

func checkWeights(t *testing.T, f *Food) {
	if f.Refuse > 0 && f.Waste == "" {
		t.Errorf("%s: refuse of what?", f.Name)
	}
	if f.Unit == measure.Millilitre && (f.Density < 850 || f.Density > 1500) {
		t.Errorf("%s: %d mg/ml is no liquid", f.Name, f.Density)
	}
	if f.CupMg > 0 && f.TbspMg > 0 {
		if r := float64(f.CupMg) / float64(f.TbspMg); r < 6 || r > 30 {
			t.Errorf("%s: a cup is %.1f tablespoons", f.Name, r)
		}
	}
	for _, p := range f.Parts {
		if f.PieceMg > 0 && p.Mg > f.PieceMg && p.Name != "bunch" && p.Name != "handful" && p.Name != "head" && p.Name != "tray" {
			t.Errorf("%s: a %s weighs more than the whole", f.Name, p.Name)
		}
	}
}

// good is a sound row, by its columns.
var good = map[string]string{
	"name": "leek", "group": "allium", "unit": "g", "shelf": "crate", "keeper": "no", "piece_g": "202.3", "cup_g": "89",
	"refuse_pct": "56", "refuse_what": "tops", "place": "fridge", "fridge_days": "10", "date": "best-before",
	"allergens": "none", "vegan": "yes", "vegetarian": "yes", "kcal": "61", "protein_g": "1.5", "fat_g": "0.3", "carb_g": "14.2",
	"fibre_g": "1.8", "source": "a book",
}

func written(cells map[string]string) string {
	var rec []string
	for _, h := range Header() {
		c := cells[h]
		if strings.ContainsAny(c, ",\"") {
			c = strconv.Quote(c)
		}
		rec = append(rec, c)
	}
	return strings.Join(rec, ",") + "\n"
}

func TestReadRefuses(t *testing.T) {
	top := strings.Join(Header(), ",") + "\n"
	if _, err := Read("x.csv", strings.NewReader(top+written(good))); err != nil {
		t.Fatalf("the good row: %v", err)
	}
	set := func(column, value string) string {
		cells := maps.Clone(good)
		cells["name"], cells[column] = "x", value
		return written(cells)
	}
	for _, c := range [][2]string{
		{set("name", ""), "x.csv:3: name: is empty"},
		{set("name", " leek"), "x.csv:3: name: space around"},
		{set("name", "!"), "x.csv:3: \"!\" is no name"},
		{written(good), `x.csv:3: "leek" is a name of leek already`},
		{set("names", "Leeks"), `x.csv:3: "Leeks" is a name of leek already`},
		{set("names", "a;a"), "x.csv:3: names: item 2"},
		{set("names", "a; b"), "x.csv:3: names: item 2"},
		{set("unit", "kg"), "x.csv:3: unit: a unit is"},
		{set("unit", "ml"), "x.csv:3: density: a food that is poured needs one"},
		{set("density", "9"), `x.csv:3: density: "9" is not a number from 0 to 3`},
		{set("shelf", "attic"), "x.csv:3: shelf: \"attic\" is not one of"},
		{set("keeper", "maybe"), "x.csv:3: keeper:"},
		{set("piece_g", "heavy"), "x.csv:3: piece_g: \"heavy\" is not a number"},
		{set("piece_g", "-1"), "x.csv:3: piece_g:"},
		{set("piece_g", "NaN"), "x.csv:3: piece_g:"},
		{set("small_g", "500"), "x.csv:3: piece_g: must lie between"},
		{set("parts", "clove"), "x.csv:3: parts: \"clove\" is not of the form"},
		{set("parts", "clove=0"), "x.csv:3: parts:"},
		{set("refuse_pct", "96"), "x.csv:3: refuse_pct:"},
		{set("refuse_pct", "5.5"), "x.csv:3: refuse_pct: is not a whole number"},
		{set("place", "shed"), "x.csv:3: place:"},
		{set("fridge_days", "-2"), "x.csv:3: fridge_days:"},
		{set("date", "soon"), "x.csv:3: date:"},
		{set("allergens", "cheese"), "x.csv:3: allergens: \"cheese\" is not one of gluten cereals"},
		{set("allergens", "none;milk"), "x.csv:3: allergens: \"none\" is not one of"},
		{set("check_label", "cheese"), "x.csv:3: check_label:"},
		{set("taste", "odd"), "x.csv:3: taste:"},
		{set("strength", "4"), "x.csv:3: strength:"},
		{set("raw", "purple"), "x.csv:3: raw:"},
		{set("cooked", "purple"), "x.csv:3: cooked:"},
		{set("water", "purple"), "x.csv:3: water:"},
		{set("vegan", "maybe"), "x.csv:3: vegan:"},
		{set("vegetarian", "no"), "x.csv:3: vegetarian: what is vegan is vegetarian"},
		{set("why_not", "taste"), "x.csv:3: why_not:"},
		{set("kcal", "1200"), "x.csv:3: kcal:"},
		{set("carb_g", "100"), "x.csv:3: carb_g: more than 100 g"},
		{"leek,more\n", "x.csv: record on line 3: wrong number of fields"},
		{`"leek` + written(good), "x.csv: "},
	} {
		_, err := Read("x.csv", strings.NewReader(top+written(good)+c[0]))
		if err == nil || !strings.HasPrefix(err.Error(), c[1]) {
			t.Errorf("%q: error %v, want %s", c[0], err, c[1])
		}
	}
	for in, want := range map[string]string{
		"":                        "x.csv: is empty",
		"name,colour\n":           `x.csv: there is no column "colour"; known are name,`,
		"name,parts,name\na,,\n":  `x.csv: the column "name" is there twice`,
		"parts\nclove=3\n":        `x.csv: the column "name" is missing`,
		"name,like\nleek,onion\n": `x.csv: there is no column "like"`,
	} {
		if _, err := Read("x.csv", strings.NewReader(in)); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: error %v, want %s", in, err, want)
		}
	}
}

func TestNewRefusesSharedNames(t *testing.T) {
	if _, err := New([]Food{{Name: "leek"}, {Name: "onion", Names: []string{"Leeks"}}}); err == nil {
		t.Error("two foods with one name were taken")
	}
	c, err := New([]Food{{Name: "red onion", General: []string{"onion"}}, {Name: "brown onion", General: []string{"onion"}}})
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := c.Food("onions"); !ok || f.Name != "red onion" || len(c.Find("onion")) != 2 {
		t.Errorf("onions: %v, %v", f, c.Find("onion"))
	}
}

var ndb = regexp.MustCompile(`^USDA SR28 NDB (\d{5})`)

// ownPiece are rows whose piece is not a measure of their SR28 row but is
// worked out from one; the source of each says how.
var ownPiece = []string{"whole chicken", "whole duck", "turkey", "pheasant", "watermelon", "chicken drumstick"}

const sr28 = "../../../shared/reference/sr28"

// sr28Measures are the grams of the measures of each food, by its number.
func sr28Measures(t *testing.T) map[string][]float64 {
	t.Helper()
	if _, err := os.Stat(sr28); err != nil {
		t.Skip("the SR28 files are not beside the repository: ", err)
	}
	weights := map[string][]float64{}
	eachLine(t, filepath.Join(sr28, "WEIGHT.txt"), 5, func(f []string) {
		amount, _ := strconv.ParseFloat(f[2], 64)
		grams, _ := strconv.ParseFloat(f[4], 64)
		weights[f[0]] = append(weights[f[0]], grams/amount)
	})
	return weights
}

// TestAgainstSR28 compares refuse and piece weights with the files that the
// table names as their source. SR28 counts the bone of the drumstick twice.
func TestAgainstSR28(t *testing.T) {
	refuse, weights := map[string]int{}, sr28Measures(t)
	eachLine(t, filepath.Join(sr28, "FOOD_DES.txt"), 9, func(f []string) { refuse[f[0]], _ = strconv.Atoi(f[8]) })
	rows, pieces := 0, 0
	for _, f := range Default().Foods() {
		m := ndb.FindStringSubmatch(f.Source)
		if m == nil {
			continue
		}
		want, ok := refuse[m[1]]
		if !ok {
			t.Errorf("%s: SR28 has no %s", f.Name, m[1])
		}
		if none := strings.Contains(f.Source, "so no refuse"); f.Refuse != want && !none && f.Name != "chicken drumstick" || none && f.Refuse != 0 {
			t.Errorf("%s: refuse %d%%, SR28 %s says %d%%", f.Name, f.Refuse, m[1], want)
		}
		rows++
		if f.PieceMg == 0 || strings.Contains(f.Source, "no source") && regexp.MustCompile(`(piece|tin|bulb): `).MatchString(f.Source) ||
			strings.Contains(f.Source, "piece: that of") || slices.Contains(ownPiece, f.Name) {
			continue
		}
		pieces++
		if !fits(f, weights[m[1]]) {
			t.Errorf("%s: piece %.1f g AP is no measure of SR28 %s: %v", f.Name, f.PieceMg.Units(), m[1], weights[m[1]])
		}
	}
	t.Logf("%d rows, %d pieces compared", rows, pieces)
	if rows < 400 || pieces < 120 {
		t.Errorf("only %d rows and %d pieces compared", rows, pieces)
	}
}

// fits says whether the piece, or its edible part, or half of it, is a measure.
func fits(f *Food, measures []float64) bool {
	ap := f.PieceMg.Units()
	ep := ap * float64(100-f.Refuse) / 100
	for _, w := range measures {
		for _, is := range []float64{ap, ep, ap / 2, ep / 2} {
			if math.Abs(is-w) <= 0.06+0.01*w {
				return true
			}
		}
	}
	return false
}

func eachLine(t *testing.T, path string, fields int, row func([]string)) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		f := strings.Split(lines.Text(), "^")
		if len(f) < fields {
			t.Fatalf("%s: %q", path, lines.Text())
		}
		for i := range f {
			f[i] = strings.TrimSpace(f[i])
		}
		row(f)
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
}
