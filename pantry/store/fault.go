package store

import (
	"errors"
	"fmt"
)

// Fault is a trouble with the kitchen file that a person can do something
// about. Its text is one line: what is wrong, and what to do.
type Fault struct {
	Path string
	What string // "the disk is full"
	Do   string // "free some space and send it again"
	Err  error  // what SQLite or the system said; may be nil
}

// Error gives the line.
func (f *Fault) Error() string { return fmt.Sprintf("%s: %s; %s", f.Path, f.What, f.Do) }

// Unwrap gives the cause.
func (f *Fault) Unwrap() error { return f.Err }

// SQLite's primary result codes, from the table at its result-code page.
const (
	sqliteBusy     = 5
	sqliteLocked   = 6
	sqliteReadOnly = 8
	sqliteIOErr    = 10
	sqliteCorrupt  = 11
	sqliteFull     = 13
	sqliteCantOpen = 14
	sqliteNotADB   = 26
)

// sayings turns a code into words; it is the only place that does.
var sayings = map[int][2]string{
	sqliteBusy:     {"another program is holding the kitchen file", "close it, or wait, and try again"},
	sqliteLocked:   {"another program is holding the kitchen file", "close it, or wait, and try again"},
	sqliteReadOnly: {"the kitchen file cannot be written", "allow writing to the file and its folder, or name another with --db"},
	sqliteIOErr:    {"the disk failed while reading or writing the kitchen file", "check the disk and its free space; nothing of this message was kept, send it again"},
	sqliteCorrupt:  {"the kitchen file is damaged", "keep a copy of it, then bring back the last good one with: scullion restore BACKUP --overwrite --db NEWFILE"},
	sqliteFull:     {"the disk is full, so nothing of this message was kept", "free some space and send it again"},
	sqliteCantOpen: {"the kitchen file cannot be opened", "check that its folder is there and can be written, or name another with --db"},
	sqliteNotADB:   {"this is not a kitchen file, or it is damaged", "name another with --db, or bring back the last good one with: scullion restore BACKUP --db NEWFILE"},
}

// fault names the trouble behind err where SQLite gave a code for it, and
// otherwise leaves err as it is.
func fault(path string, err error) error {
	var known *Fault
	if err == nil || errors.As(err, &known) {
		return err
	}
	if s, ok := sayings[code(err)]; ok {
		return &Fault{path, s[0], s[1], err}
	}
	return fmt.Errorf("%s: %w", path, err)
}
