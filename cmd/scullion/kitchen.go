package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"scullion/bot"
	"scullion/bot/terminal"
	"scullion/pantry"
	"scullion/pantry/store"
)

// withStore opens the kitchen file, making it where it is new, for as long as
// do runs.
func (a *app) withStore(ctx context.Context, do func(*store.Store) error) error {
	s, err := store.Open(ctx, a.db, store.Options{})
	if err != nil {
		return err
	}
	if err := do(s); err != nil {
		s.Close() // the first trouble is the one to tell
		return err
	}
	return s.Close()
}

// withFile is withStore for commands that only look: where there is no file
// they make none, and get errNothing.
func (a *app) withFile(ctx context.Context, do func(*store.Store) error) error {
	if _, err := os.Stat(a.db); errors.Is(err, fs.ErrNotExist) {
		return errNothing
	}
	return a.withStore(ctx, do)
}

// errNothing is returned where there is no kitchen file.
var errNothing = errors.New("there is no kitchen file")

// nothing says whether err means that there is no kitchen yet.
func nothing(err error) bool {
	return errors.Is(err, errNothing) || errors.Is(err, store.ErrNoKitchen)
}

// noFile words errNothing for commands that cannot do without a file.
func (a *app) noFile(err error) error {
	if !errors.Is(err, errNothing) {
		return err
	}
	return fmt.Errorf("%s: there is no kitchen file; name one with --db, or start one with: scullion chat", a.db)
}

// viewFit is view without what is to be binned by what somebody told of it.
func (a *app) viewFit(ctx context.Context) (*pantry.Kitchen, error) {
	k, err := a.view(ctx)
	if err != nil || len(k.Lines) == 0 {
		return k, err
	}
	err = a.withFile(ctx, func(s *store.Store) error {
		names, err := a.bot(s).Unsafe(ctx, a.kitchen, a.now())
		if len(names) > 0 {
			k = bot.Without(k, names)
		}
		return err
	})
	return k, err
}

// view gives the kitchen as it stands; an empty one where there is none yet.
func (a *app) view(ctx context.Context) (*pantry.Kitchen, error) {
	k := &pantry.Kitchen{Name: a.kitchen}
	err := a.withFile(ctx, func(s *store.Store) error {
		found, err := s.View(ctx, a.kitchen)
		if err == nil {
			k = found
		}
		return err
	})
	if nothing(err) {
		err = nil
	}
	return k, err
}

// hintEmpty tells how to start, beside the answer rather than in it.
func (a *app) hintEmpty() {
	fmt.Fprintf(a.err, "scullion: nothing in kitchen %q of %s yet; start with: scullion chat\n", a.kitchen, a.db)
}

func (a *app) today() pantry.Date { return pantry.DateOf(a.now()) }

// outlet is where answers go; it says so when they cannot.
type outlet struct{ io.Writer }

func (o outlet) Write(p []byte) (int, error) {
	n, err := o.Writer.Write(p)
	if err != nil {
		err = fmt.Errorf("the answer cannot be written: %w; look at where it is sent", err)
	}
	return n, err
}

// print writes an answer for people.
func (a *app) print(text string) error {
	_, err := fmt.Fprintln(a.out, terminal.Plain(text))
	return err
}

// printJSON writes an answer for programs: a list, "[]" where it is empty.
func printJSON[T any](a *app, list []T) error {
	if list == nil {
		list = []T{}
	}
	return a.encode(list)
}

// encode prints a value as JSON, in a line.
func (a *app) encode(v any) error {
	e := json.NewEncoder(a.out)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// bot makes the conversation over a kitchen file. A message that breaks the
// program is answered like any other; where it broke goes to the errors.
func (a *app) bot(s *store.Store) *bot.Bot {
	return bot.New(s, bot.Options{Units: a.units, Foods: a.foods, Open: a.kitchen, Fault: func(p *pantry.Panic) {
		fmt.Fprintf(a.err, "%v\n%s", p, p.Stack)
	}})
}
