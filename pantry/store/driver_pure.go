//go:build !cgo

package store

import (
	"errors"
	"net/url"

	"modernc.org/sqlite"
)

const driver = "sqlite"

// dsn names the file with the settings that every connection must have.
func dsn(path string, busyMillis string) string {
	q := url.Values{"_pragma": {
		"busy_timeout(" + busyMillis + ")",
		"foreign_keys(1)",
		"synchronous(full)",
	}}
	return fileURL(path) + "?" + q.Encode()
}

// code is SQLite's primary result code of err; 0 where it has none.
func code(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code() & 0xff
	}
	return 0
}
