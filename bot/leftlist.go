package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// Several leftovers in one message: "leftovers: 1.5kg stew, 2kg mash", "1kg stew and 800g mash left", "portions
// left: 4 stew, 6 mash".
var (
	leftsHead  = regexp.MustCompile(`(?i)^\s*(?:the |our )?(left ?overs?|left over|left|put by|put away|boxed up|portions left|portions left over|left over portions|end of (?:the )?(?:night|service|day|shift|lunch|dinner)|close|closing|close down|after (?:service|lunch|dinner)|(?:lunch|dinner|service|breakfast|all) (?:is )?done|eod)\s*(?:[:=-]|\.\s|,\s)\s*(.+)$`)
	leftsWhen  = regexp.MustCompile(`(?i)^\s*(?:end of (?:the )?(?:night|service|day|shift)|after (?:service|lunch|dinner)),? (\d.+ left(?: over)?)\s*[.!]?$`)
	leftsTail  = regexp.MustCompile(`(?i)^\s*(?:theres |there's |we have |weve got |got )?(.+?),? (?:are |is |all |both )?(?:left|left over|leftover|remaining|to spare)[.!]?\s*$`)
	leftsSplit = regexp.MustCompile(`(?i)\s*(?:,|;|&|\+|\n|\band\b)\s*`)
	leftsInner = regexp.MustCompile(`(?i)\s+(?:left over|left|leftover|remaining)$`)
	leftsCount = regexp.MustCompile(`(?i)^(\d{1,3}) (?:of )?(?:the )?([a-z].*)$`)
	leftsSpeak = regexp.MustCompile(`(?i)\b(?:portions?|servings?)\b`)
)

// leftList gives what each part of a message tells is left, as messages of their own; nil where it is no such
// list.
func leftList(text string) (parts []string) {
	text = strings.TrimSpace(text)
	list, head := "", ""
	if m := leftsWhen.FindStringSubmatch(text); m != nil {
		text, head = m[1], "left"
	}
	if m := leftsHead.FindStringSubmatch(text); m != nil {
		head, list = m[1], m[2]
	} else if m := leftsTail.FindStringSubmatch(text); m != nil {
		list = m[1]
	} else if m := leftsSplit.Split(text, -1); len(m) > 1 && leftsInner.MatchString(m[0]) { // "4 portions stew left, 2 of mash"
		list = text
	}
	if list == "" || strings.Contains(text, "?") {
		return nil
	}
	counted := leftsSpeak.MatchString(head)
	for _, part := range leftsSplit.Split(strings.TrimRight(list, ".! "), -1) {
		part = leftsInner.ReplaceAllString(strings.TrimSpace(part), "")
		if part == "" {
			return nil
		}
		if m := leftsCount.FindStringSubmatch(part); m != nil {
			if leftsSpeak.MatchString(part) {
				counted = true
			} else if counted {
				part = m[1] + " portions of " + m[2]
			}
		}
		parts = append(parts, part+" left")
	}
	if len(parts) < 2 && head == "" {
		return nil
	}
	return parts
}

// leftTalk writes several leftovers of one message. Done is false where one of them is none of a dish.
func (t *turn) leftTalk(why string) (r Reply, done bool, err error) {
	parts := leftList(t.m.Text)
	if len(parts) == 0 {
		return r, false, nil
	}
	var drafts []draft
	for _, part := range parts {
		d, err := t.leftDraft(part)
		if err != nil || d == nil {
			return r, false, err
		}
		drafts = append(drafts, *d)
	}
	r, err = t.write(drafts, why)
	return r, r.Kind != Silent, err
}

// leftDraft drafts what one part tells is left of a dish; nil where it does not.
func (t *turn) leftDraft(part string) (*draft, error) {
	q := t.reader().MadeTalk(part)
	if q == nil || q.About != language.AboutLeftOver {
		return nil, nil
	}
	dish, _, err := t.cooked(q.Food)
	if err != nil {
		return nil, err
	}
	if dish == "" {
		unlogged := t.cookedUnlogged(q.Food)
		if q.Amount.How != language.Measured || !unlogged && !t.isPotName(q.Food) {
			return nil, nil
		}
		if d := t.countMade(q.Food, q.Amount); d != nil || !unlogged {
			return d, nil
		}
		return t.putBy(&draft{Food: strings.ToLower(q.Food), Amount: q.Amount}, ""), nil
	}
	if text := t.whichLeft(q.Food, dish); text != "" {
		return &draft{Act: pantry.Count, Food: strings.ToLower(q.Food), Amount: q.Amount, Tell: text}, nil
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return nil, err
	}
	a, ok := partOf(s, q)
	if !ok {
		return nil, nil
	}
	if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 {
		if anew, err := t.cookedSince(l, dish); err != nil || !anew {
			return &draft{Act: pantry.Count, Food: l.Name, Line: l.ID, Amount: a, Day: t.day()}, err
		}
	}
	return t.putBy(&draft{Food: dish, Amount: a}, dish), nil
}
