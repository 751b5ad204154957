package discord_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord/strict"
	"scullion/pantry"
)

// A question is answered by a button, before and after a restart, by any cook,
// and once.
func TestQuestionButtons(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	a := k.say(k.stove, "used 2 onions in the soup")
	red := button(t, a, "Red onion")
	k.srv.Press(k.larder, a, red).Wait(soon)
	now := k.shows(a, "2 red onions")
	if findButton(now, "Red onion") != "" {
		t.Error("it is still asked")
	}
	if r := k.srv.Press(k.stove, a, red).Wait(soon); !r.Ephemeral || !strings.Contains(r.Content, "answered") {
		t.Errorf("pressed again: %+v", r)
	}
	a = k.say(k.stove, "used 1 onion in the stew")
	brown := button(t, a, "Brown onion")
	k.down()
	k.up()
	k.srv.Press(k.stove, a, brown).Wait(soon)
	k.shows(a, "brown onion")
	a = k.say(k.stove, "used 3 onions in the pie")
	k.srv.Press(k.stove, a, button(t, a, "None of these")).Wait(soon)
	k.shows(a, "Left out")
}

// An old question says politely that it is too late, and loses its buttons.
func TestExpired(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	a := k.say(k.stove, "used 2 onions in the soup")
	k.down()
	k.change(func(b pantry.Book) error {
		for cook, q := range b.Kitchen().Questions {
			q.At = q.At.Add(-time.Hour)
			return b.Ask(cook, q)
		}
		return nil
	})
	k.up()
	r := k.srv.Press(k.stove, a, button(t, a, "Red onion")).Wait(soon)
	if !r.Ephemeral || !strings.Contains(r.Content, "too long ago") {
		t.Errorf("%+v", r)
	}
	if now := k.shows(a, "too long ago"); findButton(now, "Red onion") != "" {
		t.Error("the buttons stay")
	}
	k.has("kitchen", "red onion", 600_000)
}

// Undo is a button for the cook who said it.
func TestUndoButton(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	a := k.say(k.stove, "used 300g leek in the tart")
	undo := button(t, a, "Undo")
	if r := k.srv.Press(k.larder, a, undo).Wait(soon); !r.Ephemeral || !strings.Contains(r.Content, "stove") {
		t.Errorf("another's: %+v", r)
	}
	k.srv.Press(k.stove, a, undo).Wait(soon)
	k.shows(a, "Taken back")
	k.has("kitchen", "leek", 1_200_000)
	if r := k.srv.Press(k.stove, a, undo).Wait(soon); !r.Ephemeral {
		t.Errorf("again: %+v", r)
	}
}

// Ideas can be asked for, and one chosen: what it needs is kept.
func TestIdeaMenu(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	a := k.say(k.stove, "ideas?")
	menu := ""
	for _, p := range parts(a.Components) {
		if len(p.Options) > 0 {
			menu = p.ID
		}
	}
	if menu == "" {
		t.Fatalf("no menu: %s", a.Components)
	}
	before := len(k.ch.Messages())
	k.srv.Press(k.larder, a, menu, "1").Wait(soon)
	k.until("what is kept", func() bool { return len(k.ch.Messages()) > before })
	all := k.ch.Messages()
	if last := all[len(all)-1]; !strings.Contains(last.Content, "(larder)") || !strings.Contains(last.Content, "kept for") {
		t.Errorf("%s", last.Content)
	}
	r := k.srv.Press(k.stove, a, button(t, a, "More ideas")).Wait(soon)
	if !r.Ephemeral || r.Content == "" {
		t.Errorf("more: %+v", r)
	}
}

