package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/store"
)

// kitchenIn is a kitchen of a country, in no room of a chat.
func kitchenIn(t *testing.T, units string) (say func(text string) bot.Reply, look func() *pantry.Kitchen) {
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
	b, n := bot.New(s, bot.Options{Units: units}), 0
	say = func(text string) bot.Reply {
		t.Helper()
		n++
		r, err := b.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: "ana", Text: text, At: time.Date(2026, 3, 3, 17, 0, n, 0, time.UTC)})
		if err != nil {
			t.Fatal(text, err)
		}
		return r
	}
	look = func() *pantry.Kitchen {
		k, err := s.View(context.Background(), "k")
		if err != nil {
			t.Fatal(err)
		}
		return k
	}
	return say, look
}

func TestGuidanceByCountry(t *testing.T) {
	for _, c := range []struct{ units, text, has string }{
		{"uk", "got 300g cooked rice", "Use by Wed 4 Mar (UK FSA, cooked rice 24 h)."},
		{"us", "got 300g cooked rice", "Use by Fri 6 Mar (USDA FSIS, leftover rice 3 days)."},
		{"uk", "made 2l leek soup", "Use by Thu 5 Mar (UK FSA, soups and stews 2 days)."},
		{"us", "made 2l leek soup", "Use by Fri 6 Mar (USDA FSIS, soups and stews 3 days)."},
		{"uk", "made 1kg bread", "Best before Thu 5 Mar (UK and US common practice, no source: bread 2 days)."},
		{"uk", "how do I reheat the soup?", "82 C in Scotland"},
		{"us", "how do I reheat the soup?", "165 F (74 C) for 15 s"},
		{"us", "how do I cool the soup?", "from 135 F (57 C) to 70 F (21 C) within 2 hours, to 41 F (5 C) within 6 hours in all (US FDA Food Code"},
		{"us", "how long does opened milk keep?", "7 days in the fridge (US storage wall chart)."},
		{"uk", "how long does opened brie keep?", "no UK figure here"},
		{"us", "how long does opened cream keep?", "no US figure here"},
	} {
		say, _ := kitchenIn(t, c.units)
		if r := say(c.text); !strings.Contains(r.Text, c.has) {
			t.Errorf("%s, %s: %s", c.units, c.text, r.Text)
		}
	}
}

// Whatever date is said, food that is cooked, made or opened never gets a later one, nor one
// that is later than the guidance.
func TestTheShorterDateWins(t *testing.T) {
	for days := range 6 {
		pack := pantry.DateOf(time.Date(2026, 3, 3+days, 0, 0, 0, 0, time.UTC))
		for _, c := range []struct {
			first, then string
			item        string
			guide       pantry.Date
		}{
			{"got 300g cooked rice, use by %s", "", "cooked rice", "2026-03-04"},
			{"made 2 l leek soup, use by %s", "", "leek soup", "2026-03-05"},
			{"got 600ml double cream use by %s", "opened the cream", "double cream", "2026-03-05"},
			{"got 1 l milk use by %s", "opened 400ml of the milk", "milk", "2026-03-06"},
		} {
			say, look := kitchenIn(t, "uk")
			text := fmt.Sprintf(c.first, pack)
			if r := say(text); r.Kind != bot.Log {
				t.Fatal(text, r)
			}
			if c.then != "" {
				if r := say(c.then); r.Kind != bot.Log || r.Entries[0].Kind != "count" || r.Entries[0].State != "opened" || r.Entries[0].UseBy != string(min(pack, c.guide)) {
					t.Fatal(c.then, r)
				}
			}
			l := look().Named(c.item)
			if d, _ := l.Soonest(); d != min(pack, c.guide) {
				t.Errorf("%s; %s: %s, not %s", text, c.then, d, min(pack, c.guide))
			}
			for _, o := range l.Lots {
				if o.Date > pack {
					t.Errorf("%s; %s: a lot of %s, past its pack", text, c.then, o.Date)
				}
			}
		}
	}
}

// A correction of what was made does not give it a fresh start.
func TestACorrectionKeepsTheDay(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "made 2 l leek soup")
	r.at = r.at.Add(30 * time.Hour)
	if got := r.do(bot.Message{ID: r.byText["made 2 l leek soup"], Edit: true, Edited: 1000, Text: "made 3 l leek soup"}); !strings.Contains(got.Text, "Use by Thu 5 Mar") {
		t.Errorf("edited: %s", got.Text)
	}
}

