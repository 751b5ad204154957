package technique

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// header is the first line of a table of techniques. Lists are parted by ";".
//
//	suits     food or kind, "!" behind those it is best for
//	never     food or kind, "=reason" behind those barred for safety
//	portion   min-max grams (ml for food that is poured)
//	steps     what|hands fixed+per 100 g|unattended|kit|temp C
//	after     for each step the steps it waits for ("1+2", "-" none); empty: the one before
//	main      number of the step that cooks; empty: none
//	times     food or kind and the main step's unattended minutes
//	staples   names parted by "/", amount, g or ml, for a portion
//	saves     trimmings that are dinner this way, as the table of trimmings calls them
var header = []string{
	"id", "name", "family", "suits", "never", "role", "heat", "portion", "cut", "steps", "after", "main",
	"times", "reference", "staples", "yield", "holds", "saves", "caution", "title", "how", "source",
}

// Read reads a table of techniques; name stands before the line number in
// errors. The first fault ends it, with file, line and reason: an unknown
// column, word or kit, an id or title that is there twice, an oven that nothing
// heats, a row without a source.
func Read(name string, r io.Reader) ([]Technique, error) {
	var list []Technique
	seen := map[string]bool{}
	err := eachRow(name, r, header, func(row *row) {
		t := row.technique()
		if row.err == nil && (seen[t.ID] || seen[t.Title]) {
			row.fail("id", "id or title is there already: "+t.ID)
		}
		seen[t.ID], seen[t.Title] = true, true
		list = append(list, t)
	})
	if err != nil {
		return nil, err
	}
	return list, nil
}

// row reads one record field by field and keeps the first fault.
type row struct {
	columns []string
	record  []string
	err     error
}

func (r *row) fail(column, why string) {
	if r.err == nil {
		r.err = errors.New(column + ": " + why)
	}
}

func (r *row) text(column string) string { return r.record[slices.Index(r.columns, column)] }

func (r *row) must(column string) string {
	s := r.text(column)
	if s == "" {
		r.fail(column, "is empty")
	}
	return s
}

func (r *row) oneOf(column string, words []string) string {
	s := r.text(column)
	if !slices.Contains(words, s) {
		r.fail(column, fmt.Sprintf("%q is not one of %q", s, words))
	}
	return s
}

// list splits a field at ";". An empty field is an empty list, an empty item a fault.
func (r *row) list(column string) []string {
	s := r.text(column)
	if s == "" {
		return nil
	}
	items := strings.Split(s, ";")
	for i, item := range items {
		items[i] = strings.TrimSpace(item)
		if items[i] == "" {
			r.fail(column, "has an empty item")
		}
	}
	return items
}

// eachRow checks the header and hands each further record to f.
func eachRow(name string, r io.Reader, columns []string, f func(*row)) error {
	in := csv.NewReader(r)
	in.FieldsPerRecord = len(columns)
	first, err := in.Read()
	if err != nil || !slices.Equal(first, columns) {
		return fmt.Errorf("%s:1: the first line must be %q", name, strings.Join(columns, ","))
	}
	for {
		record, err := in.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		row := &row{columns: columns, record: record}
		f(row)
		if row.err != nil {
			line, _ := in.FieldPos(0)
			return fmt.Errorf("%s:%d: %s: %w", name, line, record[0], row.err)
		}
	}
}
