package tables

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"strconv"
)

// jsonWriter writes one JSON document with a line for each row, so that two of them can be
// compared line by line.
type jsonWriter struct {
	out   *bufio.Writer
	buf   bytes.Buffer
	enc   *json.Encoder
	table *Table
	rows  int
}

// NewJSON writes a kitchen as one JSON document. Its errors are out's own.
func NewJSON(out io.Writer, kitchen string) Writer {
	w := &jsonWriter{out: bufio.NewWriterSize(out, 1<<16)}
	w.enc = json.NewEncoder(&w.buf)
	w.enc.SetEscapeHTML(false)
	w.out.WriteString("{\n\"format\": " + w.quote(Format) + ",\n\"version\": " + strconv.Itoa(Version) + ",\n\"kitchen\": " + w.quote(written(Text, kitchen)))
	return w
}

// quote gives a value in JSON.
func (w *jsonWriter) quote(v any) string {
	w.buf.Reset()
	w.enc.Encode(v) // a string, a number and a bool always can be
	return string(bytes.TrimSuffix(w.buf.Bytes(), []byte("\n")))
}

func (w *jsonWriter) Table(t *Table) error {
	if w.table != nil {
		w.out.WriteString("\n]")
	}
	w.table, w.rows = t, 0
	_, err := w.out.WriteString(",\n" + w.quote(t.Name) + ": [")
	return err
}

func (w *jsonWriter) Row(values []any) error {
	if w.rows++; w.rows > 1 {
		w.out.WriteByte(',')
	}
	lead := "\n{"
	for i, c := range w.table.Columns {
		w.out.WriteString(lead + `"` + c.Name + `":` + w.quote(written(c.Kind, values[i])))
		lead = ","
	}
	return w.out.WriteByte('}')
}

func (w *jsonWriter) Close() error {
	w.out.WriteString("\n]\n}\n")
	return w.out.Flush() // a bufio.Writer keeps its first error
}
