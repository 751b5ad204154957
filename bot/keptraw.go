package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry/measure"
)

// keptRaw is a dish that is told to be kept raw, without an amount: "fishcakes kept raw".
var keptRaw = regexp.MustCompile(`(?i)^\s*(?:all )?(?:the |our )?([a-z][a-z' -]*?),? (?:is |are |were |was |all |being )*(?:kept|left|stored|saved|put by|put away) (?:raw|uncooked)[.!\s]*$`)

// keptRawTalk tells how what is kept raw stands, or how to say how much it is: nothing is written of it without an
// amount. Done is false where no dish is meant.
func (t *turn) keptRawTalk() (r Reply, done bool, err error) {
	m := keptRaw.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	name := strings.ToLower(m[1])
	dish, err := t.inPot(name, false)
	if err != nil {
		return r, false, err
	}
	if dish != "" {
		return Reply{Kind: Error, Text: fmt.Sprintf(`How much is that? Weigh it: "600g %s left, raw". Nothing was written.`, dish)}, true, nil
	}
	l := potLine(t.k, name)
	if l == nil || l.OnHand() == 0 {
		l = t.madeCalled(name)
	}
	switch {
	case l == nil || l.OnHand() == 0 || l.Made == 0:
		return r, false, nil
	case isMadeRaw(l), tellsWork(l.Name, "raw"):
		return Reply{Kind: Answer, Text: fmt.Sprintf("%s %s: it stands as raw already. Keep it below food that is ready to eat, and cook it through.", title(l.Name), measure.Say(l.OnHand(), l.Unit))}, true, nil
	}
	return Reply{Kind: Error, Text: fmt.Sprintf(`%s %s stands as cooked, and nothing was changed. If it is raw, take back what put it by ("undo", or delete that message) and say "made %s raw %s". Raw: keep it below food that is ready to eat.`,
		title(l.Name), measure.Say(l.OnHand(), l.Unit), strings.ReplaceAll(measure.Say(l.OnHand(), l.Unit), " ", ""), l.Name)}, true, nil
}
