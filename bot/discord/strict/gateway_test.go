package strict

import (
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

func TestWrongPayloads(t *testing.T) {
	s := func(op int, d any) func(*rig) { return func(r *rig) { r.send(op, d) } }
	raw := func(kind int, data string) func(*rig) {
		return func(r *rig) { r.ws.WriteMessage(kind, []byte(data)) }
	}
	id := func(changes Raw) func(*rig) { return s(opIdentify, identity(changes)) }
	both := func(a, b func(*rig)) func(*rig) { return func(r *rig) { a(r); b(r) } }
	cases := []struct {
		name string
		o    Options
		do   func(*rig)
		code int
		says string
	}{
		{"token", Options{}, id(Raw{"token": "x"}), closeToken, "another token"},
		{"no properties", Options{}, id(Raw{"properties": nil}), closeDecode, "properties is required"},
		{"no browser", Options{}, id(Raw{"properties": Raw{"os": "x", "device": "x"}}), closeDecode, "browser is required"},
		{"unknown key", Options{}, id(Raw{"guild_subscriptions": true}), closeDecode, "no field"},
		{"no intents", Options{}, id(Raw{"intents": nil}), closeIntents, "intents 0"},
		{"intents that are none", Options{}, id(Raw{"intents": 1 << 17}), closeIntents, "intents 131072"},
		{"members", Options{}, id(Raw{"intents": 1 | intentMembers}), closeDisallowed, "2 are not granted"},
		{"content without the grant", Options{NoContent: true}, id(nil), closeDisallowed, "32768 are not granted"},
		{"shard", Options{}, id(Raw{"shard": []any{1, 2}}), closeShard, "shard"},
		{"large_threshold", Options{}, id(Raw{"large_threshold": 1000}), closeDecode, "large_threshold"},
		{"twice", Options{}, both(id(nil), id(nil)), closeTwice, "IDENTIFY twice"},
		{"resume after identify", Options{}, both(id(nil), s(opResume, Raw{})), closeTwice, "RESUME on a connection"},
		{"before identify", Options{}, s(opPresence, Raw{}), closeNotIdentity, "op 3 before IDENTIFY"},
		{"unknown op", Options{}, s(77, nil), closeUnknownOp, "op 77"},
		{"no op", Options{}, raw(websocket.TextMessage, "{}"), closeDecode, "without op"},
		{"no JSON", Options{}, raw(websocket.TextMessage, "{"), closeDecode, "no JSON object"},
		{"binary", Options{}, raw(websocket.BinaryMessage, "{}"), closeDecode, "text frame"},
		{"big", Options{}, s(opPresence, strings.Repeat("x", maxPayload)), closeDecode, "not 4096"},
		{"many", Options{}, func(r *rig) {
			for range maxEventsMinute + 1 {
				r.send(opHeartbeat, nil)
			}
		}, closeRate, "more than 120"},
		{"resume with another token", Options{}, s(opResume, Raw{"token": "x", "session_id": "x", "seq": 1}), closeToken, "another token"},
		{"resume without seq", Options{}, s(opResume, Raw{"token": Token, "session_id": "x", "seq": "1"}), closeDecode, "seq is not"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := watched(t, c.o)
			r := dial(t, s, "/ws")
			r.want(opHello, "")
			c.do(r)
			r.closes(c.code)
			if said := strings.Join(s.Violations(), "\n"); !strings.Contains(said, c.says) {
				t.Errorf("violations %q do not say %q", said, c.says)
			}
		})
	}
}

func TestWrongAddress(t *testing.T) {
	s := watched(t, Options{})
	ws, _, err := websocket.DefaultDialer.Dial(s.socket("/ws")+"?v=6", nil)
	if err != nil {
		t.Fatal(err)
	}
	defer ws.Close()
	(&rig{t: t, ws: ws}).closes(closeVersion)
	if len(s.Violations()) != 1 {
		t.Errorf("violations %q", s.Violations())
	}
}

