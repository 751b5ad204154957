package store

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/measure"
)

func TestLotsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lot := rapid.Custom(func(t *rapid.T) (l pantry.Lot) {
			l.Date = pantry.Date(rapid.SampledFrom([]string{"", "2026-03-04", "9999-12-31"}).Draw(t, "date"))
			l.Label = rapid.Bool().Draw(t, "label")
			l.Weighed = rapid.Bool().Draw(t, "weighed")
			l.Cost = rapid.Int64().Draw(t, "cost")
			l.PieceMg = measure.Amount(rapid.Int64().Draw(t, "piece"))
			l.Came = measure.Amount(rapid.Int64().Draw(t, "came"))
			l.Left = measure.Amount(rapid.Int64().Draw(t, "left"))
			l.Used = rapid.Int().Draw(t, "used")
			return l
		})
		lots := rapid.SliceOfN(lot, 0, 20).Draw(t, "lots")
		got, err := readLots(sayLots(lots))
		if err != nil || !slices.Equal(got, lots) {
			t.Fatalf("%v became %v, %v", lots, got, err)
		}
	})
}

func TestWhatIsNoLot(t *testing.T) {
	for _, s := range []string{"x", "\n", "[]", ",0,0,0,0,0,0", ",0,0,0,0,0\n", ",0,0,0,0,0,0,0\n", ",0,0,0,0,x,0\n", ",0,0,0,0,0,0\n,", ",,,,,,\n", ",0,0,0,0,99999999999999999999,0\n"} {
		if lots, err := readLots(s); err == nil {
			t.Errorf("%q was read as %v", s, lots)
		}
	}
	if lots, err := readLots(",0,0,0,0,0,0\n"); err != nil || len(lots) != 1 {
		t.Errorf("a bare lot was read as %v, %v", lots, err)
	}
}
