package planner

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

const full = ", turn the trays round half way"

// checkWays finds for each step, in its words, the step of the frame or of a technique that
// it is, or the row of the table of ways, and holds kit and minutes to that: minutes for
// some amount that the roles can hold.
func checkWays(a *PlanAsk, d *Planned) (wrong []string) {
	f := frameCalled(d.Frame)
	for i := range d.Steps {
		s := &d.Steps[i]
		ways := append([]PlanWay{{Do: s.Do, Minutes: s.Minutes, HandsOn: s.HandsOn, Kit: s.Kit, Temp: s.Temp, Shelves: s.Shelves}}, s.Else...)
		for n, w := range ways {
			if !isStepOf(a, f, d, &w) {
				wrong = append(wrong, fmt.Sprintf("%s: no row makes %q with %v for %d min, %d of hands", d.Title, w.Do, w.Kit, w.Minutes, w.HandsOn))
			}
			if n > 0 && slices.Equal(w.Kit, s.Kit) && w.Shelves == s.Shelves {
				wrong = append(wrong, fmt.Sprintf("%s: %q is another way of %q with the same kit", d.Title, w.Do, s.Do))
			}
			for _, k := range w.Kit {
				if a.Kit != nil && a.Kit[k] == 0 {
					wrong = append(wrong, fmt.Sprintf("%s: %q wants a %s that is not there", d.Title, w.Do, k))
				}
			}
		}
	}
	return wrong
}

func frameCalled(id string) *technique.Frame {
	list := technique.Frames()
	return &list[slices.IndexFunc(list, func(f technique.Frame) bool { return f.ID == id })]
}

func isStepOf(a *PlanAsk, f *technique.Frame, d *Planned, w *PlanWay) bool {
	do := strings.Replace(w.Do, full, "", 1)
	longest := 1.0
	if do != w.Do {
		longest = 1.25
	}
	if (do != w.Do) != (w.Shelves == 1) {
		return false
	}
	for i, s := range f.Steps {
		most := 0.0
		for _, r := range f.Handles[i] {
			most += f.Roles[r].Max * float64(a.Portions)
		}
		if isWayOf(f.ID, s, do, w, longest, max(most, 450)) {
			return true
		}
	}
	for _, x := range technique.Default() { // what stands beside it, whose minutes depend on the food
		for _, s := range x.Steps {
			if strings.HasSuffix(do, ")") && isWayOf(x.ID, s, do, w, 10, 300*float64(a.Portions)) {
				return true
			}
		}
	}
	return false
}

// isWayOf says whether a planned way is a step, or another way of it, for up to so many grams.
func isWayOf(id string, s technique.Step, do string, w *PlanWay, longest, most float64) bool {
	is := func(s technique.Step) bool {
		kit := ""
		if slices.Contains(technique.Scarce, s.Kit) {
			kit = s.Kit
		}
		low, high := s.Minutes(1), s.Hands(most)+longest*(s.Minutes(most)-s.Hands(most))
		if longest > 2 {
			low = 1
		}
		if s.Cooks() { // as doneness.csv has it
			high, low = max(high, s.Hands(most)+longestDone), min(low, 3)
		}
		if s.Heats() {
			high += 10 // another dish wants it hotter, and it is heated once
		}
		return isWordedSo(s.What, do) && strings.Join(w.Kit, "+") == kit &&
			float64(w.Minutes) >= math.Floor(min(low, 10))-2 && float64(w.Minutes) <= math.Ceil(high)+2 &&
			float64(w.HandsOn) <= math.Ceil(s.Hands(most))+1
	}
	if is(s) {
		return true
	}
	for i := range technique.Wordings() {
		if x := &technique.Wordings()[i]; x.Timed && x.Is(id, s) && is(x.Step(s)) {
			return true
		}
	}
	for n := range technique.Ways() {
		x := &technique.Ways()[n]
		if x.Kit == s.Kit && strings.Contains(s.What, x.Words) && (x.Of == nil || slices.Contains(x.Of, id)) && is(x.Step(s)) {
			return true
		}
	}
	return false
}

