package tables

import (
	"errors"
	"fmt"
	"os"
	"strconv"

	"scullion/pantry"
)

// Fault is what is wrong with a file that is read. Its text is one line: file, line, what is
// wrong, and what to do.
type Fault struct {
	File string
	Line int // counted from 1; 0 the file as a whole
	What string
	Do   string
	Err  error // what the system said; may be nil
}

// Place is the file and the line in it.
func (f *Fault) Place() string {
	if f.Line == 0 {
		return f.File
	}
	return fmt.Sprintf("%s:%d", f.File, f.Line)
}

// Error gives the line.
func (f *Fault) Error() string { return f.Place() + ": " + f.What + "; " + f.Do }

// Unwrap gives the cause.
func (f *Fault) Unwrap() error { return f.Err }

const (
	mend  = "mend it there, or export the kitchen again; nothing was written"
	other = "name a file that scullion export has written, or the folder of its CSV files"
)

// Ref is a message or a line that a row points to.
type Ref struct {
	Name string // the message's id, or the line's name
	N    int    // its place in its table, from 1
}

// Taker is handed what Read has read, in the order of All.
type Taker interface {
	// Kitchen comes first: its name.
	Kitchen(name string) error
	// Row has the values of a Writer, with a Ref for each Message and Line.
	Row(t *Table, values []any) error
	// Balances comes last: the lines with what their entries in force make of them, in the
	// order of their table.
	Balances(lines []*pantry.Line) error
}

// Read reads a kitchen that was written by NewJSON (path is a file) or NewCSV (a folder), checks
// every row as it comes, hands it to take, and gives the kitchen's name. What is wrong with the
// file is a *Fault; it may come after rows have been handed on. With a nil Taker it only checks.
func Read(path string, take Taker) (kitchen string, err error) {
	info, err := os.Stat(path)
	if err != nil {
		return "", &Fault{File: path, What: "this cannot be read", Do: other, Err: err}
	}
	c := newChecker(take)
	if info.IsDir() {
		return readCSV(path, c)
	}
	if !info.Mode().IsRegular() {
		return "", &Fault{File: path, What: "this is not a file", Do: other}
	}
	return readJSON(path, c)
}

// row is one row with where it stands. Place is whatever the reader finds a line by.
type row struct {
	table  *Table
	values []any
	place  int64
	n      int // which of its table, from 1; where that is asked
}

func (r *row) text(column string) string { s, _ := r.values[r.table.at(column)].(string); return s }
func (r *row) int(column string) int     { n, _ := r.values[r.table.at(column)].(int64); return int(n) }
func (r *row) flag(column string) bool   { b, _ := r.values[r.table.at(column)].(bool); return b }
func (r *row) ref(column string) Ref     { f, _ := r.values[r.table.at(column)].(Ref); return f }

// wrong is a reason to refuse a row, and the row.
type wrong struct {
	table *Table
	place int64
	error
}

// fault says where a row is that was refused; other errors are the taker's own.
func fault(err error, where func(t *Table, place int64) (file string, line int)) error {
	var w wrong
	if !errors.As(err, &w) {
		return err
	}
	file, line := where(w.table, w.place)
	return &Fault{File: file, Line: line, What: w.table.Name + ": " + w.Error(), Do: mend}
}

var errNoKitchen = errors.New("the kitchen has no name")

func checkFormat(said any) error {
	if said == Format {
		return nil
	}
	return fmt.Errorf("the format is %q, not %q", fmt.Sprint(said), Format)
}

func checkVersion(said string) error {
	if said == strconv.Itoa(Version) {
		return nil
	}
	return fmt.Errorf("this is version %q of the format, and this program reads version %d: read it with the program that wrote it, or a newer one", said, Version)
}
