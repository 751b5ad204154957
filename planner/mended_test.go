package planner

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// What was told wrongly once: cheese in the pan, vinegar on the toast, an egg that is beaten with
// garlic, beans that are topped and tailed instead of podded.
func TestToldAsACookWould(t *testing.T) {
	for _, c := range []struct {
		frame, filled string
		want, never   string // in all the steps, parted by " / "
	}{
		{"pulse-salad", "base=tinned chickpea 600;star=camembert 330;body=celery 300", "camembert", "cook the camembert"},
		{"warm-salad", "green=fennel bulb 300;star=goat's cheese 400;base=tinned chickpea 500", "goat's cheese over it in pieces", "fry the goat's cheese"},
		{"baked-eggs", "star=hen's egg 348;body=tinned tomato 480;season=gruyère 100;base=white bread 240", "simmer the tinned tomato.*grate the gruyère over it", "dry"},
		{"folded-omelette", "star=hen's egg 480;body=ricotta 300", "fill and fold, one to each plate.*ricotta", "cook the filling"},
		{"folded-omelette", "star=hen's egg 480;body=crab meat 300", "warm the crab meat until steaming", "no juice"},
		{"hash", "base=potato 800;season=brown onion 120;star=feta 240", "feta over it in pieces", "fry what goes on top"},
		{"hash", "base=potato 800;season=brown onion 120;star=halloumi 240", "fry what goes on top.*halloumi", ""},
		{"set-omelette", "star=hen's egg 480;body=leek 500;season=brown onion 60", "fry the leeks? dry and tender, brown onions? with it / beat the eggs /", "beat the eggs with"},
		{"set-omelette", "star=hen's egg 480;body=leek 500;season=gruyère 100", "beat the eggs with gruyère", "fry the leeks? dry and tender, gru"},
		{"rice-plate", "star=halloumi 400;base=basmati rice 260;green=kale 400", "fry the halloumi golden", "let rest"},
		{"rice-plate", "star=salmon 500;base=basmati rice 260;green=garden pea 400", "rinse the garden peas", "trim"},
		{"roast-plate", "star=chicken drumstick 800;base=basmati rice 260;green=mangetout 400", "rest the chicken drumsticks? /", ""},
		{"dry-spice-fry", "star=cauliflower 800;season=brown onion 120;base=crusty roll 300", "toast them in a dry pan", "warm the breads"},
		{"grill-plate", "star=sirloin steak 600;green=carrot 500;base=white bread 300", "shave or grate the carrots?", "cut and dress"},
		{"fruit-plate", "sweet=grape 600;sauce=greek yoghurt 300", "pick them off the stalk", "peel"},
		{"pilaf", "base=basmati rice 300;body=courgette 400;star=paneer 300;season=brown onion 120", "fry the paneer through.*paneer back in", ""},
		{"pilaf", "base=basmati rice 300;body=broad bean 400;season=brown onion 120", "broad beans? on top for the last 10 min", "cut up what is large"},
		{"leaf-salad", "green=rocket 200;body=beetroot 300", "shave or grate the beetroots?", "slice"},
		{"sauced-pasta", "base=penne 360;body=leek 300;body=asparagus 300;body=garden pea 150;season=brown onion 80", "asparagus and garden peas in for the last 4 min|garden peas and asparagus in for the last 4 min", "last 7 min"},
		{"thin-pancake", "base=plain flour 220;body=leek 600", "flour, egg and milk", ""},
	} {
		k, d := filledDish(t, c.frame, c.filled)
		var all []string
		for _, s := range k.named(d, k.steps(d)) {
			all = append(all, s.Do)
		}
		said := strings.Join(all, " / ") + " /"
		if !regexp.MustCompile(c.want).MatchString(said) {
			t.Errorf("%s of %s: no %q in %q", c.frame, c.filled, c.want, said)
		}
		if c.never != "" && regexp.MustCompile(c.never).MatchString(said) {
			t.Errorf("%s of %s: %q in %q", c.frame, c.filled, c.never, said)
		}
	}
}