// isWordedSo says whether words are of a step of a frame, as any rows of the tables may have
// them, and with what it says of the minutes of the food in it.
func isWordedSo(what, do string) bool {
	if wordsOf(what).MatchString(do) {
		return true
	}
	if strings.Contains(do, noPink) {
		for _, was := range [][2]string{
			{" with what seasons " + noPink, " through with what seasons"}, {" in the oven " + noPink, " through in the oven"}, {noPink, "through"}, {noPink, "hot through"},
			{" " + noPink, ", hot right through"}, {noPink, clearJuice}, {", " + noPink, ""}, {" " + noPink, ""},
		} {
			if back := strings.Replace(do, was[0], was[1], 1); back != do && isWordedSo(what, back) {
				return true
			}
		}
		back := toldOfRaw.ReplaceAllString(do, "")
		return back != do && isWordedSo(what, back)
	}
	words, _, _ := strings.Cut(do, "; ")
	words, _, _ = strings.Cut(words, " (")
	rest := strings.TrimPrefix(do, words)
	for _, re := range tellsDone {
		for at := len(words); at > 0; {
			if at = strings.LastIndex(words[:at], ", "); at > 0 && re.MatchString(words[at:]) && isWordedSo(what, words[:at]+rest) {
				return true
			}
		}
	}
	return false
}

var toldOfRaw = regexp.MustCompile(`, the [^,;(]* ` + noPink)

var tellsDone = []*regexp.Regexp{
	regexp.MustCompile(`^.* in for the last \d+ min$`), regexp.MustCompile(`^.*\d+ min at least$`), regexp.MustCompile(`^, but not yet the .*$`), regexp.MustCompile(`^.*, in \d lots$`),
}

// longestDone is the most minutes that doneness.csv makes a step take.
const longestDone = 22

// checkTrays looks at what is in the oven together: trays of two dishes, or of a dish and
// what is beside it, take at least a tenth longer than the step's own minutes.
func checkTrays(p *Plan) (wrong []string) {
	type tray struct {
		*PlanStep
		of   string
		side bool
	}
	var list []tray
	for i := range p.Dishes {
		for s := range p.Dishes[i].Steps {
			if x := &p.Dishes[i].Steps[s]; slices.Contains(x.Kit, "oven") && !strings.HasPrefix(x.Do, "heat ") {
				list = append(list, tray{x, p.Dishes[i].Frame, isBeside(&p.Dishes[i], x)})
			}
		}
	}
	for i, x := range list {
		for j, y := range list {
			if i == j || x.Start+x.Minutes <= y.Start || y.Start+y.Minutes <= x.Start {
				continue
			}
			do := strings.Replace(x.Do, full, "", 1)
			for _, s := range frameCalled(x.of).Steps {
				if !x.side && s.Kit == "oven" && wordsOf(s.What).MatchString(do) && float64(x.Minutes-x.HandsOn) < 1.1*s.Unattended-1 {
					wrong = append(wrong, fmt.Sprintf("%s %q has %d min beside %s %q, alone it takes %.0f", x.ID, x.Do, x.Minutes, y.ID, y.Do, s.Unattended))
				}
			}
			if do == x.Do {
				wrong = append(wrong, fmt.Sprintf("%s %q does not say that %s %q is in too", x.ID, x.Do, y.ID, y.Do))
			}
		}
	}
	return wrong
}

// isBeside says whether a step is of what stands beside a dish.
func isBeside(d *Planned, s *PlanStep) bool {
	return slices.ContainsFunc(d.Uses, func(u Use) bool { return u.Role == "side" && strings.HasSuffix(s.Do, "("+u.Item+")") })
}

// isUsual says whether a step is done with the kit that its frame names.
func isUsual(d *Planned, s *PlanStep) bool {
	do := strings.Replace(s.Do, full, "", 1)
	return isBeside(d, s) || slices.ContainsFunc(frameCalled(d.Frame).Steps, func(f technique.Step) bool { return isWordedSo(f.What, do) })
}

// short is a service whose kit is short.
func short(r *rand.Rand, kit map[string]int) PlanAsk {
	a := PlanAsk{Stock: delivery(r, 12, 12), Dishes: 3, Portions: 4, Minutes: 45, Cooks: 2, Kit: DefaultKit()}
	for k, n := range kit {
		a.Kit[k] = n
	}
	return a
}

