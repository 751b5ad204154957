package strict

import (
	"fmt"
	"strings"
	"testing"
)

func row(items ...any) Raw { return Raw{"type": compRow, "components": items} }

func button(id string, changes Raw) Raw {
	b := Raw{"type": compButton, "style": 1, "label": "all of it", "custom_id": id}
	for key, v := range changes {
		b[key] = v
	}
	return b
}

func option(value string) Raw { return Raw{"label": value, "value": value} }

func menu(changes Raw) Raw {
	m := Raw{"type": compSelect, "custom_id": "pick", "options": []any{option("leek"), option("onion")}}
	for key, v := range changes {
		m[key] = v
	}
	return m
}

func words(s string) Raw { return Raw{"type": compText, "content": s} }

func with(items ...any) Raw { return note(Raw{"components": items}) }

// v2 is a message of components alone.
func v2(items ...any) Raw {
	return note(Raw{"content": nil, "flags": flagComponentsV2, "components": items})
}

func repeat(n int, f func(i int) any) []any {
	var out []any
	for i := range n {
		out = append(out, f(i))
	}
	return out
}

func TestWrongComponents(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	cell := func(i int) any { return button(fmt.Sprint("b", i), nil) }
	rows := repeat(6, func(i int) any { return row(cell(i)) })
	long := strings.Repeat("x", 101)
	cases := []bite{
		{"six rows", with(rows...), "has 6 items"},
		{"six buttons", with(row(repeat(6, cell)...)), "has 6 items"},
		{"no row", with(button("a", nil)), "only action rows"},
		{"empty row", with(Raw{"type": compRow, "components": []any{}}), "has 0 items"},
		{"unknown type in a row", with(row(Raw{"type": 99})), "type is 99"},
		{"text input in a row", with(row(Raw{"type": 4, "custom_id": "a"})), "type is 4"},
		{"select beside a button", with(row(menu(nil), cell(1))), "a row to itself"},
		{"same custom_id", with(row(cell(1)), row(cell(1))), "is there twice"},
		{"same id", with(row(button("a", Raw{"id": 3}), button("b", Raw{"id": 3}))), "id is there twice"},
		{"no custom_id", with(row(button("", Raw{"custom_id": nil}))), "custom_id is required"},
		{"long custom_id", with(row(button(long, nil))), "custom_id has 101"},
		{"long label", with(row(button("a", Raw{"label": long[:81]}))), "label has 81"},
		{"no label", with(row(button("a", Raw{"label": nil}))), "neither label nor emoji"},
		{"no style", with(row(button("a", Raw{"style": nil}))), "style is required"},
		{"style 7", with(row(button("a", Raw{"style": 7}))), "style is 7"},
		{"url on a plain button", with(row(button("a", Raw{"url": "https://boathouse.example"}))), "is for links"},
		{"link with custom_id", with(row(button("a", Raw{"style": 5, "url": "https://boathouse.example"}))), "goes not with a link"},
		{"link without url", with(row(button("a", Raw{"style": 5, "custom_id": nil}))), "url is required"},
		{"link elsewhere", with(row(button("a", Raw{"style": 5, "custom_id": nil, "url": "ftp://x"}))), "no http"},
		{"premium with label", with(row(button("a", Raw{"style": 6, "sku_id": "1"}))), "premium button"},
		{"emoji that is none", with(row(button("a", Raw{"emoji": Raw{"name": "leek"}}))), "no emoji"},
		{"26 options", with(row(menu(Raw{"options": repeat(26, func(i int) any { return option(fmt.Sprint(i)) })}))), "has 26 items"},
		{"no options", with(row(menu(Raw{"options": nil}))), "options is required"},
		{"same value", with(row(menu(Raw{"options": []any{option("a"), option("a")}}))), "is there twice"},
		{"long option", with(row(menu(Raw{"options": []any{option(long)}}))), "has 101"},
		{"long placeholder", with(row(menu(Raw{"placeholder": long + long}))), "placeholder has 202"},
		{"min above max", with(row(menu(Raw{"min_values": 2}))), "above max_values"},
		{"more than there are", with(row(menu(Raw{"max_values": 3}))), "of 2 options"},
		{"options of a user select", with(row(menu(Raw{"type": compUsers}))), "string selects"},
		{"V2 type without the flag", with(words("x")), "without the components V2 flag"},
		{"content with V2", note(Raw{"flags": flagComponentsV2, "components": []any{words("x")}}), "content goes not with"},
		{"embeds with V2", note(Raw{"content": nil, "embeds": []any{Raw{"title": "x"}}, "flags": flagComponentsV2, "components": []any{words("x")}}), "embeds goes not with"},
		{"41 components", v2(repeat(41, func(int) any { return words("x") })...), "41"},
		{"41 with nested ones", v2(Raw{"type": compContainer, "components": repeat(40, func(int) any { return words("x") })}), "are 41 in all"},
		{"container in a container", v2(Raw{"type": compContainer, "components": []any{Raw{"type": compContainer, "components": []any{words("x")}}}}), "container in a container"},
		{"section without accessory", v2(Raw{"type": compSection, "components": []any{words("x")}}), "accessory is required"},
		{"section of four", v2(Raw{"type": compSection, "components": repeat(4, func(int) any { return words("x") }), "accessory": button("a", nil)}), "has 4 items"},
		{"section of buttons", v2(Raw{"type": compSection, "components": []any{button("b", nil)}, "accessory": button("a", nil)}), "a section holds texts"},
		{"gallery of eleven", v2(Raw{"type": compGallery, "items": repeat(11, func(int) any { return Raw{"media": Raw{"url": "https://boathouse.example/a.png"}} })}), "has 11 items"},
		{"file from outside", v2(Raw{"type": compFile, "file": Raw{"url": "https://boathouse.example/a.png"}}), "names no upload"},
		{"separator", v2(Raw{"type": compSeparator, "spacing": 3}), "spacing is 3"},
		{"empty text", v2(words("")), "has 0 characters"},
		{"thumbnail on its own", v2(Raw{"type": compThumbnail, "media": Raw{"url": "https://boathouse.example/a.png"}}), "does not stand here"},
	}
	bites(t, cases, func(s *Server, body any) reply {
		return ask(t, s, "POST", "/channels/"+c.ID+"/messages", body)
	}, s)
}

