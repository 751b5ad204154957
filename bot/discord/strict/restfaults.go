package strict

import (
	"net/http"
	"time"
)

// Fault spoils the answer to one REST request.
type Fault struct {
	Status  int // 0: the right answer, but late or cut
	Body    string
	Header  http.Header
	Delay   time.Duration
	Applied bool // the request takes effect although the answer is the fault; with Status 0, before the delay and not after
	Cut     bool // half of the answer's body
}

// storm is a run of 429s.
type storm struct {
	left int
	kind string
}

// stormWait is the retry_after of a storm's answers.
const stormWait = 50 * time.Millisecond

// Fault has f look at every REST request; nil from it is no fault. A nil f ends it.
// f may read the body, and call the server's methods.
func (s *Server) Fault(f func(r *http.Request) *Fault) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.fault = f
}

// Storm answers the next n REST requests with 429, of one kind:
//
//	"route"   with all headers, scope user
//	"shared"  the same, scope shared
//	"global"  X-RateLimit-Global, and no Reset-After
//	"html"    a page in place of JSON
func (s *Server) Storm(n int, kind string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch kind {
	case "route", "shared", "global", "html":
		s.storms = append(s.storms, storm{n, kind})
	default:
		s.blame("the test wants a storm of %q, which is no kind", kind)
	}
}

// nextFault is what is to happen to a request, or nil.
func (s *Server) nextFault(c *call) *Fault {
	s.mu.Lock()
	f := s.fault
	for len(s.storms) > 0 && s.storms[0].left == 0 {
		s.storms = s.storms[1:]
	}
	if len(s.storms) > 0 {
		s.storms[0].left--
		a := s.tooMany(c, s.storms[0].kind, stormWait)
		s.mu.Unlock()
		if a.body != nil {
			a.raw = string(encode(a.body))
			a.header.Set("Content-Type", "application/json")
		}
		return &Fault{Status: a.status, Body: a.raw, Header: a.header}
	}
	s.mu.Unlock()
	if f == nil {
		return nil
	}
	return f(c.r)
}

// faulty answers as the fault says.
func (s *Server) faulty(w http.ResponseWriter, c *call, f *Fault) {
	c.faulty = true
	var a answer
	if f.Applied {
		a = c.apply(s)
	}
	if !s.sleep(c.r, f.Delay) && !f.Applied {
		return // nobody waits for it any more
	}
	switch {
	case f.Status != 0:
		a = answer{status: f.Status, raw: f.Body, header: f.Header}
	case !f.Applied:
		a = c.apply(s)
	}
	s.answer(w, a, f.Cut)
}

// sleep waits unless the client goes or the server stops.
func (s *Server) sleep(r *http.Request, d time.Duration) bool {
	if d == 0 {
		return true
	}
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return true
	case <-r.Context().Done():
		return false
	}
}
