package tables

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// jsonReader reads what jsonWriter writes, in any layout that RFC 8259 allows. The order of the
// tables is fixed, since rows point back; that of the columns is free.
type jsonReader struct {
	path  string
	d     *json.Decoder
	skip  int64 // bytes before the JSON text
	place int64 // where the latest token begins, or the blanks before it
}

func readJSON(path string, c *checker) (kitchen string, err error) {
	f, err := os.Open(path)
	if err != nil {
		return "", &Fault{File: path, What: "this cannot be read", Do: other, Err: err}
	}
	defer f.Close()
	in := bufio.NewReaderSize(f, 1<<16)
	r := &jsonReader{path: path}
	if mark, _ := in.Peek(3); string(mark) == "\xEF\xBB\xBF" { // RFC 8259, section 8.1: may be passed over
		in.Discard(3)
		r.skip = 3
	}
	r.d = json.NewDecoder(in)
	r.d.UseNumber()
	kitchen, err = r.document(c)
	return kitchen, fault(err, func(_ *Table, place int64) (string, int) { return path, r.line(place) })
}

// fail refuses the file for its latest token.
func (r *jsonReader) fail(do, format string, args ...any) error {
	return &Fault{File: r.path, Line: r.line(r.place), What: fmt.Sprintf(format, args...), Do: do}
}

func (r *jsonReader) document(c *checker) (kitchen string, err error) {
	if err := r.sign(json.Delim('{')); err != nil {
		return "", err
	}
	if kitchen, err = r.head(); err != nil {
		return "", err
	}
	if err := c.kitchen(kitchen); err != nil {
		return "", err
	}
	for _, t := range All {
		if err := r.key(t.Name); err != nil {
			return "", err
		}
		if err := r.rows(t, c); err != nil {
			return "", err
		}
	}
	if err := r.sign(json.Delim('}')); err != nil {
		return "", err
	}
	r.place = r.d.InputOffset()
	if _, err := r.d.Token(); err != io.EOF {
		return "", r.fail(mend, "there is something after the end")
	}
	return kitchen, c.finish()
}

func (r *jsonReader) head() (kitchen string, err error) {
	for _, name := range []string{"format", "version", "kitchen"} {
		if err := r.key(name); err != nil {
			return "", err
		}
		v, err := r.token()
		if err != nil {
			return "", err
		}
		switch name {
		case "format":
			err = checkFormat(v)
		case "version":
			n, _ := v.(json.Number)
			err = checkVersion(n.String())
		case "kitchen":
			if kitchen, _ = v.(string); kitchen == "" {
				err = errNoKitchen
			}
		}
		if err != nil {
			return "", r.fail(other, "%v", err)
		}
	}
	return kitchen, nil
}

func (r *jsonReader) token() (json.Token, error) {
	r.place = r.d.InputOffset()
	t, err := r.d.Token()
	switch {
	case err == io.EOF || errors.Is(err, io.ErrUnexpectedEOF):
		return nil, r.fail(mend, "the file ends too soon")
	case err != nil:
		return nil, r.fail(mend, "this is not JSON: %v", err)
	}
	return t, nil
}

func (r *jsonReader) sign(want json.Delim) error {
	t, err := r.token()
	if err == nil && t != want {
		err = r.fail(other, "%q stands where %q belongs", fmt.Sprint(t), want.String())
	}
	return err
}

func (r *jsonReader) key(want string) error {
	t, err := r.token()
	if err == nil && t != want {
		err = r.fail(mend, "%q stands where %q belongs: format, version, kitchen and the tables have a fixed order", fmt.Sprint(t), want)
	}
	return err
}

func (r *jsonReader) rows(t *Table, c *checker) error {
	if err := r.sign(json.Delim('[')); err != nil {
		return err
	}
	for r.d.More() {
		place := r.d.InputOffset()
		var raw json.RawMessage
		if err := r.d.Decode(&raw); err != nil {
			return wrong{t, place, notJSON(err)}
		}
		values, err := rowOf(t, raw)
		if err != nil {
			return wrong{t, place, err}
		}
		if err := c.row(row{table: t, values: values, place: place}); err != nil {
			return err
		}
	}
	if err := r.sign(json.Delim(']')); err != nil {
		return err
	}
	return c.end(t)
}

func notJSON(err error) error {
	if err == io.EOF || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("the file ends too soon")
	}
	return fmt.Errorf("this is not JSON: %w", err)
}

// rowOf reads an object: every column once and nothing else. The library takes broken text in its
// stride, puts a mark in its place and lets the last of two equal names win (RFC 8259, sections 4
// and 8), so that is looked at here.
func rowOf(t *Table, raw []byte) ([]any, error) {
	if !utf8.Valid(raw) || lonely(raw) {
		return nil, errors.New("there is text that is not UTF-8")
	}
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	if v, err := d.Token(); err != nil || v != json.Delim('{') {
		return nil, errors.New("a row is a JSON object")
	}
	values := make([]any, len(t.Columns))
	for d.More() {
		key, err1 := d.Token()
		v, err2 := d.Token()
		if err := errors.Join(err1, err2); err != nil {
			return nil, notJSON(err)
		}
		i := t.at(key.(string))
		if i < 0 {
			return nil, fmt.Errorf("there is no column %q", key)
		}
		if values[i] != nil {
			return nil, fmt.Errorf("%s stands twice", key)
		}
		if values[i] = typed(t.Columns[i].Kind, v); values[i] == nil {
			return nil, fmt.Errorf("%s is %v, not %s", key, v, t.Columns[i].Kind.is())
		}
	}
	for i, c := range t.Columns {
		if values[i] == nil {
			return nil, fmt.Errorf("%s is missing", c.Name)
		}
	}
	return values, nil
}

// typed gives a value as its column needs it; nil where it is of another type.
func typed(k Kind, v json.Token) any {
	switch v := v.(type) {
	case string:
		if k.is() == isText {
			return v
		}
	case bool:
		if k.is() == isFlag {
			return v
		}
	case json.Number:
		if n, err := v.Int64(); err == nil && k.is() == isNumber {
			return n
		}
	}
	return nil
}

// lonely says whether JSON text has half of a surrogate pair in an escape.
func lonely(raw []byte) bool {
	unit := func(i int) rune {
		if i+6 > len(raw) || raw[i] != '\\' || raw[i+1] != 'u' {
			return 0
		}
		n, _ := strconv.ParseUint(string(raw[i+2:i+6]), 16, 16)
		return rune(n)
	}
	for i := 0; i < len(raw); i++ {
		if raw[i] != '\\' {
			continue
		}
		if u := unit(i); utf16.IsSurrogate(u) {
			if utf16.DecodeRune(u, unit(i+6)) == utf8.RuneError {
				return true
			}
			i += 6
		}
		i++ // what is escaped
	}
	return false
}

// line finds the line of what comes after so many bytes of the JSON text.
func (r *jsonReader) line(place int64) int {
	f, err := os.Open(r.path)
	if err != nil {
		return 0
	}
	defer f.Close()
	in := bufio.NewReader(f)
	line := 1
	for n := int64(0); ; n++ {
		b, err := in.ReadByte()
		switch {
		case err != nil:
			return line
		case n >= place+r.skip && !strings.ContainsRune(",: \t\r\n", rune(b)):
			return line
		case b == '\n':
			line++
		}
	}
}
