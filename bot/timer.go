package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// alsoTimed does what a message wishes of timers, besides what else it says.
func (t *turn) alsoTimed(r Reply, w *language.Timer) (Reply, error) {
	var list []string
	for part, w := range append([]language.Timer{*w}, w.Also...) {
		text, err := t.timed(w, part)
		if err != nil {
			return r, err
		}
		if text != "" {
			list = append(list, text)
		}
		r.Timed = r.Timed || w.Wish != language.TimerList && t.m.Room != ""
	}
	if len(list) == 0 {
		return r, nil
	}
	t.plain = false
	r.Text = strings.TrimSpace(r.Text + "\n" + strings.Join(list, "\n"))
	if r.Kind == Silent {
		r.Kind = Answer
	}
	return r, nil
}

func (t *turn) timed(w language.Timer, part int) (string, error) {
	running, err := t.book.Timers()
	if err != nil {
		return "", err
	}
	for _, x := range running {
		if isOver(x, t.m.At) {
			if err := t.book.StopTimer(x); err != nil {
				return "", err
			}
		}
	}
	running = slices.DeleteFunc(running, func(x pantry.Timer) bool { return x.IsCall() || x.Daily || isOver(x, t.m.At) }) // the plan's own, and the morning message
	if w.Loose && len(aboutThat(running, w)) == 0 {                                                                       // "how long has the milk got?"
		return "", nil
	}
	if text, done, err := t.planTimer(w, forThat(running, w)); done || err != nil {
		return text, err
	}
	switch w.Wish {
	case language.TimerSet:
		if t.m.Room == "" && !t.m.Counts {
			return "No timers here: this room cannot call you. Use the kitchen's own timer.", nil
		}
		return t.setTimer(w, part)
	case language.TimerStop:
		return t.stopTimers(w, running)
	case language.TimerMore:
		return t.runLonger(w, running)
	}
	return t.sayTimers(aboutThat(running, w)), nil
}

// seenFor is how long a timer that calls nobody is seen after it is due.
const seenFor = 10 * time.Minute

// isOver says whether a timer that calls nobody is long due.
func isOver(x pantry.Timer, now time.Time) bool {
	return x.Room == "" && !x.Daily && now.Sub(x.Due) > seenFor
}

// mostTimers is how many may run in a kitchen at once.
const mostTimers = 50

func (t *turn) setTimer(w language.Timer, part int) (string, error) {
	begun := t.said.At // an edit sets it as of then
	x := pantry.Timer{Message: t.said.ID, Part: part, Cook: t.cook, Room: t.m.Room, About: w.For, Begun: begun, Due: begun.Add(time.Duration(w.Seconds) * time.Second)}
	if w.At != "" {
		due, ok := nextClock(begun, w.At, w.Either)
		if !ok {
			return "That is no time of the day. Say it like \"timer at 18:30 for the tart\".", nil
		}
		x.Due = due
	}
	if list, err := t.book.Timers(); err != nil || len(list) >= mostTimers {
		return fmt.Sprintf("%d timers are running: stop one first.", len(list)), err
	}
	return "Timer set: " + t.sayTimer(x) + ".", t.book.SetTimer(x)
}

// nextClock gives when a clock shows a time next; where morning or evening was
// not said, the sooner of the two.
func nextClock(from time.Time, clock string, either bool) (time.Time, bool) {
	c, err := time.Parse("15:04", clock)
	if err != nil {
		return from, false
	}
	due := time.Date(from.Year(), from.Month(), from.Day(), c.Hour(), c.Minute(), 0, 0, from.Location())
	step := 24
	if either {
		step = 12
	}
	for i := 0; !due.After(from); i++ {
		due = time.Date(from.Year(), from.Month(), from.Day(), c.Hour()+(i+1)*step, c.Minute(), 0, 0, from.Location())
	}
	return due, true
}

// aboutThat gives those timers that a wish may be about.
func aboutThat(list []pantry.Timer, w language.Timer) (kept []pantry.Timer) {
	for _, x := range list {
		if w.Seconds > 0 && x.Due.Sub(x.Begun) != time.Duration(w.Seconds)*time.Second {
			continue
		}
		if w.For == "" || fitsName(x.About, w.For) {
			kept = append(kept, x)
		}
	}
	return kept
}

