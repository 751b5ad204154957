package bot_test

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/store"
)

// wraps reads the accounts of a kitchen from its file.
func wraps(t failer, s *store.Store, kitchen string, do func(*bot.Records, []*bot.Wrap)) {
	t.Helper()
	if err := s.Records(context.Background(), kitchen, func(r *store.Record) error {
		x := &bot.Records{Kitchen: r.Kitchen, WrapUps: r.WrapUps, Services: r.Services, Ledger: r}
		x.Foods(food.Default())
		list, err := x.Wraps()
		if err == nil {
			do(x, list)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
}

// Whatever is said, edited, deleted and undone, and wherever it is wrapped up: every account
// closes, by line and in all, each begins with what the one before left, and together they are
// the ledger.
func TestWrapLaws(t *testing.T) {
	dir, files, some := t.TempDir(), 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		files++
		s, err := store.Open(context.Background(), filepath.Join(dir, fmt.Sprint(files)), store.Options{})
		if err != nil {
			rt.Fatal(err)
		}
		defer s.Close()
		k := &kitchen{T: rt, s: s, k: bot.New(s, bot.Options{}), at: time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC), heard: map[string]string{}}
		k.say("larder", "got 2kg leeks for £4, 1kg carrots, 500g red onions £1, 1 pint cream £1.20 and 800g spinach")
		for range rapid.IntRange(1, 25).Draw(rt, "turns") {
			switch rapid.IntRange(0, 9).Draw(rt, "what") {
			case 8, 9:
				k.say(rapid.SampledFrom(cooks).Draw(rt, "who"), rapid.SampledFrom([]string{"got 1kg kale $2", "used 300g kale in the soup", "used 250g leeks in the soup", "600g soup left over", "made 1.5kg soup", "half the soup left over",
					"the soup came to 2kg", "used 100g soup in the pie", "200g pie left over", "binned 100g soup", "binned 100g pie", "gave 50g soup to next door", "300g soup left", "made 500g stock from 200g leeks", "used 200g stock in the soup", "used 100g soup", "put 50g soup back"}).Draw(rt, "left over"))
			case 0:
				k.say(rapid.SampledFrom(cooks).Draw(rt, "who"), rapid.SampledFrom([]string{"wrap up", "weigh back", "same", "200g", "about half", "2 left", "none left", "enough", "undo", "gave 100g leek to next door", "lent bo's place half the cream", "used 200g carrots in the soup, 20g peel"}).Draw(rt, "wrap"))
			case 1:
				k.at = k.at.Add(5 * time.Hour)
				k.say("stove", "wrap up")
			default:
				k.turn()
			}
		}
		k.at = k.at.Add(5 * time.Hour)
		k.say("stove", "got 300g kale")
		k.say("stove", "wrap up")
		wraps(rt, s, "k", func(x *bot.Records, list []*bot.Wrap) {
			came, made, used, binned, variance := map[string]float64{}, map[string]float64{}, map[string]float64{}, map[string]float64{}, map[string]float64{}
			sold, back := soldAsItIs(rt, x)
			left := map[string]float64{}
			for i, w := range list {
				c := w.Crate
				in, out := c.Had.AP+c.Came.AP+c.Made.AP, c.Dishes.AP+c.Served.AP+c.Given.AP+c.Trim.AP+c.Binned.AP+c.Carried.AP+c.Variance.AP
				if math.Abs(in-out) > 1e-6 {
					rt.Fatalf("%d: %g in, %g out: %+v", i, in, out, c)
				}
				inCost, outCost := c.Had.Cost+c.Came.Cost+c.Made.Cost, c.Dishes.Cost+c.Served.Cost+c.Given.Cost+c.Trim.Cost+c.Binned.Cost+c.Carried.Cost+c.Variance.Cost
				if math.Abs(inCost-outCost) > 1e-6 {
					rt.Fatalf("%d: cost %g in, %g out: %+v", i, inCost, outCost, c)
				}
				for _, a := range w.Apart {
					c := a.Crate
					inCost, outCost := c.Had.Cost+c.Came.Cost+c.Made.Cost, c.Dishes.Cost+c.Served.Cost+c.Given.Cost+c.Trim.Cost+c.Binned.Cost+c.Carried.Cost+c.Variance.Cost
					if math.Abs(inCost-outCost) > 1e-6 {
						rt.Fatalf("%d: %s: cost %g in, %g out: %+v", i, a.Currency, inCost, outCost, c)
					}
				}
				closesEdible(rt, fmt.Sprint(i), c.WrapColumns)
				for _, l := range w.Lines {
					closesEdible(rt, l.Item, l.Weighed)
				}
				if w.UsedShare < 0 || w.UsedShare > 1 {
					rt.Fatalf("%d: share %g", i, w.UsedShare)
				}
				for _, l := range w.Lines {
					if d := l.Had + l.Came + l.Made - l.Dishes - l.Served - l.Given - l.Trim - l.Binned - l.Carried - l.Variance; math.Abs(d) > 1e-6 {
						rt.Fatalf("%d: %s is off by %g: %+v", i, l.Item, d, l)
					}
					if math.Abs(l.Had-left[l.Item]) > 1e-6 {
						rt.Fatalf("%d: %s has %g, %g was left", i, l.Item, l.Had, left[l.Item])
					}
					left[l.Item] = l.Carried
					came[l.Item] += l.Came
					made[l.Item] += l.Made
					used[l.Item] += l.Dishes + l.Given + l.Trim
					binned[l.Item] += l.Binned
					variance[l.Item] += l.Variance + l.Served
				}
			}
			for _, l := range x.Kitchen.Lines {
				if !back[l.Name] { // what is sold as it was made is used by the ledger, and served by the account
					used[l.Name] += sold[l.Name]
					variance[l.Name] -= sold[l.Name]
				} else {
					used[l.Name], variance[l.Name] = l.Used.Units(), used[l.Name]+variance[l.Name]-l.Used.Units()
				}
				for what, is := range map[string][2]float64{
					"received": {came[l.Name], l.Received.Units()}, "made": {made[l.Name], l.Made.Units()}, "used": {used[l.Name], l.Used.Units()},
					"binned": {binned[l.Name], l.Binned.Units()}, "variance": {variance[l.Name], l.Variance.Units()}, "left": {left[l.Name], l.OnHand().Units()},
				} {
					if math.Abs(is[0]-is[1]) > 1e-6 {
						rt.Fatalf("%s %s: accounts say %g, the ledger %g", l.Name, what, is[0], is[1])
					}
				}
			}
			some += len(list)
		})
	})
	if some < files*3/2 {
		t.Errorf("%d accounts in %d kitchens", some, files)
	}
}

