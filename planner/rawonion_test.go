package planner

import (
	"testing"

	"scullion/planner/technique"
)

// Raw onions season a salad: 25 g a portion of one of them, and they are not its vegetable. With
// no other held there is no salad.
func TestRawOnionsSeason(t *testing.T) {
	cupboard := ";olive oil 500;table salt 500;black pepper 50;cider vinegar 300;dijon mustard 100;tinned chickpea 800;tinned white bean 800;walnut 400;bulgur wheat 900;basmati rice 900;garlic 100"
	held := 0
	for _, c := range []struct {
		stock string
		salad bool
	}{
		{"duck egg 1400;spring onion 900;shallot 900", false},
		{"hen's egg 1400;spring onion 900;red onion 900;flat-leaf parsley 100", false},
		{"hen's egg 1400;spring onion 900;red onion 900;cucumber 900;tomato 900", true},
		{"duck egg 1400;spring onion 900;shallot 900;radish 900", true},
	} {
		a := PlanAsk{Stock: stockOf(t, c.stock+cupboard), Dishes: 1, Portions: 4, Minutes: 90, Cooks: 2, Kit: DefaultKit()}
		k := newKitchen(Ask{Stock: a.Stock, Minutes: 90, Kit: a.Kit, Portions: 4})
		got := false
		for _, x := range k.plates(&a) {
			if x.frame.Family != "salad" {
				continue
			}
			got = true
			most := 0.0
			for _, w := range x.draws {
				l := &k.lines[w.line]
				if w.part >= 0 && isOf(l.Food, "allium") && x.parts[w.part].role >= 0 && x.frame.Roles[x.parts[w.part].role].Heat == technique.None {
					most += w.most
				}
			}
			if held++; most > 25*4+1 {
				t.Errorf("%s of %s: %.0f g of raw onion for four", x.frame.ID, c.stock, most)
			}
		}
		if got != c.salad {
			t.Errorf("%s: a salad %v", c.stock, got)
		}
	}
	if held < 5 {
		t.Errorf("%d salads: the test tests nothing", held)
	}
}
