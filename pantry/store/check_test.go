package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"testing"

	"scullion/pantry"
)

func TestCheckCounts(t *testing.T) {
	rep := checkFileAt(t, filled(t, 40))
	if fmt.Sprint(rep) != "{1 12 40 40 []}" {
		t.Errorf("counted %v", rep)
	}
}

// Each row spoils a sound file in one way; Check must say so.
func TestCheckFindsWhatIsWrong(t *testing.T) {
	const loose = "PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF; DROP TRIGGER entry_stays; DROP TRIGGER entry_kept; DROP TRIGGER revision_kept; "
	sound := filled(t, 40)
	for _, c := range []struct{ name, spoil, says string }{
		{"stock", "UPDATE balance SET received = received + 1000, on_hand = on_hand + 1000 WHERE line = 1", "'boathouse', food 0: the balance says"},
		{"account", loose + "UPDATE balance SET used = used + 5 WHERE line = 2", "food 1: the balance says"},
		{"lots", "UPDATE balance SET lots = '2026-03-09' || lots WHERE line = 3", "food 2: the lots are not those"},
		{"lots sum", "UPDATE balance SET lots = lots || ',0,0,0,5,5,0' || char(10) WHERE line = 3", "food 2: the balance says"},
		{"claims", `UPDATE balance SET holds = '[{"Cook":"stove","Dish":"","Amount":5}]' WHERE line = 4`, "food 3: the balance says 0.005 g claimed, the entries make 0 g"},
		{"unreadable", `UPDATE balance SET lots = 'x' WHERE line = 4`, "a balance cannot be read"},
		{"no balance", "DELETE FROM balance WHERE line = 5", "food 4: there is no balance"},
		{"entry changed", loose + "UPDATE entry SET amount = amount + 1 WHERE message = 1", "food 0: the balance says"},
		{"entry gone", loose + "DELETE FROM entry WHERE message = 6", "food 5: the balance says"},
		{"entry of no line", loose + "UPDATE entry SET line = 99 WHERE message = 7", "a row of table entry names a row of table line that is not there"},
		{"part gone", loose + "UPDATE entry SET part = 1 WHERE message = 8", "message 'm7': revision 1 of its entries has lost some"},
		{"rev behind", "UPDATE message SET rev = 0 WHERE n = 9", "message 'm8': it says it was revised 0 times, its latest revision is 1"},
		{"rev ahead", "UPDATE message SET rev = 2 WHERE n = 10", "message 'm9': it says it was revised 2 times, its latest revision is 1"},
		{"revised by nothing", loose + "UPDATE entry SET rev = 2 WHERE message = 11; UPDATE message SET rev = 2 WHERE n = 11", "message 'm10': revision 2 was made by nothing"},
		{"lesson", "INSERT INTO lesson VALUES (12, 1, 0, 'sea beet', '', '{')", "message 'm11': what it taught of 'sea beet' cannot be read"},
		{"empty lesson", "INSERT INTO lesson VALUES (12, 1, 0, 'sea beet', '', '')", "message 'm11': what it taught of 'sea beet' cannot be read"},
		{"house rule", `INSERT INTO lesson VALUES (12, 1, 0, 'soup', '', '{"rule":"keeps","days":"no","place":"fridge"}')`, "message 'm11': what it taught of 'soup' cannot be read"},
		{"house rule without days", `INSERT INTO lesson VALUES (12, 1, 0, 'soup', '', '{"rule":"keeps","place":"fridge"}')`, "message 'm11': what it taught of 'soup' cannot be read"},
		{"another kitchen", "INSERT INTO kitchen (name) VALUES ('annexe'); UPDATE line SET kitchen = 2 WHERE id = 1", "an entry is for a line of another kitchen"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := copyFile(t, sound)
			db := raw(t, path)
			db.SetMaxOpenConns(1)
			exec(t, db, strings.Split(c.spoil, "; ")...)
			db.Close()
			rep := checkAt(t, path)
			if all := strings.Join(rep.Wrong, "\n"); !strings.Contains(all, c.says) {
				t.Errorf("said\n%s\nwant %s", all, c.says)
			}
		})
	}
}

