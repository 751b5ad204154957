package strict

import (
	"fmt"
	"hash/fnv"
	"math"
	"net/http"
	"strconv"
	"time"
)

// limit is a real rate limit of a route: n requests in each window.
type limit struct {
	n   int
	per time.Duration
	now map[string]*window // by the top-level id
}

type window struct {
	ends time.Time
	used int
}

// pause is how long a client was told to leave a route alone.
type pause struct{ from, until time.Time }

// Limit gives a route ("POST /channels/{id}/messages") a real rate limit, for each
// channel, guild or webhook. Without it a route has room for everyone.
func (s *Server) Limit(route string, n int, per time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range routes {
		if routes[i].name() == route {
			s.limits[route] = &limit{n, per, map[string]*window{}}
			return
		}
	}
	s.blame("the test limits %q, which is no route", route)
}

// bucket is what a limit counts: the route and its channel, guild or webhook.
func (c *call) bucket() string {
	top := ""
	if len(c.ids) > 0 {
		top = c.ids[0]
	}
	return c.name() + " " + top
}

// heeds notes a client that does not wait as it was told. What was on its way when
// the 429 was written is let be.
func (s *Server) heeds(c *call) {
	p := s.pauses[c.bucket()]
	if c.arrived.After(p.from.Add(10*time.Millisecond)) && c.arrived.Before(p.until.Add(-5*time.Millisecond)) {
		s.blame("%s: asked again %v before retry_after was over (%s)", c.name(), p.until.Sub(c.arrived).Round(time.Millisecond), pageRates)
	}
}

// limited counts the request and refuses it where the route has no room.
func (s *Server) limited(c *call) (answer, bool) {
	l := s.limits[c.name()]
	if l == nil {
		return answer{}, false
	}
	w := l.window(c.bucket())
	w.used++
	if w.used <= l.n {
		return answer{}, false
	}
	return s.tooMany(c, "route", time.Until(w.ends)), true
}

func (l *limit) window(key string) *window {
	w := l.now[key]
	if w == nil || !time.Now().Before(w.ends) {
		w = &window{ends: time.Now().Add(l.per)}
		l.now[key] = w
	}
	return w
}

// rateHeaders are what an answer says of its route's limit.
func (s *Server) rateHeaders(c *call) http.Header {
	if l := s.limits[c.name()]; l != nil {
		w := l.window(c.bucket())
		return headers(c, l.n, max(0, l.n-w.used), time.Until(w.ends))
	}
	return headers(c, 1000, 999, time.Second)
}

func headers(c *call, n, left int, after time.Duration) http.Header {
	hash := fnv.New64a()
	hash.Write([]byte(c.name()))
	h := http.Header{}
	h.Set("X-RateLimit-Limit", strconv.Itoa(n))
	h.Set("X-RateLimit-Remaining", strconv.Itoa(left))
	h.Set("X-RateLimit-Reset", fmt.Sprintf("%.3f", float64(time.Now().Add(after).UnixMilli())/1000))
	h.Set("X-RateLimit-Reset-After", fmt.Sprintf("%.3f", after.Seconds()))
	h.Set("X-RateLimit-Bucket", fmt.Sprintf("%016x", hash.Sum64()))
	return h
}

// tooMany is a 429 of one of Storm's kinds (Discord API docs, rate limits).
func (s *Server) tooMany(c *call, kind string, after time.Duration) answer {
	a := answer{status: http.StatusTooManyRequests, header: http.Header{}}
	seconds := math.Ceil(after.Seconds()*1000) / 1000
	a.body = Raw{"message": "You are being rate limited.", "retry_after": seconds, "global": kind == "global"}
	switch kind {
	case "route", "shared":
		a.header = headers(c, 5, 0, after)
		a.header.Set("X-RateLimit-Scope", map[string]string{"route": "user", "shared": "shared"}[kind])
		s.pauses[c.bucket()] = pause{time.Now(), time.Now().Add(after)}
	case "global":
		a.header.Set("X-RateLimit-Global", "true")
		a.header.Set("X-RateLimit-Scope", "global")
	case "html":
		a.body, a.raw = nil, "<!DOCTYPE html><title>Access denied</title><p>You are being rate limited</p>"
		a.header.Set("Content-Type", "text/html; charset=UTF-8")
	}
	a.header.Set("Retry-After", strconv.Itoa(int(math.Ceil(after.Seconds()))))
	return a
}
