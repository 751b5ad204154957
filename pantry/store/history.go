package store

import (
	"context"
	"database/sql"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// History hands do every entry ever written to the kitchen, in ledger order:
// by message, revision and part, and what was taught in its place. A revision
// that left a message without entries and lessons (a delete, an undo) comes as
// one Logged of its own, with no Act and the cook and time of the message that
// brought it about. An error of do ends
// the reading and is returned as it is. ErrNoKitchen where the file has none
// of that name.
func (s *Store) History(ctx context.Context, kitchen string, do func(pantry.Logged) error) error {
	var stop error
	err := s.read(ctx, func(r reader) error {
		id, err := kitchenID(ctx, r, kitchen)
		if err != nil {
			return err
		}
		k := &pantry.Kitchen{ID: id}
		if err := loadCooks(ctx, r, k); err != nil {
			return err
		}
		return each(ctx, r, history, func(rows *sql.Rows) error {
			g, err := scanLogged(rows)
			if err != nil {
				return err
			}
			g.Cook = k.CookName(g.Cook)
			stop = do(g)
			return stop
		}, id)
	})
	if stop != nil {
		return stop
	}
	return err
}

// The first part lists entries, the second lessons, the third revisions without
// either. SQLite merges them as it walks along the messages; the plus sign keeps
// it from taking the index of ids instead and sorting a whole ledger.
const history = `
SELECT message.n, entry.rev, entry.part, message.id, coalesce(maker.id, message.id), coalesce(revision.why, 'said'), entry.rev = message.rev, line.name, line.unit, ` + entryColumns + `, '', '', ''
FROM message CROSS JOIN entry ON entry.message = message.n JOIN line ON line.id = entry.line
	LEFT JOIN revision ON revision.message = entry.message AND revision.rev = entry.rev
	LEFT JOIN message AS maker ON maker.n = revision.by
WHERE +message.kitchen = ?1
UNION ALL
SELECT message.n, lesson.rev, lesson.part, message.id, coalesce(maker.id, message.id), coalesce(revision.why, 'said'), lesson.rev = message.rev, '', 'g',
	'', 0, 0, 0, '', 0, 0, '', message.cook, message.at, '', '', 0, 0, 0, 0, '', 0, '', lesson.name, lesson.means, lesson.cells
FROM message CROSS JOIN lesson ON lesson.message = message.n
	LEFT JOIN revision ON revision.message = lesson.message AND revision.rev = lesson.rev
	LEFT JOIN message AS maker ON maker.n = revision.by
WHERE +message.kitchen = ?1
UNION ALL
SELECT message.n, revision.rev, 0, message.id, maker.id, revision.why, revision.rev = message.rev, '', 'g',
	'', 0, 0, 0, '', 0, 0, '', maker.cook, maker.at, '', '', 0, 0, 0, 0, '', 0, '', '', '', ''
FROM message CROSS JOIN revision ON revision.message = message.n JOIN message AS maker ON maker.n = revision.by
WHERE +message.kitchen = ?1
	AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.message = revision.message AND entry.rev = revision.rev)
	AND NOT EXISTS (SELECT 1 FROM lesson WHERE lesson.message = revision.message AND lesson.rev = revision.rev)
ORDER BY 1, 2, 3`

func scanLogged(rows *sql.Rows) (g pantry.Logged, err error) {
	var n int64
	var unit, at, name, means, cells string
	to := []any{&n, &g.Rev, &g.Part, &g.Message, &g.By, &g.Why, &g.InForce, &g.Item, &unit}
	to = append(to, entryFields(&g.Entry, &at)...)
	if err = rows.Scan(append(to, &name, &means, &cells)...); err != nil {
		return g, err
	}
	if name != "" {
		if g.Lesson, err = lessonOf(n, name, means, cells); err != nil {
			return g, err
		}
	}
	if g.Unit, err = measure.ParseKind(unit); err != nil {
		return g, err
	}
	g.At, err = parseTime(at)
	return g, err
}
