package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"scullion/pantry/tables"
)

// Relink gives a text that the program keeps for itself with the ids of lines in it changed by to.
type Relink func(text string, to func(line int64) int64) string

// ExportJSON writes a kitchen to a new file, as one JSON document; see package tables. It is the
// kitchen as it stands at one moment, while others read and write it, and the file gets its name
// only once it is whole and on the disk. A file that is there is never touched. ErrNoKitchen
// where the store has no kitchen of that name.
func (s *Store) ExportJSON(ctx context.Context, kitchen, file string, relink Relink) error {
	if _, err := os.Lstat(file); err == nil {
		return exported(file)
	}
	f, err := os.CreateTemp(filepath.Dir(file), "."+filepath.Base(file)+".*.part")
	if err != nil {
		return unwritable(file, err)
	}
	defer os.Remove(f.Name())
	defer f.Close()
	if err := s.export(ctx, kitchen, file, tables.NewJSON(f, kitchen), relink); err != nil {
		return err
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return unwritable(file, err)
	}
	return place(f.Name(), file)
}

// ExportCSV is ExportJSON to a folder of CSV files, which must be new or empty.
func (s *Store) ExportCSV(ctx context.Context, kitchen, dir string, relink Relink) error {
	dir = filepath.Clean(dir)
	if list, err := os.ReadDir(dir); len(list) > 0 || err != nil && !errors.Is(err, fs.ErrNotExist) {
		return exported(dir)
	}
	temp, err := os.MkdirTemp(filepath.Dir(dir), "."+filepath.Base(dir)+".*.part")
	if err != nil {
		return unwritable(dir, err)
	}
	defer os.RemoveAll(temp)
	if err := s.export(ctx, kitchen, dir, tables.NewCSV(temp, kitchen), relink); err != nil {
		return err
	}
	os.Remove(dir) // an empty folder; where it is none, or filled since, the next says so
	if err := os.Rename(temp, dir); err != nil {
		return unwritable(dir, err)
	}
	return syncFolder(filepath.Dir(dir))
}

func exported(file string) error {
	return &Fault{file, "there is something of this name already", "name a new one; an export never replaces anything", nil}
}

func unwritable(file string, err error) error {
	return &Fault{file, "this cannot be written", "check its folder and the room on the disk, or name another", err}
}

// export writes every table. What the writer has against it is a Fault of the file's.
func (s *Store) export(ctx context.Context, kitchen, file string, w tables.Writer, relink Relink) error {
	return s.read(ctx, func(r reader) error {
		id, err := kitchenID(ctx, r, kitchen)
		if err != nil {
			return err
		}
		e := exporter{ctx, r, id, w, map[int64]int64{}, relink}
		if err := e.number(); err != nil {
			return err
		}
		for _, t := range tables.All {
			if err := w.Table(t); err != nil {
				return unwritable(file, err)
			}
			err := e.table(t)
			var x writing
			if errors.As(err, &x) {
				return unwritable(file, x.error)
			}
			if err != nil {
				return err
			}
		}
		if err := w.Close(); err != nil {
			return unwritable(file, err)
		}
		return nil
	})
}

// writing is an error of the writer, not of the reader.
type writing struct{ error }

type exporter struct {
	ctx     context.Context
	r       reader
	kitchen int64
	w       tables.Writer
	lines   map[int64]int64 // place of each line, from 1, by id
	relink  Relink
}

func (e *exporter) number() error {
	return each(e.ctx, e.r, "SELECT id FROM line WHERE kitchen = ? ORDER BY id", func(rows *sql.Rows) error {
		var id int64
		err := rows.Scan(&id)
		e.lines[id] = int64(len(e.lines)) + 1
		return err
	}, e.kitchen)
}

// link gives what is kept with the places of lines for their ids.
func (e *exporter) link(text string) string {
	if e.relink == nil {
		return text
	}
	return e.relink(text, func(id int64) int64 { return e.lines[id] })
}

