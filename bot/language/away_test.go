package language

import (
	"testing"

	"scullion/pantry/food"
)

// What is said to have left the house is a use, with who got it.
func TestAway(t *testing.T) {
	r := &Reader{Foods: food.Default().Index(), Cooks: []string{"bo", "ana"}}
	for text, want := range map[string]string{
		"gave 2 lemons to next door":                        "next door",
		"gave next door 2 lemons":                           "next door",
		"bo gave 2 lemons to the neighbours":                "the neighbours",
		"lent bo's place 1kg flour":                         "bo's place",
		"lent 1kg flour to bo's place":                      "bo's place",
		"lent dave 100g flour":                              "dave",
		"gave 1 lemon to dave":                              "dave",
		"sold 2kg potatoes to the cafe":                     "the cafe",
		"sold 2kg potatoes to the cafe for £5":              "the cafe",
		"sold the cafe 2kg potatoes":                        "the cafe",
		"sent 500g leek to the other kitchen":               "the other kitchen",
		"had to send 500g leek to the other kitchen":        "the other kitchen",
		"donated 2kg potatoes and 6 eggs to the food bank":  "the food bank",
		"gave the cauliflower away":                         "",
		"gave away 2 lemons":                                "",
		"gave away 2 lemons to the school":                  "the school",
		"2 lemons went to next door":                        "next door",
		"500g leeks sold to the cafe":                       "the cafe",
		"gave 200g ham to the dog":                          "the dog",
		"used 300g leek, then gave 2 lemons to next door":   "next door",
		"passed 2 lemons to next door, they had run out":    "next door",
		"we've just given away 2kg potatoes, gave 2 to ana": "", // not the last one: ana is one of us
	} {
		read := r.Read(text)
		if text == "we've just given away 2kg potatoes, gave 2 to ana" {
			for _, s := range read.Statements {
				if s.Away && s.Dish == "ana" {
					t.Errorf("%q: given away to one of us", text)
				}
			}
			continue
		}
		n := len(read.Statements)
		if n == 0 {
			t.Errorf("%q is not read", text)
			continue
		}
		if s := read.Statements[n-1]; s.Act != "use" || !s.Away || s.Dish != want || len(s.Items) == 0 {
			t.Errorf("%q: %+v, not away to %q", text, s, want)
		}
	}
	for _, text := range []string{
		"gave 80g walnuts to the salad", "gave bo 200g leek", "gave 2 lemons to bo", "gave 2 lemons to the tart", "lent bo my knife", "gave bo a hand",
		"sold out of leeks", "sold 14 leek tarts", "sold 40 leek tarts and not one plate came back", "sold 20 covers to a hotel", "sent 3 leeks to table 4",
		"sent bo to get 2 lemons", "sent 2 lemons back", "they sent 2kg carrots to the wrong place", "customer sent the soup back", "the dog had the ham bone",
		"we should give 2 lemons to next door", "don't give next door 2 lemons", "did we sell 2kg potatoes to the cafe?", "if we sold 2kg potatoes to the cafe",
		"gave customers 2 minutes", "handed 2 plates to the driver", "gave the cafe a ring", "passed the cafe on my way", "lent me a hand", "sold my bike to the cafe",
		"gave it to next door", "next door gave me a lift", "my gran gave 2 lemons to next door",
	} {
		for _, s := range r.Read(text).Statements {
			if s.Away {
				t.Errorf("%q: %+v", text, s)
			}
		}
	}
}

// The staff meal is a dish, whatever it is called; what it may be for is no use of it.
func TestStaffMeal(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for _, text := range []string{"staff meal: 200g prawns", "staff meal 200g prawns", "200g prawns for staff tea", "200g prawns for the staff lunch", "staff lunch took 6 eggs", "staff tea had 6 eggs", "used 6 eggs for staff dinner", "family meal: 6 eggs"} {
		read := r.Read(text)
		if len(read.Statements) != 1 {
			t.Errorf("%q is not read", text)
			continue
		}
		if s := read.Statements[0]; s.Act != "use" || DishName(s.Dish) != "staff meal" && (len(s.Items) == 0 || DishName(s.Items[0].Dish) != "staff meal") {
			t.Errorf("%q: %+v", text, s)
		}
	}
	for _, text := range []string{"staff meal at 4:30", "staff tea was lovely", "staff meal took 2 hours", "staff lunch took ages", "the soup took 300g leek", "200g prawns for the soup", "save me a seat at staff meal", "what's for staff tea", "20 for staff lunch", "staff meal: who's in?"} {
		if read := r.Read(text); len(read.Statements) > 0 {
			t.Errorf("%q: %+v", text, read.Statements)
		}
	}
	if got := DishName("leek tart"); got != "leek tart" {
		t.Errorf("a dish that has no other name is called %q", got)
	}
}

// What was trim is told from what was used, behind it.
func TestTrimBehind(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, off := range map[string]string{
		"used 500g carrots in the soup, 60g peel":         "peel",
		"used 500g carrots, 60g of it peel":               "peel",
		"used 500g carrots, 60g of that was peel":         "peel",
		"used 3 leeks in the tart, 80g of it greens":      "greens",
		"used 500g carrots in the soup, peel 60g":         "peel",
		"used 500g carrots in the soup, 60g tops":         "tops",
		"used 2 broccoli in the soup, 120g stalks":        "stalks",
		"used 500g leeks in the soup, 90g tops binned":    "tops",
		"peeled 1kg potatoes for the mash, 150g peelings": "peelings",
	} {
		read := r.Read(text)
		n := len(read.Statements)
		if n == 0 {
			t.Errorf("%q is not read", text)
			continue
		}
		items := read.Statements[n-1].Items
		if it := items[len(items)-1]; !it.Trim || it.Off != off || it.Food != "" || it.Ref || it.Dish != "" || it.Amount.How != Measured {
			t.Errorf("%q: %+v", text, it)
		}
	}
	for _, text := range []string{"used 500g carrots, 2 hours tops", "used 500g carrots, 60g of it", "used 500g carrots, 60g of it went in the stew"} {
		for _, s := range r.Read(text).Statements {
			for _, it := range s.Items {
				if it.Trim {
					t.Errorf("%q: %+v", text, it)
				}
			}
		}
	}
}
