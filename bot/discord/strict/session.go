package strict

import (
	"crypto/rand"
	"encoding/json"
)

// session is one identified client: it outlives its connection, and keeps every
// dispatch for a resume.
type session struct {
	s       *Server
	id      string
	intents int
	seq     int
	sent    []replayable
	conn    *conn // nil: detached
	ready   bool  // READY or RESUMED is on its way on conn
	dead    bool  // cannot be resumed
}

type replayable struct {
	seq   int
	kind  string
	frame []byte
}

func (s *Server) newSession(c *conn, intents int) *session {
	one := &session{s: s, id: rand.Text(), intents: intents, conn: c}
	s.sessions = append(s.sessions, one)
	c.session = one
	return one
}

// add numbers an event, keeps it, and sends it if the session is connected.
func (one *session) add(kind string, data json.RawMessage) {
	one.seq++
	e := replayable{one.seq, kind, encode(Raw{"op": 0, "t": kind, "s": one.seq, "d": data})}
	one.sent = append(one.sent, e)
	if one.conn == nil {
		return
	}
	if one.s.cutNext && one.ready {
		one.s.cutNext = false
		one.conn.enqueue(frame{data: e.frame, act: cut})
		one.conn.detach()
		return
	}
	one.conn.enqueue(frame{data: e.frame, seq: e.seq})
}

// start is READY and the guilds after it.
func (one *session) start(shard any) {
	s := one.s
	guilds := []any{}
	for _, g := range s.guilds {
		if !g.kicked {
			guilds = append(guilds, Raw{"id": g.ID, "unavailable": true})
		}
	}
	ready := Raw{"v": 9, "user": s.self, "guilds": guilds, "session_id": one.id, "session_type": "normal",
		"resume_gateway_url": s.socket("/resume"), "application": Raw{"id": s.app, "flags": 0}, "private_channels": []any{}}
	if shard != nil {
		ready["shard"] = shard
	}
	one.add("READY", encode(ready))
	for _, g := range s.guilds {
		if !g.kicked && !g.out && one.intents&intentGuilds != 0 {
			one.add("GUILD_CREATE", encode(g.full()))
		}
	}
	one.ready = true
	s.poke()
}

// resume sends what came after seq, in order, then RESUMED.
func (one *session) resume(c *conn, seq int) {
	if one.conn != nil {
		one.conn.enqueue(frame{act: cut})
		one.conn.detach()
	}
	one.conn, c.session = c, one
	c.enqueue(frame{seq: seq}) // what the client has from before
	for _, e := range one.sent {
		if e.seq > seq && e.kind != "RESUMED" {
			c.enqueue(frame{data: e.frame, seq: e.seq})
		}
	}
	one.add("RESUMED", encode(Raw{}))
	one.ready = true
	one.s.stats.Resumed++
	one.s.poke()
}

func (s *Server) sessionByID(id string) *session {
	for _, one := range s.sessions {
		if one.id == id && !one.dead {
			return one
		}
	}
	return nil
}

// ForgetSessions makes every RESUME from now on fail with op9 false; connected
// sessions go on until they drop.
func (s *Server) ForgetSessions() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, one := range s.sessions {
		one.forgotten()
	}
}

// forgotten ends a session that is detached, and marks one that is not.
func (one *session) forgotten() {
	if one.conn == nil {
		one.dead = true
		return
	}
	one.conn.last = true
}
