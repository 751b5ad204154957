package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"
)

// transport is the way to the server. It keeps the pauses that the platform asks
// of all calls at once: discordgo keeps them only where a header is there that
// Discord leaves out. Calls of interactions are not held to them.
type transport struct {
	base *url.URL
	m    *Metrics
	http *http.Transport

	mu      sync.Mutex
	until   time.Time // no call before
	refused int       // calls that were refused since window began
	window  time.Time
}

func newTransport(o Options) *transport {
	t := http.DefaultTransport.(*http.Transport).Clone()
	t.MaxIdleConnsPerHost = 64
	return &transport{base: o.URL, m: o.Metrics, http: t}
}

// CloseIdleConnections ends what is kept open for the next call.
func (t *transport) CloseIdleConnections() { t.http.CloseIdleConnections() }

// RoundTrip makes a call, as soon as it may be made.
func (t *transport) RoundTrip(q *http.Request) (*http.Response, error) {
	if t.base != nil {
		q = q.Clone(q.Context())
		q.URL.Scheme, q.URL.Host, q.Host = t.base.Scheme, t.base.Host, t.base.Host
		q.URL.Path = t.base.Path + q.URL.Path
		if q.URL.RawPath != "" {
			q.URL.RawPath = t.base.Path + q.URL.RawPath
		}
	}
	free := isInteraction(q)
	if err := t.wait(q.Context(), free); err != nil {
		return nil, err
	}
	began := time.Now()
	r, err := t.http.RoundTrip(q)
	if err != nil {
		t.m.call(q.Method, 0, time.Since(began))
		return nil, err
	}
	t.m.call(q.Method, r.StatusCode, time.Since(began))
	if r.StatusCode == http.StatusBadGateway { // the library puts all of it into its error
		r.Body.Close()
		r.Body = http.NoBody
	}
	if err := t.note(r, free); err != nil {
		return nil, err
	}
	return r, nil
}

// The most refused calls before all calls rest: at 10,000 in ten minutes the
// platform locks the address out. Source: Discord API docs, topics/rate-limits.
const (
	mostRefused  = 5000
	refusedSpell = 10 * time.Minute
)

func (t *transport) wait(ctx context.Context, free bool) error {
	t.mu.Lock()
	d := time.Until(t.until)
	t.mu.Unlock()
	if d <= 0 || free {
		return nil
	}
	pause(ctx, d)
	return ctx.Err()
}

// note takes in what an answer says of limits. A refusal that is no JSON comes
// from before the platform itself, and is for all calls.
func (t *transport) note(r *http.Response, free bool) error {
	if r.StatusCode != http.StatusTooManyRequests && r.StatusCode != http.StatusUnauthorized && r.StatusCode != http.StatusForbidden {
		return nil
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	now := time.Now()
	if now.Sub(t.window) > refusedSpell {
		t.window, t.refused = now, 0
	}
	if r.Header.Get("X-RateLimit-Scope") != "shared" {
		t.refused++
	}
	if t.refused > mostRefused {
		t.until = t.window.Add(refusedSpell)
	}
	if r.StatusCode != http.StatusTooManyRequests {
		return nil
	}
	body, err := io.ReadAll(io.LimitReader(r.Body, 1<<16))
	r.Body.Close()
	if err != nil {
		return err
	}
	var limit struct {
		After  float64 `json:"retry_after"`
		Global bool    `json:"global"`
	}
	if json.Unmarshal(body, &limit) != nil { // made into what the library can read
		limit.After, limit.Global = 1, true
		if s, err := strconv.ParseFloat(r.Header.Get("Retry-After"), 64); err == nil {
			limit.After = s
		}
		body = fmt.Appendf(nil, `{"message":"refused","retry_after":%g,"global":true}`, limit.After)
	}
	if (limit.Global || r.Header.Get("X-RateLimit-Global") == "true") && !free {
		if until := now.Add(time.Duration(limit.After * float64(time.Second))); until.After(t.until) {
			t.until = until
		}
	}
	r.Body = io.NopCloser(bytes.NewReader(body))
	return nil
}

// isInteraction says whether a call is one that the limit on all calls does not
// count. Source: Discord API docs, topics/rate-limits, "Global Rate Limit".
func isInteraction(q *http.Request) bool {
	return strings.Contains(q.URL.Path, "/interactions/") || strings.Contains(q.URL.Path, "/webhooks/")
}
