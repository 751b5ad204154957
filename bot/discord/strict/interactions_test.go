package strict

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

var leftCommand = Raw{"name": "left", "description": "What is left", "options": []any{
	Raw{"type": optString, "name": "item", "description": "A food", "required": true, "autocomplete": true},
	Raw{"type": optUser, "name": "cook", "description": "Whose"},
	Raw{"type": optInteger, "name": "days", "description": "Up to when", "autocomplete": true},
}}

// kitchen is a channel where /left is registered.
func kitchen(t *testing.T, s *Server) *Channel {
	t.Helper()
	c := galley(s)
	ask(t, s, "PUT", "/applications/"+s.App()+"/guilds/"+c.guild.ID+"/commands", []any{leftCommand}).want(t, 200, 0)
	return c
}

func left(s *Server, c *Channel) *Interaction {
	return s.Slash(s.User("stove"), c, "left", Raw{"name": "item", "value": "leek"})
}

func callback(t *testing.T, s *Server, i *Interaction, body any) reply {
	t.Helper()
	return ask(t, s, "POST", "/interactions/"+i.ID+"/"+i.Token+"/callback", body)
}

func answerWith(kind int, data any) Raw { return Raw{"type": kind, "data": data} }

func quiet(content string, changes Raw) Raw {
	m := Raw{"content": content, "allowed_mentions": nobody}
	for k, v := range changes {
		m[k] = v
	}
	return m
}

func TestWrongResponses(t *testing.T) {
	s := watched(t, Options{})
	c := kitchen(t, s)
	stove := s.User("stove")
	ask(t, s, "POST", "/channels/"+c.ID+"/messages", with(row(button("all", nil)))).want(t, 200, 0)
	m := c.Messages()[0]
	slash := func(s *Server, body any) reply { return callback(t, s, left(s, c), body) }
	press := func(s *Server, body any) reply { return callback(t, s, s.Press(stove, m, "all"), body) }
	complete := func(option string) func(s *Server, body any) reply {
		return func(s *Server, body any) reply {
			return callback(t, s, s.Complete(stove, c, "left", Raw{"name": option, "value": "1", "focused": true}), body)
		}
	}
	choices := func(list ...any) Raw { return answerWith(offer, Raw{"choices": append([]any{}, list...)}) }
	choice := func(name string, value any) Raw { return Raw{"name": name, "value": value} }
	bites(t, []bite{
		{"no type", Raw{"data": quiet("x", nil)}, "type is required"},
		{"update of a command", answerWith(update, quiet("x", nil)), "type is 7"},
		{"choices for a command", choices(), "type is 8"},
		{"modal", answerWith(9, Raw{}), "type is 9"},
		{"no data", Raw{"type": 4}, "data is required"},
		{"nothing in it", answerWith(4, Raw{"allowed_mentions": nobody}), "nothing in it"},
		{"no allowed_mentions", answerWith(4, Raw{"content": "x"}), "allowed_mentions is required"},
		{"long", answerWith(4, quiet(strings.Repeat("x", 2001), nil)), "2001"},
		{"defer with content", answerWith(5, Raw{"content": "x"}), "content is no field"},
		{"defer with V2", answerWith(5, Raw{"flags": flagComponentsV2}), "only EPHEMERAL"},
		{"wrong components", answerWith(4, quiet("x", Raw{"components": []any{button("a", nil)}})), "only action rows"},
	}, slash, s)
	bites(t, []bite{
		{"choices for a press", choices(), "type is 8"},
		{"deferred update with data", answerWith(6, Raw{}), "goes not with a deferred update"},
		{"update without allowed_mentions", answerWith(7, Raw{"content": "x"}), "allowed_mentions is required"},
		{"update to nothing", answerWith(7, quiet("", Raw{"components": []any{}})), "leaves nothing"},
	}, press, s)
	bites(t, []bite{
		{"message for a completion", answerWith(4, quiet("x", nil)), "type is 4"},
		{"no choices", answerWith(offer, Raw{}), "choices is required"},
		{"26 choices", choices(repeat(26, func(i int) any { return choice(fmt.Sprint(i), "x") })...), "26 items"},
		{"no name", choices(choice("", "x")), "name has 0"},
		{"long name", choices(choice(strings.Repeat("x", 101), "x")), "name has 101"},
		{"long value", choices(choice("x", strings.Repeat("x", 101))), "value has 101"},
		{"number for a string", choices(choice("x", 1)), "not a string"},
	}, complete("item"), s)
	bites(t, []bite{{"string for a number", choices(choice("x", "1")), "whole number"}}, complete("days"), s)
	before := len(s.Violations())
	i := s.Complete(stove, c, "left", Raw{"name": "days", "value": "1", "focused": true})
	callback(t, s, i, choices(choice("one", 1))).want(t, 204, 0)
	callback(t, s, s.Complete(stove, c, "left", Raw{"name": "item", "value": "", "focused": true}), choices()).want(t, 204, 0)
	if r := i.Wait(0); len(r.Choices) != 1 || r.Choices[0].Name != "one" || whole(r.Choices[0].Value) != 1 {
		t.Errorf("choices %+v", r.Choices)
	}
	if v := s.Violations()[before:]; len(v) != 0 {
		t.Errorf("violations %q", v)
	}
}

