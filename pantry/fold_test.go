package pantry

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

var (
	someCooks  = rapid.SampledFrom([]string{"larder", "stove", "pastry"})
	someDishes = rapid.SampledFrom([]string{"", "tart", "soup"})
	someDates  = rapid.SampledFrom([]Date{"", "2026-03-02", "2026-03-03", "2026-03-04", "2026-03-09"})
	// Small amounts meet each other (all of a lot, none of it) more often.
	someAmounts = rapid.OneOf(rapid.Int64Range(0, 6), rapid.Int64Range(0, 500_000), rapid.Just(int64(measure.Most)))
)

func someEntry(t *rapid.T) Entry {
	e := Entry{
		Act:    rapid.SampledFrom(Acts).Draw(t, "act"),
		Amount: measure.Amount(someAmounts.Draw(t, "amount")),
		Cook:   someCooks.Draw(t, "cook"),
		Dish:   someDishes.Draw(t, "dish"),
	}
	switch e.Act {
	case Bin, Use:
		e.Trim = rapid.Bool().Draw(t, "trim")
	case Receive, Make, Count, Return:
		e.Lot.Date = someDates.Draw(t, "date")
		e.Lot.PieceMg = measure.Amount(rapid.Int64Range(0, 3).Draw(t, "piece")) * 100_000
		e.Lot.Weighed = rapid.Bool().Draw(t, "weighed")
		e.Lot.Best, e.Lot.Label = rapid.Bool().Draw(t, "best"), rapid.Bool().Draw(t, "label")
		if e.Act == Count && rapid.Bool().Draw(t, "turns") {
			e.Lot.State = rapid.SampledFrom([]food.State{food.Opened, food.Frozen, food.Thawed}).Draw(t, "state")
		}
	}
	return e
}

// sound is what must hold of a line at all times.
func sound(l *Line) error {
	if !l.Balanced() {
		return fmt.Errorf("the account does not close: %+v", *l)
	}
	var sum measure.Amount
	for _, lot := range l.Lots {
		if lot.Left < 0 || lot.Left > lot.Came {
			return fmt.Errorf("a lot of %d has %d left", lot.Came, lot.Left)
		}
		sum += lot.Left
	}
	if l.OnHand() != sum {
		return fmt.Errorf("%d on hand, the lots hold %d", l.OnHand(), sum)
	}
	for _, h := range l.Holds {
		if h.Amount <= 0 {
			return fmt.Errorf("a claim of %d", h.Amount)
		}
	}
	if l.Free() != l.OnHand()-l.Claimed()+l.Short() || l.Free() < 0 || l.Short() < 0 || l.Free() > 0 && l.Short() > 0 {
		return fmt.Errorf("%d on hand, %d claimed, %d free, %d short", l.OnHand(), l.Claimed(), l.Free(), l.Short())
	}
	for _, c := range []string{"larder", "stove", "pastry"} {
		if f := l.FreeFor(c); f < 0 || f > l.OnHand() {
			return fmt.Errorf("%d free for %s of %d on hand", f, c, l.OnHand())
		}
	}
	return nil
}

func someLine(t *rapid.T) *Line {
	l := &Line{Name: "leek"}
	for range rapid.IntRange(0, 25).Draw(t, "entries") {
		if _, err := l.Apply(someEntry(t)); err != nil {
			t.Fatal(err)
		}
	}
	return l
}

func TestAccountClosesAfterEveryEntry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &Line{ID: 3, Name: "leek"}
		var entries []Entry
		for range rapid.IntRange(1, 40).Draw(t, "entries") {
			e := someEntry(t)
			before := *l
			f, err := l.Apply(e)
			if err != nil {
				t.Fatal(err)
			}
			entries = append(entries, e)
			if err := sound(l); err != nil {
				t.Fatalf("after %+v: %v", e, err)
			}
			if err := moved(&before, l, e, f); err != nil {
				t.Fatalf("%+v: %v", e, err)
			}
		}
		folded, err := Fold(*l, entries)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(folded, *l) {
			t.Fatalf("folded from scratch %+v, step by step %+v", folded, *l)
		}
	})
}

