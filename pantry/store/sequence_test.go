package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

var foods = []string{"leek", "red onion", "cream", "stock", "butter"}

// room is a store that random messages are sent to, and what should be in it.
type room struct {
	s        *Store
	path     string
	messages map[string][]string // ids by kitchen
	written  map[string]int      // entries ever written, by kitchen
	count    int
}

// Whatever is said, edited, deleted, undone, corrected and taken back, in
// whatever order: accounts close, nothing is below nothing, and the balances
// are the fold of what History says is in force.
func TestRandomMessages(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		d, err := os.MkdirTemp(dir, "")
		if err != nil {
			t.Fatal(err)
		}
		defer os.RemoveAll(d)
		r := &room{path: filepath.Join(d, "kitchen.db"), messages: map[string][]string{}, written: map[string]int{}}
		r.open(t)
		defer func() { r.s.Close() }()
		t.Repeat(map[string]func(*rapid.T){
			"say":     r.say,
			"say two": func(t *rapid.T) { r.say(t); r.say(t) },
			"teach":   r.teach,
			"edit":    r.edit,
			"delete":  r.delete,
			"undo":    r.undo,
			"correct": r.correct,
			"restore": r.takeBack,
			"fail":    r.fail,
			"other":   r.other,
			"reopen":  r.reopen,
			"":        r.verify,
		})
	})
}

