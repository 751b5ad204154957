package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestLiveTalkMore(t *testing.T) {
	r := &Reader{Foods: food.Default().Index(), Cooks: []string{"bo", "ana"}}
	for text, want := range map[string]Question{
		"what's next for bo?":                    {About: AboutNextFor, Food: "bo"},
		"whats bo doing":                         {About: AboutNextFor, Food: "bo"},
		"what am i on":                           {About: AboutNextFor},
		"who's free?":                            {About: AboutHands},
		"anyone free?":                           {About: AboutHands},
		"is the oven free at 7?":                 {About: AboutKitFree, Food: "oven", At: "07:00", Either: true},
		"is the oven free at 19:00":              {About: AboutKitFree, Food: "oven", At: "19:00"},
		"when's the oven free":                   {About: AboutKitFree, Food: "oven"},
		"any rings free?":                        {About: AboutKitFree, Food: "ring"},
		"what's in the oven":                     {About: AboutKitFree, Food: "oven"},
		"when does the tart go in":               {About: AboutGoesIn, Food: "tart"},
		"when do the leeks go on?":               {About: AboutGoesIn, Food: "leeks"},
		"when do we plate":                       {About: AboutPlate},
		"how long have we got":                   {About: AboutPlate},
		"are we on time?":                        {About: AboutOnTime},
		"how late are we":                        {About: AboutOnTime},
		"how long till the tart":                 {About: AboutReadyAt, Food: "tart"},
		"how long until the tart is ready?":      {About: AboutReadyAt, Food: "tart"},
		"when's the salmon ready?":               {About: AboutReadyAt, Food: "salmon"},
		"they're 20 min late":                    {About: AboutLater, N: 20},
		"guests running 15 late":                 {About: AboutLater, N: 15},
		"push it back 10 minutes":                {About: AboutLater, N: 10},
		"service pushed to 19:00":                {About: AboutReadyBy, At: "19:00"},
		"service is now at 7:30pm":               {About: AboutReadyBy, At: "19:30"},
		"guests early, 10 minutes sooner":        {About: AboutSooner, N: 10},
		"they're 10 min early":                   {About: AboutSooner, N: 10},
		"dish 1 for 8 now":                       {About: AboutDishFor, Food: "1", N: 8},
		"the tart for 8 now":                     {About: AboutNamedFor, Food: "tart", N: 8},
		"two more covers":                        {About: AboutMoreOf, N: 2},
		"table of 6 cancelled":                   {About: AboutFewer, N: 6},
		"table of 4 just walked in":              {About: AboutMoreOf, N: 4},
		"we're 6 now":                            {About: AboutHeads, N: 6},
		"bo is here":                             {About: AboutJoins, Food: "bo"},
		"bo's back":                              {About: AboutJoins, Food: "bo"},
		"mia can help":                           {About: AboutJoinsBy, Food: "mia"},
		"i can help":                             {About: AboutJoins},
		"bo went home":                           {About: "", Food: ""},
		"bo gone home":                           {About: AboutLeaves, Food: "bo"},
		"bo is running 5 late":                   {About: AboutWhoLate, Food: "bo", N: 5},
		"bo's 5 behind":                          {About: AboutWhoLate, Food: "bo", N: 5},
		"we need 10 more minutes":                {About: AboutWhoLate, N: 10},
		"bo is done":                             {About: AboutWhoDone, Food: "bo"},
		"the tart's in the oven":                 {About: AboutStarted, Food: "tart"},
		"the tart is in":                         {About: AboutStarted, Food: "tart"},
		"mushrooms done":                         {About: AboutIsDone, Food: "mushrooms"},
		"a ring is broken":                       {About: AboutFewerKit, Food: "ring"},
		"only 2 rings left":                      {About: AboutOnlyKit, Food: "ring", N: 2},
		"the oven isn't working":                 {About: AboutDown, Food: "oven"},
		"86 the tart":                            {About: AboutDrop, Food: "tart"},
		"86 dish 2":                              {About: AboutDrop, N: 2},
		"take the tart off the menu":             {About: AboutDrop, Food: "tart"},
		"used 300g leek in the tart":             {},
		"got 2 more covers for the buffet trays": {},
		"is the van free at 7":                   {},
		"how long do eggs keep":                  {},
		"the wifi isn't working":                 {},
		"table 5 late again":                     {},
	} {
		q := r.LiveTalk(text)
		if q == nil {
			q = &Question{}
		}
		if q.About != want.About || want.About != "" && (q.Food != want.Food || q.N != want.N || q.At != want.At || q.Either != want.Either) {
			t.Errorf("%q: %q food %q n %d at %q %v, want %+v", text, q.About, q.Food, q.N, q.At, q.Either, want)
		}
	}
}
