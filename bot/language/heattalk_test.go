package language

import (
	"testing"

	"scullion/pantry/food"
)

// What is asked of heat is read by its food; near misses are not.
func TestHeatTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]Question{
		"what temp should the chicken be":                 {About: AboutCookTemp, Food: "chicken"},
		"how do i know if salmon is cooked":               {About: AboutCookTemp, Food: "salmon"},
		"chicken is pink inside near the bone":            {About: AboutPink, Food: "chicken"},
		"how hot for reheating soup":                      {About: AboutReheatTemp, Food: "soup"},
		"stock still 40 degrees, can it go in the fridge": {About: AboutCoolDown, Food: "stock"},
		"how hot does it need to be":                      {About: AboutItsTemp},
	} {
		if q := r.HeatTalk(text); q == nil || q.About != want.About || q.Food != want.Food {
			t.Errorf("%q: %+v", text, q)
		}
	}
	for _, text := range []string{"how hot is it outside", "how do i know if the boss is in", "the bride is in pink", "the oven is hot", "lid's broken"} {
		if q := r.HeatTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}

// A question about needs in other words becomes one that is read; what is none stays.
func TestAskedAlike(t *testing.T) {
	for text, want := range map[string]string{
		"nut allergy on 4 - what puddings can they have":     "what can the nut allergy have?",
		"coeliac on 12 cant have the sausages can they?":     "can the coeliac have the sausages?",
		"can the kid on 9 have the mousse":                   "can table 9 have the mousse",
		"any nuts on the wedding menu":                       "what has nuts in it?",
		"how much did the wedding cost":                      "what did the wedding cost",
		"can the egg kid have the custard?":                  "can the egg allergy have the custard?",
		"can the kid with the egg allergy have the custard?": "can the egg allergy have the custard?",
		"and the nut one, can they have the crumble":         "can the nut allergy have the crumble",
		"which sandwiches can the dairy free mum have?":      "what can the dairy allergy have?",
		"which sandwiches can table 3 have?":                 "what can table 3 have?",
		"can the kid have a go":                              "can the kid have a go",
		"any chance of a brew":                               "any chance of a brew",
	} {
		if got := AskedAlike(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
