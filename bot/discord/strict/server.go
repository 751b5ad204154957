// Package strict is a local stand-in for Discord, for tests: the gateway and the
// REST interface on a loopback port. It drives a real client library, refuses
// whatever breaks the published rules or the house's, and can make every fault
// that a network and a platform make.
//
// A test starts it with New, points its client at URL (by a transport that
// rewrites scheme and host; the socket's address comes from the server), makes
// guilds, channels and people, lets them talk, and reads what stands in the
// channels. What was wrong in a request is a violation, and fails the test at its
// end unless Allow expects it. Where the bot met a state that a right client can
// meet (a message deleted meanwhile, a permission taken away) the request is
// refused but nobody is to blame.
//
// The rules are those of the pages named in bounds.go; the house's own are: every
// send and edit has allowed_mentions, every channel send a nonce.
//
// All methods may be called from any goroutine. Values they return are copies.
package strict

import (
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"sync"
	"testing"
	"time"
)

// Token is the bot's: REST wants it after "Bot ", IDENTIFY with or without.
const Token = "b2F0aG91c2U.a2l0Y2hlbg.galley-and-slipway"

// Raw is a JSON object.
type Raw = map[string]any

// Options are what a test may set; zero values are the defaults.
type Options struct {
	Heartbeat       time.Duration // what HELLO says; 5 s
	NoContent       bool          // the bot has no message-content grant
	NonceWindow     time.Duration // how long enforce_nonce remembers; 5 min
	Intents         int           // what IDENTIFY must ask for; 0: any valid set
	IdentifySpacing time.Duration // an IDENTIFY sooner after the last gets op9; 0: no check
}

// Server is the stand-in.
type Server struct {
	t       testing.TB
	o       Options
	self    *User
	owner   *User
	app     string
	addr    string
	working sync.WaitGroup // requests and writers

	mu           sync.Mutex
	changed      chan struct{} // closed at every change that someone may wait for
	http         *http.Server
	down, closed bool
	lastID       uint64

	users        []*User
	guilds       []*Guild
	channels     []*Channel
	kept         map[string]*stored // every message there ever was, by id
	nonces       map[string]remembered
	commands     map[string][]Raw // by guild id; "" global
	interactions []*Interaction
	creates      map[string]int // commands created, by guild

	conns      []*conn
	sessions   []*session
	script     []string
	holding    bool
	held       []dispatch
	cutNext    bool
	mute       bool // no heartbeat acknowledgements
	identified time.Time
	identifies int

	fault  func(*http.Request) *Fault
	storms []storm
	limits map[string]*limit
	pauses map[string]pause

	stats      Stats
	recent     []time.Time // requests of the last second
	violations []string
	allowed    []string
}

// New starts a server on 127.0.0.1. At the test's end it stops, waits for its own
// goroutines, and reports violations as errors.
func New(t testing.TB, o Options) *Server {
	t.Helper()
	if o.Heartbeat == 0 {
		o.Heartbeat = 5 * time.Second
	}
	if o.NonceWindow == 0 {
		o.NonceWindow = 5 * time.Minute
	}
	s := &Server{t: t, o: o, changed: make(chan struct{}), kept: map[string]*stored{}, nonces: map[string]remembered{},
		commands: map[string][]Raw{}, creates: map[string]int{}, limits: map[string]*limit{}, pauses: map[string]pause{}}
	s.stats.Requests, s.stats.Status = map[string]int{}, map[int]int{}
	s.self = s.person("galley", true)
	s.owner = s.person("harbourmaster", false)
	s.app = s.nextID()
	if err := s.listenSomewhere(); err != nil {
		t.Fatalf("a local server cannot listen: %v", err)
	}
	t.Cleanup(s.stop)
	return s
}

// listenSomewhere takes a port below those that the system gives to outgoing
// connections, so that it is still free after Down.
func (s *Server) listenSomewhere() error {
	for range 50 {
		if s.listen(fmt.Sprintf("127.0.0.1:%d", 20000+rand.IntN(12000))) == nil {
			return nil
		}
	}
	return s.listen("127.0.0.1:0")
}

func (s *Server) listen(addr string) error {
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	if s.addr == "" { // it stays the same after Up, and is read without the lock
		s.addr = l.Addr().String()
	}
	s.http = &http.Server{Handler: http.HandlerFunc(s.serve)}
	s.working.Add(1)
	go func(h *http.Server) {
		defer s.working.Done()
		h.Serve(l) // ends with Close
	}(s.http)
	return nil
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	if s.closed {
		s.mu.Unlock()
		return
	}
	s.working.Add(1)
	s.mu.Unlock()
	defer s.working.Done()
	if isGateway(r.URL.Path) {
		s.gateway(w, r)
		return
	}
	s.rest(w, r)
}

func (s *Server) stop() {
	s.mu.Lock()
	s.closed = true
	s.drop()
	s.http.Close()
	s.poke()
	s.mu.Unlock()
	s.working.Wait()
	s.report()
}

// URL stands for https://discord.com: REST is under /api/v9.
func (s *Server) URL() string { return "http://" + s.addr }

func (s *Server) socket(path string) string { return "ws://" + s.addr + path }

// poke wakes those who wait for a change.
func (s *Server) poke() {
	close(s.changed)
	s.changed = make(chan struct{})
}

// wait returns true as soon as ok, which runs under the lock, does; false after d.
func (s *Server) wait(d time.Duration, ok func() bool) bool {
	late := time.NewTimer(d)
	defer late.Stop()
	for {
		s.mu.Lock()
		done, changed := ok(), s.changed
		s.mu.Unlock()
		if done {
			return true
		}
		select {
		case <-changed:
		case <-late.C:
			return false
		}
	}
}

// Connected is whether a session is READY or RESUMED.
func (s *Server) Connected() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.connected()
}

func (s *Server) connected() bool {
	for _, one := range s.sessions {
		if one.conn != nil && one.ready {
			return true
		}
	}
	return false
}

// WaitReady waits for a session that is READY or RESUMED, and fails the test
// after d.
func (s *Server) WaitReady(d time.Duration) {
	s.t.Helper()
	if !s.wait(d, s.connected) {
		s.t.Fatalf("no client is connected after %v", d)
	}
}
