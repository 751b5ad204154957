package store

import (
	"context"
	"database/sql"
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
)

func (b *book) SaveWrapUp(m *pantry.Message, said time.Time) error {
	before := int64(0)
	if !said.Equal(m.At) {
		before = said.UnixMilli()
	}
	return b.w.exec("INSERT OR IGNORE INTO wrapup (kitchen, message, said) VALUES (?, ?, ?)", b.k.ID, m.ID, before)
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

func (b *book) AllInForce() ([]pantry.Placed, error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	rows, err := b.w.query(inForceFolded, b.k.ID)
	if err != nil {
		return nil, err
	}
	var list []pantry.Placed
	err = eachRow(rows, placing(&list))
	return list, err
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

func (b *book) Story(line int64, do func(pantry.Placed) error) error {
	if err := b.flush(); err != nil {
		return err
	}
	rows, err := b.w.query(storyOfLine, line)
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

// AllInForce gives every entry in force that moves food, in order, as far as a balance needs it.
func (x *Record) AllInForce() (list []pantry.Placed, err error) {
	err = each(x.ctx, x.r, inForceFolded, placing(&list), x.Kitchen.ID)
	return list, err
}

// Between hands do every entry in force of messages from one to another, in order, with all that
// was said.
func (x *Record) Between(from, to int64, do func(pantry.Placed) error) error {
	return each(x.ctx, x.r, inForceBetween, func(rows *sql.Rows) error { return scanSaid(rows, do) }, x.Kitchen.ID, from, to)
}

// Timers lists the timers that run, the next first.
func (x *Record) Timers() (list []pantry.Timer, err error) {
	err = each(x.ctx, x.r, timers, func(rows *sql.Rows) error { return scanTimer(rows, &list) }, x.Kitchen.ID)
	return list, err
}

// Said lists the last n messages that were for the kitchen and are not gone, the last first; their
// words and the replies are there as long as the ledger keeps them.
func (x *Record) Said(n int) (list []*pantry.Message, err error) {
	err = each(x.ctx, x.r, "SELECT "+messageColumns+" FROM message AS m WHERE +kitchen = ? AND text <> '' AND NOT gone ORDER BY n DESC LIMIT ?", func(rows *sql.Rows) error {
		m, err := scanMessage(rows)
		list = append(list, m)
		return err
	}, x.Kitchen.ID, n)
	return list, err
}

// LastCame gives when each line last came in or was made, by the lines' ids.
func (x *Record) LastCame() (map[int64]time.Time, error) {
	list := map[int64]time.Time{}
	err := each(x.ctx, x.r, lastCame, func(rows *sql.Rows) (err error) {
		var line int64
		var at sql.NullString
		if err := rows.Scan(&line, &at); err != nil || !at.Valid {
			return err
		}
		list[line], err = parseTime(at.String)
		return err
	}, x.Kitchen.ID)
	return list, err
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
	wrapUps = "SELECT message.n, message.id, message.cook, message.at, wrapup.said FROM wrapup JOIN message ON message.kitchen = wrapup.kitchen AND message.id = wrapup.message WHERE wrapup.kitchen = ? ORDER BY message.n"

	// A year of services is read here: columns that are flags come as one number, what claims
	// alone need does not come, and what is in force is told by revisions, since messages are
	// long.
	inForceFolded = `SELECT entry.act, entry.line, entry.amount, entry.trim + 2 * entry.label + 4 * entry.weighed + 8 * entry.best,
		entry.dish, entry.date, entry.cost, entry.piece_mg, entry.state, entry.pieces, entry.sign, entry.message
		FROM entry CROSS JOIN line ON line.id = entry.line
		WHERE line.kitchen = ? AND entry.act NOT IN ('claim', 'release')
			AND NOT EXISTS (SELECT 1 FROM revision WHERE revision.message = entry.message AND revision.rev > entry.rev)
		ORDER BY entry.message, entry.rev, entry.part`

	lastCame = `SELECT line.id, (SELECT entry.at FROM entry CROSS JOIN message ON message.n = entry.message AND message.rev = entry.rev
			WHERE entry.line = line.id AND entry.act IN ('receive', 'make') ORDER BY entry.message DESC LIMIT 1)
		FROM line WHERE line.kitchen = ?`

	storyOfLine = "SELECT " + entryColumns + `, entry.message FROM entry JOIN message ON message.n = entry.message AND message.rev = entry.rev
		WHERE entry.line = ? ORDER BY entry.message, entry.part`

	inForceBetween = "SELECT " + entryColumns + `, entry.message FROM message CROSS JOIN entry ON entry.message = message.n AND entry.rev = message.rev
		WHERE +message.kitchen = ? AND message.n BETWEEN ? AND ? ORDER BY message.n, entry.rev, entry.part`
)

func scanWrapUp(rows *sql.Rows, list *[]pantry.WrapUp) (err error) {
	var w pantry.WrapUp
	var at string
	var said int64
	if err := rows.Scan(&w.N, &w.Message, &w.Cook, &at, &said); err != nil {
		return err
	}
	w.Ended, err = parseTime(at)
	if w.At = w.Ended; said != 0 {
		w.At = time.UnixMilli(said).In(w.At.Location())
	}
	*list = append(*list, w)
	return err
}

// placing appends the entries of rows of inForceFolded. Words that come again and again are
// kept once.
func placing(list *[]pantry.Placed) func(*sql.Rows) error {
	words := map[string]string{}
	word := func(raw sql.RawBytes) string {
		w, ok := words[string(raw)]
		if !ok {
			w = string(raw)
			words[w] = w
		}
		return w
	}
	var act, dish, date, state, sign sql.RawBytes
	return func(rows *sql.Rows) error {
		n := len(*list)
		if n == cap(*list) { // a year is long: by less at a time most of it is copied again and again
			*list = slices.Grow(*list, n+1)
		}
		*list = (*list)[:n+1]
		p := &(*list)[n]
		var flags int
		if err := rows.Scan(&act, &p.Line, &p.Amount, &flags, &dish, &date, &p.Lot.Cost, &p.Lot.PieceMg, &state, &p.Pieces, &sign, &p.N); err != nil {
			return err
		}
		p.Act, p.Dish, p.Lot.Date, p.Lot.State = pantry.Act(word(act)), word(dish), pantry.Date(word(date)), food.State(word(state))
		p.Sign = word(sign)
		p.Trim, p.Lot.Label, p.Lot.Weighed, p.Lot.Best = flags&1 > 0, flags&2 > 0, flags&4 > 0, flags&8 > 0
		return nil
	}
}

func scanSaid(rows *sql.Rows, do func(pantry.Placed) error) (err error) {
	var p pantry.Placed
	if p.Entry, err = scanEntry(rows, &p.N); err != nil {
		return err
	}
	return do(p)
}
