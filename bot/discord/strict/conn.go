package strict

import (
	"encoding/binary"
	"time"

	"github.com/gorilla/websocket"
)

// conn is one websocket. All but ws is guarded by the server's lock; only write
// writes to ws, only the request's own goroutine reads.
type conn struct {
	s       *Server
	ws      *websocket.Conn
	script  string
	queue   []frame
	wake    chan struct{} // holds one wake-up for the writer
	done    chan struct{} // closed when the reader ends
	session *session
	had     *session // before the server closed
	last    bool     // its session ends with it
	closing bool     // nothing more is written or obeyed
	events  []time.Time
	beat    *time.Timer
	top     int       // the highest sequence on its way to the client
	claimed int       // by a RESUME
	written []written // for what it must know of by now
}

// written is the sequence that a client has from some moment on.
type written struct {
	seq int
	at  time.Time
}

// frame is one thing for the writer to do.
type frame struct {
	data []byte
	seq  int
	act  act
	code int
}

type act int

const (
	send  act = iota // data as a text frame
	cut              // the first half of data's frame, then no more TCP
	leave            // a close frame with code
)

func (c *conn) enqueue(f frame) {
	if c.closing {
		return
	}
	c.closing = f.act != send
	c.top = max(c.top, f.seq)
	c.queue = append(c.queue, f)
	select {
	case c.wake <- struct{}{}:
	default:
	}
}

// send is any payload that is no dispatch.
func (c *conn) send(op int, data any) {
	c.enqueue(frame{data: encode(Raw{"op": op, "t": nil, "s": nil, "d": data})})
}

// detach parts the connection from its session, which may be resumed unless it
// was to end with the connection.
func (c *conn) detach() {
	if c.session == nil {
		return
	}
	if c.session.conn == c {
		c.session.conn, c.session.ready = nil, false
		c.session.dead = c.session.dead || c.last
	}
	c.session = nil
	c.s.poke()
}

// write is the connection's writer. It ends when the reader has.
func (c *conn) write() {
	defer c.s.working.Done()
	for {
		select {
		case <-c.wake:
		case <-c.done:
			return
		}
		c.s.mu.Lock()
		queue := c.queue
		c.queue = nil
		c.s.mu.Unlock()
		for _, f := range queue {
			c.put(f)
		}
	}
}

func (c *conn) put(f frame) {
	switch f.act {
	case cut:
		if f.data != nil {
			whole := wire(f.data)
			c.ws.NetConn().Write(whole[:len(whole)/2])
		}
		c.ws.NetConn().Close()
	case leave:
		c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(f.code, ""), time.Now().Add(time.Second))
		c.ws.SetReadDeadline(time.Now().Add(3 * time.Second)) // for the client's own close frame
	case send:
		if f.data != nil && c.ws.WriteMessage(websocket.TextMessage, f.data) != nil {
			return
		}
		if f.seq > 0 {
			c.s.mu.Lock()
			c.written = append(c.written, written{f.seq, time.Now()})
			c.s.mu.Unlock()
		}
	}
}

// wire is data as one unmasked text frame (RFC 6455, section 5.2).
func wire(data []byte) []byte {
	head := []byte{0x81}
	switch n := len(data); {
	case n < 126:
		head = append(head, byte(n))
	case n < 1<<16:
		head = binary.BigEndian.AppendUint16(append(head, 126), uint16(n))
	default:
		head = binary.BigEndian.AppendUint64(append(head, 127), uint64(n))
	}
	return append(head, data...)
}
