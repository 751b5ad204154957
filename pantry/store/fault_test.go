package store

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/pantry"
)

func TestFilesThatCannotBeOpened(t *testing.T) {
	whole := filled(t, 60)
	write := func(content []byte, mode os.FileMode) func(*testing.T) string {
		return func(t *testing.T) string {
			path := newFile(t)
			if err := os.WriteFile(path, content, mode); err != nil {
				t.Fatal(err)
			}
			return path
		}
	}
	content := readFile(t, whole)
	noise := append([]byte{}, content...)
	copy(noise[16:], strings.Repeat("noise", 16))
	for _, c := range []struct {
		name, says string
		file       func(*testing.T) string
	}{
		{"text", "this is not a kitchen file", write([]byte(strings.Repeat("leeks, 2 kg\n", 500)), 0o600)},
		{"a few bytes", "this is not a kitchen file", write([]byte("leeks"), 0o600)},
		{"spoilt header", "this is not a kitchen file", write(noise, 0o600)},
		{"less than a header", "the kitchen file is damaged", write(content[:60], 0o600)},
		{"half a page", "its end is missing", write(content[:2048], 0o600)},
		{"end cut off", "its end is missing", write(content[:len(content)-4096], 0o600)},
		{"end cut off by a byte", "its end is missing", write(content[:len(content)-1], 0o600)},
		{"read-only", "the kitchen file cannot be written", write(content, 0o444)},
		{"folder", "this is a folder", func(t *testing.T) string { return t.TempDir() }},
		{"folder is a file", "its folder cannot be made", func(t *testing.T) string { return filepath.Join(whole, "kitchen.db") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := c.file(t)
			before, _ := os.ReadFile(path)
			s, err := Open(t.Context(), path, Options{})
			if err == nil {
				s.Close()
			}
			wantFault(t, err, c.says)
			if after, _ := os.ReadFile(path); string(before) != string(after) {
				t.Error("the file was changed")
			}
		})
	}
}

// Noise over any one page, at any time, is found and never a panic.
func TestDamageIsFound(t *testing.T) {
	sound := filled(t, 150)
	content := readFile(t, sound)
	const page = 4096
	random := rand.New(rand.NewPCG(1, 2))
	for n := 0; n < len(content)/page; n++ {
		t.Run(fmt.Sprint("page ", n+1), func(t *testing.T) {
			spoilt := append([]byte{}, content...)
			from := n * page
			if n == 0 {
				from = 100 // past the file's own header
			}
			for i := from; i < (n+1)*page; i++ {
				spoilt[i] = byte(random.Uint32())
			}
			path := newFile(t)
			if err := os.WriteFile(path, spoilt, 0o600); err != nil {
				t.Fatal(err)
			}
			if s := lookAt(t, path); s != "" {
				t.Error(s)
			}
		})
	}
}

// lookAt uses a damaged file in every way and gives what it did wrong.
func lookAt(t *testing.T, path string) string {
	s, err := Open(t.Context(), path, Options{})
	if err != nil {
		wantFault(t, err, "damaged")
		return ""
	}
	defer s.Close()
	rep, err := s.Check(t.Context())
	if err != nil {
		wantFault(t, err, "damaged")
	} else if len(rep.Wrong) == 0 {
		return "Check found nothing wrong"
	}
	if _, err := s.View(t.Context(), boathouse); err != nil {
		oneLine(t, err)
	}
	if err := s.History(t.Context(), boathouse, func(pantry.Logged) error { return nil }); err != nil {
		oneLine(t, err)
	}
	if err := s.Do(t.Context(), boathouse, act("after", "food 1", pantry.Use, 1)); err != nil {
		oneLine(t, err)
	}
	return ""
}

func oneLine(t *testing.T, err error) {
	t.Helper()
	var p *pantry.Panic
	if errors.As(err, &p) || strings.Contains(err.Error(), "\n") {
		t.Errorf("damage came as %q", err)
	}
}

// The end goes missing while a write-ahead log is about: SQLite itself must
// find out.
func TestCutWhileOpen(t *testing.T) {
	path := filled(t, 150)
	s := must(Open(t.Context(), path, Options{}))(t)
	do(t, s, act("last", "food 1", pantry.Use, 1))
	content, log := readFile(t, path), readFile(t, path+"-wal")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	cut := newFile(t)
	if err := errors.Join(os.WriteFile(cut, content[:len(content)/8192*4096], 0o600), os.WriteFile(cut+"-wal", log, 0o600)); err != nil {
		t.Fatal(err)
	}
	if s := lookAt(t, cut); s != "" {
		t.Error(s)
	}
}

