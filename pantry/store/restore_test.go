package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"scullion/pantry"
)

// backedUp is a backup of a kitchen with 700 g of leek, and that kitchen.
func backedUp(t *testing.T) (file, kitchen string) {
	t.Helper()
	s := opened(t, newFile(t))
	do(t, s, act("in", "leek", pantry.Receive, 1000))
	do(t, s, act("use", "leek", pantry.Use, 300))
	do(t, s, func(b pantry.Book) error {
		m, err := b.Message("use")
		if err == nil {
			_, err = b.Revise(m, m, pantry.Edited, []pantry.Entry{entry(1, pantry.Use, 300)})
		}
		return errors.Join(err, b.AddDish("tart"), b.Ask("larder", &pantry.Question{Message: "use", At: tuesday, Body: []byte("?")}))
	})
	file = newFile(t)
	if err := s.Backup(t.Context(), file); err != nil {
		t.Fatal(err)
	}
	return file, viewed(t, s, boathouse)
}

func TestRestoreToNewFile(t *testing.T) {
	file, want := backedUp(t)
	before := readFile(t, file)
	path := newFile(t)
	s := opened(t, path)
	if err := s.Restore(t.Context(), file, false); err != nil {
		t.Fatal(err)
	}
	if got := viewed(t, s, boathouse); got != want || written(t, s, boathouse) != want {
		t.Errorf("restored\n%s\nwant\n%s", got, want)
	}
	do(t, s, act("next", "leek", pantry.Use, 100))
	if g := onHand(t, s, "leek"); g != 600 {
		t.Errorf("%v g on hand", g)
	}
	if got, fresh := shape(t, path), shape(t, atVersion(t, Version())); got != fresh {
		t.Errorf("restored\n%s\nfresh\n%s", got, fresh)
	}
	if _, err := raw(t, path).Exec("DELETE FROM entry"); err == nil {
		t.Error("the ledger no longer only grows")
	}
	if !foreignKeys(t, s.conn) {
		t.Error("the writer's foreign keys are off")
	}
	if string(readFile(t, file)) != string(before) {
		t.Error("the backup was changed")
	}
	onlyFiles(t, filepath.Dir(file), "kitchen.db")
	onlyFiles(t, filepath.Dir(path), "kitchen.db", "kitchen.db-shm", "kitchen.db-wal")
}

func TestRestoreOverAKitchen(t *testing.T) {
	file, want := backedUp(t)
	path := newFile(t)
	s, other := opened(t, path), opened(t, path)
	do(t, s, act("in", "butter", pantry.Receive, 250))
	do(t, other, act("in 2", "cream", pantry.Receive, 250))
	was := viewed(t, s, boathouse)

	wantFault(t, s.Restore(t.Context(), file, false), "this kitchen has messages already")
	if got := viewed(t, s, boathouse); got != was || written(t, s, boathouse) != was {
		t.Errorf("a refused restore left\n%s", got)
	}

	reader := must(other.db.BeginTx(t.Context(), nil))(t)
	defer reader.Rollback()
	early := show(must(load(t.Context(), reader, boathouse))(t))
	if err := s.Restore(t.Context(), file, true); err != nil {
		t.Fatal(err)
	}
	if late := show(must(load(t.Context(), reader, boathouse))(t)); early != was || late != was {
		t.Errorf("who was reading saw it change to\n%s", late)
	}
	both := map[string]*Store{"own": s, "other": other}
	for name, s := range both {
		if got := viewed(t, s, boathouse); got != want || written(t, s, boathouse) != want {
			t.Errorf("%s store has\n%s\nwant\n%s", name, got, want)
		}
	}
	for name, s := range both {
		do(t, s, act("after, by "+name, "leek", pantry.Use, 10))
	}
	if g := onHand(t, other, "leek"); g != 680 {
		t.Errorf("%v g on hand", g)
	}
}

