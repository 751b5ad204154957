package bot

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"scullion/pantry"
)

// openLast puts what is not in the pantry, and may be said again, behind what needs an answer: it
// would be put aside by the next message, and the rest with it.
func openLast(list []pending) []pending {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b pending) int {
		switch {
		case a.idle() == b.idle():
			return 0
		case a.idle():
			return 1
		}
		return -1
	})
	return list
}

// sayRest says what else is not written yet, " Not written yet: flour."; "" nothing. What is not in the
// pantry was told of with its own message: it is not told again with each later one.
func (q *pending) sayRest() string {
	var names []string
	for i := range q.Rest {
		if r := &q.Rest[i]; !r.isShown() && r.Kind != askWeigh && r.About != q.About && (!r.Told || r.Asked != "") && (r.Asked == "" || !r.idle()) {
			name := r.About
			if d := r.Draft.Dish; d != "" && d != q.Draft.Dish && sayAway(d) == "" {
				name += " for the " + d
			}
			names = appendOnce(names, name)
		}
	}
	if len(names) == 0 || q.Kind == askWeigh {
		return ""
	}
	return " Not written yet: " + both(names, "and") + "."
}

// eachOpen hands do what cooks were asked since a time and have not answered, with what is behind it.
func eachOpen(k *pantry.Kitchen, since time.Time, do func(cook string, x *pending)) {
	for _, cook := range slices.Sorted(maps.Keys(k.Questions)) {
		kept := k.Questions[cook]
		var q pending
		if kept == nil || kept.At.Before(since) || json.Unmarshal(kept.Body, &q) != nil {
			continue
		}
		for _, x := range append([]pending{q}, q.Rest...) {
			if !x.isShown() && x.Kind != askWeigh {
				do(cook, &x)
			}
		}
	}
}

// what is asked about: "50g walnut".
func (q *pending) what() string { return strings.TrimSpace(q.Draft.Amount.Said + " " + q.About) }

// moves are the acts of which it is told that they were not written.
var moves = []pantry.Act{pantry.Use, pantry.Bin, pantry.Return, pantry.Receive, pantry.Make}

// stillOpen tells what cooks were asked since a time and never answered, so that it was not
// written: "Not written, as nobody answered: butter (ana), onions (dee)."; "" nothing. With a dish it
// tells only what was for that, and how much more there is.
func (t *turn) stillOpen(since time.Time, dish string) string {
	var list []string
	more := 0
	eachOpen(t.k, since, func(cook string, x *pending) {
		if !slices.Contains(moves, x.Draft.Act) {
			return
		}
		if dish != "" && !mayBeFor(t.k, x.Draft.Dish, dish) {
			more++
			return
		}
		what := x.what()
		if away := sayAway(x.Draft.Dish); away != "" {
			what += away
		} else if x.Draft.Dish != "" {
			what += " for the " + x.Draft.Dish
		}
		list = append(list, what+" ("+t.k.CookName(cook)+")")
	})
	if n := len(list) - mostOpenTold; n > 0 {
		list, more = list[:mostOpenTold], more+n
	}
	switch {
	case len(list) == 0:
		return ""
	case more > 0:
		list = append(list, fmt.Sprint(more, " more"))
	}
	return "\nNot written, as nobody answered: " + strings.Join(list, ", ") + "."
}

// mostOpenTold is how many unanswered questions one reply tells of; the rest it counts.
const mostOpenTold = 6

// unsettled lists what cooks were asked about and never answered that was for a dish: "50g walnut".
func unsettled(k *pantry.Kitchen, dish string, since time.Time) []string {
	return unsettledOf(k, func(d string) bool { return mayBeFor(k, d, dish) }, since)
}

// mayBeFor says whether what was for a dish may have been for another: that itself, or one which was never logged and
// is called so with more words or less, as the chicken curry is the curry, and the hake special the hake.
func mayBeFor(k *pantry.Kitchen, asked, dish string) bool {
	if asked == dish || asked == "" || slices.Contains(k.Dishes, asked) {
		return asked == dish
	}
	a, b := strings.Fields(asked), strings.Fields(dish)
	if len(a) < len(b) {
		a, b = b, a
	}
	return len(b) > 0 && (slices.Equal(a[len(a)-len(b):], b) || slices.Equal(a[:len(b)], b))
}

// unsettledOf is the same of all dishes that fit.
func unsettledOf(k *pantry.Kitchen, fits func(dish string) bool, since time.Time) (list []string) {
	eachOpen(k, since, func(_ string, x *pending) {
		if x.Draft.Act == pantry.Use && x.Draft.Dish != "" && fits(x.Draft.Dish) {
			list = appendOnce(list, x.what())
		}
	})
	return list
}

// unsettledIn is the same of what stands in a line of some dish, whenever that was made: until it is
// answered, nobody knows what is in it, frozen or not.
func unsettledIn(k *pantry.Kitchen, l *pantry.Line) (list []string) {
	if l == nil || l.Made == 0 {
		return nil
	}
	eachOpen(k, time.Time{}, func(_ string, x *pending) {
		if x.Draft.Act == pantry.Use && x.Draft.Dish != "" && isPotOf(l.Name, x.Draft.Dish) {
			list = appendOnce(list, x.what()+notAnswered)
		}
	})
	return list
}

// notAnswered stands behind what was asked about.
const notAnswered = " (asked about, and not answered)"

// since is when an account began.
func (w *Wrap) since() time.Time {
	return w.period.Since
}
