package strict

import (
	"slices"
	"strings"
	"time"
)

// steps are what OnConnect understands, besides "close:" with a code.
var steps = []string{"", "op7-before-hello", "op7-instead-of-ready", "op11-instead-of-ready", "silent", "no-hello", "op9"}

// OnConnect scripts the next connections, one step each:
//
//	""                       as usual
//	"no-hello"               nothing is ever sent
//	"op7-before-hello"       op7 in place of HELLO
//	"op7-instead-of-ready"   HELLO, then op7 for IDENTIFY or RESUME
//	"op11-instead-of-ready"  HELLO, then a heartbeat acknowledgement for it
//	"silent"                 HELLO, then nothing
//	"op9"                    HELLO, then op9 false for each IDENTIFY or RESUME
//	"close:4014"             HELLO, then that close code for it
func (s *Server) OnConnect(script ...string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, step := range script {
		if !slices.Contains(steps, step) && !strings.HasPrefix(step, "close:") {
			s.blame("the test scripts %q, which is no step", step)
		}
	}
	s.script = append(s.script, script...)
}

// Drop cuts every live connection's TCP, with no close frame. Sessions stay resumable.
func (s *Server) Drop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.drop()
}

func (s *Server) drop() {
	for _, c := range s.conns {
		c.closing = true
		c.ws.NetConn().Close()
		c.detach()
	}
}

// CutNextFrame cuts TCP half way through the next dispatch's frame. The session
// stays resumable, and the resume brings the event.
func (s *Server) CutNextFrame() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.cutNext = true
}

// CloseWith closes every live connection with a close frame. A client that
// answers 1000 or 1001 has ended its session.
func (s *Server) CloseWith(code int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, c := range slices.Clone(s.conns) {
		c.leave(code)
	}
}

// Op sends a payload on every live connection now: 7, 9 with true or false, 1 (a
// heartbeat must follow within 2 s). After op9 the connection has no session; with
// false the session is over.
func (s *Server) Op(op int, d any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, c := range s.conns {
		c.send(op, d)
		switch {
		case op == opHeartbeat:
			c.expectBeat(beatNow)
		case op == opInvalid && d == true:
			c.detach()
		case op == opInvalid:
			if c.session != nil {
				c.session.dead = true
			}
			c.detach()
		}
	}
}

// Down refuses connections and cuts the live ones. What is said meanwhile is kept.
func (s *Server) Down() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.down {
		return
	}
	s.down = true
	for _, i := range s.interactions {
		i.doubtful = true // an answer may have been lost
	}
	s.drop()
	s.http.Close()
}

// Up takes connections again, on the same port.
func (s *Server) Up() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.down {
		return
	}
	for try := 0; ; try++ {
		err := s.listen(s.addr)
		if err == nil {
			break
		}
		if try == 100 {
			s.blame("the test server cannot come back: %v", err)
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	s.down = false
}
