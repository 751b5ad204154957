package discord_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"scullion/bot/discord/strict"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

func number(id string) uint64 {
	n, _ := strconv.ParseUint(id, 10, 64)
	return n
}

// A message is counted and answered by a reply that pings nobody; talk is left
// alone.
func TestPlainMessage(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	talk := k.ch.Say(k.stove, "the radio is too loud")
	a := k.say(k.stove, "used 300g leek in the tart")
	if !strings.HasPrefix(a.Content, "Leek 300 g into the tart. 900 g left.") || len(a.Pinged) > 0 || a.Nonce == "" {
		t.Errorf("%+v", a)
	}
	button(t, a, "Undo")
	if r := reply(k.ch, talk); r != nil {
		t.Errorf("talk was answered: %s", r.Content)
	}
	k.has("kitchen", "leek", 900_000)
}

// An edit amends, a delete withdraws, and the answer follows. An update that
// changes nothing does nothing.
func TestEditsAndDeletes(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	m := k.ch.Say(k.stove, "used 300g leek in the tart")
	a := k.answer(k.ch, m)
	k.srv.Unfurl(m, false)
	k.srv.Edit(m, "used 200g leek in the tart")
	k.shows(a, "Leek 200 g into the tart. 1 kg left.")
	k.srv.Unfurl(m, true)
	k.settles()
	if now := k.shows(a, "Leek 200 g"); now.Edits != 1 {
		t.Errorf("the answer was edited %d times", now.Edits)
	}
	k.has("kitchen", "leek", 1_000_000)
	k.srv.Delete(m)
	if now := k.shows(a, "Taken back"); findButton(now, "Undo") != "" {
		t.Error("what was deleted can be undone")
	}
	k.has("kitchen", "leek", 1_200_000)

	n := k.ch.Say(k.stove, "hello all")
	k.srv.Edit(n, "used 100g leek in the soup")
	k.answer(k.ch, n)
	b := k.ch.Say(k.stove, "used 100ml cream in the soup")
	k.answer(k.ch, b)
	k.srv.BulkDelete(n, b)
	k.until("both taken back", func() bool { return strings.Count(contents(k.ch), "Taken back") == 3 })
	k.has("kitchen", "leek", 1_200_000)
	k.has("kitchen", "cream", 600_000)
}

func contents(ch *strict.Channel) string {
	var list []string
	for _, m := range ch.Messages() {
		list = append(list, m.Content)
	}
	return strings.Join(list, "\n---\n")
}

// What is said in reply is said.
func TestReply(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	a := k.say(k.stove, "used 300g leek in the tart")
	k.answer(k.ch, k.ch.Reply(k.larder, a, "used 100g leek in the soup"))
	k.has("kitchen", "leek", 800_000)
}

// A bot and a webhook that are to be heard are.
func TestListened(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	till := k.srv.BotUser("till")
	k.o.Listen = []string{till.ID, "80351110224678912"}
	k.up()
	k.open(k.ch)
	k.say(k.larder, "got 1.2kg leeks")
	k.say(till, "used 100g leek in the tart")
	k.answer(k.ch, k.ch.Post(strict.Raw{"content": "used 100g leek in the tart", "webhook_id": "80351110224678912", "author": strict.Raw{"id": "80351110224678912", "username": "scales", "bot": true}}))
	k.has("kitchen", "leek", 1_000_000)
}

// Only what people type in a joined channel counts.
func TestNotTalk(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	other := k.guild.Channel("office")
	other.Say(k.stove, "used 100g leek in the tart")
	helper := k.srv.BotUser("till")
	k.ch.Say(helper, "used 100g leek in the tart")
	for _, raw := range []strict.Raw{
		{"content": "used 100g leek in the tart", "webhook_id": "80351110224678912"},
		{"content": "used 100g leek in the tart", "type": 6},
		{"content": "used 100g leek in the tart", "type": 18},
		{"content": "used 100g leek in the tart", "flags": 2},
		{"content": "", "type": 21, "message_reference": strict.Raw{"message_id": k.ch.Messages()[0].ID, "channel_id": k.ch.ID}},
		{"content": "", "message_reference": strict.Raw{"type": 1, "message_id": "80351110224678912", "channel_id": k.ch.ID}, "message_snapshots": []any{strict.Raw{"message": strict.Raw{"content": "used 100g leek"}}}},
		{"content": "", "attachments": []any{strict.Raw{"id": "80351110224678913", "filename": "a.png", "size": 1, "url": "http://127.0.0.1/a.png"}}},
		{"content": "", "type": 250},
	} {
		k.ch.Post(raw)
	}
	k.settles()
	k.has("kitchen", "leek", 1_200_000)
	if got := contents(other); strings.Contains(got, "Leek") {
		t.Errorf("the office was answered: %s", got)
	}
}

