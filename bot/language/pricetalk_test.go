package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestPriceTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Question{
		"actually the beef was £11.90 a kilo":       {About: AboutPrice, Food: "beef", Cost: 1190, Sign: "£"},
		"beef invoice was £110":                     {About: AboutPrice, Food: "beef", Cost: 11000, Sign: "£"},
		"the bill for the beef was £110":            {About: AboutPrice, Food: "beef", Cost: 11000, Sign: "£"},
		"the wine was £5.20 a bottle":               {About: AboutPrice, Food: "wine", Cost: 520, Sign: "£", Each: true},
		"the wine was £32 a case":                   {About: AboutPrice, Food: "wine", Cost: 3200, Sign: "£", Each: true, Outer: "case"},
		"the burrata was £35 not euros":             {About: AboutPrice, Food: "burrata", Cost: 3500, Sign: "£"},
		"we got £4 credit on the toms":              {About: AboutCredit, Food: "toms", Cost: 400, Sign: "£"},
		"credit note: beef £10":                     {About: AboutCredit, Food: "beef", Cost: 1000, Sign: "£"},
		"returned 1kg beef to the supplier":         {About: AboutReturned, Food: "beef"},
		"sent back 2 lemons to the greengrocer":     {About: AboutReturned, Food: "lemons"},
		"2kg of the toms went back with the driver": {About: AboutReturned, Food: "toms"},
	} {
		q := r.PriceTalk(text)
		if q == nil || q.About != want.About || q.Food != want.Food || q.Cost != want.Cost || q.Sign != want.Sign || q.Each != want.Each || q.Outer != want.Outer {
			t.Errorf("%q: %+v, not %+v", text, q, want)
		}
	}
	for _, text := range []string{"eggs are 30p each now", "sent back 2 steaks", "1kg beef sent back", "credit where it's due", "we got £4", "the supplier was late", "returned the tray to the baker", "they knocked 4 off the list"} {
		if q := r.PriceTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}
