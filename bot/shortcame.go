package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// A delivery that was short, or was told wrong, is the delivery that came, set right: no more of the food came.
var (
	onlyGot  = regexp.MustCompile(`(?i)^\s*(?:actually |sorry |no,? )?(?:we |i |they |they've |weve |we've )?only (?:got|had|received|brought|sent|delivered|took in) (\d[\w.,]* ?[a-z]* .*?)[.!]?\s*$`)
	shorted  = regexp.MustCompile(`(?i)^\s*(?:the |our )?[a-z' -]{2,30}? (?:shorted|short-?changed|robbed|did|diddled) us,? (?:on [a-z' -]+,? )?(?:and |- ?)?(?:we )?(only .*)$`)
	onlyCame = regexp.MustCompile(`(?i)^\s*only (\d[\w.,]* ?[a-z]*) (?:of (?:the )?)?([a-z' -]+?) (?:came|came in|arrived|turned up|was delivered|were delivered|was there|were there)[.!]?\s*$`)
	notFirst = regexp.MustCompile(`(?i)^\s*(?:actually |sorry |no,? |that's |thats |it was )?` + maybeUnit + ` (?:of )?(?:the )?([a-z' -]+?),? not (?:the )?` + maybeUnit + `[.!]?\s*$`)
	wasNot   = regexp.MustCompile(`(?i)^\s*(?:actually |sorry |no,? )?(?:the )?([a-z' -]+?) (?:(?:was|were|should be|is|should of been|should have been) )?(?:only )?` + maybeUnit + `,? not (?:the )?` + maybeUnit + `[.!]?\s*$`)
)

// shortCameTalk corrects the delivery that such a message means. Done is false where it means none of today.
func (t *turn) shortCameTalk() (r Reply, done bool, err error) {
	said, text := "", t.m.Text
	if m := shorted.FindStringSubmatch(text); m != nil { // "veg man shorted us, only 8kg tomatoes came"
		text = m[1]
	}
	switch {
	case onlyGot.MatchString(text):
		said = onlyGot.FindStringSubmatch(text)[1]
	case onlyCame.MatchString(text):
		m := onlyCame.FindStringSubmatch(text)
		said = m[1] + " " + m[2]
	case notFirst.MatchString(text): // "1.6kg flour not 1.4"
		m := notFirst.FindStringSubmatch(text)
		return t.wasNotTalk([]string{"", m[2], m[1], m[3]})
	case wasNot.MatchString(text):
		return t.wasNotTalk(wasNot.FindStringSubmatch(text))
	default:
		return r, false, nil
	}
	it, l := t.oneItem(said)
	if l == nil { // "the thighs" of the chicken thighs that came
		if l, err = t.cameCalled(it.Food); l == nil || err != nil {
			return r, false, err
		}
	}
	target, entries, i, err := t.cameAs(l)
	if err != nil || target == nil || entries[i].Amount <= it.Amount.Base && it.Amount.How == language.Measured {
		return r, false, err
	}
	return t.mendOf(target, entries, i, l, it.Amount)
}

// oneItem reads an amount of one food on these lines; nil where it is none.
func (t *turn) oneItem(said string) (it language.Item, l *pantry.Line) {
	for _, s := range t.reader().Read("got " + said).Statements {
		if len(s.Items) != 1 {
			return it, nil
		}
		it = s.Items[0]
	}
	h := t.ear.find(it.Food)
	if it.Amount.How != language.Measured && it.Amount.How != language.Pieces {
		return language.Item{}, nil
	}
	if !h.exact || h.sound || len(h.lines) != 1 {
		return it, nil
	}
	return it, h.lines[0]
}

