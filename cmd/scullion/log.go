package main

import (
	"time"

	"github.com/spf13/cobra"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/measure"
	"scullion/pantry/store"
)

func (a *app) logCommand() *cobra.Command {
	var asJSON, asCSV, all bool
	c := &cobra.Command{
		Use:   "log",
		Short: "Every entry of the ledger, oldest first",
		Long: `The ledger: who did what to which food, oldest first. Entries that were edited,
undone or corrected since are left out unless --all is given; the ledger itself
forgets nothing.`,
		Example: `  scullion log
  scullion log --csv > service.csv
  scullion log --all --json`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			if asJSON && asCSV {
				return usage{"--json and --csv do not go together; choose one"}
			}
			var p logPrinter = &textLog{out: a.out}
			if asJSON {
				p = &jsonLog{out: a.out}
			} else if asCSV {
				p = newCSVLog(a.out)
			}
			return a.log(c, p, all)
		},
	}
	f := c.Flags()
	f.BoolVar(&all, "all", false, "also what is no longer in force, and why")
	f.BoolVar(&asCSV, "csv", false, "print CSV, for spreadsheets")
	f.BoolVar(&asJSON, "json", false, "print JSON, for programs")
	return c
}

// logPrinter writes the ledger in one form.
type logPrinter interface {
	entry(logLine) error
	end() error
}

func (a *app) log(c *cobra.Command, p logPrinter, all bool) error {
	some := false
	err := a.withFile(c.Context(), func(s *store.Store) error {
		return s.History(c.Context(), a.kitchen, func(l pantry.Logged) error {
			if !all && (!l.InForce || l.Act == "" && l.Lesson == nil) {
				return nil
			}
			some = true
			return p.entry(logged(l))
		})
	})
	if err != nil && !nothing(err) {
		return err
	}
	if !some {
		a.hintEmpty()
	}
	return p.end()
}

// logLine is an entry with where it stands in the ledger.
type logLine struct {
	At      string `json:"at"`
	Message string `json:"message"`
	bot.Entry
	Rev     int    `json:"rev"`
	Why     string `json:"why"`
	By      string `json:"by"`
	InForce bool   `json:"in_force"`

	Taught *bot.Lesson `json:"taught,omitempty"`

	said string // the amount as a cook would say it
}

func logged(l pantry.Logged) logLine {
	line := logLine{
		At: sayAt(l.At), Message: l.Message, Entry: shown(l),
		Rev: l.Rev, Why: l.Why, By: l.By, InForce: l.InForce,
		said: measure.Say(l.Amount, l.Unit),
	}
	if l.Lesson != nil {
		line.Kind, line.Item = "teach", l.Lesson.Name
		line.Taught = &bot.Lesson{Name: l.Lesson.Name, Means: l.Lesson.Means, Facts: l.Lesson.Cells}
	}
	return line
}

func sayAt(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.RFC3339)
}

// shown gives the entry in grams, millilitres, pieces and pounds. One without
// an act says that the message's entries were withdrawn.
func shown(l pantry.Logged) bot.Entry {
	e := bot.Entry{
		Kind: string(l.Act), Item: l.Item, Amount: l.Amount.Units(), Unit: l.Unit.String(), Piece: l.Piece,
		Dish: l.Dish, Approx: l.Approx, Trim: l.Trim, Cook: l.Cook,
	}
	if l.Lot.Label || l.Lot.State != "" {
		e.UseBy, e.State = string(l.Lot.Date), string(l.Lot.State)
	}
	if l.Act == "" {
		e.Kind, e.Unit = "withdrawn", ""
	}
	if l.Pieces != 0 {
		n := float64(l.Pieces) / 1000
		e.Pieces = &n
	}
	if l.Lot.Cost != 0 {
		n := float64(l.Lot.Cost) / 100
		e.Cost, e.Sign = &n, l.Sign
	}
	return e
}
