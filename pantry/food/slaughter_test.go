package food

import "testing"

func TestSlaughter(t *testing.T) {
	for name, want := range map[string][2]string{
		"halal beef mince": {"halal", "beef mince"}, "Chicken Halal": {"halal", "Chicken"}, "kosher salt": {"kosher", "salt"}, "beef mince": {"", "beef mince"}, "halala": {"", "halala"},
	} {
		if got := [2]string{Slaughtered(name), WithoutSlaughter(name)}; got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}
