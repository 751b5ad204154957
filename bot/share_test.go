package bot_test

import (
	"math"
	"testing"

	"scullion/bot"
)

// How much of what there was to eat was used, against sums by hand. Beef and spinach are all
// edible, and do not keep.
func TestUsedShare(t *testing.T) {
	for _, c := range []struct {
		name string
		said []string
		want float64
	}{
		{"half", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew"}, 0.5},
		{"what is kept of a dish was used", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: 2kg stew left over"}, 0.5},
		{"what is thrown out of the pot was not", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: binned 1kg stew"}, 0.4},
		{"nor what is put by and thrown away", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: 2kg stew left over", "ana: binned 1kg stew"}, 0.4},
		{"a dish that is given away was used", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: gave 1kg stew to the shelter"}, 0.5},
		{"food that is given away is none to use", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: gave 2kg beef mince to the shelter"}, 5. / 8},
		{"leftovers are to be used the next day", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: 2kg stew left over", "ana: wrap up", "bo: got 100g spinach", "ana: used 1kg stew in the pie"}, 1 / 7.1},
		{"and are wasted there", []string{"ana: got 10kg beef mince", "ana: used 5kg beef mince in the stew", "ana: 2kg stew left over", "ana: wrap up", "bo: got 100g spinach", "ana: binned 1kg stew", "ana: used 5kg beef mince in the pie"}, 5 / 7.1},
		{"cooked rice is no keeper", []string{"ana: got 2kg spinach, 1kg rice", "ana: made 2kg cooked rice from 700g rice", "ana: used 800g spinach in the soup"}, 0.4},
		{"nor is it when it is given away", []string{"ana: got 2kg spinach, 1kg rice", "ana: made 2kg cooked rice from 700g rice", "ana: used 800g spinach in the soup", "ana: gave 1kg cooked rice to the shelter"}, 0.4},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, s := said(t, c.said...)
			wraps(t, s, "k", func(_ *bot.Records, list []*bot.Wrap) {
				if w := bot.Latest(list); w == nil || math.Abs(w.UsedShare-c.want) > 0.001 {
					t.Errorf("used %g, not %g", w.UsedShare, c.want)
				}
			})
		})
	}
}
