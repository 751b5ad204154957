package bot_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/store"
)

// room is a chat's room, for tests: it keeps what it is to be shown.
type room struct {
	testing.TB
	s      *store.Store
	b      *bot.Bot
	n      int
	at     time.Time
	shown  map[string]bot.Posting // the latest of each
	byText map[string]string      // ids by text
}

func newRoom(t testing.TB) *room {
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if rep, err := s.Check(context.Background()); err != nil || len(rep.Wrong) > 0 {
			t.Errorf("check: %v %v", rep.Wrong, err)
		}
		s.Close()
	})
	r := &room{TB: t, s: s, b: bot.New(s, bot.Options{Think: time.Minute, Fault: func(p *pantry.Panic) { t.Errorf("%v\n%s", p, p.Stack) }}), at: time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC), shown: map[string]bot.Posting{}, byText: map[string]string{}}
	r.say("1", "larder", "got 6 leeks, 1.2kg, 4 red onions, 6 brown onions, 600ml cream")
	return r
}

func (r *room) do(m bot.Message) bot.Reply {
	r.Helper()
	m.Kitchen, m.Room = "k", "r1"
	if m.ID == "" {
		r.n++
		m.ID = fmt.Sprint("m", r.n)
	}
	r.at = r.at.Add(20 * time.Second)
	if m.At.IsZero() {
		m.At = r.at
	}
	reply, err := r.b.Handle(context.Background(), m)
	if err != nil {
		r.Fatalf("%q: %v", m.Text, err)
	}
	r.byText[m.Text] = m.ID
	for _, p := range reply.Posts {
		r.shown[p.ID] = p
	}
	return reply
}

func (r *room) say(person, name, text string) bot.Reply {
	r.Helper()
	return r.do(bot.Message{Person: person, Cook: name, Text: text})
}

// post gives what stands under the message that said a text.
func (r *room) post(text string) bot.Posting {
	r.Helper()
	p, ok := r.shown[r.byText[text]]
	if !ok {
		r.Fatalf("nothing is shown for %q", text)
	}
	return p
}

func (r *room) press(person, name string, p bot.Press) bot.Reply {
	r.Helper()
	return r.do(bot.Message{Person: person, Cook: name, Press: &p})
}

// A cook is who the platform says, whatever name is shown.
func TestPersons(t *testing.T) {
	r := newRoom(t)
	r.say("7", "Ana on stove", "used 100g leek in the soup")
	r.say("7", "Ana B", "used 50g leek in the soup")
	if got := r.say("7", "Ana B", "undo"); !strings.Contains(got.Text, "50 g") {
		t.Errorf("undo after a change of name: %s", got.Text)
	}
	r.say("8", "Ana B", "need 200g leek for the tart")
	if got := r.say("9", "Bo", "who has the leek?"); !strings.Contains(got.Text, "Ana B (2) 200 g") {
		t.Errorf("two of one name: %s", got.Text)
	}
	if got := r.say("9", "Bo", "larder put 100ml cream in the soup"); len(got.Entries) != 1 || got.Entries[0].Cook != "larder" {
		t.Errorf("reported: %+v", got)
	}
	r.say("10", "Dee from pastry", "hello")
	if got := r.say("9", "Bo", "dee put 50ml cream in the tart"); len(got.Entries) != 1 || got.Entries[0].Cook != "Dee from pastry" {
		t.Errorf("reported by the first word of the name: %+v", got)
	}
}

// A posting is due until it has been shown, and follows its message.
func TestPostings(t *testing.T) {
	r := newRoom(t)
	ctx := context.Background()
	r.say("7", "ana", "the radio is too loud")
	r.say("7", "ana", "used 300g leek in the soup")
	due, err := r.b.Due(ctx)
	if err != nil || len(due) != 2 {
		t.Fatalf("due: %+v %v", due, err)
	}
	p := due[1]
	if p.Reply.Kind != bot.Log || p.Rev != 1 || p.Place != "" || p.Cook != "ana" || !p.Plain {
		t.Errorf("the posting: %+v", p)
	}
	for _, p := range due {
		if err := r.b.Shown(ctx, p, "place "+p.ID)(); err != nil {
			t.Fatal(err)
		}
	}
	if due, _ := r.b.Due(ctx); len(due) != 0 {
		t.Errorf("still due: %+v", due)
	}
	edit := bot.Message{ID: p.ID, Edit: true, Edited: 2000, Text: "used 200g leek in the soup"}
	r.do(edit)
	late := edit
	late.Edited, late.Text = 1000, "used 250g leek in the soup"
	if got := r.do(late); len(got.Posts) > 0 {
		t.Errorf("an edit that was overtaken: %+v", got)
	}
	if got := r.do(edit); len(got.Posts) > 0 {
		t.Errorf("an edit heard again: %+v", got)
	}
	due, _ = r.b.Due(ctx)
	if len(due) != 1 || due[0].Place != "place "+p.ID || due[0].Rev != 2 || !strings.Contains(due[0].Reply.Text, "200 g") {
		t.Fatalf("after the edit: %+v", due)
	}
	r.do(bot.Message{ID: p.ID, Delete: true})
	if got := r.shown[p.ID]; !got.Spent || !strings.Contains(got.Reply.Text, "Taken back") {
		t.Errorf("after the delete: %+v", got)
	}
	if k, _ := r.s.View(ctx, "k"); k.Named("leek").OnHand() != 1_200_000 {
		t.Errorf("leek: %d", k.Named("leek").OnHand())
	}
}

