package main

import (
	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/bot/drawn"
)

func (a *app) leftCommand() *cobra.Command {
	var asJSON bool
	var png string
	c := &cobra.Command{
		Use:   "left",
		Short: "What is left, most urgent first",
		Long: `What is left in the kitchen: what is on hand, what cooks have claimed, what is
free, and when to use it by. What spoils first stands first. Labels and your
nose come before the dates shown here.`,
		Example: `  scullion left
  scullion left --kitchen boathouse --json`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			k, err := a.view(c.Context())
			if err != nil {
				return err
			}
			lines := bot.Left(k, a.today())
			if len(lines) == 0 {
				a.hintEmpty()
			}
			if png != "" {
				crate, _ := bot.Stock(k, a.today())
				if err := writeNew(png, drawn.Stock(crate, a.now()).PNG); err != nil {
					return err
				}
			}
			switch {
			case asJSON:
				return printJSON(a, lines)
			case len(lines) == 0:
				return nil
			}
			return a.print(bot.SayLeft(lines))
		},
	}
	c.Flags().StringVar(&png, "png", "", "draw the crate into this new `file` too")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON, for programs")
	return c
}