func TestReady(t *testing.T) {
	s := watched(t, Options{Intents: 38401, IdentifySpacing: time.Minute})
	c := galley(s)
	c.Thread("pickles")
	r := dial(t, s, "/ws")
	r.want(opHello, "")
	r.send(opIdentify, identity(Raw{"token": Token, "properties": Raw{"os": "x", "browser": "x", "device": "x"}, "compress": true, "shard": []any{0, 1}}))
	d := r.want(opDispatch, "READY")["d"].(Raw)
	if text(d["application"].(Raw)["id"]) != s.App() || text(d["resume_gateway_url"]) != s.socket("/resume") || d["guilds"].([]any)[0].(Raw)["unavailable"] != true {
		t.Errorf("READY is %v", d)
	}
	g := r.want(opDispatch, "GUILD_CREATE")["d"].(Raw)
	if g["name"] != "boathouse" || len(g["channels"].([]any)) != 1 || len(g["threads"].([]any)) != 1 || len(g["members"].([]any)) != 1 {
		t.Errorf("GUILD_CREATE is %v", g)
	}
	innocent(t, s)
	soon := dial(t, s, "/ws")
	soon.want(opHello, "")
	soon.send(opIdentify, identity(nil))
	if d := soon.want(opInvalid, "")["d"]; d != false {
		t.Errorf("op9 says %v", d)
	}
	s.mu.Lock() // a minute later
	s.identified = s.identified.Add(-time.Minute)
	s.mu.Unlock()
	soon.send(opIdentify, identity(Raw{"intents": 1}))
	soon.want(opDispatch, "READY")
	if v := s.Violations(); len(v) != 1 || !strings.Contains(v[0], "intents 1, not 38401") {
		t.Errorf("violations %q", v)
	}
}

func TestHeartbeats(t *testing.T) {
	s := watched(t, Options{Heartbeat: 100 * time.Millisecond})
	r := ready(t, s, nil)
	r.send(opHeartbeat, r.last)
	r.want(opAck, "")
	s.Acks(false)
	r.send(opHeartbeat, r.last)
	soon(t, "the second heartbeat", func() bool { return s.Stats().Heartbeats == 2 })
	s.Op(opHeartbeat, nil)
	r.want(opHeartbeat, "") // and no acknowledgement before it
	s.Acks(true)
	r.send(opHeartbeat, r.last)
	r.want(opAck, "")
	innocent(t, s)
	r.send(opHeartbeat, r.last+5)
	r.want(opAck, "")
	if v := s.Violations(); len(v) != 1 || !strings.Contains(v[0], "a heartbeat with d 6") {
		t.Errorf("violations %q", v)
	}
	r.closes(closeTimeout)
	if v := s.Violations(); len(v) != 2 || !strings.Contains(v[1], "no heartbeat within") {
		t.Errorf("violations %q", v)
	}
	if n := s.Stats().Heartbeats; n != 4 {
		t.Errorf("%d heartbeats", n)
	}
}

func TestStaleHeartbeat(t *testing.T) {
	s := watched(t, Options{})
	r := ready(t, s, nil)
	s.mu.Lock()
	s.conns[0].written = []written{{2, time.Now().Add(-time.Minute)}}
	s.mu.Unlock()
	r.send(opHeartbeat, 1)
	r.want(opAck, "")
	if v := s.Violations(); len(v) != 1 {
		t.Errorf("violations %q", v)
	}
}

func TestResume(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	larder := s.User("larder")
	r := ready(t, s, nil)
	c.Say(larder, "one")
	r.want(opDispatch, "MESSAGE_CREATE")
	s.Drop()
	if _, err := r.next(); err == nil {
		t.Fatal("still connected")
	}
	c.Say(larder, "two")
	m := c.Say(larder, "three")
	s.Edit(m, "four")

	back := dial(t, s, "/resume")
	back.want(opHello, "")
	back.send(opResume, r.resumption())
	var got []string
	for {
		o, err := back.next()
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, text(o["t"]))
		if text(o["t"]) == "RESUMED" {
			break
		}
		if n := r.last + len(got); whole(o["s"]) != n {
			t.Errorf("s is %v, not %d", o["s"], n)
		}
	}
	if strings.Join(got, " ") != "MESSAGE_CREATE MESSAGE_CREATE MESSAGE_UPDATE RESUMED" {
		t.Errorf("replayed: %q", got)
	}
	c.Say(larder, "five")
	back.want(opDispatch, "MESSAGE_CREATE")
	if st := s.Stats(); st.ResumeURL != 1 || st.Resumes != 1 || st.Resumed != 1 || st.Identifies != 1 {
		t.Errorf("stats %+v", st)
	}
}

