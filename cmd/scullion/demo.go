package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"scullion/bot/terminal"
)

// The demo: a Tuesday evening in a boathouse community kitchen, three dishes
// for twelve. Invented, and ours. A line is "cook: what was said".
var (
	//go:embed demo/crate.txt
	demoCrate string
	//go:embed demo/service.txt
	demoService string
)

// Pauses between what is said, so that it can be read along.
const (
	cratePause   = 150 * time.Millisecond
	servicePause = 1200 * time.Millisecond
)

// turn is one thing said in the demo. Its id is fixed, so that a second
// showing writes nothing.
type turn struct{ id, cook, text string }

func readDemo(name, text string) (turns []turn) {
	for l := range strings.Lines(text) {
		cook, said, ok := strings.Cut(strings.TrimSpace(l), ": ")
		if !ok || strings.HasPrefix(l, "#") {
			continue
		}
		turns = append(turns, turn{fmt.Sprintf("demo-%s-%02d", name, len(turns)+1), cook, said})
	}
	return turns
}

// playDemo shows the crate coming in and the service.
func playDemo(ctx context.Context, room *terminal.Room, fast bool) error {
	fast = fast || !room.Screen.Live
	named := room.Screen.Named
	room.Screen.Named = true // or nobody could tell who says what
	defer func() { room.Screen.Named = named }()
	if err := play(ctx, room, readDemo("crate", demoCrate), cratePause, fast); err != nil {
		return err
	}
	return play(ctx, room, readDemo("service", demoService), servicePause, fast)
}

func play(ctx context.Context, room *terminal.Room, turns []turn, pause time.Duration, fast bool) error {
	for _, t := range turns {
		if err := room.Replay(ctx, t.id, t.cook, t.text); err != nil {
			return err
		}
		if !fast {
			select {
			case <-time.After(pause):
			case <-ctx.Done():
			}
		}
		if ctx.Err() != nil {
			return nil
		}
	}
	return nil
}

// loadCrate puts the demo's crate and cupboard into the room's kitchen.
func loadCrate(ctx context.Context, room *terminal.Room) error {
	return play(ctx, room, readDemo("crate", demoCrate), 0, true)
}

// ignoreEnd makes the end of what is typed a plain no.
func ignoreEnd(err error) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}
