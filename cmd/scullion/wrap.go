package main

import (
	"strings"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/pantry/food"
	"scullion/pantry/store"
)

func (a *app) wrapCommand() *cobra.Command {
	var asJSON, lines, all, waste bool
	back := 0
	c := &cobra.Command{
		Use:   "wrap",
		Short: "What became of the crate: used, trimmed, binned, carried over, and the cost",
		Long: `The account of the crate since the last wrap-up: what there was, what went into
dishes, what was trimmed, given away, binned and carried over, and what the
scales and the record disagree about; by weight and by cost. It closes to the
gram. Where nothing has happened since, it is that of the service that was
wrapped up last.

In the room "wrap up" closes the account; this only tells it.`,
		Example: `  scullion wrap
  scullion wrap --lines
  scullion wrap --back 1 --json     the service before
  scullion wrap --all --json        every service, for comparing
  scullion wrap --waste             what to order less of`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			if back < 0 || back > 0 && all {
				return usage{"--back takes how many services back, 1 or more, and not --all besides"}
			}
			return a.records(c, func(x *bot.Records) error {
				list, err := x.Wraps()
				if err != nil {
					return err
				}
				switch {
				case waste && asJSON:
					return printJSON(a, bot.Wasted(x, list))
				case waste:
					return a.print(bot.SayWaste(x, list))
				}
				if all && asJSON {
					return printJSON(a, list)
				}
				w := bot.Back(list, back)
				if w == nil {
					return usage{"there are not so many services; scullion wrap --all --json lists them"}
				}
				switch {
				case asJSON:
					return a.encode(w)
				case all:
					return a.print(bot.SayPast(x, list, a.now()))
				case lines:
					return a.print(strings.Join(w.SayLines(x), "\n"))
				}
				return a.print(w.Say(x, a.now()))
			})
		},
	}
	f := c.Flags()
	f.BoolVar(&asJSON, "json", false, "print JSON, for programs")
	f.BoolVar(&lines, "lines", false, "line by line")
	f.BoolVar(&all, "all", false, "every service that was wrapped up, the latest first")
	f.BoolVar(&waste, "waste", false, "over all services: what was binned most, and what to order less of")
	f.IntVar(&back, "back", 0, "`n` services before the latest")
	return c
}

// records hands do what the kitchen's accounts are reckoned from. Where there is no kitchen
// yet it only hints how to begin one.
func (a *app) records(c *cobra.Command, do func(*bot.Records) error) error {
	some := false
	err := a.withFile(c.Context(), func(s *store.Store) error {
		return s.Records(c.Context(), a.kitchen, func(r *store.Record) error {
			some = len(r.Kitchen.Lines) > 0
			if !some {
				return nil
			}
			x := &bot.Records{Kitchen: r.Kitchen, WrapUps: r.WrapUps, Services: r.Services, Ledger: r}
			x.Foods(a.catalogue())
			return do(x)
		})
	})
	if nothing(err) {
		err = nil
	}
	if err == nil && !some {
		a.hintEmpty()
	}
	return err
}

// catalogue is the food tables with the kitchen's own.
func (a *app) catalogue() *food.Catalogue {
	if a.foods != nil {
		return a.foods
	}
	return food.Default()
}
