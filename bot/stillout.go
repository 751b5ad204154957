package bot

import (
	"fmt"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// aboutNothing is what was told and comes to nothing.
const aboutNothing language.About = "nothing"

// stillOut puts for how long food stands that "is still on the pass", from when it was made; it comes to nothing where that
// is not long ago, and is asked where it was not made here.
func (t *turn) stillOut(q *language.Question, said time.Time) {
	q.State = ""
	made, err := t.madeHere(q.Food, said)
	switch out := said.Sub(made); {
	case err != nil || made.IsZero():
	case out <= mostHoursHot*time.Hour:
		q.About = aboutNothing
	default:
		q.N = int((out + time.Hour - 1) / time.Hour)
		q.Method = fmt.Sprintf("since it was made at %s, %s (where it was not kept at %d C or more)", made.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(out/time.Minute)), t.limits().hot)
	}
}

// madeHere gives when food was made here last, before a time; zero it was not.
func (t *turn) madeHere(name string, said time.Time) (made time.Time, err error) {
	lines, _ := t.heldLines(name)
	for _, l := range lines {
		if l.Made == 0 {
			continue
		}
		by, err := t.book.CameWith(l.ID)
		if err != nil {
			return made, err
		}
		if by != nil && by.At.Before(said) && by.At.After(made) {
			made = by.At
		}
	}
	if !made.IsZero() {
		return made, nil
	}
	_, in, err := t.cooked(name)
	for _, e := range in {
		if e.Act == pantry.Use && e.At.Before(said) && e.At.After(made) {
			made = e.At
		}
	}
	return made, err
}
