package bot

import (
	"fmt"
	"regexp"
	"strings"
)

// cameAlone is what a cook says, and nothing else, of a line of figures that the program could not tell to have come in
// from one that was used; usedAlone says that it was used, and in what.
var (
	cameAlone = regexp.MustCompile(`(?i)^(?:(?:yes|yeah|yep|no|sorry)[,! ]+)?(?:(?:they|it|that|those|these|this)(?:'s|'ve| has| have| is| are| was| were)? )?(?:all |just |both )*(?:got|come|came|delivered|delivery|received|arrived|in)(?: (?:them|it|that|those|these|all|in|today|now|just now|this morning))*[.! ]*$`)
	usedAlone = regexp.MustCompile(`(?i)^(?:(?:yes|yeah|yep|no|sorry)[,! ]+)?(?:(?:they|it|that|those|these|this)(?:'s| was| were| is| are)? )?(?:all )?(?:used(?: (?:them|it|that|those|these|up|all))*|went|goes|go)?(?: ?\b(?:in|into|for) ((?:the |a |our )?[\pL' -]{3,40}))?[.! ]*$`)
)

// aloneTalk writes the line of figures just before, of which it was asked whether it came in or was used, as the cook
// says now.
func (t *turn) aloneTalk(why string) (r Reply, done bool, err error) {
	text := strings.TrimSpace(t.m.Text)
	came := cameAlone.MatchString(text)
	used := usedAlone.FindStringSubmatch(text)
	if !came && used == nil {
		return r, false, nil
	}
	before, err := t.book.Heard(t.cook, t.said)
	if err != nil || before == nil || before.Gone || !t.fair(before) || !t.passedOver(before) {
		return r, false, err
	}
	whole := "got " + before.Text
	switch {
	case came && len(t.doorTemps(whole)) > 0: // what is asked of that food later looks for the figure in the message that took it in
		return Reply{Kind: Answer, Text: fmt.Sprintf(`Say it in one line, with the temperature: "%s". Nothing was written.`, whole)}, true, nil
	case !came:
		whole = "used " + before.Text
		if used[1] != "" {
			whole += " in " + used[1]
		}
	}
	return t.readAs(whole, why)
}

// readAs writes what other words than those of the message say.
func (t *turn) readAs(text, why string) (r Reply, done bool, err error) {
	list, err := t.drafts(t.reader().Read(text))
	if err != nil {
		return r, true, err
	}
	r, err = t.write(list, why)
	return r, r.Kind != Silent, err
}
