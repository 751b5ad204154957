package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestWrapTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Question{
		"wrap up":                            {About: AboutWrapUp},
		"Let's wrap up for tonight.":         {About: AboutWrapUp},
		"ok, wrap it up":                     {About: AboutWrapUp},
		"wrap-up":                            {About: AboutWrapUp},
		"undo the wrap-up":                   {About: AboutUnwrap},
		"scrap that wrap up":                 {About: AboutUnwrap},
		"reopen the service":                 {About: AboutUnwrap},
		"it was for 4":                       {About: AboutPortions, N: 4},
		"the leek pie was for 6 people":      {About: AboutPortions, Food: "leek pie", N: 6},
		"4 portions of the curry":            {About: AboutPortions, Food: "curry", N: 4},
		"weigh back":                         {About: AboutWeigh},
		"cooked as planned":                  {About: AboutAsPlanned},
		"every line":                         {About: AboutLines},
		"sheet 2":                            {About: AboutSheet, N: 2},
		"dish sheet for dish 3":              {About: AboutSheet, N: 3},
		"sheet for the leek tart":            {About: AboutSheet, Food: "leek tart"},
		"write up the salmon soup":           {About: AboutSheet, Food: "salmon soup"},
		"past services":                      {About: AboutServices},
		"what do we waste most?":             {About: AboutWaste},
		"what did we bin?":                   {About: AboutBin},
		"what did we bin so far?":            {About: AboutBin},
		"what did we waste today?":           {About: AboutBinToday},
		"how much have we thrown away today": {About: AboutBinToday},
		"what did we bin this week?":         {About: AboutBinWeek},
		"what went in the bin all week":      {About: AboutBinWeek},
		"cook the leek tart again for 6":     {About: AboutRecook, Food: "leek tart", N: 6},
		"let's make the tomato soup again":   {About: AboutRecook, Food: "tomato soup"},
		"make the leek and potato pie again": {About: AboutRecook, Food: "leek and potato pie"},
	} {
		q := r.WrapTalk(text)
		if q == nil || q.About != want.About || q.N != want.N || q.Food != want.Food {
			t.Errorf("%q: %+v, not %+v", text, q, want)
		}
	}
	for _, text := range []string{
		"wrap up the leftovers in foil", "wrapped the tart up", "weighed back 300g leek", "a sheet of nori", "used 2 sheets of filo", "cook it",
		"unwrap the cheese", "undo the wrap on the lamb", "forget the wraps", "plan again", "make that 200g", "made the soup again", "service is slow", "close the oven", "cook the leeks", "leeks weigh 450g",
		"what did we bin that for", "bin day is this week", "what a waste of a week",
	} {
		if q := r.WrapTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}

func TestStart(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Plan{
		"start: 3 dishes for 2 by 18:30":         {Dishes: 3, Until: "18:30", Limits: Limits{Portions: 2}},
		"start the service: 4 dishes for 20":     {Dishes: 4, Limits: Limits{Portions: 20}},
		"start 2 dishes for 6 in 45 minutes":     {Dishes: 2, Limits: Limits{Portions: 6, Minutes: 45}},
		"start: lunch, 2 dishes for 24 by 13:00": {Dishes: 2, Until: "13:00", Limits: Limits{Portions: 24}, Meal: "lunch"},
		"start dinner service: 3 dishes for 40":  {Dishes: 3, Limits: Limits{Portions: 40}, Meal: "dinner"},
	} {
		got, ok := r.Start(text)
		if !ok || got.Meal != want.Meal || got.Dishes != want.Dishes || got.Portions != want.Portions || got.Until != want.Until || got.Minutes != want.Minutes {
			t.Errorf("%q, %v: %+v", text, ok, got)
		}
	}
	for _, text := range []string{"start", "start with the leeks", "start the oven", "start lunch", "start lunch for the dog", "start: lunch is late", "started 3 dishes", "begin again", "start the timer 5 minutes"} {
		if got, ok := r.Start(text); ok {
			t.Errorf("%q: %+v", text, got)
		}
	}
}
