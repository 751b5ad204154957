package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"scullion/bot/terminal"
	"scullion/pantry"
)

// textLog is the ledger for people: one entry a line.
type textLog struct{ out io.Writer }

func (p *textLog) entry(l logLine) error {
	what := []string{l.Kind}
	if l.Approx {
		what = append(what, "about")
	}
	switch {
	case l.Taught != nil:
		what = []string{"taught: " + strings.TrimSuffix(l.Taught.Say(), ".")}
	case l.Kind != "withdrawn":
		what = append(what, l.said, l.Item)
	}
	if l.State != "" {
		what = append(what, l.State)
	}
	if l.Trim {
		what = append(what, "trim")
	}
	if _, away := pantry.Away(l.Dish); away {
		what = append(what, l.Dish)
	} else if l.Dish != "" {
		what = append(what, "for the "+l.Dish)
	}
	if l.Why != "said" || !l.InForce {
		what = append(what, "("+status(l)+")")
	}
	at := strings.Replace(l.At[:min(16, len(l.At))], "T", " ", 1)
	_, err := fmt.Fprintf(p.out, "%-16s  %-8s  %s\n", at, terminal.Plain(l.Cook), terminal.Plain(strings.Join(what, " ")))
	return err
}

func status(l logLine) string {
	if l.InForce {
		return l.Why
	}
	return l.Why + ", no longer in force"
}

func (p *textLog) end() error { return nil }

// jsonLog is the ledger as one JSON list, an entry a line.
type jsonLog struct {
	out io.Writer
	any bool
}

func (p *jsonLog) entry(l logLine) error {
	b, err := json.Marshal(l)
	if err != nil {
		return err
	}
	lead := "[\n"
	if p.any {
		lead = ",\n"
	}
	p.any = true
	_, err = fmt.Fprintf(p.out, "%s%s", lead, b)
	return err
}

func (p *jsonLog) end() error {
	text := "\n]\n"
	if !p.any {
		text = "[]\n"
	}
	_, err := io.WriteString(p.out, text)
	return err
}

// csvLog is the ledger as a table with a heading.
type csvLog struct {
	w     *csv.Writer
	begun bool
}

func newCSVLog(out io.Writer) *csvLog { return &csvLog{w: csv.NewWriter(out)} }

func (p *csvLog) head() {
	if !p.begun {
		p.begun = true
		p.w.Write(strings.Split("at,message,cook,kind,item,amount,unit,pieces,piece,dish,approx,trim,use_by,cost,rev,why,by,in_force,taught,state", ","))
	}
}

func (p *csvLog) entry(l logLine) error {
	p.head()
	return p.w.Write([]string{
		l.At, cell(l.Message), cell(l.Cook), l.Kind, cell(l.Item), number(&l.Amount), l.Unit, number(l.Pieces), l.Piece, cell(l.Dish),
		strconv.FormatBool(l.Approx), strconv.FormatBool(l.Trim), l.UseBy, number(l.Cost),
		strconv.Itoa(l.Rev), l.Why, cell(l.By), strconv.FormatBool(l.InForce), cell(taught(l)), l.State,
	})
}

func (p *csvLog) end() error {
	p.head()
	p.w.Flush()
	return p.w.Error()
}

// taught is what a lesson says: "celeriac", or a new food's facts.
func taught(l logLine) string {
	if l.Taught == nil {
		return ""
	}
	return l.Taught.Say()
}

// cell keeps a spreadsheet from taking what a cook said for a formula.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}

func number(n *float64) string {
	if n == nil {
		return ""
	}
	return strconv.FormatFloat(*n, 'f', -1, 64)
}
