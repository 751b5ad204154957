package bot_test

import (
	"strings"
	"testing"
)

// Degrees are held against the limits of the kitchen's country: UK, Food Safety and Hygiene (England) Regulations 2013,
// Schedule 4 (8 C, 63 C) and UK FSA (75 C); US, FDA Food Code 2022, 3-501.16 (41 F, 135 F) and 3-401.11 (165 F).
func TestLimitsByCountry(t *testing.T) {
	for _, c := range []struct{ units, text, has string }{
		{"uk", "the walk in fridge is at 7c", ""},
		{"us", "walk-in is at 46", "Walk-in at 46 F (8 C): probe the food. What must be chilled and was above 41 F (5 C)"},
		{"us", "walk-in is at 40F", ""},
		{"uk", "the fridge is at 12c", "was above 8 C for over 4 hours"},
		{"us", "chicken came in at 45", "comes above 41 F (5 C) is sent back"},
		{"uk", "chicken came in at 7c", "not above 8 C"},
		{"us", "chicken probed at 165", "Chicken at 165 F (74 C) in the middle: hot enough"},
		{"uk", "chicken probed at 74c", "74 C in the middle: no clearance"},
		{"uk", "chicken probed at 76c", "hot enough where it held that for 30 s (UK FSA)"},
		{"us", "chicken probed at 170", "Chicken at 170 F (77 C) in the middle: hot enough, which is 165 F (74 C) or more in the middle of poultry"},
		{"uk", "the curry got to 80c, ok?", "where the middle held that: 75 C for 30 s or 70 C for 2 minutes in the middle (UK FSA). Hot food is kept at 63 C or more."},
		{"us", "got 2kg cooked rice, it was left out for ages", "was warm for over 2 hours is binned"},
		{"uk", "got 2kg cooked rice, it was left out for ages", "was warm for over 4 hours (hot food 2) is binned"},
		{"us", "the curry got to 150F, ok?", "no proof that it is cooked"},
		{"us", "the curry is at 100F after 3 hours", "between 41 and 135 F (5 and 57 C) it must not stay"},
		{"uk", "the curry is at 38c after 3 hours", "between 8 and 63 C it must not stay"},
	} {
		say, _ := kitchenIn(t, c.units)
		say("got 6kg chicken")
		say("used 1kg chicken in the curry")
		if got := say(c.text).Text; c.has == "" && got != "" || !strings.Contains(got, c.has) {
			t.Errorf("%s, %q: %q, not %q", c.units, c.text, got, c.has)
		}
	}
}

// What was told in Fahrenheit is remembered as told: 100 F is no 100 C, and so no clearance.
func TestWarmInFahrenheit(t *testing.T) {
	say, _ := kitchenIn(t, "us")
	say("got 6kg chicken")
	say("used 1kg chicken in the curry")
	say("made 4kg curry")
	if got := say("the curry was held at 100").Text; !strings.Contains(got, "at 100 F (38 C)") {
		t.Fatalf("%q", got)
	}
	if got := say("is the curry still good?").Text; !strings.Contains(got, "Nobody told since that it was cold or hot enough") {
		t.Errorf("said nothing of the 100 F: %q", got)
	}
}
