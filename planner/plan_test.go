package planner

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

var shownPlans = flag.Int("plans", 0, "print so many plans of random crates, to be read")

// crateGroups are what a delivery is made of: from so many foods to so many of each group.
// Invented, as deliveries are.
var crateGroups = []struct {
	least, most int
	groups      []string
}{
	{1, 2, []string{"meat", "poultry", "fish", "shellfish", "soya", "cured meat"}},
	{1, 2, []string{"dairy", "cheese"}},
	{0, 1, []string{"egg"}},
	{2, 3, []string{"root vegetable", "squash", "allium"}},
	{2, 4, []string{"leaf", "brassica", "fruiting vegetable", "mushroom", "pod or fresh pulse", "stem vegetable"}},
	{0, 2, []string{"fruit", "herb"}},
	{0, 1, []string{"bread", "pastry"}},
}

// delivery draws a crate of about twelve foods that would feed so many plates.
func delivery(r *rand.Rand, foods, plates int) (list []Stock) {
	by := map[string][]*food.Food{}
	for _, f := range food.Default().Foods() {
		if f.Shelf == food.Crate && len(f.Kinds) > 0 {
			by[f.Group] = append(by[f.Group], f)
		}
	}
	seen := map[string]bool{}
	for len(list) < foods {
		for _, g := range crateGroups {
			for range g.least + r.IntN(g.most-g.least+1) {
				of := by[g.groups[r.IntN(len(g.groups))]]
				f := of[r.IntN(len(of))]
				if seen[f.Name] || len(list) >= foods {
					continue
				}
				seen[f.Name] = true
				mean := float64(plates) * 400 / float64(foods)
				grams := math.Round(mean*math.Exp(0.5*r.NormFloat64())/25) * 25
				s := Stock{Item: strings.ToLower(f.Name), Food: f, Free: measure.Amount(max(25, grams) * 1000), Unit: f.Unit, Crate: true, Days: 1 + r.IntN(9)}
				if isOf(f, "egg") {
					s.Free = f.PieceMg * measure.Amount(2+r.IntN(10))
				}
				list = append(list, s)
			}
		}
	}
	for _, name := range staplesUsual {
		if f, _ := food.Default().Food(name); f != nil && !seen[f.Name] && f.Shelf != food.Crate {
			list = append(list, Stock{Item: strings.ToLower(f.Name), Food: f, Free: 1_000_000, Unit: f.Unit, Days: Undated})
		}
	}
	return list
}

// keepers stand in most kitchens besides a delivery, with the grams of each: common
// practice, no source.
var keepers = []struct {
	name  string
	grams measure.Amount
}{
	{"garlic", 100}, {"brown onion", 600}, {"lemon", 300}, {"salted butter", 250}, {"whole milk", 1000}, {"hen's egg", 0},
	{"flat-leaf parsley", 40}, {"root ginger", 80}, {"white bread", 400},
}

// moreOfCupboard is what many kitchens hold of dry goods, tins, jars and spices: common
// practice, no source.
var moreOfCupboard = []string{
	"vegetable stock cube", "tomato purée", "smoked paprika", "ground turmeric", "ground coriander", "garam masala", "dried thyme", "fennel seed",
	"chilli powder", "curry powder", "wholegrain mustard", "red wine vinegar", "tahini", "peanut butter", "coconut milk", "passata",
	"tinned white bean", "green lentil", "red lentil", "bulgur wheat", "egg noodle", "dried spaghetti", "risotto rice", "polenta", "porridge oats",
	"dried breadcrumb", "self-raising flour", "walnut", "pumpkin seed", "flaked almond", "raisin", "caper", "green olive", "gherkin", "cornflour",
}

// kept adds to a delivery what kitchens keep, each with some chance.
func kept(r *rand.Rand, list []Stock) []Stock {
	there := func(f *food.Food) bool {
		return f == nil || slices.ContainsFunc(list, func(s Stock) bool { return s.Food == f })
	}
	for _, k := range keepers {
		if f, _ := food.Default().Food(k.name); r.IntN(10) < 6 && !there(f) {
			free := k.grams * 1000
			if isOf(f, "egg") {
				free = 6 * f.PieceMg
			}
			list = append(list, Stock{Item: strings.ToLower(f.Name), Food: f, Free: free, Unit: f.Unit, Crate: true, Days: 8 + r.IntN(10)})
		}
	}
	for _, name := range moreOfCupboard {
		if f, _ := food.Default().Food(name); r.IntN(10) < 6 && !there(f) {
			list = append(list, Stock{Item: strings.ToLower(f.Name), Food: f, Free: 1_000_000, Unit: f.Unit, Days: Undated})
		}
	}
	return list
}

