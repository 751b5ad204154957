package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"scullion/bot/terminal"
)

// usage is an error in how the program was called. Its text says what to do.
type usage struct{ text string }

func (u usage) Error() string { return u.text }

// flagError says what was wrong with a flag.
func flagError(c *cobra.Command, err error) error {
	text := err.Error()
	var bad *pflag.InvalidValueError
	if errors.As(err, &bad) {
		text = fmt.Sprintf("--%s %q: %v", bad.GetFlag().Name, bad.GetValue(), bad.Unwrap())
		if errors.Is(err, strconv.ErrSyntax) {
			text = fmt.Sprintf("--%s %q: true or false", bad.GetFlag().Name, bad.GetValue())
		}
	}
	return usage{fmt.Sprintf("%s; see: %s --help", text, c.CommandPath())}
}

// takes checks the number of arguments; what names them, "" for none.
func takes(n int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) == n:
			return nil
		case n == 0:
			return usage{fmt.Sprintf("%s takes no %q; see: %s --help", c.Name(), args[0], c.CommandPath())}
		}
		return usage{fmt.Sprintf("%s takes one %s; see: %s --help", c.Name(), what, c.CommandPath())}
	}
}

// nameValue is a flag that names a kitchen or a cook.
type nameValue struct{ s *string }

const longestName = 100

func (v *nameValue) Set(s string) error {
	if err := goodName(s); err != nil {
		return err
	}
	*v.s = s
	return nil
}

func goodName(s string) error {
	if s == "" || s != terminal.Name(s) || len([]rune(s)) > longestName {
		return fmt.Errorf("a name on one line, of 1 to %d characters", longestName)
	}
	return nil
}
func (v *nameValue) String() string { return said(v.s) }
func (v *nameValue) Type() string   { return "name" }

// choiceValue is a flag that takes one of a few words.
type choiceValue struct {
	s    *string
	from []string
}

func (v *choiceValue) Set(s string) error {
	if !slices.Contains(v.from, s) {
		return errors.New("one of " + strings.Join(v.from, ", "))
	}
	*v.s = s
	return nil
}
func (v *choiceValue) String() string { return said(v.s) }
func (v *choiceValue) Type() string   { return strings.Join(v.from, "|") }

// numberValue is a flag that takes a whole number from 1.
type numberValue struct {
	n    *int
	most int
}

func (v *numberValue) Set(s string) error {
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 || n > v.most {
		return fmt.Errorf("a whole number from 1 to %d", v.most)
	}
	*v.n = n
	return nil
}

// String gives "" for a number that was not set, so that help shows no
// default.
func (v *numberValue) String() string {
	if v.n == nil || *v.n == 0 {
		return ""
	}
	return strconv.Itoa(*v.n)
}
func (v *numberValue) Type() string { return "number" }

func said(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}
