package account_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// drawn is a line's life: entries of every kind, in spans that follow one another.
func drawn(t *rapid.T) (steps []pantry.Placed, spans []account.Span) {
	n := int64(0)
	for range rapid.IntRange(1, 5).Draw(t, "spans") {
		from := n + 1
		for range rapid.IntRange(0, 14).Draw(t, "entries") {
			n++
			e := pantry.Entry{Act: rapid.SampledFrom(pantry.Acts).Draw(t, "act"), Line: 1, Cook: "bo",
				Amount: measure.Amount(rapid.Int64Range(0, 3_000_000).Draw(t, "amount")),
				Dish:   rapid.SampledFrom([]string{"", "tart", "soup", pantry.AwayTo(""), pantry.AwayTo("next door")}).Draw(t, "dish")}
			switch e.Act {
			case pantry.Receive, pantry.Make:
				e.Lot = pantry.LotTerms{Cost: rapid.Int64Range(0, 2000).Draw(t, "cost"), Date: pantry.Date(rapid.SampledFrom([]string{"", "2026-03-04", "2026-03-09"}).Draw(t, "date"))}
			case pantry.Bin:
				e.Trim = rapid.Bool().Draw(t, "trim")
			case pantry.Use:
				e.Trim = rapid.IntRange(0, 9).Draw(t, "saved") == 0
			}
			steps = append(steps, pantry.Placed{Entry: e, N: n})
		}
		if rapid.Bool().Draw(t, "kept") || len(spans) == 0 {
			spans = append(spans, account.Span{From: from, To: n})
		}
	}
	return steps, spans
}

// Whatever happens to a line, its account closes in every span, to the milligram and to the
// penny, and what one span carries over the next has.
func TestCloses(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		steps, spans := drawn(rt)
		list, err := account.Of(pantry.Line{ID: 1, Name: "leek"}, steps, spans)
		if err != nil {
			rt.Fatal(err)
		}
		for i, a := range list {
			if a.In() != a.Out() {
				rt.Fatalf("span %d: in %+v, out %+v: %+v", i, a.In(), a.Out(), a)
			}
			if i > 0 && spans[i].From == spans[i-1].To+1 && a.Had != list[i-1].Carried {
				rt.Fatalf("span %d has %+v, %+v was carried over", i, a.Had, list[i-1].Carried)
			}
			for name, s := range map[string]account.Sum{"trim": a.Trim, "had": a.Had, "carried": a.Carried, "came": a.Came} {
				if s.Amount < 0 || s.Cost < 0 || s.Unpriced < 0 || s.Unpriced > s.Amount {
					rt.Fatalf("span %d, %s: %+v", i, name, s)
				}
			}
			var of, given account.Sum
			for _, d := range a.Of {
				of.Amount += d.Amount
				of.Cost += d.Cost
			}
			for _, d := range a.GivenTo {
				given.Amount += d.Amount
				given.Cost += d.Cost
			}
			if given.Amount != a.Given.Amount || given.Cost != a.Given.Cost {
				rt.Fatalf("span %d: %+v was given away, %+v to somebody", i, a.Given, given)
			}
			if used := a.Used(); of.Amount != used.Amount || of.Cost != used.Cost {
				rt.Fatalf("span %d: dishes took %+v, used %+v", i, of, used)
			}
		}
	})
}

// The account says of each span what the entries of that span say, by a sum of their own.
func TestSaysWhatWasSaid(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		steps, spans := drawn(rt)
		list, err := account.Of(pantry.Line{ID: 1}, steps, spans)
		if err != nil {
			rt.Fatal(err)
		}
		for i, a := range list {
			var came, made, used, binned, trim, sold measure.Amount
			cost, ours := int64(0), false
			for _, s := range steps {
				ours = ours || s.Act == pantry.Make && s.Amount > 0
				if s.N < spans[i].From || s.N > spans[i].To {
					continue
				}
				switch {
				case s.Act == pantry.Use && !s.Trim && s.Dish == "" && ours:
					sold += s.Amount
				case s.Act == pantry.Return && s.Dish == "" && ours && s.Amount <= sold:
					sold -= s.Amount
				case s.Act == pantry.Receive:
					came += s.Amount
					cost += s.Lot.Cost
				case s.Act == pantry.Make:
					made += s.Amount
				case s.Act == pantry.Bin && s.Trim:
					trim += s.Amount
				case s.Act == pantry.Bin:
					binned += s.Amount
				case s.Act == pantry.Use && !s.Trim:
					used += s.Amount
				case s.Act == pantry.Return:
					used -= s.Amount
				}
			}
			if a.Came.Amount != came || a.Came.Cost != cost || a.Made.Amount != made || a.Used().Amount+a.Given.Amount != used || a.Binned.Amount != binned || a.Trim.Amount+a.Loose != trim {
				rt.Fatalf("span %d: %+v; came %d for %d, made %d, used %d, binned %d, trim %d", i, a, came, cost, made, used, binned, trim)
			}
		}
	})
}

