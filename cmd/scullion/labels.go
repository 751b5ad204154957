package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/bot/paper"
	"scullion/pantry/store"
)

func (a *app) labelsCommand() *cobra.Command {
	page := "a4-21"
	var ids []string
	for _, p := range paper.LabelPages() {
		ids = append(ids, p.ID)
	}
	c := &cobra.Command{
		Use:   "labels",
		Short: "Labels to print for what is put away",
		Long: `Labels as a page to print: what is left of the dishes of the latest service, and
what is on hand opened, cooked, made, frozen or thawed; with the name, when it
was made, use by, allergens and initials, and that somebody said of it that it
stood warm. Print at actual size.

Dates are by storage guidance, UK or US by --units; local rules and the pack's
own label go first. Allergens may be incomplete: check labels.`,
		Example: `  scullion labels > labels.html
  scullion labels --page roll-62 > labels.html`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			form, err := paper.LabelPageCalled(page)
			if err != nil {
				return usage{err.Error()}
			}
			var list []paper.Label
			err = a.records(c, func(x *bot.Records) error {
				wraps, err := x.Wraps()
				if err != nil {
					return err
				}
				list, err = bot.Labels(x, bot.WithDishes(wraps, 0), a.today(), a.now().Location(), a.units)
				if err == nil && len(list) == 0 {
					fmt.Fprintln(a.err, "Nothing to label: no dish was made, and nothing on hand is opened, cooked, made or frozen.")
				}
				return err
			})
			if err != nil || len(list) == 0 {
				return err
			}
			if err := a.withFile(c.Context(), func(s *store.Store) error {
				return a.bot(s).MarkWarm(c.Context(), a.kitchen, a.now(), list)
			}); err != nil {
				return err
			}
			return a.print(paper.Labels(list, form))
		},
	}
	c.Flags().Var(&choiceValue{&page, ids}, "page", "how labels lie on the page: a4-21, a4-24, a4-24-full, letter-30, roll-62")
	c.RegisterFlagCompletionFunc("page", cobra.FixedCompletions(ids, cobra.ShellCompDirectiveNoFileComp))
	return c
}