// fitsName says whether the words of a name are all in another.
func fitsName(name, said string) bool {
	have := strings.Fields(unbracketed.Replace(food.Fold(name)))
	for _, w := range strings.Fields(food.Fold(said)) {
		if !slices.ContainsFunc(have, func(h string) bool { return h == w || singular(h) == singular(w) }) {
			return false
		}
	}
	return true
}

// unbracketed takes off what stands about words: "bake (leek tart)".
var unbracketed = strings.NewReplacer("(", " ", ")", " ", ",", " ", ";", " ")

func (t *turn) stopTimers(w language.Timer, running []pantry.Timer) (string, error) {
	list := running
	if !w.All {
		list = aboutThat(running, w)
	}
	switch {
	case len(running) == 0:
		return "No timer is running.", nil
	case len(list) == 0:
		return "No such timer is running. " + t.sayTimers(running), nil
	case len(list) > 1 && !w.All:
		return "Which one? " + t.sayTimers(list) + ` Say "stop the ` + called(list[0]) + ` timer", or "stop all timers".`, nil
	}
	var names []string
	for _, x := range list {
		if err := t.book.StopTimer(x); err != nil {
			return "", err
		}
		names = append(names, called(x))
	}
	if err := t.quiet(list); err != nil {
		return "", err
	}
	return "Stopped: " + both(names, "and") + ".", nil
}

// runLonger gives a timer more time.
func (t *turn) runLonger(w language.Timer, running []pantry.Timer) (string, error) {
	list := forThat(running, w)
	switch {
	case len(running) == 0:
		return "No timer is running. " + `Say "timer ` + sayLong(time.Duration(w.Seconds)*time.Second) + `" for a new one.`, nil
	case len(list) == 0:
		return "No such timer is running. " + t.sayTimers(running), nil
	case len(list) > 1:
		return "Which one? " + t.sayTimers(list) + ` Say "` + sayLong(time.Duration(w.Seconds)*time.Second) + " more on the " + called(list[0]) + ` timer".`, nil
	}
	x := list[0]
	more := time.Duration(w.Seconds) * time.Second
	x.Due = x.Due.Add(more)
	return sayLong(more) + " more: " + t.sayTimer(x) + ".", t.book.SetTimer(x)
}

// forThat gives those timers that have the name that a wish says.
func forThat(list []pantry.Timer, w language.Timer) []pantry.Timer {
	return aboutThat(list, language.Timer{For: w.For})
}

// called names a timer by what it is for, or how long it is.
func called(x pantry.Timer) string {
	if x.About != "" {
		return x.About
	}
	return sayLong(x.Due.Sub(x.Begun))
}

func (t *turn) sayTimers(list []pantry.Timer) string {
	if len(list) == 0 {
		return "No timer is running for that."
	}
	var say []string
	for _, x := range list {
		say = append(say, t.sayTimer(x)+", "+sayLong(x.Due.Sub(t.m.At))+" to go ("+t.k.CookName(x.Cook)+")")
	}
	return "Running: " + strings.Join(say, "; ") + "."
}

// sayTimer: "tart, 12 min, at 18:42".
func (t *turn) sayTimer(x pantry.Timer) string {
	s := sayLong(x.Due.Sub(x.Begun)) + ", at " + x.Due.In(t.m.At.Location()).Format("15:04")
	if x.About != "" {
		return x.About + ", " + s
	}
	return s
}

// sayLong: "12 min", "1 h 20 min", "90 s".
func sayLong(d time.Duration) string {
	d = max(0, d.Round(time.Second))
	switch {
	case d < 2*time.Minute && d%time.Minute != 0:
		return fmt.Sprintf("%d s", int(d.Seconds()))
	case d < 10*time.Minute && d%time.Minute != 0:
		return fmt.Sprintf("%d min %d s", int(d.Minutes()), int(d.Seconds())%60)
	case d < time.Hour:
		return fmt.Sprintf("%d min", int(d.Round(time.Minute).Minutes()))
	}
	d = d.Round(time.Minute)
	if m := int(d.Minutes()) % 60; m > 0 {
		return fmt.Sprintf("%d h %d min", int(d.Hours()), m)
	}
	return fmt.Sprintf("%d h", int(d.Hours()))
}

