package strict

import (
	"bytes"
	"testing"
)

// Frames of each length form (RFC 6455, section 5.2).
func TestWire(t *testing.T) {
	for n, head := range map[int][]byte{
		125: {0x81, 125}, 126: {0x81, 126, 0, 126}, 65535: {0x81, 126, 0xFF, 0xFF}, 65536: {0x81, 127, 0, 0, 0, 0, 0, 1, 0, 0},
	} {
		got := wire(bytes.Repeat([]byte("x"), n))
		if !bytes.HasPrefix(got, head) || len(got) != len(head)+n {
			t.Errorf("%d bytes begin %x", n, got[:10])
		}
	}
}

// In direct messages the events need the other intents, and name no guild.
func TestDirectMessageEvents(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove := s.User("stove")
	r := ready(t, s, Raw{"intents": intentDirectMessages | intentDirectReactions})
	s.React(stove, c.Say(stove, "in the channel"), "✅")
	m := s.DM(stove).Say(stove, "psst")
	s.React(stove, m, "✅")
	s.Unreact(stove, m, "✅")
	s.Delete(m)
	for _, kind := range []string{"MESSAGE_CREATE", "MESSAGE_REACTION_ADD", "MESSAGE_REACTION_REMOVE", "MESSAGE_DELETE"} {
		o, err := r.next()
		if err != nil || text(o["t"]) != kind {
			t.Fatalf("got %v, %v, not %s", o, err, kind)
		}
		if d := o["d"].(Raw); d["guild_id"] != nil || d["channel_id"] != s.DM(stove).ID {
			t.Errorf("%s: %v", kind, d)
		}
	}
}

// The first follow-up to a deferred answer takes its place.
func TestFollowupCompletes(t *testing.T) {
	s := New(t, Options{})
	c := kitchen(t, s)
	i := left(s, c)
	callback(t, s, i, answerWith(5, Raw{})).want(t, 204, 0)
	if all := c.Messages(); len(all) != 1 || all[0].Flags != flagLoading {
		t.Fatalf("stands: %+v", all)
	}
	hook := "/webhooks/" + s.App() + "/" + i.Token
	ask(t, s, "POST", hook, quiet("600 g", Raw{"flags": 64})).want(t, 200, 0)
	r := i.Wait(0)
	if r.Content != "600 g" || r.Message.Flags != 0 || r.Message.Edits != 0 || r.Followups != nil {
		t.Errorf("answered %+v", r)
	}
}

func TestDeferredUpdate(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	ask(t, s, "POST", "/channels/"+c.ID+"/messages", with(row(button("all", nil)))).want(t, 200, 0)
	i := s.Press(s.User("stove"), c.Messages()[0], "all")
	callback(t, s, i, Raw{"type": 6}).want(t, 204, 0)
	ask(t, s, "PATCH", "/webhooks/"+s.App()+"/"+i.Token+"/messages/@original", quiet("all gone", nil)).want(t, 200, 0)
	if all := c.Messages(); len(all) != 1 || all[0].Content != "all gone" || i.Wait(0).Edited[0] != "all gone" {
		t.Errorf("stands: %+v", all)
	}
}

func TestLists(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	if l := ask(t, s, "GET", "/guilds/"+c.guild.ID+"/channels", nil).want(t, 200, 0).list(t); len(l) != 1 {
		t.Errorf("channels: %v", l)
	}
	if r := ask(t, s, "GET", "/channels/"+c.ID+"/threads/archived/public", nil).want(t, 200, 0).raw(t); r["has_more"] != false {
		t.Errorf("archived threads: %v", r)
	}
	ask(t, s, "POST", "/users/@me/channels", Raw{"recipient_id": s.BotUser("tide").ID}).want(t, 403, 50007)
	person, thread := s.User("tide"), c.Thread("pickles")
	if person == s.BotUser("tide") || person != s.User("tide") {
		t.Error("a name is not one person and one bot")
	}
	if s.Guild("boathouse") != c.guild || galley(s) != c || c.Thread("pickles") != thread {
		t.Error("a name is not one place")
	}
}

// A day's IDENTIFYs are numbered, and the gateway says how many are left.
func TestIdentifyBudget(t *testing.T) {
	s := watched(t, Options{})
	s.mu.Lock()
	s.identifies = maxIdentifies - 1
	s.mu.Unlock()
	ready(t, s, nil)
	left := ask(t, s, "GET", "/gateway/bot", nil).raw(t)["session_start_limit"].(Raw)["remaining"]
	if whole(left) != 0 {
		t.Errorf("%v left", left)
	}
	r := dial(t, s, "/ws")
	r.want(opHello, "")
	r.send(opIdentify, identity(nil))
	r.closes(closeToken)
	if len(s.Violations()) != 1 {
		t.Errorf("violations %q", s.Violations())
	}
}
