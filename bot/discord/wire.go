package discord

import (
	"context"
	"crypto/tls"
	"encoding/binary"
	"errors"
	"net"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// wire watches the frames that discordgo writes, where it does what would cost
// the session:
//
//   - It closes with code 1000 before it reconnects, which ends the session and
//     with it the replay of what was missed. That frame is left out.
//   - It answers every "invalid session" with a new login at once, up to the
//     1,000 a day after which Discord resets the token. A second login on a
//     connection cuts it, and logins keep their distance.
//   - It notices a dead connection after five heartbeats unanswered. The second
//     cuts it.
type wire struct {
	net.Conn
	g *gateway

	mu       sync.Mutex
	logins   int
	unheeded int // heartbeats since the last that was known to be answered
	beat     time.Time
}

// Opcodes of the gateway. Source: Discord API docs, topics/opcodes-and-status-codes.
const (
	opHeartbeat = `"op":1,`
	opIdentify  = `"op":2,`
)

var (
	errLoginTwice = errors.New("a second login on one connection")
	errDead       = errors.New("heartbeats are not answered")
)

// Write lets a frame pass, or fails and cuts the connection.
func (w *wire) Write(p []byte) (int, error) {
	kind, payload := frame(p)
	switch {
	case kind == websocket.CloseMessage && len(payload) >= 2 && binary.BigEndian.Uint16(payload) == websocket.CloseNormalClosure && !w.g.leaving():
		return len(p), nil
	case kind != websocket.TextMessage:
	case strings.Contains(string(payload), opIdentify):
		if err := w.login(); err != nil {
			w.Conn.Close()
			return 0, err
		}
	case strings.Contains(string(payload), opHeartbeat):
		if err := w.heartbeat(); err != nil {
			w.Conn.Close()
			return 0, err
		}
	}
	return w.Conn.Write(p)
}

// login waits until another login is allowed.
func (w *wire) login() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.logins++; w.logins > 1 {
		return errLoginTwice
	}
	return w.g.awaitLogin()
}

// heartbeat notes that one is sent, and fails where the last two were not
// answered.
func (w *wire) heartbeat() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if ack, known := w.g.lastAck(); known {
		if !w.beat.IsZero() && ack.Before(w.beat) {
			w.unheeded++
		} else {
			w.unheeded = 0
		}
	}
	w.beat = time.Now()
	if w.unheeded > 1 {
		return errDead
	}
	return nil
}

// mostHead is how much of a frame's payload is looked at.
const mostHead = 48

// frame gives the kind of a client's frame and the beginning of its payload,
// unmasked. Source: RFC 6455, section 5.2.
func frame(p []byte) (kind int, payload []byte) {
	if len(p) < 6 || p[1]&0x80 == 0 {
		return 0, nil
	}
	at := 2
	switch p[1] & 0x7f {
	case 126:
		at = 4
	case 127:
		at = 10
	}
	if len(p) < at+4 {
		return 0, nil
	}
	mask, rest := p[at:at+4], p[at+4:]
	payload = make([]byte, min(len(rest), mostHead))
	for i := range payload {
		payload[i] = rest[i] ^ mask[i%4]
	}
	return int(p[0] & 0x0f), payload
}

// dialer makes connections that are watched, and can be cut from outside.
func (g *gateway) dialer() *websocket.Dialer {
	dial := func(ctx context.Context, network, addr string) (net.Conn, error) {
		return (&net.Dialer{Timeout: g.o.Pace.Open / 2}).DialContext(ctx, network, addr)
	}
	return &websocket.Dialer{
		HandshakeTimeout: g.o.Pace.Open / 2,
		NetDialContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			c, err := dial(ctx, network, addr)
			if err != nil {
				return nil, err
			}
			return g.watch(c), nil
		},
		NetDialTLSContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			c, err := dial(ctx, network, addr)
			if err != nil {
				return nil, err
			}
			host, _, err := net.SplitHostPort(addr)
			if err != nil {
				c.Close()
				return nil, err
			}
			secure := tls.Client(c, &tls.Config{ServerName: host, NextProtos: []string{"http/1.1"}, MinVersion: tls.VersionTLS12})
			if err := secure.HandshakeContext(ctx); err != nil {
				c.Close()
				return nil, err
			}
			return g.watch(secure), nil
		},
	}
}