// A message with a part that the library does not know is a message like any
// other.
func TestUnknownComponent(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	m := k.ch.Post(strict.Raw{"content": "used 300g leek in the tart", "author": k.stove, "components": []any{strict.Raw{"type": 99, "id": 7}}})
	k.answer(k.ch, m)
	k.has("kitchen", "leek", 900_000)
}

// What cooks type cannot ping, format or link when it is said again.
func TestNoInjection(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.guild.Nick(k.stove, "[Stella](https://example.org) @everyone")
	for _, said := range []string{"used 100g leek in the @everyone tart", "used 100g leek in the **tart**", "need 100g leek for the `pie`",
		"used 100g leek in the [pie](https://example.org)", "used 100g leek in the ||secret|| stew", "who has the leek?"} {
		a := k.say(k.stove, said)
		if len(a.Pinged) > 0 || strings.Contains(a.Content, "@everyone") || strings.Contains(a.Content, "://") || a.Flags&4 == 0 {
			t.Errorf("%q: %q pings %v", said, a.Content, a.Pinged)
		}
		plain := strings.NewReplacer(`\\`, "", `\*`, "", "\\`", "", `\|`, "", `\[`, "", `\]`, "", `\_`, "").Replace(a.Content)
		if strings.ContainsAny(plain, "*`|[]_") {
			t.Errorf("%q: %q is formatted", said, a.Content)
		}
	}
}

// People are called by their names, and the bot by none.
func TestMentions(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.guild.Nick(k.stove, "Stella")
	k.say(k.stove, "used 100g leek in the tart")
	m := k.ch.Post(strict.Raw{"content": "<@" + k.srv.Self().ID + "> <@" + k.stove.ID + "> put 200ml cream in the soup", "author": k.larder,
		"mentions": []any{strict.Raw{"id": k.srv.Self().ID, "username": "scullion", "bot": true}, strict.Raw{"id": k.stove.ID, "username": "Stella"}}})
	if a := k.answer(k.ch, m); !strings.Contains(a.Content, "Double cream") && !strings.Contains(a.Content, "Cream 200 ml into the soup (Stella)") {
		t.Errorf("%s", a.Content)
	}
}

// In a quiet room the plainest entries get a sign, and what is odd words.
func TestQuiet(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	r := k.srv.Slash(k.chef, k.ch, "kitchen", sub("quiet", strict.Raw{"name": "on", "type": 5, "value": true})).Wait(soon)
	if !r.Ephemeral || !strings.Contains(r.Content, "Quiet") {
		t.Errorf("%+v", r)
	}
	m := k.ch.Say(k.stove, "used 300g leek in the tart")
	k.until("a sign", func() bool {
		for _, x := range k.ch.Messages() {
			if x.ID == m.ID && len(x.Reactions["✅"]) == 1 {
				return true
			}
		}
		return false
	})
	k.say(k.stove, "used 2 onions in the soup")
	if r := reply(k.ch, m); r != nil {
		t.Errorf("and an answer: %s", r.Content)
	}
	k.srv.Edit(m, "used 200g leek in the tart")
	if a := k.answer(k.ch, m); !strings.Contains(a.Content, "200 g") {
		t.Errorf("the edit: %s", a.Content)
	}
}

// A direct message is told where to go, now and then.
func TestDirectMessage(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	dm := k.srv.DM(k.stove)
	first := dm.Say(k.stove, "used 300g leek in the tart")
	a := k.answer(dm, first)
	if !strings.Contains(a.Content, "/kitchen open") {
		t.Errorf("%s", a.Content)
	}
	dm.Say(k.stove, "hello?")
	k.settles()
	if n := len(dm.Messages()); n != 3 {
		t.Errorf("%d messages", n)
	}
	k.has("kitchen", "leek", 1_200_000)
}

