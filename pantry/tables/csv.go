package tables

import (
	"bufio"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// headFile says what the folder is and how many rows each table has: a CSV file that has lost
// its end is still a CSV file.
const headFile = "kitchen.csv"

func csvFile(table string) string { return table + ".csv" }

// csvWriter writes a file for each table.
type csvWriter struct {
	dir   string
	head  [][]string
	table *Table
	rows  int
	file  *os.File
	out   *bufio.Writer
}

// NewCSV writes a kitchen as CSV files in a folder that is there and empty.
func NewCSV(dir, kitchen string) Writer {
	return &csvWriter{dir: dir, head: [][]string{{"format", "version", "kitchen"},
		{Format, strconv.Itoa(Version), guarded(written(Text, kitchen).(string))}}}
}

func (w *csvWriter) Table(t *Table) error {
	if err := w.end(); err != nil {
		return err
	}
	w.table, w.rows = t, 0
	if err := w.create(csvFile(t.Name)); err != nil {
		return err
	}
	w.record(names(t))
	return nil
}

func names(t *Table) (list []string) {
	for _, c := range t.Columns {
		list = append(list, c.Name)
	}
	return list
}

func (w *csvWriter) create(name string) (err error) {
	w.file, err = os.OpenFile(filepath.Join(w.dir, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	w.out = bufio.NewWriterSize(w.file, 1<<16)
	return err
}

// end finishes the file that is being written.
func (w *csvWriter) end() error {
	if w.file == nil {
		return nil
	}
	if w.table != nil {
		w.head[0], w.head[1] = append(w.head[0], w.table.Name), append(w.head[1], strconv.Itoa(w.rows))
	}
	err := w.out.Flush()
	if err == nil {
		err = w.file.Sync()
	}
	if e := w.file.Close(); err == nil {
		err = e
	}
	w.file = nil
	return err
}

func (w *csvWriter) Row(values []any) error {
	w.rows++
	cells := make([]string, len(values))
	for i, c := range w.table.Columns {
		switch v := written(c.Kind, values[i]).(type) {
		case string:
			cells[i] = guarded(v)
		case int64:
			cells[i] = strconv.FormatInt(v, 10)
		case bool:
			cells[i] = strconv.FormatBool(v)
		}
	}
	return w.record(cells)
}

func (w *csvWriter) Close() error {
	if err := w.end(); err != nil {
		return err
	}
	w.table = nil
	if err := w.create(headFile); err != nil {
		return err
	}
	for _, row := range w.head {
		w.record(row)
	}
	return w.end()
}

// record writes one record as RFC 4180, section 2, has it. The library's writer would do, but its
// reader makes one line feed of a carriage return and line feed within a cell.
func (w *csvWriter) record(cells []string) error {
	for i, c := range cells {
		if i > 0 {
			w.out.WriteByte(',')
		}
		if strings.ContainsAny(c, ",\"\r\n") || c == "" && len(cells) == 1 {
			c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
		}
		w.out.WriteString(c)
	}
	_, err := w.out.WriteString("\r\n")
	return err
}

// guarded keeps a spreadsheet from taking text for a formula: what begins with one of the signs
// gets an apostrophe before it, and so does what would look like that. plain is the reverse.
func guarded(s string) string {
	if formula(s) {
		return "'" + s
	}
	return s
}

func plain(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && formula(rest) {
		return rest
	}
	return s
}

func formula(s string) bool {
	s = strings.TrimLeft(s, "'")
	return s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0]))
}
