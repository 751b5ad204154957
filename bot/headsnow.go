package bot

import (
	"fmt"
	"regexp"
	"strconv"
)

// More or fewer guests than were said as the service began: "guests are 94 now", "94 now not 90".
var (
	guestsAre = regexp.MustCompile(`(?i)^\s*(?:the )?(?:guests?|covers|numbers|guest numbers|final numbers|pax|heads|headcount|people)(?: (?:are|is|have|has|now|gone|went|going|at|up to|down to|to))* (\d{1,4})(?: now| instead| in the end)?(?:,? not (\d{1,4}))?\s*[.!]?\s*$`)
	guestsNow = regexp.MustCompile(`(?i)^\s*(?:its |it's |it is |we are |we're |were |now |there are |theres |make it )*(\d{1,4}) (?:guests|covers|pax|heads|people)(?: now| instead| in the end)(?:,? not (\d{1,4}))?\s*[.!]?\s*$`)
	guestsNot = regexp.MustCompile(`(?i)^[^0-9?]*?\b(\d{1,4})(?: guests| covers| pax| heads| people)?(?: now| instead| in the end)?,? (?:not|instead of|rather than) (\d{1,4})(?: now| guests| covers| pax| heads| people)?\s*[.!]?\s*$`)
)

const mostGuests = 9999

// headsNow keeps for how many the service is that is on. Done is false where none is, or other numbers are meant: where only
// "94 not 90" is said, it is for 90 as far as is known.
func (t *turn) headsNow() (r Reply, done bool, err error) {
	was, m := 0, guestsAre.FindStringSubmatch(t.m.Text)
	if m == nil {
		m = guestsNow.FindStringSubmatch(t.m.Text)
	}
	if m == nil {
		if m = guestsNot.FindStringSubmatch(t.m.Text); m == nil {
			return r, false, nil
		}
		was, _ = strconv.Atoi(m[2])
	}
	n, _ := strconv.Atoi(m[1])
	on, ok, err := t.running()
	if err != nil || !ok || on.Wish.Portions == 0 || n < 1 || n > mostGuests || was > 0 && was != on.Wish.Portions {
		return r, false, err
	}
	before := on.Wish.Portions
	if on.isPlan() {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not changed: the plan that is on is for %d. Its dishes stay as they are; \"wrap up\" ends it, and \"plan 3 dishes for %d\" makes another.", before, n)}, true, nil
	}
	if n == before {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Guests: %d, as known.", n)}, true, nil
	}
	on.Wish.Portions = n
	if err := t.save(on); err != nil {
		return r, true, err
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("Guests: %d, was %d. Portions of dishes that nobody told are reckoned by that. \"guests are %[2]d\" puts it back.", n, before)}, true, nil
}