// A button in a channel that is no kitchen any more, or of no kind we know.
func TestStrayButtons(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	a := k.say(k.stove, "used 300g leek in the tart")
	undo := button(t, a, "Undo")
	for _, id := range []string{"x|1", "u", "o|1", "o|9|abc|" + a.ID, "i|" + a.ID} {
		old := *a
		old.Components = json.RawMessage(fmt.Sprintf(`[{"type":1,"components":[{"type":2,"style":2,"label":"Old","custom_id":%q}]}]`, id))
		if r := k.srv.Press(k.stove, &old, id).Wait(soon); !r.Ephemeral || r.Content == "" {
			t.Errorf("%s: %+v", id, r)
		}
	}
	k.srv.Slash(k.chef, k.ch, "kitchen", sub("close")).Wait(soon)
	if r := k.srv.Press(k.stove, a, undo).Wait(soon); !strings.Contains(r.Content, "no kitchen") {
		t.Errorf("closed: %+v", r)
	}
	k.has("kitchen", "leek", 900_000)
}

// Commands do what words do.
func TestCommands(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	for _, c := range []struct {
		name    string
		options []strict.Raw
		want    string
		private bool
	}{
		{"use", []strict.Raw{text("food", "leek"), text("amount", "300g"), text("dish", "tart")}, "Leek 300 g into the tart", false},
		{"use", []strict.Raw{text("food", "leek")}, "How much leek", false},
		{"claim", []strict.Raw{text("food", "cream"), text("amount", "200ml"), text("dish", "soup")}, "Cream 200 ml kept for the soup (stove)", false},
		{"who", []strict.Raw{text("food", "cream")}, "stove 200 ml", true},
		{"release", []strict.Raw{text("food", "cream")}, "released", false},
		{"receive", []strict.Raw{text("food", "spinach"), text("amount", "500g")}, "Spinach 500 g in", false},
		{"bin", []strict.Raw{text("food", "spinach"), text("amount", "80g")}, "binned", false},
		{"count", []strict.Raw{text("food", "spinach"), text("amount", "400g")}, "400 g", false},
		{"return", []strict.Raw{text("food", "leek"), text("amount", "100g")}, "put back", false},
		{"make", []strict.Raw{text("food", "leek oil"), text("amount", "200ml"), text("from", "100g leek")}, "made", false},
		{"undo", nil, "Taken back", false},
		{"left", nil, "leek", true},
		{"left", []strict.Raw{text("food", "leek")}, "Leek", true},
		{"ideas", []strict.Raw{{"name": "minutes", "type": 4, "value": 20}}, "min", true},
		{"ideas", []strict.Raw{{"name": "food", "type": 3, "value": "leek"}, {"name": "portions", "type": 4, "value": 2}, {"name": "within", "type": 3, "value": "no dairy, no oven"}}, "for 2", true},
		{"plan", []strict.Raw{{"name": "dishes", "type": 4, "value": 1}, {"name": "portions", "type": 4, "value": 2}, {"name": "minutes", "type": 4, "value": 60}, text("within", "two cooks")}, "All ready in", false},
		{"help", nil, "what's left?", true},
		{"timer", []strict.Raw{{"name": "minutes", "type": 4, "value": 12}, text("for", "tart")}, "tart, 12 min", false},
		{"timers", nil, "tart, 12 min", true},
		{"kitchen", []strict.Raw{sub("show")}, `"kitchen"`, true},
	} {
		u := k.stove
		if c.name == "kitchen" {
			u = k.chef
		}
		r := k.srv.Slash(u, k.ch, c.name, c.options...).Wait(soon)
		if !strings.Contains(r.Content, c.want) || r.Ephemeral != c.private {
			t.Errorf("/%s %v: %+v", c.name, c.options, r)
		}
	}
	far := k.guild.Channel("office")
	if r := k.srv.Slash(k.stove, far, "left").Wait(soon); !r.Ephemeral || !strings.Contains(r.Content, "/kitchen open") {
		t.Errorf("elsewhere: %+v", r)
	}
}

// The answer to a command can be undone and answered like any other.
func TestCommandButtons(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	r := k.srv.Slash(k.stove, k.ch, "use", text("food", "onion"), text("amount", "2"), text("dish", "soup")).Wait(soon)
	if r.Message == nil {
		t.Fatalf("%+v", r)
	}
	k.until("its place is kept", func() bool { return strings.Contains(k.log.String(), "kind=ask") })
	k.srv.Press(k.stove, r.Message, button(t, r.Message, "Red onion")).Wait(soon)
	k.shows(r.Message, "2 red onions")
	r = k.srv.Slash(k.stove, k.ch, "use", text("food", "leek"), text("amount", "200g")).Wait(soon)
	k.srv.Press(k.stove, r.Message, button(t, r.Message, "Undo")).Wait(soon)
	k.shows(r.Message, "Taken back")
	k.has("kitchen", "leek", 1_200_000)
}

