package store

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

const boathouse = "boathouse"

var tuesday = time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)

// opened opens path for the length of the test and at its end asks SQLite and
// Check whether the file is still sound.
func opened(t testing.TB, path string) *Store {
	t.Helper()
	s := must(Open(t.Context(), path, Options{}))(t)
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		if !t.Failed() {
			checkFileAt(t, path)
		}
	})
	return s
}

func checkFileAt(t testing.TB, path string) Report {
	t.Helper()
	s := must(Open(context.Background(), path, Options{}))(t)
	defer s.Close()
	return checkStore(t, s)
}

func checkStore(t testing.TB, s *Store) Report {
	t.Helper()
	rep := must(s.Check(context.Background()))(t)
	for _, w := range rep.Wrong {
		t.Errorf("check: %s", w)
	}
	return rep
}

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func newFile(t testing.TB) string { return filepath.Join(t.TempDir(), "kitchen.db") }

func do(t testing.TB, s *Store, job func(b pantry.Book) error) {
	t.Helper()
	if err := s.Do(t.Context(), boathouse, job); err != nil {
		t.Fatal(err)
	}
}

// say writes a message with its entries and a reply, as the bot does.
func say(b pantry.Book, id, cook string, entries ...pantry.Entry) error {
	m, err := b.Hear(pantry.Message{ID: id, Cook: cook, At: tuesday})
	if err != nil {
		return err
	}
	if _, err := b.Revise(m, m, pantry.Said, entries); err != nil {
		return err
	}
	return b.Answer(m, "text of "+id, []byte("reply to "+id))
}

// line finds or makes a line.
func line(b pantry.Book, name string) (*pantry.Line, error) {
	if l := b.Kitchen().Named(name); l != nil {
		return l, nil
	}
	return b.AddLine(name, name, measure.Gram, food.Crate)
}

// act is a job that writes message id with one entry for the line called name.
func act(id, name string, act pantry.Act, grams int) func(pantry.Book) error {
	return func(b pantry.Book) error {
		l, err := line(b, name)
		if err != nil {
			return err
		}
		return say(b, id, "larder", entry(l.ID, act, grams))
	}
}

func entry(line int64, act pantry.Act, grams int) pantry.Entry {
	return pantry.Entry{Act: act, Line: line, Amount: measure.Amount(grams) * 1000, Cook: "larder", At: tuesday, Said: fmt.Sprint(grams, " g")}
}

// show writes a kitchen out so that two can be compared.
func show(k *pantry.Kitchen) string {
	var b strings.Builder
	fmt.Fprintln(&b, k.ID, k.Name, k.Dishes, k.Cooks)
	for _, l := range k.Lines {
		fmt.Fprintf(&b, "%+v\n", *l)
	}
	for _, cook := range k.Cooks {
		if q := k.Questions[cook]; q != nil {
			fmt.Fprintln(&b, cook, q.Message, q.At.UTC(), string(q.Body))
		}
	}
	for _, l := range k.Lessons {
		fmt.Fprintf(&b, "%+v\n", l)
	}
	return b.String()
}

// written is the kitchen as the writer sees it.
func written(t testing.TB, s *Store, kitchen string) (k string) {
	t.Helper()
	err := s.Do(context.Background(), kitchen, func(b pantry.Book) error {
		k = show(b.Kitchen())
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func viewed(t testing.TB, s *Store, kitchen string) string {
	t.Helper()
	return show(must(s.View(context.Background(), kitchen))(t))
}

// onHand is a line's stock in grams.
func onHand(t testing.TB, s *Store, name string) float64 {
	t.Helper()
	l := must(s.View(context.Background(), boathouse))(t).Named(name)
	if l == nil {
		t.Fatalf("there is no %s", name)
	}
	return l.OnHand().Units()
}

// raw opens the file without the store.
func raw(t testing.TB, path string) *sql.DB {
	t.Helper()
	db := must(sql.Open(driver, dsn(path, "5000")))(t)
	t.Cleanup(func() { db.Close() })
	return db
}

func exec(t testing.TB, db *sql.DB, queries ...string) {
	t.Helper()
	for _, q := range queries {
		if _, err := db.Exec(q); err != nil {
			t.Fatalf("%s: %v", q, err)
		}
	}
}

// wantFault asks for a Fault of one line that says what.
func wantFault(t testing.TB, err error, what string) {
	t.Helper()
	var f *Fault
	if !errors.As(err, &f) {
		t.Fatalf("want a fault that says %q, got %v", what, err)
	}
	if s := f.Error(); !strings.Contains(s, what) || strings.Contains(s, "\n") || f.Do == "" {
		t.Fatalf("want one line that says %q, got %q", what, s)
	}
	if err.Error() != f.Error() {
		t.Fatalf("the fault is hidden in %q", err)
	}
}

// filled is a closed file with a few hundred messages over a dozen lines.
func filled(t testing.TB, messages int) string {
	t.Helper()
	path := newFile(t)
	s := must(Open(t.Context(), path, Options{}))(t)
	var waits []func() error
	for i := range messages {
		a := cmp.Or(map[bool]pantry.Act{true: pantry.Receive}[i < 12], pantry.Use)
		waits = append(waits, s.Start(t.Context(), boathouse, act(fmt.Sprint("m", i), fmt.Sprint("food ", i%12), a, 1+i%7)))
	}
	for _, wait := range waits {
		if err := wait(); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func copyFile(t testing.TB, from string) (to string) {
	t.Helper()
	to = newFile(t)
	if err := os.WriteFile(to, readFile(t, from), 0o600); err != nil {
		t.Fatal(err)
	}
	return to
}

func readFile(t testing.TB, path string) []byte {
	t.Helper()
	f := must(os.Open(path))(t)
	defer f.Close()
	return must(io.ReadAll(f))(t)
}
