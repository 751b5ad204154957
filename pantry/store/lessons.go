package store

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"

	"scullion/pantry"
)

const lessonColumns = "lesson.message, lesson.name, lesson.means, lesson.cells"

func scanLesson(row scanner) (pantry.Lesson, error) {
	var n int64
	var name, means, cells string
	if err := row.Scan(&n, &name, &means, &cells); err != nil {
		return pantry.Lesson{}, err
	}
	l, err := lessonOf(n, name, means, cells)
	return *l, err
}

func lessonOf(n int64, name, means, cells string) (*pantry.Lesson, error) {
	l := &pantry.Lesson{Message: n, Name: name, Means: means}
	if cells == "" {
		return l, nil
	}
	if err := json.Unmarshal([]byte(cells), &l.Cells); err != nil {
		return l, fmt.Errorf("the lesson on %s: %w", name, err)
	}
	return l, nil
}

// lessons reads what a kitchen has been taught and still holds.
func lessons(ctx context.Context, r reader, kitchen int64) (list []pantry.Lesson, err error) {
	err = each(ctx, r, `SELECT `+lessonColumns+` FROM lesson CROSS JOIN message ON message.n = lesson.message AND message.rev = lesson.rev
		WHERE +message.kitchen = ? ORDER BY lesson.message, part`, func(rows *sql.Rows) error {
		l, err := scanLesson(rows)
		list = append(list, l)
		return err
	}, kitchen)
	return list, err
}

func (b *book) Lessons(m *pantry.Message) ([]pantry.Lesson, error) { return b.lessons(m, m.Rev) }

func (b *book) LessonsBefore(m *pantry.Message) ([]pantry.Lesson, error) {
	return b.lessons(m, m.Rev-1)
}

func (b *book) lessons(m *pantry.Message, rev int) (list []pantry.Lesson, err error) {
	if rev <= 0 {
		return nil, nil
	}
	rows, err := b.w.query("SELECT "+lessonColumns+" FROM lesson WHERE message = ? AND rev = ? ORDER BY part", m.N, rev)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		l, err := scanLesson(rows)
		list = append(list, l)
		return err
	})
	return list, err
}

// Teach puts lessons in force for m; see pantry.Book.
func (b *book) Teach(m, by *pantry.Message, why string, list []pantry.Lesson) error {
	if _, err := b.Revise(m, by, why, nil); err != nil {
		return err
	}
	for part, l := range list {
		cells := ""
		if l.Cells != nil {
			raw, err := json.Marshal(l.Cells)
			if err != nil {
				return err
			}
			cells = string(raw)
		}
		err := b.w.exec("INSERT INTO lesson (message, rev, part, name, means, cells) VALUES (?, ?, ?, ?, ?, ?)", m.N, m.Rev, part, l.Name, l.Means, cells)
		if err != nil {
			return err
		}
		l.Message = m.N
		b.k.Lessons = append(b.k.Lessons, l)
	}
	slices.SortStableFunc(b.k.Lessons, func(x, y pantry.Lesson) int { return cmp.Compare(x.Message, y.Message) })
	b.k.Taught++
	return nil
}

// unlearn drops what m has taught, whose revision has just been superseded.
func (b *book) unlearn(m *pantry.Message) {
	before := len(b.k.Lessons)
	b.k.Lessons = slices.DeleteFunc(b.k.Lessons, func(l pantry.Lesson) bool { return l.Message == m.N })
	if len(b.k.Lessons) < before {
		b.k.Taught++
	}
}
