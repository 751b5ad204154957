package strict

import (
	"strings"
	"testing"
)

func TestWrongSends(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	said := c.Say(s.User("stove"), "used 2 leeks")
	joined := c.Post(Raw{"type": 7, "author": s.User("larder")})
	ids := []any{}
	for range maxAllowedIDs + 1 {
		ids = append(ids, said.ID)
	}
	long := strings.Repeat("é", maxContent+1)
	cases := []bite{
		{"long", note(Raw{"content": long}), "content has 2001 characters"},
		{"empty", note(Raw{"content": "absent"}), "nothing in it"},
		{"blank", note(Raw{"content": " \n "}), "nothing in it"},
		{"content of another type", note(Raw{"content": 7}), "content is not a string"},
		{"not an object", "[]", "not an object"},
		{"unknown key", note(Raw{"contents": "x"}), "contents is no field"},
		{"no allowed_mentions", note(Raw{"allowed_mentions": nil}), "allowed_mentions is required"},
		{"parse null", note(Raw{"allowed_mentions": Raw{"parse": nil}}), "parse is required"},
		{"unknown parse", note(Raw{"allowed_mentions": Raw{"parse": []any{"cooks"}}}), "not users, roles or everyone"},
		{"parse and list", note(Raw{"allowed_mentions": Raw{"parse": []any{"users"}, "users": []any{said.Author.ID}}}), "excludes"},
		{"many ids", note(Raw{"allowed_mentions": Raw{"users": ids}}), "users has 101 items"},
		{"id that is none", note(Raw{"allowed_mentions": Raw{"users": []any{"stove"}}}), "not a snowflake"},
		{"no nonce", note(Raw{"nonce": nil}), "nonce is required"},
		{"long nonce", note(Raw{"nonce": strings.Repeat("1", maxNonce+1)}), "nonce has 26 characters"},
		{"ephemeral", note(Raw{"flags": flagEphemeral}), "sets bits 64"},
		{"crosspost flag", note(Raw{"flags": 1}), "sets bits 1,"},
		{"poll", note(Raw{"poll": Raw{}}), "poll is not served"},
		{"sticker", note(Raw{"sticker_ids": []any{"1"}}), "sticker_ids is not served"},
		{"reply to nothing", note(Raw{"message_reference": Raw{"message_id": "1"}}), "never was in this channel"},
		{"reply without an id", note(Raw{"message_reference": Raw{"channel_id": c.ID}}), "message_id is required"},
		{"reply elsewhere", note(Raw{"message_reference": Raw{"message_id": said.ID, "channel_id": "1"}}), "another channel"},
		{"reply in another guild", note(Raw{"message_reference": Raw{"message_id": said.ID, "guild_id": "1"}}), "another guild"},
		{"reply to a system message", note(Raw{"message_reference": Raw{"message_id": joined.ID}}), "system message"},
		{"forward", note(Raw{"message_reference": Raw{"type": 1, "message_id": said.ID}}), "type is 1"},
		{"attachment without a file", note(Raw{"attachments": []any{Raw{"id": 0}}}), "neither an upload"},
	}
	bites(t, cases, func(s *Server, body any) reply {
		return ask(t, s, "POST", "/channels/"+c.ID+"/messages", body)
	}, s)
	if n := len(c.Messages()); n != 2 {
		t.Errorf("%d messages stand", n)
	}
}

func TestRightSends(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove, larder := s.User("stove"), s.User("larder")
	said := c.Say(stove, "used 2 leeks")
	send := func(m Raw) *Message {
		t.Helper()
		ask(t, s, "POST", "/channels/"+c.ID+"/messages", m).want(t, 200, 0)
		all := c.Messages()
		return all[len(all)-1]
	}
	if m := send(note(Raw{"content": strings.Repeat("é", maxContent)})); len(m.Content) != 2*maxContent {
		t.Errorf("%d bytes stand", len(m.Content))
	}
	if m := send(note(Raw{"content": "  leek\n", "tts": false, "embeds": nil, "components": nil, "sticker_ids": nil})); m.Content != "leek" {
		t.Errorf("%q stands", m.Content)
	}
	if m := send(note(Raw{"nonce": 7})); m.Nonce != "7" {
		t.Errorf("the nonce is %q", m.Nonce)
	}
	m := send(note(Raw{"content": "<@" + larder.ID + "> @everyone", "message_reference": Raw{"message_id": said.ID}}))
	if m.Ref != said.ID || m.Pinged != nil {
		t.Errorf("quiet reply: %+v", m)
	}
	loud := Raw{"parse": []any{"everyone"}, "users": []any{larder.ID}, "replied_user": true}
	m = send(note(Raw{"content": "<@!" + larder.ID + "> @here <@&5>", "allowed_mentions": loud, "message_reference": Raw{"message_id": said.ID}}))
	if got := strings.Join(m.Pinged, " "); got != larder.ID+" @everyone "+stove.ID {
		t.Errorf("pinged: %s", got)
	}
	innocent(t, s)
}