// In no frame does cheese that melts lie in a pan to be fried, whatever role it has.
func TestNoMeltingCheeseInThePan(t *testing.T) {
	n := 0
	for _, name := range []string{"camembert", "goat's cheese", "cottage cheese", "Parmesan", "Gruyère", "mature cheddar", "feta", "gorgonzola", "mozzarella", "ricotta"} {
		x, _ := food.Default().Food(name)
		inEachRole(t, x, func(f *technique.Frame, role *technique.FrameRole, _ *kitchen, _ *dish, steps []Step) {
			n++
			for _, s := range steps {
				if isPan(&f.Steps[s.at]) && strings.Contains(s.Do, strings.ToLower(name)) && !strings.Contains(s.Do, "over it") {
					t.Errorf("%s as %s of %s: %q", name, role.Name, f.ID, s.Do)
				}
			}
			if !slices.ContainsFunc(steps, func(s Step) bool { return strings.Contains(s.Do, strings.ToLower(name)) }) {
				t.Errorf("%s as %s of %s: no step names it", name, role.Name, f.ID)
			}
		})
	}
	if n < 30 {
		t.Errorf("%d dishes: the test tests nothing", n)
	}
}

// What makes a finish goes in with the last of the dish, not with its toast, and vinegar is not
// chopped.
func TestFinishStaysTogether(t *testing.T) {
	for _, c := range []struct{ frame, filled, palette, want, never string }{
		{"baked-eggs", "star=hen's egg 348;body=tinned tomato 480;base=white bread 240;=garlic 12;=red wine vinegar 16", "paprika-garlic", "bake until set; red wine vinegar over it at the table", "toast the bread \\("},
		{"toast-plate", "base=white bread 320;star=tinned white bean 600;=garlic 4;=cider vinegar 24;=flat-leaf parsley 24", "lemon-parsley", "chop garlic and flat-leaf parsley", "chop cider vinegar"},
		{"pulse-pot", "base=tinned chickpea 500;body=carrot 500;season=brown onion 120;=red onion 60;=sumac 6;=flat-leaf parsley 24;=lemon 30", "sumac-onion", "toss .*raw red onion in thin slices.* together", ""},
		{"warm-salad", "star=kabocha squash 600;green=rocket 200;base=tinned chickpea 500;=garlic 8;=smoked paprika 4;=dried oregano 2", "paprika-garlic", "through, large things cut 10 mm; garlic, smoked paprika and dried oregano in for the last minute", "\\(garlic"},
		{"baked-pasta", "base=penne 300;body=vegetable marrow 600;sauce=whole milk 480;season=Gruyère 80;=lime 60;=black olive 48", "olive-oregano", "lime", ""},
	} {
		k, d := filledDish(t, c.frame, c.filled)
		for i := range theBook().blends {
			if theBook().blends[i].ID == c.palette {
				d.blend, d.palette = i, theBook().blends[i].Palette
			}
		}
		var all []string
		for _, s := range k.named(d, k.steps(d)) {
			all = append(all, s.Do)
		}
		said := strings.Join(all, " / ")
		if !regexp.MustCompile(c.want).MatchString(said) {
			t.Errorf("%s: no %q in %q", c.filled, c.want, said)
		}
		if c.never != "" && regexp.MustCompile(c.never).MatchString(said) {
			t.Errorf("%s: %q in %q", c.filled, c.never, said)
		}
	}
}

// What stands beside a dish is told for its food too: broad beans are podded.
func TestSidesAreToldForTheFood(t *testing.T) {
	for _, c := range []struct{ side, item, want string }{
		{"boil-beans", "broad bean", "pod"}, {"boil-beans", "French bean", "top and tail"},
		{"pan-greens", "Brussels sprout", "trim and shred"}, {"pan-greens", "kale", "strip ribs and shred"},
	} {
		k, d := filledDish(t, "grill-plate", "star=salmon 600;green=cucumber 400;base=white bread 300;green="+c.item+" 400")
		last := &d.parts[len(d.parts)-1]
		last.role = beside
		l := &k.lines[last.line]
		for i := range l.fits {
			if l.fits[i].ID == c.side {
				d.side = &l.fits[i]
			}
		}
		if d.side == nil {
			t.Fatalf("%s is no side of %s", c.side, c.item)
		}
		found := false
		for _, s := range k.sideSteps(d, 0) {
			found = found || strings.HasPrefix(s.Do, c.want+" (")
		}
		if !found {
			t.Errorf("%s of %s: no step is %q", c.side, c.item, c.want)
		}
	}
}

