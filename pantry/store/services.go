package store

import (
	"database/sql"
	"time"

	"scullion/pantry"
)

func (b *book) SaveService(s pantry.Service) error {
	return b.w.exec("INSERT OR REPLACE INTO service (kitchen, message, cook, begun, due, ended, body) VALUES (?, ?, ?, ?, ?, ?, ?)",
		b.k.ID, s.Message, s.Cook, s.Begun.UnixMilli(), s.Due.UnixMilli(), max(0, s.Ended.UnixMilli()), string(s.Body))
}

func (b *book) DropService(message string) error {
	return b.w.exec("DELETE FROM service WHERE kitchen = ? AND message = ?", b.k.ID, message)
}

const services = "SELECT message, cook, begun, due, ended, body FROM service WHERE kitchen = ? AND begun >= ? ORDER BY begun, message"

func (b *book) Services(since time.Time) (list []pantry.Service, err error) {
	rows, err := b.w.query(services, b.k.ID, since.UnixMilli())
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error { return scanService(rows, &list) })
	return list, err
}

func scanService(rows *sql.Rows, list *[]pantry.Service) error {
	var s pantry.Service
	var begun, due, ended int64
	var body string
	err := rows.Scan(&s.Message, &s.Cook, &begun, &due, &ended, &body)
	s.Begun, s.Due, s.Body = time.UnixMilli(begun), time.UnixMilli(due), []byte(body)
	if ended > 0 {
		s.Ended = time.UnixMilli(ended)
	}
	*list = append(*list, s)
	return err
}
