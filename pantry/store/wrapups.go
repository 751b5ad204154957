package store

import (
	"context"
	"database/sql"

	"scullion/pantry"
)

func (b *book) SaveWrapUp(m *pantry.Message) error {
	return b.w.exec("INSERT OR IGNORE INTO wrapup (kitchen, message) VALUES (?, ?)", b.k.ID, m.ID)
}

func (b *book) DropWrapUp(m *pantry.Message) error {
	return b.w.exec("DELETE FROM wrapup WHERE kitchen = ? AND message = ?", b.k.ID, m.ID)
}

func (b *book) WrapUps() (list []pantry.WrapUp, err error) {
	rows, err := b.w.query(wrapUps, b.k.ID)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error { return scanWrapUp(rows, &list) })
	return list, err
}

func (b *book) AllInForce(do func(pantry.Placed) error) error {
	if err := b.flush(); err != nil {
		return err
	}
	rows, err := b.w.query(inForceFolded, b.k.ID)
	if err != nil {
		return err
	}
	return eachRow(rows, func(rows *sql.Rows) error { return scanPlaced(rows, do) })
}

func (b *book) Between(from, to int64, do func(pantry.Placed) error) error {
	if err := b.flush(); err != nil {
		return err
	}
	rows, err := b.w.query(inForceBetween, b.k.ID, from, to)
	if err != nil {
		return err
	}
	return eachRow(rows, func(rows *sql.Rows) error { return scanSaid(rows, do) })
}

// Record is what a kitchen's wrap-ups are reckoned from, on one snapshot of the file.
type Record struct {
	Kitchen  *pantry.Kitchen
	WrapUps  []pantry.WrapUp
	Services []pantry.Service
	r        reader
	ctx      context.Context
}

// AllInForce hands do every entry in force that moves food, in order, as far as a balance needs it.
func (x *Record) AllInForce(do func(pantry.Placed) error) error {
	return each(x.ctx, x.r, inForceFolded, func(rows *sql.Rows) error { return scanPlaced(rows, do) }, x.Kitchen.ID)
}

// Between hands do every entry in force of messages from one to another, in order, with all that
// was said.
func (x *Record) Between(from, to int64, do func(pantry.Placed) error) error {
	return each(x.ctx, x.r, inForceBetween, func(rows *sql.Rows) error { return scanSaid(rows, do) }, x.Kitchen.ID, from, to)
}

// Records hands do a kitchen's record; it is good as long as do runs. ErrNoKitchen where the
// file has none of that name.
func (s *Store) Records(ctx context.Context, kitchen string, do func(*Record) error) error {
	var stop error
	err := s.read(ctx, func(r reader) error {
		k, err := load(ctx, r, kitchen)
		if err != nil {
			return err
		}
		x := &Record{Kitchen: k, r: r, ctx: ctx}
		if err := each(ctx, r, wrapUps, func(rows *sql.Rows) error { return scanWrapUp(rows, &x.WrapUps) }, k.ID); err != nil {
			return err
		}
		if err := each(ctx, r, services, func(rows *sql.Rows) error { return scanService(rows, &x.Services) }, k.ID, 0); err != nil {
			return err
		}
		stop = do(x)
		return stop
	})
	if stop != nil {
		return stop
	}
	return err
}

const (
	wrapUps = "SELECT message.n, message.id, message.cook, message.at FROM wrapup JOIN message ON message.kitchen = wrapup.kitchen AND message.id = wrapup.message WHERE wrapup.kitchen = ? ORDER BY message.n"

	inForceFolded = "SELECT " + foldColumns + `, entry.pieces, entry.message FROM message CROSS JOIN entry ON entry.message = message.n AND entry.rev = message.rev
		WHERE +message.kitchen = ? AND entry.act NOT IN ('claim', 'release') ORDER BY message.n, entry.rev, entry.part`

	inForceBetween = "SELECT " + entryColumns + `, entry.message FROM message CROSS JOIN entry ON entry.message = message.n AND entry.rev = message.rev
		WHERE +message.kitchen = ? AND message.n BETWEEN ? AND ? ORDER BY message.n, entry.rev, entry.part`
)

func scanWrapUp(rows *sql.Rows, list *[]pantry.WrapUp) (err error) {
	var w pantry.WrapUp
	var at string
	if err := rows.Scan(&w.N, &w.Message, &w.Cook, &at); err != nil {
		return err
	}
	w.At, err = parseTime(at)
	*list = append(*list, w)
	return err
}

func scanPlaced(rows *sql.Rows, do func(pantry.Placed) error) (err error) {
	var p pantry.Placed
	var pieces int64
	if p.Entry, err = scanFold(rows, &pieces, &p.N); err != nil {
		return err
	}
	p.Pieces = pieces
	return do(p)
}

func scanSaid(rows *sql.Rows, do func(pantry.Placed) error) (err error) {
	var p pantry.Placed
	if p.Entry, err = scanEntry(rows, &p.N); err != nil {
		return err
	}
	return do(p)
}
