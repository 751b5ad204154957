package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
)

// goesOnWith begins what goes on from a message and answers no question.
var goesOnWith = regexp.MustCompile(`(?i)^\s*(?:and|plus|also|then|oh and)\b`)

// saysYes says whether the message is nothing but a yes.
func (t *turn) saysYes() bool {
	a := t.reader().Answer(t.m.Text)
	return a.Yes && !a.Other && a.Amount.How == language.Unsaid && len(a.Words) == 0
}

// weighWords are what a cook says at the scales, and of which none is a yes or a no.
var weighWords = map[string]bool{"same": true, "skip": true, "next": true, "enough": true, "pass": true, "done": true}

// isWeighWord says whether a message is nothing but one of those.
func isWeighWord(text string) bool { return weighWords[strings.Trim(strings.ToLower(text), " .!")] }

// yesForOthers is a yes to food that somebody at the table is not to have, with why that is well, which makes it one
// whatever else it may say: "yes, they know", "yes, its for the others".
var yesForOthers = regexp.MustCompile(`(?i)^\s*(?:yes|yep|yeah|yup|aye|ok|okay|sure|fine)\b[\s,.!-]+[a-z', ]*\b(?:separate|separately|own (?:plate|one|portion|dish)|something else|different (?:plate|one|dish)|not for (?:them|him|her|that|those|table|tbl)|isn'?t for (?:them|him|her|that|those|table|tbl)|for (?:the )?others?|other (?:tables?|guests)|they know|she knows|he knows|we know|i know|aware)\b[a-z' ]*(?:\d{1,3})?\s*[.!]*$`)

// yesApart is a yes with what the guest gets instead, in any words that are no answer otherwise: "yes, the allergy one
// gets a separate plate".
var yesApart = regexp.MustCompile(`(?i)^\s*(?:yes|yep|yeah|yup|ok|sure)\b[,.! ]+[^0-9?]*\b(?:separate|separately|different|another|other|own|without|instead|apart|alternative)\b[^0-9?]*$`)

// inPlain takes a message that is nothing but an answer in several words: "go ahead", "no, leave it
// out". It comes before all else that such words may mean.
func (t *turn) inPlain() (r Reply, done bool, err error) {
	kept := t.k.Questions[t.cook]
	q, ok := t.stillAsked(kept)
	if !ok || q.isShown() || q.Kind == askWeigh || t.m.At.Before(kept.At) || t.m.Edit && !t.reopened {
		return r, false, nil
	}
	if q.Kind == askNeed && isWeighWord(t.m.Text) {
		return r, false, nil
	}
	if r, done, err := t.someOf(q, kept.Message); done || err != nil {
		return r, done, err
	}
	a := t.reader().AnswerTalk(t.m.Text)
	if q.Kind == askNeed && (yesForOthers.MatchString(t.m.Text) || a == nil && yesApart.MatchString(t.m.Text)) {
		a = &language.Question{About: language.AboutYes}
	}
	switch {
	case a == nil:
		return r, false, nil
	case a.About == language.AboutYes && q.take(language.Answer{Yes: true}):
		r, err = t.complete(q, kept.Message)
	case a.About == language.AboutNo:
		r, err = t.leaveOut(q, kept.Message)
	default:
		return r, false, nil
	}
	return r, true, err
}
