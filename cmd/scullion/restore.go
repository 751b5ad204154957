package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"scullion/pantry/store"
)

func (a *app) restoreCommand() *cobra.Command {
	var overwrite bool
	c := &cobra.Command{
		Use:   "restore FILE",
		Short: "Bring back a copy that backup made",
		Long: `Bring back the copy in FILE. A kitchen file in which something has been said is
not touched unless --overwrite is given; then everything in it is replaced by
what the copy has, so make a backup of it first.`,
		Example: `  scullion restore tuesday.db
  scullion restore tuesday.db --overwrite`,
		Args: takes(1, "FILE"),
		RunE: func(c *cobra.Command, args []string) error {
			if _, err := os.Stat(args[0]); err != nil { // before a new kitchen file is made for it
				return fmt.Errorf("%s: there is no such backup; check the name", args[0])
			}
			err := a.withStore(c.Context(), func(s *store.Store) error { return s.Restore(c.Context(), args[0], overwrite) })
			if err != nil {
				return err
			}
			return a.print(fmt.Sprintf("%s is as in %s again.", a.db, args[0]))
		},
	}
	c.Flags().BoolVar(&overwrite, "overwrite", false, "replace what is in the kitchen file")
	return c
}
