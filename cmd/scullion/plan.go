package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"scullion/bot"
	"scullion/planner"
	"scullion/planner/technique"
)

func (a *app) planCommand() *cobra.Command {
	var ask planner.PlanAsk
	var asJSON bool
	var without []string
	var needs, file string
	seconds := 2
	on := false
	covers := 0 // for how many, where that was said
	kit := kitValue{}
	kit.Set(usualKit)
	ask.Dishes, ask.Portions, ask.Minutes, ask.Cooks = 3, 2, 30, 1
	c := &cobra.Command{
		Use:   "plan",
		Short: "Dishes for the crate, what goes into each, and the timetable",
		Long: `Dishes that use up what is free and do not taste alike, how much of what goes
into each, and a timetable that the hands and the kit can keep. It says how
much of the crate the plan uses, and how much any plan could. Mind allergies
and the labels: read them before you cook.`,
		Example: `  scullion plan --dishes 3 --portions 2 --minutes 30
  scullion plan --dishes 2 --cooks 2 --no oven --needs "vegetarian, nut allergy"
  scullion plan --cooks 2 --png dinner.png
  scullion plan --on --png now.png
  scullion plan --minutes 60 --seconds 5 --json`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			var err error
			if ask.Kit, ask.Needs, err = held(c, kit, without, needs); err != nil {
				return err
			}
			if c.Flags().Changed("portions") {
				covers = ask.Portions
			}
			if file != "" { // before it thinks
				if err := isNew(file); err != nil {
					return err
				}
			}
			if on {
				return a.planOn(c.Context(), file)
			}
			return a.plan(c.Context(), ask, covers, time.Duration(seconds)*time.Second, asJSON, file)
		},
	}
	f := c.Flags()
	f.Var(&numberValue{&ask.Dishes, 8}, "dishes", "so many dishes")
	f.Var(&numberValue{&ask.Portions, 200}, "portions", "each for so many")
	f.Var(&numberValue{&ask.Minutes, 24 * 60}, "minutes", "ready in so many minutes")
	f.Var(&numberValue{&ask.Cooks, 20}, "cooks", "so many cooks")
	f.Var(&kit, "kit", "what there is to cook on and with")
	f.StringArrayVar(&without, "no", nil, "leave out a piece of `kit`; may be given again")
	f.StringVar(&needs, "needs", "", "allergies and diets at the table, in words: \"vegan\", \"nut allergy, no dairy\"")
	f.Var(&numberValue{&seconds, 600}, "seconds", "think for so long at most")
	f.BoolVar(&asJSON, "json", false, "print JSON, for programs")
	f.BoolVar(&on, "on", false, "make none: show the one that is on, what is done of it and what runs")
	f.StringVar(&file, "png", "", "draw the timetable into this new `file` too")
	c.MarkFlagsMutuallyExclusive("on", "json")
	c.RegisterFlagCompletionFunc("no", cobra.FixedCompletions(technique.Scarce, cobra.ShellCompDirectiveNoFileComp))
	return c
}

func (a *app) plan(ctx context.Context, ask planner.PlanAsk, covers int, think time.Duration, asJSON bool, file string) error {
	k, err := a.viewFit(ctx)
	if err != nil {
		return err
	}
	if len(k.Lines) == 0 {
		a.hintEmpty()
	}
	ask.Needs = bot.WithTable(ask.Needs, bot.NeedsAt(k, a.now()), covers)
	ctx, cancel := context.WithTimeout(ctx, think)
	defer cancel()
	p, err := bot.MakePlan(ctx, k, bot.Foods(a.foods, k), a.today(), ask, a.thinking(asJSON))
	if err != nil {
		return fmt.Errorf("%w: %s", err, bot.PlanAdvice(err))
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return ctx.Err()
	}
	start := a.now()
	if asJSON {
		err = a.printOne(p)
	} else {
		err = a.print(bot.SayPlan(p, start))
	}
	if err != nil || file == "" {
		return err
	}
	return drawPlan(&p, start, file)
}

// thinking tells on the terminal how far a plan has come: the gap between what it uses and
// what any can. It is nil where nobody looks.
func (a *app) thinking(asJSON bool) func(used, bound float64) {
	screen, ok := a.err.(*os.File)
	if asJSON || !ok || !term.IsTerminal(int(screen.Fd())) {
		return nil
	}
	return func(used, bound float64) {
		fmt.Fprintf(screen, "\ruses %.0f%%, at most %.0f%% \r", used*100, bound*100)
	}
}
