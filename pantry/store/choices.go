package store

import (
	"database/sql"
	"strings"
	"time"

	"scullion/pantry"
)

func (b *book) Choose(c pantry.Choice) error {
	return b.w.exec("INSERT OR REPLACE INTO choice (kitchen, message, part, cook, technique, palette, item, title, taken, at, until, hands, kit) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		b.k.ID, c.Message, c.Part, c.Cook, c.Technique, c.Palette, c.Item, c.Title, c.Taken, c.At.UnixMilli(), c.Until.UnixMilli(), max(0, c.Hands.UnixMilli()), strings.Join(c.Kit, " "))
}

func (b *book) Unchoose(message string) error {
	return b.w.exec("DELETE FROM choice WHERE kitchen = ? AND message = ?", b.k.ID, message)
}

func (b *book) Chosen(since time.Time) (list []pantry.Choice, err error) {
	rows, err := b.w.query("SELECT message, part, cook, technique, palette, item, title, taken, at, until, hands, kit FROM choice WHERE kitchen = ? AND at >= ? ORDER BY at, message, part", b.k.ID, since.UnixMilli())
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		var c pantry.Choice
		var at, until, hands int64
		var kit string
		err := rows.Scan(&c.Message, &c.Part, &c.Cook, &c.Technique, &c.Palette, &c.Item, &c.Title, &c.Taken, &at, &until, &hands, &kit)
		c.At, c.Until, c.Hands, c.Kit = time.UnixMilli(at), time.UnixMilli(until), time.UnixMilli(hands), strings.Fields(kit)
		list = append(list, c)
		return err
	})
	return list, err
}