func (e *exporter) table(t *tables.Table) error {
	src := sources[t.Name]
	var columns []string
	for _, c := range t.Columns {
		columns = append(columns, src.column(c))
	}
	query := "SELECT " + strings.Join(columns, ", ") + " FROM " + src.from + " WHERE " + src.of + ".kitchen = ?1 ORDER BY " + src.order
	return each(e.ctx, e.r, query, func(rows *sql.Rows) error {
		values, err := scanValues(rows, t)
		if err != nil {
			return fmt.Errorf("table %s: %w", src.table, err)
		}
		for i, c := range t.Columns {
			switch c.Kind {
			case tables.Reads: // holds the unit so far
				values[i] = tables.Say(values[i-1].(int64), values[i].(string))
			case tables.Kept:
				values[i] = e.link(values[i].(string))
			}
		}
		if err := e.w.Row(values); err != nil {
			return writing{err}
		}
		return nil
	}, e.kitchen)
}

// scanValues reads a row in the types of a tables.Writer.
func scanValues(rows *sql.Rows, t *tables.Table) ([]any, error) {
	to := make([]any, len(t.Columns))
	for i, c := range t.Columns {
		switch c.Kind {
		case tables.Number, tables.Amount, tables.Sum, tables.Milli, tables.Micro:
			to[i] = new(int64)
		case tables.Flag:
			to[i] = new(bool)
		default:
			to[i] = new(string)
		}
	}
	if err := rows.Scan(to...); err != nil {
		return nil, err
	}
	for i, p := range to {
		switch p := p.(type) {
		case *int64:
			to[i] = *p
		case *bool:
			to[i] = *p
		case *string:
			to[i] = *p
		}
	}
	return to, nil
}

// source is where the rows of a table lie in the file.
type source struct {
	table string // its name there
	from  string // with the tables that it is joined to
	of    string // the one of these that names the kitchen
	order string
	byN   bool // it has messages by n, not by id
}

// sources are by the names of tables.All. Rows of messages come along with them, in their order;
// the plus sign keeps SQLite from the index of ids.
var sources = map[string]source{
	"cooks":     {"cook", "cook", "cook", "cook.name", false},
	"dishes":    {"dish", "dish", "dish", "dish.n", false},
	"lines":     {"line", "line JOIN balance ON balance.line = line.id", "line", "line.id", false},
	"messages":  {"message", "message", "+message", "message.n", false},
	"changes":   {"change", ofMessages("change"), "+message", "message.n, change.event", true},
	"revisions": {"revision", ofMessages("revision") + " LEFT JOIN message AS maker ON maker.n = revision.by", "+message", "message.n, revision.rev", true},
	"entries":   {"entry", ofMessages("entry") + " JOIN line ON line.id = entry.line", "+message", "message.n, entry.rev, entry.part", true},
	"lessons":   {"lesson", ofMessages("lesson"), "+message", "message.n, lesson.rev, lesson.part", true},
	"needs":     {"need", ofMessages("need") + " LEFT JOIN message AS taker ON taker.n = need.gone", "+message", "message.n, need.part", true},
	"doubts":    {"doubt", ofMessages("doubt") + " JOIN message AS maker ON maker.n = doubt.by", "+message", "message.n, doubt.part", true},
	"questions": {"question", "question", "question", "question.cook", false},
	"choices":   {"choice", byMessage("choice"), "choice", "message.n, choice.message, choice.part", false},
	"services":  {"service", byMessage("service"), "service", "message.n, service.message", false},
	"wrapups":   {"wrapup", byMessage("wrapup"), "wrapup", "message.n, wrapup.message", false},
	"timers":    {"timer", byMessage("timer"), "timer", "message.n, timer.message, timer.part", false},
}

func ofMessages(table string) string {
	return "message CROSS JOIN " + table + " ON " + table + ".message = message.n"
}

func byMessage(table string) string {
	return table + " LEFT JOIN message ON message.kitchen = " + table + ".kitchen AND message.id = " + table + ".message"
}

// column is where a column of the table comes from.
func (s *source) column(c tables.Column) string {
	switch {
	case c.Kind == tables.Message && s.byN && c.Name == "by":
		return "maker.id"
	case c.Kind == tables.Perhaps:
		return "coalesce(taker.id, '')"
	case c.Kind == tables.Message && s.byN:
		return "message.id"
	case c.Kind == tables.Line:
		return "line.name"
	case c.Kind == tables.Reads:
		return "line.unit"
	case c.Kind == tables.Sum && c.Name == "claimed":
		return "(SELECT coalesce(sum(value ->> 'Amount'), 0) FROM json_each(balance.holds))"
	case c.Kind == tables.Sum:
		return "balance." + c.Name
	}
	return s.table + "." + c.Name
}
