package store

import (
	"database/sql"
	"encoding/json"
	"errors"
	"slices"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// book is one job's view of its kitchen; see pantry.Book.
type book struct {
	w     *writer
	k     *pantry.Kitchen
	fresh *pantry.Message // heard, and written with its answer in one statement
}

var _ pantry.Book = (*book)(nil)
var _ pantry.Ledger = (*Store)(nil)

func (b *book) Kitchen() *pantry.Kitchen { return b.k }

const messageColumns = "n, id, cook, at, text, rev, gone, reply, room, edited"

func scanMessage(row scanner) (*pantry.Message, error) {
	var m pantry.Message
	var at string
	err := row.Scan(&m.N, &m.ID, &m.Cook, &at, &m.Text, &m.Rev, &m.Gone, &m.Reply, &m.Room, &m.Edited)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, pantry.ErrNoMessage
	}
	if err != nil {
		return nil, err
	}
	m.At, err = parseTime(at)
	return &m, err
}

func (b *book) Message(id string) (*pantry.Message, error) {
	return scanMessage(b.w.row("SELECT "+messageColumns+" FROM message WHERE kitchen = ? AND id = ?", b.k.ID, id))
}

func (b *book) Hear(m pantry.Message) (*pantry.Message, error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	b.w.last++
	m.N, b.fresh = b.w.last, &m
	return &m, b.meet(m.Cook)
}

// flush writes the message that was heard, if that is still to be done.
func (b *book) flush() error {
	m := b.fresh
	if m == nil {
		return nil
	}
	b.fresh = nil
	return b.w.exec("INSERT INTO message (kitchen, n, id, cook, at, text, rev, gone, reply, room, edited) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		b.k.ID, m.N, m.ID, m.Cook, sayTime(m.At), m.Text, m.Rev, m.Gone, string(m.Reply), m.Room, m.Edited)
}

func (b *book) Answer(m *pantry.Message, text string, reply []byte) error {
	m.Text, m.Reply = text, reply
	if m == b.fresh {
		return b.flush()
	}
	return b.w.exec("UPDATE message SET text = ?, reply = ? WHERE n = ?", text, string(reply), m.N)
}

func (b *book) Change(m *pantry.Message, event string) (reply []byte, err error) {
	err = b.w.row("SELECT reply FROM change WHERE message = ? AND event = ?", m.N, event).Scan(&reply)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return reply, err
}

func (b *book) AnswerChange(m *pantry.Message, event, text string, gone bool, reply []byte) error {
	m.Text, m.Gone = text, gone
	if err := b.w.exec("INSERT INTO change (message, event, reply) VALUES (?, ?, ?)", m.N, event, string(reply)); err != nil {
		return err
	}
	return b.w.exec("UPDATE message SET text = ?, gone = ?, edited = ? WHERE n = ?", text, gone, m.Edited, m.N)
}

const entryColumns = "entry.act, entry.line, entry.amount, entry.pieces, entry.piece, entry.approx, entry.trim, entry.dish, entry.cook, entry.at, entry.said, entry.date, entry.label, entry.cost, entry.piece_mg, entry.weighed, entry.state, entry.best, entry.sign"

// entryFields lists where to scan entryColumns; finish completes the entry.
func entryFields(e *pantry.Entry, at *string) []any {
	return []any{&e.Act, &e.Line, &e.Amount, &e.Pieces, &e.Piece, &e.Approx, &e.Trim, &e.Dish, &e.Cook, at, &e.Said,
		&e.Lot.Date, &e.Lot.Label, &e.Lot.Cost, &e.Lot.PieceMg, &e.Lot.Weighed, &e.Lot.State, &e.Lot.Best, &e.Sign}
}

func scanEntry(row scanner, more ...any) (e pantry.Entry, err error) {
	var at string
	if err = row.Scan(append(entryFields(&e, &at), more...)...); err != nil {
		return e, err
	}
	e.At, err = parseTime(at)
	return e, err
}

func (b *book) InForce(m *pantry.Message) ([]pantry.Entry, error) { return b.entries(m, m.Rev) }

func (b *book) Before(m *pantry.Message) ([]pantry.Entry, error) { return b.entries(m, m.Rev-1) }

func (b *book) entries(m *pantry.Message, rev int) ([]pantry.Entry, error) {
	if rev <= 0 {
		return nil, nil
	}
	return b.listed("SELECT "+entryColumns+" FROM entry WHERE message = ? AND rev = ? ORDER BY part", m.N, rev)
}

// listed gives the entries that a query finds.
func (b *book) listed(query string, args ...any) (list []pantry.Entry, err error) {
	rows, err := b.w.query(query, args...)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		e, err := scanEntry(rows)
		list = append(list, e)
		return err
	})
	return list, err
}

func (b *book) Revised(by *pantry.Message) ([]*pantry.Message, error) {
	return b.messages(`SELECT `+messageColumns+` FROM message
		WHERE n IN (SELECT message FROM revision WHERE by = ?1 AND message <> ?1
			AND rev = (SELECT rev FROM message AS m WHERE m.n = revision.message))
		ORDER BY n DESC`, by.N)
}

