package language

import (
	"testing"

	"scullion/pantry/food"
)

// A price of each, or of a bag, is that of all of them.
func TestEachPriced(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]struct {
		cost int64
		sign string
	}{
		"got 2 x 500ml double cream £1.50 each":     {300, "£"},
		"got 4 lemons 30p each":                     {120, "£"},
		"got 6 avocados €1 each":                    {600, "€"},
		"got 3 tins of tomatoes 50p a tin":          {150, "£"},
		"got 2 cases of wine 6x75cl £30 a case":     {6000, "£"},
		"got 3 boxes of butter 10x250g £14 per box": {4200, "£"},
		"got 2 cases of wine 6x75cl £30/case":       {6000, "£"},
		"got 2 cases of wine 6x75cl £30 each":       {6000, "£"},
		"got 2 cases of wine 6x75cl £5 a bottle":    {6000, "£"},
		"got 2 cases of 6 x 750ml wine £30 a case":  {6000, "£"},
		"got 2 cases of wine 6x75cl £60":            {6000, "£"},
		"got 3 trays of eggs 30s £5.40 a tray":      {1620, "£"},
		"got 2 trays of 30 eggs £5 a tray":          {1000, "£"},
		"got 2 trays of 30 eggs 20p each":           {1200, "£"},
		"got 2 trays of 30 eggs £6 each":            {1200, "£"},
		"got 2 trays of eggs £6 each":               {1200, "£"},
		"got 2 trays of 30 eggs 20p an egg":         {1200, "£"},
		"got 2 trays of 30 eggs £6 a tray":          {1200, "£"},
		"got 3 boxes of 12 lemons 40p each":         {1440, "£"},
		"got 3 boxes of 12 lemons £4 each":          {1200, "£"},
		"got 5 trays of 30 eggs @ 18p each":         {2700, "£"},
		"got 4 lemons 30p a lemon":                  {120, "£"},
		"got 2kg carrots 80p/kg":                    {160, "£"},
		"got 2kg carrots $1.60":                     {160, "$"},
		"got 10 eggs £2":                            {200, "£"},
		"got 10 eggs for 2 euros":                   {200, "€"},
		"got 400g butter cost 1.50":                 {150, ""},
		"got 400g butter costing £1.50":             {150, "£"},
		"got 5kg flour 4.50":                        {450, ""},
		"got 5kg flour, 4.50":                       {450, ""},
		"got 3kg parsnips for 4.20":                 {420, ""},
		"got 12 eggs 3.20":                          {320, ""},
		"got 2 x 500g mascarpone 4.80":              {480, ""},
		"got 5 leeks 1.25 kg":                       {0, ""},
		"got 2kg leeks 5 of them":                   {0, ""},
	} {
		got := r.Read(text)
		if len(got.Statements) != 1 || len(got.Statements[0].Items) != 1 {
			t.Errorf("%q: %+v", text, got)
			continue
		}
		if it := got.Statements[0].Items[0]; it.Cost != want.cost || it.Sign != want.sign {
			t.Errorf("%q: %d %s, not %d %s", text, it.Cost, it.Sign, want.cost, want.sign)
		}
	}
}

// For how many a dish is, is no amount of food.
func TestDishForSoMany(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, items := range map[string]int{
		"used 1kg leek in the soup for 12":                   1,
		"used 500g leek in the curry for 12 people":          1,
		"used 500g leek in the curry for 6, 200ml cream":     2,
		"used 500g leek in the curry and 200g carrots in it": 2,
	} {
		n := 0
		for _, s := range r.Read(text).Statements {
			n += len(s.Items)
		}
		if n != items {
			t.Errorf("%q: %d items, not %d", text, n, items)
		}
	}
}