// What comes in any order ends as if it had come in order.
func TestAnyOrder(t *testing.T) {
	create := bot.Message{ID: "a", Person: "7", Cook: "ana", Text: "used 300g leek in the soup"}
	one := bot.Message{ID: "a", Person: "7", Cook: "ana", Edit: true, Edited: 1000, Text: "used 250g leek in the soup"}
	two := bot.Message{ID: "a", Person: "7", Cook: "ana", Edit: true, Edited: 2000, Text: "used 200g leek in the soup"}
	gone := bot.Message{ID: "a", Delete: true}
	for _, c := range []struct {
		list []bot.Message
		left int64
	}{
		{[]bot.Message{create, one, two}, 1_000_000},
		{[]bot.Message{two, one, create}, 1_000_000},
		{[]bot.Message{one, create, two, one, two, create}, 1_000_000},
		{[]bot.Message{create, two, one, gone}, 1_200_000},
		{[]bot.Message{gone, create, one, two}, 1_200_000},
		{[]bot.Message{two, gone, create, gone}, 1_200_000},
	} {
		r := newRoom(t)
		for _, m := range c.list {
			m.At = time.Date(2026, 3, 3, 17, 5, 0, 0, time.UTC)
			r.do(m)
		}
		k, err := r.s.View(context.Background(), "k")
		if err != nil || int64(k.Named("leek").OnHand()) != c.left {
			t.Errorf("%+v: %d left, %v", c.list, k.Named("leek").OnHand(), err)
		}
	}
}

// A question is answered by a press, whoever presses, and the press takes its
// place. It is asked until then.
func TestPressOption(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "used 2 onions in the soup")
	p := r.post("used 2 onions in the soup")
	if p.Asked == "" || len(p.Reply.Ask.Options) != 2 {
		t.Fatalf("asked: %+v", p)
	}
	press := bot.Press{On: p.ID, Kind: bot.PressOption, N: 2, Question: p.Asked}
	got := r.press("8", "bo", press)
	if got.Kind != bot.Log || len(got.Entries) != 1 || got.Entries[0].Item != "brown onion" || got.Entries[0].Cook != "ana" {
		t.Fatalf("pressed: %+v", got)
	}
	now := r.shown[p.ID]
	if now.Rev != 2 || !now.Spent || !strings.Contains(now.Reply.Text, "brown onions") {
		t.Errorf("in its place: %+v", now)
	}
	if again := r.press("7", "ana", press); again.Kind != bot.Answer || !strings.Contains(again.Text, "answered") || len(again.Posts) > 0 {
		t.Errorf("pressed again: %+v", again)
	}
}

// A question answered in words loses its buttons, one that is left out too.
func TestAnsweredInWords(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "used 2 onions in the soup")
	r.say("7", "ana", "red")
	if p := r.post("used 2 onions in the soup"); !p.Spent || p.Rev != 2 {
		t.Errorf("after the answer: %+v", p)
	}
	r.say("7", "ana", "used 3 onions in the stew")
	p := r.post("used 3 onions in the stew")
	got := r.press("7", "ana", bot.Press{On: p.ID, Kind: bot.PressOption, N: 0, Question: p.Asked})
	if now := r.shown[p.ID]; !now.Spent || !strings.Contains(now.Reply.Text, "Left out") || len(got.Entries) > 0 {
		t.Errorf("none of them: %+v", now)
	}
}

// Of two questions either can be answered by its own buttons.
func TestPressTheOther(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "used 2 onions in the soup")
	r.say("7", "ana", "used leeks in the tart")
	first, second := r.post("used 2 onions in the soup"), r.post("used leeks in the tart")
	got := r.press("7", "ana", bot.Press{On: first.ID, Kind: bot.PressOption, N: 1, Question: first.Asked})
	if len(got.Entries) != 1 || got.Entries[0].Item != "red onion" || got.Entries[0].Dish != "soup" {
		t.Fatalf("the first: %+v", got)
	}
	// What else was asked is asked again with it, so that its buttons there go.
	if now := r.shown[second.ID]; !now.Spent {
		t.Errorf("the second is asked in two places: %+v", now)
	}
	p := r.shown[first.ID]
	got = r.press("7", "ana", bot.Press{On: p.ID, Kind: bot.PressOption, N: 1, Question: p.Asked})
	if len(got.Entries) != 1 || got.Entries[0].Item != "leek" || got.Entries[0].Amount != 1200 {
		t.Errorf("the second: %+v", got)
	}
}

