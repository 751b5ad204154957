package terminal

import (
	"context"
	"crypto/rand"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"scullion/bot"
)

//go:embed help.txt
var help string

// Room is a kitchen in the terminal. On a live screen it has a prompt with the
// cook's name, line editing, history and completion; elsewhere it reads lines
// and prints replies, and nothing else.
type Room struct {
	Bot     *bot.Bot
	Kitchen string
	Cook    string           // who is speaking
	Now     func() time.Time // when
	Words   func() []string  // what tab completes: foods and dishes
	Cooks   func() []string  // who may be spoken for: "stove: used 2 leeks"
	History string           // file that remembers what was typed; "" none
	Screen  Screen

	in      io.Reader
	doubted string // an unknown cook's name that was said once
	typist  typist
	ids     string // what the ids of this session's messages begin with
	count   int
}

// Open makes the room ready to read in. Close gives the terminal back.
func (r *Room) Open(in io.Reader) {
	r.in = in
	r.ids = "t-" + rand.Text()[:10] + "-"
}

// Close ends the room.
func (r *Room) Close() {
	if r.typist != nil {
		r.typist.close()
	}
}

// Agree asks a yes-or-no question; anything but a yes is a no. Where nobody
// looks on the answer is no.
func (r *Room) Agree(ctx context.Context, question string) (bool, error) {
	if !r.Screen.Live {
		return false, nil
	}
	answer, err := r.ask(ctx, question+" (y/n) ")
	return slices.Contains([]string{"y", "yes"}, strings.ToLower(strings.TrimSpace(answer))), err
}

// Run holds the conversation until it is left or ctx ends. Where nobody looks
// on, the first message that the ledger fails for ends it with that error; a
// person is told, and can try again.
func (r *Room) Run(ctx context.Context) error {
	if err := r.Screen.hint(`Say what happens: "used 300g leek in the tart". "help" shows more, "quit" leaves.`); err != nil {
		return err
	}
	for ctx.Err() == nil {
		typed, err := r.ask(ctx, column(r.Cook))
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err == errTooLong:
			err = r.Screen.say(botName, "That line is longer than 1 MiB; nothing was read.")
		case err != nil:
			return fmt.Errorf("what is typed cannot be read: %w", err)
		default:
			var left bool
			if left, err = r.hear(ctx, strings.ToValidUTF8(typed, "\uFFFD")); left {
				return nil
			}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// ask reads a line. The terminal is taken over when it is first needed.
func (r *Room) ask(ctx context.Context, prompt string) (string, error) {
	if r.typist == nil && r.Screen.Live {
		r.typist = newEditor(r.History, r.Words)
	} else if r.typist == nil {
		r.typist = plainTypist{newLines(r.in)}
	}
	return askUnless(ctx, r.typist, prompt)
}

// hear deals with one line; left says that it was goodbye.
func (r *Room) hear(ctx context.Context, typed string) (left bool, err error) {
	text := strings.TrimSpace(typed)
	switch strings.ToLower(text) {
	case "":
		return false, nil
	case "quit", "exit":
		return true, nil
	case "help":
		return false, r.Screen.say(botName, help)
	}
	if name, ok := r.newSpeaker(text); ok {
		if _, known := r.known(name); !known && name != r.doubted { // "I am back" is no cook
			r.doubted = name
			return false, r.Screen.hint(fmt.Sprintf("No cook %q has spoken here yet. To be %s, say it again.", name, name))
		}
		was := r.Cook
		r.Cook = name
		return false, r.Screen.hint(fmt.Sprintf("You are %s from here on; \"I am %s\" goes back.", name, was))
	}
	r.typist.remember(text)
	cook, text := r.speaker(text)
	r.count++
	return false, r.Say(ctx, fmt.Sprint(r.ids, r.count), cook, text)
}

// newSpeaker reads "I am stove": a known cook, or one word, which must be said
// twice.
func (r *Room) newSpeaker(text string) (string, bool) {
	const lead = "i am "
	if len(text) <= len(lead) || !strings.EqualFold(text[:len(lead)], lead) {
		return "", false
	}
	name := Name(text[len(lead):])
	if known, ok := r.known(name); ok {
		return known, true
	}
	return name, name != "" && !strings.ContainsAny(name, " .,!?:") && len([]rune(name)) <= longestCook
}

// speaker takes a known cook's name off the front of "stove: used 2 leeks".
func (r *Room) speaker(text string) (cook, rest string) {
	if name, said, ok := strings.Cut(text, ":"); ok {
		if known, ok := r.known(strings.TrimSpace(name)); ok {
			return known, strings.TrimSpace(said)
		}
	}
	return r.Cook, text
}

func (r *Room) known(name string) (string, bool) {
	if strings.EqualFold(name, r.Cook) {
		return r.Cook, true
	}
	cooks := r.Cooks()
	i := slices.IndexFunc(cooks, func(c string) bool { return strings.EqualFold(c, name) })
	if i < 0 {
		return "", false
	}
	return cooks[i], true
}

// botName is how the bot is shown.
const botName = "scullion"

// Say sends one message and shows the reply; silence shows nothing.
func (r *Room) Say(ctx context.Context, id, cook, text string) error {
	m := bot.Message{Kitchen: r.Kitchen, ID: id, Cook: cook, At: r.Now(), Text: text}
	reply, err := r.Bot.Handle(context.WithoutCancel(ctx), m)
	if err != nil && r.Screen.Live {
		return r.Screen.say(botName, OneLine(err))
	}
	if err != nil || reply.Kind == bot.Silent {
		return err
	}
	return r.Screen.say(botName, reply.Text)
}

// Replay shows a line as if cook had just typed it, then says it.
func (r *Room) Replay(ctx context.Context, id, cook, text string) error {
	if err := r.Screen.say(cook, text); err != nil {
		return err
	}
	return r.Say(ctx, id, cook, text)
}
