package store

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"
	"time"

	"scullion/pantry"
)

const needColumns = "need.message, need.at, who, lasting, stays, day, kind, what, count, said"

func scanNeed(row scanner) (n pantry.Need, err error) {
	var at int64
	err = row.Scan(&n.N, &at, &n.Who, &n.Lasting, &n.Stays, &n.Day, &n.Kind, &n.What, &n.Count, &n.Said)
	n.At = time.UnixMilli(at)
	return n, err
}

// tableLong is how much older than a kitchen's newest need one for a service may be and
// still be read: a table's need is never in force for a day, but for one that is for a day ahead.
const tableLong = 24 * time.Hour

// needs reads a kitchen's needs in force, in the order in which they were said.
func needs(ctx context.Context, r reader, kitchen int64) (list []pantry.Need, err error) {
	err = each(ctx, r, `SELECT `+needColumns+` FROM need JOIN message ON n = need.message
		JOIN (SELECT max(x.at) AS newest FROM need AS x JOIN message AS m ON m.n = x.message WHERE m.kitchen = ?1)
		WHERE kitchen = ?1 AND need.gone = 0 AND (lasting OR stays OR need.at >= newest - ?2
			OR day >= date((newest - 2 * ?2) / 1000, 'unixepoch'))
		ORDER BY need.message, part`, func(rows *sql.Rows) error {
		n, err := scanNeed(rows)
		list = append(list, n)
		return err
	}, kitchen, tableLong.Milliseconds())
	return list, err
}

func (b *book) KeepNeeds(m *pantry.Message, list []pantry.Need) error {
	if err := b.flush(); err != nil {
		return err
	}
	var part int
	if err := b.w.row("SELECT coalesce(max(part) + 1, 0) FROM need WHERE message = ?", m.N).Scan(&part); err != nil {
		return err
	}
	for i, n := range list {
		n.N, n.At = m.N, m.At
		err := b.w.exec("INSERT INTO need (message, part, at, who, lasting, stays, day, kind, what, count, said, gone) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 0)",
			n.N, part+i, n.At.UnixMilli(), n.Who, n.Lasting, n.Stays, string(n.Day), string(n.Kind), n.What, n.Count, n.Said)
		if err != nil {
			return err
		}
		b.k.Needs = append(b.k.Needs, n)
	}
	b.sortNeeds()
	return nil
}

func (b *book) sortNeeds() {
	slices.SortStableFunc(b.k.Needs, func(x, y pantry.Need) int { return cmp.Compare(x.N, y.N) })
}

func (b *book) TakeNeeds(m, by *pantry.Message) error {
	if !slices.ContainsFunc(b.k.Needs, func(n pantry.Need) bool { return n.N == m.N }) {
		return nil
	}
	if err := b.flush(); err != nil {
		return err
	}
	b.k.Needs = slices.DeleteFunc(b.k.Needs, func(n pantry.Need) bool { return n.N == m.N })
	return b.w.exec("UPDATE need SET gone = ? WHERE message = ? AND gone = 0", by.N, m.N)
}

func (b *book) ReturnNeeds(by *pantry.Message) (list []pantry.Need, err error) {
	const taken = "gone = ?1 AND gone <> 0 AND message <> ?1 AND (SELECT message.gone FROM message WHERE n = need.message) = 0"
	rows, err := b.w.query("SELECT "+needColumns+" FROM need WHERE "+taken+" ORDER BY message, part", by.N)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		n, err := scanNeed(rows)
		list = append(list, n)
		return err
	})
	if err != nil || len(list) == 0 {
		return nil, err
	}
	b.k.Needs = append(b.k.Needs, list...)
	b.sortNeeds()
	return list, b.w.exec("UPDATE need SET gone = 0 WHERE "+taken, by.N)
}

func (b *book) IntoDish(dish string, since time.Time) (list []pantry.Entry, err error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	all, err := b.listed(intoDish, b.w.last-pantry.LookBack, b.k.ID, dish)
	return slices.DeleteFunc(all, func(e pantry.Entry) bool { return e.At.Before(since) }), err
}

func (b *book) MadeOf(line int64) (lines []int64, err error) {
	if err := b.flush(); err != nil {
		return nil, err
	}
	rows, err := b.w.query(madeOf, line, pantry.LookBack)
	if err != nil {
		return nil, err
	}
	err = eachRow(rows, func(rows *sql.Rows) error {
		var l int64
		var used, made string
		if err := rows.Scan(&l, &used, &made); err != nil {
			return err
		}
		if made != "" {
			from, err := parseTime(used)
			to, err2 := parseTime(made)
			if err = errors.Join(err, err2); err != nil || to.Sub(from).Abs() > pantry.LeftOver { // what was owned up to late as well
				return err
			}
		}
		if l != line && !slices.Contains(lines, l) {
			lines = append(lines, l)
		}
		return nil
	})
	return lines, err
}
