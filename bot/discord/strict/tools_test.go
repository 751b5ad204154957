package strict

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// witness takes a server's complaints in the test's place.
type witness struct {
	testing.TB
	mu     sync.Mutex
	errors []string
	ends   []func()
}

func (w *witness) Helper()          {}
func (w *witness) Cleanup(f func()) { w.ends = append(w.ends, f) }

func (w *witness) Errorf(format string, a ...any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.errors = append(w.errors, fmt.Sprintf(format, a...))
}

// end runs what New has put off.
func (w *witness) end() {
	for _, f := range slices.Backward(w.ends) {
		f()
	}
	w.ends = nil
}

// watched is a server whose violations do not fail the test.
func watched(t *testing.T, o Options) *Server {
	w := &witness{TB: t}
	s := New(w, o)
	t.Cleanup(w.end)
	return s
}

// galley is a guild with one channel.
func galley(s *Server) *Channel { return s.Guild("boathouse").Channel("galley") }

// reply is what a request got.
type reply struct {
	status int
	code   int
	body   []byte
	header http.Header
}

// ask sends a request as a right client does; change may spoil it.
func ask(t *testing.T, s *Server, method, path string, body any, change ...func(*http.Request)) reply {
	t.Helper()
	var data []byte
	switch b := body.(type) {
	case nil:
	case string:
		data = []byte(b)
	default:
		data = encode(b)
	}
	r, err := http.NewRequest(method, s.URL()+"/api/v9"+path, bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Authorization", "Bot "+Token)
	r.Header.Set("User-Agent", "DiscordBot (https://boathouse.example, 1)")
	if body != nil {
		r.Header.Set("Content-Type", "application/json")
	}
	for _, f := range change {
		f(r)
	}
	t.Cleanup(http.DefaultClient.CloseIdleConnections) // a later server may get the same port
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	out := reply{status: resp.StatusCode, header: resp.Header}
	if out.body, err = io.ReadAll(resp.Body); err != nil {
		t.Fatal(err)
	}
	var e struct{ Code int }
	if json.Unmarshal(out.body, &e) == nil {
		out.code = e.Code
	}
	return out
}

func (r reply) raw(t *testing.T) Raw {
	t.Helper()
	v, err := decode(r.body)
	o, ok := v.(Raw)
	if err != nil || !ok {
		t.Fatalf("%d %s is no JSON object: %v", r.status, r.body, err)
	}
	return o
}

func (r reply) list(t *testing.T) []any {
	t.Helper()
	v, err := decode(r.body)
	o, ok := v.([]any)
	if err != nil || !ok {
		t.Fatalf("%d %s is no JSON list: %v", r.status, r.body, err)
	}
	return o
}

// want checks status and code; a code of 0 is not looked at.
func (r reply) want(t *testing.T, status, code int) reply {
	t.Helper()
	if r.status != status || code != 0 && r.code != code {
		t.Fatalf("got %d %s, want %d with code %d", r.status, r.body, status, code)
	}
	return r
}

var nobody = Raw{"parse": []any{}}

// note is a right message with changes.
func note(changes Raw) Raw {
	m := Raw{"content": "Leek 300 g into the tart.", "nonce": fmt.Sprint(nonces()), "enforce_nonce": true, "allowed_mentions": nobody}
	for key, v := range changes {
		m[key] = v
		if v == "absent" {
			delete(m, key)
		}
	}
	return m
}

var nonces = func() func() int {
	var mu sync.Mutex
	n := 0
	return func() int {
		mu.Lock()
		defer mu.Unlock()
		n++
		return n
	}
}()

// bite is one wrong thing, and the words that tell of it.
type bite struct {
	name string
	body any
	says string
}

// bites sends every wrong body, and wants a refusal with a violation that says
// what is wrong, and nothing else changed.
func bites(t *testing.T, cases []bite, send func(s *Server, body any) reply, s *Server) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			before := len(s.Violations())
			r := send(s, c.body)
			if r.status < 400 {
				t.Errorf("accepted with %d %s", r.status, r.body)
			}
			said := strings.Join(s.Violations()[before:], "\n")
			if !strings.Contains(said, c.says) || said == "" {
				t.Errorf("violations %q do not say %q", said, c.says)
			}
		})
	}
}

// innocent fails the test if anything was wrong so far.
func innocent(t *testing.T, s *Server) {
	t.Helper()
	if v := s.Violations(); v != nil {
		t.Errorf("violations: %s", strings.Join(v, "\n"))
	}
}

// soon waits for something that other goroutines bring about.
func soon(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if ok() {
			return
		}
	}
	t.Fatalf("never: %s", what)
}
