package discord_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

// What was said, edited and deleted while the bot was away is read when it is
// back: once, in order. Late answers are gathered into one.
func TestAway(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	edited := k.ch.Say(k.stove, "used 300g leek in the tart")
	answer := k.answer(k.ch, edited)
	deleted := k.ch.Say(k.stove, "used 100g leek in the soup")
	k.answer(k.ch, deleted)
	k.down()

	k.srv.Edit(edited, "used 200g leek in the tart")
	k.srv.Delete(deleted)
	k.ch.Say(k.larder, "used 100ml cream in the soup")
	k.ch.Say(k.larder, "make that 150ml")
	k.ch.Say(k.larder, "the radio is too loud")
	k.ch.Say(k.stove, "used 2 onions in the soup")
	k.ch.Say(k.stove, "red")
	gone := k.ch.Say(k.larder, "used 5 eggs in the pie")
	k.srv.Delete(gone)
	before := len(k.ch.Messages())
	k.ahead = time.Hour
	k.up()
	k.shows(answer, "Leek 200 g")
	var late *strict.Message
	k.until("the late answers", func() bool {
		all := k.ch.Messages()
		late = all[len(all)-1]
		return strings.HasPrefix(late.Content, "I was away")
	})
	for _, want := range []string{"larder: Cream 100 ml", "Now: Cream 150 ml", "stove: Which onion", "stove: 2 red onions"} {
		if !strings.Contains(late.Content, want) {
			t.Errorf("no %q in\n%s", want, late.Content)
		}
	}
	k.settles()
	if n := len(k.ch.Messages()) - before; n != 3 {
		t.Errorf("%d messages since, not one and the last question and answer:\n%s", n, contents(k.ch))
	}
	k.has("kitchen", "leek", 1_000_000)
	k.has("kitchen", "cream", 450_000)
	k.has("kitchen", "egg", 696_000)
	k.down()
	k.up()
	k.settles()
	if n := strings.Count(contents(k.ch), "have caught up"); n != 1 {
		t.Errorf("late answers %d times", n)
	}
	k.has("kitchen", "leek", 1_000_000)
}

// A single late answer is a reply that says so, and a question among the late
// ones can still be answered.
func TestOneLate(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.down()
	m := k.ch.Say(k.stove, "used 2 onions in the soup")
	k.ahead = 20 * time.Minute
	k.up()
	a := k.answer(k.ch, m)
	if !strings.HasPrefix(a.Content, "Late (said at ") || !strings.Contains(a.Content, "Which onion") {
		t.Errorf("%s", a.Content)
	}
	k.srv.Press(k.stove, a, button(t, a, "Red onion"))
	k.shows(a, "2 red onions")
}

// Many messages, more than some pages of history, are all read.
func TestAwayLong(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.down()
	for i := range 250 {
		k.ch.Say(k.stove, fmt.Sprintf("used 1g leek in the pie %c", 'a'+i%3))
	}
	k.ahead = time.Hour
	k.up()
	k.settles()
	k.has("kitchen", "leek", 950_000)
}

// Two runs at once on one file, as when a new one is started too soon, count and
// answer everything once.
func TestTwoAtOnce(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	first, stopFirst := k.s, k.stop
	k.start()
	var said []*strict.Message
	for i := range 20 {
		said = append(said, k.ch.Say(k.stove, fmt.Sprintf("used 1g leek in the pie %c", 'a'+i%3)))
	}
	for _, m := range said {
		k.answer(k.ch, m)
	}
	if err := stopFirst(); err != nil {
		t.Error(err)
	}
	if err := first.Close(); err != nil {
		t.Error(err)
	}
	k.settles()
	k.told(said)
	k.has("kitchen", "leek", 1_180_000)
}
