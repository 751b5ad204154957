package strict

import (
	"fmt"
	"strings"
	"testing"
)

func command(changes Raw) Raw {
	c := Raw{"name": "left", "description": "What is left"}
	for k, v := range changes {
		c[k] = v
	}
	return c
}

func opt(kind int, name string, changes Raw) Raw {
	o := command(changes)
	if _, ok := changes["name"]; !ok {
		o["name"] = name
	}
	o["type"] = kind
	return o
}

func options(list ...any) Raw { return command(Raw{"options": list}) }

func TestWrongCommands(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	one := func(o Raw) Raw { return options(o) }
	long := strings.Repeat("x", 101)
	choice := func(n, v any) Raw { return Raw{"name": n, "value": v} }
	heavy := repeat(25, func(i int) any {
		return opt(optString, fmt.Sprint("o", i), Raw{"choices": repeat(4, func(j int) any { return choice(fmt.Sprint(j, long[:90]), "v") })})
	})
	cases := []bite{
		{"no name", command(Raw{"name": nil}), "name is required"},
		{"capital", command(Raw{"name": "Left"}), "not lower case"},
		{"space", command(Raw{"name": "whats left"}), "pattern of names"},
		{"long name", command(Raw{"name": long[:33]}), "name has 33"},
		{"no description", command(Raw{"description": nil}), "description is required"},
		{"long description", command(Raw{"description": long}), "description has 101"},
		{"unknown key", command(Raw{"help": "x"}), "help is no field"},
		{"type", command(Raw{"type": 4}), "type is 4"},
		{"description of a menu", command(Raw{"type": 3}), "has 12 characters, not 0 to 0"},
		{"contexts in a guild", command(Raw{"contexts": []any{0}}), "global commands only"},
		{"install types in a guild", command(Raw{"integration_types": []any{0}}), "global commands only"},
		{"permissions as a number", command(Raw{"default_member_permissions": 16}), "not a string"},
		{"permissions in words", command(Raw{"default_member_permissions": "all"}), "no bit set"},
		{"locale", command(Raw{"name_localizations": Raw{"en": "left"}}), "no locale"},
		{"localized capital", command(Raw{"name_localizations": Raw{"de": "Rest"}}), "not lower case"},
		{"26 options", options(repeat(26, func(i int) any { return opt(3, fmt.Sprint("o", i), nil) })...), "26 items"},
		{"same option", options(opt(3, "a", nil), opt(3, "a", nil)), "is there twice"},
		{"required last", options(opt(3, "a", nil), opt(3, "b", Raw{"required": true})), "comes after an optional"},
		{"option type", one(opt(12, "a", nil)), "type is 12"},
		{"option name", one(opt(3, "A", nil)), "not lower case"},
		{"option without description", one(opt(3, "a", Raw{"description": nil})), "description is required"},
		{"26 choices", one(opt(3, "a", Raw{"choices": repeat(26, func(i int) any { return choice(fmt.Sprint(i), "x") })})), "26 items"},
		{"long choice", one(opt(3, "a", Raw{"choices": []any{choice(long, "x")}})), "name has 101"},
		{"choice of another type", one(opt(4, "a", Raw{"choices": []any{choice("x", "x")}})), "whole number"},
		{"choices of a user", one(opt(6, "a", Raw{"choices": []any{choice("x", "1")}})), "strings and numbers"},
		{"choices and autocomplete", one(opt(3, "a", Raw{"autocomplete": true, "choices": []any{choice("x", "x")}})), "goes not with autocomplete"},
		{"autocomplete of a boolean", one(opt(5, "a", Raw{"autocomplete": true})), "strings and numbers"},
		{"min_value of a string", one(opt(3, "a", Raw{"min_value": 1})), "is for numbers"},
		{"max_length of a number", one(opt(4, "a", Raw{"max_length": 1})), "is for strings"},
		{"max_length 0", one(opt(3, "a", Raw{"max_length": 0})), "max_length is 0"},
		{"mixed", options(opt(1, "a", nil), opt(3, "b", nil)), "mixes subcommands"},
		{"sub in sub", one(opt(1, "a", Raw{"options": []any{opt(1, "b", nil)}})), "subcommand in a subcommand"},
		{"group in group", one(opt(2, "a", Raw{"options": []any{opt(2, "b", Raw{"options": []any{opt(1, "c", nil)}})}})), "a group holds subcommands"},
		{"group of strings", one(opt(2, "a", Raw{"options": []any{opt(3, "b", nil)}})), "a group holds subcommands"},
		{"empty group", one(opt(2, "a", nil)), "options is required"},
		{"required sub", one(opt(1, "a", Raw{"required": true})), "goes not with a subcommand"},
		{"options of a string", one(opt(3, "a", Raw{"options": []any{opt(3, "b", nil)}})), "is for subcommands"},
		{"heavy", options(heavy...), "not 8000 at most"},
	}
	bites(t, cases, func(s *Server, body any) reply {
		return ask(t, s, "PUT", "/applications/"+s.App()+"/guilds/"+c.guild.ID+"/commands", []any{body})
	}, s)
	many := repeat(101, func(i int) any { return command(Raw{"name": fmt.Sprint("c", i)}) })
	bites(t, []bite{
		{"no list", command(nil), "not a list"},
		{"same name", []any{command(nil), command(nil)}, "is there twice"},
		{"101", many, "101 chat"},
	}, func(s *Server, body any) reply {
		return ask(t, s, "PUT", "/applications/"+s.App()+"/commands", body)
	}, s)
	ask(t, s, "PUT", "/applications/1/commands", []any{}).want(t, 403, 20012)
	if s.Commands("") != nil || s.Commands(c.guild.ID) != nil || s.Stats().CommandWrites != 0 {
		t.Error("a wrong command was registered")
	}
}

