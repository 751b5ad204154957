package strict

import "time"

const (
	// beatSlack is for a busy machine, on top of one and a half intervals.
	beatSlack = 500 * time.Millisecond
	// beatLag is how long a sequence may be on its way before a heartbeat must know it.
	beatLag = 3 * time.Second
	// beatNow is how soon an op1 must be answered.
	beatNow = 2 * time.Second
)

// heartbeat checks the sequence that the client says it has, and acknowledges. One
// who was refused a RESUME may still hold the sequence that it had.
func (c *conn) heartbeat(d any) {
	c.s.stats.Heartbeats++
	seq, least := whole(d), 0
	for _, w := range c.written {
		if time.Since(w.at) > beatLag {
			least = max(least, w.seq)
		}
	}
	if seq < least || seq > c.top && seq != c.claimed {
		c.s.blame("gateway: a heartbeat with d %v, where the last s was %d (%s)", d, c.top, pageGateway)
	}
	c.expectBeat(c.s.o.Heartbeat*3/2 + beatSlack)
	if !c.s.mute && c.script != "silent" {
		c.send(opAck, nil)
	}
}

// expectBeat closes the connection unless a heartbeat comes in time. A scripted
// connection is let be: its client may well be waiting.
func (c *conn) expectBeat(within time.Duration) {
	if c.beat != nil {
		c.beat.Stop()
	}
	if c.script != "" {
		return
	}
	c.beat = time.AfterFunc(within, func() {
		c.s.mu.Lock()
		defer c.s.mu.Unlock()
		if !c.closing && !c.s.closed {
			c.wrong(closeTimeout, "no heartbeat within %v", within)
		}
	})
}

// Acks turns heartbeat acknowledgements on and off.
func (s *Server) Acks(on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.mute = !on
}
