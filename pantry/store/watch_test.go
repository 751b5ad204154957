package store

import (
	"context"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
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
		ended <- s.Watch(ctx, "k", time.Millisecond, func() { heard.Add(1); told <- struct{}{} })
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
	// Another kitchen's messages, answers sent and timers are nobody's business here.
	for n := range 5 {
		if err := s.Do(t.Context(), "elsewhere", func(b pantry.Book) error {
			id := string(rune('a' + n))
			if err := b.SetTimer(pantry.Timer{Message: id, About: "tart", Begun: time.Now(), Due: time.Now()}); err != nil {
				return err
			}
			_, err := b.Hear(pantry.Message{ID: id, Cook: "bo", At: time.Now()})
			return err
		}); err != nil {
			t.Fatal(err)
		}
		time.Sleep(5 * time.Millisecond)
	}
	if heard.Load() != was {
		t.Errorf("another kitchen's commits were told")
	}
	for name, do := range map[string]func(pantry.Book) error{
		"a timer": func(b pantry.Book) error {
			return b.SetTimer(pantry.Timer{Message: "m0", About: "tart", Begun: time.Now(), Due: time.Now()})
		},
		"a service": func(b pantry.Book) error {
			return b.SaveService(pantry.Service{Message: "m0", Begun: time.Now(), Due: time.Now(), Body: []byte("{}")})
		},
		"an answer": func(b pantry.Book) error {
			m, err := b.Message("m0")
			if err != nil {
				return err
			}
			return b.Answer(m, "what's left?", []byte(`{"kind":"answer"}`))
		},
		"a line": func(b pantry.Book) error {
			_, err := b.AddLine("leek", "leek", measure.Gram, food.Crate)
			return err
		},
		"a dish": func(b pantry.Book) error { return b.AddDish("tart") },
	} {
		if err := s.Do(t.Context(), "k", do); err != nil {
			t.Fatal(name, err)
		}
		select {
		case <-told:
		case <-time.After(10 * time.Second):
			t.Errorf("%s was not told", name)
		}
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
