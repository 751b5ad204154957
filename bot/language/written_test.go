package language

import "testing"

func TestDatesWritten(t *testing.T) {
	for _, x := range []struct{ text, place, want string }{
		{"got 2kg cream use by 5.3", "uk", "got 2kg cream use by 5/3"},
		{"milk ub 5/3/26", "uk", "milk ub 2026-03-05"},
		{"milk u/b 6 mar", "uk", "milk ub 6 mar"},
		{"brie bbe 12.03.2026", "uk", "brie bbe 2026-03-12"},
		{"use by date is 05/03", "uk", "use by date is 5/3"},
		{"milk ub 3/5/26", "us", "milk ub 2026-03-05"},
		{"milk ub 25/3/26", "us", "milk ub 2026-03-25"},
		{"ub 2026-03-05", "uk", "ub 2026-03-05"},
		{"good till 5.30", "uk", "good till 5.30"},
		{"date 5.3 kg", "uk", "date 5.3 kg"},
		{"use by 31.13", "uk", "use by 31.13"},
		{"ub 5-6 mar", "uk", "ub 5-6 mar"},
		{"used 5.3kg leek", "uk", "used 5.3kg leek"},
	} {
		if got := datesWritten(x.text, x.place); got != x.want {
			t.Errorf("%q (%s): %q, want %q", x.text, x.place, got, x.want)
		}
	}
}