// moved checks one step's totals and effect. Before's lots are shared with
// after's, so only its totals are used.
func moved(before, after *Line, e Entry, f Effect) error {
	onHand := before.Received + before.Made - before.Used - before.Binned - before.Variance
	change := after.OnHand() - onHand
	var want measure.Amount
	switch e.Act {
	case Receive, Make, Return:
		want = e.Amount
	case Use, Bin:
		if !e.Trim {
			want = -min(e.Amount, onHand)
		}
		if over := max(0, e.Amount-onHand); !e.Trim && f.Over != over {
			return fmt.Errorf("%d over, not %d", f.Over, over)
		}
	case Count:
		if e.Lot.State != "" { // it tells no balance
			if f.Turned < 0 || f.Turned > e.Amount || f.Turned > onHand {
				return fmt.Errorf("%d turned of %d, %d on hand", f.Turned, e.Amount, onHand)
			}
			break
		}
		want = e.Amount - onHand
		if f.Lost != -want {
			return fmt.Errorf("%d lost, not %d", f.Lost, -want)
		}
	}
	if change != want {
		return fmt.Errorf("stock moved by %d, not %d", change, want)
	}
	return nil
}

func TestBadEntriesChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someLine(t)
		before := copyOf(l)
		bad := rapid.SampledFrom([]Entry{{Act: "eat", Amount: 1}, {Act: Use, Amount: -1}, {}}).Draw(t, "bad")
		if _, err := l.Apply(bad); err == nil {
			t.Fatalf("%+v was taken", bad)
		}
		if !reflect.DeepEqual(*l, before) {
			t.Fatalf("%+v changed the line", bad)
		}
	})
}

func copyOf(l *Line) Line {
	c := *l
	c.Lots, c.Holds = slices.Clone(l.Lots), slices.Clone(l.Holds)
	return c
}

func TestFirstExpiredFirstOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someLine(t)
		before := copyOf(l)
		a := measure.Amount(someAmounts.Draw(t, "drawn"))
		if _, err := l.Apply(Entry{Act: Use, Amount: a}); err != nil {
			t.Fatal(err)
		}
		for i, drawn := range l.Lots {
			if drawn.Left == before.Lots[i].Left {
				continue
			}
			for j, other := range l.Lots {
				if f, g := drawn.State == food.Frozen, other.State == food.Frozen; f != g {
					if f && other.Left > 0 {
						t.Fatalf("lot %d was drawn from the freezer while lot %d still had %d", i, j, other.Left)
					}
					continue
				}
				sooner := other.Date != "" && (drawn.Date == "" || other.Date < drawn.Date)
				older := other.Date == drawn.Date && j < i
				if (sooner || older) && other.Left > 0 {
					t.Fatalf("lot %d (%q) was drawn while lot %d (%q) still had %d", i, drawn.Date, j, other.Date, other.Left)
				}
			}
		}
	})
}

// A return straight after a use that drew on one lot puts the lot back as it
// was, whatever happened before.
func TestReturnGoesBackToItsLot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someLine(t)
		before := copyOf(l)
		order := l.drawOrder()
		at := slices.IndexFunc(order, func(i int) bool { return l.Lots[i].Left > 0 })
		if at < 0 {
			t.Skip("nothing to draw")
		}
		a := measure.Amount(rapid.Int64Range(1, int64(l.Lots[order[at]].Left)).Draw(t, "drawn"))
		for _, act := range []Act{Use, Return} {
			if _, err := l.Apply(Entry{Act: act, Amount: a}); err != nil {
				t.Fatal(err)
			}
		}
		for i := range l.Lots {
			if l.Lots[i].Left != before.Lots[i].Left {
				t.Fatalf("lot %d had %d, has %d", i, before.Lots[i].Left, l.Lots[i].Left)
			}
		}
		if l.Used != before.Used {
			t.Fatalf("used %d, was %d", l.Used, before.Used)
		}
	})
}

