package strict

import (
	"net/http"
	"strings"
	"testing"
)

func header(key, value string) func(*http.Request) {
	return func(r *http.Request) {
		r.Header.Del(key)
		if value != "" {
			r.Header.Set(key, value)
		}
	}
}

func TestEveryRequest(t *testing.T) {
	cases := []struct {
		name         string
		method, path string
		body         any
		change       func(*http.Request)
		status       int
		says         string
	}{
		{"no token", "GET", "/users/@me", nil, header("Authorization", ""), 401, "Authorization"},
		{"another token", "GET", "/users/@me", nil, header("Authorization", "Bot x"), 401, "Authorization"},
		{"token without Bot", "GET", "/users/@me", nil, header("Authorization", Token), 401, "Authorization"},
		{"user agent", "GET", "/users/@me", nil, header("User-Agent", "curl/8"), 403, "User-Agent"},
		{"unknown route", "GET", "/guilds/1/members", nil, nil, 404, "no such route"},
		{"wrong method", "POST", "/gateway", "{}", nil, 404, "no such route"},
		{"wrong version", "GET", "/../v10/users/@me", nil, nil, 404, "no such route"},
		{"id in the path", "GET", "/channels/galley", nil, nil, 400, "no snowflakes"},
		{"body where none is", "GET", "/users/@me", "{}", nil, 400, "where there is none"},
		{"type without a body", "GET", "/users/@me", nil, header("Content-Type", "application/json"), 400, "where there is none"},
		{"no type", "POST", "/users/@me/channels", "{}", header("Content-Type", ""), 400, "Content-Type"},
		{"text", "POST", "/users/@me/channels", "{}", header("Content-Type", "text/plain"), 400, "Content-Type"},
		{"parts where only JSON goes", "POST", "/users/@me/channels", "{}", header("Content-Type", "multipart/form-data; boundary=x"), 400, "Content-Type"},
		{"query", "GET", "/users/@me?full=1", nil, nil, 400, "in the query"},
		{"no JSON", "POST", "/users/@me/channels", "{", nil, 400, "not JSON"},
		{"two values", "POST", "/users/@me/channels", "{}{}", nil, 400, "goes on"},
		{"broken UTF-8", "POST", "/users/@me/channels", "{\"recipient_id\":\"\xff\"}", nil, 400, "UTF-8"},
		{"half a surrogate pair", "POST", "/users/@me/channels", `{"recipient_id":"\ud83c "}`, nil, 400, "surrogate"},
		{"no recipient", "POST", "/users/@me/channels", "{}", nil, 400, "recipient_id is required"},
		{"id as a number", "POST", "/users/@me/channels", `{"recipient_id":7}`, nil, 400, "not a snowflake"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := watched(t, Options{})
			change := func(*http.Request) {}
			if c.change != nil {
				change = c.change
			}
			ask(t, s, c.method, c.path, c.body, change).want(t, c.status, 0)
			if said := strings.Join(s.Violations(), "\n"); !strings.Contains(said, c.says) {
				t.Errorf("violations %q do not say %q", said, c.says)
			}
		})
	}
}

func TestSurrogatePairsPass(t *testing.T) {
	for text, lone := range map[string]bool{
		`"\ud83c\udf5e"`: false, `"\\ud83c"`: false, `"\u0041\u00e9"`: false,
		`"\ud83c"`: true, `"\udf5e\ud83c"`: true, `"\ud83c\ud83c\udf5e"`: true, `"\\\ud83c"`: true,
	} {
		if loneSurrogate([]byte(text)) != lone {
			t.Errorf("%s: lone is %v", text, !lone)
		}
	}
}

func TestPlainQuestions(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove := s.User("Stove")
	thread := c.Thread("pickles")
	if r := ask(t, s, "GET", "/users/@me", nil).want(t, 200, 0).raw(t); r["id"] != s.Self().ID || r["bot"] != true {
		t.Errorf("self is %v", r)
	}
	if r := ask(t, s, "GET", "/gateway", nil).want(t, 200, 0).raw(t); !strings.HasPrefix(text(r["url"]), "ws://127.0.0.1:") {
		t.Errorf("the gateway is %v", r)
	}
	ask(t, s, "GET", "/gateway/bot", nil).want(t, 200, 0)
	if r := ask(t, s, "GET", "/channels/"+c.ID, nil).want(t, 200, 0).raw(t); r["guild_id"] != c.guild.ID || whole(r["type"]) != kindText {
		t.Errorf("the channel is %v", r)
	}
	if r := ask(t, s, "GET", "/channels/"+thread.ID, nil).want(t, 200, 0).raw(t); r["parent_id"] != c.ID || whole(r["type"]) != kindThread {
		t.Errorf("the thread is %v", r)
	}
	if r := ask(t, s, "GET", "/guilds/"+c.guild.ID, nil).want(t, 200, 0).raw(t); r["name"] != "boathouse" {
		t.Errorf("the guild is %v", r)
	}
	if r := ask(t, s, "GET", "/guilds/"+c.guild.ID+"/threads/active", nil).want(t, 200, 0).raw(t); len(r["threads"].([]any)) != 1 {
		t.Errorf("the threads are %v", r)
	}
	for range 2 {
		r := ask(t, s, "POST", "/users/@me/channels", Raw{"recipient_id": stove.ID}).want(t, 200, 0).raw(t)
		if r["id"] != s.DM(stove).ID || whole(r["type"]) != kindDM {
			t.Errorf("the direct messages are %v", r)
		}
	}
	ask(t, s, "GET", "/channels/1", nil).want(t, 404, 10003)
	ask(t, s, "GET", "/guilds/1", nil).want(t, 404, 10004)
	ask(t, s, "POST", "/channels/"+c.ID+"/typing", nil).want(t, 204, 0)
	if n := s.Stats().Requests["GET /channels/{id}"]; n != 3 {
		t.Errorf("%d channels were asked for", n)
	}
	innocent(t, s)
}

// What is wrong and not allowed for must fail the test that has it, and only that.
func TestReport(t *testing.T) {
	w := &witness{TB: t}
	s := New(w, Options{})
	s.Allow("User-Agent")
	ask(t, s, "GET", "/users/@me", nil, header("User-Agent", "x"))
	ask(t, s, "GET", "/nowhere", nil)
	ask(t, s, "GET", "/nowhere", nil)
	w.end()
	if len(w.errors) != 1 || !strings.Contains(w.errors[0], "2 times: GET /api/v9/nowhere") {
		t.Errorf("reported: %q", w.errors)
	}
}
