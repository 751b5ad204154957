package strict

import (
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"
)

// content gives the texts of the next n messages.
func (r *rig) texts(n int) string {
	r.t.Helper()
	var list []string
	for range n {
		list = append(list, text(r.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw)["content"]))
	}
	return strings.Join(list, " ")
}

func TestHoldAndRelease(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove := s.User("stove")
	r := ready(t, s, nil)
	say := func() {
		s.Hold()
		for _, text := range []string{"a", "b", "c"} {
			c.Say(stove, text)
		}
	}
	say()
	s.Release()
	if got := r.texts(3); got != "a b c" {
		t.Errorf("released: %s", got)
	}
	say()
	s.Release(2, 0, 0)
	before := r.last
	if got := r.texts(3); got != "c a a" || r.last != before+3 {
		t.Errorf("released: %s, s went from %d to %d", got, before, r.last)
	}
	c.Say(stove, "d")
	if got := r.texts(1); got != "d" {
		t.Errorf("after it: %s", got)
	}
}

func TestCutNextFrame(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	r := ready(t, s, nil)
	r.want(opDispatch, "GUILD_CREATE")
	s.CutNextFrame()
	c.Say(s.User("stove"), strings.Repeat("leek ", 50))
	if o, err := r.next(); err == nil {
		t.Fatalf("a whole frame came: %v", o)
	}
	back := dial(t, s, "/ws")
	back.want(opHello, "")
	back.send(opResume, r.resumption())
	if got := back.texts(1); !strings.HasPrefix(got, "leek leek") {
		t.Errorf("replayed: %q", got)
	}
}

func TestIntents(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove := s.User("stove")
	deaf := ready(t, s, Raw{"intents": intentGuilds})
	blind := ready(t, s, Raw{"intents": intentGuildMessages})
	all := ready(t, s, nil)
	m := c.Say(stove, "leek")
	s.React(stove, m, "✅")
	s.DM(stove).Say(stove, "psst")
	s.Guild("boathouse").Channel("slipway")
	if got := blind.texts(1); got != "" {
		t.Errorf("content without the intent: %q", got)
	}
	d := all.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw)
	if d["content"] != "leek" || d["guild_id"] != c.guild.ID || d["member"] == nil {
		t.Errorf("a message: %v", d)
	}
	all.want(opDispatch, "MESSAGE_REACTION_ADD")
	if d := all.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw); d["guild_id"] != nil || d["content"] != "psst" {
		t.Errorf("a direct message: %v", d)
	}
	for {
		o, err := deaf.next()
		if err != nil {
			t.Fatal(err)
		}
		kind := text(o["t"])
		if kind == "CHANNEL_CREATE" {
			break
		}
		if kind != "GUILD_CREATE" {
			t.Errorf("%s without its intent", kind)
		}
	}
}

func TestWhatPeopleDo(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove := s.User("stove")
	r := ready(t, s, nil)
	c.guild.Nick(stove, "chef")
	m := c.Say(stove, "leek")
	d := r.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw)
	if d["member"].(Raw)["nick"] != "chef" || d["edited_timestamp"] != nil {
		t.Errorf("a message: %v", d)
	}
	update := func() Raw { return r.want(opDispatch, "MESSAGE_UPDATE")["d"].(Raw) }
	s.Unfurl(m, true)
	if u := update(); u["edited_timestamp"] != nil {
		t.Errorf("a preview: %v", u)
	}
	s.Edit(m, "leeks")
	first := text(update()["edited_timestamp"])
	s.Unfurl(m, true)
	u := update()
	if cut := text(u["edited_timestamp"]); cut >= first || cut[:23] != first[:23] || u["content"] != "leeks" {
		t.Errorf("edited %s, previewed %v", first, u)
	}
	s.Unfurl(m, false)
	if u := update(); u["edited_timestamp"] != nil {
		t.Errorf("a preview: %v", u)
	}
	s.mu.Lock() // an edit whose clock runs ahead
	s.messageByID(m.ID).edited = time.Now().Add(time.Hour).Truncate(time.Millisecond)
	first = stamp(s.messageByID(m.ID).edited)
	s.mu.Unlock()
	s.Edit(m, "leek")
	if again := text(update()["edited_timestamp"]); again <= first {
		t.Errorf("edited %s, then %s", first, again)
	}
	c.Reply(s.User("larder"), m, "how many?")
	if d := r.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw); text(d["referenced_message"].(Raw)["content"]) != "leek" || whole(d["type"]) != typeReply {
		t.Errorf("a reply: %v", d)
	}
	s.Delete(m)
	if d := r.want(opDispatch, "MESSAGE_DELETE")["d"].(Raw); d["id"] != m.ID || d["content"] != nil {
		t.Errorf("a deletion: %v", d)
	}
	s.BulkDelete(c.Say(stove, "a"), c.Say(stove, "b"))
	if d := r.want(opDispatch, "MESSAGE_DELETE_BULK")["d"].(Raw); len(d["ids"].([]any)) != 2 {
		t.Errorf("a bulk deletion: %v", d)
	}
	odd := c.Post(Raw{"webhook_id": "7", "content": "delivery", "components": []any{Raw{"type": 99}}, "flags": 1 << 14})
	d = r.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw)
	if d["member"] != nil || d["webhook_id"] != "7" || !strings.Contains(string(odd.Components), "99") {
		t.Errorf("an odd message: %v", d)
	}
	c.Thread("pickles").Remove()
	r.want(opDispatch, "THREAD_CREATE")
	r.want(opDispatch, "THREAD_DELETE")
	c.Remove()
	r.want(opDispatch, "CHANNEL_DELETE")
}

