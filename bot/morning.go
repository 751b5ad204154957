package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Dated is food of one line that has the same date, and what its label needs to say of it.
type Dated struct {
	Item   string
	State  food.State // "" as it was delivered
	Amount measure.Amount
	Unit   measure.Kind
	Date   pantry.Date
	UseBy  bool // Date is one of safety, not of quality
	Label  bool // Date is from a label or the cook
	Best   bool // and a best-before by it; UseBy may hold for all that
	days   int
}

// datedFood lists what is on hand and has a date, by a country's guidance: use-bys before
// best-befores, the soonest first, and so what is past its use-by before all. Undated has what was
// done to it and has no date as well.
func datedFood(k *pantry.Kitchen, foodOf func(*pantry.Line) *food.Food, today pantry.Date, country string, undated bool) (list []Dated) {
	for _, l := range k.Lines {
		first := len(list)
		for _, o := range l.Lots {
			if o.Left == 0 || o.Date == "" && (!undated || o.State == "") {
				continue
			}
			f := foodOf(l)
			d := Dated{Item: l.Name, State: o.State, Amount: o.Left, Unit: l.Unit, Date: o.Date, Label: o.Label, Best: o.Label && o.Best, UseBy: isUseBy(o, l, f, country), days: o.Date.Days(today)}
			if o.State == food.Frozen {
				d.UseBy = false
			}
			if at := slices.IndexFunc(list[first:], func(x Dated) bool {
				return x.State == d.State && x.Date == d.Date && x.Label == d.Label && x.UseBy == d.UseBy && x.Best == d.Best
			}); at >= 0 {
				list[first+at].Amount += d.Amount
				continue
			}
			list = append(list, d)
		}
	}
	slices.SortStableFunc(list, func(a, b Dated) int {
		return cmp.Or(b2i(b.UseBy)-b2i(a.UseBy), cmp.Compare(a.days, b.days), cmp.Compare(a.Item, b.Item))
	})
	return list
}

// mostGoing is how many lines the list of what must go has at most, mostGoingAsked where it is asked for.
const (
	mostGoing      = 5
	mostGoingAsked = 20
)

// goesToday says what must go today and what is past its date, a line each; whole
// says that there is to be an answer where nothing must.
func (t *turn) goesToday(whole bool) (string, error) {
	return going(t.book, t.ear, t.m.At, t.country(), whole)
}

func going(book pantry.Book, ear *ear, now time.Time, country string, whole bool) (string, error) {
	list := datedFood(book.Kitchen(), ear.foodOf, pantry.DateOf(now), country, false)
	left, err := pots(book, ear, now, country)
	return sayGoing(append(list, left...), whole), err
}

func sayGoing(list []Dated, whole bool) string {
	most := mostGoing
	if whole {
		most = mostGoingAsked
	}
	var due []string
	var next *Dated
	for i, d := range list {
		switch {
		case d.days <= 0:
			due = append(due, d.say())
		case next == nil || d.days < next.days:
			next = &list[i]
		}
	}
	switch {
	case len(due) > most:
		more := len(due) - most + 1
		due = append(due[:most-1], fmt.Sprintf("And %d more: \"what's left?\" has them.", more))
	case len(due) > 0 || !whole:
	case next != nil:
		return "Nothing must go today. Next: " + next.Item + ", " + sayBy(next.kind()) + " " + (held{Dated: *next}).on() + "."
	default:
		return "Nothing must go today."
	}
	return strings.Join(due, "\n")
}

func (d Dated) kind() string {
	if d.UseBy && !d.Best { // what a label says is told in its words
		return "use-by"
	}
	return "best-before"
}

// say: "Use by today: cooked rice 300 g (UK FSA).", "Past its use-by (Mon 2 Mar): beef
// mince 500 g. Do not use: bin it."
func (d Dated) say() string {
	what := d.Item + d.howMuch()
	if d.State == food.Opened || d.State == food.Frozen || d.State == food.Thawed {
		what += ", " + string(d.State)
	}
	guess := !d.Label && d.State == "" // the usual keeping of such food: no label was told
	switch {
	case d.UseBy && d.Best && d.days < 0:
		return "Past its best-before (" + sayDay(d.Date) + "): " + what + ". Such food is not used after it: bin it."
	case d.UseBy && d.Best:
		return "Best before today: " + what + "."
	case d.UseBy && d.days < 0 && guess:
		return "Past its use-by (" + sayDay(d.Date) + ", by the usual keeping): " + what + ". Do not use it unless its label says later: bin it."
	case d.UseBy && d.days < 0:
		return "Past its use-by (" + sayDay(d.Date) + "): " + what + ". Do not use: bin it."
	case d.UseBy && guess:
		return "Use by today, by the usual keeping: " + what + ". The label goes first."
	case d.UseBy:
		return "Use by today: " + what + "."
	case d.days < 0:
		return "Past its best (" + sayDay(d.Date) + "): " + what + ". Look, smell, then decide."
	}
	return "Best before today: " + what + "."
}

