package language

import (
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

func TestMadeTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	grams := func(n int64) Amount {
		return Amount{How: Measured, Base: measure.Amount(n * 1000), Kind: measure.Gram}
	}
	half := Amount{How: Share, N: measure.Ratio{Num: 1, Den: 2}}
	for text, want := range map[string]Question{
		"the stew came out at 2.6kg":               {About: AboutYield, Food: "stew", Amount: grams(2600)},
		"the leek tart weighs 1.1 kg cooked":       {About: AboutYield, Food: "leek tart", Amount: grams(1100)},
		"yield of the stew 2.6kg":                  {About: AboutYield, Food: "stew", Amount: grams(2600)},
		"stew 2.6kg cooked":                        {About: AboutYield, Food: "stew", Amount: grams(2600)},
		"The soup made 3 litres.":                  {About: AboutYield, Food: "soup", Amount: Amount{How: Measured, Base: 3_000_000, Kind: measure.Millilitre}},
		"600g stew left over":                      {About: AboutLeftOver, Food: "stew", Amount: grams(600)},
		"600g of the leek tart is left":            {About: AboutLeftOver, Food: "leek tart", Amount: grams(600)},
		"there's 600g of stew left":                {About: AboutLeftOver, Food: "stew", Amount: grams(600)},
		"leftover stew 600g":                       {About: AboutLeftOver, Food: "stew", Amount: grams(600)},
		"put 600g of the stew in the fridge":       {About: AboutLeftOver, Food: "stew", Amount: grams(600)},
		"boxed up 600g stew":                       {About: AboutLeftOver, Food: "stew", Amount: grams(600)},
		"half the stew is left":                    {About: AboutLeftOver, Food: "stew", Amount: half},
		"half of the stew left over":               {About: AboutLeftOver, Food: "stew", Amount: half},
		"3 portions of the stew left":              {About: AboutLeftOver, Food: "stew", N: 3},
		"two portions of chicken curry left over":  {About: AboutLeftOver, Food: "chicken curry", N: 2},
		"we have 3 portions of stew left":          {About: AboutLeftOver, Food: "stew", N: 3},
		"put 3 portions of the stew in the fridge": {About: AboutLeftOver, Food: "stew", N: 3},
		"31 portions of pasta bake binned":         {About: AboutBinned, Food: "pasta bake", N: 31},
		"binned a portion of the pie":              {About: AboutBinned, Food: "pie"},
		"2 roast beef sent back, binned":           {About: AboutBinnedOne, Food: "roast beef", N: 2},
		"3 lamb shanks came back and got binned":   {About: AboutBinnedOne, Food: "lamb shanks", N: 3},
		"plate waste 3.4kg":                        {About: AboutPlates, Amount: grams(3400)},
		"300g off the plates":                      {About: AboutPlates, Amount: grams(300)},
		"binned 300g off plates":                   {About: AboutPlates, Amount: grams(300)},
		"scraped 2.2kg off the plates":             {About: AboutPlates, Amount: grams(2200)},
		"1.5kg came back on the plates":            {About: AboutPlates, Amount: grams(1500)},
		"scraped 800g peas off the plates":         {About: AboutPlates, Food: "peas", Amount: grams(800)},
		"froze 5 portions of soup":                 {About: AboutFrozen, Food: "soup", N: 5},
		"22kg of mash left in the bain marie":      {About: AboutLeftOver, Food: "mash", Amount: grams(22000)},
		"sent 30 portions soup out to the van":     {About: AboutGiven, Food: "soup", N: 30},
		"20 soups to the hostel":                   {About: AboutGiven, Food: "soups", N: 20},
		"sent 3kg soup over to the hostel":         {About: AboutGiven, Food: "soup", Amount: grams(3000)},
		"dropped the whole pot of goulash":         {About: AboutBinnedAll, Food: "goulash"},
		"all the soup went down the drain":         {About: AboutBinnedAll, Food: "soup"},
		"how much stew is left?":                   {About: AboutLeftOf, Food: "stew"},
		"is there any stew left?":                  {About: AboutLeftOf, Food: "stew"},
		"what's left of the stew?":                 {About: AboutLeftOf, Food: "stew"},
		"the stew is 40 portions":                  {About: AboutPortions, Food: "stew", N: 40},
	} {
		q := r.MadeTalk(text)
		if q == nil || q.About != want.About || q.N != want.N || q.Food != want.Food || q.Amount.How != want.Amount.How || q.Amount.Base != want.Amount.Base || q.Amount.N != want.Amount.N || q.Amount.Kind != want.Amount.Kind {
			t.Errorf("%q: %+v, not %+v", text, q, want)
		}
	}
	for _, text := range []string{
		"used 300g leek in the stew", "the stew is nice", "put the stew on",
		"the stew needs 20 minutes", "4 portions of the stew", "made 600g stew from the trimmings", "stew came out lovely",
		"2 roast beef sent back", "plate waste is bad today", "scraped 2.2kg off the menu", "scraped the plates", "2kg of plates", "20 soups to table 4", "20 soups to go", "2 soups on the pass", "dropped the goulash off at table 4", "the whole pot of goulash is on", "dropped a whole pot", "all the soup is nice",
	} {
		if q := r.MadeTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}