// cameCalled gives the line of the last delivery in fair time that is called so for short; nil none.
func (t *turn) cameCalled(food string) (*pantry.Line, error) {
	if food == "" {
		return nil, nil
	}
	m, entries, i, err := t.lastEntry("", mostNotBack, func(e pantry.Entry) bool { return e.Act == pantry.Receive && t.isShortly(e, food) })
	if err != nil || m == nil {
		return nil, err
	}
	return t.k.Line(entries[i].Line), nil
}

// cameAs finds the entry by which a line came in last, within a service; nil where none did.
func (t *turn) cameAs(l *pantry.Line) (*pantry.Message, []pantry.Entry, int, error) {
	target, err := t.book.CameWith(l.ID)
	if err != nil || target == nil || t.m.At.Sub(target.At) > serviceLong {
		return nil, nil, 0, err
	}
	entries, err := t.book.InForce(target)
	for i, e := range entries {
		if e.Line == l.ID && e.Act == pantry.Receive {
			return target, entries, i, err
		}
	}
	return nil, nil, 0, err
}

// mendOf puts another amount into an entry; what another cook logged is theirs to correct.
func (t *turn) mendOf(target *pantry.Message, entries []pantry.Entry, i int, l *pantry.Line, a language.Amount) (Reply, bool, error) {
	if target.Cook != t.cook {
		return Reply{Kind: Answer, Text: title(t.k.CookName(target.Cook)) + " logged that " + l.Name + ", and can correct it: each cook corrects their own."}, true, nil
	}
	r, err := t.mend(target, entries, i, &language.Amend{Amount: a, Food: l.Name, Named: true})
	return r, r.Kind != Silent, err
}

// mostNotBack is how many of a cook's messages back an amount is looked for that it was not.
const mostNotBack = 40

// wasNotTalk corrects the entry that had the amount which it was not: "topside was 11.5kg not 12". Done is
// false where none of today had.
func (t *turn) wasNotTalk(m []string) (r Reply, done bool, err error) {
	h := t.ear.find(m[1])
	if !h.exact || h.sound || len(h.lines) != 1 {
		return r, false, nil
	}
	l := h.lines[0]
	a := t.reader().Answer(m[2]).Amount
	if a.How == language.Pieces && a.Part == "" { // "was 200 not 100": in the unit of the line, or in kilos
		a = t.reader().Answer(m[2] + strings.TrimLeft(m[3], "0123456789., ")).Amount
	}
	was := t.reader().Answer(m[3]).Amount
	if was.How == language.Pieces && a.How == language.Measured { // "1.6kg flour not 1.4"
		was = t.reader().Answer(m[3] + strings.TrimLeft(m[2], "0123456789., ")).Amount
	}
	target, entries, i, err := t.lastEntry(t.cook, mostNotBack, func(e pantry.Entry) bool { return e.Line == l.ID && isAmount(e, was, l) })
	if err != nil || target == nil {
		return r, false, err
	}
	if e := entries[i]; a.How == language.Pieces && e.Pieces == 0 {
		a.How, a.Kind, a.Base = language.Measured, l.Unit, scaleLike(e.Amount, was, a)
	}
	return t.mendOf(target, entries, i, l, a)
}

// isAmount says whether an entry was of an amount that may be told without its unit: 12 of 12 kg, 200 of 200 g.
func isAmount(e pantry.Entry, a language.Amount, l *pantry.Line) bool {
	if a.How == language.Measured {
		return e.Amount == a.Base
	}
	if a.How != language.Pieces || a.N.Den == 0 {
		return false
	}
	one, err := a.N.Of(1000)
	if err != nil {
		return false
	}
	return e.Pieces != 0 && e.Pieces == int64(one) || e.Pieces == 0 && (e.Amount == one || e.Amount == one*1000)
}

// scaleLike gives what a bare number is where another bare number is an amount.
func scaleLike(of measure.Amount, was, now language.Amount) measure.Amount {
	one, err := was.N.Of(1000)
	to, err2 := now.N.Of(1000)
	if err != nil || err2 != nil || one == 0 {
		return of
	}
	return to * (of / one)
}
