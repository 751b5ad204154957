package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry"
)

// Meat that came off whole animals is no delivery: it is made of what was cooked.
var (
	meatOff    = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve |i've |we've )?(?:got|had|picked|pulled|stripped|took) (?:about |around )?(\d[\d.,]* ?(?:kgs?|g|kilos?|grams?)) (?:of )?((?:[a-z]+ ){0,3}?)(?:off|from) (?:of )?(them|those|these|it|that|(?:the |those |these )?(?:\d+ )?[a-z][a-z ]*|(?:the |those |these )\d+)\s*[.!]?\s*$`)
	picksIt    = regexp.MustCompile(`(?i)\b(?:picked|pulled|stripped|cooked|meat|flesh)\b`)
	isHot      = regexp.MustCompile(`(?i)\b(?:poach|roast|boil|simmer|brais|cook|steam|grill|smok|confit|bak)(?:e|ed|ing|s)?\b`)
	pointsBack = regexp.MustCompile(`(?i)^(?:them|it|that|(?:the |those |these )?\d*|those|these|the birds?|birds?|the carcass(?:es)?|the bones?)$`)
)

// meatOffTalk reads the meat that came off animals as cooked food that was made of them: "got 2.6kg meat off them",
// after they were poached. Where nothing tells that they were cooked, it asks for that to be said.
func (t *turn) meatOffTalk() (r Reply, done bool, err error) {
	m := meatOff.FindStringSubmatch(t.m.Text)
	if m == nil || !picksIt.MatchString(t.m.Text) {
		return r, false, nil
	}
	off := strings.TrimSpace(m[3])
	by := ""
	if pointsBack.MatchString(off) {
		by = t.cook
	} else {
		off = strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(strings.ToLower(off), "the "), "those "), "these "), "0123456789 ")
	}
	target, entries, i, err := t.lastEntry(by, mostNotBack, func(e pantry.Entry) bool {
		l := t.k.Line(e.Line)
		return e.Act == pantry.Use && isFlesh(t.ear.foodOf(l), l.Name) && (by != "" || t.isFood(e, off))
	})
	switch {
	case err != nil:
		return r, false, err
	case target == nil && by == "" && t.ear.find(off).food == nil:
		return r, false, nil
	case target == nil:
		return Reply{Kind: Answer, Text: fmt.Sprintf(`Not written: %s off %s is no delivery. Say what it was made of, like "made %s cooked chicken from 2 chickens".`, m[1], m[3], m[1])}, true, nil
	}
	l := t.k.Line(entries[i].Line)
	made := fmt.Sprintf("made %s cooked %s", m[1], l.Name)
	if !isHot.MatchString(target.Text+" "+m[2]) && !strings.Contains(strings.ToLower(m[2]), "picked") {
		return Reply{Kind: Answer, Text: fmt.Sprintf(`Not written: %s off the %s, cooked? Then say %q.`, m[1], l.Name, made)}, true, nil
	}
	t.m.Text = made
	return r, false, nil
}