// The morning message comes to the room that asked for it, once a day, where something
// must go.
func TestMorningMessage(t *testing.T) {
	r := newRoom(t)
	ctx := context.Background()
	ring := func(day, hour int) string {
		t.Helper()
		rung, _, err := r.b.Ring(ctx, time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC))
		if err != nil || len(rung) > 1 {
			t.Fatal(rung, err)
		}
		if len(rung) == 0 {
			return ""
		}
		if rung[0].Room != "r1" || !rung[0].Due() {
			t.Errorf("not for the room: %+v", rung[0])
		}
		return rung[0].Reply.Text
	}
	r.say("1", "larder", "got 300g cooked rice, 500g cooked ham use by thu")
	if got := ring(4, 9); got != "" {
		t.Errorf("nobody asked: %s", got)
	}
	got := r.say("7", "ana", "tell us at 9 what must go today")
	if !got.Timed || !strings.Contains(got.Text, "Each day at 09:00") {
		t.Fatalf("asked: %+v", got)
	}
	if got := r.say("7", "ana", "timers?"); strings.Contains(got.Text, "must go") {
		t.Errorf("it is no timer: %s", got.Text)
	}
	for _, c := range []struct {
		day, hour int
		has       string
	}{
		{4, 8, ""}, {4, 9, "Use by today: cooked rice 300 g."}, {4, 10, ""},
		{5, 11, "Past its use-by (Wed 4 Mar): cooked rice 300 g. Do not use: bin it."}, // the bot was away at nine
		{5, 12, ""}, {6, 9, "Past its use-by (Thu 5 Mar): cooked ham 500 g. Do not use: bin it."},
	} {
		if got := ring(c.day, c.hour); !strings.Contains(got, c.has) || (got == "") != (c.has == "") {
			t.Errorf("on the %dth at %d: %q", c.day, c.hour, got)
		} else if strings.Count(got, "\n") > 4 {
			t.Errorf("too long: %s", got)
		}
	}
	r.say("7", "ana", "stop all timers")
	if got := ring(7, 9); got == "" {
		t.Error("it went with the timers")
	}
	if got := r.say("7", "ana", "no morning message"); got.Text != "No morning message any more." {
		t.Errorf("ended: %s", got.Text)
	}
	if got := ring(8, 9); got != "" {
		t.Errorf("after its end: %s", got)
	}
	r.say("7", "ana", "tell us at 10 what must go")
	if got := r.do(bot.Message{ID: r.byText["tell us at 10 what must go"], Delete: true}); !strings.Contains(got.Text, "the morning message") {
		t.Errorf("deleted: %s", got.Text)
	}
	if got := ring(9, 10); got != "" {
		t.Errorf("deleted, and still: %s", got)
	}
}

// What is past its use-by is not offered, and whoever uses it is told; what is frozen is
// no dinner until it is thawed.
func TestPastUseByIsNoDinner(t *testing.T) {
	r := newRoom(t)
	r.say("1", "larder", "got 300g cooked rice, 500g chicken thighs use by sun, 400g spinach, 250g mushrooms")
	offered := func(item string) bool {
		t.Helper()
		for _, i := range r.say("7", "ana", "what can I do with the "+item+"?").Ideas {
			for _, u := range i.Uses {
				if strings.Contains(u.Item, strings.TrimSuffix(item, "s")) {
					return true
				}
			}
		}
		return false
	}
	for _, item := range []string{"cooked rice", "chicken thighs"} {
		if !offered(item) {
			t.Errorf("%s: no idea, and it is good yet", item)
		}
	}
	if got := r.say("7", "ana", "froze the chicken thighs"); got.Kind != bot.Log || offered("chicken thighs") {
		t.Errorf("frozen, and offered: %s", got.Text)
	}
	r.at = r.at.Add(48 * time.Hour)
	if offered("cooked rice") {
		t.Error("cooked rice of two days ago is offered")
	}
	if got := r.say("7", "ana", "used 100g cooked rice in the salad"); got.Kind != bot.Log || !strings.Contains(got.Text, "Cooked rice was past its use-by (Wed 4 Mar): do not serve it.") {
		t.Errorf("used: %s", got.Text)
	}
	r.say("7", "ana", "took the chicken thighs out of the freezer")
	if !offered("chicken thighs") {
		t.Error("thawed, and not offered")
	}
}