func TestRepliesToWhatIsGone(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	said := c.Say(s.User("stove"), "used 2 leeks")
	s.Delete(said)
	path := "/channels/" + c.ID + "/messages"
	ask(t, s, "POST", path, note(Raw{"message_reference": Raw{"message_id": said.ID}})).want(t, 400, 50035)
	r := ask(t, s, "POST", path, note(Raw{"message_reference": Raw{"message_id": said.ID, "fail_if_not_exists": false}})).want(t, 200, 0).raw(t)
	if r["message_reference"] != nil || whole(r["type"]) != typeDefault {
		t.Errorf("not a plain message: %v", r)
	}
	innocent(t, s) // neither is the bot's fault
}

func TestNonces(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	path := "/channels/" + c.ID + "/messages"
	m := note(Raw{"nonce": "leek-1"})
	first := ask(t, s, "POST", path, m).want(t, 200, 0).raw(t)
	again := ask(t, s, "POST", path, m).want(t, 200, 0).raw(t)
	if first["id"] != again["id"] || again["nonce"] != "leek-1" || len(c.Messages()) != 1 {
		t.Errorf("a repeat made %v beside %v", again, first)
	}
	loose := note(Raw{"nonce": "leek-1", "enforce_nonce": false})
	if r := ask(t, s, "POST", path, loose).want(t, 200, 0).raw(t); r["id"] == first["id"] {
		t.Error("a nonce that is not enforced was")
	}
	innocent(t, s)
	other := s.Guild("boathouse").Channel("slipway")
	ask(t, s, "POST", "/channels/"+other.ID+"/messages", m).want(t, 200, 0)
	if v := s.Violations(); len(v) != 1 || !strings.Contains(v[0], "another channel") {
		t.Errorf("violations %q", v)
	}
	s.mu.Lock() // five minutes later
	for key, r := range s.nonces {
		r.at = r.at.Add(-s.o.NonceWindow)
		s.nonces[key] = r
	}
	s.mu.Unlock()
	if r := ask(t, s, "POST", path, m).want(t, 200, 0).raw(t); r["id"] == first["id"] {
		t.Error("the nonce was remembered for ever")
	}
	if n := s.Stats().Repeats; n != 2 {
		t.Errorf("%d repeats", n)
	}
}

func TestPermissions(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	thread := c.Thread("pickles")
	said := c.Say(s.User("stove"), "used 2 leeks")
	post := func(c *Channel, m Raw) reply { return ask(t, s, "POST", "/channels/"+c.ID+"/messages", m) }
	react := func() reply {
		return ask(t, s, "PUT", "/channels/"+c.ID+"/messages/"+said.ID+"/reactions/%E2%9C%85/@me", nil)
	}
	c.Deny(AttachFiles)
	parts(t, s, "POST", "/channels/"+c.ID+"/messages", payloadOf(note(nil)), png(0)).want(t, 403, 50013)
	post(c, note(nil)).want(t, 200, 0)
	c.Deny(SendMessages)
	post(c, note(nil)).want(t, 403, 50013)
	post(thread, note(nil)).want(t, 200, 0) // a thread has a permission of its own
	c.Deny(SendInThreads)
	post(thread, note(nil)).want(t, 403, 50013)
	c.Allow(SendMessages)
	c.Deny(AddReactions)
	react().want(t, 403, 50013)
	c.Allow(AddReactions)
	react().want(t, 204, 0)
	c.Deny(ReadHistory)
	post(c, note(Raw{"message_reference": Raw{"message_id": said.ID}})).want(t, 403, 160002)
	if page := ask(t, s, "GET", "/channels/"+c.ID+"/messages", nil).want(t, 200, 0).list(t); len(page) != 0 {
		t.Errorf("a history that may not be read has %d messages", len(page))
	}
	react().want(t, 403, 50013)
	c.Deny(ViewChannel)
	post(c, note(nil)).want(t, 403, 50001)
	ask(t, s, "GET", "/channels/"+c.ID+"/messages", nil).want(t, 403, 50001)
	c.guild.Kick()
	ask(t, s, "GET", "/guilds/"+c.guild.ID, nil).want(t, 403, 50001)
	c.guild.Back()
	c.Allow(ViewChannel)
	c.Remove()
	post(c, note(nil)).want(t, 404, 10003)
	post(thread, note(nil)).want(t, 404, 10003)
	innocent(t, s)
}

