package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// mustCook lists foods by what their names hold, apart from the safety table, so
// that a hole in the table shows. The last field is the least minutes at the boil.
var mustCook = []struct {
	words string // any of these in the name
	not   string // and none of these
	heat  Heat
	boil  float64
}{
	{"chicken turkey pheasant", "stock", Through, 0},
	{"duck", "egg fat", Through, 0},
	{"pork gammon bacon pancetta", "", Through, 0},
	{"mince sausage", "", Through, 0},
	{"liver kidney", "bean pâté", Through, 0},
	{"beef lamb veal steak venison", "stock suet dripping corned lamb's lettuce", Sear, 0},
	{"cod haddock hake plaice salmon trout mackerel herring tuna bass", "smoked tinned", Through, 0},
	{"prawn mussel clam squid scallop oyster crayfish lobster octopus", "sauce", Through, 0},
	{"potato", "", Through, 0},
	{"egg", "noodle", Warm, 0},
	{"cassava", "", Boil, 0},
	{"kidney cannellini", "tinned lamb's ox", Boil, 30},
	{"bean", "tinned baked refried sprout", Boil, 10},
	{"lentil", "tinned", Boil, 10},
	{"chickpea", "tinned liquid", Boil, 10},
	{"pea", "tinned garden frozen snap", Boil, 10},
	{"rice", "vinegar flour drink paper", Through, 0},
	{"flour", "tortilla", Through, 0},
	{"mushroom morel chanterelle", "", Through, 0},
	{"sprout", "Brussels alfalfa", Through, 0},
}

func TestNothingThatMustBeCookedIsOfferedRaw(t *testing.T) {
	list := Default()
	met := make([]int, len(mustCook))
	for i := range food.Default().Foods() {
		f := food.Default().Foods()[i]
		for r, rule := range mustCook {
			if !hasAny(f.Name, rule.words) || hasAny(f.Name, rule.not) {
				continue
			}
			for j := range list {
				fit, ok := list[j].Fit(Of(f, false))
				if !ok {
					continue
				}
				met[r]++
				if fit.Heat < rule.heat {
					t.Errorf("%s: %s is no more than %v, wants %v", f.Name, fit.ID, fit.Heat, rule.heat)
				}
				if longest := boiled(fit.Steps); longest < rule.boil {
					t.Errorf("%s: %s boils it %g minutes, wants %g", f.Name, fit.ID, longest, rule.boil)
				}
			}
		}
	}
	for r, n := range met {
		if n == 0 {
			t.Errorf("no technique for any of %q: the test tests nothing", mustCook[r].words)
		}
	}
}

// The rules themselves must ask for it, whatever the techniques say.
func TestRulesCoverTheCatalogue(t *testing.T) {
	for i := range food.Default().Foods() {
		f := food.Default().Foods()[i]
		if f.Group == "prepared" { // whoever made it says how it is heated; TestSmallRemainders holds that it has no ideas
			continue
		}
		heat, boil, _ := Need(Of(f, false))
		for _, rule := range mustCook {
			if !hasAny(f.Name, rule.words) || hasAny(f.Name, rule.not) {
				continue
			}
			if heat < rule.heat || boil < rule.boil {
				t.Errorf("%s needs %v and %g minutes at the boil, the rules ask for %v and %g", f.Name, rule.heat, rule.boil, heat, boil)
			}
		}
	}
}

func hasAny(name, words string) bool {
	for _, w := range strings.Fields(words) {
		for _, n := range strings.Fields(name) {
			if n == w || n == w+"s" || n == w+"es" || strings.TrimSuffix(n, "'s") == strings.TrimSuffix(w, "'s") {
				return true
			}
		}
	}
	return false
}

func boiled(steps []Step) float64 {
	longest := 0.0
	for _, s := range steps {
		if s.boils() {
			longest = max(longest, s.Unattended)
		}
	}
	return longest
}

