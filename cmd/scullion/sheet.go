package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/bot/paper"
)

func (a *app) sheetCommand() *cobra.Command {
	form := "md"
	o := paper.Options{}
	back := 0
	c := &cobra.Command{
		Use:   "sheet [DISH]",
		Short: "A dish as it was really cooked, to cook it again",
		Long: `The sheet of a dish: what went in, as weighed, in all and a portion; the steps
with their times; cost, energy, allergens and how it keeps. Without a dish it
lists those of the service. A dish is named by words of its name, or by its
number in that list.

Allergens may be incomplete: check labels. As --form json it is a Recipe of
schema.org in JSON-LD.`,
		Example: `  scullion sheet
  scullion sheet "leek tart"
  scullion sheet 1 --portions 6 --form html > tart.html`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return takes(1, "dish")(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error {
			if back < 0 || o.Portions < 0 {
				return usage{"--back and --portions take numbers from 0 on"}
			}
			return a.records(c, func(x *bot.Records) error {
				list, err := x.Wraps()
				if err != nil {
					return err
				}
				w := bot.WithDishes(list, back)
				if w == nil {
					fmt.Fprintln(a.err, `No dish was made yet. In the room "used 300g leek in the tart" begins one.`)
					return nil
				}
				if len(args) == 0 {
					return a.print(w.SayDishes())
				}
				n := w.Dish(args[0])
				if n < 0 {
					return usage{fmt.Sprintf("no dish, or more than one, is called %q. %s", args[0], w.SayDishes())}
				}
				s, err := x.Sheet(w, w.Dishes[n].Name)
				if err != nil {
					return err
				}
				if o.Currency == "" && !strings.Contains(w.Currency, "+") {
					o.Currency = w.Currency
				}
				o.Place, o.US, o.Names, o.Storage = a.now().Location(), a.units == "us", x.CookNames(), x.LeftoverNote(s, a.units)
				return a.print(strings.TrimRight(map[string]string{"md": paper.Markdown(s, o), "html": paper.HTML(s, o), "csv": paper.CSV(s, o), "json": paper.JSONLD(s, o)}[form], "\n"))
			})
		},
	}
	f := c.Flags()
	f.Var(&choiceValue{&form, []string{"md", "html", "csv", "json"}}, "form", "md, html, csv, or json (JSON-LD)")
	f.IntVar(&o.Portions, "portions", 0, "for so many `portions` instead")
	f.StringVar(&o.Currency, "currency", "", "the `sign` of the costs, if it is not the one that was said")
	f.IntVar(&back, "back", 0, "of `n` services before the latest")
	c.RegisterFlagCompletionFunc("form", cobra.FixedCompletions([]string{"md", "html", "csv", "json"}, cobra.ShellCompDirectiveNoFileComp))
	return c
}