// What ends a session, and what does not.
func TestSessionsEnd(t *testing.T) {
	leave := func(code int) func(*Server, *rig) {
		return func(s *Server, r *rig) {
			r.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""), time.Now().Add(time.Second))
			soon(r.t, "the close is seen", func() bool { return len(s.Stats().CloseCodes) == 1 })
		}
	}
	cases := []struct {
		name  string
		do    func(*Server, *rig)
		lives bool
	}{
		{"client closes 1000", leave(1000), false},
		{"client closes 1001", leave(1001), false},
		{"client closes 4000", leave(4000), true},
		{"dropped", func(s *Server, r *rig) { s.Drop() }, true},
		{"forgotten", func(s *Server, r *rig) { s.ForgetSessions(); s.Drop() }, false},
		{"forgotten when detached", func(s *Server, r *rig) { s.Drop(); s.ForgetSessions() }, false},
		{"op7", func(s *Server, r *rig) { s.Op(7, nil); r.want(opReconnect, ""); leave(4000)(s, r) }, true},
		{"op9 true", func(s *Server, r *rig) { s.Op(9, true); r.want(opInvalid, "") }, true},
		{"op9 false", func(s *Server, r *rig) { s.Op(9, false); r.want(opInvalid, "") }, false},
		{"server closes 4000", func(s *Server, r *rig) { s.CloseWith(4000); r.closes(4000) }, true},
		{"server closes 4009", func(s *Server, r *rig) { s.CloseWith(4009); r.closes(4009) }, false},
		{"server closes, client answers 1000", func(s *Server, r *rig) {
			r.ws.SetCloseHandler(func(int, string) error { return nil })
			s.CloseWith(4000)
			r.closes(4000)
			leave(1000)(s, r)
		}, false},
		{"down and up", func(s *Server, r *rig) { s.Down(); s.Up() }, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := New(t, Options{})
			r := ready(t, s, nil)
			c.do(s, r)
			soon(t, "it is detached", func() bool { return !s.Connected() })
			back := dial(t, s, "/ws")
			back.want(opHello, "")
			back.send(opResume, r.resumption())
			if c.lives {
				back.want(opDispatch, "RESUMED")
			} else if d := back.want(opInvalid, "")["d"]; d != false {
				t.Errorf("op9 says %v", d)
			}
		})
	}
}

func TestResumeFromTheFuture(t *testing.T) {
	s := watched(t, Options{})
	r := ready(t, s, nil)
	s.Drop()
	back := dial(t, s, "/ws")
	back.want(opHello, "")
	r.last += 9
	back.send(opResume, r.resumption())
	back.closes(closeSeq)
	if len(s.Violations()) != 1 {
		t.Errorf("violations %q", s.Violations())
	}
}

// A session that is resumed elsewhere leaves its first connection.
func TestTakeOver(t *testing.T) {
	s := New(t, Options{})
	r := ready(t, s, nil)
	back := dial(t, s, "/ws")
	back.want(opHello, "")
	back.send(opResume, r.resumption())
	back.want(opDispatch, "RESUMED")
	if _, err := r.next(); err == nil {
		t.Error("the first connection lives on")
	}
}

func TestScripts(t *testing.T) {
	identify := func(r *rig) { r.want(opHello, ""); r.send(opIdentify, identity(nil)) }
	for step, check := range map[string]func(*rig){
		"no-hello":              func(r *rig) { r.quiet(100 * time.Millisecond) },
		"silent":                func(r *rig) { identify(r); r.send(opHeartbeat, nil); r.quiet(100 * time.Millisecond) },
		"op7-before-hello":      func(r *rig) { r.want(opReconnect, "") },
		"op7-instead-of-ready":  func(r *rig) { identify(r); r.want(opReconnect, ""); r.quiet(100 * time.Millisecond) },
		"op11-instead-of-ready": func(r *rig) { identify(r); r.want(opAck, ""); r.quiet(100 * time.Millisecond) },
		"close:4014":            func(r *rig) { identify(r); r.closes(4014) },
		"op9": func(r *rig) {
			identify(r)
			for range 5 {
				if d := r.want(opInvalid, "")["d"]; d != false {
					r.t.Errorf("op9 says %v", d)
				}
				r.send(opIdentify, identity(nil))
			}
		},
	} {
		t.Run(step, func(t *testing.T) {
			s := New(t, Options{})
			s.OnConnect(step, "")
			check(dial(t, s, "/ws"))
			if s.Connected() {
				t.Error("it counts as connected")
			}
			ready(t, s, nil) // the next connection is as usual
			s.WaitReady(time.Second)
		})
	}
}

func TestDown(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	r := ready(t, s, nil)
	r.want(opDispatch, "GUILD_CREATE")
	s.Down()
	if _, err := r.next(); err == nil {
		t.Error("still connected")
	}
	if _, _, err := websocket.DefaultDialer.Dial(s.socket("/ws"), nil); err == nil {
		t.Error("a connection was taken")
	}
	c.Say(s.User("stove"), "used 2 leeks")
	s.Up()
	if page := ask(t, s, "GET", "/channels/"+c.ID+"/messages", nil).want(t, 200, 0).list(t); len(page) != 1 {
		t.Errorf("the page is %v", page)
	}
	back := dial(t, s, "/ws")
	back.want(opHello, "")
	back.send(opResume, r.resumption())
	back.want(opDispatch, "MESSAGE_CREATE")
	back.want(opDispatch, "RESUMED")
}