// closesEdible fails where edible weights do not close, or are above the weight as purchased.
func closesEdible(t *rapid.T, of string, c bot.WrapColumns) {
	in, out := c.Had.EP+c.Came.EP+c.Made.EP, c.Dishes.EP+c.Served.EP+c.Given.EP+c.Trim.EP+c.Binned.EP+c.Carried.EP+c.Variance.EP
	if math.Abs(in-out) > 1e-6 {
		t.Fatalf("%s: %g edible in, %g out: %+v", of, in, out, c)
	}
	for _, s := range []bot.WrapSum{c.Had, c.Came, c.Made, c.Given, c.Trim, c.Binned, c.Carried} {
		if s.EP < 0 || s.EP > s.AP+0.002 { // a rounding of the mg
			t.Fatalf("%s: %g edible of %g: %+v", of, s.EP, s.AP, c)
		}
	}
}

// soldAsItIs gives, by line, how much was used for no dish of what had been made, and where some may have
// come back from that.
func soldAsItIs(t *rapid.T, x *bot.Records) (sold map[string]float64, back map[string]bool) {
	sold, back = map[string]float64{}, map[string]bool{}
	made := map[int64]bool{}
	if err := x.Ledger.Between(0, 1<<62, func(e pantry.Placed) error {
		name := x.Kitchen.Line(e.Line).Name
		switch {
		case e.Act == pantry.Make && e.Amount > 0:
			made[e.Line] = true
		case e.Act == pantry.Use && e.Dish == "" && !e.Trim && made[e.Line]:
			sold[name] += e.Amount.Units()
		case e.Act == pantry.Return && e.Dish == "" && made[e.Line]:
			back[name] = true
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return sold, back
}

// What the plan kept and nobody said is written down on one word, and is of the service that
// was wrapped up.
func TestAsPlanned(t *testing.T) {
	r, p, _ := begun(t)
	first := p.Dishes[0].Uses[0]
	r.say("7", "ana", fmt.Sprintf("used %.0fg %s in dish 1", first.Amount, first.Item))
	got := r.say("7", "ana", "wrap up")
	if !strings.Contains(got.Text, `"as planned" writes it down`) {
		t.Fatalf("%s", got.Text)
	}
	k, _ := r.s.View(context.Background(), "k")
	if claims := claimsOf(k); claims != "" {
		t.Errorf("still kept:\n%s", claims)
	}
	if got := r.say("7", "ana", "what's next?"); strings.Contains(got.Text, "All ready") {
		t.Errorf("the plan is on: %s", got.Text)
	}
	if got := r.say("7", "ana", "as planned"); got.Kind != bot.Log || len(got.Entries) < 3 {
		t.Fatalf("%+v", got)
	}
	wraps(t, r.s, "k", func(x *bot.Records, list []*bot.Wrap) {
		w := bot.Latest(list)
		if w == nil || w.Until == nil || len(w.Dishes) != len(p.Dishes) {
			t.Fatalf("%+v", w)
		}
		for _, d := range w.Dishes {
			if d.Portions != 2 {
				t.Errorf("%+v", d)
			}
			s, err := x.Sheet(w, d.Name)
			if err != nil || len(s.Parts) < 3 || len(s.Steps) < 3 || s.Portions != 2 {
				t.Errorf("%v: %+v", err, s)
			}
		}
		for _, d := range p.Dishes {
			for _, u := range d.Uses {
				sum := 0.0
				for _, w := range w.Lines {
					if w.Item == u.Item {
						sum = w.Dishes + w.Trim
					}
				}
				if sum < u.Amount*0.94 {
					t.Errorf("%s: %g used, %g planned", u.Item, sum, u.Amount)
				}
			}
		}
	})
	if got := r.say("7", "ana", "as planned"); got.Kind != bot.Answer {
		t.Errorf("written twice: %+v", got)
	}
}

// year is a file with services of so many entries, each wrapped up. A service of 200 gets little
// more than it uses.
func year(b *testing.B, services, entries int) *store.Store {
	s, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "year.db"), store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { s.Close() })
	k := bot.New(s, bot.Options{})
	at := time.Date(2026, 1, 1, 17, 0, 0, 0, time.UTC)
	items := []string{"leek", "carrot", "spinach", "potato", "double cream", "red onion", "cauliflower", "cheddar", "celeriac", "parsnip", "kale", "fennel bulb"}
	n := 0
	for range services {
		at = at.Add(24 * time.Hour)
		var wait []func() (bot.Reply, error)
		say := func(text string) {
			n++
			wait = append(wait, k.Start(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("m", n), Cook: "bo", At: at.Add(time.Duration(n%3000) * time.Second), Text: text}))
		}
		for i := range items {
			say(fmt.Sprintf("got %dg %s £%d.50", 4*entries, items[i], i+1))
		}
		for i := range entries - len(items) - 1 {
			switch i % 9 {
			case 0:
				say(fmt.Sprintf("binned %dg %s", 10+i%40, items[i%len(items)]))
			case 1:
				say(fmt.Sprintf("binned %dg %s peelings", 5+i%30, items[i%len(items)]))
			default:
				say(fmt.Sprintf("used %dg %s in the %s", 20+i%70, items[i%len(items)], []string{"tart", "soup", "pie", "salad"}[i%4]))
			}
		}
		n++
		for _, w := range wait {
			if _, err := w(); err != nil {
				b.Fatal(err)
			}
		}
		if r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("m", n), Cook: "bo", At: at.Add(5 * time.Hour), Text: "wrap up"}); err != nil || !strings.Contains(r.Text, "Wrap-up") {
			b.Fatal(r, err)
		}
	}
	return s
}

