package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// binIt is an order to throw away something that was made, or came in: "bin the tagine". Whether it happened is
// asked, as nobody has said so.
var binIt = regexp.MustCompile(`(?i)^\s*(?:just |please |better )?(?:bin|chuck|chuck out|throw out|throw away|lose|ditch|dump|get rid of) (?:all )?(?:of )?((?:the |that |those |this )?)(?:rest of the |last of the |old )?([a-z][a-z' -]*?)(?: please| then| now)?\s*[.!]?\s*$`)

// binTalk asks whether what an order says was done. Done is false where nothing on hand is meant.
func (t *turn) binTalk() (r Reply, done bool, err error) {
	m := binIt.FindStringSubmatch(t.m.Text)
	if m == nil || t.m.Edit {
		return r, false, nil
	}
	spoken := isPronoun(m[2])
	if spoken {
		if m[2], err = t.spokenJust(); err != nil || m[2] == "" {
			return r, false, err
		}
	} else if m[1] == "" {
		return r, false, nil
	}
	l := potLine(t.k, m[2])
	if h := t.ear.find(m[2]); l == nil && h.exact && !h.sound && !h.other && len(h.lines) == 1 {
		l = h.lines[0]
	}
	if l == nil {
		l = t.madeCalled(m[2])
	}
	if l == nil || l.OnHand() == 0 {
		if dish, err := t.standsUnput(m[2]); err != nil || dish == "" && !spoken {
			return r, false, err
		} else if dish == "" {
			return Reply{Kind: Error, Text: fmt.Sprintf("No %s is on the books, so there is nothing to write off. What of it was logged goes by its own name, like \"binned 1kg %[1]s\".", strings.ToLower(m[2]))}, true, nil
		} else {
			return Reply{Kind: Error, Text: askWeight(dish, "binned")}, true, nil
		}
	}
	d := draft{Act: pantry.Bin, Food: l.Name, Line: l.ID, Day: t.day(),
		Amount: language.Amount{How: language.Share, N: measure.Whole(1), Said: "all the"}}
	r, err = t.ask([]pending{{Kind: askDone, About: l.Name, Draft: d, Options: []option{{Label: "yes", Yes: true}}}}, t.said)
	return r, true, err
}