// A worked example: two deliveries at their own prices, the older drawn first.
func TestCostsFirstExpiredFirst(t *testing.T) {
	steps := []pantry.Placed{
		{N: 1, Entry: pantry.Entry{Act: pantry.Receive, Amount: 1_000_000, Lot: pantry.LotTerms{Cost: 200, Date: "2026-03-09"}}},
		{N: 2, Entry: pantry.Entry{Act: pantry.Receive, Amount: 500_000, Lot: pantry.LotTerms{Cost: 150, Date: "2026-03-04"}}},
		{N: 3, Entry: pantry.Entry{Act: pantry.Use, Amount: 750_000, Dish: "tart"}}, // all of the second, a quarter of the first
		{N: 4, Entry: pantry.Entry{Act: pantry.Bin, Amount: 150_000, Trim: true}},
		{N: 5, Entry: pantry.Entry{Act: pantry.Count, Amount: 700_000}},
	}
	list, err := account.Of(pantry.Line{ID: 1}, steps, []account.Span{{From: 1, To: 2}, {From: 3, To: 5}})
	if err != nil {
		t.Fatal(err)
	}
	a := list[1]
	want := map[string][2]account.Sum{
		"had": {a.Had, {Amount: 1_500_000, Cost: 350}}, "used": {a.Used(), {Amount: 750_000, Cost: 200}}, "trim": {a.Trim, {Amount: 150_000, Cost: 40}},
		"dishes": {a.Dishes, {Amount: 600_000, Cost: 160}}, "variance": {a.Variance, {Amount: 50_000, Cost: 10}}, "carried": {a.Carried, {Amount: 700_000, Cost: 140}},
	}
	for name, x := range want {
		if x[0] != x[1] {
			t.Errorf("%s: %+v, not %+v", name, x[0], x[1])
		}
	}
	if s := fmt.Sprint(list[0].Came); s != fmt.Sprint(account.Sum{Amount: 1_500_000, Cost: 350}) {
		t.Errorf("came %s", s)
	}
}

// What goes where is the same whether what was there before is known or not.
func TestFlow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		steps, spans := drawn(rt)
		list, err := account.Of(pantry.Line{ID: 1, Name: "leek"}, steps, spans)
		if err != nil {
			rt.Fatal(err)
		}
		amounts := func(of []account.Dish) string {
			s := ""
			for _, d := range of {
				s += fmt.Sprint(d.Name, " ", d.Amount, "; ")
			}
			return s
		}
		for i, want := range list {
			var within []pantry.Placed
			for _, s := range steps {
				if s.N >= spans[i].From && s.N <= spans[i].To {
					within = append(within, s)
				}
			}
			got := &account.Line{}
			made := map[int64]bool{}
			for _, s := range steps {
				made[1] = made[1] || s.N < spans[i].From && s.Act == pantry.Make && s.Amount > 0
			}
			if flow := account.Flow(within, made); len(flow) > 0 {
				got = flow[0]
			}
			a := [6]measure.Amount{got.Dishes.Amount, got.Given.Amount, got.Trim.Amount, got.Binned.Amount, got.Loose, got.Saved}
			b := [6]measure.Amount{want.Dishes.Amount, want.Given.Amount, want.Trim.Amount, want.Binned.Amount, want.Loose, want.Saved}
			if a != b || amounts(got.Of) != amounts(want.Of) || amounts(got.GivenTo) != amounts(want.GivenTo) {
				rt.Fatalf("span %d: %v %+v, want %v %+v", i, a, got, b, want)
			}
		}
	})
}
