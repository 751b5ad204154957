package food

import "testing"

// A lamb is no leg, and a whole salmon no fillet: what one weighs nobody can tell.
func TestIsWhole(t *testing.T) {
	if _, err := readWholes(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, food string
		said, want bool
	}{
		{"lambs", "lamb leg", false, true},
		{"forequarters of lamb", "lamb shoulder", false, true},
		{"leg of lamb", "lamb leg", true, false},
		{"lamb chops", "lamb loin chop", false, false},
		{"salmon", "salmon", true, true},
		{"salmon", "salmon", false, false},
		{"chicken", "whole chicken", true, false},
		{"sardines", "sardine", true, false},
	} {
		f, ok := Default().Food(c.food)
		if !ok {
			t.Fatalf("no food is called %s", c.food)
		}
		if got := IsWhole(c.name, f, c.said); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}
