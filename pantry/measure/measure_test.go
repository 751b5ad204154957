package measure

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSay(t *testing.T) {
	for _, c := range []struct {
		a    Amount
		k    Kind
		want string
	}{
		{0, Gram, "0 g"}, {400, Gram, "0.4 g"}, {2_500, Gram, "2.5 g"}, {10_400, Gram, "10 g"},
		{300_000, Gram, "300 g"}, {566_990, Gram, "567 g"}, {999_600, Gram, "1 kg"}, {1_200_000, Gram, "1.2 kg"},
		{1_933_010, Gram, "1.93 kg"}, {12_540_000, Gram, "12.5 kg"}, {250_000_000, Gram, "250 kg"},
		{284_131, Millilitre, "284 ml"}, {1_715_869, Millilitre, "1.72 l"}, {-100_000, Gram, "-100 g"}, {3, Gram, "0.003 g"},
	} {
		if got := Say(c.a, c.k); got != c.want {
			t.Errorf("Say(%d) = %q, want %q", c.a, got, c.want)
		}
	}
}

func TestSayPieces(t *testing.T) {
	for milli, want := range map[int64]string{500: "½", 1500: "1½", 2000: "2", 2730: "2.7", 333: "⅓", 2667: "2⅔", 250: "¼", 0: "0"} {
		if got := SayPieces(milli); got != want {
			t.Errorf("SayPieces(%d) = %q, want %q", milli, got, want)
		}
	}
}

// Exact values of the law: UK Weights and Measures Act 1985, Schedule 1, and
// NIST Handbook 44, Appendix C (from memory, as in the table).
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		word, place string
		n           Ratio
		want        Amount
	}{
		{"g", "uk", Whole(300), 300_000}, {"kg", "uk", Ratio{3, 2}, 1_500_000},
		{"lb", "uk", Whole(1), 453_592}, {"oz", "us", Whole(16), 453_592}, {"lb", "us", Whole(100), 45_359_237},
		{"pint", "uk", Ratio{1, 2}, 284_131}, {"pint", "us", Whole(1), 473_176}, {"pint", "uk", Whole(8), 4_546_090},
		{"cup", "uk", Whole(1), 250_000}, {"cup", "us", Whole(1), 236_588}, {"tsp", "uk", Ratio{3, 2}, 7_500},
		{"fl oz", "uk", Whole(20), 568_261}, {"stone", "uk", Whole(1), 6_350_293},
	} {
		u := DefaultUnits().Find(c.word, c.place)
		if u == nil {
			t.Fatalf("no unit %q", c.word)
		}
		if got, err := u.Base(c.n); err != nil || got != c.want {
			t.Errorf("%v %s (%s) = %d, %v; want %d", c.n, c.word, c.place, got, err, c.want)
		}
	}
	if _, err := DefaultUnits().Find("kg", "uk").Base(Whole(999_999)); err != ErrTooLarge {
		t.Errorf("999999 kg: %v, want ErrTooLarge", err)
	}
}

func TestReadUnitsRefuses(t *testing.T) {
	const head = "unit,aliases,sort,factor,to,low,high,place,source\n"
	for row, want := range map[string]string{
		"cubit,,length,1,g,,,,x":   "units:2: cubit: sort",
		"gram,g,mass,0,g,,,,x":     "units:2: gram: \"0\" is not a decimal",
		"gram,g,mass,1e3,g,,,,x":   "not a decimal",
		"gram,g,mass,1,g,,,,":      "needs a name and a source",
		"gram,g,mass,1,oz,,,,x":    "a unit is",
		"glug,,vague,10,ml,,,,x":   "needs low and high",
		"gram,g;g,mass,1,g,,,,x":   "stands twice",
		"gram,g,mass,1,g,,,mars,x": "place is",
	} {
		if _, err := ReadUnits("units", strings.NewReader(head+row+"\n")); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", row, err, want)
		}
	}
}

// Ratio arithmetic against math/big.
func TestRatioIsExact(t *testing.T) {
	small := rapid.Int64Range(0, 1_000_000)
	rapid.Check(t, func(t *rapid.T) {
		a := Ratio{small.Draw(t, "a"), small.Draw(t, "b") + 1}
		b := Ratio{small.Draw(t, "c"), small.Draw(t, "d") + 1}
		n := Amount(small.Draw(t, "n"))
		x, y := big.NewRat(a.Num, a.Den), big.NewRat(b.Num, b.Den)
		if sum, ok := a.Plus(b); !ok || big.NewRat(sum.Num, sum.Den).Cmp(new(big.Rat).Add(x, y)) != 0 {
			t.Fatalf("%v + %v = %v", a, b, sum)
		}
		if p, ok := a.Times(b); !ok || big.NewRat(p.Num, p.Den).Cmp(new(big.Rat).Mul(x, y)) != 0 {
			t.Fatalf("%v x %v = %v", a, b, p)
		}
		if got, err := a.Of(n); err == nil {
			diff := new(big.Rat).Sub(new(big.Rat).Mul(x, big.NewRat(int64(n), 1)), big.NewRat(int64(got), 1))
			if diff.Abs(diff).Cmp(big.NewRat(1, 2)) > 0 {
				t.Fatalf("%v of %d = %d, off by %v", a, n, got, diff)
			}
		}
	})
}
