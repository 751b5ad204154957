package main

import (
	"cmp"
	"context"
	"path/filepath"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/bot/terminal"
	"scullion/pantry"
	"scullion/pantry/store"
)

// chatFlags are the flags of chat alone.
type chatFlags struct {
	cook string
	demo bool
	fast bool
}

func (a *app) chatCommand() *cobra.Command {
	o := chatFlags{cook: cmp.Or(terminal.Name(a.env("USER")), "cook")}
	c := &cobra.Command{
		Use:   "chat",
		Short: "Open the kitchen in this terminal",
		Long: `Open the kitchen in this terminal. Type what happens, as you would say it to the
others: it is counted, and the answer says what was understood, what is left and
one idea for it. "help" inside shows more, tab completes foods and dishes, "quit"
leaves. Lines may also come from a file or another program.

--demo plays a Tuesday evening in a boathouse kitchen, in a kitchen of its own
named "demo", and then leaves the room open for you.`,
		Example: `  scullion chat --cook stove
  scullion chat --demo
  echo "what's left" | scullion chat`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			if o.demo && !c.Flags().Changed("kitchen") {
				a.kitchen = "demo"
			}
			return a.withStore(c.Context(), func(s *store.Store) error { return a.chat(c.Context(), s, o) })
		},
	}
	f := c.Flags()
	f.Var(&nameValue{&o.cook}, "cook", "who is speaking")
	f.BoolVar(&o.demo, "demo", false, "first play a demo service")
	f.BoolVar(&o.fast, "fast", false, "play the demo without pauses")
	return c
}

func (a *app) chat(ctx context.Context, s *store.Store, o chatFlags) error {
	view := func() *pantry.Kitchen {
		k, err := s.View(ctx, a.kitchen)
		if err != nil {
			return &pantry.Kitchen{} // only completion is poorer for it
		}
		return k
	}
	room := &terminal.Room{
		Bot: a.bot(s), Kitchen: a.kitchen, Cook: o.cook, Now: a.now,
		Words:   func() []string { return bot.Completions(view()) },
		Cooks:   func() []string { return view().Cooks },
		History: filepath.Join(a.home, "history"),
		Screen:  terminal.NewScreen(a.in, a.screen, a.env),
	}
	room.Open(a.in)
	defer room.Close()
	if err := a.begin(ctx, room, o, len(view().Lines) == 0); err != nil || ctx.Err() != nil {
		return err
	}
	return room.Run(ctx)
}

// begin plays the demo, or offers a new kitchen the demo's crate.
func (a *app) begin(ctx context.Context, room *terminal.Room, o chatFlags, empty bool) error {
	if o.demo {
		return playDemo(ctx, room, o.fast)
	}
	if !empty {
		return nil
	}
	yes, err := room.Agree(ctx, "This kitchen is empty. Load the demo crate to try things out?")
	if err != nil || !yes {
		return ignoreEnd(err)
	}
	return loadCrate(ctx, room)
}
