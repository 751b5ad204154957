package planner

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// What a cook and a guest would say of a plan, read off the plan and the table of foods.

// foodIn finds the food of an item of a plan.
func foodIn(a *PlanAsk, item string) *food.Food {
	for _, s := range a.Stock {
		if s.Item == item {
			return s.Food
		}
	}
	f, _ := food.Default().Food(item)
	return f
}

// isAll says whether a plan takes all there is of an item.
func isAll(a *PlanAsk, u Use) bool {
	return slices.ContainsFunc(a.Stock, func(s Stock) bool { return s.Item == u.Item && s.Free == u.Amount })
}

func frameFamily(frame string) string {
	for _, f := range technique.Frames() {
		if f.ID == frame {
			return f.Family
		}
	}
	return ""
}

var meats = []string{"meat", "poultry", "fish", "shellfish", "cured meat"}

// checkDish reads a dish as a cook does: what must be got, what it is called, what is in it.
func checkDish(a *PlanAsk, d *Planned) (wrong []string) {
	fault := func(format string, args ...any) {
		wrong = append(wrong, d.Title+": "+fmt.Sprintf(format, args...))
	}
	n := float64(d.Portions)
	if len(d.Missing) > 5 {
		fault("a shopping list of %d with a full cupboard", len(d.Missing))
	}
	for i, m := range d.Missing {
		if slices.Contains(d.Missing[:i], m) {
			fault("%s is missing twice", m)
		}
		if f := foodIn(a, m); f != nil && isOf(f, "tinned pulse", "dried pulse") {
			fault("made of %s, which nobody has", m)
		}
	}
	for _, word := range []string{"tinned", "hen's", "fried fried"} {
		if strings.Contains(d.Title, word) {
			fault("no board says %q", word)
		}
	}
	for _, w := range flavours(d.Seasoned) {
		if !slices.ContainsFunc(slices.Concat(d.Uses, d.Cupboard), func(u Use) bool { return strings.Contains(strings.ToLower(u.Item), w) }) {
			fault("seasoned with %q, and no %s is in it", d.Seasoned, w)
		}
	}
	crate, slack, named, unnamed := 0.0, 0.0, map[string]int{}, []Use{}
	for _, u := range d.Uses {
		f := foodIn(a, u.Item)
		grams := u.Amount.Units() * edibleShare(f, technique.Cooked(f, u.Item)) / n
		crate += grams
		slack += 1 / n
		if !slices.Contains(meats, f.Group) || grams < 16 {
			continue
		}
		if words := strings.Fields(u.Item); strings.Contains(d.Title, words[len(words)-1]) {
			named[f.Group]++
		} else {
			unnamed = append(unnamed, u)
		}
	}
	for _, u := range unnamed { // bacon beside ham needs no word of its own
		if f := foodIn(a, u.Item); named[f.Group] == 0 && len(named) < 2 {
			fault("nobody is told of the %s", u.Item)
		}
	}
	if frameFamily(d.Frame) == "salad" && !slices.ContainsFunc(slices.Concat(d.Uses, d.Cupboard), func(u Use) bool {
		f := foodIn(a, u.Item)
		return f != nil && (strings.Contains(f.Name, "lemon") || strings.Contains(f.Name, "lime") || isOf(f, "vinegar"))
	}) {
		fault("a salad with nothing sour")
	}
	if crate < 40-slack {
		fault("only %.0f g of the crate", crate)
	}
	for _, u := range slices.Concat(d.Uses, d.Cupboard) {
		f := foodIn(a, u.Item)
		if f == nil {
			continue
		}
		if strings.Contains(d.Title, "bread on the side") && isOf(f, "starchy root", "rice", "pasta", "grain", "noodle", "pastry") {
			fault("bread beside %s", u.Item)
		}
		if each := f.PieceMg.Units(); isOf(f, "egg") && each > 0 && math.Abs(u.Amount.Units()/each-math.Round(u.Amount.Units()/each)) > 1e-6 && !isAll(a, u) {
			fault("%.2f of %s", u.Amount.Units()/each, u.Item)
		}
		if f.Group == "spice" && !strings.Contains(f.Name, "salt") && u.Amount.Units()/n > 8 {
			fault("%.0f g of %s a portion", u.Amount.Units()/n, u.Item)
		}
	}
	return wrong
}

