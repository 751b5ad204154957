package store

import (
	"context"
	"errors"
	"strings"

	"scullion/pantry"
	"scullion/pantry/tables"
)

// Import reads a kitchen that ExportJSON (path is a file) or ExportCSV (a folder) has written,
// in one transaction: all of it is there or nothing. It is the same kitchen, messages in the
// same order with all their revisions; balances are folded anew and held against what the file
// says. Name is what to call it here, "" as the file does. What is wrong is a *Fault: with the
// file and line where it stands, or that this store has a kitchen of that name in which something
// has been said.
func (s *Store) Import(ctx context.Context, path, name string, relink Relink) error {
	return s.send(ctx, &job{alone: func(w *writer) error {
		if err := w.begin(); err != nil {
			return err
		}
		x := &importer{w: w, file: s.path, name: name, relink: relink, before: w.last}
		if _, err := tables.Read(path, x); err != nil {
			w.rollback()
			return ofTables(err)
		}
		w.forget() // what was known of the file before
		err := w.run("COMMIT")
		if err != nil {
			w.rollback()
		}
		return err
	}})()
}

// CheckImport reads such a file as Import does, gives the kitchen's name, and writes nothing.
func CheckImport(path string) (kitchen string, err error) {
	kitchen, err = tables.Read(path, nil)
	return kitchen, ofTables(err)
}

// ofTables gives what package tables has found as a Fault.
func ofTables(err error) error {
	var f *tables.Fault
	if errors.As(err, &f) {
		return &Fault{f.Place(), f.What, f.Do, f.Err}
	}
	return err
}

// importer writes the rows that tables.Read hands on.
type importer struct {
	w      *writer
	file   string
	name   string
	relink Relink

	kitchen int64
	before  int64   // n of the last message that the file had
	lines   []int64 // ids, in the order of the table
	heard   int64   // messages so far
	dishes  int64
}

func (x *importer) Kitchen(name string) error {
	if x.name == "" {
		x.name = name
	}
	k, err := x.w.kitchen(x.name)
	if err != nil {
		return err
	}
	x.kitchen = k.ID
	var n int
	if err := x.w.row("SELECT count(*) FROM (SELECT 1 FROM message WHERE kitchen = ? LIMIT 1)", k.ID).Scan(&n); err != nil {
		return err
	}
	if n+len(k.Lines)+len(k.Cooks) > 0 {
		return &Fault{x.file, "there is a kitchen " + quote(x.name) + " already", "import to a new file with --db NEWFILE, or under another name with --kitchen NAME; nothing was written", nil}
	}
	return nil
}

func (x *importer) Row(t *tables.Table, values []any) error {
	src := sources[t.Name]
	columns, args := x.own(t)
	for i, c := range t.Columns {
		switch v := values[i].(type) {
		case tables.Ref:
			switch {
			case c.Kind == tables.Line:
				args = append(args, x.lines[v.N-1])
			case src.byN:
				args = append(args, x.before+int64(v.N))
			default:
				args = append(args, v.Name)
			}
		case string:
			if c.Kind == tables.Reads {
				continue
			}
			switch c.Kind {
			case tables.Kept:
				args = append(args, x.link(v))
			case tables.Perhaps: // none
				args = append(args, 0)
			default:
				args = append(args, v)
			}
		default:
			if c.Kind == tables.Sum {
				continue
			}
			args = append(args, v)
		}
		columns = append(columns, c.Name)
	}
	query := "INSERT INTO " + src.table + " (" + strings.Join(columns, ", ") + ") VALUES (?" + strings.Repeat(", ?", len(args)-1) + ")"
	if t.Name != "lines" {
		return x.w.exec(query, args...)
	}
	var id int64
	err := x.w.row(query+" RETURNING id", args...).Scan(&id)
	x.lines = append(x.lines, id)
	return err
}

// own gives what a row has in the file besides the table's columns.
func (x *importer) own(t *tables.Table) (columns []string, args []any) {
	if !sources[t.Name].byN {
		columns, args = append(columns, "kitchen"), append(args, x.kitchen)
	}
	switch t.Name {
	case "messages":
		x.heard++
		columns, args = append(columns, "n"), append(args, x.before+x.heard)
	case "dishes":
		x.dishes++
		columns, args = append(columns, "n"), append(args, x.dishes)
	}
	return columns, args
}

// link gives what is kept with the ids of lines for their places.
func (x *importer) link(text string) string {
	if x.relink == nil {
		return text
	}
	return x.relink(text, func(place int64) int64 {
		if place < 1 || place > int64(len(x.lines)) {
			return 0
		}
		return x.lines[place-1]
	})
}

func (x *importer) Balances(lines []*pantry.Line) error {
	b := &book{w: x.w}
	for i, l := range lines {
		l.ID = x.lines[i]
		if err := x.w.exec(emptyBalance, l.ID, noHolds); err != nil {
			return err
		}
		if err := b.saveBalance(l); err != nil {
			return err
		}
	}
	return nil
}
