package strict

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// readEmbeds checks embeds (Discord API docs, message resource, embed limits) and
// gives them as sent.
func readEmbeds(f field, names []string) []any {
	f = f.of(pageMessage)
	sum := 0
	for _, e := range f.list(0, maxEmbeds) {
		sum += readEmbed(e, names)
	}
	if sum > maxEmbedSum {
		f.refuse("BASE_TYPE_MAX_LENGTH", "has %d characters in all, not %d at most", sum, maxEmbedSum)
	}
	return f.given()
}

// readEmbed checks one embed and counts its characters.
func readEmbed(e field, names []string) int {
	e.object("title", "type", "description", "url", "timestamp", "color", "footer", "image", "thumbnail", "author", "fields")
	if kind := e.at("type"); kind.has() && kind.text(0, 20) != "rich" {
		kind.refuse("BASE_TYPE_CHOICES", "is %v, and a bot's embed is rich", kind.value)
	}
	sum := trimmed(e.at("title"), maxEmbedTitle) + trimmed(e.at("description"), maxEmbedDescription)
	address(e.at("url"), nil)
	e.at("timestamp").text(0, 40)
	e.at("color").whole(0, 0xFFFFFF)
	if p := e.at("footer"); p.object("text", "icon_url") {
		p.at("text").need()
		sum += trimmed(p.at("text"), maxEmbedFooter)
		address(p.at("icon_url"), names)
	}
	if p := e.at("author"); p.object("name", "url", "icon_url") {
		p.at("name").need()
		sum += trimmed(p.at("name"), maxEmbedAuthor)
		address(p.at("url"), nil)
		address(p.at("icon_url"), names)
	}
	for _, key := range []string{"image", "thumbnail"} {
		if p := e.at(key); p.object("url") {
			p.at("url").need()
			address(p.at("url"), names)
		}
	}
	for _, p := range e.at("fields").list(0, maxEmbedFields) {
		p.object("name", "value", "inline")
		p.at("inline").boolean()
		sum += wanted(p.at("name"), maxEmbedFieldName) + wanted(p.at("value"), maxEmbedFieldValue)
	}
	if o, _ := e.value.(Raw); len(o) == 0 {
		e.refuse("EMBED", "is empty")
	}
	return sum
}

// trimmed counts a text as Discord does, without the blanks around it.
func trimmed(f field, most int) int {
	f.value = trim(f.value)
	return utf8.RuneCountInString(f.text(0, most))
}

func trim(v any) any {
	if s, ok := v.(string); ok {
		return strings.TrimSpace(s)
	}
	return v
}

func wanted(f field, most int) int {
	n := trimmed(f, most)
	if n == 0 {
		f.refuse("BASE_TYPE_REQUIRED", "is required")
	}
	return n
}

// address checks an http(s) address, or attachment:// with the name of an upload
// that is a picture.
func address(f field, names []string) {
	u := f.text(1, 1<<16)
	if !f.has() {
		return
	}
	name, ours := strings.CutPrefix(u, "attachment://")
	switch {
	case ours && !slices.Contains(names, name):
		f.refuse("ATTACHMENT", "names %q, which is no upload", name)
	case ours && pictures[extension(name)] == "":
		f.refuse("ATTACHMENT", "names %q, which is no picture", name)
	case !ours && !strings.HasPrefix(u, "http://") && !strings.HasPrefix(u, "https://"):
		f.refuse("URL_TYPE_INVALID_SCHEME", "is no http or https address")
	}
}
