package store

import (
	"context"
	"database/sql"
	"fmt"
	"maps"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// Report is what Check counted and found.
type Report struct {
	Kitchens, Lines, Messages, Entries int
	Wrong                              []string // a sentence each; none where all is well
}

// mostWrong is how many sentences a report holds: a person reads no more.
const mostWrong = 50

func (r *Report) wrong(format string, args ...any) {
	switch len(r.Wrong) {
	case mostWrong:
		r.Wrong = append(r.Wrong, "there is more of this; only the first is listed")
	case mostWrong + 1:
	default:
		r.Wrong = append(r.Wrong, strings.Join(strings.Fields(fmt.Sprintf(format, args...)), " "))
	}
}

// Check reads the whole file and verifies it: the file itself, the bonds
// between its tables, and every balance against a fold of its entries from
// scratch. It sees one moment of the file and does not stop the writer. The
// error is for a check that could not be done, not for what it found.
func (s *Store) Check(ctx context.Context) (Report, error) {
	var rep Report
	err := s.read(ctx, func(r reader) error {
		for _, step := range []func(context.Context, reader, *Report) error{checkFile, countRows, checkLaws, checkLines} {
			if err := step(ctx, r, &rep); err != nil {
				return err
			}
		}
		return nil
	})
	if code(err) == sqliteCorrupt && len(rep.Wrong) > 0 {
		return rep, nil // the report already says so
	}
	return rep, err
}

func checkFile(ctx context.Context, r reader, rep *Report) error {
	err := each(ctx, r, "PRAGMA integrity_check(10)", func(rows *sql.Rows) error {
		var s string
		err := rows.Scan(&s)
		if err == nil && s != "ok" {
			rep.wrong("the file is damaged: %s", s)
		}
		return err
	})
	if err != nil {
		return err
	}
	return each(ctx, r, "PRAGMA foreign_key_check", func(rows *sql.Rows) error {
		var table, parent string
		var row, key sql.NullInt64
		err := rows.Scan(&table, &row, &parent, &key)
		if err == nil {
			rep.wrong("a row of table %s names a row of table %s that is not there", table, parent)
		}
		return err
	})
}

func countRows(ctx context.Context, r reader, rep *Report) error {
	return r.QueryRowContext(ctx, `SELECT (SELECT count(*) FROM kitchen), (SELECT count(*) FROM line),
		(SELECT count(*) FROM message), (SELECT count(*) FROM entry)`).
		Scan(&rep.Kitchens, &rep.Lines, &rep.Messages, &rep.Entries)
}

// laws are queries that find nothing in a sound file; what they find is a
// sentence.
var laws = []string{
	`SELECT printf('kitchen %Q, message %Q: it says it was revised %d times, its latest revision is %d', kitchen.name, m.id, rev, latest)
	FROM (SELECT *, max((SELECT coalesce(max(rev), 0) FROM entry WHERE entry.message = n),
		(SELECT coalesce(max(rev), 0) FROM revision WHERE revision.message = n)) AS latest FROM message) AS m
		JOIN kitchen ON kitchen.id = m.kitchen
	WHERE latest > rev OR latest < rev AND rev > 1`,
	`SELECT printf('kitchen %Q, message %Q: revision %d of its entries has lost some', kitchen.name, message.id, entry.rev)
	FROM entry JOIN message ON n = entry.message JOIN kitchen ON kitchen.id = kitchen
	GROUP BY entry.message, entry.rev HAVING max(part) <> count(*) - 1`,
	`SELECT printf('kitchen %Q, message %Q: revision %d was made by nothing', kitchen.name, message.id, entry.rev)
	FROM entry JOIN message ON n = entry.message JOIN kitchen ON kitchen.id = kitchen
	WHERE part = 0 AND entry.rev > 1 AND NOT EXISTS (SELECT 1 FROM revision WHERE revision.message = n AND revision.rev = entry.rev)`,
	`SELECT printf('kitchen %Q, message %Q: what it taught of %Q cannot be read', kitchen.name, message.id, lesson.name)
	FROM lesson JOIN message ON n = lesson.message JOIN kitchen ON kitchen.id = kitchen
	WHERE (means = '') = (cells = '') OR cells <> '' AND NOT json_valid(cells)
		OR CASE WHEN json_valid(cells) AND json_extract(cells, '$.rule') IS NOT NULL THEN json_extract(cells, '$.rule') <> 'keeps'
			OR coalesce(CAST(json_extract(cells, '$.days') AS INTEGER), 0) NOT BETWEEN 1 AND 3650 OR coalesce(json_extract(cells, '$.place'), '') NOT IN ('fridge', 'freezer') ELSE 0 END
		OR lesson.rev > message.rev`,
	`SELECT printf('kitchen %Q, message %Q: what it says of who cannot eat what (%s) cannot be read', kitchen.name, message.id, said)
	FROM need JOIN message ON n = need.message JOIN kitchen ON kitchen.id = kitchen
	WHERE what = '' AND need.kind NOT IN ('over', 'heads') OR need.gone <> 0 AND need.gone NOT IN (SELECT n FROM message)`,
	`SELECT printf('kitchen %Q, %s: there is no balance', kitchen.name, line.name)
	FROM line JOIN kitchen ON kitchen.id = kitchen WHERE line.id NOT IN (SELECT line FROM balance)`,
}

func checkLaws(ctx context.Context, r reader, rep *Report) error {
	for _, law := range laws {
		err := each(ctx, r, law, func(rows *sql.Rows) error {
			var s string
			err := rows.Scan(&s)
			rep.wrong("%s", s)
			return err
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// stored is a line as its balance has it, and as its entries make it.
type stored struct {
	kitchen string
	onHand  measure.Amount
	line    *pantry.Line
	folded  pantry.Line
}

func checkLines(ctx context.Context, r reader, rep *Report) error {
	lines, err := storedLines(ctx, r, rep)
	if err != nil {
		return err
	}
	if err := foldAll(ctx, r, lines, rep); err != nil {
		return err
	}
	for _, id := range slices.Sorted(maps.Keys(lines)) {
		lines[id].compare(rep)
	}
	return nil
}

func storedLines(ctx context.Context, r reader, rep *Report) (map[int64]*stored, error) {
	lines := map[int64]*stored{}
	return lines, each(ctx, r, `SELECT kitchen.name, on_hand, `+lineColumns+` FROM line JOIN balance ON balance.line = line.id
		JOIN kitchen ON kitchen.id = line.kitchen`, func(rows *sql.Rows) error {
		s := &stored{}
		var err error
		if s.line, err = scanLine(rows, &s.kitchen, &s.onHand); err != nil {
			if code(err) == 0 {
				rep.wrong("kitchen '%s': a balance cannot be read: %v", s.kitchen, err)
				return nil
			}
			return err
		}
		s.folded, err = pantry.Fold(*s.line, nil)
		lines[s.line.ID] = s
		return err
	})
}

// foldAll folds every line at once, in one pass over the entries: they lie in
// the order of messages, and a pass for each line would read the file anew.
func foldAll(ctx context.Context, r reader, lines map[int64]*stored, rep *Report) error {
	return each(ctx, r, allInForce, func(rows *sql.Rows) error {
		var id string
		var own bool
		e, err := scanFold(rows, &id, &own)
		if code(err) != 0 {
			return err
		}
		s := lines[e.Line]
		if err == nil && s != nil {
			_, err = s.folded.Apply(e)
		}
		if err != nil {
			rep.wrong("message '%s': an entry cannot be read: %v", id, err)
		} else if !own {
			rep.wrong("message '%s': an entry is for a line of another kitchen", id)
		}
		return nil
	})
}

const allInForce = `SELECT ` + foldColumns + `, message.id, message.kitchen = line.kitchen
	FROM message CROSS JOIN entry ON entry.message = message.n AND entry.rev = message.rev JOIN line ON line.id = entry.line
	ORDER BY message.n, entry.rev, entry.part`

func (s *stored) compare(rep *Report) {
	l, f := s.line, &s.folded
	for _, c := range []struct {
		what         string
		have, should measure.Amount
	}{
		{"received", l.Received, f.Received},
		{"made", l.Made, f.Made},
		{"used", l.Used, f.Used},
		{"binned", l.Binned, f.Binned},
		{"variance", l.Variance, f.Variance},
		{"trimmed", l.Trimmed, f.Trimmed},
		{"on hand", s.onHand, f.OnHand()},
		{"left in lots", l.OnHand(), f.OnHand()},
		{"claimed", l.Claimed(), f.Claimed()},
	} {
		if c.have != c.should {
			rep.wrong("kitchen '%s', %s: the balance says %v %s %s, the entries make %v %s", s.kitchen, l.Name,
				c.have.Units(), l.Unit, c.what, c.should.Units(), l.Unit)
		}
	}
	if !slices.Equal(l.Lots, f.Lots) && l.OnHand() == f.OnHand() {
		rep.wrong("kitchen '%s', %s: the lots are not those that the entries make", s.kitchen, l.Name)
	}
	if !slices.Equal(l.Holds, f.Holds) && l.Claimed() == f.Claimed() {
		rep.wrong("kitchen '%s', %s: the claims are not those that the entries make", s.kitchen, l.Name)
	}
	if !l.Balanced() || !f.Balanced() {
		rep.wrong("kitchen '%s', %s: the account does not close", s.kitchen, l.Name)
	}
}
