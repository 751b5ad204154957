package board

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"
)

// How often a board says that it lives, and is drawn anew though nothing was said: days pass,
// steps begin.
const (
	beatEvery = 10 * time.Second
	drawEvery = 15 * time.Second
	sendLimit = 5 * time.Second // for one event to get out
)

// hub hands what changed to every open board.
type hub struct {
	mu   sync.Mutex
	subs map[chan []byte]struct{}
}

// join adds a board; ok is false where there are too many.
func (h *hub) join() (c chan []byte, ok bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.subs) >= mostStreams {
		return nil, false
	}
	if h.subs == nil {
		h.subs = map[chan []byte]struct{}{}
	}
	c = make(chan []byte, 1)
	h.subs[c] = struct{}{}
	return c, true
}

func (h *hub) leave(c chan []byte) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.subs, c)
}

func (h *hub) count() int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.subs)
}

// tell hands an event to all; one that is slow gets the latest only.
func (h *hub) tell(event []byte) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.subs {
		select {
		case <-c:
		default:
		}
		c <- event
	}
}

// Run keeps open boards up to date until ctx ends.
func (b *Board) Run(ctx context.Context) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	dirty := make(chan struct{}, 1)
	ended := make(chan error, 1)
	go func() {
		ended <- b.o.Watch(ctx, func() {
			select {
			case dirty <- struct{}{}:
			default:
			}
		})
	}()
	draw := time.NewTicker(drawEvery)
	defer draw.Stop()
	for {
		select {
		case err := <-ended:
			return err
		case <-draw.C:
		case <-dirty:
		}
		if b.hub.count() == 0 {
			continue
		}
		event, err := b.event(ctx)
		if err != nil {
			if ctx.Err() == nil {
				b.o.Log.Error("a board could not be drawn", "error", err)
			}
			continue
		}
		b.hub.tell(event)
	}
}

// event is how things stand now, as an event.
func (b *Board) event(ctx context.Context) ([]byte, error) {
	s, err := b.o.State(ctx)
	if err != nil {
		return nil, err
	}
	v := &view{State: s, Table: layTable(s.Plan, s.At)}
	if err := v.fill(); err != nil {
		return nil, err
	}
	data, err := json.Marshal(struct {
		At      int64  `json:"at"`
		HTML    string `json:"html"`
		Sum     string `json:"sum"`
		Version string `json:"version"`
	}{s.At.UnixMilli(), string(v.Body), v.Sum, b.version})
	var e bytes.Buffer
	fmt.Fprintf(&e, "id: %d\nevent: now\ndata: %s\n\n", s.At.UnixMilli(), data)
	return e.Bytes(), err
}

// events streams to one board: how things stand when it opens, which is how it catches up after a
// lost connection, and again after every change.
func (b *Board) events(w http.ResponseWriter, r *http.Request) {
	c, ok := b.hub.join()
	if !ok {
		w.Header().Set("Retry-After", "30")
		http.Error(w, "Too many boards are open. Close one.", http.StatusServiceUnavailable)
		return
	}
	defer b.hub.leave(c)
	end := b.names.show(cookOf(r), cookie(r, deviceCookie), b.o.Now())
	defer func() { end(b.o.Now()) }()
	first, err := b.event(r.Context()) // after joining: nothing is missed in between
	if err != nil {
		b.fail(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no")
	out := http.NewResponseController(w)
	send := func(event []byte) bool {
		if !b.mayCome(r) { // the key was taken back
			return false
		}
		out.SetWriteDeadline(time.Now().Add(sendLimit))
		_, err := w.Write(event)
		return err == nil && out.Flush() == nil
	}
	if !send(append([]byte("retry: 2000\n"), first...)) {
		return
	}
	beat := time.NewTicker(beatEvery)
	defer beat.Stop()
	for {
		select {
		case <-r.Context().Done():
			return
		case event := <-c:
			if !send(event) {
				return
			}
		case <-beat.C:
			if !send([]byte("event: beat\ndata: 1\n\n")) {
				return
			}
		}
	}
}