// anyPlan draws a service to plan.
func anyPlan(r *rand.Rand) PlanAsk {
	a := PlanAsk{Dishes: 1 + r.IntN(4), Portions: 1 + r.IntN(6), Minutes: []int{20, 30, 45, 60, 90}[r.IntN(5)], Cooks: 1 + r.IntN(3)}
	a.Stock = kept(r, delivery(r, 3*a.Dishes+2+r.IntN(3), a.Dishes*a.Portions))
	a.Needs = []Needs{{}, {}, {}, {}, {}, {Meatless: true}, {Meatless: true}, {Vegan: true}, {Avoid: []string{"milk"}}, {Avoid: []string{"gluten cereals", "eggs"}}}[r.IntN(10)]
	if r.IntN(3) == 0 {
		a.Kit = DefaultKit()
		delete(a.Kit, technique.Scarce[r.IntN(len(technique.Scarce))])
	}
	if r.IntN(4) == 0 {
		a.Cold = 1
	}
	if r.IntN(5) == 0 {
		a.Without = []string{"fried"}
	}
	if r.IntN(6) == 0 {
		a.Light = true
	}
	if r.IntN(6) == 0 {
		a.Busy = []Busy{{"oven", 0, 15}, {"hands", 5, 12}}
	}
	return a
}

// TestPlans makes plans of random crates and checks each from the outside: amounts, plates,
// needs, hands, kit, oven, order, times. With -plans N it prints N of them to be read.
//
//	go test ./planner -run TestPlans -v -plans 10 -seed 3
func TestPlans(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 77))
	n := 150
	if testing.Short() {
		n = 25
	}
	if *shownPlans > 0 {
		n = *shownPlans
	}
	made := 0
	for i := range n {
		a := anyPlan(r)
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if *shownPlans > 0 {
			t.Log(sayPlan(&a, p, err))
		}
		if errors.Is(err, ErrNoDishes) || errors.Is(err, ErrNoTime) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		made++
		for _, wrong := range checkPlan(&a, &p) {
			t.Errorf("plan %d: %s", i, wrong)
		}
		if t.Failed() {
			t.Fatal(sayPlan(&a, p, nil))
		}
	}
	if made < n/3 {
		t.Errorf("only %d of %d services could be planned", made, n)
	}
}

func sayPlan(a *PlanAsk, p Plan, err error) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d dishes for %d in %d min, %d cooks, needs %+v, %d cold, without %v, light %v, kit %v, busy %v\n", a.Dishes, a.Portions, a.Minutes, a.Cooks, a.Needs, a.Cold, a.Without, a.Light, a.Kit, a.Busy)
	for _, s := range a.Stock {
		if s.Crate {
			fmt.Fprintf(&b, "%s %d, %d d; ", s.Item, s.Free/1000, s.Days)
		}
	}
	fmt.Fprintf(&b, "\n%v: used %.3f of at most %.3f, proven %v, %d min, %v\n", err, p.Used, p.Bound, p.Proven, p.Minutes, p.Relaxed)
	for _, d := range p.Dishes {
		fmt.Fprintf(&b, "- %s: %d g, %d kcal, missing %v\n    ", d.Title, d.Grams, d.Kcal, d.Missing)
		for _, u := range slices.Concat(d.Uses, d.Cupboard) {
			fmt.Fprintf(&b, "%s %s; ", u.Item, measure.Say(u.Amount, u.Unit))
		}
		b.WriteString("\n")
		for _, s := range d.Steps {
			fmt.Fprintf(&b, "    %s %3d-%d hands %d cook %d %v %d after %v: %s\n", s.ID, s.Start, s.Start+s.Minutes, s.HandsOn, s.Cook, s.Kit, s.Temp, s.After, s.Do)
		}
	}
	b.WriteString("left:")
	for _, u := range p.Left {
		fmt.Fprintf(&b, " %s %s;", u.Item, measure.Say(u.Amount, u.Unit))
	}
	return b.String()
}

