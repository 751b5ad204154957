package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"github.com/adrg/xdg"
	"github.com/spf13/cobra"

	"scullion/bot/terminal"
	"scullion/pantry/food"
)

// Exit statuses.
const (
	done       = 0
	failed     = 1
	wrongUsage = 2
)

// app is what the commands share.
type app struct {
	in      io.Reader
	out     io.Writer // for answers
	screen  io.Writer // the same, as it is, for a room
	err     io.Writer // for everything else
	env     func(string) string
	now     func() time.Time
	home    string // the folder for the user's data
	db      string
	kitchen string
	units   string
	own     string          // a file of foods of the kitchen's own
	foods   *food.Catalogue // with own; nil: the embedded ones
}

// run is the whole program but for the process around it; it gives the exit
// status.
func run(ctx context.Context, args []string, in io.Reader, out, errOut io.Writer, env func(string) string) int {
	xdg.Reload()
	a := &app{in: in, out: outlet{out}, screen: out, err: errOut, env: env, now: time.Now, home: filepath.Join(xdg.DataHome, "scullion")}
	root := a.root()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return done
	}
	fmt.Fprintln(errOut, "scullion: "+terminal.OneLine(err))
	if errors.As(err, new(usage)) {
		return wrongUsage
	}
	return failed
}

func (a *app) root() *cobra.Command {
	chat := a.chatCommand()
	root := &cobra.Command{
		Use:   "scullion",
		Short: "Keeps count in a kitchen, and says what to do with what is left",
		Long: `Scullion keeps count in a kitchen. Cooks say what happens, in their own words;
it keeps the stock, says what is left and what to make of it.

Without a command it opens the kitchen in this terminal, as "scullion chat" does.
Everything is kept in one file on this machine.`,
		Example: `  scullion               open the kitchen and type: used 300g leek in the tart
  scullion chat --demo   watch a service go by, then try it yourself
  scullion left          what is left, most urgent first`,
		Args:          a.noCommand,
		RunE:          chat.RunE,
		SilenceErrors: true,
		SilenceUsage:  true,

		SuggestionsMinimumDistance: 2,
	}
	root.Flags().AddFlagSet(chat.Flags())
	root.SetFlagErrorFunc(flagError)
	all := root.PersistentFlags()
	all.StringVar(&a.db, "db", filepath.Join(a.home, "kitchen.db"), "the kitchen `file`")
	a.kitchen, a.units = "kitchen", "uk"
	all.Var(&nameValue{&a.kitchen}, "kitchen", "which kitchen of the file, by `name`")
	all.Var(&choiceValue{&a.units, []string{"uk", "us"}}, "units", "whose pints and cups: uk or us")
	root.RegisterFlagCompletionFunc("units", cobra.FixedCompletions([]string{"uk", "us"}, cobra.ShellCompDirectiveNoFileComp))
	all.StringVar(&a.own, "foods", a.env("SCULLION_FOODS"), "a `file` of foods of the kitchen's own; see: scullion food --help")
	root.PersistentPreRunE = func(*cobra.Command, []string) (err error) {
		a.foods, err = catalogue(a.own)
		return err
	}
	root.AddCommand(chat, a.pipeCommand(), a.leftCommand(), a.ideasCommand(), a.planCommand(), a.logCommand(), a.wrapCommand(), a.sheetCommand(), a.labelsCommand(), a.boardCommand(), a.foodCommand(),
		a.serveCommand(), a.forgetCommand(), a.backupCommand(), a.restoreCommand(), a.exportCommand(), a.importCommand(), a.checkCommand())
	return root
}

// noCommand refuses words that are no command, offering what is near.
func (a *app) noCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	near := root.SuggestionsFor(args[0])
	if len(near) > 0 {
		return usage{fmt.Sprintf("there is no command %q; did you mean: %s", args[0], strings.Join(near, ", "))}
	}
	return usage{fmt.Sprintf("there is no command %q; scullion --help lists them", args[0])}
}
