package bot_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
)

// "do 1 and 2" begins both: each keeps what it needs for a dish of its own, and as one
// pair of hands makes both, the second is ready later.
func TestBeginTwo(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas for the beetroot or the mushrooms in 60 min")
	if len(first.Ideas) < 2 {
		t.Fatalf("%v", titles(first))
	}
	one, two := first.Ideas[0], first.Ideas[1]
	got := r.say("7", "ana", "do 1 and 2")
	if got.Kind != bot.Log || len(got.Entries) != len(one.Uses)+len(two.Uses) {
		t.Fatalf("%+v", got)
	}
	if a, b := got.Entries[0].Dish, got.Entries[len(one.Uses)].Dish; a == b || a == "" || b == "" {
		t.Errorf("dishes %q and %q", a, b)
	}
	ready := r.at.Add(time.Duration(one.HandsOn+two.Minutes) * time.Minute)
	if !strings.Contains(got.Text, "ready "+ready.Format("15:04")) {
		t.Errorf("%s, not ready %s", got.Text, ready.Format("15:04"))
	}
	if again := r.say("8", "bo", "ideas?"); slices.Contains(titles(again), one.Title) || slices.Contains(titles(again), two.Title) {
		t.Errorf("offered again: %v", titles(again))
	}
	if back := r.say("7", "ana", "undo"); !strings.HasPrefix(back.Text, "Taken back") {
		t.Errorf("%+v", back)
	}
}

// What two ideas both need is not promised twice.
func TestBeginTwoOfOne(t *testing.T) {
	r := newRoom(t)
	r.say("1", "larder", "got 300g mushrooms, 500g butter, 12 eggs, 100g parsley")
	first := r.say("7", "ana", "ideas for the mushrooms")
	got := r.say("7", "ana", "do 1 and 2")
	if got.Kind != bot.Error || !strings.Contains(got.Text, "not enough chestnut mushroom") && !strings.Contains(got.Text, "not enough mushroom") || len(got.Entries) > 0 {
		t.Errorf("%v: %+v", titles(first), got)
	}
}

// What is asked between a list of ideas and the choice does not take the list away: not
// a question of the bot, nor its answer, nor the one idea behind an entry.
func TestListLasts(t *testing.T) {
	r := fullRoom(t)
	r.say("1", "larder", "got 400g red onions, 400g brown onions")
	first := r.say("7", "ana", "ideas?")
	if a := r.say("7", "ana", "used onion"); a.Kind != bot.Asking {
		t.Fatalf("%+v", a)
	}
	r.say("7", "ana", "red")
	if a := r.say("7", "ana", "how 3"); !strings.HasPrefix(strings.ToLower(a.Text), strings.ToLower(first.Ideas[2].Title)) {
		t.Errorf("with a question open: %+v", a)
	}
	if a := r.say("7", "ana", "200g"); a.Kind != bot.Log {
		t.Fatalf("%+v", a)
	}
	got := r.say("7", "ana", "do 3")
	if got.Kind != bot.Log || got.Entries[0].Item != first.Ideas[2].Uses[0].Item {
		t.Errorf("%v: %+v", titles(first), got)
	}
}

// "do 2" answers a question that offers two things, and does not answer "how much".
func TestDoIsNoAmount(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas?")
	if a := r.say("7", "ana", "used some potato"); a.Kind != bot.Asking {
		t.Fatalf("%+v", a)
	}
	got := r.say("7", "ana", "do 2")
	if got.Kind != bot.Log || got.Entries[0].Kind != "claim" || got.Entries[0].Item != first.Ideas[1].Uses[0].Item {
		t.Errorf("%v: %+v", titles(first), got)
	}
}

