package store

import (
	"database/sql"
	"fmt"
	"unicode/utf8"

	"scullion/pantry"
)

// Revise puts entries in force for m; see pantry.Book. The newest message's
// first entries are folded onto the balances as they stand. Anything else
// changes the past, so the lines it touches are folded again from the start.
func (b *book) Revise(m, by *pantry.Message, why string, entries []pantry.Entry) ([]pantry.Effect, error) {
	old, err := b.InForce(m)
	if err != nil {
		return nil, err
	}
	first := m.Rev == 0
	m.Rev++
	if m != b.fresh {
		if err := b.w.exec("UPDATE message SET rev = ? WHERE n = ?", m.Rev, m.N); err != nil {
			return nil, err
		}
	}
	if !first || m.N != by.N {
		if err := b.w.exec("INSERT INTO revision (message, rev, by, why) VALUES (?, ?, ?, ?)", m.N, m.Rev, by.N, why); err != nil {
			return nil, err
		}
	}
	for part, e := range entries {
		if b.k.Line(e.Line) == nil {
			return nil, fmt.Errorf("entry for line %d, which this kitchen does not have", e.Line)
		}
		if !utf8.ValidString(e.Cook) || !utf8.ValidString(e.Dish) {
			return nil, fmt.Errorf("entry with a cook or dish that is not text: %q, %q", e.Cook, e.Dish)
		}
		if err := b.insert(m, part, e); err != nil {
			return nil, err
		}
	}
	b.unlearn(m)
	if first && m.N == b.w.last {
		return b.append(entries)
	}
	return b.refold(m, old, entries)
}

func (b *book) insert(m *pantry.Message, part int, e pantry.Entry) error {
	return b.w.exec(`INSERT INTO entry (message, rev, part, act, line, amount, pieces, piece, approx, trim, dish, cook, at, said, date, label, cost, piece_mg, weighed, state, best, sign)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		m.N, m.Rev, part, string(e.Act), e.Line, int64(e.Amount), e.Pieces, e.Piece, e.Approx, e.Trim, e.Dish, e.Cook, sayTime(e.At), e.Said,
		string(e.Lot.Date), e.Lot.Label, e.Lot.Cost, int64(e.Lot.PieceMg), e.Lot.Weighed, string(e.Lot.State), e.Lot.Best, e.Sign)
}

func (b *book) append(entries []pantry.Entry) ([]pantry.Effect, error) {
	effects := make([]pantry.Effect, len(entries))
	for i, e := range entries {
		l := b.k.Line(e.Line)
		f, err := l.Apply(e)
		if err != nil {
			return nil, err
		}
		effects[i] = f
		if err := b.saveBalance(l); err != nil {
			return nil, err
		}
	}
	return effects, nil
}

// refold folds again every line that the old or the new entries touch, and
// picks out the effects of the new ones.
func (b *book) refold(m *pantry.Message, old, entries []pantry.Entry) ([]pantry.Effect, error) {
	if err := b.flush(); err != nil { // what is folded again joins every message
		return nil, err
	}
	effects := make([]pantry.Effect, len(entries))
	seen := map[int64]bool{}
	for _, list := range [][]pantry.Entry{old, entries} {
		for _, e := range list {
			if seen[e.Line] {
				continue
			}
			seen[e.Line] = true
			if err := b.refoldLine(b.k.Line(e.Line), m, effects); err != nil {
				return nil, err
			}
		}
	}
	return effects, nil
}

func (b *book) refoldLine(l *pantry.Line, m *pantry.Message, effects []pantry.Effect) error {
	f, err := pantry.Fold(*l, nil)
	if err != nil {
		return err
	}
	err = b.eachInForce(l.ID, func(e pantry.Entry, n int64, part int) error {
		effect, err := f.Apply(e)
		if n == m.N {
			effects[part] = effect
		}
		return err
	})
	if err != nil {
		return err
	}
	*l = f
	return b.saveBalance(l)
}

// eachInForce goes through the line's entries in force, in order, with the
// message they belong to and their part of it.
func (b *book) eachInForce(line int64, do func(e pantry.Entry, n int64, part int) error) error {
	rows, err := b.w.query(inForceOfLine, line)
	if err != nil {
		return err
	}
	return eachRow(rows, func(rows *sql.Rows) error {
		var n int64
		var part int
		e, err := scanFold(rows, &n, &part)
		if err != nil {
			return err
		}
		return do(e, n, part)
	})
}

const inForceOfLine = `SELECT ` + foldColumns + `, entry.message, entry.part
	FROM entry JOIN message ON message.n = entry.message AND message.rev = entry.rev
	WHERE entry.line = ? ORDER BY entry.message, entry.part`

// foldColumns are those of an entry that a balance is made of.
const foldColumns = "entry.act, entry.line, entry.amount, entry.trim, entry.dish, entry.cook, entry.date, entry.label, entry.cost, entry.piece_mg, entry.weighed, entry.state, entry.best"

func scanFold(row scanner, more ...any) (e pantry.Entry, err error) {
	to := []any{&e.Act, &e.Line, &e.Amount, &e.Trim, &e.Dish, &e.Cook, &e.Lot.Date, &e.Lot.Label, &e.Lot.Cost, &e.Lot.PieceMg, &e.Lot.Weighed, &e.Lot.State, &e.Lot.Best}
	err = row.Scan(append(to, more...)...)
	return e, err
}

// LineBefore folds the line's entries in force up to message m.
func (b *book) LineBefore(line int64, m *pantry.Message) (pantry.Line, error) {
	if err := b.flush(); err != nil {
		return pantry.Line{}, err
	}
	f, err := pantry.Fold(*b.k.Line(line), nil)
	if err != nil {
		return f, err
	}
	err = b.eachInForce(line, func(e pantry.Entry, n int64, _ int) error {
		if n >= m.N {
			return nil
		}
		_, err := f.Apply(e)
		return err
	})
	return f, err
}