func (r *room) open(t *rapid.T) {
	s, err := Open(context.Background(), r.path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	r.s = s
}

func (r *room) kitchen(t *rapid.T) string {
	return rapid.SampledFrom([]string{boathouse, "annexe"}).Draw(t, "kitchen")
}

// do runs job and, if it went through, counts what it wrote.
func (r *room) do(t *rapid.T, kitchen string, job func(b pantry.Book, by *pantry.Message) (entries int, err error)) {
	var n int
	r.count++
	id := fmt.Sprint("m", r.count)
	cook := rapid.SampledFrom([]string{"larder", "stove", "pastry"}).Draw(t, "speaker")
	err := r.s.Do(context.Background(), kitchen, func(b pantry.Book) error {
		by, err := b.Hear(pantry.Message{ID: id, Cook: cook, At: tuesday})
		if err != nil {
			return err
		}
		if n, err = job(b, by); err != nil {
			return err
		}
		return b.Answer(by, "", []byte("done"))
	})
	if err != nil {
		t.Fatal(err)
	}
	r.messages[kitchen] = append(r.messages[kitchen], id)
	r.written[kitchen] += n
}

func someEntries(t *rapid.T, b pantry.Book) (list []pantry.Entry, err error) {
	for range rapid.IntRange(0, 3).Draw(t, "entries") {
		l, err := line(b, rapid.SampledFrom(foods).Draw(t, "food"))
		if err != nil {
			return nil, err
		}
		e := pantry.Entry{
			Act: rapid.SampledFrom(pantry.Acts).Draw(t, "act"), Line: l.ID, At: tuesday,
			Amount: measure.Amount(rapid.OneOf(rapid.Int64Range(0, 5), rapid.Int64Range(0, 900_000)).Draw(t, "amount")),
			Cook:   rapid.SampledFrom([]string{"larder", "stove", "pastry"}).Draw(t, "cook"),
			Dish:   rapid.SampledFrom([]string{"", "tart", "<soup> & \"bread\""}).Draw(t, "dish"),
		}
		e.Trim = e.Act == pantry.Bin && rapid.Bool().Draw(t, "trim")
		if e.Act == pantry.Receive || e.Act == pantry.Make {
			e.Lot.Date = rapid.SampledFrom([]pantry.Date{"", "2026-03-03", "2026-03-05"}).Draw(t, "date")
			e.Lot.PieceMg = measure.Amount(rapid.Int64Range(0, 200_000).Draw(t, "piece"))
			e.Lot.Weighed = rapid.Bool().Draw(t, "weighed")
		}
		e.Lot.Best = e.Act == pantry.Make && rapid.Bool().Draw(t, "best")
		if e.Act == pantry.Count && rapid.Bool().Draw(t, "turned") {
			e.Lot.State = rapid.SampledFrom(food.States[1:]).Draw(t, "state")
			e.Lot.Date = rapid.SampledFrom([]pantry.Date{"", "2026-03-03", "2026-03-05"}).Draw(t, "date")
		}
		if e.Act == pantry.Count && rapid.Bool().Draw(t, "weighed again") {
			e.Lot.PieceMg, e.Lot.Weighed = measure.Amount(rapid.Int64Range(1, 200_000).Draw(t, "piece")), true
		}
		if err := b.AddDish("dish " + e.Dish); err != nil {
			return nil, err
		}
		list = append(list, e)
	}
	return list, nil
}

func (r *room) say(t *rapid.T) {
	r.do(t, r.kitchen(t), func(b pantry.Book, by *pantry.Message) (int, error) {
		list, err := someEntries(t, b)
		if err != nil {
			return 0, err
		}
		if len(list) == 0 { // nothing was understood: ask, or answer what was asked
			q := &pantry.Question{Message: by.ID, At: by.At, Body: []byte("red or brown?")}
			if b.Kitchen().Questions[by.Cook] != nil {
				q = nil
			}
			return 0, b.Ask(by.Cook, q)
		}
		effects, err := b.Revise(by, by, pantry.Said, list)
		if err == nil && len(effects) != len(list) {
			err = fmt.Errorf("%d effects of %d entries", len(effects), len(list))
		}
		return len(list), err
	})
}

// teach is a message that teaches something, or two things.
func (r *room) teach(t *rapid.T) {
	r.do(t, r.kitchen(t), func(b pantry.Book, by *pantry.Message) (int, error) {
		lessons := []pantry.Lesson{{Name: "knobbly", Means: "celeriac"}, {Name: "sea beet", Cells: map[string]string{"name": "sea beet", "like": "spinach"}}}
		lessons = lessons[:rapid.IntRange(1, 2).Draw(t, "lessons")]
		if err := b.Teach(by, by, pantry.Said, lessons); err != nil {
			return 0, err
		}
		got, err := b.Lessons(by)
		if err == nil && len(got) != len(lessons) {
			err = fmt.Errorf("taught %v, holds %v", lessons, got)
		}
		return 0, err
	})
}

// older picks a message heard before; it skips the step where there is none.
func (r *room) older(t *rapid.T, kitchen string) string {
	if len(r.messages[kitchen]) == 0 {
		t.Skip("nothing was said")
	}
	return rapid.SampledFrom(r.messages[kitchen]).Draw(t, "older")
}

func (r *room) change(t *rapid.T, why string, entries func(pantry.Book) ([]pantry.Entry, error)) {
	k := r.kitchen(t)
	id := r.older(t, k)
	var n int
	r.count++
	err := r.s.Do(context.Background(), k, func(b pantry.Book) error {
		m, err := b.Message(id)
		if err != nil {
			return err
		}
		list, err := entries(b)
		if err != nil {
			return err
		}
		n = len(list)
		if _, err := b.Revise(m, m, why, list); err != nil {
			return err
		}
		return b.AnswerChange(m, fmt.Sprint("event ", r.count), "new text", why == pantry.Deleted, []byte("changed"))
	})
	if err != nil {
		t.Fatal(err)
	}
	r.written[k] += n
}

func (r *room) edit(t *rapid.T) {
	r.change(t, pantry.Edited, func(b pantry.Book) ([]pantry.Entry, error) { return someEntries(t, b) })
}

func (r *room) delete(t *rapid.T) {
	r.change(t, pantry.Deleted, func(pantry.Book) ([]pantry.Entry, error) { return nil, nil })
}

func (r *room) undo(t *rapid.T) {
	r.do(t, r.kitchen(t), func(b pantry.Book, by *pantry.Message) (int, error) {
		list, err := b.LastLogged(by.Cook, 1)
		if err != nil || len(list) == 0 {
			return 0, err
		}
		in, err1 := b.InForce(list[0])
		lessons, err2 := b.Lessons(list[0])
		if err := errors.Join(err1, err2); err != nil || len(in)+len(lessons) == 0 {
			return 0, errors.Join(err, fmt.Errorf("%s has nothing in force", list[0].ID))
		}
		_, err = b.Revise(list[0], by, pantry.Undone, nil)
		return 0, err
	})
}

func (r *room) correct(t *rapid.T) {
	k := r.kitchen(t)
	id := r.older(t, k)
	r.do(t, k, func(b pantry.Book, by *pantry.Message) (int, error) {
		m, err := b.Message(id)
		if err != nil {
			return 0, err
		}
		list, err := someEntries(t, b)
		if err != nil {
			return 0, err
		}
		_, err = b.Revise(m, by, pantry.Corrected, list)
		return len(list), err
	})
}

// takeBack deletes a message that changed others: each stands as it did.
func (r *room) takeBack(t *rapid.T) {
	k := r.kitchen(t)
	id := r.older(t, k)
	var n int
	err := r.s.Do(context.Background(), k, func(b pantry.Book) error {
		by, err := b.Message(id)
		if err != nil {
			return err
		}
		list, err := b.Revised(by)
		if err != nil {
			return err
		}
		for _, m := range list {
			lessons, err := b.LessonsBefore(m)
			if err != nil {
				return err
			}
			if len(lessons) > 0 {
				if err := b.Teach(m, by, pantry.Restored, lessons); err != nil {
					return err
				}
				if now, err := b.Lessons(m); err != nil || !reflect.DeepEqual(now, lessons) {
					return errors.Join(err, fmt.Errorf("%s taught %v, teaches %v", m.ID, lessons, now))
				}
				continue
			}
			before, err := b.Before(m)
			if err != nil {
				return err
			}
			if _, err := b.Revise(m, by, pantry.Restored, before); err != nil {
				return err
			}
			now, err := b.InForce(m)
			if err != nil {
				return err
			}
			if !reflect.DeepEqual(now, before) {
				return fmt.Errorf("%s was %+v, is %+v", m.ID, before, now)
			}
			n += len(before)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	r.written[k] += n
}

// fail is a job that gives up, or panics, after it has written.
func (r *room) fail(t *rapid.T) {
	k := r.kitchen(t)
	before := r.show(t, k)
	stop := errors.New("no")
	err := r.s.Do(context.Background(), k, func(b pantry.Book) error {
		l, err := line(b, "saffron")
		if err != nil {
			return err
		}
		if err := say(b, "lost", "larder", entry(l.ID, pantry.Receive, 5)); err != nil {
			return err
		}
		if rapid.Bool().Draw(t, "panics") {
			panic("dropped")
		}
		return stop
	})
	var p *pantry.Panic
	if !errors.Is(err, stop) && !errors.As(err, &p) {
		t.Fatal(err)
	}
	if after := r.show(t, k); after != before {
		t.Fatalf("a failed job left\n%s\nfor\n%s", after, before)
	}
}

func (r *room) show(t *rapid.T, kitchen string) string {
	k, err := r.s.View(context.Background(), kitchen)
	if errors.Is(err, ErrNoKitchen) {
		return ""
	}
	if err != nil {
		t.Fatal(err)
	}
	return show(k)
}

// other writes through a second program's store.
func (r *room) other(t *rapid.T) {
	first := r.s
	defer func() { r.s = first }()
	r.open(t)
	defer r.s.Close()
	r.say(t)
}

func (r *room) reopen(t *rapid.T) {
	var before []string
	for _, k := range []string{boathouse, "annexe"} {
		before = append(before, r.show(t, k))
	}
	if err := r.s.Close(); err != nil {
		t.Fatal(err)
	}
	r.open(t)
	for i, k := range []string{boathouse, "annexe"} {
		if after := r.show(t, k); after != before[i] {
			t.Fatalf("before closing\n%s\nafter opening\n%s", before[i], after)
		}
	}
}

func (r *room) verify(t *rapid.T) {
	names, err := r.s.Kitchens(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		k, err := r.s.View(context.Background(), name)
		if err != nil {
			t.Fatal(err)
		}
		r.verifyWriter(t, k)
		r.verifyKitchen(t, k)
	}
	rep, err := r.s.Check(context.Background())
	if err != nil || len(rep.Wrong) > 0 {
		t.Fatal(err, rep.Wrong)
	}
	if want := r.written[boathouse] + r.written["annexe"]; rep.Entries != want {
		t.Fatalf("%d entries in the ledger, %d were written", rep.Entries, want)
	}
}

func (r *room) verifyWriter(t *rapid.T, k *pantry.Kitchen) {
	var w string
	err := r.s.Do(context.Background(), k.Name, func(b pantry.Book) error { w = show(b.Kitchen()); return nil })
	if err != nil {
		t.Fatal(err)
	}
	if v := show(k); v != w {
		t.Fatalf("the writer knows\n%s\nthe file has\n%s", w, v)
	}
}

func (r *room) verifyKitchen(t *rapid.T, k *pantry.Kitchen) {
	inForce := map[int64][]pantry.Entry{}
	ever := 0
	err := r.s.History(context.Background(), k.Name, func(g pantry.Logged) error {
		if g.Act == "" {
			return nil
		}
		ever++
		if g.InForce {
			inForce[g.Line] = append(inForce[g.Line], g.Entry)
		}
		if l := k.Line(g.Line); l == nil || l.Name != g.Item || l.Unit != g.Unit {
			return fmt.Errorf("history has %q in %v for line %d", g.Item, g.Unit, g.Line)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if ever != r.written[k.Name] {
		t.Fatalf("history has %d entries, %d were written", ever, r.written[k.Name])
	}
	for _, l := range k.Lines {
		f, err := pantry.Fold(*l, inForce[l.ID])
		if err != nil {
			t.Fatal(err)
		}
		if got, want := fmt.Sprintf("%+v", *l), fmt.Sprintf("%+v", f); got != want {
			t.Fatalf("stored %s\nfolded %s", got, want)
		}
		if !l.Balanced() || l.Free() < 0 || l.Free() != l.OnHand()-l.Claimed()+l.Short() {
			t.Fatalf("the account does not close: %+v", *l)
		}
		for _, lot := range l.Lots {
			if lot.Left < 0 || lot.Left > lot.Came {
				t.Fatalf("a lot of %d has %d left", lot.Came, lot.Left)
			}
		}
	}
}