func (b *book) RevisedFor(m *pantry.Message) (why string, err error) {
	err = b.w.row("SELECT why FROM revision WHERE message = ? AND rev = ?", m.N, m.Rev).Scan(&why)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return why, err
}

func (b *book) LastLogged(cook string, n int) ([]*pantry.Message, error) {
	return b.messages(lastLogged, b.k.ID, b.w.last-pantry.LookBack, cook, n)
}

func (b *book) Heard(cook string, m *pantry.Message) (*pantry.Message, error) {
	list, err := b.messages(heard, b.k.ID, m.N-pantry.LookBack, m.N, cook)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	return list[0], nil
}

func (b *book) Latest() (*pantry.Message, error) {
	list, err := b.messages(latest, b.k.ID)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	return list[0], nil
}

func (b *book) CameWith(line int64) (*pantry.Message, error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	list, err := b.messages("SELECT "+messageColumns+` FROM message AS m WHERE n = (SELECT entry.message FROM entry
		CROSS JOIN message ON message.n = entry.message AND message.rev = entry.rev
		WHERE entry.line = ? AND entry.act IN ('receive', 'make') ORDER BY entry.message DESC LIMIT 1)`, line)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	return list[0], nil
}

func (b *book) messages(query string, args ...any) (list []*pantry.Message, err error) {
	rows, err := b.w.query(query, args...)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		m, err := scanMessage(rows)
		list = append(list, m)
		return err
	})
	return list, err
}

func (b *book) AddLine(name, foodName string, unit measure.Kind, shelf food.Shelf) (*pantry.Line, error) {
	l := &pantry.Line{Name: name, Food: foodName, Unit: unit, Shelf: shelf}
	err := b.w.row("INSERT INTO line (kitchen, name, food, unit, shelf) VALUES (?, ?, ?, ?, ?) RETURNING id",
		b.k.ID, name, foodName, unit.String(), string(shelf)).Scan(&l.ID)
	if err != nil {
		return nil, err
	}
	err = b.w.exec(emptyBalance, l.ID, noHolds)
	if err != nil {
		return nil, err
	}
	b.k.Add(l)
	return l, nil
}

const emptyBalance = "INSERT INTO balance (line, received, made, used, binned, variance, trimmed, on_hand, lots, holds) VALUES (?, 0, 0, 0, 0, 0, 0, 0, '', ?)"

func (b *book) AddDish(name string) error {
	if slices.Contains(b.k.Dishes, name) {
		return nil
	}
	err := b.w.exec("INSERT INTO dish (kitchen, n, name) VALUES (?, ?, ?)", b.k.ID, len(b.k.Dishes)+1, name)
	if err == nil {
		b.k.Dishes = append(b.k.Dishes, name)
	}
	return err
}

func (b *book) Ask(cook string, q *pantry.Question) error {
	if q == nil {
		if b.k.Questions[cook] == nil {
			return nil
		}
		delete(b.k.Questions, cook)
		return b.w.exec("DELETE FROM question WHERE kitchen = ? AND cook = ?", b.k.ID, cook)
	}
	b.k.Questions[cook] = q
	return b.w.exec("INSERT OR REPLACE INTO question (kitchen, cook, message, at, body) VALUES (?, ?, ?, ?, ?)",
		b.k.ID, cook, q.Message, sayTime(q.At), string(q.Body))
}

func (b *book) Since(line int64, m *pantry.Message) ([]pantry.Entry, error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	return b.listed(`SELECT `+entryColumns+` FROM entry JOIN message ON message.n = entry.message AND message.rev = entry.rev
		WHERE entry.line = ? AND entry.message > ? ORDER BY entry.message, entry.part`, line, m.N)
}

func (b *book) Uses(line int64, n int) (list []pantry.Logged, err error) {
	rows, err := b.w.query(`SELECT `+entryColumns+` FROM entry JOIN message ON message.n = entry.message AND message.rev = entry.rev
		WHERE entry.line = ? AND entry.act = 'use' ORDER BY entry.message DESC, entry.part DESC LIMIT ?`, line, n)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		e, err := scanEntry(rows)
		list = append(list, pantry.Logged{Entry: e, InForce: true})
		return err
	})
	return list, err
}

// noHolds is a balance's claims where there are none; it spares the JSON.
const noHolds = "[]"

// saveBalance writes the line's balances.
func (b *book) saveBalance(l *pantry.Line) error {
	holds := noHolds
	if len(l.Holds) > 0 {
		list, err := json.Marshal(l.Holds)
		if err != nil {
			return err
		}
		holds = string(list)
	}
	return b.w.exec(`UPDATE balance SET received = ?, made = ?, used = ?, binned = ?, variance = ?, trimmed = ?, on_hand = ?, lots = ?, holds = ? WHERE line = ?`,
		int64(l.Received), int64(l.Made), int64(l.Used), int64(l.Binned), int64(l.Variance), int64(l.Trimmed), int64(l.OnHand()), sayLots(l.Lots), holds, l.ID)
}