// "undo" right after "not 2" lets the idea be offered again; after an entry it takes
// back the entry.
func TestWantedAgain(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas for the carrots")
	bad := first.Ideas[1].Title
	r.say("7", "ana", "not 2")
	if a := r.say("7", "ana", "undo"); !strings.Contains(a.Text, bad) {
		t.Fatalf("%+v", a)
	}
	if a := r.say("7", "ana", "ideas for the carrots"); !slices.Contains(titles(a), bad) {
		t.Errorf("%q is not in %v", bad, titles(a))
	}
	r.say("7", "ana", "not 2")
	r.at = r.at.Add(time.Minute)
	r.say("7", "ana", "used 100g carrot")
	if a := r.say("7", "ana", "undo"); !strings.Contains(a.Text, "Left: carrot 600 g") {
		t.Errorf("%+v", a)
	}
}

// While a cook's hands are at what was begun, ideas in few minutes begin after that;
// another cook's do not.
func TestHandsBusy(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas?")
	r.say("7", "ana", "do 1")
	hands := first.Ideas[0].HandsOn
	mine := r.say("7", "ana", fmt.Sprintf("ideas in %d minutes", hands+8))
	for _, i := range mine.Ideas {
		if i.Minutes > 8 {
			t.Errorf("%q takes %d min", i.Title, i.Minutes)
		}
	}
	if !strings.Contains(mine.Text, fmt.Sprintf("for %d min more", hands)) {
		t.Errorf("%s", mine.Text)
	}
	if none := r.say("7", "ana", fmt.Sprintf("ideas in %d minutes", hands)); len(none.Ideas) > 0 || !strings.Contains(none.Text, "Your hands") {
		t.Errorf("%+v", none)
	}
	theirs := r.say("8", "bo", fmt.Sprintf("ideas in %d minutes", hands+8))
	if !slices.ContainsFunc(theirs.Ideas, func(i bot.Idea) bool { return i.Minutes > 8 }) || strings.Contains(theirs.Text, "Your hands") {
		t.Errorf("%s", theirs.Text)
	}
	r.at = r.at.Add(time.Duration(hands) * time.Minute)
	if later := r.say("7", "ana", "ideas in 20 minutes"); strings.Contains(later.Text, "Your hands") {
		t.Errorf("%s", later.Text)
	}
}

// How tells all that an idea takes, and its steps; behind an entry too.
func TestHow(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas?")
	for n, i := range first.Ideas {
		got := r.say("7", "ana", fmt.Sprintf("how %d", n+1))
		for _, u := range append(slices.Clone(i.Uses), i.Cupboard...) {
			if !strings.Contains(got.Text, " "+u.Item) {
				t.Errorf("no %s in %s", u.Item, got.Text)
			}
		}
		if !strings.Contains(got.Text, "\na ") {
			t.Errorf("no steps in %s", got.Text)
		}
		for _, a := range i.Allergens {
			if !strings.Contains(got.Text, a) {
				t.Errorf("%s is not in %s", a, got.Text)
			}
		}
	}
	logged := r.say("7", "ana", "used 100g carrot")
	if got := r.say("7", "ana", "how is that made"); len(logged.Ideas) != 1 || !strings.Contains(strings.ToLower(got.Text), strings.ToLower(logged.Ideas[0].Title)) {
		t.Errorf("%+v: %+v", logged.Ideas, got)
	}
}

// Where ideas are asked for in the breath in which something is logged, none stands
// behind the entry besides.
func TestOneListOfIdeas(t *testing.T) {
	r := fullRoom(t)
	got := r.say("7", "ana", "used 100g carrot. ideas for the carrots?")
	if got.Kind != bot.Log || strings.Contains(got.Text, "Free carrot:") || len(got.Ideas) != 3 {
		t.Errorf("%+v", got)
	}
}

// Trim is told with what there is of it: off what was used, and on what is here.
func TestTrimAmounts(t *testing.T) {
	r := fullRoom(t)
	r.say("7", "ana", "used 400g carrots in the soup")
	if a := r.say("7", "ana", "ideas for the carrot peel"); !strings.Contains(a.Text, "off the 400 g used") || !strings.Contains(a.Text, "on the 200 g here") {
		t.Errorf("%s", a.Text)
	}
	if a := r.say("7", "ana", "what can I do with celeriac peel?"); strings.Contains(a.Text, " here") || strings.Contains(a.Text, " used") {
		t.Errorf("no celeriac was ever here: %s", a.Text)
	}
}
