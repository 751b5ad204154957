package language

import (
	"fmt"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// What is said of how goods came keeps no price from them, and no talk gives them one.
func TestPriceBehindHowItCame(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]string{
		"got 12kg hake on ice £102":                                  "hake 10200",
		"got 12kg hake, fresh, £102":                                 "hake 10200",
		"got 12kg hake fresh £102":                                   "hake 10200",
		"got 12kg hake, fresh, on ice, £102":                         "hake 10200",
		"got 12kg hake, came to £102":                                "hake 10200",
		"got 12kg hake @ £102":                                       "hake 10200",
		"got 2kg salmon, on the bone, £30":                           "salmon 3000",
		"got 2kg salmon £30 on the bone, 3kg leeks £4":               "salmon 3000, leeks 400",
		"got 12kg cod from the market £90":                           "cod 9000",
		"got 2kg cod fillets skinned £30":                            "cod fillets 3000",
		"got 2kg ling for tomorrow £30":                              "ling 3000",
		"got 5kg leeks from dave for £9 and 3kg carrots for £2":      "leeks 900, carrots 200",
		"got 5kg leeks off the van, £9, 3kg carrots":                 "leeks 900, carrots 0",
		"got 5kg leeks from dave and 3kg carrots £2":                 "leeks 0, carrots 200",
		"got 12 eggs, local, £3 and 2kg flour, organic, £4":          "eggs 300, flour 400",
		"got 6 lemons at 30p each from the market, 4kg leeks £5":     "lemons 180, leeks 500",
		"got 6kg leeks £12 all in, 2kg carrots £1":                   "leeks 1200, carrots 100",
		"got 6kg leeks £2 a kilo, £12":                               "leeks 1200",
		"got 5kg leeks £9, 3kg carrots £3, £12 in all":               "leeks 900, carrots 300",
		"got 5kg leeks, 3kg carrots, £12 in all":                     "leeks 0, carrots 0; £12",
		"got 5kg leeks, 3kg carrots, £12 for both, 2kg onions £1":    "leeks 0, carrots 0, onions 100; £12",
		"got 5kg leeks, 3kg carrots, total £12":                      "leeks 0, carrots 0; £12",
		"got 5kg leeks and a £5 voucher":                             "leeks 0; £5",
		"got 5kg leeks from the market, fuel £12":                    "leeks 0; £12",
		"got 5 leeks, 1.1kg, 4 red onions and 2 lemons, 180g":        "leeks 0, red onions 0, lemons 0",
		"got 2kg tomatoes tinned £3":                                 "tinned tomatoes 300",
		"got 2kg salmon on the bone use by fri £30, 3kg leeks fresh": "salmon 3000, leeks 0",
	} {
		reading := r.Read(text)
		var list []string
		for _, s := range reading.Statements {
			for _, it := range s.Items {
				list = append(list, fmt.Sprint(it.Food, " ", it.Cost))
			}
		}
		got := strings.Join(list, ", ")
		if reading.Unpriced != "" {
			got += "; " + reading.Unpriced
		}
		if got != want {
			t.Errorf("%q: %s, not %s", text, got, want)
		}
	}
}

// What packs hold: the figure of a trade size is no number of tins, and cases are of packs.
func TestPacks(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]string{
		"got 3 A10 tins chopped tomatoes 2.55kg each £9.60": "7650g 3 tin",
		"got 6 No10 cans sweetcorn 2.1kg each £18":          "12600g 6 tin",
		"got 6 No. 10 cans sweetcorn, 2.1kg each":           "12600g 6 tin",
		"got 6 x #10 tins of sweetcorn 2.1kg each":          "12600g 6 tin",
		"got 3 A10s of kidney beans, 2.5kg each":            "7500g 3 tin",
		"got 3 A10 kidney beans, 2.5kg each":                "7500g 3 tin",
		"got 10 tins of tomatoes 400g each":                 "4000g 10 tin",
		"bought 6 cases of rose wine 6x750ml £270":          "27000ml 36 ",
		"bought 2 cases of cider 12x330ml":                  "7920ml 24 ",
		"bought 3 cases of tomatoes 6 x 2.5kg":              "45000g 18 ",
		"bought 3 cases of 6 x 2.5kg tins of tomatoes":      "45000g 18 tin",
		"got 2 boxes of leeks, 10kg in all":                 "10000g 0 ",
		"got 6 tins of tomatoes 6 x 400g":                   "2400g 6 tin",
	} {
		got := r.Read(text)
		if len(got.Statements) != 1 || len(got.Statements[0].Items) != 1 {
			t.Errorf("%q: %+v", text, got)
			continue
		}
		a := got.Statements[0].Items[0].Amount
		if s := fmt.Sprintf("%d%s %d %s", int64(a.Base)/1000, a.Kind, a.Count.Num, a.Pack); s != want {
			t.Errorf("%q: %s, not %s", text, s, want)
		}
	}
}
