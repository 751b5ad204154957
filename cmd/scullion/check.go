package main

import (
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"

	"scullion/bot/terminal"
	"scullion/pantry/store"
)

func (a *app) checkCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Verify the ledger against its balances",
		Long: `Add up the whole ledger again, from the first entry, and compare it with the
balances that are kept; look the file itself over as well. Nothing is changed.
The exit status is 1 where something is wrong.`,
		Example: `  scullion check
  scullion check --db tuesday.db`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			var r store.Report
			err := a.withFile(c.Context(), func(s *store.Store) (err error) {
				r, err = s.Check(c.Context())
				return err
			})
			if err != nil {
				return a.noFile(err)
			}
			return a.report(r, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON, for programs")
	return c
}

// checked is the report in JSON.
type checked struct {
	Kitchens int      `json:"kitchens"`
	Lines    int      `json:"lines"`
	Messages int      `json:"messages"`
	Entries  int      `json:"entries"`
	Wrong    []string `json:"wrong"`
}

func (a *app) report(r store.Report, asJSON bool) error {
	var err error
	if asJSON {
		err = json.NewEncoder(a.out).Encode(checked{r.Kitchens, r.Lines, r.Messages, r.Entries, append([]string{}, r.Wrong...)})
	} else {
		err = a.sayReport(r)
	}
	if err == nil && len(r.Wrong) > 0 {
		err = fmt.Errorf("%s: %d wrong, the first: %s; keep a copy of the file, then restore the last backup that checks",
			a.db, len(r.Wrong), r.Wrong[0])
	}
	return err
}

func (a *app) sayReport(r store.Report) error {
	for _, w := range r.Wrong {
		if _, err := fmt.Fprintln(a.out, terminal.Plain(w)); err != nil {
			return err
		}
	}
	verdict := "all balances agree"
	if len(r.Wrong) > 0 {
		verdict = "not all is well"
	}
	_, err := fmt.Fprintf(a.out, "%s, %s, %s, %s: %s.\n", count(r.Kitchens, "kitchen"), count(r.Lines, "line"),
		count(r.Messages, "message"), count(r.Entries, "entry"), verdict)
	return err
}

func count(n int, what string) string {
	switch {
	case n == 1:
		return "1 " + what
	case what == "entry":
		what = "entrie"
	}
	return fmt.Sprintf("%d %ss", n, what)
}