// flavours gives the foods that a palette's name promises, each by its last word in the
// singular.
func flavours(seasoned string) (list []string) {
	for _, w := range []string{" and ", " in ", "a little "} {
		seasoned = strings.ReplaceAll(seasoned, w, ", ")
	}
	for _, part := range strings.Split(seasoned, ",") {
		words := strings.Fields(part)
		if len(words) == 0 {
			continue
		}
		w := words[len(words)-1]
		if w == "rind" || w == "seed" { // of orange, of coriander
			w = words[len(words)-2]
		}
		if w == "groundnut" {
			w = "peanut"
		}
		if w != "herbs" {
			list = append(list, strings.TrimSuffix(w, "s"))
		}
	}
	return list
}

// checkMenu reads the dishes beside each other: one starch and one tin of beans in a menu,
// or it is said that there could not be.
func checkMenu(a *PlanAsk, p *Plan) (wrong []string) {
	given := func(words string) bool {
		return slices.ContainsFunc(p.Relaxed, func(r string) bool { return strings.Contains(r, words) })
	}
	for kind, words := range map[string]string{
		"tinned pulse": "one food may lead", "rice": "alike in form", "pasta": "alike in form", "noodle": "alike in form", "flatbread": "alike in form",
	} {
		times := 0
		for _, d := range p.Dishes {
			if slices.ContainsFunc(slices.Concat(d.Uses, d.Cupboard), func(u Use) bool {
				f := foodIn(a, u.Item)
				return f != nil && isOf(f, kind)
			}) {
				times++
			}
		}
		if times > 1 && !given(words) || times > 2 && kind == "tinned pulse" {
			wrong = append(wrong, fmt.Sprintf("%s in %d dishes, and given up is %v", kind, times, p.Relaxed))
		}
	}
	if len(p.Dishes) == 1 && (given("alike") || given("lead two") || given("one family")) {
		wrong = append(wrong, fmt.Sprintf("a dish by itself is like no other: %v", p.Relaxed))
	}
	return wrong
}

// checkWaits says what of a hot dish goes cold: what leaves the heat is gone on with within
// a quarter of an hour, within three minutes where it must be served now, and waits for the
// rest no longer than the dish is said to hold hot.
func checkWaits(d *Planned) (wrong []string) {
	if d.Serve != Hot || slices.ContainsFunc(d.Holds, func(h string) bool { return strings.HasPrefix(h, "room") }) {
		return nil
	}
	most := 15
	if slices.Contains(d.Holds, "serve now") {
		most = 3
	}
	held := most
	for _, h := range d.Holds {
		var n int
		for _, how := range []string{"hot", "warm"} {
			if _, err := fmt.Sscanf(h, how+" %d min", &n); err == nil {
				held = max(held, n)
			}
		}
	}
	beside := ""
	for _, u := range d.Uses {
		if u.Role == "side" {
			beside = "(" + u.Item + ")"
		}
	}
	for _, s := range d.Steps {
		if beside != "" && strings.HasSuffix(s.Do, beside) { // it holds as long as it holds
			continue
		}
		hot := slices.ContainsFunc(s.Kit, func(k string) bool { return k == "ring" || k == "oven" || k == "grill" })
		if !hot || strings.HasPrefix(s.Do, "heat ") {
			continue
		}
		next, followed := d.Ready, false
		for _, o := range d.Steps {
			if slices.Contains(o.After, s.ID) {
				next, followed = o.Start, true
				if wait := next - s.Start - s.Minutes; wait > most {
					wrong = append(wrong, fmt.Sprintf("%s: %q waits %d min for %q", d.Title, s.Do, wait, o.Do))
				}
			}
		}
		if wait := next - s.Start - s.Minutes; !followed && wait > held {
			wrong = append(wrong, fmt.Sprintf("%s: %q waits %d min for the rest", d.Title, s.Do, wait))
		}
	}
	return wrong
}