func TestWhereThingsGo(t *testing.T) {
	in := func(a measure.Amount, d Date) Entry { return Entry{Act: Receive, Amount: a, Lot: LotTerms{Date: d}} }
	do := func(act Act, a measure.Amount) Entry { return Entry{Act: act, Amount: a} }
	for _, c := range []struct {
		name    string
		entries []Entry
		left    []measure.Amount // by lot
		over    measure.Amount   // kept as a negative variance
	}{
		{"the sooner date first", []Entry{in(10, "2026-03-05"), in(10, "2026-03-03"), do(Use, 4)}, []measure.Amount{10, 6}, 0},
		{"undated last", []Entry{in(10, ""), in(10, "2026-03-03"), do(Bin, 12)}, []measure.Amount{8, 0}, 0},
		{"the older of equals first", []Entry{in(10, "2026-03-03"), in(10, "2026-03-03"), do(Use, 3)}, []measure.Amount{7, 10}, 0},
		{"back across two lots", []Entry{in(10, "2026-03-03"), in(10, "2026-03-05"), do(Use, 14), do(Return, 6)}, []measure.Amount{2, 10}, 0},
		{"back past a sooner lot that came since", []Entry{in(10, "2026-03-05"), do(Use, 4), in(10, "2026-03-03"), do(Return, 4)}, []measure.Amount{10, 10}, 0},
		{"back to the sooner lot, last drawn", []Entry{in(10, "2026-03-05"), do(Use, 4), in(10, "2026-03-03"), do(Use, 2), do(Return, 2)}, []measure.Amount{6, 10}, 0},
		{"not to a lot that was only binned", []Entry{in(10, "2026-03-03"), in(10, "2026-03-05"), do(Use, 10), do(Bin, 5), do(Return, 5)}, []measure.Amount{5, 5}, 0},
		{"back with no room", []Entry{in(10, "2026-03-03"), do(Return, 5)}, []measure.Amount{15}, 0},
		{"back to an empty shelf", []Entry{do(Return, 5)}, []measure.Amount{5}, 0},
		{"more than there was", []Entry{in(10, ""), do(Use, 25)}, []measure.Amount{0}, 15},
		{"counted less", []Entry{in(10, ""), do(Count, 4)}, []measure.Amount{4}, -6},
		{"counted more", []Entry{in(10, ""), do(Count, 14)}, []measure.Amount{14}, 4},
		{"trim is not drawn", []Entry{in(10, ""), {Act: Bin, Amount: 3, Trim: true}}, []measure.Amount{10}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := Fold(Line{Name: "leek"}, c.entries)
			if err != nil {
				t.Fatal(err)
			}
			var left []measure.Amount
			for _, lot := range l.Lots {
				left = append(left, lot.Left)
			}
			if !slices.Equal(left, c.left) || l.Variance != -c.over {
				t.Errorf("left %v and variance %d, want %v and %d", left, l.Variance, c.left, -c.over)
			}
			if err := sound(&l); err != nil {
				t.Error(err)
			}
		})
	}
}

// A piece weighed later is what one of all that is left weighs, and no more.
func TestPieceWeighedLater(t *testing.T) {
	l := &Line{Name: "leek"}
	for _, step := range []struct {
		e       Entry
		piece   measure.Amount
		weighed bool
	}{
		{Entry{Act: Receive, Amount: 1000, Lot: LotTerms{PieceMg: 200, Date: "2026-03-05"}}, 200, false},
		{Entry{Act: Count, Amount: 900}, 200, false},
		{Entry{Act: Count, Amount: 1100, Lot: LotTerms{PieceMg: 220, Weighed: true}}, 220, true},
		{Entry{Act: Receive, Amount: 500, Lot: LotTerms{PieceMg: 250, Weighed: true, Date: "2026-03-03"}}, 250, true},
		{Entry{Act: Use, Amount: 500}, 220, true},
		{Entry{Act: Use, Amount: 1100}, 250, true}, // nothing is left: the newest lot's
		{Entry{Act: Receive, Amount: 10, Lot: LotTerms{PieceMg: 200}}, 200, false},
	} {
		if _, err := l.Apply(step.e); err != nil {
			t.Fatal(err)
		}
		if l.PieceMg() != step.piece || l.Weighed() != step.weighed {
			t.Errorf("after %+v one is %d, weighed %v; want %d, %v", step.e, l.PieceMg(), l.Weighed(), step.piece, step.weighed)
		}
	}
}

