package strict

import (
	"bytes"
	"io"
	"mime"
	"net/http"
	"net/url"
	"strings"
	"time"
)

// call is one REST request.
type call struct {
	r       *http.Request
	arrived time.Time
	route   *route
	ids     []string // of the path, in order
	query   url.Values
	data    []byte
	body    payload
	faulty  bool // its sender may not learn what came of it
}

// payload is a body as it was read.
type payload struct {
	value any
	files []upload
}

func (c *call) name() string {
	if c.route == nil {
		return c.r.Method + " " + c.r.URL.Path
	}
	return c.route.name()
}

// rest answers a request: by a fault, or by what it does.
func (s *Server) rest(w http.ResponseWriter, r *http.Request) {
	data, err := io.ReadAll(io.LimitReader(r.Body, maxRequest+1))
	if err != nil {
		return // the client has gone
	}
	c := &call{r: r, arrived: time.Now(), data: data, query: r.URL.Query()}
	c.route, c.ids = find(r.Method, r.URL.EscapedPath())
	s.counted(c)
	r.Body = io.NopCloser(bytes.NewReader(data))
	if f := s.nextFault(c); f != nil {
		s.faulty(w, c, f)
		return
	}
	s.answer(w, c.apply(s), false)
}

func (s *Server) answer(w http.ResponseWriter, a answer, half bool) {
	s.mu.Lock()
	s.stats.Status[a.status]++
	s.mu.Unlock()
	a.write(w, half)
}

// apply does what the request asks for and notes what is wrong with it.
func (c *call) apply(s *Server) answer {
	a, bad := c.refused()
	s.mu.Lock()
	defer s.mu.Unlock()
	if !bad {
		a, bad = s.limited(c)
	}
	if !bad {
		a = c.route.run(s, c)
		a.header = s.rateHeaders(c)
	}
	for _, why := range a.blame {
		s.blame("%s: %s", c.name(), why)
	}
	s.poke()
	return a
}

// refused checks what every request must have, and reads the body.
func (c *call) refused() (answer, bool) {
	h := c.r.Header
	switch {
	case c.route == nil:
		return refusal(404, 0, "404: Not Found").because(pageReference, "no such route"), true
	case h.Get("Authorization") != "Bot "+Token:
		return refusal(401, 0, "401: Unauthorized").because(pageReference, "Authorization is %q, not Bot and the token", h.Get("Authorization")), true
	case !strings.HasPrefix(h.Get("User-Agent"), "DiscordBot ("):
		return refusal(403, 40333, "internal network error").because(pageReference, "User-Agent is %q", h.Get("User-Agent")), true
	case len(c.data) > maxRequest:
		return refusal(413, 40005, "Request entity too large").because(pageMessage, "a request of more than %d bytes", maxRequest), true
	}
	if bad := c.route.badIDs(c.ids); bad != nil {
		return refusal(400, 50035, "Invalid Form Body").because(pageReference, "%q in the path are no snowflakes", bad), true
	}
	if bad := c.route.strange(c.query); bad != nil {
		return refusal(400, 50035, "Invalid Form Body").because(pageReference, "%q in the query", bad), true
	}
	return c.read()
}

// read checks the body's type and decodes it.
func (c *call) read() (answer, bool) {
	given := c.r.Header.Get("Content-Type")
	kind, params, err := mime.ParseMediaType(given)
	wrong := func(format string, a ...any) (answer, bool) {
		return refusal(400, 50035, "Invalid Form Body").because(pageReference, format, a...), true
	}
	switch {
	case c.route.body == noBody && (len(c.data) > 0 || given != ""):
		return wrong("a body or a Content-Type where there is none")
	case c.route.body == noBody:
		return answer{}, false
	case err != nil || kind != "application/json" && (kind != "multipart/form-data" || c.route.body != formBody):
		return wrong("Content-Type is %q", given)
	case kind == "multipart/form-data":
		return c.readParts(params["boundary"])
	}
	c.body.value, err = decode(c.data)
	if err != nil {
		return refusal(400, 50109, "The request body contains invalid JSON.").because(pageReference, "%v", err), true
	}
	return answer{}, false
}

func getGateway(s *Server, _ *call) answer { return ok(Raw{"url": s.socket("/ws")}) }

func getGatewayBot(s *Server, _ *call) answer {
	return ok(Raw{"url": s.socket("/ws"), "shards": 1, "session_start_limit": Raw{
		"total": maxIdentifies, "remaining": max(0, maxIdentifies-s.identifies), "reset_after": 24 * 60 * 60 * 1000, "max_concurrency": 1}})
}

func getSelf(s *Server, _ *call) answer { return ok(s.self) }
