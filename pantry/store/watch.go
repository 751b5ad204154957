package store

import (
	"context"
	"time"
)

// Watch calls changed after every commit to the file, by this program or another, until ctx ends.
// It looks as often as every says: SQLite counts the commits of all but the connection that asks,
// and asking takes microseconds. Commits close to one another may be told as one.
func (s *Store) Watch(ctx context.Context, every time.Duration, changed func()) error {
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return fault(s.path, err)
	}
	defer conn.Close()
	last := int64(-1)
	for tick := time.NewTicker(every); ; {
		var v int64
		if err := conn.QueryRowContext(ctx, "PRAGMA data_version").Scan(&v); err != nil {
			if ctx.Err() != nil {
				return nil
			}
			return fault(s.path, err)
		}
		if last >= 0 && v != last {
			changed()
		}
		last = v
		select {
		case <-ctx.Done():
			tick.Stop()
			return nil
		case <-tick.C:
		}
	}
}