// A press is not taken for an answer after the time for answers.
func TestPressTooLate(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "used 2 onions in the soup")
	p := r.post("used 2 onions in the soup")
	r.at = r.at.Add(time.Hour)
	got := r.press("7", "ana", bot.Press{On: p.ID, Kind: bot.PressOption, N: 1, Question: p.Asked})
	if got.Kind != bot.Answer || len(got.Entries) > 0 || !r.shown[p.ID].Spent {
		t.Errorf("an hour later: %+v", got)
	}
	m := bot.Message{Person: "7", Cook: "ana", Text: "used 3 onions in the stew", At: r.at, Heard: r.at.Add(2 * time.Hour)}
	r.do(m)
	p = r.post("used 3 onions in the stew")
	got = r.do(bot.Message{Person: "7", Cook: "ana", At: r.at.Add(2*time.Hour + time.Minute), Press: &bot.Press{On: p.ID, Kind: bot.PressOption, N: 1, Question: p.Asked}})
	if len(got.Entries) != 1 {
		t.Errorf("asked late and answered at once: %+v", got)
	}
}

// Undo is for the cook who said it.
func TestPressUndo(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "used 300g leek in the soup")
	p := r.post("used 300g leek in the soup")
	press := bot.Press{On: p.ID, Kind: bot.PressUndo}
	if got := r.press("8", "bo", press); got.Kind != bot.Error || !strings.Contains(got.Text, "ana") {
		t.Errorf("bo undoes what ana said: %+v", got)
	}
	if got := r.press("7", "ana", press); got.Kind != bot.Log || !strings.Contains(got.Text, "Taken back") {
		t.Errorf("ana undoes: %+v", got)
	}
	if now := r.shown[p.ID]; !now.Spent || !strings.Contains(now.Reply.Text, "Taken back") {
		t.Errorf("in its place: %+v", now)
	}
	if got := r.press("7", "ana", press); got.Kind != bot.Answer || len(got.Posts) > 0 {
		t.Errorf("again: %+v", got)
	}
	r.say("7", "ana", "used 100g leek in the soup")
	r.say("7", "ana", "undo")
	if now := r.post("used 100g leek in the soup"); !now.Spent {
		t.Errorf("undone in words, and the button stays: %+v", now)
	}
}

// Choosing an idea keeps what it needs.
func TestPressIdea(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "ideas?")
	p := r.post("ideas?")
	got := r.press("8", "bo", bot.Press{On: p.ID, Kind: bot.PressIdea, N: 1})
	if got.Kind != bot.Log || len(got.Entries) == 0 || got.Entries[0].Kind != "claim" || got.Entries[0].Cook != "bo" {
		t.Fatalf("%+v", got)
	}
	k, err := r.s.View(context.Background(), "k")
	if l := k.Named(got.Entries[0].Item); err != nil || l.Claimed() == 0 {
		t.Errorf("nothing is kept: %v", err)
	}
}

// Timers are posted when they are due, once, and follow their message.
func TestTimers(t *testing.T) {
	r := newRoom(t)
	ctx := context.Background()
	if got := r.say("7", "ana", "timer 12 min tart"); !strings.Contains(got.Text, "tart, 12 min, at 17:") {
		t.Fatalf("set: %s", got.Text)
	}
	set := r.at
	r.say("8", "bo", "timer 5 min bread")
	if got := r.say("8", "bo", "timers?"); !strings.Contains(got.Text, "bread") || !strings.Contains(got.Text, "tart") {
		t.Errorf("asked: %s", got.Text)
	}
	if got := r.say("7", "ana", "stop the bread timer"); got.Text != "Stopped: bread." {
		t.Errorf("stopped: %s", got.Text)
	}
	rung, next, err := r.b.Ring(ctx, set.Add(5*time.Minute))
	if err != nil || len(rung) != 0 || !next.Equal(set.Add(12*time.Minute)) {
		t.Fatalf("early: %v %v %v", rung, next, err)
	}
	r.do(bot.Message{ID: r.byText["timer 12 min tart"], Edit: true, Edited: 1000, Text: "timer 10 min tart"})
	rung, next, err = r.b.Ring(ctx, set.Add(10*time.Minute))
	if err != nil || len(rung) != 1 || rung[0].Reply.Text != "Timer: tart, 10 min (ana)." || rung[0].To != r.byText["timer 12 min tart"] || !next.IsZero() {
		t.Fatalf("due: %+v %v %v", rung, next, err)
	}
	if due, _ := r.b.Due(ctx); len(due) == 0 || due[len(due)-1].ID != rung[0].ID {
		t.Errorf("the ring is not due to be shown: %+v", due)
	}
	if rung, _, _ := r.b.Ring(ctx, set.Add(11*time.Minute)); len(rung) != 0 {
		t.Errorf("rung twice: %+v", rung)
	}
	r.say("7", "ana", "timer 3 min eggs")
	if got := r.do(bot.Message{ID: r.byText["timer 3 min eggs"], Delete: true}); !strings.Contains(got.Text, "eggs timer") {
		t.Errorf("deleted: %s", got.Text)
	}
	r.say("7", "ana", "timer 1 min stock")
	rung, _, _ = r.b.Ring(ctx, r.at.Add(9*time.Minute))
	if len(rung) != 1 || !strings.Contains(rung[0].Reply.Text, "due 8 min ago") {
		t.Errorf("late: %+v", rung)
	}
}

