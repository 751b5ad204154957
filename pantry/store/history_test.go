package store

import (
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"scullion/pantry"
)

func TestHistoryShowsWhatHappened(t *testing.T) {
	s := opened(t, newFile(t))
	do(t, s, act("in", "leek", pantry.Receive, 900))
	do(t, s, act("use", "leek", pantry.Use, 300))
	revise := func(id, by, why string, grams ...int) {
		do(t, s, func(b pantry.Book) error {
			m, err := b.Message(id)
			if err != nil {
				return err
			}
			maker := m
			if by != id {
				if maker, err = b.Hear(pantry.Message{ID: by, Cook: "stove", At: tuesday}); err != nil {
					return err
				}
			}
			var list []pantry.Entry
			for _, g := range grams {
				list = append(list, entry(b.Kitchen().Named("leek").ID, pantry.Use, g))
			}
			_, err = b.Revise(m, maker, why, list)
			return err
		})
	}
	revise("use", "use", pantry.Edited, 200, 50)
	revise("use", "undo", pantry.Undone)
	revise("in", "in", pantry.Deleted)

	var got []string
	err := s.History(t.Context(), boathouse, func(g pantry.Logged) error {
		got = append(got, fmt.Sprintf("%s %d.%d %s %s %v%v by %s %s %s %t", g.Message, g.Rev, g.Part, g.Act, g.Item,
			g.Amount.Units(), g.Unit, g.By, g.Why, g.Cook, g.InForce))
		if !g.At.Equal(tuesday) {
			t.Errorf("%s was said at %s", g.Message, g.At)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"in 1.0 receive leek 900g by in said larder false",
		"in 2.0   0g by in deleted larder true",
		"use 1.0 use leek 300g by use said larder false",
		"use 2.0 use leek 200g by use edited larder false",
		"use 2.1 use leek 50g by use edited larder false",
		"use 3.0   0g by undo undone stove true",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}

func TestHistoryStopsWhenToldTo(t *testing.T) {
	s := opened(t, newFile(t))
	do(t, s, act("a", "leek", pantry.Receive, 900))
	do(t, s, act("b", "leek", pantry.Use, 300))
	stop, seen := errors.New("enough"), 0
	if err := s.History(t.Context(), boathouse, func(pantry.Logged) error { seen++; return stop }); err != stop || seen != 1 {
		t.Errorf("%v after %d entries", err, seen)
	}
	nothing := func(pantry.Logged) error { return nil }
	if err := s.History(t.Context(), "annexe", nothing); err != ErrNoKitchen {
		t.Errorf("history of no kitchen: %v", err)
	}
	if _, err := s.View(t.Context(), "annexe"); err != ErrNoKitchen {
		t.Errorf("view of no kitchen: %v", err)
	}
}

// What reads a whole ledger must walk it in the order it lies in, not collect
// and sort it.
func TestLongReadsDoNotSort(t *testing.T) {
	db := raw(t, filled(t, 20))
	for _, q := range []string{history, allInForce, inForceFolded, inForceOfLine} {
		var args []any
		if strings.Contains(q, "?") {
			args = append(args, 1)
		}
		var steps []string
		rows := must(db.Query("EXPLAIN QUERY PLAN "+q, args...))(t)
		err := eachRow(rows, func(rows *sql.Rows) error {
			var id, parent, unused int
			var s string
			err := rows.Scan(&id, &parent, &unused, &s)
			steps = append(steps, s)
			return err
		})
		if plan := strings.Join(steps, "\n"); err != nil || len(steps) < 2 || strings.Contains(plan, "TEMP B-TREE") {
			t.Errorf("%s\nis read by\n%s\n%v", q, plan, err)
		}
	}
}

// What came in force on a line since a message is what other messages say of it now.
func TestSince(t *testing.T) {
	s := opened(t, newFile(t))
	do(t, s, act("in", "leek", pantry.Receive, 900))
	do(t, s, act("plan", "leek", pantry.Claim, 400))
	do(t, s, act("other", "cream", pantry.Receive, 500))
	do(t, s, act("use", "leek", pantry.Use, 300))
	do(t, s, act("bin", "leek", pantry.Bin, 50))
	do(t, s, func(b pantry.Book) error {
		m, err := b.Message("use")
		if err != nil {
			return err
		}
		if _, err = b.Revise(m, m, pantry.Edited, []pantry.Entry{entry(b.Kitchen().Named("leek").ID, pantry.Use, 200)}); err != nil {
			return err
		}
		plan, err := b.Message("plan")
		if err != nil {
			return err
		}
		list, err := b.Since(b.Kitchen().Named("leek").ID, plan)
		var got []string
		for _, e := range list {
			got = append(got, fmt.Sprint(e.Act, " ", e.Amount.Units(), " ", e.Cook, " ", e.At.Equal(tuesday)))
		}
		if want := "use 200 larder true, bin 50 larder true"; strings.Join(got, ", ") != want {
			t.Errorf("since the plan: %q, not %q", got, want)
		}
		return err
	})
}