// Several channels and threads may be one kitchen; another server's is its own.
func TestRooms(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	pass := k.guild.Channel("pass")
	thread := pass.Thread("tarts")
	k.open(pass, text("name", "kitchen"))
	k.open(thread, text("name", "kitchen"))
	k.answer(pass, pass.Say(k.stove, "used 100g leek in the tart"))
	k.answer(thread, thread.Say(k.stove, "used 100g leek in the tart"))
	k.has("kitchen", "leek", 1_000_000)

	far := k.srv.Guild("lockside")
	far.Manager(k.chef)
	there := far.Channel("stores")
	if got := k.open(there, text("name", "kitchen")); !strings.Contains(got, "elsewhere") {
		t.Errorf("another server's kitchen: %s", got)
	}
	if got := k.open(there); !strings.Contains(got, `"stores"`) {
		t.Errorf("one of its own: %s", got)
	}
	k.answer(there, there.Say(k.stove, "got 500g leeks"))
	k.has("stores", "leek", 500_000)

	if got := k.srv.Slash(k.stove, pass, "kitchen", sub("close")).Wait(soon).Content; !strings.Contains(got, "manage") {
		t.Errorf("closed by anyone: %s", got)
	}
	k.srv.Slash(k.chef, pass, "kitchen", sub("close")).Wait(soon)
	pass.Say(k.stove, "used 100g leek in the tart")
	thread.Remove()
	k.settles()
	k.has("kitchen", "leek", 1_000_000)
}

// A channel where the bot lacks rights is not joined, and it says which.
func TestLackingRights(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.up()
	k.ch.Deny(strict.ReadHistory)
	if got := k.open(k.ch); !strings.Contains(got, "Read Message History") {
		t.Errorf("%s", got)
	}
}

// A long answer comes in parts that fit, the buttons under the last; when it
// gets shorter a part goes.
func TestLongAnswer(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.stocked()
	m := k.ch.Say(k.stove, "what's left?")
	k.answer(k.ch, m)
	var own []*strict.Message
	k.until("more than one part", func() bool {
		own = nil
		for _, x := range k.ch.Messages() {
			if number(x.ID) > number(m.ID) {
				own = append(own, x)
			}
		}
		return len(own) > 1 && own[1].Ref == own[0].ID
	})
	alone := k.srv.Slash(k.stove, k.ch, "left")
	k.until("as many parts for one", func() bool { return len(alone.Wait(soon).Followups) == len(own)-1 })
	if r := alone.Wait(soon); r.Content != own[0].Content || !r.Ephemeral {
		t.Errorf("for one:\n%s\nfor all:\n%s", r.Content, own[0].Content)
	}
	k.settles()
	k.srv.Edit(m, "how much leek?")
	k.until("one part", func() bool {
		n := 0
		for _, x := range k.ch.Messages() {
			for _, o := range own {
				if x.ID == o.ID {
					n++
				}
			}
		}
		return n == 1
	})
}

// stocked gets in more foods than one message can list.
func (k *kit) stocked() {
	k.Helper()
	var lines []string
	for _, f := range food.Default().Foods() {
		if f.Unit == measure.Gram && len(lines) < 150 {
			lines = append(lines, "got 1kg "+f.Name)
		}
	}
	for part := range slices.Chunk(lines, 15) {
		k.answer(k.ch, k.ch.Say(k.larder, strings.Join(part, "\n")))
	}
}

// What a kitchen is called formats nothing where it is said.
func TestKitchenName(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.up()
	const want = `"\*soup\* \[x\](https:` + "\u200b" + `//example.org)"`
	if got := k.open(k.ch, text("name", "*soup* [x](https://example.org)")); !strings.Contains(got, want) {
		t.Errorf("%s", got)
	}
	if got := k.srv.Slash(k.chef, k.ch, "kitchen", sub("show")).Wait(soon).Content; !strings.Contains(got, want) {
		t.Errorf("%s", got)
	}
}
