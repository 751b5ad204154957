package store

import (
	"context"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"scullion/pantry"
)

// TestWatch hears of commits by the file's own writer and by another program's.
func TestWatch(t *testing.T) {
	path := filepath.Join(t.TempDir(), "k.db")
	open := func() *Store {
		s, err := Open(t.Context(), path, Options{})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { s.Close() })
		return s
	}
	s, other := open(), open()
	write := func(s *Store, id string) {
		if err := s.Do(t.Context(), "k", func(b pantry.Book) error {
			_, err := b.Hear(pantry.Message{ID: id, Cook: "bo", At: time.Now()})
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
	write(s, "m0")
	ctx, stop := context.WithCancel(t.Context())
	var heard atomic.Int64
	told := make(chan struct{}, 100)
	ended := make(chan error)
	go func() {
		ended <- s.Watch(ctx, time.Millisecond, func() { heard.Add(1); told <- struct{}{} })
	}()
	for n, by := range []*Store{s, other, s, other} {
		for { // until the watch has begun, it may miss what came before
			write(by, string(rune('a'+n))+time.Now().String())
			select {
			case <-told:
			case <-time.After(time.Second):
				continue
			}
			break
		}
	}
	was := heard.Load()
	if _, err := s.View(t.Context(), "k"); err != nil {
		t.Fatal(err)
	}
	time.Sleep(20 * time.Millisecond)
	if heard.Load() != was {
		t.Errorf("reading was told as a change")
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