// checkPlan says what is wrong with a plan. It knows no more of how plans are made than a
// cook who has the crate, the clock and the tables.
func checkPlan(a *PlanAsk, p *Plan) (wrong []string) {
	fault := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	if len(p.Dishes) != a.Dishes && (len(p.Dishes) > a.Dishes || len(p.Relaxed) == 0) {
		fault("%d dishes", len(p.Dishes))
	}
	wrong = append(wrong, checkAmounts(a, p)...)
	wrong = append(wrong, checkTimes(a, p)...)
	wrong = append(wrong, checkTrays(p)...)
	wrong = append(wrong, checkMenu(a, p)...)
	frames, palettes, leads := map[string]int{}, map[string]int{}, map[string]int{}
	cold := 0
	for i := range p.Dishes {
		d := &p.Dishes[i]
		wrong = append(wrong, checkPortion(a, d)...)
		wrong = append(wrong, checkDish(a, d)...)
		wrong = append(wrong, checkWaits(d)...)
		wrong = append(wrong, checkWays(a, d)...)
		frames[d.Frame]++
		if d.Palette != "" {
			palettes[d.Palette]++
		}
		leads[d.Uses[0].Item]++
		if d.Serve == Cold {
			cold++
		}
	}
	for _, seen := range []map[string]int{frames, palettes} {
		for x, n := range seen {
			if n > 1 {
				fault("%s twice", x)
			}
		}
	}
	if cold < a.Cold && !slices.Contains(p.Relaxed, "no cold dish can be had") {
		fault("%d cold dishes", cold)
	}
	return wrong
}

// checkAmounts holds what is used against what is free, gram by gram.
func checkAmounts(a *PlanAsk, p *Plan) (wrong []string) {
	fault := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	used := map[string]measure.Amount{}
	for _, d := range p.Dishes {
		for _, u := range d.Uses {
			if u.Amount <= 0 {
				fault("%s: %d of %s", d.Title, u.Amount, u.Item)
			}
			used[u.Item] += u.Amount
		}
	}
	left := map[string]measure.Amount{}
	for _, u := range p.Left {
		left[u.Item] = u.Amount
	}
	edible, taken := 0.0, 0.0
	for _, s := range a.Stock {
		if !s.Crate {
			continue
		}
		if used[s.Item] > s.Free {
			fault("%s: %d used of %d", s.Item, used[s.Item], s.Free)
		}
		if gap := s.Free - used[s.Item] - left[s.Item]; gap != 0 {
			fault("%s: %d free, %d used, %d left", s.Item, s.Free, used[s.Item], left[s.Item])
		}
		share := edibleShare(s.Food, technique.Cooked(s.Food, s.Item))
		edible += s.Free.Units() * share
		taken += used[s.Item].Units() * share
	}
	sweet := 0
	for _, d := range p.Dishes {
		if frameFamily(d.Frame) == "sweet" {
			sweet++
		}
	}
	if sweet > 1 || sweet == 1 && a.Dishes < 3 {
		fault("%d sweet dishes, and none were asked for", sweet)
	}
	if math.Abs(taken/edible-p.Used) > 0.01 {
		fault("used %.3f, not %.3f", taken/edible, p.Used)
	}
	if p.Used > p.Bound+1e-9 || p.Bound > 1+1e-9 {
		fault("used %.4f, bound %.4f", p.Used, p.Bound)
	}
	return wrong
}

