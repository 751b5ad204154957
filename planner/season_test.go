package planner

import (
	"math/rand/v2"
	"slices"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// crates draws so many kitchens with a crate of eight to fifteen foods and most of a
// plain cupboard.
func crates(n int) (out []*kitchen) {
	r := rand.New(rand.NewPCG(11, 5))
	var fresh []*food.Food
	for _, f := range food.Default().Foods() {
		if f.Shelf == food.Crate && len(f.Kinds) > 0 {
			fresh = append(fresh, f)
		}
	}
	for range n {
		a := Ask{Minutes: 60 + r.IntN(140)}
		for range 8 + r.IntN(8) {
			f := fresh[r.IntN(len(fresh))]
			a.Stock = append(a.Stock, Stock{Item: f.Name, Food: f, Free: measure.Amount(100+r.IntN(800)) * 1000, Unit: f.Unit, Crate: true, Days: r.IntN(9)})
		}
		for _, name := range staplesUsual {
			if f, _ := food.Default().Food(name); f != nil && r.IntN(10) < 8 {
				a.Stock = append(a.Stock, Stock{Item: f.Name, Food: f, Free: 500_000, Unit: f.Unit, Days: Undated})
			}
		}
		out = append(out, newKitchen(a))
	}
	return out
}

// Whatever a crate holds: the leading food likes the palette, a paste takes none, raw
// dishes take nothing that is fried first, no dish has two oils, and none that wants
// seasoning is without.
func TestPalettesBelong(t *testing.T) {
	seasoned, plainly := 0, 0
	for _, k := range crates(120) {
		for _, c := range k.dishes() {
			d := c.dish
			oils := 0
			for _, s := range d.staples {
				if k.kinOf(&s) == "oil" {
					oils++
				}
			}
			if oils > 1 {
				t.Errorf("%s has %d oils", d.frame.ID, oils)
			}
			if k.isBland(d, c.page) {
				t.Errorf("%s tastes of nothing", d.frame.ID)
			}
			if d.blend < 0 {
				plainly++
				continue
			}
			seasoned++
			lead := &k.lines[d.parts[0].line]
			if lead.likes[d.blend] <= 0 {
				t.Errorf("%s, %s: %s does not like it", d.frame.ID, d.palette.ID, lead.Item)
			}
			if k.hasPaste(d) {
				t.Errorf("%s, %s: on top of a paste", d.frame.ID, d.palette.ID)
			}
			if d.hottest() == technique.None && theBook().blends[d.blend].fries() {
				t.Errorf("%s, %s: fried for a raw dish", d.frame.ID, d.palette.ID)
			}
		}
	}
	if seasoned < 300 || plainly < 30 {
		t.Errorf("%d dishes with a palette, %d without", seasoned, plainly)
	}
}

// A second food in a role is worth its place: an egg for four is none.
func TestNoScraps(t *testing.T) {
	for _, k := range crates(120) {
		for _, c := range k.dishes() {
			seen := map[int]bool{}
			for _, p := range c.dish.parts {
				l, role := &k.lines[p.line], &c.dish.frame.Roles[p.role]
				if n := float64(c.portions); seen[p.role] && l.isScrap(p.amount, role.Min*n, n) {
					t.Errorf("%s for %d: %v of %s as %s", c.dish.frame.ID, c.portions, p.amount.Units(), l.Item, role.Name)
				}
				seen[p.role] = true
			}
		}
	}
}

// What is too little beside the first food of a role.
func TestScrap(t *testing.T) {
	k := newKitchen(Ask{Stock: []Stock{stock(t, "hen's egg", 300), stock(t, "leek", 300)}})
	egg, leek := &k.lines[0], &k.lines[1]
	for _, c := range []struct {
		l     *line
		grams measure.Amount
		scrap bool
	}{{egg, 58, true}, {egg, 116, false}, {leek, 40, true}, {leek, 120, false}} {
		if got := c.l.isScrap(c.grams*1000, 400, 4); got != c.scrap {
			t.Errorf("%d g of %s for four: %v", c.grams, c.l.Item, got)
		}
	}
}

// Sesame oil flavours and does not fry; and where butter is named it is butter, though
// the frame would have taken any oil.
func TestFats(t *testing.T) {
	sesame := stock(t, "sesame oil", 300)
	k := newKitchen(Ask{Stock: []Stock{sesame}})
	if got := k.lineOf([]string{"oil"}); got >= 0 {
		t.Error("fried in sesame oil")
	}
	if got := k.lineOf([]string{"sesame oil"}); got != 0 {
		t.Errorf("sesame oil is line %d", got)
	}
	k = newKitchen(Ask{Stock: []Stock{stock(t, "olive oil", 300), stock(t, "lemon", 100)}})
	d := &dish{frame: &technique.Frames()[0], blend: -1, parts: []part{{line: 1}}}
	k.addStapleTo(d, technique.Staple{Names: []string{"butter", "oil"}, Amount: 8000}, technique.Through)
	k.addStapleTo(d, technique.Staple{Names: []string{"unsalted butter"}, Amount: 10000}, technique.Through)
	k.addStapleTo(d, technique.Staple{Names: []string{"lemon juice"}, Amount: 5000, Unit: measure.Millilitre}, technique.None)
	if len(d.staples) != 1 || !slices.Equal(d.staples[0].Names, []string{"unsalted butter"}) {
		t.Errorf("%+v", d.staples)
	}
}

// What is taken twice is taken once, and what a dish cannot do without is not lost to what
// would also have done: wine is no stock, oil beside it takes no butter from the palette.
func TestStaplesSettle(t *testing.T) {
	k := newKitchen(Ask{Stock: []Stock{stock(t, "olive oil", 300), stock(t, "salted butter", 300), stock(t, "caster sugar", 300), stock(t, "honey", 300), stock(t, "cider vinegar", 300), stock(t, "carrot", 100)}})
	part := []part{{line: 5}}
	ml, g := measure.Millilitre, measure.Gram
	for what, c := range map[string]struct {
		take []technique.Staple
		want []string // items
	}{
		"stock beside wine":   {[]technique.Staple{{Names: []string{"vegetable stock", "stock"}, Amount: 340_000, Unit: ml}, {Names: []string{"white wine", "stock"}, Amount: 40_000, Unit: ml}}, []string{"vegetable stock"}},
		"honey for sugar":     {[]technique.Staple{{Names: []string{"caster sugar", "honey"}, Amount: 2_000, Unit: g}, {Names: []string{"honey"}, Amount: 3_000, Unit: g}}, []string{"honey"}},
		"butter, then oil":    {[]technique.Staple{{Names: []string{"unsalted butter", "butter", "oil"}, Amount: 6_000, Unit: g}, {Names: []string{"unsalted butter"}, Amount: 10_000, Unit: g}, {Names: []string{"olive oil", "oil"}, Amount: 6_000, Unit: ml}}, []string{"salted butter", "olive oil"}},
		"lemon, then vinegar": {[]technique.Staple{{Names: []string{"lemon juice"}, Amount: 5_000, Unit: ml}, {Names: []string{"vinegar", "lemon juice"}, Amount: 4_000, Unit: ml}}, []string{"lemon juice"}},
	} {
		d := &dish{frame: &technique.Frames()[0], blend: -1, parts: part}
		for _, s := range c.take {
			k.addStapleTo(d, s, technique.Through)
		}
		var got []string
		for _, s := range d.staples {
			if s.line >= 0 {
				got = append(got, k.lines[s.line].Item)
			} else {
				got = append(got, s.Names[0])
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", what, got, c.want)
		}
	}
}

// The dishes of one list do not all taste alike.
func TestPalettesDiffer(t *testing.T) {
	pairs, alike := 0, 0
	for _, k := range crates(60) {
		list := k.dishes()
		for i := range list {
			for j := range list[:i] {
				if a, b := list[i].dish.blend, list[j].dish.blend; a >= 0 && b >= 0 {
					pairs++
					if a == b {
						alike++
					}
				}
			}
		}
	}
	if pairs == 0 || alike*10 > pairs {
		t.Errorf("%d of %d pairs have one palette", alike, pairs)
	}
}
