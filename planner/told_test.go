package planner

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// filledDish fills a frame with "star=prawn 400;green=celery 200", for four. What stands in no
// role, "=garlic", is a seasoning.
func filledDish(t *testing.T, frame, filled string) (*kitchen, *dish) {
	t.Helper()
	f := frameByID(frame)
	d := &dish{frame: f, blend: -1, serves: 4}
	for i := range technique.Frames() {
		if technique.Frames()[i].ID == frame {
			d.number = i
		}
	}
	a := Ask{Kit: DefaultKit(), Minutes: 90, Portions: 4}
	var roles []string
	for _, x := range strings.Split(filled, ";") {
		role, what, _ := strings.Cut(x, "=")
		at := strings.LastIndex(what, " ")
		known, ok := food.Default().Food(what[:at])
		if !ok {
			t.Fatalf("no food is %q", what[:at])
		}
		grams := 0.0
		fmt.Sscan(what[at:], &grams)
		roles = append(roles, role)
		a.Stock = append(a.Stock, Stock{Item: strings.ToLower(known.Name), Food: known, Free: measure.Amount(grams * 1000), Unit: known.Unit, Crate: true, Days: 2})
	}
	k := newKitchen(a)
	for i, role := range roles {
		l := &k.lines[i]
		if role == "" {
			d.staples = append(d.staples, seasoning{Staple: technique.Staple{Names: []string{l.Food.Name}, Amount: l.Free / 4, Unit: l.Unit}, line: i})
			continue
		}
		d.parts = append(d.parts, part{line: i, role: f.Role(role), grams: l.edible(), amount: l.Free})
	}
	return k, d
}

