package discord

import (
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
//
// It also reads the close codes, which the library tells nobody.
type wire struct {
	net.Conn
	g    *gateway
	seen frames // of the server's

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

// Read takes in what the server sends.
func (w *wire) Read(p []byte) (int, error) {
	n, err := w.Conn.Read(p)
	w.seen.take(p[:n])
	if w.seen.code != 0 || err != nil {
		w.g.ended(w, w.seen.code)
	}
	return n, err
}

// lastAck is when a heartbeat was answered last; not known while the library is
// busy with its session.
func (g *gateway) lastAck() (time.Time, bool) {
	l := g.link.Load()
	if !l.TryRLock() {
		return time.Time{}, false
	}
	defer l.RUnlock()
	return l.LastHeartbeatAck, true
}