func TestFirstResponse(t *testing.T) {
	s := watched(t, Options{})
	c := kitchen(t, s)
	i := left(s, c)
	if i.Answered() {
		t.Error("answered before anyone could")
	}
	r := ask(t, s, "POST", "/interactions/"+i.ID+"/"+i.Token+"/callback?with_response=true", answerWith(4, quiet("600 g", nil))).want(t, 200, 0).raw(t)
	if text(r["resource"].(Raw)["message"].(Raw)["content"]) != "600 g" {
		t.Errorf("with_response: %v", r)
	}
	innocent(t, s)
	callback(t, s, i, answerWith(4, quiet("again", nil))).want(t, 400, 40060)
	if v := s.Violations(); len(v) != 1 || !strings.Contains(v[0], "40060") {
		t.Errorf("violations %q", v)
	}
	if got := i.Wait(0); got.Content != "600 g" || got.Type != 4 || len(c.Messages()) != 1 {
		t.Errorf("answered %+v", got)
	}
	callback(t, s, &Interaction{ID: i.ID, Token: "x"}, answerWith(4, quiet("x", nil))).want(t, 404, 10062)

	late := left(s, c)
	s.mu.Lock()
	late.at = late.at.Add(-(firstResponse*time.Second + time.Millisecond))
	s.mu.Unlock()
	callback(t, s, late, answerWith(4, quiet("late", nil))).want(t, 404, 10062)
	if late.Answered() {
		t.Error("a late answer counted")
	}
}

func TestDeferredAndFollowups(t *testing.T) {
	s := watched(t, Options{})
	c := kitchen(t, s)
	i := left(s, c)
	hook := "/webhooks/" + s.App() + "/" + i.Token
	ask(t, s, "PATCH", hook+"/messages/@original", quiet("early", nil)).want(t, 404, 10015)
	if v := s.Violations(); len(v) != 1 || !strings.Contains(v[0], "no first response") {
		t.Fatalf("violations %q", v)
	}
	callback(t, s, i, answerWith(5, Raw{"flags": 64})).want(t, 204, 0)
	if r := i.Wait(time.Millisecond); r.Type != 5 || r.Content != "" {
		t.Errorf("answered %+v", r)
	}
	ask(t, s, "PATCH", hook+"/messages/@original", quiet("600 g", nil)).want(t, 200, 0)
	ask(t, s, "PATCH", hook+"/messages/@original", quiet("500 g", nil)).want(t, 200, 0)
	ask(t, s, "GET", hook+"/messages/@original", nil).want(t, 200, 0)
	more := ask(t, s, "POST", hook+"?wait=true", quiet("more", nil)).want(t, 200, 0).raw(t)
	r := i.Wait(0)
	if r.Content != "500 g" || !r.Ephemeral || strings.Join(r.Edited, ",") != "600 g,500 g" || len(r.Followups) != 1 || r.Message.Edits != 1 {
		t.Errorf("answered %+v", r)
	}
	if all := c.Messages(); len(all) != 1 || all[0].Content != "more" { // the ephemeral one is not there
		t.Errorf("stands: %+v", all)
	}
	ask(t, s, "PATCH", hook+"/messages/"+text(more["id"]), quiet("less", nil)).want(t, 200, 0)
	if r := i.Wait(0); len(r.Edited) != 2 || r.Followups[0].Content != "less" {
		t.Errorf("answered %+v", r)
	}
	ask(t, s, "DELETE", hook+"/messages/"+text(more["id"]), nil).want(t, 204, 0)
	ask(t, s, "DELETE", hook+"/messages/@original", nil).want(t, 204, 0)
	ask(t, s, "GET", hook+"/messages/@original", nil).want(t, 404, 10008)
	before := len(s.Violations())
	ask(t, s, "POST", hook, Raw{"content": "x"}).want(t, 400, 50035)
	if len(s.Violations()) == before {
		t.Error("a follow-up without allowed_mentions passed")
	}
	i.Expire()
	ask(t, s, "POST", hook, quiet("x", nil)).want(t, 401, 50027)
}