// A timer can be given more time, and loses it with the message that gave it.
func TestTimerLonger(t *testing.T) {
	r := newRoom(t)
	ctx := context.Background()
	r.say("7", "ana", "timer 12 min tart")
	set := r.at
	r.say("8", "bo", "timer 30 min bread")
	if got := r.say("8", "bo", "add 5 min to the timer"); !strings.HasPrefix(got.Text, "Which one?") {
		t.Errorf("of two: %s", got.Text)
	}
	const more = "5 more min on the tart timer"
	if got := r.say("8", "bo", more); !strings.HasPrefix(got.Text, "5 min more: tart, 17 min, at ") {
		t.Errorf("longer: %s", got.Text)
	}
	if _, next, err := r.b.Ring(ctx, set); err != nil || !next.Equal(set.Add(17*time.Minute)) {
		t.Errorf("next at %v, %v", next, err)
	}
	r.do(bot.Message{ID: r.byText[more], Edit: true, Edited: 1000, Text: "2 more min on the tart timer"})
	if _, next, err := r.b.Ring(ctx, set); err != nil || !next.Equal(set.Add(14*time.Minute)) {
		t.Errorf("after the edit next at %v, %v", next, err)
	}
	if got := r.do(bot.Message{ID: r.byText[more], Delete: true}); !strings.Contains(got.Text, "2 min more on the tart timer") {
		t.Errorf("deleted: %s", got.Text)
	}
	if _, next, err := r.b.Ring(ctx, set); err != nil || !next.Equal(set.Add(12*time.Minute)) {
		t.Errorf("after the delete next at %v, %v", next, err)
	}
	// What takes something back may set one as well.
	r.say("7", "ana", "used 300g leek in the soup")
	if got := r.say("7", "ana", "scrap that, timer 3 min eggs"); !strings.Contains(got.Text, "eggs, 3 min") || !strings.Contains(got.Text, "Taken back") {
		t.Errorf("taken back, and set: %s", got.Text)
	}
}

// Forgetting a cook leaves the stock as it is, and nothing that names the cook.
func TestForget(t *testing.T) {
	r := newRoom(t)
	ctx := context.Background()
	r.say("777000", "Quillon", "used 300g leek in the soup")
	r.say("777000", "Quillon", "need 200g leek for the tart")
	r.say("8", "bo", "who has the leek?")
	r.say("8", "bo", "quillon put 100ml cream in the soup")
	before := left(t, r.s)
	cook, err := r.s.Forget(ctx, "k", "quillon")
	if err != nil || cook == "" {
		t.Fatalf("%q %v", cook, err)
	}
	if after := left(t, r.s); after != before {
		t.Errorf("the stock was\n%s\nand is\n%s", before, after)
	}
	dump := filepath.Join(t.TempDir(), "copy.db")
	if err := r.s.Backup(ctx, dump); err != nil {
		t.Fatal(err)
	}
	for _, needle := range []string{"quillon", "777000"} {
		if contains(t, dump, needle) {
			t.Errorf("%q is still in the file", needle)
		}
	}
	if got := r.say("8", "bo", "who has the leek?"); !strings.Contains(got.Text, cook+" 200 g") {
		t.Errorf("who: %s", got.Text)
	}
	if again, err := r.s.Forget(ctx, "k", "quillon"); again != "" || err != nil {
		t.Errorf("forgotten twice: %q %v", again, err)
	}
}

// contains says whether a file has a text anywhere, in any case.
func contains(t *testing.T, file, text string) bool {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Contains(bytes.ToLower(raw), []byte(text))
}
