package planner

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// seated makes a dish of a frame with so many grams of foods in its roles, and a kitchen
// that has them.
func seated(t *testing.T, frame string, roles [][2]string) (*kitchen, *dish) {
	t.Helper()
	f := frameCalled(frame)
	var stock []Stock
	for _, r := range roles {
		x, ok := food.Default().Food(r[1])
		if !ok {
			t.Fatalf("no food %s", r[1])
		}
		stock = append(stock, Stock{Item: x.Name, Food: x, Free: 500_000, Unit: x.Unit, Days: 4, Crate: true})
	}
	k := newKitchen(Ask{Stock: stock, Minutes: 90, Kit: DefaultKit(), Portions: 4})
	d := &dish{frame: f, number: slices.IndexFunc(technique.Frames(), func(o technique.Frame) bool { return o.ID == frame }), blend: -1, serves: 4}
	for _, r := range roles {
		at := f.Role(r[0])
		line := slices.IndexFunc(k.lines, func(l line) bool { return l.Food.Name == r[1] })
		if at < 0 || line < 0 {
			t.Fatalf("%s has no %s", frame, r[0])
		}
		d.parts = append(d.parts, part{line: line, role: at, grams: 300, amount: 300_000})
	}
	return k, d
}

func TestHeavy(t *testing.T) {
	for _, x := range []struct {
		frame string
		roles [][2]string
		want  bool
	}{
		{"dumpling-stew", [][2]string{{"body", "potato"}, {"body", "Jerusalem artichoke"}, {"base", "self-raising flour"}}, true},
		{"dumpling-stew", [][2]string{{"body", "potato"}, {"body", "carrot"}, {"base", "self-raising flour"}}, false},
		{"hash", [][2]string{{"base", "potato"}, {"base", "sweet potato"}}, false},
		{"blended-soup", [][2]string{{"base", "Jerusalem artichoke"}, {"body", "potato"}, {"crunch", "white bread"}}, false},
	} {
		if k, d := seated(t, x.frame, x.roles); k.isHeavy(d) != x.want {
			t.Errorf("%s of %v: heavy %v", x.frame, x.roles, !x.want)
		}
	}
}

// Meat on plain rice with a plain vegetable wants something that wets it.
func TestDry(t *testing.T) {
	for _, x := range []struct {
		frame string
		roles [][2]string
		want  bool
	}{
		{"rice-plate", [][2]string{{"star", "lamb loin chop"}, {"base", "basmati rice"}, {"green", "sugar snap pea"}}, true},
		{"rice-plate", [][2]string{{"star", "lamb loin chop"}, {"base", "basmati rice"}, {"green", "sugar snap pea"}, {"sauce", "natural yoghurt"}}, false},
		{"rice-plate", [][2]string{{"star", "lamb loin chop"}, {"base", "basmati rice"}, {"green", "leek"}}, false},
		{"hash", [][2]string{{"base", "potato"}, {"star", "hen's egg"}}, false},
	} {
		if k, d := seated(t, x.frame, x.roles); k.isDry(d) != x.want {
			t.Errorf("%s of %v: dry %v", x.frame, x.roles, !x.want)
		}
	}
}

func TestSaidAnyway(t *testing.T) {
	for _, x := range []struct{ names, want []string }{
		{[]string{"tinned tomato", "cherry tomatoes"}, []string{"cherry tomatoes"}},
		{[]string{"floury potato", "potato"}, []string{"floury potato"}},
		{[]string{"carrots", "leeks"}, []string{"carrots", "leeks"}},
		{[]string{"tinned tomato"}, []string{"tinned tomato"}},
	} {
		if got := saidAnyway(x.names); !slices.Equal(got, x.want) {
			t.Errorf("%q: %q", x.names, got)
		}
	}
}

// What waits in the pan waits no longer than it would hold on the plate.
func TestWaitsAsItHolds(t *testing.T) {
	steps := []Step{{Do: "steam covered", Kit: "ring", Temp: 100, HandsOn: 1}, {Do: "season", After: []int{0}}}
	for _, x := range []struct {
		holds []string
		want  int
	}{{[]string{"warm 8 min", "fridge 2 d"}, 8}, {[]string{"hot 60 min"}, onceHot}, {[]string{"serve now"}, atOnce}, {[]string{"fridge 1 d"}, onceHot}} {
		if got := waitOf(steps, 0, x.holds, true); got != x.want {
			t.Errorf("%v: waits %d, want %d", x.holds, got, x.want)
		}
	}
}

