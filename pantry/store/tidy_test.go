package store

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/pantry"
)

// TestTidy forgets the words of a month ago, what was said of tables and days that are over, of beds that were said to
// be over, and doubts whose words are gone; of persons and beds that stand, and of what was said since, nothing.
func TestTidy(t *testing.T) {
	s := opened(t, newFile(t))
	said := func(id string, at time.Time, needs ...pantry.Need) {
		do(t, s, func(b pantry.Book) error {
			m, err := b.Hear(pantry.Message{ID: id, Cook: "larder", At: at})
			if err != nil {
				return err
			}
			return errors.Join(b.KeepNeeds(m, needs), b.SaveDoubt(pantry.Doubt{Message: m, Told: m}), b.Answer(m, "the stew was out all night", []byte("{}")))
		})
	}
	allergy := func(what string, n pantry.Need) pantry.Need {
		n.Kind, n.What, n.Said = pantry.NeedAllergy, what, what
		return n
	}
	said("old", tuesday, allergy("milk", pantry.Need{Who: "table 4"}), allergy("eggs", pantry.Need{Who: "bed 3", Stays: true}), allergy("fish", pantry.Need{Who: "bed 4", Stays: true}),
		allergy("mustard", pantry.Need{Who: "dee", Lasting: true}), allergy("celery", pantry.Need{Day: "2026-03-07"}), allergy("lupin", pantry.Need{Day: "2026-05-01"}))
	said("over", tuesday.Add(time.Hour), pantry.Need{Kind: pantry.NeedOver, Who: "bed 4", Stays: true})
	now := tuesday.AddDate(0, 0, 31)
	said("new", now, allergy("soya", pantry.Need{Who: "table 9"}))
	if err := s.Tidy(t.Context(), boathouse, now.AddDate(0, 0, -7)); err != nil {
		t.Fatal(err)
	}
	db := raw(t, s.path)
	defer db.Close()
	if got := strings.Join(table(t, db, "SELECT what FROM need ORDER BY message, part"), " "); got != "eggs mustard lupin soya" {
		t.Errorf("needs: %s", got)
	}
	if got := table(t, db, "SELECT id FROM doubt JOIN message ON n = doubt.message"); !slices.Equal(got, []string{"new"}) {
		t.Errorf("doubts: %v", got)
	}
	if got := table(t, db, "SELECT id FROM message WHERE text <> ''"); !slices.Equal(got, []string{"new"}) {
		t.Errorf("texts: %v", got)
	}
	checkStore(t, s)
}