// A step is told, and timed, for the food that is in it: delicate seafood goes in last and is
// done in minutes, what comes out of a tin is only made hot, nobody washes the leaves of
// celery, and no garlic goes over bread where there is none.
func TestToldForTheFood(t *testing.T) {
	for _, c := range []struct {
		frame, filled string
		want          string // is told
		never         string // is not
		most          float64
	}{
		{"warm-salad", "star=prawn 600;green=celery 300;base=potato 400", "fry the prawns? hard in lots", "large things", 7},
		{"warm-salad", "star=crab meat 500;green=rocket 200;base=potato 400", "warm the crab meat until steaming", "fry", 5},
		{"warm-salad", "star=hen's egg 480;green=rocket 200;base=potato 400", "boil the hen's eggs hard", "fry the", 13},
		{"warm-salad", "star=prawn 600;green=celery 300;base=potato 400", "wash and slice the celery thin", "leaves", 9},
		{"leaf-salad", "green=rocket 200;green=fennel bulb 200;body=radish 300", "wash and dry the rocket, slice the fennel bulbs? thin", "leaves", 9},
		{"sauced-pasta", "base=penne 360;body=kale 600;season=brown onion 80;star=scallop 300", "scallops? in for the last 3 min", "", 0},
		{"sauced-pasta", "base=penne 360;body=butternut squash 600;season=brown onion 80;star=lobster 300", "lobsters? in for the last 3 min", "", 0},
		{"sauced-pasta", "base=penne 360;body=kale 600;season=brown onion 80;star=crab meat 300", "crab meat in at the end until steaming", "", 0},
		{"sauced-pasta", "base=penne 360;body=leek 300;body=asparagus 300;season=brown onion 80", "cook the leeks? with what seasons, wide pan, asparagus in for the last 4 min", "", 0},
		{"sauced-pasta", "base=penne 360;body=tinned white bean 500;season=brown onion 80", "tinned white beans in until hot through", "", 8},
		{"pulse-salad", "base=tinned chickpea 600;star=prawn 400;body=cherry tomato 400", "fry the prawns? hard in lots", "", 6},
		{"grain-salad", "base=bulgur wheat 250;star=tinned chickpea 500;body=cucumber 300;crunch=walnut 50", "fry the tinned chickpeas until hot through", "", 6},
		{"toast-plate", "base=white bread 320;star=tinned white bean 600", "fry the tinned white beans until hot through", "", 6},
		{"toast-plate", "base=white bread 320;star=button mushroom 600", "^toast the bread$", "garlic", 0},
		{"toast-plate", "base=white bread 320;star=button mushroom 600;=garlic 4", "garlic over it", "", 0},
		{"toast-plate", "base=white bread 320;star=button mushroom 600", "^pile on$", "sharpen", 0},
		{"filled-flatbread", "base=pitta bread 320;star=hen's egg 480;green=rocket 300;sauce=natural yoghurt 120", "beat the hen's eggs, scramble until set", "cut, spice", 5},
		{"filled-flatbread", "base=pitta bread 320;star=butternut squash 480;green=rocket 300;sauce=natural yoghurt 120", "cut and cook the filling through", "spice", 0},
		{"filled-flatbread", "base=pitta bread 320;star=tinned chickpea 480;green=rocket 300;sauce=natural yoghurt 120", "cook the tinned chickpeas hot through", "spice", 6},
		{"pulse-pot", "base=tinned chickpea 500;body=carrot 500;season=brown onion 120", "add the tinned chickpeas, (stock|water), simmer", "steady boil", 15},
		{"pulse-pot", "base=brown lentil 300;body=carrot 500;season=brown onion 120", "keep a steady boil", "", 0},
		{"coconut-curry", "base=basmati rice 260;star=prawn 600;sauce=coconut milk 400;season=brown onion 120", "prawns? in for the last 4 min", "", 0},
		{"soft-polenta", "base=polenta 200;star=tinned chickpea 600", "fry the tinned chickpeas until hot through", "", 6},
		{"soft-polenta", "base=polenta 200;star=leek 400;star=prawn 300", "prawns? in for the last 3 min", "", 0},
		{"pilaf", "base=basmati rice 300;body=leek 400;star=prawn 300;season=brown onion 120", "lid on, low, prawns? on top for the last 5 min", "brown the prawn|fry the prawn", 0},
		{"pilaf", "base=basmati rice 300;body=broad bean 400;season=brown onion 120", "broad beans? on top for the last 10 min", "brown (in|the)", 0},
		{"grill-plate", "base=white bread 300;star=prawn 600;green=cucumber 400", "2 min a side", "", 12},
		{"dip-plate", "base=white bread 300;sauce=ricotta 500;green=little gem lettuce 200;green=kohlrabi 200", "cut the kohlrabis? to sticks, part the little gem lettuces? into leaves", "garlic", 0},
		{"fritter-plate", "star=spinach 700;green=radicchio 200", "scald the spinach", "grate", 0},
		{"fruit-compote", "sweet=pear 600;sauce=double cream 300", "peel, core and cut the pears?", "stone", 0},
		{"fruit-plate", "sweet=greengage 600;sauce=double cream 300", "wash, stone and cut the greengages?", "peel|acid", 0},
		{"milk-pudding", "base=porridge oats 120;body=whole milk 700;sweet=cooking apple 300", "peel, core and cut the cooking apples?", "", 0},
	} {
		k, d := filledDish(t, c.frame, c.filled)
		var all []string
		found := false
		for _, s := range k.named(d, k.steps(d)) {
			all = append(all, s.Do)
			if regexp.MustCompile(c.want).MatchString(s.Do) {
				found = true
				if took := math.Ceil(s.Minutes - 0.5); c.most > 0 && took > c.most {
					t.Errorf("%s of %s: %q takes %.0f min", c.frame, c.filled, s.Do, took)
				}
			}
			if c.never != "" && regexp.MustCompile(c.never).MatchString(s.Do) {
				t.Errorf("%s of %s: %q", c.frame, c.filled, s.Do)
			}
		}
		if !found {
			t.Errorf("%s of %s: no step is %q of %q", c.frame, c.filled, c.want, all)
		}
	}
}
