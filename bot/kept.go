package bot

import (
	"cmp"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// country is whose guidance the kitchen keeps to.
func (t *turn) country() string { return countryOf(t.b.o.Units) }

func countryOf(units string) string {
	if units == "us" {
		return "US"
	}
	return "UK"
}

// day is the day on which the message was said.
func (t *turn) day() pantry.Date { return pantry.DateOf(t.said.At.In(t.m.At.Location())) }

// dated gives a draft the date that was said of its item.
func (t *turn) dated(d *draft, it language.Item) {
	if !it.Date.Set {
		return
	}
	when, ok := day(it.Date, t.m.At)
	if d.Date, d.Label, d.Best = pantry.DateOf(when), ok, it.Best; !ok {
		d.Date, d.Best, t.note = "", false, title(d.Food)+": that use-by date is no day of the calendar, so it came in without. \"The "+d.Food+" is use by Friday\" gives it one."
	}
}

// stateOf is the state in which food comes in by a name, or is made; "" as it was
// delivered.
func stateOf(act pantry.Act, name string, f *food.Food) food.State {
	cooked := planner.BeforeCooking(name) != name && f == nil || f != nil && planner.IsCooked(f, name)
	switch {
	case cooked:
		return food.Cooked
	case act == pantry.Make:
		return food.MadeUp
	}
	return ""
}

// guided gives cooked and made food the date of storage guidance, unless the cook gave
// a shorter one.
func (t *turn) guided(lot *pantry.LotTerms, d *draft, l *pantry.Line, f *food.Food) {
	if d.Act == pantry.Receive && d.Thawed {
		t.cameThawed(lot, d, l, f)
		return
	}
	if d.Act == pantry.Receive && d.Frozen {
		t.datedFrozen(lot, d, l, f)
		return
	}
	state := stateOf(d.Act, l.Name, f)
	if d.Act == pantry.Make {
		state = t.madeState(d, l, state)
	}
	if state == "" || d.Act != pantry.Make && d.Act != pantry.Receive {
		return
	}
	if lot.State = state; !d.Label { // raw food's own keeping is none of it
		lot.Date, lot.Best = "", false
	}
	g, ok, m, from := t.guideFor(d.Act, d.Dish, l, f, state)
	by := cmp.Or(from, since(d, t)).Add(g.Days)
	if m.date != "" && (!ok || m.date < by) {
		by, ok = m.date, true
	}
	if ok && (lot.Date == "" || by < lot.Date) {
		if d.Label && t.note == "" {
			t.note = title(l.Name) + ": the guidance is the sooner, and goes before the date that was said."
		}
		lot.Date, lot.Label, lot.Best = by, false, g.Date == "best-before"
	}
}

// since is the day from which food is kept: that on which it was made, as far as that is said.
func since(d *draft, t *turn) pantry.Date {
	day := cmp.Or(d.Day, t.day())
	if ago, _ := language.MadeOn(t.m.Text, t.m.At.Weekday()); ago > 0 && day == t.day() {
		return day.Add(-ago)
	}
	return day
}

// madeBefore says whether the message tells that something was made on an earlier day.
func (t *turn) madeBefore() bool {
	ago, _ := language.MadeOn(t.m.Text, t.m.At.Weekday())
	return ago > 0
}

// keepNote says until when cooked and made food keeps, who says so, and the caution:
// " Use by Wed 4 Mar (UK FSA, cooked rice 24 h)."
func (t *turn) keepNote(e pantry.Entry, l *pantry.Line) string {
	if e.Lot.State == "" || e.Act != pantry.Make && e.Act != pantry.Receive {
		return ""
	}
	g, ok, m, from := t.guideFor(e.Act, e.Dish, l, t.ear.foodOf(l), e.Lot.State)
	s := ""
	if e.Lot.State == food.Uncooked && !(m.date != "" && m.date < cmp.Or(from, pantry.DateOf(e.At.In(t.m.At.Location())))) {
		g.Caution = strings.TrimSuffix(strings.TrimSpace(rawNote(l)), ".")
	}
	switch on := cmp.Or(from, pantry.DateOf(e.At.In(t.m.At.Location()))); {
	case e.Lot.Label:
	case m.date != "" && e.Lot.Date == m.date && m.date < on:
		return " Do not keep or serve it: the " + m.of + " in it was past its use-by (" + sayDay(m.date) + "). Bin it."
	case m.date != "" && e.Lot.Date == m.date && (!ok || m.date != on.Add(g.Days)):
		s := " Use by " + sayDay(m.date) + ", the date of the " + m.of + " in it."
		if of := t.k.Named(m.of); t.cutting && e.Lot.State == food.Uncooked {
			return " Use by " + sayDay(m.date) + ", the date of the " + m.of + "." + rawCaution
		} else if e.Lot.State == food.Uncooked {
			return s + rawNote(l)
		} else if of != nil && of.Made > 0 && !tellsWork(m.of, "cold") && !tellsWork(m.of, "worked") {
			s += " If that was reheated, do not keep it: what was reheated once is not reheated again."
		}
		return s
	case !ok:
		s = " No figure for how long it keeps."
	default:
		s = " " + title(sayBy(g.Date)) + " " + t.sayDate(e.Lot.Date) + " (" + sayGuide(g) + ")."
	}
	if g.Caution != "" {
		s += " " + title(g.Caution) + "."
	}
	return s
}

// sayGuide: "UK FSA, cooked rice 24 h".
func sayGuide(g food.Guidance) string {
	by := g.By() + ", "
	if strings.Contains(by, ", no source") {
		by = g.By() + ": "
	}
	return by + g.What + " " + sayKept(g.Days)
}

// sayKept is how long: 24 h, as the guidance for rice has it, or days and months.
func sayKept(days int) string {
	switch days {
	case 0:
		return "the same day"
	case 1:
		return "24 h"
	}
	return sayDays(days)
}

func sayBy(date string) string {
	if date == "best-before" {
		return "best before"
	}
	return "use by"
}

// sayDay: "Wed 4 Mar".
func sayDay(d pantry.Date) string {
	day, err := time.Parse(time.DateOnly, string(d))
	if err != nil {
		return string(d)
	}
	return day.Format("Mon 2 Jan")
}

// sayDate is sayDay with the year, where the day is far off.
func (t *turn) sayDate(d pantry.Date) string { return sayDate(d, t.day()) }

func sayDate(d, today pantry.Date) string {
	if d > today.Add(farOff) || d != "" && d < today.Add(-farOff) {
		return sayDay(d) + " " + string(d[:4])
	}
	return sayDay(d)
}

// lower begins a sentence with a small letter, after a blank.
func lower(s string) string {
	s = strings.TrimLeft(s, " ")
	r, n := utf8.DecodeRuneInString(s)
	return fmt.Sprintf(" %c%s", unicode.ToLower(r), s[n:])
}
