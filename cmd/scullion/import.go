package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/pantry/store"
)

func (a *app) importCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "import FILE",
		Short: "Make a kitchen of what export wrote",
		Long: `Make the kitchen in FILE, or in the folder of CSV files of that name, in the
kitchen file: the same lines, messages and entries, so that what was said can
still be changed and undone. It is called as it was, or as --kitchen says; a
kitchen of that name in which something has been said is left alone.

Every row is checked and the balances are added up anew. Where anything is
wrong, the file and the line are told and nothing at all is written. Whoever
else writes to that kitchen file waits meanwhile, some seconds for a long ledger.`,
		Example: `  scullion import tuesday.json --db new.db
  scullion import tuesday.json --kitchen "last tuesday"`,
		Args: takes(1, "FILE"),
		RunE: func(c *cobra.Command, args []string) error {
			name, err := store.CheckImport(args[0]) // before a new kitchen file is made for it
			if err != nil {
				return err
			}
			if c.Flags().Changed("kitchen") {
				name = a.kitchen
			} else if err := goodName(name); err != nil {
				return fmt.Errorf("%s: the kitchen's name %q is no good: %v; name it with --kitchen", args[0], name, err)
			}
			err = a.withStore(c.Context(), func(s *store.Store) error { return s.Import(c.Context(), args[0], name, bot.Relink) })
			if err != nil {
				return err
			}
			return a.print(fmt.Sprintf("Kitchen %q is in %s, as in %s.", name, a.db, args[0]))
		},
	}
}