// checkPortion reckons a portion from the foods in it, as raw food: the plate, the energy,
// the vegetables, and what the table must not be given.
func checkPortion(a *PlanAsk, d *Planned) (wrong []string) {
	fault := func(format string, args ...any) {
		wrong = append(wrong, d.Title+": "+fmt.Sprintf(format, args...))
	}
	want := Main
	switch {
	case frameFamily(d.Frame) == "sweet":
		want = Pudding
	case a.Light:
		want = Lighter
	}
	kcal, green := 0.0, 0.0
	for n, u := range slices.Concat(d.Uses, d.Cupboard) {
		var f *food.Food
		crate := n < len(d.Uses)
		for _, s := range a.Stock {
			if s.Item == u.Item {
				f = s.Food
			}
		}
		if f == nil {
			f, _ = food.Default().Food(u.Item)
		}
		if f == nil {
			continue
		}
		grams := u.Amount.Units()
		if crate {
			grams *= edibleShare(f, technique.Cooked(f, u.Item))
		}
		kcal += grams * f.Kcal / 100
		if slices.Contains(vegetableGroups, f.Group) && !slices.Contains(f.Kinds, "starchy root") {
			green += grams
		}
		if a.Needs.Vegan && f.Vegan != "yes" || a.Needs.Meatless && f.Meatless != "yes" {
			fault("%s is not for this table", u.Item)
		}
		for _, no := range a.Needs.Avoid {
			if slices.Contains(f.Allergen, no) {
				fault("%s holds %s", u.Item, no)
			}
		}
	}
	n := float64(d.Portions)
	if d.Portions != a.Portions {
		fault("for %d", d.Portions)
	}
	if math.Abs(kcal/n-float64(d.Kcal)) > 0.06*float64(d.Kcal)+10 {
		fault("%d kcal are %.0f", d.Kcal, kcal/n)
	}
	if float64(d.Kcal) < want.Kcal[0]-2 || float64(d.Kcal) > want.Kcal[1]+2 {
		fault("%d kcal", d.Kcal)
	}
	if float64(d.Grams) < want.Grams[0]-2 || float64(d.Grams) > want.Grams[1]+2 {
		fault("%d g on the plate", d.Grams)
	}
	if green/n < want.Vegetables-2 {
		fault("%.0f g of vegetables", green/n)
	}
	return wrong
}

// checkTimes holds the steps against the clock, minute by minute.
func checkTimes(a *PlanAsk, p *Plan) (wrong []string) {
	fault := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	kit := a.Kit
	if kit == nil {
		kit = DefaultKit()
	}
	ends := map[string]int{}
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			if _, twice := ends[s.ID]; twice {
				fault("two steps %s", s.ID)
			}
			ends[s.ID] = s.Start + s.Minutes
		}
	}
	last := 0
	for _, d := range p.Dishes {
		ready := 0
		for _, s := range d.Steps {
			ready = max(ready, s.Start+s.Minutes)
			if s.Start < 0 || s.Minutes < 1 || s.HandsOn > s.Minutes {
				fault("%s: starts %d, %d min, %d hands-on", s.ID, s.Start, s.Minutes, s.HandsOn)
			}
			for _, after := range s.After {
				if end, ok := ends[after]; !ok || end > s.Start {
					fault("%s starts %d, after %s ends %d", s.ID, s.Start, after, end)
				}
			}
			if (s.HandsOn > 0) != (s.Cook > 0) || s.Cook > a.Cooks {
				fault("%s: %d min of cook %d", s.ID, s.HandsOn, s.Cook)
			}
			if slices.Contains(s.Kit, "oven") && s.Temp == 0 {
				fault("%s: an oven without a temperature", s.ID)
			}
		}
		if ready != d.Ready || ready > a.Minutes {
			fault("%s is ready at %d, it says %d, of %d", d.Title, ready, d.Ready, a.Minutes)
		}
		last = max(last, ready)
	}
	if last != p.Minutes {
		fault("all ready at %d, it says %d", last, p.Minutes)
	}
	for minute := range a.Minutes {
		held, cooks := map[string]int{}, map[int]string{}
		hands := 0
		var temps []int
		for _, b := range a.Busy {
			if b.From <= minute && minute < b.To {
				if kit[b.What] > 0 { // what is not there is not held either
					held[b.What]++
				}
				if b.What == "hands" {
					hands++
				}
			}
		}
		for _, d := range p.Dishes {
			for _, s := range d.Steps {
				if minute < s.Start || minute >= s.Start+s.Minutes {
					continue
				}
				for _, k := range s.Kit {
					held[k]++
					if k == "oven" {
						temps = append(temps, s.Temp)
					}
				}
				if minute < s.Start+s.HandsOn {
					hands++
					if o := cooks[s.Cook]; o != "" {
						fault("cook %d is at %s and %s at %d", s.Cook, o, s.ID, minute)
					}
					cooks[s.Cook] = s.ID
				}
			}
		}
		if hands > a.Cooks {
			fault("%d pairs of hands at %d", hands, minute)
		}
		for k, n := range held {
			most := kit[k]
			if k == "oven" {
				most *= shelves
			}
			if k != "hands" && n > most {
				fault("%d of %s at %d", n, k, minute)
			}
		}
		if len(temps) > 0 && slices.Max(temps)-slices.Min(temps) > 10 {
			fault("an oven at %v at %d", temps, minute)
		}
	}
	return wrong
}
