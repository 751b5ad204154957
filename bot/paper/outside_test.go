package paper_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot/paper"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// rowsOf reads a table with a header and # lines.
func rowsOf(t testing.TB, path string) (rows []map[string]string) {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(raw))
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", path, len(all), err)
	}
	for _, rec := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = rec[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// cells reads a sheet's CSV by column.
func cells(t testing.TB, s *account.Sheet) (rows []map[string]string) {
	all, err := csv.NewReader(strings.NewReader(paper.CSV(s, paper.Options{}))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = rec[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// TestWorkedExamples takes the yields and costs of cooks' textbooks through a ledger, an account
// and a sheet. Books round: half of the last figure they print is allowed.
func TestWorkedExamples(t *testing.T) {
	for _, r := range rowsOf(t, "testdata/worked.csv") {
		ap, trim := figure(r["ap_g"]), figure(r["trim_g"])
		cost := int64(0)
		if r["cost_kg"] != "" {
			cost = int64(math.Round(figure(r["cost_kg"]) * ap / 1000))
		}
		k := &kitchen{}
		k.line(1, r["food"], "", measure.Gram)
		k.say(pantry.Entry{Act: pantry.Receive, Line: 1, Amount: mg(2 * ap), Cook: "a", Lot: pantry.LotTerms{Cost: 2 * cost}})
		k.say(pantry.Entry{Act: pantry.Use, Line: 1, Amount: mg(ap), Cook: "a", Dish: "dish"})
		k.say(pantry.Entry{Act: pantry.Bin, Line: 1, Amount: mg(trim), Trim: true, Cook: "a"})
		row := cells(t, k.sheet(t, "dish", 1, nil, nil))[0]
		yield := 100 * figure(row["ep_g"]) / figure(row["ap_g"])
		if want := r["yield_pct"]; math.Abs(yield-figure(want)) > lastFigure(want) {
			t.Errorf("%s (%s): %g%%, the book has %s", r["food"], r["source"], yield, want)
		}
		if r["cost_kg"] == "" {
			continue
		}
		byBook := 100 * figure(r["cost_kg"]) / yield
		perKilo := 100 * figure(row["cost"]) / figure(row["ep_g"]) * 1000
		if math.Abs(perKilo-byBook) > 1 {
			t.Errorf("%s (%s): a kilogram EP costs %g, by the book's method %g", r["food"], r["source"], perKilo, byBook)
		}
		if want := r["ep_cost_kg"]; want != "" && math.Abs(perKilo-figure(want)) > 50 {
			t.Errorf("%s (%s): a kilogram EP costs %g, the book has %s", r["food"], r["source"], perKilo, want)
		}
	}
}

func mg(g float64) measure.Amount { return measure.Amount(math.Round(g * 1000)) }

// lastFigure is half of the last figure of a printed number.
func lastFigure(s string) float64 {
	_, part, _ := strings.Cut(s, ".")
	return 0.5*math.Pow10(-len(part)) + 1e-9
}

// TestAtwater works a portion's energy out anew from the macronutrients printed with it, by the
// factors of Annex XIV to Regulation (EU) 1169/2011: protein 4, fat 9, carbohydrate 4, fibre 2.
// The tables are USDA's: fibre is in its carbohydrate, and factors are a food's own, so 6 in 100
// and 6 kcal in 100 g are allowed, and the 2 kcal that USDA counts fibre higher. Foods that need
// more by themselves (alcohol, acid) stand in the catalogue's own table of exceptions.
func TestAtwater(t *testing.T) {
	var except []string
	for _, r := range rowsOf(t, "../../pantry/food/testdata/energy.csv") {
		except = append(except, r["name"])
	}
	var foods []*food.Food
	for _, f := range food.Default().Foods() {
		if f.Figures && f.Kcal > 0 && !slices.Contains(except, f.Name) {
			foods = append(foods, f)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		k := &kitchen{}
		for i := range rapid.IntRange(1, 8).Draw(rt, "foods") {
			f := foods[rapid.IntRange(0, len(foods)-1).Draw(rt, "food")]
			k.line(int64(i+1), fmt.Sprintf("item %d", i), f.Name, f.Unit)
			n := measure.Amount(rapid.Int64Range(20_000, 900_000).Draw(rt, "amount"))
			k.say(pantry.Entry{Act: pantry.Receive, Line: int64(i + 1), Amount: n, Cook: "a"})
			k.say(pantry.Entry{Act: pantry.Use, Line: int64(i + 1), Amount: n, Cook: "a", Dish: "dish"})
		}
		portions := rapid.IntRange(1, 8).Draw(rt, "portions")
		s := k.sheet(t, "dish", portions, nil, nil)
		var doc struct {
			Nutrition struct{ Calories, ProteinContent, FatContent, CarbohydrateContent, FiberContent string }
		}
		if err := json.Unmarshal([]byte(paper.JSONLD(s, paper.Options{})), &doc); err != nil {
			rt.Fatal(err)
		}
		n := doc.Nutrition
		g := func(s string) float64 { return figure(strings.TrimSuffix(s, " g")) }
		kcal, fibre := figure(strings.TrimSuffix(n.Calories, " kcal")), g(n.FiberContent)
		sum := 4*g(n.ProteinContent) + 9*g(n.FatContent) + 4*max(0, g(n.CarbohydrateContent)-fibre) + 2*fibre
		slack := 0.06*kcal + 6*s.Grams/float64(portions)/100 + 1.5 // 1.5: what rounding to 0.1 g and 1 kcal makes
		if sum-kcal > slack || kcal-sum > slack+2*fibre || kcal != kcal {
			rt.Fatalf("%+v: the factors make %g kcal, %g allowed", n, sum, slack)
		}
	})
}

// TestAnnexII: a dish with all of Annex II to Regulation (EU) 1169/2011 lists the fourteen by
// their names, in the order of the law, each with what brings it.
func TestAnnexII(t *testing.T) {
	var names []string
	foods := map[string]string{}
	for _, r := range rowsOf(t, "../../pantry/food/testdata/annex2.csv") {
		a := r["allergen"]
		if !slices.Contains(names, a) {
			names = append(names, a)
		}
		for _, must := range strings.Split(r["must"], ";") {
			if _, ok := food.Default().Food(must); ok && foods[a] == "" {
				foods[a] = must
			}
		}
	}
	if len(names) != 14 {
		t.Fatalf("%d names", len(names))
	}
	k := &kitchen{}
	id := int64(0)
	for _, a := range names {
		if foods[a] == "" || k.Named(foods[a]) != nil {
			continue
		}
		id++
		f, _ := food.Default().Food(foods[a])
		k.line(id, f.Name, f.Name, f.Unit)
		k.say(pantry.Entry{Act: pantry.Receive, Line: id, Amount: 50_000, Cook: "a"})
		k.say(pantry.Entry{Act: pantry.Use, Line: id, Amount: 50_000, Cook: "a", Dish: "dish"})
	}
	s := k.sheet(t, "dish", 2, nil, nil)
	if foods["lupin"] == "" { // no food of the catalogue is made of it; a kitchen may teach one
		at := slices.IndexFunc(s.Holds, func(a account.Allergen) bool { return a.Name == "molluscs" })
		s.Holds = slices.Insert(s.Holds, at, account.Allergen{Name: "lupin", From: []string{"lupin flour"}})
	}
	for _, end := range []string{"md", "html", "jsonld"} {
		doc, at := forms[end](s, paper.Options{}), 0
		for _, a := range names {
			next := strings.Index(doc[at:], a+" (")
			if next < 0 {
				t.Fatalf("%s: no %s after what the law has before it", end, a)
			}
			at += next
		}
	}
}

// TestUSNine: the US list goes by the food, not by the EU name alone.
func TestUSNine(t *testing.T) {
	part := func(name string) account.Ingredient {
		return account.Ingredient{Item: name, Food: name, Unit: measure.Gram, AP: 1000, EP: 1000, Grams: 1}
	}
	s := &account.Sheet{Dish: "dish", Parts: []account.Ingredient{part("pine nut"), part("rye flour"), part("mussel"), part("celery"), {Item: "our loaf"}, {Item: "pastry", Food: "puff pastry"}},
		Holds: []account.Allergen{{Name: "gluten cereals", From: []string{"rye flour", "our loaf", "pastry"}}, {Name: "celery", From: []string{"celery"}}, {Name: "molluscs", From: []string{"mussel"}}}}
	doc := paper.Markdown(s, paper.Options{US: true})
	for _, want := range []string{"US (9): tree nuts (pine nut), wheat (check label) (our loaf) and wheat (pastry).", "often carries, US (9): peanuts (pine nut), eggs (pastry) and milk (pastry)."} {
		if !strings.Contains(doc, want) {
			t.Errorf("no %q in\n%s", want, doc)
		}
	}
}

// TestDurations holds totalTime to ISO 8601-1:2019, 5.5.2 (durations): PnYnMnDTnHnMnS, zero parts left out.
func TestDurations(t *testing.T) {
	for minutes, want := range map[int]string{1: "PT1M", 59: "PT59M", 60: "PT1H", 61: "PT1H1M", 120: "PT2H", 1500: "PT25H"} {
		s := &account.Sheet{Dish: "dish", Steps: []account.Step{{At: evening, Do: "begin", Minutes: minutes - 1}, {At: evening.Add(time.Duration(minutes-1) * time.Minute), Do: "end", Minutes: 1}}}
		if doc := paper.JSONLD(s, paper.Options{}); !strings.Contains(doc, `"totalTime": "`+want+`"`) {
			t.Errorf("%d minutes: no %s in\n%s", minutes, want, doc)
		}
	}
	for _, steps := range [][]account.Step{nil, {{Do: "no time"}}, {{At: evening, Do: "one moment"}}} {
		if doc := paper.JSONLD(&account.Sheet{Dish: "dish", Steps: steps}, paper.Options{}); strings.Contains(doc, "totalTime") {
			t.Errorf("%v: a time that nobody knows", steps)
		}
	}
}