func TestRestoreWhileWriting(t *testing.T) {
	file, _ := backedUp(t)
	path := newFile(t)
	s, other := opened(t, path), opened(t, path)
	var all sync.WaitGroup
	for g := range 8 {
		all.Go(func() {
			for i := range 20 {
				err := []*Store{s, other}[g%2].Do(context.Background(), boathouse, act(fmt.Sprint(g, "-", i), "leek", pantry.Receive, 1))
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	for range 3 {
		if err := s.Restore(t.Context(), file, true); err != nil {
			t.Error(err)
		}
	}
	all.Wait()
	if a, b := written(t, s, boathouse), written(t, other, boathouse); a != b {
		t.Errorf("one store knows\n%s\nthe other\n%s", a, b)
	}
}

func TestRestoreRefusals(t *testing.T) {
	good, _ := backedUp(t)
	spoilt := func(queries ...string) string {
		path := copyFile(t, good)
		db := raw(t, path)
		db.SetMaxOpenConns(1)
		exec(t, db, queries...)
		db.Close()
		return path
	}
	bytes := func(content []byte) string {
		path := newFile(t)
		if err := os.WriteFile(path, content, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	content := readFile(t, good)
	noise := append([]byte{}, content...)
	copy(noise[3*4096:], strings.Repeat("noise!!!", 512*4))
	s := opened(t, filled(t, 30))
	was := viewed(t, s, boathouse)
	for _, c := range []struct{ name, file, says string }{
		{"newer", spoilt(fmt.Sprintf("PRAGMA user_version = %d", Version()+1)), "newer than this program knows"},
		{"another program's", spoilt("PRAGMA application_id = 7"), "this is not a kitchen file"},
		{"text", bytes([]byte(strings.Repeat("leeks\n", 2000))), "this is not a kitchen file"},
		{"empty", bytes(nil), "this file is empty"},
		{"folder", t.TempDir(), "this is not a file"},
		{"missing", filepath.Join(t.TempDir(), "none"), "this backup cannot be read"},
		{"itself", s.Path(), "this is the kitchen file itself"},
		{"cut", bytes(content[:len(content)-4096]), "this backup is damaged"},
		{"noise", bytes(noise), "this backup is damaged"},
		{"no table", spoilt("PRAGMA foreign_keys = OFF", "DROP TABLE balance"), "this backup is damaged"},
		{"wrong balance", spoilt("UPDATE balance SET received = received + 5, on_hand = on_hand + 5"), "this backup is damaged"},
		{"wrong revision", spoilt("UPDATE message SET rev = 7"), "this backup is damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			wantFault(t, s.Restore(t.Context(), c.file, true), c.says)
			if got := viewed(t, s, boathouse); got != was || written(t, s, boathouse) != was {
				t.Errorf("a refused restore left\n%s", got)
			}
			onlyFiles(t, filepath.Dir(s.Path()), "kitchen.db", "kitchen.db-shm", "kitchen.db-wal")
		})
	}
}

// A backup of every version there ever was can be brought back.
func TestRestoreOlderVersions(t *testing.T) {
	for v := 1; v <= Version(); v++ {
		s := opened(t, newFile(t))
		if err := s.Restore(t.Context(), thawed(t, v), false); err != nil {
			t.Errorf("version %d: %v", v, err)
		}
		do(t, s, act("a", "leek", pantry.Receive, 1))
	}
}

// The disk fills up in the middle: all is as it was.
func TestRestoreOnFullDisk(t *testing.T) {
	big, path := filled(t, 2000), newFile(t)
	s := must(Open(t.Context(), path, Options{MaxPages: 40}))(t)
	do(t, s, act("in", "leek", pantry.Receive, 5))
	was := viewed(t, s, boathouse)
	wantFault(t, s.Restore(t.Context(), big, true), "the disk is full")
	if got := viewed(t, s, boathouse); got != was || written(t, s, boathouse) != was {
		t.Errorf("left\n%s\nfor\n%s", got, was)
	}
	do(t, s, act("use", "leek", pantry.Use, 5))
	if !foreignKeys(t, s.conn) {
		t.Error("the writer's foreign keys are off")
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	checkFileAt(t, path)
}

func TestRestoreAfterClose(t *testing.T) {
	file, _ := backedUp(t)
	s := must(Open(t.Context(), newFile(t), Options{}))(t)
	s.Close()
	if err := s.Restore(t.Context(), file, true); err == nil {
		t.Error("a closed file was restored")
	}
}
