// Package tables is the form in which a kitchen is taken along: a table of rows for each kind of
// thing, as one JSON document or as a folder of CSV files.
//
// Write with NewJSON or NewCSV; Read takes either back and hands on what it has checked.
// columns.csv is the whole schema: the tables in the order they come in, their columns, and what
// each holds. Both forms say the same, and rows point to each other by names (a message's id, a
// line's name), never by numbers of the file they came from, so that a kitchen written twice is
// the same bytes, wherever it was read in between.
//
// Standards: JSON is RFC 8259, CSV is RFC 4180, times are RFC 3339, all of it UTF-8 (RFC 3629).
// Nothing here knows the database.
package tables

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
)

// What a file says of itself. Version goes up with every change of columns.csv after a release.
const (
	Format  = "scullion kitchen"
	Version = 1
)

// Kind is what a column holds.
type Kind string

// The kinds. In JSON a flag is true or false, a number, amount or sum is a whole number, and all
// else is a string.
const (
	Text    Kind = "text"
	Number  Kind = "number"  // a whole number from 0
	Amount  Kind = "amount"  // milligrams or microlitres, a whole number from 0
	Sum     Kind = "sum"     // an amount that follows from the entries, to be checked against them
	Reads   Kind = "reads"   // the amount before it once more, for people; see Say
	Flag    Kind = "flag"    // true or false
	Time    Kind = "time"    // as it was said, with the place's own offset
	Milli   Kind = "milli"   // a time; kept as milliseconds since 1970, 0 as ""
	Micro   Kind = "micro"   // a time; kept as microseconds since 1970, 0 as ""
	Date    Kind = "date"    // 2026-03-04, or ""
	Unit    Kind = "unit"    // g or ml
	Shelf   Kind = "shelf"   // crate or cupboard
	Act     Kind = "act"     // one of pantry.Acts
	Message Kind = "message" // the id of a message
	Perhaps Kind = "perhaps" // the id of a message, or ""
	Line    Kind = "line"    // the name of a line
	Kept    Kind = "kept"    // what the program keeps for itself; a line's id in it is the line's place, from 1
)

// Column is one column of a table.
type Column struct {
	Name string
	Kind Kind
	Key  bool // with the table's other keys it tells rows apart
}

// Table is one table. Where its first key is a message, rows come in the order of messages and
// then by the other keys.
type Table struct {
	Name    string
	Columns []Column
}

//go:embed columns.csv
var columnsCSV string

// All lists the tables, in the order in which they are written and read: rows point to tables
// that come before their own.
var All = parse(columnsCSV)

func parse(text string) (list []*Table) {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	for _, r := range rows[1:] {
		if len(list) == 0 || list[len(list)-1].Name != r[0] {
			list = append(list, &Table{Name: r[0]})
		}
		t := list[len(list)-1]
		t.Columns = append(t.Columns, Column{r[1], Kind(r[2]), r[3] == "key"})
	}
	return list
}

// at is the place of a column by its name.
func (t *Table) at(column string) int {
	return slices.IndexFunc(t.Columns, func(c Column) bool { return c.Name == column })
}

// Writer writes tables: Table begins each of All in turn, then come its rows. Values are, by the
// kind of the column, a string, a bool (Flag), or an int64 (Number, Amount, Sum, Milli, Micro).
type Writer interface {
	Table(t *Table) error
	Row(values []any) error
	Close() error // what was written is whole only if this gives no error
}
