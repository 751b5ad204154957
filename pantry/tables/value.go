package tables

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// most is above any figure that a kitchen writes, and low enough that a million of them add up.
const most = 1000 * int64(measure.Most)

// Say puts an amount into words, exactly: "300.5 g".
func Say(amount int64, unit string) string {
	s := fmt.Sprintf("%d.%03d", amount/1000, amount%1000)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " " + unit
}

// written gives a value as it stands in a file: a string, an int64 or a bool.
func written(k Kind, v any) any {
	switch v := v.(type) {
	case int64:
		switch {
		case k == Milli && v == 0, k == Micro && v == 0:
			return ""
		case k == Milli:
			return time.UnixMilli(v).UTC().Format(time.RFC3339Nano)
		case k == Micro:
			return time.UnixMicro(v).UTC().Format(time.RFC3339Nano)
		}
	case string:
		return strings.ToValidUTF8(v, "\uFFFD") // RFC 8259, section 8.1
	}
	return v
}

// The types that a value has in JSON, by the kind of its column.
const (
	isText   = "text"
	isNumber = "a whole number"
	isFlag   = "true or false"
)

func (k Kind) is() string {
	switch k {
	case Number, Amount, Sum:
		return isNumber
	case Flag:
		return isFlag
	}
	return isText
}

// parsed reads a cell of a CSV file as the type that its column has in JSON.
func parsed(k Kind, cell string) (any, error) {
	switch k.is() {
	case isNumber:
		n, err := strconv.ParseInt(cell, 10, 64)
		if err != nil || strconv.FormatInt(n, 10) != cell {
			return nil, fmt.Errorf("%q is not %s", cell, isNumber)
		}
		return n, nil
	case isFlag:
		if cell != "true" && cell != "false" {
			return nil, fmt.Errorf("%q is not %s", cell, isFlag)
		}
		return cell == "true", nil
	}
	return plain(cell), nil
}

// read is the reverse of written, for what needs no other row to be judged.
func read(k Kind, v any) (any, error) {
	switch v := v.(type) {
	case int64:
		switch {
		case v < 0:
			return nil, fmt.Errorf("%d is below nothing", v)
		case v > most:
			return nil, fmt.Errorf("%d is more than a kitchen holds", v)
		}
	case string:
		return readText(k, v)
	}
	return v, nil
}

func readText(k Kind, s string) (any, error) {
	var err error
	switch k {
	case Time:
		_, err = moment(s)
	case Milli, Micro:
		return since1970(k, s)
	case Date:
		if s != "" {
			_, err = pantry.ParseDate(s)
		}
	case Unit:
		_, err = measure.ParseKind(s)
	case Shelf:
		err = oneOf(s, food.Crate, food.Cupboard)
	case Act:
		err = oneOf(s, pantry.Acts...)
	}
	return s, err
}

func oneOf[S ~string](s string, list ...S) error {
	if slices.Contains(list, S(s)) {
		return nil
	}
	return fmt.Errorf("%q is not one of %s", s, strings.Trim(fmt.Sprint(list), "[]"))
}

// moment reads a time as RFC 3339 has it; Go's own reader also takes a comma for the point, and
// hours without a nought.
func moment(s string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339Nano, s)
	if err != nil || strings.Contains(s, ",") || len(s) < len("2026-03-02T17:00:00Z") {
		return t, fmt.Errorf("%q is not a time such as 2026-03-02T17:00:00Z", s)
	}
	return t, nil
}

func since1970(k Kind, s string) (any, error) {
	if s == "" {
		return int64(0), nil
	}
	t, err := moment(s)
	if err != nil {
		return nil, err
	}
	n, back := t.UnixMilli(), time.UnixMilli(t.UnixMilli())
	if k == Micro {
		n, back = t.UnixMicro(), time.UnixMicro(t.UnixMicro())
	}
	if !back.Equal(t) {
		return nil, fmt.Errorf("%q is finer than is kept", s)
	}
	return n, nil
}