func TestFullDisk(t *testing.T) {
	path := newFile(t)
	s := must(Open(t.Context(), path, Options{MaxPages: 40}))(t)
	kept := 0
	for ; ; kept++ {
		err := s.Do(t.Context(), boathouse, act(fmt.Sprint("m", kept), "leek", pantry.Receive, 1))
		if err != nil {
			wantFault(t, err, "the disk is full")
			break
		}
	}
	before := viewed(t, s, boathouse)
	letGo := held(t, s)
	var waits []func() error
	for i := range 5 { // a group that does not fit
		waits = append(waits, s.Start(t.Context(), boathouse, func(b pantry.Book) error {
			m, err := b.Hear(pantry.Message{ID: fmt.Sprint("big ", i)})
			if err != nil {
				return err
			}
			return b.Answer(m, strings.Repeat("x", 200_000), nil)
		}))
	}
	letGo()
	for _, wait := range waits {
		wantFault(t, wait(), "the disk is full")
	}
	if after := viewed(t, s, boathouse); after != before {
		t.Errorf("a full disk left\n%s\nfor\n%s", after, before)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if kept == 0 || checkFileAt(t, path).Messages != kept {
		t.Errorf("%d messages were kept, the file has %d", kept, checkFileAt(t, path).Messages)
	}
	again := opened(t, path) // room was made
	do(t, again, act(fmt.Sprint("m", kept), "leek", pantry.Receive, 1))
}

func TestLockedFile(t *testing.T) {
	path := filled(t, 20)
	s := must(Open(t.Context(), path, Options{Busy: 50 * time.Millisecond}))(t)
	defer s.Close()
	do(t, s, act("before", "leek", pantry.Receive, 3))
	db := raw(t, path)
	other := must(db.Conn(t.Context()))(t)
	defer other.Close()
	lock := func(q string) {
		if _, err := other.ExecContext(context.Background(), q); err != nil {
			t.Fatal(err)
		}
	}
	lock("BEGIN EXCLUSIVE")
	var waits []func() error
	first := s.Start(t.Context(), boathouse, func(pantry.Book) error { t.Error("a job ran without the lock"); return nil })
	for i := range 64 {
		waits = append(waits, s.Start(t.Context(), boathouse, act(fmt.Sprint("late ", i), "leek", pantry.Receive, 1)))
	}
	for _, wait := range append(waits, first) {
		wantFault(t, wait(), "another program is holding the kitchen file")
	}
	if g := onHand(t, s, "leek"); g != 3 { // reading goes on
		t.Errorf("%v g on hand", g)
	}
	lock("ROLLBACK")
	do(t, s, act("late 0", "leek", pantry.Receive, 1))
	if g := onHand(t, s, "leek"); g != 4 {
		t.Errorf("%v g on hand once the lock was gone", g)
	}
}

// A file that is not yet in write-ahead mode, as a backup is, is locked
// against opening too.
func TestLockedOnOpening(t *testing.T) {
	from := opened(t, filled(t, 20))
	path := newFile(t)
	if err := from.Backup(t.Context(), path); err != nil {
		t.Fatal(err)
	}
	db := raw(t, path)
	other := must(db.Conn(t.Context()))(t)
	defer other.Close()
	if _, err := other.ExecContext(t.Context(), "BEGIN EXCLUSIVE"); err != nil {
		t.Fatal(err)
	}
	_, err := Open(t.Context(), path, Options{Busy: 50 * time.Millisecond})
	wantFault(t, err, "another program is holding the kitchen file")
}

func TestOddFileNames(t *testing.T) {
	for _, name := range []string{"a b.db", "50%.db", "what?.db", "#1.db", "thé.db", "a&mode=ro.db", "x'y\".db"} {
		path := filepath.Join(t.TempDir(), "new folder", name)
		s := opened(t, path)
		do(t, s, act("a", "leek", pantry.Receive, 1))
		if err := s.Backup(t.Context(), path+".copy"); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := s.Restore(t.Context(), path+".copy", true); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := os.Stat(path); err != nil {
			t.Errorf("%s went elsewhere: %v", name, err)
		}
	}
}
