// Package terminal is where a kitchen's conversation meets a terminal: Room,
// for people who type, and Pipe, JSON lines for programs.
//
// Both turn what comes in into a bot.Message and show the bot.Reply; neither
// knows what a message means. Times come from a clock that the caller passes.
package terminal

import (
	"strings"
	"unicode"
)

// Plain gives s without what could steer a terminal: control characters other
// than line ends, and marks that turn the direction of writing.
func Plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case steers(r):
			return -1
		}
		return r
	}, s)
}

func steers(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029'
}

// Name gives a cook's name as it can be shown on one line: no control
// characters, no space around it.
func Name(s string) string {
	return strings.TrimSpace(strings.ReplaceAll(Plain(s), "\n", ""))
}

// OneLine is an error as it is shown: its first line. What follows (the place
// in the program where a fault came up) is for whoever mends the program.
func OneLine(err error) string {
	first, _, _ := strings.Cut(err.Error(), "\n")
	return Plain(first)
}
