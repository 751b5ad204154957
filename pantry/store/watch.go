package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"hash/fnv"
	"time"
)

// Watch calls changed after every commit, by this program or another, that changes what a kitchen's
// board shows, until ctx ends: not for other kitchens' in the same file. It looks as often as every
// says: SQLite counts the commits of all but the connection that asks, and asking takes microseconds.
// Commits close to one another may be told as one.
func (s *Store) Watch(ctx context.Context, kitchen string, every time.Duration, changed func()) error {
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return fault(s.path, err)
	}
	defer conn.Close()
	version := int64(-1)
	var last uint64
	for tick := time.NewTicker(every); ; {
		var v int64
		err := conn.QueryRowContext(ctx, "PRAGMA data_version").Scan(&v)
		if err == nil && v != version {
			var now uint64
			now, err = markOf(ctx, conn, kitchen)
			if err == nil {
				if version >= 0 && now != last {
					changed()
				}
				version, last = v, now
			}
		}
		if err != nil {
			if ctx.Err() != nil {
				return nil
			}
			return fault(s.path, err)
		}
		select {
		case <-ctx.Done():
			tick.Stop()
			return nil
		case <-tick.C:
		}
	}
}

// markOf tells one state of a kitchen from another: a sum of its lines, timers and services, and of
// its latest messages. It reads what is few however long the ledger is.
func markOf(ctx context.Context, r reader, kitchen string) (uint64, error) {
	id, err := kitchenID(ctx, r, kitchen)
	if errors.Is(err, ErrNoKitchen) {
		return 0, nil
	}
	if err != nil {
		return 0, err
	}
	h := fnv.New64a()
	for _, q := range marks {
		err := each(ctx, r, q, func(rows *sql.Rows) error {
			var a, b, c, d sql.RawBytes
			if err := rows.Scan(&a, &b, &c, &d); err != nil {
				return err
			}
			_, err := fmt.Fprintf(h, "%q%q%q%q\n", a, b, c, d)
			return err
		}, id)
		if err != nil {
			return 0, err
		}
	}
	return h.Sum64(), nil
}

// marks are what a kitchen's sum is of, four columns each.
var marks = []string{
	"SELECT line.name, received + made, used * 31 + binned * 37 + variance, lots || holds FROM line JOIN balance ON balance.line = line.id WHERE kitchen = ? ORDER BY line.id",
	"SELECT message, part, about, due FROM timer WHERE kitchen = ? ORDER BY message, part",
	"SELECT message, ended, due, body FROM service WHERE kitchen = ? ORDER BY begun DESC LIMIT 4",
	"SELECT n, rev, gone, text || reply FROM message WHERE n > (SELECT max(n) FROM message) - 1000 AND +kitchen = ? ORDER BY n DESC LIMIT 32",
	"SELECT name, person, shown, '' FROM cook WHERE kitchen = ? ORDER BY name",
	"SELECT count(*), '', '', '' FROM dish WHERE kitchen = ?",
}