func checkAt(t *testing.T, path string) Report {
	s := must(Open(t.Context(), path, Options{}))(t)
	defer s.Close()
	return must(s.Check(t.Context()))(t)
}

func TestReportStaysShort(t *testing.T) {
	path := filled(t, 120)
	db := raw(t, path)
	exec(t, db, "UPDATE message SET rev = 3")
	rep := checkAt(t, path)
	if len(rep.Wrong) != mostWrong+1 {
		t.Errorf("%d sentences", len(rep.Wrong))
	}
	for _, s := range rep.Wrong {
		if strings.Contains(s, "\n") {
			t.Errorf("more than a line: %q", s)
		}
	}
}

func TestCheckCanBeStopped(t *testing.T) {
	s := opened(t, filled(t, 20))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := s.Check(ctx); err == nil {
		t.Error("a check that was called off came back as done")
	}
}

func TestLedgerOnlyGrows(t *testing.T) {
	path := newFile(t)
	s := opened(t, path)
	do(t, s, act("a", "leek", pantry.Receive, 900))
	do(t, s, func(b pantry.Book) error {
		m, err := b.Message("a")
		if err == nil {
			_, err = b.Revise(m, m, pantry.Deleted, nil)
		}
		return err
	})
	db := raw(t, path)
	for _, q := range []string{"UPDATE entry SET amount = 1", "DELETE FROM entry", "UPDATE revision SET why = 'said'", "DELETE FROM revision"} {
		if res, err := db.Exec(q); err == nil || !strings.Contains(err.Error(), "the ledger only grows") {
			t.Errorf("%s: %v, %v", q, res, err)
		}
	}
	var entries, revisions int
	err := db.QueryRow("SELECT (SELECT count(*) FROM entry), (SELECT count(*) FROM revision)").Scan(&entries, &revisions)
	if err != nil || entries != 1 || revisions != 1 {
		t.Errorf("%d entries, %d revisions, %v", entries, revisions, err)
	}
}

// An entry is of one message, revision and part: the same one again is refused.
func TestEntryTwice(t *testing.T) {
	path := newFile(t)
	s := opened(t, path)
	do(t, s, act("a", "leek", pantry.Receive, 900))
	err := s.Do(t.Context(), boathouse, func(b pantry.Book) error {
		m, err := b.Message("a")
		if err != nil {
			return err
		}
		m.Rev = 0 // a job that forgot what it knew
		_, err = b.Revise(m, m, pantry.Said, []pantry.Entry{entry(1, pantry.Receive, 900)})
		return err
	})
	if err == nil || onHand(t, s, "leek") != 900 {
		t.Errorf("%v, %v g on hand", err, onHand(t, s, "leek"))
	}
}

// Claims are kept as JSON, which cannot hold such bytes: the balance would no
// longer be what the entries make.
func TestEntriesAreText(t *testing.T) {
	s := opened(t, newFile(t))
	for _, e := range []pantry.Entry{{Act: pantry.Claim, Amount: 5, Cook: "la\xffrder"}, {Act: pantry.Claim, Amount: 5, Dish: "ta\xc3rt"}} {
		err := s.Do(t.Context(), boathouse, func(b pantry.Book) error {
			l, err := line(b, "leek")
			if err != nil {
				return err
			}
			e.Line = l.ID
			return say(b, "a", "larder", e)
		})
		if err == nil || !strings.Contains(err.Error(), "not text") {
			t.Errorf("%+v: %v", e, err)
		}
	}
}

func TestForeignKeysAreOnEverywhere(t *testing.T) {
	s := opened(t, newFile(t))
	for i := range 4 {
		c := must(s.db.Conn(t.Context()))(t)
		defer c.Close()
		if !foreignKeys(t, c) {
			t.Errorf("connection %d has foreign keys off", i)
		}
	}
}

func foreignKeys(t *testing.T, c *sql.Conn) (on bool) {
	if err := c.QueryRowContext(t.Context(), "PRAGMA foreign_keys").Scan(&on); err != nil {
		t.Fatal(err)
	}
	return on
}