// BenchmarkWrap reckons the account of a service of 2,000 entries, in ms; the bar is 50.
func BenchmarkWrap(b *testing.B) {
	s := year(b, 1, 2000)
	for b.Loop() {
		wraps(b, s, "k", func(x *bot.Records, list []*bot.Wrap) {
			w := bot.Latest(list)
			if w == nil || len(w.Dishes) != 4 || w.Say(x, time.Time{}) == "" {
				b.Fatal(len(list))
			}
		})
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms")
}

// BenchmarkYear compares 300 services of 200 entries each, in ms; the bar is 300.
func BenchmarkYear(b *testing.B) {
	s := year(b, 300, 200)
	for b.Loop() {
		wraps(b, s, "k", func(x *bot.Records, list []*bot.Wrap) {
			if len(list) != 301 || len(bot.Wasted(x, list)) == 0 || bot.SayPast(x, list, time.Time{}) == "" {
				b.Fatal(len(list))
			}
		})
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms")
}

// Once a service is over and the room is quiet it is asked whether to wrap up, once; while there
// is talk it waits, and after a wrap-up nobody asks.
func TestAsksWhenOver(t *testing.T) {
	for _, how := range []string{"quiet", "talk", "wrapped"} {
		t.Run(how, func(t *testing.T) {
			r := planRoom(t)
			if got := r.say("7", "ana", "start: 2 dishes for 4 in 30 minutes"); !strings.Contains(got.Text, "2 dishes for 4") {
				t.Fatalf("%s", got.Text)
			}
			began := r.at
			asked := func(from, to int) (n int) {
				for m := from; m <= to; m++ {
					rung, _, err := r.b.Ring(context.Background(), began.Add(time.Duration(m)*time.Minute))
					if err != nil {
						t.Fatal(err)
					}
					for _, p := range rung {
						if strings.Contains(p.Reply.Text, "Is the service over?") {
							n++
						}
					}
				}
				return n
			}
			if n := asked(0, 45); n != 0 {
				t.Fatalf("asked %d times before its time", n)
			}
			want, late := 1, 0
			switch how {
			case "talk":
				r.at = began.Add(48 * time.Minute)
				r.say("8", "bo", "used 100g leek in the soup")
				if n := asked(46, 56); n != 0 {
					t.Errorf("asked %d times while there was talk", n)
				}
				late = 10
			case "wrapped":
				r.at = began.Add(46 * time.Minute)
				r.say("8", "bo", "used 100g leek in the soup")
				r.say("8", "bo", "wrap up")
				want = 0
			}
			if n := asked(47+late, 180); n != want {
				t.Errorf("asked %d times, not %d", n, want)
			}
		})
	}
}

// What is edited, corrected or written as planned was done when it was done: a dish does not
// get a later date by it.
func TestTimeStays(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "got 1kg leeks, 500g carrots")
	r.say("7", "ana", "used 500g leeks in the soup")
	cooked := r.at
	r.say("7", "ana", "used 100g carrots in the soup")
	made := r.at
	r.say("7", "ana", "wrap up")
	r.at = r.at.Add(70 * time.Hour)
	r.do(bot.Message{ID: r.byText["used 500g leeks in the soup"], Edit: true, Version: "2", Text: "used 450g leeks in the soup"})
	r.say("7", "ana", "the carrots should be 90g")
	wraps(t, r.s, "k", func(x *bot.Records, list []*bot.Wrap) {
		s, err := x.Sheet(bot.WithDishes(list, 0), "soup")
		if err != nil || len(s.Parts) != 2 || s.Parts[0].AP != 450_000 {
			t.Fatalf("%v: %+v", err, s)
		}
		if s.Cooked.After(made) || s.Cooked.Before(cooked.Add(-time.Minute)) {
			t.Errorf("cooked at %v, made at %v", s.Cooked, made)
		}
		labels, err := bot.Labels(x, bot.WithDishes(list, 0), pantry.DateOf(made), time.UTC, "uk")
		if want := pantry.DateOf(made.AddDate(0, 0, 2)); err != nil || len(labels) != 1 || labels[0].UseBy > want || labels[0].UseBy == "" {
			t.Errorf("%v: %+v, wanted no later than %s", err, labels, want)
		}
	})
}

// What is logged soon after a wrap-up is of the service that was wrapped up; a delivery begins
// another.
func TestLoggedAfter(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "got 1kg leeks, 500g salmon")
	r.say("7", "ana", "used 400g salmon in the chowder")
	r.say("8", "bo", "wrap up")
	if got := r.say("7", "ana", "used 200g leeks in the chowder"); !strings.Contains(got.Text, "It counts for the service that was wrapped up") {
		t.Errorf("%s", got.Text)
	}
	one := func(parts, accounts int) {
		t.Helper()
		wraps(t, r.s, "k", func(x *bot.Records, list []*bot.Wrap) {
			s, err := x.Sheet(bot.WithDishes(list, 0), "chowder")
			if err != nil || len(s.Parts) != parts || len(list) != accounts {
				t.Fatalf("%v: %d parts, %d accounts", err, len(s.Parts), len(list))
			}
		})
	}
	one(2, 2)
	if got := r.say("7", "ana", "undo"); !strings.Contains(got.Text, "leek 200 g") {
		t.Errorf("%s", got.Text)
	}
	one(1, 2)
	r.say("7", "ana", "got 2kg leeks")
	if got := r.say("7", "ana", "used 300g leeks in the chowder"); strings.Contains(got.Text, "It counts for") {
		t.Errorf("%s", got.Text)
	}
	one(1, 2)
}