// Toast is made for the plate that it is for, under a dip that keeps too.
func TestToastWaitsForNobody(t *testing.T) {
	k, d := filledDish(t, "dip-plate", "base=white bread 300;sauce=tinned chickpea 500;green=kohlrabi 200;green=celery 200")
	for _, s := range k.steps(d) {
		if strings.HasPrefix(s.Do, "toast") && (s.Wait < 0 || s.Wait > atOnce) {
			t.Errorf("%q waits %d min", s.Do, s.Wait)
		}
	}
}

// Tinned pulses just heat, prawns are quick, and a bean that must boil boils.
func TestTimeOfTheFood(t *testing.T) {
	for _, x := range []struct {
		frame       string
		roles       [][2]string
		step        int
		least, most float64
	}{
		{"pulse-salad", [][2]string{{"base", "tinned white bean"}, {"star", "feta"}}, 0, 4, 7},
		{"pulse-salad", [][2]string{{"base", "green lentil"}, {"star", "feta"}}, 0, 22, 26},
		{"rice-plate", [][2]string{{"star", "prawn"}, {"base", "basmati rice"}}, 2, 4, 8},
		{"rice-plate", [][2]string{{"star", "sea bass"}, {"base", "basmati rice"}}, 2, 5, 9},
		{"warm-salad", [][2]string{{"green", "radicchio"}, {"star", "halloumi"}, {"base", "tinned chickpea"}}, 0, 4, 8},
		{"rice-plate", [][2]string{{"star", "chicken breast"}, {"base", "basmati rice"}}, 2, 11, 16},
		{"thin-pancake", [][2]string{{"body", "leek"}, {"star", "hen's egg"}, {"base", "plain flour"}}, 3, 9, 12},
		{"grain-salad", [][2]string{{"star", "duck egg"}, {"base", "bulgur wheat"}}, 2, 9, 13},
	} {
		k, d := seated(t, x.frame, x.roles)
		if got := k.inItsTime(d, x.step).Minutes(300); got < x.least || got > x.most {
			t.Errorf("%s of %v: %q takes %.1f min", x.frame, x.roles, d.frame.Steps[x.step].What, got)
		}
	}
}

// What is cut off and is dinner is told of with how the dish is made.
func TestPartsAreDinner(t *testing.T) {
	for star, want := range map[string]string{"leek": " Leek, dark greens: slice across, sweat 18 min.", "courgette": "", "cauliflower": " Cauliflower, leaf: oil, salt and roast till the edges crisp."} {
		k, d := seated(t, "gratin", [][2]string{{"base", star}, {"sauce", "double cream"}})
		if got := k.partOf(d); got != want {
			t.Errorf("%s: %q", star, got)
		}
	}
}

// No knife for what goes in as it is: the step falls away.
func TestNothingToCut(t *testing.T) {
	k, d := seated(t, "toast-plate", [][2]string{{"star", "tinned white bean"}, {"base", "white bread"}})
	for _, s := range k.named(d, k.steps(d)) {
		if knife.MatchString(s.Do) {
			t.Errorf("%q", s.Do)
		}
	}
	k, d = seated(t, "toast-plate", [][2]string{{"star", "courgette"}, {"base", "white bread"}})
	if s := k.named(d, k.steps(d))[0]; s.Do != "cut up what is large (courgette)" {
		t.Errorf("%q", s.Do)
	}
}

// A smooth soup has something crisp on it, got where none is held, and not a nut.
func TestCrunchIsThere(t *testing.T) {
	for _, id := range []string{"blended-soup", "cold-soup", "gratin", "wedge-plate", "grain-salad"} {
		f := frameCalled(id)
		r := &f.Roles[f.Role("crunch")]
		first, _ := food.Default().Food(r.Suits[0].What)
		if r.Least != 1 || first != nil && isOf(first, "nut") {
			t.Errorf("%s: crunch %d-%d, %q first", id, r.Least, r.Most, r.Suits[0].What)
		}
	}
}
