package store

import (
	"context"
	"database/sql"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// History hands do every entry ever written to the kitchen, in ledger order:
// by message, revision and part. A revision that left a message without
// entries (a delete, an undo) comes as one Logged of its own, with no Act and
// the cook and time of the message that brought it about. An error of do ends
// the reading and is returned as it is. ErrNoKitchen where the file has none
// of that name.
func (s *Store) History(ctx context.Context, kitchen string, do func(pantry.Logged) error) error {
	var stop error
	err := s.read(ctx, func(r reader) error {
		id, err := kitchenID(ctx, r, kitchen)
		if err != nil {
			return err
		}
		return each(ctx, r, history, func(rows *sql.Rows) error {
			g, err := scanLogged(rows)
			if err != nil {
				return err
			}
			stop = do(g)
			return stop
		}, id)
	})
	if stop != nil {
		return stop
	}
	return err
}

// The first half lists entries, the second revisions without any. SQLite
// merges the two as it walks along the messages; the plus sign keeps it from
// taking the index of ids instead and sorting a whole ledger.
const history = `
SELECT message.n, entry.rev, entry.part, message.id, coalesce(maker.id, message.id), coalesce(revision.why, 'said'), entry.rev = message.rev, line.name, line.unit, ` + entryColumns + `
FROM message CROSS JOIN entry ON entry.message = message.n JOIN line ON line.id = entry.line
	LEFT JOIN revision ON revision.message = entry.message AND revision.rev = entry.rev
	LEFT JOIN message AS maker ON maker.n = revision.by
WHERE +message.kitchen = ?1
UNION ALL
SELECT message.n, revision.rev, 0, message.id, maker.id, revision.why, revision.rev = message.rev, '', 'g',
	'', 0, 0, 0, '', 0, 0, '', maker.cook, maker.at, '', '', 0, 0, 0, 0
FROM message CROSS JOIN revision ON revision.message = message.n JOIN message AS maker ON maker.n = revision.by
WHERE +message.kitchen = ?1
	AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.message = revision.message AND entry.rev = revision.rev)
ORDER BY 1, 2, 3`

func scanLogged(rows *sql.Rows) (g pantry.Logged, err error) {
	var n int64
	var unit, at string
	to := []any{&n, &g.Rev, &g.Part, &g.Message, &g.By, &g.Why, &g.InForce, &g.Item, &unit}
	if err = rows.Scan(append(to, entryFields(&g.Entry, &at)...)...); err != nil {
		return g, err
	}
	if g.Unit, err = measure.ParseKind(unit); err != nil {
		return g, err
	}
	g.At, err = parseTime(at)
	return g, err
}
