package strict

import (
	"encoding/json"
	"slices"
)

// Option types (Discord API docs, application commands).
const (
	optSub     = 1
	optGroup   = 2
	optString  = 3
	optInteger = 4
	optBoolean = 5
	optUser    = 6
	optNumber  = 10
	optLast    = 11
)

// Slash is a person's use of a registered command. Options are in Discord's form,
// {"name": "item", "value": "leek"}; a subcommand has "options" of its own. The
// type is filled in from the command's registration.
func (s *Server) Slash(u *User, c *Channel, name string, options ...Raw) *Interaction {
	return s.use(askCommand, u, c, name, options)
}

// Complete is the state of a command while a person types: one option has
// "focused": true, required ones may be missing.
func (s *Server) Complete(u *User, c *Channel, name string, options ...Raw) *Interaction {
	return s.use(askComplete, u, c, name, options)
}

func (s *Server) use(kind int, u *User, c *Channel, name string, options []Raw) *Interaction {
	s.mu.Lock()
	defer s.mu.Unlock()
	cmd := s.commandFor(c, name)
	if cmd == nil {
		s.blame("the test uses /%s, which is not registered there", name)
		return &Interaction{s: s}
	}
	filled := filling{s: s, name: name, kind: kind, users: Raw{}, members: Raw{}, guild: c.guild}
	given := []any{}
	for _, o := range options {
		given = append(given, o)
	}
	list := filled.fill(cmd, plain(given).([]any))
	if kind == askComplete && filled.focused == 0 || kind == askCommand && filled.focused != 0 {
		s.blame("the test focuses no option of a completion, or one of a command")
	}
	data := Raw{"id": cmd["id"], "name": name, "type": 1, "options": list}
	if g := cmd["guild_id"]; g != nil {
		data["guild_id"] = g
	}
	if len(filled.users) > 0 {
		data["resolved"] = Raw{"users": filled.users, "members": filled.members}
	}
	return s.ask(&Interaction{kind: kind, channel: c, focused: filled.focused}, u, data)
}

// commandFor is the chat command of that name that c offers: a guild's own, or a
// global one.
func (s *Server) commandFor(c *Channel, name string) Raw {
	var offered []Raw
	place := 1
	if c.guild != nil {
		place = 0
		offered = append(offered, s.commands[c.guild.ID]...)
	}
	for _, cmd := range s.commands[""] {
		if contexts, ok := cmd["contexts"].([]any); !ok || slices.ContainsFunc(contexts, func(v any) bool { return whole(v) == place }) {
			offered = append(offered, cmd)
		}
	}
	for _, cmd := range offered {
		if text(cmd["name"]) == name && whole(cmd["type"]) == 1 {
			return cmd
		}
	}
	return nil
}

// filling checks what a test gives for options against a registration.
type filling struct {
	s       *Server
	name    string
	kind    int
	focused int
	users   Raw
	members Raw
	guild   *Guild
}

func (f *filling) wrong(format string, a ...any) {
	f.s.blame("the test uses /"+f.name+": "+format, a...)
}

func (f *filling) fill(registered Raw, given []any) []any {
	options, _ := registered["options"].([]any)
	filled := []any{}
	for _, v := range given {
		g, _ := v.(Raw)
		o := optionNamed(options, text(g["name"]))
		if o == nil {
			f.wrong("there is no option %q", text(g["name"]))
			continue
		}
		kind := whole(o["type"])
		if t, ok := g["type"]; ok && whole(t) != kind {
			f.wrong("option %q has type %d", text(g["name"]), kind)
		}
		g["type"] = kind
		if kind == optSub || kind == optGroup {
			inner, _ := g["options"].([]any)
			g["options"] = f.fill(o, inner)
		} else {
			f.value(g, o, kind)
		}
		filled = append(filled, g)
	}
	f.missing(options, given)
	return filled
}

// missing blames a test that leaves out what a person could not.
func (f *filling) missing(options, given []any) {
	for _, v := range options {
		o, _ := v.(Raw)
		required, _ := o["required"].(bool)
		if required && f.kind == askCommand && optionNamed(given, text(o["name"])) == nil {
			f.wrong("option %q is required", text(o["name"]))
		}
		if t := whole(o["type"]); t <= optGroup && len(given) != 1 {
			f.wrong("one subcommand has to be given")
			return
		}
	}
}

func optionNamed(list []any, name string) Raw {
	for _, v := range list {
		if o, _ := v.(Raw); text(o["name"]) == name {
			return o
		}
	}
	return nil
}

// value checks one value; what is half typed may be anything.
func (f *filling) value(g, o Raw, kind int) {
	if on, _ := g["focused"].(bool); on {
		if f.focused != 0 {
			f.wrong("two options are focused")
		}
		if auto, _ := o["autocomplete"].(bool); !auto {
			f.wrong("option %q has no autocomplete", text(g["name"]))
		}
		f.focused = kind
		return
	}
	fits := false
	switch v := g["value"].(type) {
	case string:
		fits = kind == optString || kind >= optUser && kind != optNumber
	case bool:
		fits = kind == optBoolean
	case json.Number:
		_, err := v.Int64()
		fits = kind == optNumber || kind == optInteger && err == nil
	}
	choices, _ := o["choices"].([]any)
	if len(choices) > 0 && !slices.ContainsFunc(choices, func(c any) bool { r, _ := c.(Raw); return r["value"] == g["value"] }) {
		fits = false
	}
	if !fits {
		f.wrong("option %q cannot be %v", text(g["name"]), g["value"])
	}
	if u := f.s.userByID(text(g["value"])); kind == optUser && u != nil {
		f.users[u.ID] = u
		if f.guild != nil {
			f.members[u.ID] = f.guild.member(u)
		}
	}
}