func TestRightComponents(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	path := "/channels/" + c.ID + "/messages"
	cell := func(i int) any { return button(fmt.Sprint("b", i), nil) }
	ask(t, s, "POST", path, with(row(repeat(5, cell)...), row(menu(Raw{"min_values": 0, "max_values": 2})),
		row(button("", Raw{"style": 5, "custom_id": nil, "url": "https://boathouse.example"}), button("e", Raw{"label": nil, "emoji": Raw{"name": "🧅"}})))).want(t, 200, 0)
	section := Raw{"type": compSection, "components": []any{words("<@" + s.User("stove").ID + ">")}, "accessory": button("a", nil)}
	r := ask(t, s, "POST", path, v2(section, Raw{"type": compSeparator}, Raw{"type": compContainer, "components": []any{row(cell(1)), words("x")}})).want(t, 200, 0).raw(t)
	edit := Raw{"components": []any{words("<@" + s.User("stove").ID + "> all gone")}, "allowed_mentions": Raw{"parse": []any{"users"}}}
	ask(t, s, "PATCH", path+"/"+text(r["id"]), edit).want(t, 200, 0)
	all := c.Messages()
	if m := all[1]; m.Flags != flagComponentsV2 || len(m.Pinged) != 1 || !strings.Contains(string(m.Components), "all gone") {
		t.Errorf("stands: %+v", m)
	}
	m := v2(Raw{"type": compFile, "file": Raw{"url": "attachment://board0.png"}})
	parts(t, s, "POST", path, payloadOf(m), png(0)).want(t, 200, 0)
	innocent(t, s)
}

func TestComponentsV2Stay(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	path := "/channels/" + c.ID + "/messages"
	r := ask(t, s, "POST", path, v2(words("x"))).want(t, 200, 0).raw(t)
	bites(t, []bite{
		{"flag taken back", Raw{"flags": 0, "allowed_mentions": nobody}, "takes the components V2 flag back"},
		{"content", Raw{"content": "x", "allowed_mentions": nobody}, "content goes not with"},
	}, func(s *Server, body any) reply { return ask(t, s, "PATCH", path+"/"+text(r["id"]), body) }, s)
	before := len(s.Violations())
	parts(t, s, "POST", path, payloadOf(v2(words("x"))), png(0)).want(t, 400, 50035)
	if v := s.Violations()[before:]; len(v) != 1 || !strings.Contains(v[0], "do not show the upload") {
		t.Errorf("violations %q", v)
	}
}

func TestWrongEmbeds(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	x := func(n int) string { return strings.Repeat("x", n) }
	one := func(e Raw) Raw { return note(Raw{"embeds": []any{e}}) }
	pair := func(n, v any) Raw { return Raw{"fields": []any{Raw{"name": n, "value": v}}} }
	cases := []bite{
		{"eleven", note(Raw{"embeds": repeat(11, func(int) any { return Raw{"title": "x"} })}), "has 11 items"},
		{"title", one(Raw{"title": x(257)}), "title has 257"},
		{"description", one(Raw{"description": x(4097)}), "description has 4097"},
		{"26 fields", one(Raw{"fields": repeat(26, func(int) any { return Raw{"name": "x", "value": "x"} })}), "has 26 items"},
		{"field without a name", one(pair(nil, "x")), "name is required"},
		{"field without a value", one(pair("x", "  ")), "value is required"},
		{"field name", one(pair(x(257), "x")), "name has 257"},
		{"field value", one(pair("x", x(1025))), "value has 1025"},
		{"footer", one(Raw{"footer": Raw{"text": x(2049)}}), "text has 2049"},
		{"author", one(Raw{"author": Raw{"name": x(257)}}), "name has 257"},
		{"sum", note(Raw{"embeds": []any{Raw{"description": x(4000)}, Raw{"description": x(2001)}}}), "has 6001 characters"},
		{"type", one(Raw{"title": "x", "type": "video"}), "a bot's embed is rich"},
		{"provider", one(Raw{"title": "x", "provider": Raw{"name": "x"}}), "provider is no field"},
		{"picture size", one(Raw{"image": Raw{"url": "https://boathouse.example/a.png", "width": 5}}), "width is no field"},
		{"url", one(Raw{"title": "x", "url": "boathouse"}), "no http"},
		{"no upload", one(Raw{"image": Raw{"url": "attachment://a.png"}}), "no upload"},
		{"empty", one(Raw{}), "is empty"},
		{"colour", one(Raw{"title": "x", "color": 1 << 24}), "color is 16777216"},
	}
	send := func(s *Server, body any) reply { return ask(t, s, "POST", "/channels/"+c.ID+"/messages", body) }
	bites(t, cases, send, s)
	before := len(s.Violations())
	full := Raw{"type": "rich", "title": x(256), "description": " " + x(4096) + " ", "author": Raw{"name": x(256)}, "fields": []any{Raw{"name": x(256), "value": x(1024)}}}
	send(s, one(full)).want(t, 200, 0)
	if len(s.Violations()) != before {
		t.Errorf("a full embed: %q", s.Violations()[before:])
	}
}
