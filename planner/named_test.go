package planner

import (
	"strings"
	"testing"

	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// frameNamed finds a frame for a test.
func frameNamed(t *testing.T, id string) (int, *technique.Frame) {
	t.Helper()
	for i := range technique.Frames() {
		if f := &technique.Frames()[i]; f.ID == id {
			return i, f
		}
	}
	t.Fatalf("no frame %s", id)
	return 0, nil
}

// A dish names what is in it: the chicken of a pilaf, and the cucumber of the crate that
// goes into a salad of the cupboard; not the eggs, and not a sprig.
func TestTitled(t *testing.T) {
	k := newKitchen(Ask{Stock: []Stock{
		stock(t, "chicken breast", 400), stock(t, "cucumber", 600), stock(t, "hen's egg", 300), stock(t, "spinach", 20),
	}})
	for _, c := range []struct{ frame, role, food, title string }{
		{"pilaf", "star", "chicken breast", "{base} pilaf with {body} and {star}"},
		{"pilaf", "star", "hen's egg", "{base} pilaf with {body} and {star}"},
		{"pulse-salad", "body", "cucumber", "{base} dressed warm with {star} and {body}"},
		{"pulse-salad", "green", "spinach", "{base} dressed warm with {star}"},
		{"gratin", "star", "chicken breast", "{base} and {star} gratin"},
	} {
		n, f := frameNamed(t, c.frame)
		d := &dish{frame: f, number: n, serves: 2}
		for i := range k.lines {
			if k.lines[i].Food.Name == c.food {
				d.parts = []part{{line: i, role: f.Role(c.role), grams: k.lines[i].edible()}}
			}
		}
		if got := k.titled(d); got != c.title {
			t.Errorf("%s with %s: %q", c.frame, c.food, got)
		}
	}
	if qualifies(" and {star}") || !qualifies(" and {star} gratin") || qualifies("") {
		t.Error("what stands before another noun is not told from what does not")
	}
}

// A palette does not repeat a food that the title has named.
func TestNotAgain(t *testing.T) {
	k := newKitchen(Ask{Stock: []Stock{stock(t, "tinned tomato", 400), stock(t, "butter bean", 400)}})
	d := &dish{}
	for i := range k.lines {
		d.parts = append(d.parts, part{line: i})
	}
	for _, c := range []struct{ palette, title, want string }{
		{"basil, garlic and tomato", "penne with tinned tomato", "basil and garlic"},
		{"basil, garlic and tomato", "penne with courgettes", "basil, garlic and tomato"},
		{"parsley, butter and lemon", "tinned tomato soup", "parsley, butter and lemon"},
		{"tomato", "tinned tomato soup", "tomato"},
	} {
		if got := k.notAgain(c.palette, c.title, d); got != c.want {
			t.Errorf("%q on %q: %q", c.palette, c.title, got)
		}
	}
}

// Salt is taken once, under whatever name, and mustard too; what is brined takes none.
func TestSaltOnce(t *testing.T) {
	k := newKitchen(Ask{Stock: []Stock{stock(t, "table salt", 300), stock(t, "leek", 100)}})
	_, f := frameNamed(t, "pilaf")
	d := &dish{frame: f, blend: -1, parts: []part{{line: 1}}}
	for _, s := range []technique.Staple{
		{Names: []string{"salt"}, Amount: 1200}, {Names: []string{"table salt"}, Amount: 1300},
		{Names: []string{"Dijon mustard"}, Amount: 3000}, {Names: []string{"wholegrain mustard"}, Amount: 5000},
	} {
		k.addStapleTo(d, s, technique.Boil)
	}
	if len(d.staples) != 2 || d.staples[0].Amount != 1300 || d.staples[1].Amount != 5000 {
		t.Errorf("%+v", d.staples)
	}
	salts := 0
	for _, name := range []string{"halloumi", "paneer"} {
		for _, i := range Ideas(Ask{Stock: []Stock{stock(t, name, 400)}, Minutes: 60}) {
			for _, u := range i.Cupboard {
				if theBook().page(i.Technique).role != "dish" && strings.Contains(u.Item, "salt") && !strings.Contains(u.Item, "butter") {
					if salts++; name == "halloumi" && u.Amount <= pinch*measure.Amount(i.Portions) {
						t.Errorf("%s takes salt", i.Title)
					}
				}
			}
		}
	}
	if salts == 0 {
		t.Error("nothing takes salt")
	}
}

// However well mushrooms and eggs go together: of the first ideas one is an omelette.
func TestOneOmelette(t *testing.T) {
	n := 0
	for _, i := range Ideas(Ask{Stock: []Stock{stock(t, "chestnut mushroom", 300), stock(t, "hen's egg", 348), stock(t, "spinach", 200)}, Minutes: 30})[:varied] {
		if theBook().page(i.Technique).forms&formsOf("omelette") != 0 {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d omelettes among the first ideas", n)
	}
	if a, b := formsOf("omelette with browned {foods}"), formsOf("folded omelette with {body}"); a == 0 || a != b || formsOf("{food} crisps, salt") != 0 {
		t.Error("forms are not told")
	}
}
