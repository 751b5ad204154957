package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"scullion/pantry"
)

// Rooms lists the rooms; see pantry.Desk.
func (s *Store) Rooms(ctx context.Context) (list []pantry.Room, err error) {
	err = s.read(ctx, func(r reader) error {
		return each(ctx, r, `SELECT room.id, kitchen.name, house, quiet, since, settled FROM room JOIN kitchen ON kitchen.id = room.kitchen ORDER BY room.id`, func(rows *sql.Rows) error {
			var x pantry.Room
			err := rows.Scan(&x.ID, &x.Kitchen, &x.House, &x.Quiet, &x.Since, &x.Settled)
			list = append(list, x)
			return err
		})
	})
	return list, err
}

// DuePosts lists what is still to be shown; see pantry.Desk.
func (s *Store) DuePosts(ctx context.Context) (list []pantry.Post, err error) {
	err = s.read(ctx, func(r reader) error {
		return each(ctx, r, `SELECT kitchen.name, post.id, post.room, post.at, body, post.rev, sent, place FROM post
			JOIN kitchen ON kitchen.id = post.kitchen
			LEFT JOIN message ON message.kitchen = post.kitchen AND message.id = post.id
			WHERE post.rev > sent ORDER BY message.n IS NULL, message.n, post.at`, func(rows *sql.Rows) error {
			var p pantry.Post
			err := scanPost(rows, &p, &p.Kitchen)
			list = append(list, p)
			return err
		})
	})
	return list, err
}

func scanPost(row scanner, p *pantry.Post, more ...any) error {
	var at string
	err := row.Scan(append(more, &p.ID, &p.Room, &at, &p.Body, &p.Rev, &p.Sent, &p.Place)...)
	if err == nil {
		p.At, err = parseTime(at)
	}
	return err
}

// KnownOf lists the messages heard in a room; see pantry.Desk.
func (s *Store) KnownOf(ctx context.Context, room string, n int) (list []pantry.Known, err error) {
	err = s.read(ctx, func(r reader) error {
		return each(ctx, r, "SELECT id, edited, gone FROM message WHERE room = ? AND room <> '' ORDER BY n DESC LIMIT ?", func(rows *sql.Rows) error {
			var k pantry.Known
			err := rows.Scan(&k.ID, &k.Edited, &k.Gone)
			list = append(list, k)
			return err
		}, room, n)
	})
	return list, err
}

// DueTimers names the kitchens with timers that are due; see pantry.Desk.
func (s *Store) DueTimers(ctx context.Context, now time.Time) (kitchens []string, next time.Time, err error) {
	err = s.read(ctx, func(r reader) error {
		kitchens = nil
		err := each(ctx, r, "SELECT DISTINCT kitchen.name FROM timer JOIN kitchen ON kitchen.id = timer.kitchen WHERE due <= ? AND room <> ''", func(rows *sql.Rows) error {
			var k string
			err := rows.Scan(&k)
			kitchens = append(kitchens, k)
			return err
		}, now.UnixMilli())
		if err != nil {
			return err
		}
		var due sql.NullInt64
		err = r.QueryRowContext(ctx, "SELECT min(due) FROM timer WHERE due > ? AND room <> ''", now.UnixMilli()).Scan(&due)
		if due.Valid {
			next = time.UnixMilli(due.Int64)
		}
		return err
	})
	return kitchens, next, err
}

func (b *book) Post(message string) (*pantry.Post, error) {
	p := &pantry.Post{Kitchen: b.k.Name}
	err := scanPost(b.w.row("SELECT id, room, at, body, rev, sent, place FROM post WHERE kitchen = ? AND id = ?", b.k.ID, message), p)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return p, err
}

func (b *book) SavePost(p pantry.Post) error {
	return b.w.exec("INSERT OR REPLACE INTO post (kitchen, id, room, at, body, rev, sent, place) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
		b.k.ID, p.ID, p.Room, sayTime(p.At), string(p.Body), p.Rev, p.Sent, p.Place)
}

func (b *book) SaveRoom(r pantry.Room) error {
	return b.w.exec("INSERT OR REPLACE INTO room (id, kitchen, house, quiet, since, settled) VALUES (?, ?, ?, ?, ?, ?)",
		r.ID, b.k.ID, r.House, r.Quiet, r.Since, r.Settled)
}

func (b *book) DropRoom(id string) error {
	return b.w.exec("DELETE FROM room WHERE kitchen = ? AND id = ?", b.k.ID, id)
}

func (b *book) SetTimer(t pantry.Timer) error {
	return b.w.exec("INSERT OR REPLACE INTO timer (kitchen, message, part, cook, room, about, begun, due, daily) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		b.k.ID, t.Message, t.Part, t.Cook, t.Room, t.About, t.Begun.UnixMilli(), t.Due.UnixMilli(), t.Daily)
}

func (b *book) StopTimer(t pantry.Timer) error {
	return b.w.exec("DELETE FROM timer WHERE kitchen = ? AND message = ? AND part = ?", b.k.ID, t.Message, t.Part)
}

const timers = "SELECT message, part, cook, room, about, begun, due, daily FROM timer WHERE kitchen = ? ORDER BY due, message, part"

func (b *book) Timers() (list []pantry.Timer, err error) {
	rows, err := b.w.query(timers, b.k.ID)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error { return scanTimer(rows, &list) })
	return list, err
}

func scanTimer(rows *sql.Rows, list *[]pantry.Timer) error {
	var t pantry.Timer
	var begun, due int64
	err := rows.Scan(&t.Message, &t.Part, &t.Cook, &t.Room, &t.About, &begun, &due, &t.Daily)
	t.Begun, t.Due = time.UnixMilli(begun), time.UnixMilli(due)
	*list = append(*list, t)
	return err
}
