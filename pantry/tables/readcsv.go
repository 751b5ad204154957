package tables

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"
)

// csvReader reads the records of one file.
type csvReader struct {
	in    *bufio.Reader
	line  int // lines begun
	first int // line on which the latest record begins
}

// record reads one record by the grammar of RFC 4180, section 2, with any UTF-8 in the text and a
// line feed taken for a line's end as well. The library's reader makes a line feed of a carriage
// return and line feed within a cell, which would be another text. io.EOF is the end.
func (r *csvReader) record() (cells []string, err error) {
	r.line++
	r.first = r.line
	if _, err := r.in.Peek(1); err != nil {
		return nil, err
	}
	for {
		cell, last, err := r.cell()
		if err != nil {
			return nil, err
		}
		if !utf8.ValidString(cell) {
			return nil, errors.New("there is text that is not UTF-8")
		}
		cells = append(cells, cell)
		if last {
			return cells, nil
		}
	}
}

// cell reads a cell and the comma or line's end after it.
func (r *csvReader) cell() (s string, last bool, err error) {
	var text []byte
	b, err := r.in.ReadByte()
	if err == nil && b == '"' {
		if text, err = r.quoted(); err != nil {
			return "", false, err
		}
		if b, err = r.in.ReadByte(); err == nil && b != ',' && b != '\r' && b != '\n' {
			return "", false, errors.New("a cell goes on after its closing quote")
		}
	}
	for ; err == nil; b, err = r.in.ReadByte() {
		switch b {
		case ',':
			return string(text), false, nil
		case '\n':
			return string(text), true, nil
		case '\r':
			if b, err = r.in.ReadByte(); err != nil || b != '\n' {
				return "", false, errors.New("a carriage return stands alone, outside of quotes")
			}
			return string(text), true, nil
		case '"':
			return "", false, errors.New("a quote stands within a cell that is not quoted")
		}
		text = append(text, b)
	}
	if err == io.EOF {
		err = nil
	}
	return string(text), true, err
}

// quoted reads a quoted cell, after its first quote.
func (r *csvReader) quoted() (text []byte, err error) {
	for {
		b, err := r.in.ReadByte()
		if err == io.EOF {
			return nil, errors.New("a quote is opened and not closed")
		}
		if err != nil {
			return nil, err
		}
		if b == '\n' {
			r.line++
		}
		if b == '"' {
			if next, _ := r.in.Peek(1); string(next) != `"` {
				return text, nil
			}
			r.in.Discard(1)
		}
		text = append(text, b)
	}
}

// readCSV reads a folder of CSV files.
func readCSV(dir string, c *checker) (kitchen string, err error) {
	kitchen, counts, err := readHead(dir)
	if err != nil {
		return "", err
	}
	if err := c.kitchen(kitchen); err != nil {
		return "", err
	}
	for i, t := range All {
		if err := readTable(dir, t, counts[i], c); err != nil {
			return "", fault(err, place(dir))
		}
	}
	return kitchen, fault(c.finish(), place(dir))
}

func place(dir string) func(*Table, int64) (string, int) {
	return func(t *Table, line int64) (string, int) { return filepath.Join(dir, csvFile(t.Name)), int(line) }
}

// open opens one of the files and checks its heading.
func open(file string, heading []string) (r *csvReader, end func() error, err error) {
	f, err := os.Open(file)
	if err != nil {
		what := "this cannot be read"
		if errors.Is(err, fs.ErrNotExist) {
			what = "this file is missing"
		}
		return nil, nil, &Fault{File: file, What: what, Do: other, Err: err}
	}
	r = &csvReader{in: bufio.NewReaderSize(f, 1<<16)}
	if mark, _ := r.in.Peek(3); string(mark) == "\xEF\xBB\xBF" {
		r.in.Discard(3) // spreadsheets put a byte order mark there
	}
	cells, err := r.record()
	if err == nil && !slices.Equal(cells, heading) || err == io.EOF {
		err = errors.New("the heading must be: " + strings.Join(heading, ","))
	}
	if err != nil {
		f.Close()
		return nil, nil, &Fault{File: file, Line: 1, What: err.Error(), Do: mend}
	}
	return r, f.Close, nil
}

func readHead(dir string) (kitchen string, counts []int64, err error) {
	file := filepath.Join(dir, headFile)
	heading := []string{"format", "version", "kitchen"}
	for _, t := range All {
		heading = append(heading, t.Name)
	}
	r, end, err := open(file, heading)
	if err != nil {
		return "", nil, err
	}
	defer end()
	cells, err := r.record()
	if err == io.EOF {
		err = errors.New("the row that says which kitchen this is is missing")
	}
	if err == nil && len(cells) != len(heading) {
		err = fmt.Errorf("there are %d cells where %d belong", len(cells), len(heading))
	}
	if err != nil {
		return "", nil, &Fault{File: file, Line: r.first, What: err.Error(), Do: mend}
	}
	kitchen = plain(cells[2])
	if err = cmp.Or(checkFormat(cells[0]), checkVersion(cells[1])); err == nil && kitchen == "" {
		err = errNoKitchen
	}
	if err != nil {
		return "", nil, &Fault{File: file, Line: r.first, What: err.Error(), Do: other}
	}
	for i, cell := range cells[3:] {
		n, err := parsed(Number, cell)
		if err != nil {
			return "", nil, &Fault{File: file, Line: r.first, What: fmt.Sprintf("%s: %v", All[i].Name, err), Do: mend}
		}
		counts = append(counts, n.(int64))
	}
	if _, err := r.record(); err != io.EOF {
		return "", nil, &Fault{File: file, Line: r.first, What: "there is more than one row", Do: mend}
	}
	return kitchen, counts, nil
}

func readTable(dir string, t *Table, count int64, c *checker) error {
	r, end, err := open(filepath.Join(dir, csvFile(t.Name)), names(t))
	if err != nil {
		return err
	}
	defer end()
	for n := int64(0); ; n++ {
		cells, err := r.record()
		if err == io.EOF {
			if n != count {
				return wrong{t, 0, fmt.Errorf("there are %d rows, and %s says %d", n, headFile, count)}
			}
			return c.end(t)
		}
		if err != nil {
			return wrong{t, int64(r.first), err}
		}
		values, err := rowOfCells(t, cells)
		if err != nil {
			return wrong{t, int64(r.first), err}
		}
		if err := c.row(row{table: t, values: values, place: int64(r.first)}); err != nil {
			return err
		}
	}
}

func rowOfCells(t *Table, cells []string) ([]any, error) {
	if len(cells) != len(t.Columns) {
		return nil, fmt.Errorf("there are %d cells where %d belong", len(cells), len(t.Columns))
	}
	values := make([]any, len(cells))
	for i, col := range t.Columns {
		v, err := parsed(col.Kind, cells[i])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", col.Name, err)
		}
		values[i] = v
	}
	return values, nil
}
