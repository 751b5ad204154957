package discord

import (
	"hash/fnv"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The most characters a message may have. Source: Discord API docs,
// resources/message, "Create Message"; counted in code points.
const mostText = 2000

// payload is a message as it is sent or edited. It is not the library's: that
// has no nonce, without which a send that is tried again may stand there twice.
type payload struct {
	Content    string        `json:"content"`
	Nonce      string        `json:"nonce,omitempty"`
	Enforce    bool          `json:"enforce_nonce,omitempty"`
	Allowed    allowed       `json:"allowed_mentions"`
	Reference  *replyTo      `json:"message_reference,omitempty"`
	Flags      int           `json:"flags,omitempty"`
	Components []actionRow   `json:"components"`
	Attached   *[]attachment `json:"attachments,omitempty"` // nil: as they are

	file *upload
}

// allowed lets nobody be pinged, whatever the text says.
type allowed struct {
	Parse   []string `json:"parse"`
	Replied bool     `json:"replied_user"`
}

// replyTo makes a message a reply; a plain one where the other has gone.
type replyTo struct {
	Message string `json:"message_id"`
	Must    bool   `json:"fail_if_not_exists"`
}

// actionRow holds up to five buttons, or one menu.
type actionRow struct {
	Type  int         `json:"type"`
	Parts []component `json:"components"`
}

// component is a button or a menu. Source: Discord API docs,
// components/reference.
type component struct {
	Type    int      `json:"type"`
	Style   int      `json:"style,omitempty"`
	Label   string   `json:"label,omitempty"`
	ID      string   `json:"custom_id"`
	Hint    string   `json:"placeholder,omitempty"`
	Choices []choice `json:"options,omitempty"`
}

type choice struct {
	Label string `json:"label"`
	Value string `json:"value"`
	About string `json:"description,omitempty"`
}

// Kinds of components, styles of buttons, flags of messages, and the limits of
// labels. Source: Discord API docs, components/reference and resources/message.
const (
	kindRow    = 1
	kindButton = 2
	kindMenu   = 3

	styleBlue = 1
	styleGrey = 2

	flagNoEmbeds = 4
	flagPrivate  = 64

	mostLabel  = 80
	mostChoice = 100
	mostRows   = 5
	mostInRow  = 5
)

// text is a message with nothing but text, for nobody to be pinged by. The text
// is as it is to be shown: escape what cooks have typed.
func text(s string) payload {
	return payload{Content: s, Allowed: allowed{Parse: []string{}}, Flags: flagNoEmbeds, Components: []actionRow{}}
}

// once gives the message the nonce by which a repeat of it is known. Source:
// Discord API docs, resources/message: up to 25 characters, kept for some
// minutes.
func (p payload) once(of ...string) payload {
	h := fnv.New64a()
	for _, s := range of {
		h.Write([]byte(s + "\x00"))
	}
	p.Nonce, p.Enforce = strconv.FormatUint(h.Sum64(), 36), true
	return p
}

// in makes the message a reply, where the id is a message's.
func (p payload) in(id string) payload {
	if number(id) > 0 {
		p.Reference = &replyTo{Message: id}
	}
	return p
}

// clip cuts a text to at most n characters.
func clip(s string, n int) string {
	if utf8.RuneCountInString(s) <= n {
		return s
	}
	return strings.TrimSpace(string([]rune(s)[:n-1])) + "…"
}

// split cuts a text into messages: between lines where it can, else between
// words.
func split(s string) (parts []string) {
	s = strings.Trim(s, " \n")
	for utf8.RuneCountInString(s) > mostText {
		head := string([]rune(s)[:mostText])
		at := strings.LastIndexByte(head, '\n')
		if at < len(head)/2 {
			if space := strings.LastIndexByte(head, ' '); space > at {
				at = space
			}
		}
		if at <= 0 {
			at = len(head)
			if escapes := at - len(strings.TrimRight(head, `\`)); escapes%2 > 0 {
				at-- // an escape is not to lose its sign
			}
		}
		parts = append(parts, strings.TrimRight(s[:at], " \n"))
		s = strings.TrimLeft(s[at:], " \n")
	}
	return append(parts, s)
}