// firstHour is when the morning message comes where no hour was said.
const firstHour = "09:00"

// setMorning has the room told each day what must go. In a room that cannot be
// called it comes with the first answer of the day.
func (t *turn) setMorning(q *language.Question) (Reply, error) {
	if _, err := t.stopMorning(); err != nil {
		return Reply{}, err
	}
	at := q.At
	if at == "" && t.m.Room != "" {
		at = firstHour
	}
	due, ok := nextClock(t.said.At.In(t.m.At.Location()), cmp.Or(at, "00:00"), false)
	if !ok {
		return Reply{Kind: Error, Text: "That is no time of the day. Say it like \"tell us at 9 what must go today\"."}, nil
	}
	x := pantry.Timer{Message: t.said.ID, Cook: t.cook, Room: t.m.Room, About: "what must go", Begun: t.said.At, Due: due, Daily: true}
	when := "at " + at + ", if anything must go"
	if t.m.Room == "" {
		when = "with the first answer"
		if at != "" {
			when += " from " + at + " on"
		}
	}
	return Reply{Kind: Answer, Timed: t.m.Room != "", Text: "Each day " + when + ": what must go, and what is past its date. \"no morning message\" ends it."}, t.book.SetTimer(x)
}

func (t *turn) endMorning() (Reply, error) {
	n, err := t.stopMorning()
	if err != nil || n == 0 {
		return Reply{Kind: Answer, Text: "There is no morning message."}, err
	}
	return Reply{Kind: Answer, Text: "No morning message any more."}, nil
}

// stopMorning ends the morning message of the room.
func (t *turn) stopMorning() (n int, err error) {
	running, err := t.book.Timers()
	for _, x := range running {
		if x.Daily && x.Room == t.m.Room && err == nil {
			n++
			err = t.book.StopTimer(x)
		}
	}
	return n, err
}

// withMorning puts the morning message behind the first answer of the day, in a room
// that cannot be called.
func (t *turn) withMorning(r *Reply) error {
	if r.Kind == Silent || t.m.Room != "" {
		return nil
	}
	running, err := t.book.Timers()
	if err != nil {
		return err
	}
	for _, x := range running {
		if !x.Daily || x.Room != "" || x.Due.After(t.m.At) {
			continue
		}
		if err := t.book.SetTimer(again(x, t.m.At)); err != nil {
			return err
		}
		s, err := t.goesToday(false)
		if err != nil {
			return err
		}
		for _, s := range []string{sayOfToday(t.needs(), t.day()), s} {
			if s != "" && !strings.Contains(r.Text, s) {
				r.Text += "\n" + s
			}
		}
	}
	return nil
}

// morning posts what must go in the room of a daily timer, and sets it for the next
// day; due is false where there is nothing to post.
func (b *Bot) morning(book pantry.Book, x pantry.Timer, now time.Time) (p Posting, due bool, err error) {
	if err := book.SetTimer(again(x, now)); err != nil {
		return p, false, err
	}
	k := book.Kitchen()
	ear := b.ears.of(k)
	text, err := going(book, ear, now, countryOf(b.o.Units), false)
	text = strings.TrimSpace(sayOfToday(NeedsAt(k, now), pantry.DateOf(now)) + "\n" + text)
	if text == "" || err != nil {
		return p, false, err
	}
	p, err = announce(book, Posting{Kitchen: k.Name, ID: "morning " + string(pantry.DateOf(now)) + " " + x.Room, To: x.Message, Room: x.Room, At: now,
		Reply: Reply{To: x.Message, Kind: Answer, Text: text}})
	return p, true, err
}

// again is a daily timer as it runs on after now.
func again(x pantry.Timer, now time.Time) pantry.Timer {
	due, ok := nextClock(now, x.Due.In(now.Location()).Format("15:04"), false)
	if !ok {
		due = now.AddDate(0, 0, 1)
	}
	x.Due = due
	return x
}