// TestPlansShortOfKit plans without some of the kit: each plan holds from the outside, and
// enough of them do what wants that kit another way.
func TestPlansShortOfKit(t *testing.T) {
	n := 20
	if testing.Short() {
		n = 12
	}
	for name, c := range map[string]struct {
		kit    map[string]int
		others int // steps that are done another way, of 30 services, at least
	}{
		"no kettle":    {map[string]int{"kettle": 0}, 15},
		"no oven":      {map[string]int{"oven": 0}, 1},
		"no grill":     {map[string]int{"grill": 0}, 0},
		"no blender":   {map[string]int{"blender": 0}, 1},
		"no microwave": {map[string]int{"microwave": 0}, 0},
		"one ring":     {map[string]int{"ring": 1}, 15},
		"no ring":      {map[string]int{"ring": 0}, 0},
	} {
		r := rand.New(rand.NewPCG(*seed, 50))
		others := 0
		for range n {
			a := short(r, c.kit)
			ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
			p, err := MakePlan(ctx, a, nil)
			cancel()
			if err != nil {
				continue
			}
			for _, wrong := range slices.Concat(checkTimes(&a, &p), checkTrays(&p)) {
				t.Errorf("%s: %s", name, wrong)
			}
			for d := range p.Dishes {
				for _, wrong := range slices.Concat(checkWays(&a, &p.Dishes[d]), checkWaits(&p.Dishes[d])) {
					t.Errorf("%s: %s", name, wrong)
				}
				for s := range p.Dishes[d].Steps {
					if !isUsual(&p.Dishes[d], &p.Dishes[d].Steps[s]) {
						others++
					}
				}
			}
		}
		t.Logf("%s: %d steps done another way", name, others)
		if others*30 < c.others*n {
			t.Errorf("%s: %d steps are done another way", name, others)
		}
	}
}

// Where there is time and kit, everything is done as usual.
func TestUsualWays(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 51))
	made := 0
	for range 20 {
		a := PlanAsk{Stock: delivery(r, 9, 8), Dishes: 2, Portions: 4, Minutes: 120, Cooks: 2}
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err != nil {
			continue
		}
		made++
		for d := range p.Dishes {
			for s := range p.Dishes[d].Steps {
				if x := &p.Dishes[d].Steps[s]; !isUsual(&p.Dishes[d], x) {
					t.Errorf("%s: %q with %v, and there is time", p.Dishes[d].Title, x.Do, x.Kit)
				}
			}
		}
	}
	if made < 10 {
		t.Errorf("only %d plans", made)
	}
}

// Other ways depend on amounts so much that hundreds of choices were in time by the amounts
// that times are reckoned for, and none with those that they got: each was tried.
func TestFewMisses(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 77))
	var a PlanAsk
	for range 51 {
		a = anyPlan(r)
	}
	a.Kit = DefaultKit()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	m := &menu{kitchen: newKitchen(Ask{Stock: a.Stock, Minutes: a.Minutes, Kit: a.Kit, Portions: a.Portions, Needs: a.Needs}), ask: &a}
	if !m.weigh() {
		t.Fatal("no crate")
	}
	m.list()
	if _, err := m.choose(ctx); err != nil {
		t.Error(err)
	}
	n := len(m.unfit)
	t.Logf("%d choices were not in time with what they got", n)
	if n > 40 {
		t.Error("so many were tried")
	}
}

// dishOf is a dish of a frame of a food or two, as a kitchen with some kit has it.
func dishOf(t *testing.T, kit map[string]int, frame string, grams float64, foods map[string]string) (*kitchen, *plate) {
	t.Helper()
	k := newKitchen(Ask{Kit: kit, Minutes: 200})
	number := slices.IndexFunc(technique.Frames(), func(f technique.Frame) bool { return f.ID == frame })
	x := &plate{dish: dish{frame: &technique.Frames()[number], number: number, blend: -1, serves: 4}, portions: 4}
	for _, role := range x.frame.Roles {
		if name := foods[role.Name]; name != "" {
			f, ok := food.Default().Food(name)
			if !ok {
				t.Fatalf("no food %q", name)
			}
			s := &Stock{Item: name, Food: f, Free: 5_000_000, Unit: f.Unit, Crate: true, Days: 3}
			x.parts = append(x.parts, part{line: len(k.lines), role: x.frame.Role(role.Name), grams: grams})
			k.lines = append(k.lines, line{Stock: s, known: knownOf(f, false)})
		}
	}
	return k, x
}

// What is not wanted is no other way either.
func TestWaysWithout(t *testing.T) {
	k, x := dishOf(t, map[string]int{"oven": 1}, "rice-plate", 500, map[string]string{"star": "chicken breast"})
	k.without = append(k.without, cookedBy["roast"])
	for _, s := range k.steps(&x.dish) {
		if strings.Contains(s.Do, "roast") {
			t.Errorf("nothing roast, please: %q", s.Do)
		}
	}
}