// After a lost answer a client may try again, and is not to blame.
func TestLostAnswer(t *testing.T) {
	s := New(t, Options{})
	c := kitchen(t, s)
	i := left(s, c)
	s.Fault(once("/callback", &Fault{Status: 502, Body: "bad gateway", Applied: true}))
	callback(t, s, i, answerWith(4, quiet("600 g", nil))).want(t, 502, 0)
	callback(t, s, i, answerWith(4, quiet("600 g", nil))).want(t, 400, 40060)
	if r := i.Wait(0); r.Content != "600 g" {
		t.Errorf("answered %+v", r)
	}
}

func TestPressOnEphemeralAndSelect(t *testing.T) {
	s := New(t, Options{})
	c := kitchen(t, s)
	pastry := s.User("pastry")
	i := left(s, c)
	callback(t, s, i, answerWith(4, quiet("which?", Raw{"flags": 64, "components": []any{row(menu(nil))}}))).want(t, 204, 0)
	p := s.Press(pastry, i.Wait(0).Message, "pick", "onion")
	callback(t, s, p, answerWith(7, quiet("onion", Raw{"components": []any{}}))).want(t, 204, 0)
	if r := p.Wait(0); r.Content != "onion" || r.Message.Edits != 1 || i.Wait(0).Content != "onion" {
		t.Errorf("answered %+v", r)
	}
	if len(c.Messages()) != 0 {
		t.Error("an ephemeral message is in the history")
	}
}

// A test that does what no person could must not pass.
func TestImpossiblePeople(t *testing.T) {
	for name, f := range map[string]func(s *Server, c *Channel){
		"unregistered":      func(s *Server, c *Channel) { s.Slash(s.User("stove"), c, "right") },
		"required":          func(s *Server, c *Channel) { s.Slash(s.User("stove"), c, "left") },
		"unknown option":    func(s *Server, c *Channel) { s.Slash(s.User("stove"), c, "left", Raw{"name": "crate", "value": "x"}) },
		"wrong type":        func(s *Server, c *Channel) { s.Slash(s.User("stove"), c, "left", Raw{"name": "item", "value": 7}) },
		"nothing focused":   func(s *Server, c *Channel) { s.Complete(s.User("stove"), c, "left", Raw{"name": "item", "value": "x"}) },
		"no such button":    func(s *Server, c *Channel) { s.Press(s.User("stove"), c.Say(s.User("stove"), "x"), "all") },
		"edit of the gone":  func(s *Server, c *Channel) { m := c.Say(s.User("stove"), "x"); s.Delete(m); s.Edit(m, "y") },
		"bulk of one":       func(s *Server, c *Channel) { s.BulkDelete(c.Say(s.User("stove"), "x")) },
		"unknown storm":     func(s *Server, c *Channel) { s.Storm(1, "hail") },
		"unknown step":      func(s *Server, c *Channel) { s.OnConnect("op8") },
		"limit of no route": func(s *Server, c *Channel) { s.Limit("POST /x", 1, time.Second) },
	} {
		t.Run(name, func(t *testing.T) {
			s := watched(t, Options{})
			c := kitchen(t, s)
			f(s, c)
			if len(s.Violations()) == 0 {
				t.Error("nobody minds")
			}
		})
	}
}
