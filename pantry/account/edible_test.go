package account_test

import (
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Edible weights close whatever is trimmed, more or less than the books allow, and put by of pots that boil
// down or swell; and no food weighs more edible than it does.
func TestEdibleCloses(t *testing.T) {
	const banana, cream, soup = 1, 2, 3
	foods := map[int64]*food.Food{}
	for id, name := range map[int64]string{banana: "banana", cream: "double cream"} {
		f, ok := food.Default().Food(name)
		if !ok {
			t.Fatal(name)
		}
		foods[id] = f
	}
	foodOf := func(l *pantry.Line) *food.Food { return foods[l.ID] }
	rapid.Check(t, func(rt *rapid.T) {
		k := &pantry.Kitchen{}
		k.Add(&pantry.Line{ID: banana, Name: "banana", Unit: measure.Gram, Shelf: food.Crate})
		k.Add(&pantry.Line{ID: cream, Name: "double cream", Unit: measure.Millilitre, Shelf: food.Crate})
		k.Add(&pantry.Line{ID: soup, Name: "soup", Unit: measure.Gram, Shelf: food.Crate})
		var said ledger
		var wraps []pantry.WrapUp
		for n := range rapid.Int64Range(1, 30).Draw(rt, "entries") {
			e := pantry.Entry{Line: rapid.Int64Range(banana, soup).Draw(rt, "line"), Amount: measure.Amount(rapid.Int64Range(1, 1_500_000).Draw(rt, "amount"))}
			e.Act = rapid.SampledFrom([]pantry.Act{pantry.Receive, pantry.Use, pantry.Use, pantry.Bin, pantry.Count, pantry.Make}).Draw(rt, "act")
			switch e.Act {
			case pantry.Use:
				e.Dish = rapid.SampledFrom([]string{"soup", "pie", pantry.AwayTo("")}).Draw(rt, "dish")
			case pantry.Bin:
				e.Trim = rapid.Bool().Draw(rt, "trim")
			case pantry.Make:
				e.Line, e.Dish = soup, "soup"
			}
			said = append(said, pantry.Placed{Entry: e, N: n + 1})
			if rapid.IntRange(0, 9).Draw(rt, "over") == 0 {
				wraps = append(wraps, pantry.WrapUp{N: n + 1})
			}
		}
		came := rapid.SampledFrom([]int64{0, 400_000, 5_000_000}).Draw(rt, "came to")
		list, err := account.Periods(k, wraps, said, foodOf, func(*account.Period, string) int64 { return came })
		if err != nil {
			rt.Fatal(err)
		}
		closes := func(of string, c account.Columns) {
			if in, out := c.Had.EP+c.Came.EP+c.Made.EP, c.Dishes.EP+c.Served.EP+c.Given.EP+c.Trim.EP+c.Binned.EP+c.Carried.EP+c.Variance.EP; in != out {
				rt.Fatalf("%s: %d edible in, %d out: %+v\n%+v", of, in, out, c, said)
			}
			for _, s := range []account.Weight{c.Had, c.Came, c.Made, c.Dishes, c.Given, c.Trim, c.Binned, c.Carried} {
				if s.EP < 0 || s.EP > s.AP+2 { // shares of lots are rounded
					rt.Fatalf("%s: %d edible of %d: %+v\n%+v", of, s.EP, s.AP, c, said)
				}
			}
		}
		for i := range list {
			closes("crate", list[i].Total(k, foodOf).Columns)
			for j := range list[i].Lines {
				a := &list[i].Lines[j]
				l := k.Line(a.ID)
				closes(l.Name, list[i].Columns(a, l, foodOf(l)))
			}
		}
	})
}