func TestOutage(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	r := ready(t, s, nil)
	c.guild.Outage()
	if d := r.want(opDispatch, "GUILD_DELETE")["d"].(Raw); d["unavailable"] != true {
		t.Errorf("an outage: %v", d)
	}
	c.Say(s.User("stove"), "unheard")
	c.guild.Back()
	r.want(opDispatch, "GUILD_CREATE")
	c.Deny(ViewChannel)
	c.Say(s.User("stove"), "unseen")
	c.Allow(ViewChannel)
	c.Say(s.User("stove"), "heard")
	if got := r.texts(1); got != "heard" {
		t.Errorf("heard %q", got)
	}
	c.guild.Kick()
	if d := r.want(opDispatch, "GUILD_DELETE")["d"].(Raw); d["unavailable"] != nil {
		t.Errorf("a removal: %v", d)
	}
	if n := len(c.Messages()); n != 3 {
		t.Errorf("%d messages stand", n)
	}
}

func TestInteractionEvents(t *testing.T) {
	s := New(t, Options{})
	c := kitchen(t, s)
	stove := s.User("stove")
	c.guild.Manager(stove)
	r := ready(t, s, nil)
	s.Slash(stove, c, "left", Raw{"name": "item", "value": "leek"}, Raw{"name": "cook", "value": stove.ID})
	d := r.want(opDispatch, "INTERACTION_CREATE")["d"].(Raw)
	given := d["data"].(Raw)["options"].([]any)[0].(Raw)
	if given["value"] != "leek" || whole(given["type"]) != optString || d["data"].(Raw)["resolved"].(Raw)["users"].(Raw)[stove.ID] == nil {
		t.Errorf("a command: %v", d)
	}
	if p := text(d["member"].(Raw)["permissions"]); p != bits(everyone|ManageChannels) || d["user"] != nil {
		t.Errorf("a manager has %s", p)
	}
	i := left(s, c)
	callback(t, s, i, answerWith(4, quiet("x", Raw{"flags": 64, "components": []any{row(button("all", nil))}}))).want(t, 204, 0)
	d = r.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw)
	if d["guild_id"] != nil || d["member"] != nil || whole(d["flags"]) != 64 {
		t.Errorf("an ephemeral message: %v", d)
	}
	s.Press(stove, i.Wait(0).Message, "all")
	d = r.want(opDispatch, "INTERACTION_CREATE")["d"].(Raw)
	if d["data"].(Raw)["custom_id"] != "all" || d["message"] == nil || whole(d["data"].(Raw)["component_type"]) != compButton {
		t.Errorf("a press: %v", d)
	}
}

// The bot's own message is an event like any other, and says its nonce.
func TestOwnMessages(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	r := ready(t, s, nil)
	m := note(nil)
	ask(t, s, "POST", "/channels/"+c.ID+"/messages", m).want(t, 200, 0)
	d := r.want(opDispatch, "MESSAGE_CREATE")["d"].(Raw)
	if d["nonce"] != m["nonce"] || d["author"].(Raw)["id"] != s.Self().ID {
		t.Errorf("the event is %v", d)
	}
}

func TestNothingIsLeftRunning(t *testing.T) {
	before := runtime.NumGoroutine()
	for range 3 {
		w := &witness{TB: t}
		s := New(w, Options{})
		galley(s)
		r := ready(t, s, nil)
		s.OnConnect("silent")
		dial(t, s, "/ws").want(opHello, "")
		s.Down()
		s.Up()
		s.Fault(once("/gateway", &Fault{Delay: time.Hour}))
		gone := make(chan struct{})
		go func() { // a request that still waits when the server stops
			defer close(gone)
			if resp, err := http.Get(s.URL() + "/api/v9/gateway"); err == nil {
				resp.Body.Close()
			}
		}()
		soon(t, "the request is there", func() bool { return s.Stats().Requests["GET /gateway"] == 1 })
		r.ws.Close()
		w.end()
		<-gone
		if w.errors != nil {
			t.Errorf("reported: %q", w.errors)
		}
	}
	http.DefaultClient.CloseIdleConnections()
	soon(t, "as many goroutines as before", func() bool { return runtime.NumGoroutine() <= before })
}
