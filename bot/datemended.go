package bot

import (
	"regexp"
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// mendsDate opens a date that is set right with no other word: "no 2/3", "sorry, it's the 4th".
var mendsDate = regexp.MustCompile(`(?i)^\s*(?:(?:no|nope|sorry|actually|wait|oops|correction|hang on|ah|make that|make it|i meant?|meant|scratch that|should be)[,: -]+)+(?:it's |its |it is |it was |that's |thats |the |should be |make that |use by )*`)

// dateMended takes a bare correction of a date that this cook has just said as that of the same food: it goes
// before an open question, which a date does not answer. Done is false where no date was said last.
func (t *turn) dateMended() (r Reply, done bool, err error) {
	open := mendsDate.FindString(t.m.Text)
	if open == "" {
		return r, false, nil
	}
	q := t.reader().DateTalk("use by " + t.m.Text[len(open):])
	if q == nil {
		return r, false, nil
	}
	said, err := t.book.Heard(t.cook, t.said)
	if err != nil || said == nil || t.m.At.Sub(said.At) > spokenLong {
		return r, false, err
	}
	lines, best, err := t.datedBy(said)
	if err != nil || len(lines) != 1 {
		return r, false, err
	}
	when, ok := day(q.Date, t.said.At.In(t.m.At.Location()))
	if !ok {
		return Reply{Kind: Answer, Text: "That is no day of the calendar."}, true, nil
	}
	r, err = t.redate(lines[0], pantry.DateOf(when), best)
	return r, r.Kind != Silent, err
}

// datedBy gives the lines to which a message gave a date, and whether it was a best-before.
func (t *turn) datedBy(said *pantry.Message) (lines []*pantry.Line, best bool, err error) {
	if q := t.reader().DateTalk(said.Text); q != nil {
		lines, err = t.datedLines(q)
		return lines, q.About == language.AboutBestBy || q.About == language.AboutItsBestBy, err
	}
	entries, err := t.book.InForce(said)
	for _, e := range entries {
		if e.Act == pantry.Receive && e.Lot.Label && e.Lot.Date != "" {
			lines, best = append(lines, t.k.Line(e.Line)), e.Lot.Best
		}
	}
	return lines, best, err
}

// cameLate says of food that comes in past the use-by on its label that it is to go back: the door is where
// that is still cheap. "" where it is not.
func (t *turn) cameLate(e pantry.Entry, l *pantry.Line) string {
	stands := slices.ContainsFunc([]food.State{"", food.Raw, food.Cooked}, func(s food.State) bool { return s == e.Lot.State })
	if e.Act != pantry.Receive || !stands || !e.Lot.Label || e.Lot.Best || e.Lot.Date == "" || e.Lot.Date >= t.day() {
		return ""
	}
	return " Past its use-by (" + sayDay(e.Lot.Date) + "): do not use it. Send it back or bin it, or mend the date."
}
