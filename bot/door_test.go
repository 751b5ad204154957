package bot_test

import (
	"strings"
	"testing"
)

// talked is a message, and what its answer has; "" silence.
type talked struct{ say, has string }

func playAll(t *testing.T, units string, list []talked) {
	t.Helper()
	say, _ := kitchenIn(t, units)
	for _, c := range list {
		if got := say(c.say).Text; c.has == "" && got != "" || !strings.Contains(got, c.has) {
			t.Errorf("%s, %q: %q, not %q", units, c.say, got, c.has)
		}
	}
}

// What comes into a US kitchen is held against 41 F, eggs and milk against 45 F (FDA Food Code 2022, 3-202.11).
func TestDoorInFahrenheit(t *testing.T) {
	playAll(t, "us", []talked{
		{"delivery: 10 lb chicken at 50, 5 doz eggs at 44, 2 gal milk 40", "Chicken at 50 F (10 C) at the door: what must be chilled and comes above 41 F (5 C) is sent back"},
		{"chicken ok?", "No: bin the chicken 4.54 kg"},
		{"eggs ok?", "Within its date"},
		{"milk ok?", "Within its date"},
		{"got 10 lb pork at 45", "Pork at 45 F (7 C) at the door: what must be chilled and comes above 41 F (5 C) is sent back, or binned; probe between packs, and write it down. No date allows for that. If 45 is no temperature, edit the message."},
		{"got 10 lb beef at 39", "Beef 4.54 kg in"},
		{"got 10 lb beef at $45", "$45"},
	})
}
