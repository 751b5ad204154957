package language

import (
	"reflect"
	"testing"

	"scullion/pantry/food"
)

func TestPlanWish(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Plan{
		"plan 3 dishes for 2 in 30 minutes":                       {Dishes: 3, Limits: Limits{Portions: 2, Minutes: 30}},
		"Plan three dishes for two in half an hour, just me":      {Dishes: 3, Cooks: 1, Limits: Limits{Portions: 2, Minutes: 30}},
		"plan 3 dishes 4 2 in 30 mins":                            {Dishes: 3, Limits: Limits{Portions: 2, Minutes: 30}},
		"can you plan two mains for 4 by 18:30, two cooks":        {Dishes: 2, Unlike: []string{"sweet"}, Cooks: 2, Until: "18:30", Limits: Limits{Portions: 4}},
		"plan dinner for 6 by half six, nut allergy, no oven":     {Until: "06:30", Either: true, Limits: Limits{Portions: 6, Avoid: []string{"tree nuts", "peanuts"}, Without: []string{"oven"}}},
		"plan 3 dishes for 2, one cold, nothing fried":            {Dishes: 3, Cold: 1, Unlike: []string{"fried"}, Limits: Limits{Portions: 2}},
		"plan 2 dishes for 4 in an hour, use all the cauliflower": {Dishes: 2, UseUp: []string{"cauliflower"}, Limits: Limits{Portions: 4, Minutes: 60}},
		"make a plan: 2 dishes, 8 covers, vegetarian, lighter":    {Dishes: 2, Lighter: true, Limits: Limits{Portions: 8, Diet: "vegetarian"}},
		"plan":                                    {},
		"make us a plan please":                   {},
		"plan 2 mains and a pudding for 4":        {Dishes: 3, Sweet: 1, Unlike: []string{}, Limits: Limits{Portions: 4}},
		"plan 3 dishes for 4, no pudding":         {Dishes: 3, Unlike: []string{"sweet"}, Limits: Limits{Portions: 4}},
		"plan 3 dishes for 4, a pudding, no soup": {Dishes: 3, Sweet: 1, Unlike: []string{"soup"}, Limits: Limits{Portions: 4}},
	} {
		got, ok := r.Plan(text)
		if !ok || !reflect.DeepEqual(got, want) {
			t.Errorf("%q, %v:\n%+v, not\n%+v", text, ok, got, want)
		}
	}
}

// What only sounds like a plan is none.
func TestNoPlanWish(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for _, text := range []string{"plan b", "the plan is to use 300g leek", "what's the plan?", "no plan for 4 today", "planned 3 dishes yesterday", "used 300g leek in the tart", "3 dishes went out", "stick to the plan", "floor plan for 30 covers", "got 2 plantains"} {
		if got, ok := r.Plan(text); ok {
			t.Errorf("%q: %+v", text, got)
		}
	}
}

func TestPlanChange(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Plan{
		"no oven":                       {Limits: Limits{Without: []string{"oven"}}},
		"two cooks":                     {Cooks: 2},
		"and two cooks, no oven please": {Cooks: 2, Limits: Limits{Without: []string{"oven"}}},
		"by 18:30":                      {Until: "18:30"},
		"lighter":                       {Lighter: true},
		"one cold":                      {Cold: 1},
		"use up the leeks":              {UseUp: []string{"leeks"}},
		"nothing fried":                 {Unlike: []string{"fried"}},
		"in 40 minutes":                 {Limits: Limits{Minutes: 40}},
		"vegan":                         {Limits: Limits{Diet: "vegan"}},
	} {
		got, ok := r.PlanChange(text)
		if !ok || !reflect.DeepEqual(got, want) {
			t.Errorf("%q, %v:\n%+v, not\n%+v", text, ok, got, want)
		}
	}
	for _, text := range []string{"used the oven for bread", "leek", "it's cold out here", "no oven gloves anywhere", "the light is broken", "two cooks are ill", "used 300g leek in the tart", "use 300g leek"} {
		if got, ok := r.PlanChange(text); ok {
			t.Errorf("%q: %+v", text, got)
		}
	}
}

func TestPlanTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Question{
		"accept":                           {About: AboutAccept},
		"ok, do it":                        {About: AboutAccept},
		"again":                            {About: AboutAgain},
		"another plan":                     {About: AboutAgain},
		"swap 2":                           {About: AboutSwap, N: 2},
		"not 3":                            {About: AboutSwap, N: 3},
		"swap 1 and 3":                     {About: AboutSwap, N: 1, Others: []int{3}},
		"keep 1, again":                    {About: AboutStay, N: 1},
		"keep 1 and 2":                     {About: AboutStay, N: 1, Others: []int{2}},
		"not that palette":                 {About: AboutPalette},
		"not the palette of 2":             {About: AboutPalette, N: 2},
		"why not the squash?":              {About: AboutWhyNot, Food: "squash"},
		"dish 2":                           {About: AboutDish, N: 2},
		"drop 2":                           {About: AboutDrop, N: 2},
		"scrap dish 3":                     {About: AboutDrop, N: 3},
		"drop 1 and 3":                     {About: AboutDrop, N: 1, Others: []int{3}},
		"dish 2 is off":                    {About: AboutDrop, N: 2},
		"cancel the leek tart":             {About: AboutDrop, Food: "leek tart"},
		"we're not doing the potato salad": {About: AboutDrop, Food: "potato salad"},
	} {
		q := r.PlanTalk(text)
		if q == nil || q.About != want.About || q.N != want.N || q.Food != want.Food || !reflect.DeepEqual(q.Others, want.Others) {
			t.Errorf("%q: %+v, not %+v", text, q, want)
		}
	}
	for _, text := range []string{"swap 2 leeks", "drop 2 leeks", "scrap that", "another 2 for the tart", "3 more for the tart", "the soup needs 2 onions", "the leeks need washing", "cancel 2", "keep 200g cream", "not that one", "why not?", "used 2 leeks", "again tomorrow", "do it tomorrow", "do 2"} {
		if q := r.PlanTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}

func TestLiveTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index(), Cooks: []string{"bo", "ana"}}
	for text, want := range map[string]Question{
		"done":                         {About: AboutDone},
		"that's done":                  {About: AboutDone},
		"the tart is done":             {About: AboutDone, Food: "tart"},
		"potatoes are out of the oven": {About: AboutDone, Food: "potatoes"},
		"running 5 late":               {About: AboutLate, N: 5},
		"I'm 10 minutes behind":        {About: AboutLate, N: 10},
		"need another 4 minutes":       {About: AboutLate, N: 4},
		"oven's broken":                {About: AboutDown, Food: "oven"},
		"the microwave has died":       {About: AboutDown, Food: "microwave"},
		"we've lost the grill":         {About: AboutDown, Food: "grill"},
		"the oven is back on":          {About: AboutBack, Food: "oven"},
		"microwave's fixed":            {About: AboutBack, Food: "microwave"},
		"bo has to leave":              {About: AboutLeaves, Food: "bo"},
		"I have to go":                 {About: AboutLeaves},
	} {
		q := r.PlanTalk(text)
		if q == nil || q.About != want.About || q.N != want.N || q.Food != want.Food {
			t.Errorf("%q: %+v, not %+v", text, q, want)
		}
	}
	for _, text := range []string{"done 3 leeks", "running late", "the oven is on", "the tart has to go in", "5 leeks late", "i have to use the cream", "lost the plot"} {
		if q := r.PlanTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}