func TestClaims(t *testing.T) {
	claim := func(cook, dish string, a measure.Amount) Entry {
		return Entry{Act: Claim, Cook: cook, Dish: dish, Amount: a}
	}
	use := func(cook, dish string, a measure.Amount) Entry {
		return Entry{Act: Use, Cook: cook, Dish: dish, Amount: a}
	}
	in := Entry{Act: Receive, Amount: 100}
	for _, c := range []struct {
		name    string
		entries []Entry
		holds   []Hold
		held    measure.Amount // by the last entry
	}{
		{"own claim first", []Entry{in, claim("larder", "", 30), use("larder", "", 10)}, []Hold{{"larder", "", 20}}, 10},
		{"the dish's claim, whoever made it", []Entry{in, claim("larder", "tart", 30), use("stove", "tart", 10)}, []Hold{{"larder", "tart", 20}}, 10},
		{"own claim for the dish before a colleague's", []Entry{in, claim("larder", "tart", 30), claim("stove", "tart", 5), use("stove", "tart", 10)}, []Hold{{"larder", "tart", 25}}, 10},
		{"a stranger's use leaves claims alone", []Entry{in, claim("larder", "tart", 30), use("stove", "soup", 90)}, []Hold{{"larder", "tart", 30}}, 0},
		{"claims for one dish add up", []Entry{in, claim("larder", "tart", 30), claim("larder", "tart", 5)}, []Hold{{"larder", "tart", 35}}, 0},
		{"a release takes at most what is claimed", []Entry{in, claim("larder", "tart", 30), {Act: Release, Cook: "larder", Amount: 50}}, nil, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := &Line{Name: "leek"}
			var f Effect
			for _, e := range c.entries {
				var err error
				if f, err = l.Apply(e); err != nil {
					t.Fatal(err)
				}
			}
			if !slices.Equal(l.Holds, c.holds) || f.Held != c.held {
				t.Errorf("claims %v, %d out of a claim; want %v, %d", l.Holds, f.Held, c.holds, c.held)
			}
		})
	}
}

// A line that is restocked and used up daily remembers a few lots, not all;
// one with many lots that still hold something forgets none of them.
func TestUsedUpLotsAreForgotten(t *testing.T) {
	l := &Line{Name: "leek"}
	for range 500 {
		for _, e := range []Entry{{Act: Receive, Amount: 10}, {Act: Use, Amount: 10}} {
			if _, err := l.Apply(e); err != nil {
				t.Fatal(err)
			}
		}
		if len(l.Lots) > keptLots {
			t.Fatalf("%d lots are remembered", len(l.Lots))
		}
	}
	for range 50 {
		if _, err := l.Apply(Entry{Act: Receive, Amount: 10}); err != nil {
			t.Fatal(err)
		}
	}
	if l.OnHand() != 500 {
		t.Fatalf("%d on hand of 500", l.OnHand())
	}
	for _, e := range []Entry{{Act: Use, Amount: 500}, {Act: Receive, Amount: 10}} {
		if _, err := l.Apply(e); err != nil {
			t.Fatal(err)
		}
	}
	if len(l.Lots) > keptLots {
		t.Fatalf("%d lots are remembered once they are used up", len(l.Lots))
	}
	if err := sound(l); err != nil {
		t.Fatal(err)
	}
}