// Where nothing fried is wanted, no step of any dish fries or browns in oil, whatever its frame
// says.
func TestNothingFriedIsNothingFried(t *testing.T) {
	a := PlanAsk{Stock: stockOf(t, "courgette 400;hen's egg 348;paneer 300;button mushroom 400;butternut squash 500;french bean 400;brown onion 300;garlic 50;lemon 200;basmati rice 600;penne 600;tinned chickpea 800;olive oil 500;table salt 500;vegetable stock 1000;walnut 200;spinach 400;white bread 600"),
		Dishes: 2, Portions: 2, Minutes: 60, Cooks: 2, Without: []string{"fried"}, Kit: DefaultKit()}
	k := newKitchen(Ask{Stock: a.Stock, Minutes: a.Minutes, Kit: a.Kit, Portions: a.Portions})
	k.without = append(k.without, cookedBy["fried"])
	list := k.plates(&a)
	for i := range list {
		d := &list[i].dish
		for _, s := range k.named(d, k.steps(d)) {
			if regexp.MustCompile(`\bfr(y|ied)\b|, brown .*in (oil|fat|butter)`).MatchString(s.Do) {
				t.Fatalf("%s: %q", d.frame.ID, s.Do)
			}
		}
	}
	if len(list) < 10 {
		t.Errorf("%d dishes: the test tests nothing", len(list))
	}
}

// Noodles, the bread of a dip, and the eggs of a batter are held where a dish stands on them, and
// onions make no plate of their own.
func TestWhatCarriesIsHeld(t *testing.T) {
	cupboard := ";olive oil 500;table salt 500;black pepper 50;cider vinegar 300;sesame oil 200;soy sauce 300;dijon mustard 100;honey 200;tinned chickpea 800;plain flour 900;caster sugar 500;dried oregano 20;paprika 30;walnut 200;basmati rice 900"
	for _, c := range []struct {
		stock, frame string
		want         bool
	}{
		{"king prawn 500;carrot 500;mangetout 500;garlic 50", "noodle-salad", false},
		{"king prawn 500;carrot 500;mangetout 500;garlic 50;rice noodle 600", "noodle-salad", true},
		{"ricotta 600;celery 500;fennel bulb 500", "dip-plate", false},
		{"ricotta 600;celery 500;fennel bulb 500;pitta bread 400", "dip-plate", true},
		{"leek 900;chestnut mushroom 500;unsalted butter 250;whole milk 1000;garlic 50", "thin-pancake", false},
		{"leek 900;chestnut mushroom 500;unsalted butter 250;whole milk 1000;hen's egg 348;garlic 50", "thin-pancake", true},
		{"brown onion 900;white onion 900;paneer 400;lemon 200;garlic 50", "tray-roast", false},
		{"brown onion 900;carrot 900;parsnip 900;paneer 400;lemon 200;garlic 50", "tray-roast", true},
	} {
		a := PlanAsk{Stock: stockOf(t, c.stock+cupboard), Dishes: 1, Portions: 4, Minutes: 90, Cooks: 2, Kit: DefaultKit()}
		k := newKitchen(Ask{Stock: a.Stock, Minutes: 90, Kit: a.Kit, Portions: 4})
		got := false
		for _, x := range k.plates(&a) {
			if x.frame.ID == c.frame {
				got = true
			}
		}
		if got != c.want {
			t.Errorf("%s of %s: %v", c.frame, c.stock, got)
		}
	}
}

// Fish that is eaten as it comes is in no pan to be fried, in no frame, and goes in off the heat.
func TestReadyFishIsNotFried(t *testing.T) {
	n := 0
	for _, name := range []string{"smoked salmon", "smoked mackerel", "tinned tuna in oil", "tinned sardine", "tinned salmon"} {
		x, _ := food.Default().Food(name)
		inEachRole(t, x, func(f *technique.Frame, role *technique.FrameRole, k *kitchen, _ *dish, steps []Step) {
			n++
			told := false
			for _, s := range steps {
				in := tellsOf(s.Do, &k.lines[slices.IndexFunc(k.lines, func(l line) bool { return l.Food == x })])
				told = told || in
				if isPan(&f.Steps[s.at]) && strings.Contains(s.Do, name) && f.ID != "patty-plate" {
					t.Errorf("%s as %s of %s: %q", name, role.Name, f.ID, s.Do)
				}
			}
			if !told {
				t.Errorf("%s as %s of %s: no step names it", name, role.Name, f.ID)
			}
		})
	}
	if n < 10 {
		t.Errorf("%d dishes: the test tests nothing", n)
	}
	k, d := filledDish(t, "sauced-pasta", "base=penne 360;body=green pepper 500;season=shallot 80;star=smoked salmon 240")
	var all []string
	for _, s := range k.named(d, k.steps(d)) {
		all = append(all, s.Do)
	}
	if said := strings.Join(all, " / "); !strings.Contains(said, "off the heat, fold the smoked salmon in") {
		t.Errorf("%q", said)
	}
}
