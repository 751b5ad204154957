package technique

import (
	"slices"
	"strings"
	"testing"
)

// keepsDry are the only things that keep in a cupboard: dry right through.
var keepsDry = []string{
	"crouton", "thin-toast", "bake-meringue", "toast-nuts", "seed-cracker", "granola", "macaroon", "white-macaroon", "glazed-nuts",
	"crisp-shallot", "mw-dry-herb", "dry-fruit", "coconut-toast", "shortcrust",
}

// Nothing wet or put up in a jar is ever said to keep outside the fridge.
func TestNothingIsShelfStable(t *testing.T) {
	for _, x := range Default() {
		if slices.ContainsFunc(x.Holds, func(h string) bool { return strings.HasPrefix(h, "cupboard") }) && !slices.Contains(keepsDry, x.ID) {
			t.Errorf("%s keeps in the cupboard: %q", x.ID, x.Holds)
		}
		if x.Family == "keep" && !slices.Contains(keepsDry, x.ID) && !slices.ContainsFunc(x.Holds, func(h string) bool {
			return strings.HasPrefix(h, "fridge") || strings.HasPrefix(h, "freezer")
		}) {
			t.Errorf("%s is put by, but neither in the fridge nor in the freezer: %q", x.ID, x.Holds)
		}
	}
}

// What takes honey says that it is not for infants, what takes wine that some
// alcohol stays.
func TestStaplesThatNeedACaution(t *testing.T) {
	for staple, words := range map[string]string{"honey": "honey under one year", "white wine": "alcohol", "red wine": "alcohol"} {
		for _, x := range Default() {
			takes := slices.ContainsFunc(x.Staples, func(s Staple) bool { return s.Names[0] == staple })
			if takes && !slices.ContainsFunc(x.Caution, func(c Caution) bool { return strings.Contains(c.Says, words) }) {
				t.Errorf("%s takes %s and does not say %q", x.ID, staple, words)
			}
		}
	}
}

// A rule's caution is read on a phone too.
func TestRuleCautionsAreShort(t *testing.T) {
	for _, r := range Rules() {
		if len(r.Caution) >= 90 {
			t.Errorf("%s: %d bytes: %s", r.What, len(r.Caution), r.Caution)
		}
	}
}
