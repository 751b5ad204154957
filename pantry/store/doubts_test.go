package store

import (
	"fmt"
	"slices"
	"testing"

	"scullion/pantry"
)

// TestDoubts keeps that a message told of food, that another used food of which two told, and forgets all that one told.
func TestDoubts(t *testing.T) {
	s := opened(t, newFile(t))
	heard := map[string]*pantry.Message{}
	do(t, s, func(b pantry.Book) error {
		for _, id := range []string{"out", "fridge", "pie", "now"} {
			m, err := b.Hear(pantry.Message{ID: id, Cook: "larder", At: tuesday})
			if err != nil {
				return err
			}
			if heard[id] = m; b.Answer(m, id, []byte("{}")) != nil {
				return err
			}
		}
		return nil
	})
	want := func(list ...string) {
		t.Helper()
		do(t, s, func(b pantry.Book) error {
			all, err := b.Doubts(heard["now"])
			var got []string
			for _, d := range all {
				got = append(got, d.Message.ID+" by "+d.Told.ID)
			}
			if !slices.Equal(got, list) {
				t.Errorf("%v, not %v", got, list)
			}
			return err
		})
	}
	save := func(message, told string) {
		t.Helper()
		do(t, s, func(b pantry.Book) error {
			return b.SaveDoubt(pantry.Doubt{Message: heard[message], Told: heard[told]})
		})
	}
	save("out", "out")
	save("fridge", "fridge")
	for range 2 { // said again, it is kept once
		save("pie", "fridge")
		save("pie", "out")
	}
	want("pie by out", "pie by fridge", "fridge by fridge", "out by out")
	do(t, s, func(b pantry.Book) error {
		all, err := b.Doubts(heard["fridge"])
		if err != nil || len(all) != 1 {
			return fmt.Errorf("before the fridge: %v, %w", all, err)
		}
		return b.DropDoubt(heard["out"])
	})
	want("pie by fridge", "fridge by fridge")
	checkStore(t, s)
}
