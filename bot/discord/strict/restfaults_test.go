package strict

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"
)

// once is a fault for the first request whose path ends so.
func once(end string, f *Fault) func(*http.Request) *Fault {
	return func(r *http.Request) *Fault {
		if f == nil || !strings.HasSuffix(r.URL.Path, end) {
			return nil
		}
		g := f
		f = nil
		return g
	}
}

func TestFaults(t *testing.T) {
	cases := []struct {
		name   string
		fault  Fault
		status int
		stands int
	}{
		{"before", Fault{Status: 503, Body: "x"}, 503, 0},
		{"after", Fault{Status: 500, Body: "x", Applied: true}, 500, 1},
		{"slow", Fault{Delay: 10 * time.Millisecond}, 200, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := New(t, Options{})
			ch := galley(s)
			s.Fault(once("/messages", &c.fault))
			m := note(nil)
			ask(t, s, "POST", "/channels/"+ch.ID+"/messages", m).want(t, c.status, 0)
			if n := len(ch.Messages()); n != c.stands {
				t.Errorf("%d messages stand", n)
			}
			ask(t, s, "POST", "/channels/"+ch.ID+"/messages", m).want(t, 200, 0)
			if n := len(ch.Messages()); n != 1 { // the nonce makes the second try safe
				t.Errorf("%d messages stand after the second try", n)
			}
			if s.Stats().Status[c.status] == 0 {
				t.Errorf("counted: %v", s.Stats().Status)
			}
		})
	}
}

func TestFaultReadsTheBody(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	s.Fault(func(r *http.Request) *Fault {
		data, _ := io.ReadAll(r.Body)
		c.Say(s.User("stove"), "heard "+string(data[:1])) // methods may be called
		return nil
	})
	ask(t, s, "POST", "/channels/"+c.ID+"/messages", note(nil)).want(t, 200, 0)
	if all := c.Messages(); len(all) != 2 || all[0].Content != "heard {" {
		t.Errorf("stands: %v", all)
	}
}

func TestCutAnswer(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	s.Fault(once("/messages", &Fault{Cut: true}))
	r := ask(t, s, "POST", "/channels/"+c.ID+"/messages", note(nil)).want(t, 200, 0)
	if json.Valid(r.body) || len(r.body) == 0 || len(c.Messages()) != 1 {
		t.Errorf("got %q, %d messages stand", r.body, len(c.Messages()))
	}
}

// A client that gives up before a slow answer does not know which of these it was.
func TestGivenUp(t *testing.T) {
	for applied, stands := range map[bool]int{true: 1, false: 0} {
		s := New(t, Options{})
		c := galley(s)
		s.Fault(once("/messages", &Fault{Delay: 300 * time.Millisecond, Applied: applied}))
		ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
		r, err := http.NewRequestWithContext(ctx, "POST", s.URL()+"/api/v9/channels/"+c.ID+"/messages", strings.NewReader(string(encode(note(nil)))))
		if err != nil {
			t.Fatal(err)
		}
		r.Header = http.Header{"Authorization": {"Bot " + Token}, "User-Agent": {"DiscordBot (x, 1)"}, "Content-Type": {"application/json"}}
		if _, err := http.DefaultClient.Do(r); err == nil {
			t.Fatal("an answer came before its time")
		}
		cancel()
		if applied {
			soon(t, "the message stands", func() bool { return len(c.Messages()) == stands })
			continue
		}
		time.Sleep(400 * time.Millisecond)
		if n := len(c.Messages()); n != stands {
			t.Errorf("%d messages stand that nobody waited for", n)
		}
	}
}

func TestStorms(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	get := func() reply { return ask(t, s, "GET", "/channels/"+c.ID, nil) }
	for kind, want := range map[string]string{"route": "user", "shared": "shared", "global": "global", "html": ""} {
		s.Storm(1, kind)
		r := get().want(t, 429, 0)
		if r.header.Get("X-RateLimit-Scope") != want || r.header.Get("Retry-After") != "1" {
			t.Errorf("%s: headers %v", kind, r.header)
		}
		if kind == "html" {
			if json.Valid(r.body) {
				t.Errorf("%s: %s", kind, r.body)
			}
		} else if o := r.raw(t); o["retry_after"] != json.Number("0.05") || o["global"] != (kind == "global") {
			t.Errorf("%s: %s", kind, r.body)
		}
		if kind == "global" && (r.header.Get("X-RateLimit-Global") != "true" || r.header.Get("X-RateLimit-Reset-After") != "") {
			t.Errorf("%s: headers %v", kind, r.header)
		}
		time.Sleep(2 * stormWait)
	}
	if r := get().want(t, 200, 0); r.header.Get("X-RateLimit-Remaining") != "999" {
		t.Errorf("headers %v", r.header)
	}
	innocent(t, s)
	s.Storm(1, "route")
	get().want(t, 429, 0)
	s.mu.Lock()
	for key, p := range s.pauses {
		s.pauses[key] = pause{p.from.Add(-time.Second), p.until.Add(time.Minute)}
	}
	s.mu.Unlock()
	get().want(t, 200, 0)
	if v := s.Violations(); len(v) != 1 || !strings.Contains(v[0], "before retry_after was over") {
		t.Errorf("an impatient client: %q", v)
	}
}

func TestLimit(t *testing.T) {
	s := New(t, Options{})
	c, other := galley(s), s.Guild("boathouse").Channel("slipway")
	s.Limit("GET /channels/{id}", 2, time.Minute)
	get := func(c *Channel) reply { return ask(t, s, "GET", "/channels/"+c.ID, nil) }
	get(c).want(t, 200, 0)
	if r := get(c).want(t, 200, 0); r.header.Get("X-RateLimit-Remaining") != "0" || r.header.Get("X-RateLimit-Limit") != "2" {
		t.Errorf("headers %v", r.header)
	}
	r := get(c).want(t, 429, 0)
	get(other).want(t, 200, 0) // each channel has its own
	wait, err := r.raw(t)["retry_after"].(json.Number).Float64()
	if err != nil || wait <= 50 || wait > 60 {
		t.Fatalf("retry_after %v", wait)
	}
	s.mu.Lock() // a minute later
	s.pauses = map[string]pause{}
	for _, w := range s.limits["GET /channels/{id}"].now {
		w.ends = w.ends.Add(-time.Minute)
	}
	s.mu.Unlock()
	get(c).want(t, 200, 0)
}
