package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/store"
)

// carried is what foods of the property test hold, as anybody knows.
var carried = map[string]string{"butter": "milk", "double cream": "milk", "walnut": "tree nuts", "flour": "gluten cereals", "egg": "eggs", "leek": "", "carrot": "", "almond paste": "tree nuts"}

// TestNoAllergenUnasked says random things in a kitchen with allergies at the table, and checks
// that no use and no claim of an allergen comes into force without a "yes", except into a dish
// that held it already; that what counts again, because what took it back is gone, is told; and
// that what is known of needs outlives a restart.
func TestNoAllergenUnasked(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	files, asked, written := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		files++
		path := filepath.Join(dir, fmt.Sprint(files))
		s, err := store.Open(context.Background(), path, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer func() { s.Close() }()
		k := bot.New(s, bot.Options{})
		at := time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
		var ids []string
		var once []stands // in force before
		send := func(m bot.Message) bot.Reply {
			at = at.Add(30 * time.Second)
			m.Kitchen, m.At, m.Version = "k", at, at.String()
			before := standing(t, s)
			r, err := k.Handle(context.Background(), m)
			if err != nil {
				t.Fatalf("%+v: %v", m, err)
			}
			if r.Kind == bot.Asking && strings.Contains(r.Text, " and it is written.") {
				asked++
			}
			needs := needsOf(t, s, at) // what the message itself says, or takes back, counts for it
			for _, e := range standing(t, s) {
				allergen := carried[e.Item]
				if e.Act != pantry.Use && e.Act != pantry.Claim || allergen == "" || !bars(needs, allergen) || slices.ContainsFunc(before, e.same) {
					continue
				}
				written++
				known := slices.ContainsFunc(before, func(o stands) bool {
					return o.Dish == e.Dish && (carried[o.Item] == allergen || madeWith(before, o.Item, allergen)) && (e.Dish != "" || o.Message == e.Message && o.Item == e.Item) && (o.Act == pantry.Use || o.Act == pantry.Claim)
				})
				again := (m.Edit || m.Delete || m.Text == "undo") && slices.ContainsFunc(once, e.same)
				if !known && m.Text != "yes" && !again {
					t.Fatalf("%q wrote %s of %s into %q without a yes: %s\nneeds %+v", m.Text, e.Act, e.Item, e.Dish, r.Text, needs)
				}
				if again && !strings.Contains(r.Text, " hold") {
					t.Fatalf("%+v brought %s of %s into %q back, and did not tell of the allergy: %s", m, e.Act, e.Item, e.Dish, r.Text)
				}
			}
			once = append(once, standing(t, s)...)
			if before := needsOf(t, s, at); rapid.IntRange(0, 9).Draw(t, "restart") == 0 {
				s.Close()
				if s, err = store.Open(context.Background(), path, store.Options{}); err != nil {
					t.Fatal(err)
				}
				k = bot.New(s, bot.Options{})
				if after := needsOf(t, s, at); !slices.EqualFunc(before, after, func(a, b pantry.Need) bool { return a.Who == b.Who && a.What == b.What && a.Kind == b.Kind }) {
					t.Fatalf("needs %+v, after a restart %+v", before, after)
				}
			}
			return r
		}
		var by func(cook, text string)
		by = func(cook, text string) {
			id := fmt.Sprint("m", len(ids))
			ids = append(ids, id)
			if r := send(bot.Message{ID: id, Cook: cook, Text: text}); r.Kind == bot.Asking && rapid.Bool().Draw(t, "yes") {
				by(cook, "yes")
			}
		}
		say := func(text string) { by(rapid.SampledFrom([]string{"larder", "stove"}).Draw(t, "cook"), text) }
		say("got 900g leeks, 2kg carrots, 12 eggs, 800ml double cream, 900g butter, 900g walnuts, 2kg flour")
		say("table: milk allergy")
		one := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
		text := func() string {
			food := one("food", "butter", "cream", "walnuts", "flour", "leeks", "eggs")
			dish := one("dish", "", " in the tart", " for the soup", " in the pie")
			return one("form",
				"used 20g "+food+dish, "used 20g "+food+dish, "table: 1 nut allergy, 2 vegan", "dee is coeliac", "table: 1 egg allergy and a dairy intolerance", "used 20g "+food+dish, "used 30g "+food+" and 10g butter"+dish, "need 40g "+food+dish, "used half the "+food+dish, "used some "+food+dish,
				"yes", "yes", "yes", "no", "make that 15g", "I meant "+food, "that was for the soup", "another 10g", "and 10g "+food+" in it", "same again for the pie", "20g",
				"table: milk allergy", "table: none", "dee can eat everything again", "undo", "undo",
				"binned 5g "+food, "put back 5g "+food, "made 100g paste from 30g "+food, "used 20g paste"+dish)
		}
		for range rapid.IntRange(8, 15).Draw(t, "turns") {
			switch n := rapid.IntRange(0, 11).Draw(t, "turn"); {
			case n == 10:
				send(bot.Message{ID: rapid.SampledFrom(ids[1:]).Draw(t, "edited"), Edit: true, Text: text()})
			case n == 11 && len(ids) > 2:
				send(bot.Message{ID: rapid.SampledFrom(ids[1:]).Draw(t, "deleted"), Delete: true})
			default:
				say(text())
			}
		}
		if r, err := s.Check(context.Background()); err != nil || len(r.Wrong) > 0 {
			t.Fatal(r.Wrong, err)
		}
	})
	t.Logf("%d questions asked, %d uses written", asked, written)
	if asked < 5 || written < 5 {
		t.Errorf("only %d questions were asked and %d uses written: this tests nothing", asked, written)
	}
}

// stands is an entry in force.
type stands struct {
	Act                 pantry.Act
	Item, Dish, Message string
	Amount              int64
}

// madeWith says whether an item was made with something that holds an allergen: "I meant flour" may
// make flour of what was paste.
func madeWith(list []stands, item, allergen string) bool {
	return slices.ContainsFunc(list, func(m stands) bool {
		return m.Act == pantry.Make && m.Item == item && slices.ContainsFunc(list, func(u stands) bool {
			return u.Act == pantry.Use && u.Message == m.Message && carried[u.Item] == allergen
		})
	})
}

func (e stands) same(o stands) bool { return e == o }

func standing(t *rapid.T, s *store.Store) (list []stands) {
	err := s.History(context.Background(), "k", func(g pantry.Logged) error {
		if g.InForce && g.Act != "" {
			list = append(list, stands{g.Act, g.Item, g.Dish, g.Message, int64(g.Amount)})
		}
		return nil
	})
	if err != nil && len(list) > 0 {
		t.Fatal(err)
	}
	return list
}

func needsOf(t *rapid.T, s *store.Store, at time.Time) []pantry.Need {
	k, err := s.View(context.Background(), "k")
	if err != nil {
		return nil // before the first message
	}
	return bot.NeedsAt(k, at)
}

func bars(needs []pantry.Need, allergen string) bool {
	return slices.ContainsFunc(needs, func(n pantry.Need) bool {
		return n.Kind == pantry.NeedAllergy && slices.Contains(strings.Split(n.What, "+"), allergen)
	})
}
