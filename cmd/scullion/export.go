package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/pantry/store"
)

func (a *app) exportCommand() *cobra.Command {
	var dir string
	c := &cobra.Command{
		Use:   "export FILE",
		Short: "Write a kitchen as JSON or CSV, to take it with you",
		Long: `Write all of a kitchen to FILE as one JSON document, or with --csv to a folder,
a CSV file a table: foods, messages, entries with all their revisions, lessons,
dishes, cooks, what was asked, choices, services and timers. It may be done in
the middle of a service. What is there already is left alone. "scullion import"
makes the same kitchen of it again.

Amounts are whole milligrams or microlitres, with a column beside that reads
"300 g". In CSV, text that a spreadsheet would take for a formula has an
apostrophe before it. A spreadsheet may spoil long ids when it saves: look at
the files there, and import them as they were.

It holds what cooks have said and who they are in the chat: keep it as you keep
the kitchen file. Left out are which chat rooms are joined and what is still to
be shown in them: join again. "forget" does not reach a file that was written.`,
		Example: `  scullion export tuesday.json
  scullion export --csv tuesday --kitchen "upper deck"`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 && dir != "" {
				return nil
			}
			return takes(1, "FILE")(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error {
			if dir != "" && len(args) > 0 && dir == args[0] {
				return usage{"FILE and the folder of --csv cannot have one name"}
			}
			err := a.withFile(c.Context(), func(s *store.Store) error {
				if len(args) > 0 {
					if err := s.ExportJSON(c.Context(), a.kitchen, args[0], bot.Relink); err != nil {
						return err
					}
				}
				if dir == "" {
					return nil
				}
				return s.ExportCSV(c.Context(), a.kitchen, dir, bot.Relink)
			})
			if errors.Is(err, store.ErrNoKitchen) {
				return fmt.Errorf("there is no kitchen %q in %s; name it with --kitchen and --db", a.kitchen, a.db)
			}
			if err != nil {
				return a.noFile(err)
			}
			for _, to := range append(args, dir) {
				if to != "" {
					err = errors.Join(err, a.print(fmt.Sprintf("Kitchen %q is written to %s.", a.kitchen, to)))
				}
			}
			return err
		},
	}
	c.Flags().StringVar(&dir, "csv", "", "write CSV files to this new `folder`")
	return c
}
