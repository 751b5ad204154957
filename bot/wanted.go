package bot

import (
	"fmt"
	"strings"
	"time"

	"scullion/bot/language"
)

// When all of a plan that is on is wanted, as that moves.

// wantedAt notes that all is wanted later, sooner, or at a time.
func (t *turn) wantedAt(on *running, q *language.Question, now int) saidLive {
	was := max(on.From, on.Plan.Minutes)
	if on.Wish.Until != "" && on.End > 0 {
		was = on.End
		if on.From != on.End && on.Begun.Second() > 0 { // the clock time, not the minute before
			was++
		}
	}
	want := was
	switch q.About {
	case language.AboutLater:
		want += q.N
	case language.AboutSooner:
		want -= q.N
	default:
		at, ok := on.minuteOf(q, t.m.At, was)
		if !ok {
			return saidLive{text: "That time cannot be read. Say it like \"service at 18:30 now\".", none: true}
		}
		want = at
	}
	if want <= now {
		return saidLive{text: fmt.Sprintf("That is past. All ready %s.", on.at(on.Plan.Minutes, t.m.At)), none: true}
	}
	if on.End = want; want > was || on.From > 0 { // else it is to be ready as soon as can be, as it was
		on.From = want
	}
	text := "Wanted at " + on.at(want, t.m.At)
	switch {
	case want > was:
		text += fmt.Sprintf(", %d min later", want-was)
	case want < was:
		text += fmt.Sprintf(", %d min sooner", was-want)
	}
	return saidLive{text: text + ".", wanted: true}
}

// minuteOf is the minute of the service at which a clock shows what was said: where morning or evening was not, the nearer to
// another minute.
func (on *running) minuteOf(q *language.Question, now time.Time, near int) (minute int, ok bool) {
	due, ok := nextClock(now, q.At, q.Either)
	if !ok {
		return 0, false
	}
	minute = int((due.Sub(on.Begun) + time.Minute - 1) / time.Minute)
	if other := minute + 12*60; q.Either && max(other-near, near-other) < max(minute-near, near-minute) {
		minute = other
	}
	return minute, max(minute-near, near-minute) <= farthestWish
}

// farthestWish is how many minutes off what it was a time may be that all of a plan is wanted at.
const farthestWish = 6 * 60

// withWanted adds what comes of when all is wanted.
func (t *turn) withWanted(text string) (string, error) {
	on, ok, err := t.running()
	if err != nil || !ok {
		return text, err
	}
	return strings.Join(append([]string{text}, t.sayWanted(&on)...), "\n"), nil
}

// sayWanted tells what of a plan is ready so long before it is wanted that it stands longer than it should, and where all is
// ready too late; nothing where neither is so.
func (t *turn) sayWanted(on *running) (lines []string) {
	if late := on.Plan.Minutes - on.End; late > 0 && on.End > 0 {
		lines = append(lines, fmt.Sprintf(`That is %d min after it is wanted. "drop" and a dish's number, or "i can help", makes it sooner.`, late))
	}
	for n, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			end := s.Start + s.Minutes
			if wait := on.From - end; s.Ends && s.Hold >= 0 && wait > s.Hold {
				lines = append(lines, fmt.Sprintf("%s, is over at %s and then stands %d min: keep it hot or cold, as your own rules have it.", on.dishCalled(n), on.at(end, t.m.At), wait))
				break
			}
		}
	}
	return lines
}