// untimed ends the timers that the message had set, and takes off the time that it
// had given others; "" none.
func (t *turn) untimed() (string, error) {
	running, err := t.book.Timers()
	if err != nil {
		return "", err
	}
	names, err := t.takeOff(running)
	if err != nil {
		return "", err
	}
	for _, x := range running {
		if x.Message != t.said.ID {
			continue
		}
		if err := t.book.StopTimer(x); err != nil {
			return "", err
		}
		if x.Daily {
			names = append(names, "the morning message")
			continue
		}
		names = append(names, "the "+called(x)+" timer")
	}
	return both(names, "and"), nil
}

// takeOff takes back the time that the message had given to timers that run still:
// it is read once more, for a running timer keeps no book of what it was given.
func (t *turn) takeOff(running []pantry.Timer) (names []string, err error) {
	w := t.reader().Read(t.said.Text).Timer
	if w == nil {
		return nil, nil
	}
	on, _, err := t.running()
	if err != nil {
		return nil, err
	}
	running = slices.DeleteFunc(slices.Clone(running), func(x pantry.Timer) bool { return on.Message != "" && x.Message == on.Message }) // unstretch sees to these
	for _, w := range append([]language.Timer{*w}, w.Also...) {
		list := forThat(running, w)
		if w.Wish != language.TimerMore || len(list) != 1 {
			continue
		}
		x := list[0]
		x.Due = x.Due.Add(-time.Duration(w.Seconds) * time.Second)
		if x.Due.Sub(x.Begun) <= 0 {
			continue
		}
		if err := t.book.SetTimer(x); err != nil {
			return nil, err
		}
		names = append(names, sayLong(time.Duration(w.Seconds)*time.Second)+" more on the "+called(x)+" timer")
	}
	return names, nil
}

// lateRing is how late a timer may ring without saying so.
const lateRing = time.Minute

// ring posts a kitchen's timers that are due by now, and ends them.
func (b *Bot) ring(book pantry.Book, now time.Time) (rung []Posting, err error) {
	k := book.Kitchen()
	running, err := book.Timers()
	if err != nil {
		return nil, err
	}
	for _, x := range running {
		if x.Due.After(now) || x.Room == "" { // there it is seen, and not called
			continue
		}
		if x.Daily {
			p, due, err := b.morning(book, x, now)
			if err != nil {
				return nil, err
			}
			if due {
				rung = append(rung, p)
			}
			continue
		}
		text := "Timer: " + called(x)
		if x.About == askOver && x.IsCall() {
			last, err := book.Latest()
			if err != nil {
				return nil, err
			}
			if last != nil && now.Sub(last.At) < quietFor {
				x.Begun, x.Due = last.At.Add(quietFor), last.At.Add(quietFor)
				if err := book.SetTimer(x); err != nil {
					return nil, err
				}
				continue
			}
		}
		switch {
		case x.About == askOver && x.IsCall():
			text = `Is the service over? "wrap up" gives the account of the crate.`
		case x.IsCall():
			text = "Now: " + x.About + "."
		case x.About != "":
			text += ", " + sayLong(x.Due.Sub(x.Begun))
			fallthrough
		default:
			text += " (" + k.CookName(x.Cook) + ")."
			then, err := afterRing(book, x, now)
			if err != nil {
				return nil, err
			}
			text += then
		}
		if late := now.Sub(x.Due); late > lateRing {
			text += " It was due " + sayLong(late) + " ago, while I was away."
		}
		p, err := announce(book, Posting{Kitchen: k.Name, ID: fmt.Sprint("timer ", x.Message, " ", x.Part), To: x.Message, Room: x.Room, At: now,
			Reply: Reply{To: x.Message, Kind: Answer, Text: text}})
		if err != nil {
			return nil, err
		}
		if err := book.StopTimer(x); err != nil {
			return nil, err
		}
		rung = append(rung, p)
	}
	return rung, nil
}