func TestEdits(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	said := c.Say(s.User("stove"), "used 2 leeks")
	r := ask(t, s, "POST", "/channels/"+c.ID+"/messages", note(nil)).want(t, 200, 0).raw(t)
	mine := "/channels/" + c.ID + "/messages/" + text(r["id"])
	patch := func(body any) reply { return ask(t, s, "PATCH", mine, body) }
	e := patch(Raw{"content": "Leek 200 g.", "allowed_mentions": nobody, "ID": "1", "Channel": "1"}).want(t, 200, 0).raw(t)
	first := text(e["edited_timestamp"])
	e = patch(Raw{"content": "Leek 100 g.", "allowed_mentions": nobody}).want(t, 200, 0).raw(t)
	if at := text(e["edited_timestamp"]); at <= first {
		t.Errorf("edited at %s, then at %s", first, at)
	}
	if m := c.Messages()[1]; m.Content != "Leek 100 g." || m.Edits != 2 {
		t.Errorf("stands: %+v", m)
	}
	innocent(t, s)
	bites(t, []bite{
		{"no allowed_mentions", Raw{"content": "x"}, "allowed_mentions is required"},
		{"nothing left", Raw{"content": "", "allowed_mentions": nobody}, "leaves nothing"},
		{"long", Raw{"content": strings.Repeat("x", maxContent+1), "allowed_mentions": nobody}, "2001 characters"},
		{"nonce", Raw{"content": "x", "nonce": "1", "allowed_mentions": nobody}, "nonce is no field"},
	}, func(s *Server, body any) reply { return patch(body) }, s)
	others := "/channels/" + c.ID + "/messages/" + said.ID
	ask(t, s, "PATCH", others, Raw{"content": "x", "allowed_mentions": nobody}).want(t, 403, 50005)
	ask(t, s, "DELETE", others, nil).want(t, 403, 50013)
	ask(t, s, "PATCH", "/channels/"+c.ID+"/messages/1", Raw{"content": "x", "allowed_mentions": nobody}).want(t, 404, 10008)
	ask(t, s, "DELETE", mine, nil).want(t, 204, 0)
	patch(Raw{"content": "x", "allowed_mentions": nobody}).want(t, 404, 10008)
}

func TestReactions(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	said := c.Say(s.User("stove"), "used 2 leeks")
	put := func(emoji string) reply {
		return ask(t, s, "PUT", "/channels/"+c.ID+"/messages/"+said.ID+"/reactions/"+emoji+"/@me", nil)
	}
	for range 2 {
		put("%E2%9C%85").want(t, 204, 0)
	}
	s.React(s.User("larder"), said, "✅")
	if r := c.Messages()[0].Reactions["✅"]; strings.Join(r, " ") != s.Self().ID+" "+s.User("larder").ID {
		t.Errorf("reactions %v", r)
	}
	put("leek:123456789012345678").want(t, 204, 0)
	put("2%EF%B8%8F%E2%83%A3").want(t, 204, 0)
	ask(t, s, "DELETE", "/channels/"+c.ID+"/messages/"+said.ID+"/reactions/%E2%9C%85/@me", nil).want(t, 204, 0)
	if r := c.Messages()[0].Reactions["✅"]; len(r) != 1 {
		t.Errorf("reactions %v", r)
	}
	innocent(t, s)
	for _, wrong := range []string{"ok", "%25E2%259C%2585", "leek%3A1", "%3Aleek%3A", "2", "%E2%9C%85x"} {
		before := len(s.Violations())
		put(wrong).want(t, 400, 10014)
		if len(s.Violations()) == before {
			t.Errorf("%s: nobody is to blame", wrong)
		}
	}
	for r := '🌀'; len(c.Messages()[0].Reactions) < maxReactionKinds; r++ {
		s.React(s.User("larder"), said, string(r))
	}
	put("%F0%9F%8D%9E").want(t, 400, 30010)
	put("%E2%9C%85").want(t, 204, 0) // of a kind that is there
}
