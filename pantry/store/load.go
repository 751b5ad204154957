package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

const lineColumns = "line.id, line.name, food, unit, shelf, received, made, used, binned, variance, trimmed, lots, holds"

// reader is a connection or a transaction.
type reader interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// ErrNoKitchen is returned where the file has no kitchen of that name.
var ErrNoKitchen = errors.New("there is no such kitchen yet")

// load reads a kitchen as it stands: lines with their balances, dishes, cooks
// and open questions. It reads no entries, so it costs the same however long
// the ledger is.
func load(ctx context.Context, r reader, name string) (*pantry.Kitchen, error) {
	id, err := kitchenID(ctx, r, name)
	if err != nil {
		return nil, err
	}
	k := &pantry.Kitchen{ID: id, Name: name, Questions: map[string]*pantry.Question{}}
	err = each(ctx, r, `SELECT `+lineColumns+` FROM line JOIN balance ON balance.line = line.id
		WHERE kitchen = ? ORDER BY line.id`, func(rows *sql.Rows) error {
		l, err := scanLine(rows)
		if err == nil {
			k.Add(l)
		}
		return err
	}, k.ID)
	if err != nil {
		return nil, err
	}
	err = each(ctx, r, "SELECT name FROM dish WHERE kitchen = ? ORDER BY n", func(rows *sql.Rows) error {
		var d string
		err := rows.Scan(&d)
		k.Dishes = append(k.Dishes, d)
		return err
	}, k.ID)
	if err != nil {
		return nil, err
	}
	if err := loadCooks(ctx, r, k); err != nil {
		return nil, err
	}
	if k.Lessons, err = lessons(ctx, r, id); err != nil {
		return nil, err
	}
	if k.Needs, err = needs(ctx, r, id); err != nil {
		return nil, err
	}
	return k, each(ctx, r, "SELECT cook, message, at, body FROM question WHERE kitchen = ?", func(rows *sql.Rows) error {
		var cook, at string
		q := &pantry.Question{}
		if err := rows.Scan(&cook, &q.Message, &at, &q.Body); err != nil {
			return err
		}
		k.Questions[cook] = q
		q.At, err = parseTime(at)
		return err
	}, k.ID)
}

func kitchenID(ctx context.Context, r reader, name string) (id int64, err error) {
	err = r.QueryRowContext(ctx, "SELECT id FROM kitchen WHERE name = ?", name).Scan(&id)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, ErrNoKitchen
	}
	return id, err
}

func each(ctx context.Context, r reader, query string, do func(*sql.Rows) error, args ...any) error {
	rows, err := r.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	return eachRow(rows, do)
}

func eachRow(rows *sql.Rows, do func(*sql.Rows) error) error {
	defer rows.Close()
	for rows.Next() {
		if err := do(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// scanLine reads lineColumns after more columns of the caller's.
func scanLine(rows scanner, more ...any) (*pantry.Line, error) {
	var l pantry.Line
	var unit, shelf, lots, holds string
	err := rows.Scan(append(more, &l.ID, &l.Name, &l.Food, &unit, &shelf,
		&l.Received, &l.Made, &l.Used, &l.Binned, &l.Variance, &l.Trimmed, &lots, &holds)...)
	if err != nil {
		return nil, err
	}
	l.Shelf = food.Shelf(shelf)
	if l.Unit, err = measure.ParseKind(unit); err != nil {
		return nil, err
	}
	if l.Lots, err = readLots(lots); err != nil {
		return nil, fmt.Errorf("lots of %s: %w", l.Name, err)
	}
	if holds == noHolds {
		return &l, nil
	}
	if err := json.Unmarshal([]byte(holds), &l.Holds); err != nil {
		return nil, fmt.Errorf("holds of %s: %w", l.Name, err)
	}
	return &l, nil
}

func sayTime(t time.Time) string { return t.Format(time.RFC3339Nano) }

func parseTime(s string) (time.Time, error) { return time.Parse(time.RFC3339Nano, s) }

// View reads a kitchen as it stands, on a connection of its own. It is
// ErrNoKitchen where the file has none of that name.
func (s *Store) View(ctx context.Context, kitchen string) (*pantry.Kitchen, error) {
	var k *pantry.Kitchen
	err := s.read(ctx, func(r reader) (err error) {
		k, err = load(ctx, r, kitchen)
		return err
	})
	return k, err
}

// read runs do on one snapshot of the file.
func (s *Store) read(ctx context.Context, do func(reader) error) error {
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return fault(s.path, err)
	}
	defer tx.Rollback()
	err = do(tx)
	if errors.Is(err, ErrNoKitchen) {
		return err
	}
	return fault(s.path, err)
}

// Kitchens lists the names of the kitchens in the file.
func (s *Store) Kitchens(ctx context.Context) (names []string, err error) {
	err = s.read(ctx, func(r reader) error {
		return each(ctx, r, "SELECT name FROM kitchen ORDER BY id", func(rows *sql.Rows) error {
			var n string
			err := rows.Scan(&n)
			names = append(names, n)
			return err
		})
	})
	return names, err
}