// Another plan takes the place of the one that is on: what that had kept is free.
func TestAnotherPlanFrees(t *testing.T) {
	r, p, _ := begun(t)
	r.say("7", "ana", "plan 1 dish for 2 in 45 minutes, two cooks")
	if got := r.say("7", "ana", "accept"); got.Kind != bot.Log {
		t.Fatalf("%+v", got)
	}
	on := serviceIn(t, r.s)
	k, _ := r.s.View(context.Background(), "k")
	for _, l := range k.Lines {
		for _, h := range l.Holds {
			if !slices.Contains(on.Names, h.Dish) {
				t.Errorf("%s is kept for the %s still, of %s", l.Name, h.Dish, p.Dishes[0].Name)
			}
		}
	}
	r.say("7", "ana", "wrap up")
	if k, _ = r.s.View(context.Background(), "k"); claimsOf(k) != "" {
		t.Errorf("kept after the wrap-up:\n%s", claimsOf(k))
	}
}

// A dish is not kept for again where somebody at the table is allergic to what is in it.
func TestRecookMindsTheTable(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "got 1kg leeks, 500g butter")
	r.say("7", "ana", "used 300g leeks in the leek pie")
	r.say("7", "ana", "used 100g butter in the leek pie")
	r.say("7", "ana", "table: 1 milk allergy")
	if got := r.say("7", "ana", "cook the leek pie again"); got.Kind != bot.Answer || !strings.Contains(got.Text, "Milk allergy at the table") {
		t.Errorf("%+v", got)
	}
	if k, _ := r.s.View(context.Background(), "k"); claimsOf(k) != "" {
		t.Errorf("kept:\n%s", claimsOf(k))
	}
	r.say("7", "ana", "table: none")
	if got := r.say("7", "ana", "cook the leek pie again"); got.Kind != bot.Log || len(got.Entries) != 2 {
		t.Errorf("%+v", got)
	}
}
