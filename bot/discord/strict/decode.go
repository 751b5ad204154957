package strict

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// decode reads one JSON value. Broken UTF-8, lone surrogates and anything after
// the value are refused; Go's own reader would mend the first two in silence.
func decode(data []byte) (any, error) {
	if !utf8.Valid(data) {
		return nil, errors.New("the body is not UTF-8")
	}
	if loneSurrogate(data) {
		return nil, errors.New("the body escapes half of a surrogate pair")
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return nil, errors.New("the body is not JSON: " + err.Error())
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, errors.New("the body goes on after its JSON value")
	}
	return v, nil
}

// loneSurrogate finds a \uD800 to \uDFFF that is no half of a pair.
func loneSurrogate(data []byte) bool {
	for i := 0; i < len(data); i++ {
		if data[i] != '\\' {
			continue
		}
		first, ok := escaped(data[i:])
		if !ok {
			i++ // the character after the backslash stands for itself
			continue
		}
		i += 5
		if !utf16.IsSurrogate(first) {
			continue
		}
		second, ok := escaped(data[i+1:])
		if !ok || utf16.DecodeRune(first, second) == utf8.RuneError {
			return true
		}
		i += 6
	}
	return false
}

// escaped reads \uXXXX at the start of data.
func escaped(data []byte) (rune, bool) {
	if len(data) < 6 || data[0] != '\\' || data[1] != 'u' {
		return 0, false
	}
	n, err := strconv.ParseUint(string(data[2:6]), 16, 16)
	return rune(n), err == nil
}

// encode writes what the server itself has made, which always can be written.
func encode(v any) []byte {
	data, err := json.Marshal(v)
	if err != nil {
		panic("strict: a value that cannot be JSON: " + err.Error())
	}
	return data
}

// plain is v as a decoder would give it: maps, slices, json.Number.
func plain(v any) any {
	d := json.NewDecoder(bytes.NewReader(encode(v)))
	d.UseNumber()
	var out any
	if err := d.Decode(&out); err != nil {
		panic("strict: " + err.Error())
	}
	return out
}

// whole is a JSON number as an int, 0 where there is none.
func whole(v any) int {
	switch n := v.(type) {
	case int:
		return n
	case float64:
		return int(n)
	case json.Number:
		i, _ := strconv.Atoi(n.String())
		return i
	}
	return 0
}

func text(v any) string {
	s, _ := v.(string)
	return s
}