// Words are completed by the same matcher that reads them, slips and all.
func TestCompletion(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.say(k.stove, "used 100g leek in the fish pie")
	typed := func(name, value string) strict.Raw {
		return strict.Raw{"name": name, "type": 3, "value": value, "focused": true}
	}
	for _, c := range []struct {
		command string
		option  strict.Raw
		want    string
	}{
		{"use", typed("food", "le"), "leek"},
		{"use", typed("food", "leke"), "leek"},
		{"use", typed("food", "onion"), "red onion brown onion"},
		{"use", typed("food", ""), "cream leek egg"},
		{"use", typed("dish", "fi"), "fish pie"},
		{"use", typed("dish", ""), "fish pie"},
		{"receive", typed("food", "cauli"), "cauliflower"},
		{"use", typed("food", "zzzz"), ""},
	} {
		r := k.srv.Complete(k.stove, k.ch, c.command, c.option).Wait(soon)
		names := map[string]bool{}
		var got []string
		for _, x := range r.Choices {
			names[x.Name] = true
			got = append(got, x.Name)
		}
		for _, w := range strings.Split(c.want, " ") {
			if c.want != "" && !strings.Contains(strings.Join(got, " "), w) {
				t.Errorf("/%s %v: %v, not %s", c.command, c.option, got, c.want)
				break
			}
		}
		if c.want == "" && len(got) > 0 {
			t.Errorf("/%s %v: %v", c.command, c.option, got)
		}
	}
}

// The commands are registered once, and again only when they differ.
func TestRegistered(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	was := k.srv.Stats().CommandWrites
	k.down()
	k.up()
	k.settles()
	if now := k.srv.Stats().CommandWrites; was != 1 || now != 1 {
		t.Errorf("registered %d and %d times", was, now)
	}
}

// A timer comes back as a message at its minute, also after a restart.
func TestTimerRings(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	m := k.ch.Say(k.stove, "timer 1 s eggs")
	k.answer(k.ch, m)
	rang := func(what string) func() bool {
		return func() bool { return strings.Contains(contents(k.ch), what) }
	}
	k.until("the eggs", rang("Timer: eggs"))
	k.say(k.stove, "timer 10 min tart")
	k.down()
	k.ahead = 15 * time.Minute
	k.up()
	k.until("the tart", rang("Timer: tart, 10 min (stove). It was due"))
	k.settles()
	if n := strings.Count(contents(k.ch), "Timer: "); n != 2 {
		t.Errorf("%d rings:\n%s", n, contents(k.ch))
	}
}

// Where the ledger takes its time, a response is put off and completed.
func TestDeferred(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.pace.Respond = time.Nanosecond
	k.up()
	k.open(k.ch)
	k.say(k.larder, "got 6 leeks, 1.2kg, 4 red onions, 6 brown onions")
	k.srv.Slash(k.stove, k.ch, "use", text("food", "onion"), text("amount", "2"), text("dish", "soup")).Wait(soon)
	k.until("the question", func() bool { return strings.Contains(contents(k.ch), "Which onion") })
	all := k.ch.Messages()
	a := all[len(all)-1]
	k.srv.Press(k.stove, a, button(t, a, "Red onion")).Wait(soon)
	k.shows(a, "2 red onions")
	k.srv.Press(k.stove, a, button(t, a, "Red onion")).Wait(soon)
	left := k.srv.Slash(k.stove, k.ch, "left")
	k.until("what is left", func() bool { return strings.Contains(left.Wait(soon).Content, "leek") })
	if !left.Wait(soon).Ephemeral {
		t.Error("for all to see")
	}
}