// A step is done another way only with food that bears it, and with kit that is there.
func TestWaysOfADish(t *testing.T) {
	with := func(kit ...string) map[string]int {
		m := map[string]int{"ring": 0, "oven": 0, "grill": 0, "microwave": 0, "kettle": 0, "blender": 0}
		for _, k := range kit {
			m[k] = 1
		}
		return m
	}
	for name, c := range map[string]struct {
		kit   map[string]int
		frame string
		foods map[string]string
		grams float64
		do    string // of the step
		is    string // its kit
	}{
		"water in a pan":            {with("ring"), "noodle-bowl", map[string]string{"base": "egg noodle"}, 300, "bring a pan of water to the boil", "ring"},
		"roots in the microwave":    {with("grill", "microwave"), "pan-plate", map[string]string{"base": "potato", "star": "salmon"}, 700, "cut up what is large, steam the potato under a lid in the microwave, a spoon of water to it", "microwave"},
		"too much for a microwave":  {with("grill", "microwave"), "pan-plate", map[string]string{"base": "potato", "star": "salmon"}, 1200, "cut up what is large, boil the potato", "ring"},
		"tinned beans just warm":    {with("microwave"), "pan-plate", map[string]string{"base": "tinned white bean"}, 700, "warm the tinned white beans through under a lid in the microwave", "microwave"},
		"French beans need to boil": {with("microwave"), "warm-salad", map[string]string{"base": "French bean"}, 300, "cut up what is large, boil the French beans", "ring"},
		"fish under the grill":      {with("grill"), "rice-plate", map[string]string{"star": "cod"}, 500, "grill the cod through, turn once, let rest", "grill"},
		"prawns stay in the pan":    {with("grill", "oven"), "rice-plate", map[string]string{"star": "prawn"}, 500, "fry the prawn hard in lots, until opaque right through", "ring"},
		"chicken in the oven":       {with("oven", "grill"), "rice-plate", map[string]string{"star": "chicken breast"}, 500, "roast the chicken breast in the oven until no pink is left and the juices run clear, let rest", "oven"},
		"chicken in no microwave":   {with("microwave"), "rice-plate", map[string]string{"star": "chicken breast"}, 500, "fry the chicken breast until no pink is left and the juices run clear, let rest", "ring"},
		"a potato without an oven":  {with("microwave", "ring"), "filled-potato", map[string]string{"base": "potato"}, 1000, "finish in the microwave", "microwave"},
		"mashed by hand":            {with("ring"), "dip-plate", map[string]string{"sauce": "tinned chickpea"}, 600, "mash the dip with a fork with oil and acid (tinned chickpeas)", ""},
		"a braise on the ring":      {with("ring"), "braise-plate", map[string]string{"star": "stewing beef"}, 700, "lay the stewing beef in, cover, lowest heat on the ring, stir now and then", "ring"},
	} {
		t.Run(name, func(t *testing.T) {
			k, x := dishOf(t, c.kit, c.frame, c.grams, c.foods)
			steps := k.named(&x.dish, k.steps(&x.dish))
			at := slices.IndexFunc(steps, func(s Step) bool { return s.Do == c.do })
			if at < 0 {
				var list []string
				for _, s := range steps {
					list = append(list, s.Do)
				}
				t.Fatalf("no %q in %q", c.do, list)
			}
			if steps[at].Kit != c.is {
				t.Errorf("%q with %q, not %q", c.do, steps[at].Kit, c.is)
			}
			for _, s := range steps {
				if s.heats() && c.kit["oven"] == 0 {
					t.Errorf("%q, and there is none", s.Do)
				}
			}
		})
	}
}

// Trays of two dishes share an oven at the longer time, and a dish that has the oven to
// itself takes its own.
func TestTrays(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 52))
	together, alone := 0, 0
	for range 40 {
		a := PlanAsk{Stock: delivery(r, 14, 12), Dishes: 3, Portions: 4, Minutes: 75, Cooks: 3, Without: []string{"fry", "soup", "salad", "cold plate", "noodle", "stew"}}
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err != nil {
			continue
		}
		for _, wrong := range slices.Concat(checkTrays(&p), checkTimes(&a, &p)) {
			t.Error(wrong)
		}
		for _, d := range p.Dishes {
			for _, s := range d.Steps {
				switch s.Shelves {
				case 1:
					together++
				case shelves:
					alone++
				}
			}
		}
	}
	if together == 0 || alone == 0 {
		t.Errorf("%d steps beside other trays, %d alone", together, alone)
	}
	t.Logf("%d steps beside other trays, %d alone", together, alone)
}
