package store

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"scullion/pantry"
)

// sayNeeds has a message say needs, "dee:coeliac" of a person, else of the table.
func sayNeeds(id, cook string, list ...string) func(pantry.Book) error {
	return func(b pantry.Book) error {
		m, err := b.Hear(pantry.Message{ID: id, Cook: cook, At: tuesday})
		if err != nil {
			return err
		}
		var needs []pantry.Need
		for _, s := range list {
			n := pantry.Need{Kind: pantry.NeedAllergy, What: s, Count: 1, Said: s}
			if who, what, ok := strings.Cut(s, ":"); ok {
				n = pantry.Need{Kind: pantry.NeedAllergy, Who: who, Lasting: true, What: what, Said: what}
			}
			needs = append(needs, n)
		}
		if err := b.KeepNeeds(m, needs); err != nil {
			return err
		}
		return b.Answer(m, "text", []byte("reply"))
	}
}

func needNames(k *pantry.Kitchen) string {
	var list []string
	for _, n := range k.Needs {
		list = append(list, strings.TrimPrefix(n.Who+":"+n.What, ":"))
	}
	return strings.Join(list, " ")
}

// TestNeeds takes needs back and puts them back, and holds what is remembered against what the
// file has.
func TestNeeds(t *testing.T) {
	path := newFile(t)
	s := opened(t, path)
	want := func(names string) {
		t.Helper()
		var live string
		do(t, s, func(b pantry.Book) error { live = needNames(b.Kitchen()); return nil })
		k, err := s.View(t.Context(), boathouse)
		if err != nil {
			t.Fatal(err)
		}
		if file := needNames(k); live != names || file != names {
			t.Errorf("needs %q, in the file %q; want %q", live, file, names)
		}
	}
	message := func(b pantry.Book, id string) *pantry.Message {
		m, err := b.Message(id)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	do(t, s, sayNeeds("a", "larder", "milk", "eggs"))
	do(t, s, sayNeeds("b", "larder", "dee:fish"))
	do(t, s, sayNeeds("undo", "larder"))
	want("milk eggs dee:fish")
	do(t, s, func(b pantry.Book) error {
		list, err := b.LastLogged("larder", 5)
		if err != nil || len(list) != 2 || list[0].ID != "b" || list[1].ID != "a" {
			t.Errorf("last said: %v %v", list, err)
		}
		return b.TakeNeeds(message(b, "a"), message(b, "undo"))
	})
	want("dee:fish")
	do(t, s, func(b pantry.Book) error {
		list, err := b.ReturnNeeds(message(b, "undo"))
		if err != nil || len(list) != 2 {
			t.Errorf("put back: %v %v", list, err)
		}
		return nil
	})
	want("milk eggs dee:fish")
	do(t, s, func(b pantry.Book) error { // edited: what it said before does not come back
		m := message(b, "a")
		if err := b.TakeNeeds(m, m); err != nil {
			return err
		}
		if err := b.KeepNeeds(m, []pantry.Need{{Kind: pantry.NeedAllergy, What: "celery", Said: "celery"}}); err != nil {
			return err
		}
		list, err := b.ReturnNeeds(m)
		if len(list) > 0 {
			t.Errorf("its own came back: %v", list)
		}
		return err
	})
	want("celery dee:fish")
	do(t, s, func(b pantry.Book) error { // deleted after it was undone: undoing the undo does not bring it back
		m := message(b, "b")
		if err := b.TakeNeeds(m, message(b, "undo")); err != nil {
			return err
		}
		if err := b.AnswerChange(m, "delete", "", true, nil); err != nil {
			return err
		}
		_, err := b.ReturnNeeds(message(b, "undo"))
		return err
	})
	want("celery")
	backup := filepath.Join(t.TempDir(), "copy.db")
	if err := s.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	do(t, s, sayNeeds("c", "larder", "lupin"))
	if err := s.Restore(t.Context(), backup, true); err != nil {
		t.Fatal(err)
	}
	want("celery")
	checkStore(t, s)
}

// TestNeedsOfOldServices leaves out of a kitchen what was said of tables long ago, and nothing
// of persons.
func TestNeedsOfOldServices(t *testing.T) {
	path := newFile(t)
	s := opened(t, path)
	was := tuesday
	defer func() { tuesday = was }()
	do(t, s, sayNeeds("a", "larder", "milk", "dee:fish"))
	tuesday = tuesday.AddDate(0, 0, 2)
	do(t, s, sayNeeds("b", "larder", "eggs"))
	k, err := s.View(t.Context(), boathouse)
	if err != nil || needNames(k) != "dee:fish eggs" {
		t.Errorf("needs %q, %v", needNames(k), err)
	}
}

// TestMadeOf finds what went into what was made, and what went into dishes.
func TestMadeOf(t *testing.T) {
	s := opened(t, newFile(t))
	do(t, s, act("1", "butter", pantry.Receive, 500))
	do(t, s, func(b pantry.Book) error {
		pastry, err := line(b, "pastry")
		if err != nil {
			return err
		}
		use := entry(b.Kitchen().Named("butter").ID, pantry.Use, 100)
		return say(b, "2", "larder", use, entry(pastry.ID, pantry.Make, 300))
	})
	do(t, s, func(b pantry.Book) error {
		use := entry(b.Kitchen().Named("pastry").ID, pantry.Use, 100)
		use.Dish = "tart"
		return say(b, "3", "larder", use)
	})
	do(t, s, func(b pantry.Book) error {
		k := b.Kitchen()
		made, err := b.MadeOf(k.Named("pastry").ID)
		if err != nil || len(made) != 1 || made[0] != k.Named("butter").ID {
			t.Errorf("made of %v, %v", made, err)
		}
		for dish, want := range map[string]int{"tart": 1, "": 1, "soup": 0} {
			if in, err := b.IntoDish(dish, tuesday); err != nil || len(in) != want {
				t.Errorf("into %q: %v, %v", dish, in, err)
			}
		}
		in, err := b.IntoDish("tart", tuesday.AddDate(0, 0, 1))
		if len(in) > 0 {
			t.Errorf("before that time: %v", in)
		}
		return err
	})
	do(t, s, func(b pantry.Book) error { // what is left of it, and butter that was owned up to after that
		tart, err := line(b, "tart")
		if err != nil {
			return err
		}
		left := entry(tart.ID, pantry.Make, 200)
		left.Dish = "tart"
		return say(b, "4", "larder", left)
	})
	do(t, s, func(b pantry.Book) error {
		late := entry(b.Kitchen().Named("butter").ID, pantry.Use, 50)
		late.Dish = "tart"
		return say(b, "5", "larder", late)
	})
	do(t, s, func(b pantry.Book) error {
		k := b.Kitchen()
		made, err := b.MadeOf(k.Named("tart").ID)
		if !slices.Contains(made, k.Named("butter").ID) || !slices.Contains(made, k.Named("pastry").ID) {
			t.Errorf("the tart is made of %v, %v", made, err)
		}
		return err
	})
}
