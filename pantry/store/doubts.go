package store

import (
	"database/sql"
	"encoding/json"

	"scullion/pantry"
)

// mostDoubts is how many doubts of a kitchen are looked at, the latest: food is not kept for longer than it takes to
// tell so many.
const mostDoubts = 400

func (b *book) SaveDoubt(d pantry.Doubt) error {
	if err := b.flush(); err != nil {
		return err
	}
	return b.w.exec(`INSERT INTO doubt (message, part, by) SELECT ?1, coalesce((SELECT max(part) + 1 FROM doubt WHERE message = ?1), 0), ?2
		WHERE NOT EXISTS (SELECT 1 FROM doubt WHERE message = ?1 AND by = ?2)`, d.Message.N, d.Told.N)
}

func (b *book) DropDoubt(m *pantry.Message) error {
	if err := b.flush(); err != nil {
		return err
	}
	return b.w.exec("DELETE FROM doubt WHERE message = ?1 OR by = ?1", m.N)
}

func (b *book) Doubts(before *pantry.Message) (list []pantry.Doubt, err error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	rows, err := b.w.query(doubts, b.k.ID, before.N, mostDoubts)
	if err != nil {
		return nil, err
	}
	var pairs [][2]int64
	var numbers []int64
	err = eachRow(rows, func(rows *sql.Rows) error {
		var p [2]int64
		err := rows.Scan(&p[0], &p[1])
		pairs, numbers = append(pairs, p), append(numbers, p[0], p[1])
		return err
	})
	if err != nil || len(pairs) == 0 {
		return nil, err
	}
	messages, err := b.Numbered(numbers)
	if err != nil {
		return nil, err
	}
	byN := map[int64]*pantry.Message{}
	for _, m := range messages {
		byN[m.N] = m
	}
	for _, p := range pairs {
		list = append(list, pantry.Doubt{Message: byN[p[0]], Told: byN[p[1]]})
	}
	return list, nil
}

func (b *book) Numbered(list []int64) ([]*pantry.Message, error) {
	raw, err := json.Marshal(list)
	if err != nil {
		return nil, err
	}
	return b.messages("SELECT "+messageColumns+" FROM message WHERE n IN (SELECT value FROM json_each(?))", string(raw))
}
