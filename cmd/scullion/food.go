package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/pantry/food"
)

// catalogue gives the embedded foods with those of a kitchen's own file; nil,
// which stands for the embedded ones alone, where there is none: to read them
// takes a moment, and many commands do without.
func catalogue(file string) (*food.Catalogue, error) {
	if file == "" {
		return nil, nil
	}
	f, err := os.Open(file)
	if err != nil {
		if e := new(fs.PathError); errors.As(err, &e) {
			err = e.Err
		}
		return nil, fmt.Errorf("%s: the table of foods cannot be read: %w; name another with --foods", file, err)
	}
	defer f.Close()
	own := food.Default().Own()
	if err := own.Read(file, f); err != nil {
		return nil, fmt.Errorf("%w; mend it, or do without the table", err)
	}
	return own.Catalogue()
}

func (a *app) foodCommand() *cobra.Command {
	var asJSON, table bool
	c := &cobra.Command{
		Use:   "food [NAME]",
		Short: "What is known of a food",
		Long: `What is known of a food: what one weighs, how long it keeps, what comes off it
and whether that is dinner, what allergens it holds, and where each figure comes
from. Without a name it lists what this kitchen's cooks have taught.

A kitchen may have a table of its own, named with --foods or SCULLION_FOODS: CSV,
whose first line names the columns. Only "name" must be there; a column "like"
takes from another food all that a row leaves out. What a row does not say of
allergens ("none" is an answer) is unknown. --table prints the program's own
table, to see the columns and to copy rows from.`,
		Example: `  scullion food leek
  scullion food --table > foods.csv
  printf 'name,like,parts\nsea beet,spinach,handful=30\n' > own.csv
  scullion food --foods own.csv "sea beet"`,
		Args: cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case table && len(args) > 0:
				return usage{"--table takes no name; see: " + c.CommandPath() + " --help"}
			case table:
				_, err := fmt.Fprint(a.out, food.Table())
				return err
			}
			return a.food(c, strings.Join(args, " "), asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON, for programs")
	c.Flags().BoolVar(&table, "table", false, "print the whole table of foods, as CSV")
	return c
}

func (a *app) food(c *cobra.Command, name string, asJSON bool) error {
	k, err := a.view(c.Context())
	if err != nil {
		return err
	}
	all := bot.Foods(a.foods, k)
	if name == "" {
		return a.taught(bot.Lessons(k), asJSON)
	}
	f, near := bot.FindFood(all, name)
	if f == nil {
		hint := cmp.Or(strings.Join(near, ", "), "none that is near")
		return fmt.Errorf("no table knows %q; known are: %s", name, hint)
	}
	if asJSON {
		return a.printOne(bot.FoodCard(f))
	}
	return a.print(bot.SayFood(f))
}

// taught lists what the kitchen's cooks have taught.
func (a *app) taught(lessons []bot.Lesson, asJSON bool) error {
	if asJSON {
		return printJSON(a, lessons)
	}
	if len(lessons) == 0 {
		fmt.Fprintf(a.err, "scullion: kitchen %q has been taught no food yet; say in the chat: celery root is celeriac\n", a.kitchen)
		return nil
	}
	for _, l := range lessons {
		if err := a.print(l.Say()); err != nil {
			return err
		}
	}
	return nil
}

// printOne writes an answer for programs: one object.
func (a *app) printOne(v any) error {
	e := json.NewEncoder(a.out)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
