//go:build cgo

package store

import (
	"errors"
	"net/url"

	"github.com/mattn/go-sqlite3"
)

const driver = "sqlite3"

// dsn names the file with the settings that every connection must have.
func dsn(path string, busyMillis string) string {
	q := url.Values{
		"_busy_timeout": {busyMillis},
		"_foreign_keys": {"on"},
		"_synchronous":  {"full"},
	}
	return fileURL(path) + "?" + q.Encode()
}

// code is SQLite's primary result code of err; 0 where it has none.
func code(err error) int {
	var e sqlite3.Error
	if errors.As(err, &e) {
		return int(e.Code)
	}
	return 0
}