// Cooked food is heated right through or not at all; no technique here serves
// it cold, but for firm-boiled eggs out of the fridge.
func TestCookedFoodIsHeatedThrough(t *testing.T) {
	list := Default()
	n := 0
	for i := range food.Default().Foods() {
		for j := range list {
			s := Of(food.Default().Foods()[i], true)
			if fit, ok := list[j].Fit(s); ok {
				n++
				if fit.Heat < Through && !s.Is("cooked egg") {
					t.Errorf("cooked %s: %s is only %v", food.Default().Foods()[i].Name, fit.ID, fit.Heat)
				}
			}
		}
	}
	if n == 0 {
		t.Error("no technique for any cooked food")
	}
}

// A row that a cook adds cannot get round the rules, whatever it says.
func TestRulesHoldOverATableOfOnesOwn(t *testing.T) {
	raw := with("heat", "none", "steps", "slice|1+1|0|hands|", "main", "", "times", "", "how", "Slice.", "never", "",
		"suits", "chicken breast!;pork fillet!;dried kidney bean!;French bean!;potato!;salmon!;beef mince!;leek")
	quick := with("id", "quick", "title", "quick {food}", "heat", "boil", "suits", "French bean!;dried kidney bean!",
		"steps", "boil|1+0|3|ring|100", "main", "1", "times", "French bean 2", "how", "Boil {min} min.")
	list, err := Read("own.csv", strings.NewReader(table(raw, quick)))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range list[0].Suits {
		f, ok := food.Default().Food(s.What)
		if !ok {
			t.Fatalf("no food %q", s.What)
		}
		if _, ok := list[0].Fit(Of(f, false)); ok != (f.Name == "leek") {
			t.Errorf("%s raw: %v", f.Name, ok)
		}
	}
	for name, least := range map[string]float64{"French bean": 10, "dried kidney bean": 30} {
		f, _ := food.Default().Food(name)
		fit, ok := list[1].Fit(Of(f, false))
		if !ok || fit.Steps[0].Unattended != least || fit.MainMinutes(100) != least {
			t.Errorf("%s: boiled %v, %+v", name, ok, fit.Steps)
		}
	}
	if list[1].Steps[0].Unattended != 3 {
		t.Error("the technique itself was changed")
	}
}

func TestNeverIsNever(t *testing.T) {
	x := Technique{Suits: []Suit{{"leek", false}, {"allium", false}, {"potato", true}}, Heat: Boil, Main: -1,
		Never: []Never{{"allium", ""}, {"starchy root", "raw starch"}}, Steps: []Step{{What: "boil", Kit: "ring", Temp: 100}}}
	for name, want := range map[string]bool{"leek": true, "shallot": false, "potato": false, "carrot": false} {
		f, _ := food.Default().Food(name)
		if _, ok := x.Fit(Of(f, false)); ok != want {
			t.Errorf("%s: %v", name, ok)
		}
	}
}

func TestCooked(t *testing.T) {
	rice, _ := food.Default().Food("basmati rice")
	pepper, _ := food.Default().Food("roasted red pepper")
	for item, want := range map[string]bool{"cooked rice": true, "Leftover rice": true, "basmati rice": false} {
		if Cooked(rice, item) != want {
			t.Errorf("%s: not %v", item, want)
		}
	}
	if Cooked(pepper, "roasted red pepper") {
		t.Error("a roasted red pepper comes roasted")
	}
	wine, _ := food.Default().Food("red wine")
	if Cooked(wine, "leftover red wine") {
		t.Error("leftover wine is wine")
	}
	topside, _ := food.Default().Food("beef topside")
	if s := Of(topside, true); !Cooked(topside, "roast beef topside") || !s.Is("cooked meat") {
		t.Errorf("roast beef topside is %+v", s)
	}
	if s := Of(rice, true); s.Name != "" || !slices.Equal(s.Kinds, []string{"cooked rice"}) {
		t.Errorf("cooked rice is %+v", s)
	}
}
