package account_test

import (
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Of what one message cuts up each part costs as much as its share of the weight, and together they cost to the penny
// what was cut up.
func TestPartsShareCost(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := &pantry.Kitchen{}
		k.Add(&pantry.Line{ID: 1, Name: "chicken", Unit: measure.Gram, Shelf: food.Crate})
		cost := rapid.Int64Range(1, 20_000).Draw(rt, "cost")
		said := ledger{
			{N: 1, Entry: pantry.Entry{Act: pantry.Receive, Line: 1, Amount: 6_000_000, Lot: pantry.LotTerms{Cost: cost}}},
			{N: 2, Entry: pantry.Entry{Act: pantry.Use, Line: 1, Amount: 6_000_000}},
		}
		var whole int64
		parts := rapid.SliceOfN(rapid.Int64Range(1, 3_000_000), 1, 5).Draw(rt, "parts")
		for i, mg := range parts {
			k.Add(&pantry.Line{ID: int64(i + 2), Name: "part", Unit: measure.Gram, Shelf: food.Crate})
			said = append(said, pantry.Placed{N: 2, Entry: pantry.Entry{Act: pantry.Make, Line: int64(i + 2), Amount: measure.Amount(mg)}})
			whole += mg
		}
		list, err := account.Periods(k, nil, said, func(*pantry.Line) *food.Food { return nil }, func(*account.Period, string) int64 { return 0 })
		if err != nil {
			rt.Fatal(err)
		}
		var sum int64
		for _, a := range list[len(list)-1].Lines {
			if a.ID == 1 {
				continue
			}
			sum += a.Carried.Cost
			if share := cost * parts[a.ID-2] / whole; a.Carried.Cost < share-int64(len(parts)) || a.Carried.Cost > share+int64(len(parts)) {
				rt.Errorf("%d mg of %d cost %d of %d", parts[a.ID-2], whole, a.Carried.Cost, cost)
			}
		}
		if sum != cost {
			rt.Errorf("the parts cost %d, and the whole %d", sum, cost)
		}
	})
}
