package paper_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"scullion/bot/paper"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

var update = flag.Bool("update", false, "write what is printed as what is expected")

var evening = time.Date(2026, 3, 4, 17, 0, 0, 0, time.UTC)

// ledger is entries in order.
type ledger []pantry.Placed

func (l ledger) AllInForce() ([]pantry.Placed, error) { return l, nil }

// kitchen is a small kitchen, and what was said in it.
type kitchen struct {
	pantry.Kitchen
	said ledger
}

func (k *kitchen) line(id int64, name, foodName string, unit measure.Kind) {
	k.Add(&pantry.Line{ID: id, Name: name, Food: foodName, Unit: unit, Shelf: food.Crate})
}

func (k *kitchen) say(e pantry.Entry) {
	e.At = evening.Add(time.Duration(len(k.said)) * 2 * time.Minute)
	k.said = append(k.said, pantry.Placed{Entry: e, N: int64(len(k.said) + 1)})
}

// sheet writes the sheet of a dish out of the ledger.
func (k *kitchen) sheet(t testing.TB, dish string, portions int, extra []account.Ingredient, steps []account.Step) *account.Sheet {
	t.Helper()
	for _, l := range k.Lines {
		for _, e := range k.said {
			if e.Line == l.ID {
				if _, err := l.Apply(e.Entry); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	foodOf := func(l *pantry.Line) *food.Food { f, _ := food.Default().Food(l.Food); return f }
	periods, err := account.Periods(&k.Kitchen, nil, k.said, foodOf, nil)
	if err != nil {
		t.Fatal(err)
	}
	s := account.Source{Kitchen: &k.Kitchen, Yield: 1_180_000, Period: &periods[0], Entries: k.said, Extra: extra, Steps: steps, FoodOf: foodOf}
	return s.Write(dish, portions)
}

// tart is a leek tart for 4 as a ledger has it: weighed, counted and poured food, trim, food of
// no table, some without a cost, a step and an ingredient that were only planned.
func tart(t testing.TB) *account.Sheet {
	k := &kitchen{}
	for i, l := range []struct {
		name, food string
		unit       measure.Kind
		came, cost int64
		piece      measure.Amount
		used       measure.Amount
	}{
		{"leek", "leek", measure.Gram, 1_200_000, 360, 200_000, 500_000},
		{"double cream", "double cream", measure.Millilitre, 600_000, 210, 0, 300_000},
		{"egg", "hen's egg", measure.Gram, 696_000, 300, 58_000, 232_000},
		{"puff pastry", "puff pastry", measure.Gram, 320_000, 180, 0, 320_000},
		{"gruyère", "Gruyère", measure.Gram, 250_000, 0, 0, 90_000},
		{"white wine", "white wine", measure.Millilitre, 750_000, 650, 0, 50_000},
		{"thyme", "thyme", measure.Gram, 20_000, 80, 0, 4_000},
		{"salt", "table salt", measure.Gram, 500_000, 0, 0, 3_500},
		{"gran's relish", "", measure.Gram, 200_000, 0, 0, 30_000},
	} {
		id := int64(i + 1)
		k.line(id, l.name, l.food, l.unit)
		k.say(pantry.Entry{Act: pantry.Receive, Line: id, Amount: measure.Amount(l.came), Cook: "cook 1", Lot: pantry.LotTerms{Cost: l.cost, PieceMg: l.piece}})
		k.say(pantry.Entry{Act: pantry.Use, Line: id, Amount: l.used, Cook: []string{"cook 1", "cook 2"}[i%2], Dish: "leek tart"})
	}
	k.say(pantry.Entry{Act: pantry.Bin, Line: 1, Amount: 140_000, Trim: true, Cook: "cook 1"})
	planned := account.Ingredient{Item: "ground nutmeg", Food: "ground nutmeg", Unit: measure.Gram, AP: 1000, EP: 1000, Grams: 1, Unpriced: true, Unlogged: true}
	steps := []account.Step{
		{At: evening.Add(5 * time.Minute), Do: "sweat the leek in butter", Minutes: 18},
		{At: evening.Add(40 * time.Minute), Do: "bake at 200 C", Minutes: 35, Logged: true},
	}
	return k.sheet(t, "leek tart", 4, []account.Ingredient{planned}, steps)
}

func options() paper.Options {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		panic(err)
	}
	return paper.Options{Names: map[string]string{"cook 1": "Bo", "cook 2": "Dee"}, Place: london, Currency: "£", US: true,
		Storage: "In the fridge, covered, up to 2 days. Reheat once, until steaming hot right through."}
}

// forms are the four forms of a sheet, by the end of their file's name.
var forms = map[string]func(*account.Sheet, paper.Options) string{
	"md": paper.Markdown, "html": paper.HTML, "csv": paper.CSV, "jsonld": paper.JSONLD,
}

// golden holds text against a file of testdata/paper; with -update it writes it.
func golden(t *testing.T, file, text string) {
	t.Helper()
	path := filepath.Join("../../testdata/paper", file)
	if *update {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != text {
		t.Errorf("%s is not what is printed; it should be:\n%s", file, text)
	}
}

// TestGolden prints one sheet in every form, as cooked and for other portions.
func TestGolden(t *testing.T) {
	for end, print := range forms {
		golden(t, "leek-tart."+end, print(tart(t), options()))
	}
	o := options()
	o.Portions, o.US, o.Title = 10, false, "Leek tart for the party"
	golden(t, "leek-tart-for-10.md", paper.Markdown(tart(t), o))
}

// salad is fit for everybody, for 2, and was cooked over midnight.
func salad() *account.Sheet {
	return &account.Sheet{Dish: "white bean salad", Portions: 2, Cooked: evening, Cooks: []string{"cook 2"}, Grams: 400, Cost: 240,
		Parts: []account.Ingredient{{Item: "white bean", Food: "tinned white bean", Unit: measure.Gram, AP: 400_000, EP: 400_000, Grams: 400, Cost: 240}},
		Steps: []account.Step{{At: evening, Do: "rinse the beans", Logged: true}, {At: evening.Add(10 * time.Hour), Do: "dress them", Minutes: 5, Logged: true}},
		Vegan: account.Diet{Fit: "yes"}, Meatless: account.Diet{Fit: "yes"}}
}
