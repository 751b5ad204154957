package language

import (
	"fmt"
	"testing"
)

func TestForDay(t *testing.T) {
	r := tableReader()
	for _, c := range []struct{ text, want string }{
		{"sat: party of 12, 2 coeliac", "weekday 6: party of 12, 2 coeliac"},
		{"tomorrow: table 4 nut allergy", "in 1: table 4 nut allergy"},
		{"table 4 nut allergy tomorrow night", "in 1: table 4 nut allergy"},
		{"for the wedding on saturday: 3 vegans, 1 sesame allergy", "weekday 6: 3 vegans, 1 sesame allergy"},
		{"saturday's wedding, we have 3 vegans", "weekday 6: 3 vegans"},
		{"1 nut allergy for the party on friday.", "weekday 5: 1 nut allergy"},
		{"4 veggie for sun", "weekday 7: 4 veggie"},
		{"on the 12th we've got 2 coeliac", "12.0: 2 coeliac"},
		{"12 dec party, 2 vegan", "12.12: 2 vegan"},
		{"tonight table 9 fish allergy", "in 0: table 9 fish allergy"},
		{"the vegan on table 3 sat", ""},
		{"table 4 nut allergy", ""},
		{"saturday", ""},
		{"", ""},
	} {
		got := ""
		if d, rest, ok := r.ForDay(c.text); ok {
			switch {
			case d.Weekday > 0:
				got = fmt.Sprintf("weekday %d: %s", d.Weekday, rest)
			case d.Dom > 0:
				got = fmt.Sprintf("%d.%d: %s", d.Dom, d.Month, rest)
			default:
				got = fmt.Sprintf("in %d: %s", d.Days, rest)
			}
		}
		if got != c.want {
			t.Errorf("%q: %q, not %q", c.text, got, c.want)
		}
	}
}
