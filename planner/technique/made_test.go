package technique

import (
	"slices"
	"strings"
	"testing"
)

func TestMade(t *testing.T) {
	for id, told := range made() {
		if !slices.ContainsFunc(Palettes(), func(p Palette) bool { return p.ID == id && p.Made() == told }) {
			t.Errorf("there is no palette %s", id)
		}
		if strings.Count(told, "{foods}") != 1 {
			t.Errorf("%s: %q names its foods once", id, told)
		}
	}
}
