package main

import (
	"github.com/spf13/cobra"

	"scullion/bot/terminal"
	"scullion/pantry/store"
)

func (a *app) pipeCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "pipe",
		Short: "The same conversation as JSON lines, for programs",
		Long: `The conversation as JSON lines: one message a line on standard input, one reply
a line on standard output, in the same order. This is how a chat is attached.
A message has an id of its own, the cook, the time and the text; the same id
again is the same message and gets the same reply. A line that makes no sense
gets a reply of kind "error", and the next is read.`,
		Example: `  echo '{"id":"m1","cook":"stove","text":"used 2 leeks"}' | scullion pipe`,
		Args:    takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			return a.withStore(c.Context(), func(s *store.Store) error {
				p := terminal.Pipe{Bot: a.bot(s), Kitchen: a.kitchen, Now: a.now}
				return p.Run(c.Context(), a.in, a.out)
			})
		},
	}
}
