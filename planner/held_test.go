package planner

import (
	"fmt"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Kit that is not there is not held by anybody: an oven that is said to be busy and that the
// kitchen has not keeps no dish from being made.
func TestBusyKitThatIsNotThere(t *testing.T) {
	a := PlanAsk{Stock: stockOf(t, "button mushroom 600;penne 600;olive oil 500;table salt 500;garlic 50;brown onion 300"), Dishes: 1, Portions: 4, Minutes: 60, Cooks: 2, Kit: DefaultKit()}
	delete(a.Kit, "oven")
	for _, busy := range [][]Busy{nil, {{"oven", 0, 15}}} {
		a.Busy = busy
		if p, err := MakePlan(t.Context(), a, nil); err != nil || len(p.Dishes) != 1 {
			t.Errorf("busy %v: %d dishes, %v", busy, len(p.Dishes), err)
		}
	}
}

// What a table may not have of a little that a dish can do without, or do with water for,
// costs it no dish: stock that may hold gluten, mustard in a dressing.
func TestNeedsLeaveOutALittle(t *testing.T) {
	a := PlanAsk{Stock: stockOf(t, "leek 600;sugar snap pea 300;basmati rice 600;olive oil 500;table salt 500;garlic 50;brown onion 300;vegetable stock 1000;flat-leaf parsley 60;lemon 300"),
		Dishes: 1, Portions: 4, Minutes: 60, Cooks: 2, Needs: Needs{Avoid: []string{"gluten cereals"}}}
	p, err := MakePlan(t.Context(), a, nil)
	if err != nil || len(p.Dishes) != 1 {
		t.Fatalf("%d dishes, %v", len(p.Dishes), err)
	}
	for _, s := range p.Dishes[0].Steps {
		if strings.Contains(s.Do, "stock") {
			t.Errorf("%s: %q", p.Dishes[0].Title, s.Do)
		}
	}
}

// Toast wants bread that is held; where there is none, no dish stands on it.
func TestBreadThatCarriesIsHeld(t *testing.T) {
	with := "button mushroom 900;tinned white bean 900;olive oil 500;table salt 500;garlic 50;flat-leaf parsley 60;lemon 300;rocket 300;natural yoghurt 500"
	for _, c := range []struct {
		bread string
		want  bool
	}{{"", false}, {";sourdough bread 600", true}} {
		a := PlanAsk{Stock: stockOf(t, with+c.bread), Dishes: 1, Portions: 4, Minutes: 30, Cooks: 2}
		k := newKitchen(Ask{Stock: a.Stock, Minutes: 30, Kit: DefaultKit(), Portions: 4})
		a.Kit = DefaultKit()
		found := false
		for _, x := range k.plates(&a) {
			if isBread(x.frame) {
				found = true
				for _, m := range k.dishMissing(&x.dish) {
					if strings.Contains(m, "bread") || strings.Contains(m, "tortilla") {
						t.Errorf("%s is missing %s", x.frame.ID, m)
					}
				}
			}
		}
		if found != c.want {
			t.Errorf("with %q: toast %v", c.bread, found)
		}
	}
}

// stockOf is a crate of "leek 600;rocket 200".
func stockOf(t *testing.T, items string) (list []Stock) {
	t.Helper()
	for _, x := range strings.Split(items, ";") {
		at := strings.LastIndex(x, " ")
		f, ok := food.Default().Food(x[:at])
		if !ok {
			t.Fatalf("no food is %q", x[:at])
		}
		grams := 0.0
		fmt.Sscan(x[at:], &grams)
		list = append(list, Stock{Item: strings.ToLower(f.Name), Food: f, Free: measure.Amount(grams * 1000), Unit: f.Unit, Crate: f.Shelf == food.Crate, Days: 3})
	}
	return list
}

// What goes brown once it is cut does not lie long; what does not, may.
func TestCutLate(t *testing.T) {
	for food, want := range map[string]int{"avocado": onceCut, "cucumber": -1} {
		k, d := filledDish(t, "grain-salad", "base=bulgur wheat 250;star=tinned chickpea 500;crunch=walnut 50;body="+food+" 300")
		for _, s := range k.steps(d) {
			if strings.HasPrefix(s.Do, "cut the raw things") && s.Wait != want {
				t.Errorf("%s: cut %d min ahead", food, s.Wait)
			}
		}
	}
}
