package strict

import (
	"errors"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// rig is a gateway client that does nothing of its own accord.
type rig struct {
	t       *testing.T
	ws      *websocket.Conn
	last    int // the last s
	session string
}

func dial(t *testing.T, s *Server, path string) *rig {
	t.Helper()
	ws, _, err := websocket.DefaultDialer.Dial(s.socket(path)+"?v=9&encoding=json", nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { ws.Close() })
	return &rig{t: t, ws: ws}
}

func (r *rig) send(op int, d any) {
	r.t.Helper()
	if err := r.ws.WriteMessage(websocket.TextMessage, encode(Raw{"op": op, "d": d})); err != nil {
		r.t.Fatal(err)
	}
}

// next is the next payload, or the error that ended the connection.
func (r *rig) next() (Raw, error) {
	r.ws.SetReadDeadline(time.Now().Add(10 * time.Second))
	_, data, err := r.ws.ReadMessage()
	if err != nil {
		return nil, err
	}
	v, err := decode(data)
	if err != nil {
		r.t.Fatal(err)
	}
	o := v.(Raw)
	if o["s"] != nil {
		r.last = whole(o["s"])
	}
	if text(o["t"]) == "READY" {
		r.session = text(o["d"].(Raw)["session_id"])
	}
	return o, nil
}

// want reads up to the next payload of an op, and of a type if it is a dispatch.
func (r *rig) want(op int, kind string) Raw {
	r.t.Helper()
	for {
		o, err := r.next()
		if err != nil {
			r.t.Fatalf("no op %d %s: %v", op, kind, err)
		}
		if whole(o["op"]) == op && text(o["t"]) == kind {
			return o
		}
	}
}

// closes wants the server to close with a code.
func (r *rig) closes(code int) {
	r.t.Helper()
	for {
		if _, err := r.next(); err != nil {
			var e *websocket.CloseError
			if !errors.As(err, &e) || e.Code != code {
				r.t.Fatalf("ended with %v, not with %d", err, code)
			}
			return
		}
	}
}

// says wants that nothing more comes for a while.
func (r *rig) quiet(d time.Duration) {
	r.t.Helper()
	r.ws.SetReadDeadline(time.Now().Add(d))
	if _, data, err := r.ws.ReadMessage(); err == nil {
		r.t.Fatalf("then came %s", data)
	}
}

func identity(changes Raw) Raw {
	d := Raw{"token": "Bot " + Token, "intents": 38401, "properties": Raw{"$os": "linux", "$browser": "x", "$device": "x"}}
	for k, v := range changes {
		d[k] = v
	}
	return d
}

// ready is a client that is READY.
func ready(t *testing.T, s *Server, changes Raw) *rig {
	t.Helper()
	r := dial(t, s, "/ws")
	r.want(opHello, "")
	r.send(opIdentify, identity(changes))
	r.want(opDispatch, "READY")
	return r
}

func (r *rig) resumption() Raw {
	return Raw{"token": Token, "session_id": r.session, "seq": r.last}
}