func TestRightCommands(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	guild := "/applications/" + s.App() + "/guilds/" + c.guild.ID + "/commands"
	sub := opt(1, "show", Raw{"options": []any{opt(3, "item", Raw{"required": true, "min_length": 0, "max_length": 6000, "choices": nil, "options": nil, "channel_types": nil})}})
	list := []any{
		command(Raw{"options": []any{opt(2, "crate", Raw{"options": []any{sub}})}, "default_member_permissions": "16", "name_localizations": Raw{"de": "rest"}}),
		Raw{"type": 3, "name": "Log this"},
		command(Raw{"name": "übrig_ड"}),
	}
	first := ask(t, s, "PUT", guild, list).want(t, 200, 0).list(t)
	id := first[0].(Raw)["id"]
	again := ask(t, s, "PUT", guild, first).want(t, 200, 0).list(t) // as a client that read them sends them back
	if again[0].(Raw)["id"] != id {
		t.Error("a command that stayed has another id")
	}
	if r := ask(t, s, "POST", guild, command(Raw{"description": "What there is"})).want(t, 200, 0).raw(t); r["id"] != id {
		t.Error("POST of a name that is there made another")
	}
	ask(t, s, "POST", guild, command(Raw{"name": "ideas"})).want(t, 201, 0)
	if got := ask(t, s, "GET", guild+"?with_localizations=true", nil).list(t); len(got) != 4 || len(s.Commands(c.guild.ID)) != 4 {
		t.Errorf("registered: %v", got)
	}
	ask(t, s, "PUT", "/applications/"+s.App()+"/commands", []any{command(Raw{"name": "here", "contexts": []any{1}})}).want(t, 200, 0)
	s.Slash(s.User("stove"), s.DM(s.User("stove")), "here")
	innocent(t, s)
	if n := s.Stats().CommandWrites; n != 5 {
		t.Errorf("%d writes", n)
	}
	s.Allow("not registered there")
	s.Slash(s.User("stove"), c, "here") // a command for direct messages alone
	if len(s.Violations()) != 1 {
		t.Error("a command was offered in another context")
	}
}
