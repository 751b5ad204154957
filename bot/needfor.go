package bot

import (
	"fmt"
	"regexp"
	"strings"
)

// needFor is a wish for food for so many people, of no amount: "need salmon for 90".
var needFor = regexp.MustCompile(`(?i)^\s*(?:i |we )?(?:still )?need (?:some |the |more |enough )?([a-z][a-z' -]*?) for (\d{2,4})(?: people| guests| covers| heads)?(?:,.*)?[.!?]?\s*$`)

// needForTalk asks how much such a wish is: so many people are no pieces of the food. Done is false where it is no
// food that is known.
func (t *turn) needForTalk() (r Reply, done bool, err error) {
	m := needFor.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	h := t.ear.find(m[1])
	if !h.exact || h.food == nil {
		return r, false, nil
	}
	name := strings.ToLower(m[1])
	return Reply{Kind: Answer, Text: fmt.Sprintf(`How much %s is that for %s? Nothing is kept. Say an amount, like "need 5kg %s".`, name, m[2], name)}, true, nil
}
