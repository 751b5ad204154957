package discord

import "strings"

// signs are the characters that Discord's formatting reads. Source: Discord API
// docs, reference, "Message Formatting"; the rest is Markdown as its client
// shows it (from memory).
const signs = "\\*_~`|[]<>"

// noWidth stands in mentions and addresses, which then are neither.
const noWidth = "\u200b"

// oneBreak makes all line breaks the same: Discord's client reads them alike (from
// memory).
var oneBreak = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\f", "")

// links are what the client makes links of, with or without a scheme (the second
// kind, invitations, from memory), and what stands for it.
var links = strings.NewReplacer("://", ":"+noWidth+"//", ".gg/", ".gg"+noWidth+"/", ".com/", ".com"+noWidth+"/")

// escape makes text stand as it is: nothing in what a cook has typed can format,
// mention or link when the bot says it again.
func escape(text string) string {
	var b strings.Builder
	for i, line := range strings.Split(oneBreak.Replace(text), "\n") {
		if i > 0 {
			b.WriteByte('\n')
		}
		escapeLine(&b, line)
	}
	return b.String()
}

func escapeLine(b *strings.Builder, line string) {
	rest := strings.TrimLeft(line, " \t")
	b.WriteString(line[:len(line)-len(rest)])
	if begin := strings.TrimLeft(rest, "#-+>"); begin != rest { // a heading, a list, a quotation
		b.WriteByte('\\')
		b.WriteString(rest[:1])
		rest = rest[1:]
	}
	for _, r := range links.Replace(rest) {
		if strings.ContainsRune(signs, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
		if r == '@' {
			b.WriteString(noWidth)
		}
	}
}
