package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"scullion/bot/terminal"
	"scullion/pantry/store"
)

func (a *app) forgetCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "forget COOK",
		Short: "Forget who a cook of the chat is, and what they said",
		Long: `Forget who a cook of the chat is: the name, the platform's id, the words of all
that they said, and the kept answers that name them. COOK is the name shown, or
the platform's id; or a guest's name, of whom it is kept what they cannot eat.
The entries of the ledger stay, under a name like "cook 7",
since the stock is everybody's; should the person speak again, they are new.

Copies made with "backup" before are not changed.`,
		Example: `  scullion forget stove
  scullion forget 80351110224678912 --kitchen "upper deck"`,
		Args: takes(1, "cook"),
		RunE: func(c *cobra.Command, args []string) error {
			var was string
			var guest bool
			err := a.withFile(c.Context(), func(s *store.Store) error {
				if _, err := s.View(c.Context(), a.kitchen); err != nil {
					return err
				}
				var err error
				if was, err = s.Forget(c.Context(), a.kitchen, args[0]); err == nil && was == "" {
					guest, err = s.ForgetGuest(c.Context(), a.kitchen, args[0])
				}
				return err
			})
			switch {
			case nothing(err):
				return fmt.Errorf("there is no kitchen %q in %s; name it with --kitchen and --db", a.kitchen, a.db)
			case err != nil:
				return err
			case guest:
				return a.print("Forgotten: what was kept of who that is and what they cannot eat.")
			case was == "":
				return fmt.Errorf("no cook %q of a chat is known in kitchen %q; scullion log shows the names", terminal.Plain(args[0]), a.kitchen)
			}
			return a.print("Forgotten. What they logged is kept under \"" + was + "\".")
		},
	}
}
