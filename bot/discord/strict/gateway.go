package strict

import (
	"net/http"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

// Gateway operations and close codes (Discord API docs, opcodes and status codes).
const (
	opDispatch  = 0
	opHeartbeat = 1
	opIdentify  = 2
	opPresence  = 3
	opVoice     = 4
	opResume    = 6
	opReconnect = 7
	opMembers   = 8
	opInvalid   = 9
	opHello     = 10
	opAck       = 11

	closeUnknownOp   = 4001
	closeDecode      = 4002
	closeNotIdentity = 4003
	closeToken       = 4004
	closeTwice       = 4005
	closeSeq         = 4007
	closeRate        = 4008
	closeTimeout     = 4009
	closeShard       = 4010
	closeVersion     = 4012
	closeIntents     = 4013
	closeDisallowed  = 4014
)

// final are the close codes after which a session cannot be resumed.
var final = map[int]bool{1000: true, 1001: true, closeToken: true, closeSeq: true, closeTimeout: true, closeShard: true,
	4011: true, closeVersion: true, closeIntents: true, closeDisallowed: true}

var upgrader = websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}

// isGateway is whether a request is for the socket: /ws from the first, /resume
// as READY names it.
func isGateway(path string) bool {
	path = strings.TrimSuffix(path, "/")
	return path == "/ws" || path == "/resume"
}

func (s *Server) gateway(w http.ResponseWriter, r *http.Request) {
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return // Upgrade has answered
	}
	defer ws.Close()
	c := &conn{s: s, ws: ws, wake: make(chan struct{}, 1), done: make(chan struct{})}
	if !s.enter(c, r) {
		return
	}
	defer s.exit(c)
	for {
		kind, data, err := ws.ReadMessage()
		if err != nil {
			c.closed(err)
			return
		}
		s.mu.Lock()
		if !c.closing {
			c.receive(kind, data)
		}
		s.mu.Unlock()
	}
}

// enter makes the connection known, starts its writer and says HELLO.
func (s *Server) enter(c *conn, r *http.Request) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.down || s.closed {
		return false
	}
	s.stats.Connections++
	if strings.HasPrefix(r.URL.Path, "/resume") {
		s.stats.ResumeURL++
	}
	s.conns = append(s.conns, c)
	s.working.Add(1)
	go c.write()
	if len(s.script) > 0 {
		c.script, s.script = s.script[0], s.script[1:]
	}
	if q := r.URL.Query(); q.Get("v") != "9" || q.Get("encoding") != "json" {
		s.blame("gateway: connected with %q, not v=9&encoding=json (%s)", r.URL.RawQuery, pageGateway)
		c.leave(closeVersion)
		return true
	}
	switch c.script {
	case "op7-before-hello":
		c.send(opReconnect, nil)
	case "no-hello":
	default:
		c.send(opHello, Raw{"heartbeat_interval": s.o.Heartbeat.Milliseconds()})
		c.expectBeat(s.o.Heartbeat*3/2 + beatSlack)
	}
	return true
}

// exit forgets the connection and waits for nothing.
func (s *Server) exit(c *conn) {
	s.mu.Lock()
	defer s.mu.Unlock()
	c.closing = true
	c.detach()
	if c.beat != nil {
		c.beat.Stop()
	}
	for i, one := range s.conns {
		if one == c {
			s.conns = append(s.conns[:i:i], s.conns[i+1:]...)
			break
		}
	}
	close(c.done)
	s.poke()
}

// closed notes the client's close code. With 1000 and 1001 it has ended its
// session; with any other, and with none, it may resume.
func (c *conn) closed(err error) {
	e, ok := err.(*websocket.CloseError)
	if !ok || e.Code == websocket.CloseAbnormalClosure {
		return
	}
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	c.s.stats.CloseCodes = append(c.s.stats.CloseCodes, e.Code)
	if e.Code == websocket.CloseNormalClosure || e.Code == websocket.CloseGoingAway {
		c.end()
	}
}

// end makes the connection's session one that cannot be resumed.
func (c *conn) end() {
	c.last = true
	if c.session != nil {
		c.session.dead = true
	}
	if c.had != nil {
		c.had.dead = c.had.dead || c.had.conn == nil
	}
	c.detach()
}

// leave closes with a code of the server's.
func (c *conn) leave(code int) {
	if final[code] {
		c.end()
	}
	c.enqueue(frame{act: leave, code: code})
	c.had = c.session // a client that answers with 1000 ends it after all
	c.detach()
}

// receive obeys one payload.
func (c *conn) receive(kind int, data []byte) {
	if len(data) > maxPayload {
		c.wrong(closeDecode, "a payload of %d bytes, not %d at most", len(data), maxPayload)
		return
	}
	if !c.withinRate() {
		c.wrong(closeRate, "more than %d payloads in 60 s", maxEventsMinute)
		return
	}
	v, err := decode(data)
	o, ok := v.(Raw)
	if err != nil || !ok || kind != websocket.TextMessage {
		c.wrong(closeDecode, "a payload that is no JSON object in a text frame")
		return
	}
	op := whole(o["op"])
	f := newForm(o["d"], pageGateway)
	switch {
	case o["op"] == nil:
		c.wrong(closeDecode, "a payload without op")
	case op == opHeartbeat:
		c.heartbeat(o["d"])
	case op == opIdentify:
		c.identify(f)
	case op == opResume:
		c.tryResume(f)
	case op != opPresence && op != opVoice && op != opMembers:
		c.wrong(closeUnknownOp, "op %d", op)
	case c.session == nil:
		c.wrong(closeNotIdentity, "op %d before IDENTIFY", op)
	}
}

// wrong notes a violation and closes.
func (c *conn) wrong(code int, format string, a ...any) {
	c.s.blame("gateway: "+format+" (close %d; %s)", append(a, code, pageGateway)...)
	c.leave(code)
}

func (c *conn) withinRate() bool {
	now := time.Now()
	for len(c.events) > 0 && now.Sub(c.events[0]) > time.Minute {
		c.events = c.events[1:]
	}
	c.events = append(c.events, now)
	return len(c.events) <= maxEventsMinute
}
