package main

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/bot/language"
	"scullion/pantry/food"
	"scullion/planner"
	"scullion/planner/technique"
)

// usualKit is what a kitchen has where nothing else is said.
const usualKit = "ring=4,oven=1,grill=1,microwave=1,kettle=1,blender=1"

func (a *app) ideasCommand() *cobra.Command {
	var ask bot.IdeaAsk
	var asJSON bool
	var without []string
	var needs, serve string
	kit := kitValue{}
	kit.Set(usualKit)
	c := &cobra.Command{
		Use:   "ideas",
		Short: "What to make of what is free",
		Long: `What to make of what is free: ideas ranked by what they use up, how soon it
spoils, and the minutes and kit at hand. Food that cooks have claimed is left
out. Mind allergies and the labels: an idea knows no guest.`,
		Example: `  scullion ideas --minutes 20 --no oven
  scullion ideas --item leek --portions 4
  scullion ideas --needs "vegetarian, nut allergy" --serve cold
  scullion ideas --kit "ring=2,oven=1" --json`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			var err error
			if ask.Kit, ask.Needs, err = held(c, kit, without, needs); err != nil {
				return err
			}
			switch ask.Serve = planner.Serve(serve); ask.Serve {
			case "", planner.Hot, planner.Cold:
			default:
				return usage{fmt.Sprintf("--serve %s: hot or cold; see: %s --help", serve, c.CommandPath())}
			}
			return a.ideas(c, ask, asJSON)
		},
	}
	f := c.Flags()
	f.Var(&numberValue{&ask.Minutes, 24 * 60}, "minutes", "no longer than so many minutes")
	f.Var(&numberValue{&ask.Portions, 1000}, "portions", "for so many")
	f.StringVar(&ask.Item, "item", "", "only with this `food`")
	f.Var(&kit, "kit", "what there is to cook on and with")
	f.StringArrayVar(&without, "no", nil, "leave out a piece of `kit`; may be given again")
	f.StringVar(&needs, "needs", "", "allergies and diets at the table, in words: \"vegan\", \"nut allergy, no dairy\"")
	f.StringVar(&serve, "serve", "", "only what is served `hot` or cold")
	f.BoolVar(&asJSON, "json", false, "print JSON, for programs")
	c.RegisterFlagCompletionFunc("item", a.completeItem)
	c.RegisterFlagCompletionFunc("serve", cobra.FixedCompletions([]string{"hot", "cold"}, cobra.ShellCompDirectiveNoFileComp))
	c.RegisterFlagCompletionFunc("no", cobra.FixedCompletions(technique.Scarce, cobra.ShellCompDirectiveNoFileComp))
	return c
}

// held gives what an answer is held to: the kit less what is not there, and what the table
// must not be given.
func held(c *cobra.Command, kit kitValue, without []string, needs string) (map[string]int, planner.Needs, error) {
	if err := kit.drop(without); err != nil {
		return nil, planner.Needs{}, usage{fmt.Sprintf("--no: %v; see: %s --help", err, c.CommandPath())}
	}
	n, err := needsIn(needs)
	if err != nil {
		return nil, n, usage{fmt.Sprintf("--needs: %v; see: %s --help", err, c.CommandPath())}
	}
	return kit, n, nil
}

// needsIn reads what the table must not be given.
func needsIn(said string) (n planner.Needs, err error) {
	if strings.TrimSpace(said) == "" {
		return n, nil
	}
	for part := range strings.SplitSeq(said, ",") {
		l, ok := (&language.Reader{Foods: food.Default().Index()}).Limits(part)
		if more := bot.Needs(l); ok && (len(more.Avoid) > 0 || more.Vegan || more.Meatless) {
			n.Avoid, n.Vegan, n.Meatless = append(n.Avoid, more.Avoid...), n.Vegan || more.Vegan, n.Meatless || more.Meatless
			continue
		}
		return n, fmt.Errorf("%q is not understood: say it like \"vegan\", \"nut allergy\", \"no dairy\"", strings.TrimSpace(part))
	}
	return n, nil
}

func (a *app) ideas(c *cobra.Command, ask bot.IdeaAsk, asJSON bool) error {
	k, err := a.viewFit(c.Context())
	if err != nil {
		return err
	}
	if len(k.Lines) == 0 {
		a.hintEmpty()
		if !asJSON {
			return nil
		}
	}
	ask.Needs = bot.WithTable(ask.Needs, bot.NeedsAt(k, a.now()), ask.Portions)
	ideas := bot.Ideas(k, bot.Foods(a.foods, k), a.today(), ask)
	if asJSON {
		return printJSON(a, ideas)
	}
	return a.print(bot.SayIdeas(ideas))
}

func (a *app) completeItem(c *cobra.Command, _ []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	k, err := a.view(c.Context())
	if err != nil {
		return nil, cobra.ShellCompDirectiveError
	}
	return bot.Completions(k), cobra.ShellCompDirectiveNoFileComp
}

// kitValue is a flag such as "ring=2,oven=1": how many of each there are.
// What it does not name, there is not.
type kitValue map[string]int

func (v kitValue) Set(s string) error {
	read := map[string]int{}
	for part := range strings.SplitSeq(s, ",") {
		name, count, counted := strings.Cut(strings.TrimSpace(part), "=")
		n := 1
		if counted {
			var err error
			if n, err = strconv.Atoi(count); err != nil || n < 0 || n > 100 {
				return fmt.Errorf("%s=%s: how many is a whole number, as in %s", name, count, usualKit)
			}
		}
		if !slices.Contains(technique.Scarce, name) {
			return fmt.Errorf("%q is not kit; known are %s", name, strings.Join(technique.Scarce, ", "))
		}
		read[name] = n
	}
	clear(v)
	maps.Copy(v, read)
	return nil
}

// drop takes kit away.
func (v kitValue) drop(names []string) error {
	for _, name := range names {
		if !slices.Contains(technique.Scarce, name) {
			return fmt.Errorf("%q is not kit; known are %s", name, strings.Join(technique.Scarce, ", "))
		}
		v[name] = 0
	}
	return nil
}

func (v kitValue) Type() string { return "kit" }

func (v kitValue) String() string {
	var parts []string
	for _, name := range technique.Scarce {
		if n, ok := v[name]; ok {
			parts = append(parts, fmt.Sprintf("%s=%d", name, n))
		}
	}
	return strings.Join(parts, ",")
}
