package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
)

// replace swaps the contents of the writer's file for the copy's. Foreign keys
// are off meanwhile, since tables come and go in any order; the copy has
// passed its check.
func (w *writer) replace(path, copied string, overwrite bool) (err error) {
	if err := w.run("ATTACH ? AS copy", copied); err != nil {
		return err
	}
	defer w.after(&err, "DETACH copy")
	if err := w.run("PRAGMA foreign_keys = OFF"); err != nil {
		return err
	}
	defer w.after(&err, "PRAGMA foreign_keys = ON")
	if err := w.begin(); err != nil {
		return err
	}
	if w.last > 0 && !overwrite {
		w.rollback()
		return hasMessages(path)
	}
	if err := w.swap(); err != nil {
		w.rollback()
		return err
	}
	w.forget()
	if err := w.run("COMMIT"); err != nil {
		w.rollback()
		return err
	}
	return nil
}

// after runs a statement that must run whatever came before.
func (w *writer) after(err *error, query string) {
	if e := w.run(query); *err == nil {
		*err = e
	}
}

// swap drops what the file has and makes what the copy has: tables and their
// rows first, then indexes, then triggers, which would else watch the rows.
func (w *writer) swap() error {
	old, err := w.objects("main")
	if err != nil {
		return err
	}
	for _, o := range old {
		if err := w.run("DROP " + o.kind + " IF EXISTS main." + quote(o.name)); err != nil {
			return err
		}
	}
	made, err := w.objects("copy")
	if err != nil {
		return err
	}
	for _, kind := range []string{"table", "index", "view", "trigger"} {
		for _, o := range made {
			if o.kind != kind {
				continue
			}
			if err := w.run(o.sql); err != nil {
				return fmt.Errorf("%s %s: %w", o.kind, o.name, err)
			}
			if kind == "table" {
				if err := w.run("INSERT INTO main." + quote(o.name) + " SELECT * FROM copy." + quote(o.name)); err != nil {
					return fmt.Errorf("%s %s: %w", o.kind, o.name, err)
				}
			}
		}
	}
	return nil
}

type object struct{ kind, name, sql string }

// objects lists what was made by statements of ours, in order of making.
func (w *writer) objects(schema string) (list []object, err error) {
	rows, err := w.conn.QueryContext(context.Background(),
		"SELECT type, name, sql FROM "+schema+".sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY rowid")
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		var o object
		err := rows.Scan(&o.kind, &o.name, &o.sql)
		list = append(list, o)
		return err
	})
	return list, err
}

// run executes a statement that is not worth keeping prepared.
func (w *writer) run(query string, args ...any) error {
	_, err := w.conn.ExecContext(context.Background(), query, args...)
	return err
}

func quote(name string) string { return `"` + strings.ReplaceAll(name, `"`, `""`) + `"` }
