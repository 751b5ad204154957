package terminal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"scullion/bot"
)

// Longest id of a message and longest name of a cook, in characters.
const (
	longestID   = 200
	longestCook = 100
)

// someone is the cook of a message that names none.
const someone = "cook"

// said is a line of the pipe as it came. Fields that are not named here are
// left alone, so that a caller may carry its own.
type said struct {
	id, cook, at, text string
	edit, gone         bool
	has                map[string]bool // the fields that were there and not null
}

// readSaid reads one line: one JSON object with each field at most once. What
// could be read before an error is given too, so that the error can say which
// message it is about.
func readSaid(line string) (s said, err error) {
	s.has = map[string]bool{}
	switch {
	case strings.TrimSpace(line) == "":
		return s, errors.New(`the line is empty; send an object such as {"id":"m1","cook":"stove","text":"used 2 leeks"}`)
	case !utf8.ValidString(line):
		return s, errors.New("the line is not valid UTF-8")
	}
	d := json.NewDecoder(strings.NewReader(line))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return s, notJSON(err)
	}
	for d.More() {
		if err := s.field(d); err != nil {
			return s, err
		}
	}
	if _, err := d.Token(); err != nil {
		return s, notJSON(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return s, errors.New("more than one JSON object on the line")
	}
	return s, nil
}

// notJSON says what is wrong in the JSON reader's words where it has any.
func notJSON(err error) error {
	switch {
	case err == nil:
		return errors.New("the line is not a JSON object")
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return errors.New("the line is not whole JSON: it ends too soon")
	}
	return fmt.Errorf("the line is not JSON: %w", err)
}

// field reads the next field and its value.
func (s *said) field(d *json.Decoder) error {
	t, err := d.Token()
	name, ok := t.(string)
	if err != nil || !ok {
		return notJSON(err)
	}
	var value json.RawMessage
	if err := d.Decode(&value); err != nil {
		return notJSON(err)
	}
	if _, twice := s.has[name]; twice {
		return fmt.Errorf("%q stands twice on the line", name)
	}
	s.has[name] = string(value) != "null"
	into, what := s.place(name)
	if into == nil {
		return nil
	}
	if json.Unmarshal(value, into) != nil {
		return fmt.Errorf("%q must be %s", name, what)
	}
	return nil
}

// place is where a field's value goes, and what it must be.
func (s *said) place(name string) (into any, what string) {
	switch name {
	case "id":
		return &s.id, "a string"
	case "cook":
		return &s.cook, "a string"
	case "text":
		return &s.text, "a string"
	case "at":
		return &s.at, "a string, a time such as 2026-03-02T17:00:00Z"
	case "edit":
		return &s.edit, "true or false"
	case "delete":
		return &s.gone, "true or false"
	}
	return nil, ""
}

// message checks what was said and makes the message of it; now is its time
// where it gives none.
func (s *said) message(kitchen string, now func() time.Time) (m bot.Message, err error) {
	cook := Name(s.cook)
	switch {
	case s.id == "":
		return m, errors.New(`"id" is missing: every message needs one of its own`)
	case utf8.RuneCountInString(s.id) > longestID:
		return m, fmt.Errorf(`"id" is longer than %d characters`, longestID)
	case utf8.RuneCountInString(cook) > longestCook:
		return m, fmt.Errorf(`"cook" is longer than %d characters`, longestCook)
	case s.edit && s.gone:
		return m, errors.New(`"edit" and "delete" do not go together`)
	case !s.has["text"] && !s.gone:
		return m, errors.New(`"text" is missing: what was said`)
	}
	m = bot.Message{Kitchen: kitchen, ID: s.id, Cook: cook, Text: s.text, Edit: s.edit, Delete: s.gone}
	if m.Cook == "" && !m.Edit && !m.Delete {
		m.Cook = someone
	}
	if !s.has["at"] {
		m.At = now()
		return m, nil
	}
	if m.At, err = time.Parse(time.RFC3339, s.at); err != nil {
		return m, fmt.Errorf(`"at" must be a time such as 2026-03-02T17:00:00Z, not %q`, clip(s.at, 40))
	}
	m.Version = s.at // tells one edit of a message from another
	return m, nil
}

// clip cuts s to n characters.
func clip(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
