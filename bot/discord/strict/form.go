package strict

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// form collects what is wrong with one request's body.
type form struct{ complaints []complaint }

type complaint struct {
	path []string
	code string
	text string
	page string // the published page, or houseRule
}

// field is one place in a decoded JSON body. JSON null counts as absent.
type field struct {
	form  *form
	path  []string
	value any
	page  string
}

func newForm(value any, page string) field {
	return field{form: &form{}, value: value, page: page}
}

func (f field) of(page string) field {
	f.page = page
	return f
}

func (f field) refuse(code, format string, a ...any) {
	f.form.complaints = append(f.form.complaints, complaint{f.path, code, fmt.Sprintf(format, a...), f.page})
}

func (f field) has() bool { return f.value != nil }

func (f field) need() bool {
	if !f.has() {
		f.refuse("BASE_TYPE_REQUIRED", "is required")
	}
	return f.has()
}

// none refuses a field that has no business here.
func (f field) none(why string) {
	if f.has() {
		f.refuse("BASE_TYPE_FORBIDDEN", "%s", why)
	}
}

func (f field) at(key string) field {
	o, _ := f.value.(Raw)
	f.path = append(slices.Clip(f.path), key)
	f.value = o[key]
	return f
}

// object refuses what is not an object, and keys that are not listed.
func (f field) object(keys ...string) bool {
	if !f.has() {
		return false
	}
	o, ok := f.value.(Raw)
	if !ok {
		f.refuse("MODEL_TYPE_CONVERT", "is not an object")
		return false
	}
	for key, v := range o {
		if v != nil && !slices.Contains(keys, key) {
			f.at(key).refuse("UNKNOWN_FIELD", "is no field of this form")
		}
	}
	return true
}

// list gives the items of an array with least to most items.
func (f field) list(least, most int) []field {
	if !f.has() {
		return nil
	}
	values, ok := f.value.([]any)
	if !ok {
		f.refuse("BASE_TYPE_BAD_LIST", "is not a list")
		return nil
	}
	if len(values) < least || len(values) > most {
		f.refuse("BASE_TYPE_BAD_LENGTH", "has %d items, not %d to %d", len(values), least, most)
	}
	var items []field
	for i, v := range values {
		item := f
		item.path, item.value = append(slices.Clip(f.path), strconv.Itoa(i)), v
		items = append(items, item)
	}
	return items
}

// text gives a string of least to most code points.
func (f field) text(least, most int) string {
	if !f.has() {
		return ""
	}
	s, ok := f.value.(string)
	if !ok {
		f.refuse("BASE_TYPE_STRING", "is not a string")
		return ""
	}
	if n := utf8.RuneCountInString(s); n < least || n > most {
		f.refuse("BASE_TYPE_BAD_LENGTH", "has %d characters, not %d to %d", n, least, most)
	}
	return s
}

func (f field) boolean() bool {
	b, ok := f.value.(bool)
	if f.has() && !ok {
		f.refuse("BOOLEAN_TYPE_CONVERT", "is not true or false")
	}
	return b
}

// whole gives a whole number of least to most.
func (f field) whole(least, most int64) int64 {
	if !f.has() {
		return 0
	}
	n, ok := f.value.(json.Number)
	v, err := strconv.ParseInt(n.String(), 10, 64)
	if !ok || err != nil {
		f.refuse("NUMBER_TYPE_COERCE", "is not a whole number")
		return 0
	}
	if v < least || v > most {
		f.refuse("NUMBER_TYPE_BOUNDS", "is %d, not %d to %d", v, least, most)
	}
	return v
}

func (f field) number() float64 {
	if !f.has() {
		return 0
	}
	n, ok := f.value.(json.Number)
	v, err := n.Float64()
	if !ok || err != nil || math.Abs(v) > maxWhole {
		f.refuse("NUMBER_TYPE_COERCE", "is not a number within 2^53")
	}
	return v
}

// id gives a snowflake, which is a decimal string.
func (f field) id() string {
	s, ok := f.value.(string)
	if _, good := number(s); f.has() && (!ok || !good) {
		f.refuse("NUMBER_TYPE_COERCE", "is not a snowflake")
		return ""
	}
	return s
}

// tree is the complaints as Discord nests them.
func (f *form) tree() Raw {
	top := Raw{}
	for _, c := range f.complaints {
		at := top
		for _, key := range c.path {
			next, ok := at[key].(Raw)
			if !ok {
				next = Raw{}
				at[key] = next
			}
			at = next
		}
		errs, _ := at["_errors"].([]any)
		at["_errors"] = append(errs, Raw{"code": c.code, "message": c.text})
	}
	return top
}

// answer refuses the request with all that is wrong with it.
func (f *form) answer() answer {
	a := refusal(400, 50035, "Invalid Form Body")
	a.body.(Raw)["errors"] = f.tree()
	for _, c := range f.complaints {
		a.blame = append(a.blame, fmt.Sprintf("%s %s (%s)", strings.Join(c.path, "."), c.text, c.page))
	}
	return a
}

func (f *form) bad() bool { return len(f.complaints) > 0 }
