package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"scullion/pantry/store"
)

func (a *app) backupCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "backup FILE",
		Short: "Write a copy of the kitchen file, while it is in use",
		Long: `Write a copy of the whole kitchen file to FILE. It may be done in the middle of
a service: the copy is as things stood at one moment. A file that is there
already is left alone. "scullion restore" brings a copy back.`,
		Example: `  scullion backup tuesday.db`,
		Args:    takes(1, "FILE"),
		RunE: func(c *cobra.Command, args []string) error {
			err := a.withFile(c.Context(), func(s *store.Store) error { return s.Backup(c.Context(), args[0]) })
			if err != nil {
				return a.noFile(err)
			}
			return a.print(fmt.Sprintf("%s is kept in %s.", a.db, args[0]))
		},
	}
}
