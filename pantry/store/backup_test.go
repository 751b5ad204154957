package store

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"scullion/pantry"
)

func TestBackupWhileWriting(t *testing.T) {
	s := opened(t, newFile(t))
	ctx, stop := context.WithCancel(context.Background())
	var kept atomic.Int32
	var all sync.WaitGroup
	some := make(chan struct{})
	for g := range 8 {
		all.Go(func() {
			for i := 0; ctx.Err() == nil; i++ {
				if err := s.Do(context.Background(), boathouse, act(fmt.Sprint(g, "-", i), fmt.Sprint("food ", g), pantry.Receive, 1)); err != nil {
					t.Error(err)
				}
				if kept.Add(1) == 50 {
					close(some)
				}
			}
		})
	}
	<-some
	dir := t.TempDir()
	for i := range 3 {
		file := filepath.Join(dir, fmt.Sprint("copy ", i))
		before := int(kept.Load())
		if err := s.Backup(t.Context(), file); err != nil {
			t.Fatal(err)
		}
		if rep := checkFileAt(t, file); rep.Messages < before {
			t.Errorf("the copy has %d messages, %d were answered before it began", rep.Messages, before)
		}
	}
	stop()
	all.Wait()
	onlyFiles(t, dir, "copy 0", "copy 1", "copy 2")
}

// onlyFiles asks that a folder holds nothing else.
func onlyFiles(t *testing.T, dir string, want ...string) {
	t.Helper()
	var got []string
	for _, e := range must(os.ReadDir(dir))(t) {
		got = append(got, e.Name())
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%s holds %q, want %q", dir, got, want)
	}
}

func TestBackupIsTheWholeKitchen(t *testing.T) {
	s := opened(t, filled(t, 60))
	file := newFile(t)
	if err := s.Backup(t.Context(), file); err != nil {
		t.Fatal(err)
	}
	if got, want := viewed(t, opened(t, file), boathouse), viewed(t, s, boathouse); got != want {
		t.Errorf("the copy has\n%s\nnot\n%s", got, want)
	}
}

func TestBackupRefusals(t *testing.T) {
	s := opened(t, filled(t, 20))
	dir := t.TempDir()
	there := filepath.Join(dir, "there")
	if err := os.WriteFile(there, []byte("precious"), 0o600); err != nil {
		t.Fatal(err)
	}
	wantFault(t, s.Backup(t.Context(), there), "there is a file of this name already")
	wantFault(t, s.Backup(t.Context(), s.Path()), "there is a file of this name already")
	wantFault(t, s.Backup(t.Context(), dir), "there is a file of this name already")
	wantFault(t, s.Backup(t.Context(), filepath.Join(dir, "no", "such")), "a copy cannot be made there")
	wantFault(t, s.Backup(t.Context(), filepath.Join(there, "such")), "a copy cannot be made there")
	if got := string(readFile(t, there)); got != "precious" {
		t.Errorf("the file there now holds %q", got)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := s.Backup(ctx, filepath.Join(dir, "late")); err == nil {
		t.Error("a backup that was called off came back as done")
	}
	onlyFiles(t, dir, "there")
}

func TestPlaceNeverReplaces(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	for _, f := range []string{a, b} {
		if err := os.WriteFile(f, []byte(f), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	wantFault(t, place(a, b), "there is a file of this name already")
	if string(readFile(t, b)) != b {
		t.Error("the file was replaced")
	}
}

func TestBackupOfDamage(t *testing.T) {
	s := openDamaged(t, filled(t, 150))
	defer s.Close()
	dir := t.TempDir()
	wantFault(t, s.Backup(t.Context(), filepath.Join(dir, "copy")), "the kitchen file is damaged")
	onlyFiles(t, dir)
}

// openDamaged spoils a page in the middle that opening the file does not read, and
// opens it.
func openDamaged(t *testing.T, path string) *Store {
	t.Helper()
	f := must(os.OpenFile(path, os.O_RDWR, 0))(t)
	defer f.Close()
	const size = 4096
	for page := must(f.Stat())(t).Size() / size / 2; ; page++ {
		was := make([]byte, size)
		if _, err := f.ReadAt(was, page*size); err != nil {
			t.Fatal("opening reads every page: ", err)
		}
		if _, err := f.WriteAt([]byte(strings.Repeat("noise!!!", size/8)), page*size); err != nil {
			t.Fatal(err)
		}
		s, err := Open(t.Context(), path, Options{})
		if err == nil {
			return s
		}
		if _, err := f.WriteAt(was, page*size); err != nil {
			t.Fatal(err)
		}
	}
}
