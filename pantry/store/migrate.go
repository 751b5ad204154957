package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"slices"
)

// The migrations, in order of their names; file n brings version n-1 to n.
// A migration that has been released is never edited.
//
//go:embed migrations/*.sql
var migrations embed.FS

// Version is the version of the file format that this program writes.
func Version() int { return len(steps()) }

func steps() []string {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		panic(err) // only a malformed pattern can fail
	}
	slices.Sort(names)
	return names
}

// migrate brings the file to Version, each step in a transaction of its own
// that takes the write lock first, so that two programs starting at once do
// not both run it.
func migrate(ctx context.Context, c *sql.Conn, path string, to int) error {
	for {
		v, err := version(ctx, c)
		if err != nil {
			return fault(path, err)
		}
		if v > Version() {
			return &Fault{Path: path, What: fmt.Sprintf("the kitchen file is of version %d, newer than this program knows (%d)", v, Version()),
				Do: "use the newer scullion, or name another file with --db"}
		}
		if v >= to {
			return nil
		}
		if err := step(ctx, c, v); err != nil {
			return fault(path, err)
		}
	}
}

func step(ctx context.Context, c *sql.Conn, from int) (err error) {
	if _, err := c.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			c.ExecContext(context.Background(), "ROLLBACK")
		}
	}()
	if v, err := version(ctx, c); err != nil {
		return err
	} else if v == from {
		name := steps()[from]
		text, err := migrations.ReadFile(name)
		if err != nil {
			return err
		}
		if _, err := c.ExecContext(ctx, string(text)); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if _, err := c.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", from+1)); err != nil {
			return err
		}
	}
	_, err = c.ExecContext(ctx, "COMMIT")
	return err
}

func version(ctx context.Context, c *sql.Conn) (v int, err error) {
	err = c.QueryRowContext(ctx, "PRAGMA user_version").Scan(&v)
	return v, err
}
