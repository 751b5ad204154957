package pantry

import (
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// What is opened, and what is left closed, never has a later date than its pack.
func TestNoDateLaterThanThePack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &Line{Name: "cream"}
		pack := map[measure.Amount]Date{} // every lot has a piece weight of its own, to be known by
		for i := range rapid.IntRange(1, 30).Draw(t, "entries") {
			e := someEntry(t)
			switch {
			case e.Act == Receive || e.Act == Make:
				e.Lot.PieceMg = measure.Amount(i + 1)
				pack[e.Lot.PieceMg] = e.Lot.Date
			case e.Act == Count && e.Lot.State == "", e.Act == Return, e.Lot.State == food.Frozen, e.Lot.State == food.Thawed:
				continue // what comes back is no lot's for sure, and frozen food has the freezer's date
			}
			if e.Act == Count {
				e.Lot.PieceMg = 0
			}
			if _, err := l.Apply(e); err != nil {
				t.Fatal(err)
			}
			for _, o := range l.Lots {
				if p := pack[o.PieceMg]; p != "" && (o.Date == "" || o.Date > p) {
					t.Fatalf("a lot of %s with the date %q, its pack has %s", o.State, o.Date, p)
				}
			}
		}
	})
}

func TestOpenedFrozenThawed(t *testing.T) {
	l := &Line{Name: "tomato"}
	apply := func(e Entry) Effect {
		t.Helper()
		f, err := l.Apply(e)
		if err != nil {
			t.Fatal(err)
		}
		if err := sound(l); err != nil {
			t.Fatal(err)
		}
		return f
	}
	turned := func(state food.State, a measure.Amount, d Date, want measure.Amount) {
		t.Helper()
		if f := apply(Entry{Act: Count, Amount: a, Lot: LotTerms{State: state, Date: d}}); f.Turned != want || f.Lost != 0 {
			t.Errorf("%s %d: %+v", state, a, f)
		}
	}
	apply(Entry{Act: Receive, Amount: 800, Lot: LotTerms{Date: "2026-03-09", Cost: 101, PieceMg: 400, Label: true}})
	turned(food.Opened, 400, "2026-03-05", 400)
	if len(l.Lots) != 2 || l.Lots[0].Cost+l.Lots[1].Cost != 101 || l.Lots[1].Date != "2026-03-05" || l.Lots[1].Label || l.Lots[0].Date != "2026-03-09" {
		t.Errorf("opened one of two: %+v", l.Lots)
	}
	turned(food.Opened, 900, "2026-03-12", 400) // the rest; the pack's date is the shorter
	if a, o := l.In(food.Opened); a != 800 || o.Date != "2026-03-05" {
		t.Errorf("all open: %d, %+v", a, o)
	}
	turned(food.Opened, 100, "2026-03-01", 0)
	turned(food.Frozen, 300, "2026-06-01", 300)
	if a, o := l.In(food.Frozen); a != 300 || o.Date != "2026-06-01" {
		t.Errorf("frozen: %d, %+v", a, o)
	}
	if d, _ := l.Soonest(); d != "2026-03-05" {
		t.Errorf("soonest %s", d)
	}
	if n := l.Turnable(food.Thawed); n != 300 {
		t.Errorf("%d can be thawed", n)
	}
	turned(food.Thawed, 300, "2026-03-04", 300)
	turned(food.Frozen, 800, "2026-06-01", 500) // what was thawed stays out
	apply(Entry{Act: Use, Amount: 300, Cook: "ana"})
	if a, _ := l.In(food.Frozen); a != 500 || l.OnHand() != 500 {
		t.Errorf("used from the freezer first: %+v", l.Lots)
	}
}
