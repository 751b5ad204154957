package bot_test

import (
	"context"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/account"
	"scullion/pantry/store"
)

// What is left of a dish holds what the dish holds, also where that is in another dish by then,
// and suits nobody whom the dish does not suit.
func TestLeftOverHolds(t *testing.T) {
	_, s := said(t,
		"got 500ml cream, 900g leeks, 500g beef mince",
		"made 200g paste from 50g beef mince",
		"used 300g leeks, 100ml cream and 50g paste in the soup",
		"400g soup left over",
		"used 200g soup and 100g leeks in the bake",
		"80g of the bake left",
		"used 80g bake in the hash")
	wraps(t, s, "k", func(x *bot.Records, list []*bot.Wrap) {
		for _, dish := range []string{"soup", "bake", "hash"} {
			s, err := x.Sheet(list[0], dish)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.ContainsFunc(s.Holds, func(a account.Allergen) bool { return a.Name == "milk" }) || s.Vegan.Fit != "no" || s.Meatless.Fit != "no" || len(s.Unknown) > 0 {
				t.Errorf("%s: holds %v, unknown %v, vegan %+v, meatless %+v", dish, s.Holds, s.Unknown, s.Vegan, s.Meatless)
			}
		}
	})
}

// A share of a dish, and portions of it, are of what it came to once cooked where that was
// weighed, else of the edible weight that went in.
func TestPartOfADish(t *testing.T) {
	for _, c := range []struct {
		say  []string
		want float64
	}{
		{[]string{"half the stew is left"}, 600}, // of 1 kg mince and 200 g cream
		{[]string{"the stew came out at 900g", "half the stew is left"}, 450},
		{[]string{"the stew was for 6", "2 portions of the stew left"}, 400},
		{[]string{"the stew was for 6", "the stew came out at 900g", "2 portions of stew left over"}, 300},
		{[]string{"350g of the stew left"}, 350},
	} {
		_, s := said(t, append([]string{"got 1kg beef mince, 400g butter", "used 1kg beef mince and 200g butter in the stew"}, c.say...)...)
		k, err := s.View(t.Context(), "k")
		if err != nil {
			t.Fatal(err)
		}
		if l := k.Named("stew"); l == nil || l.OnHand().Units() != c.want || l.Made != l.OnHand() {
			t.Errorf("%q: %+v, not %g g", c.say, l, c.want)
		}
	}
}

// Labels tell when food was made, opened or frozen, and by whom: of lots with other dates, each
// its own. What has no date is labelled too.
func TestLabelsTellWhen(t *testing.T) {
	_, s := said(t,
		"got 1kg beef mince, 600ml cream, 300g onions",
		"froze 300g beef mince",
		"opened 300ml cream",
		"used 200g beef mince in the stew",
		"150g stew left",
		"made 200g pickled onions from 200g onions")
	wraps(t, s, "k", func(x *bot.Records, list []*bot.Wrap) {
		labels, err := bot.Labels(x, list[0], "2026-03-03", time.UTC, "uk")
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]string{}
		for _, l := range labels {
			got[l.Name] = l.What + " " + l.Made.Format("15:04") + " " + l.Initials + " " + string(l.UseBy)
		}
		for name, want := range map[string]string{
			"Beef mince, frozen": "frozen 17:01 B 2026-06-01", "Cream, opened": "opened 17:02 B 2026-03-05",
			"Stew, cooked": " 17:03 B 2026-03-05", "Pickled onion, made up": " 17:05 B ",
		} {
			if got[name] != want || len(got) != 4 {
				t.Errorf("%s: %q, not %q; all: %q", name, got[name], want, got)
			}
		}
	})
}

// Food that nobody said was frozen keeps no longer by being taken out of the freezer.
func TestThawedKeepsNoLonger(t *testing.T) {
	for _, c := range []struct {
		froze string
		want  string
	}{{"got 1kg carrots", "2026-03-04"}, {"froze the soup", "2026-03-06"}} {
		s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "k.db"), store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		b := bot.New(s, bot.Options{})
		at := time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
		for _, text := range []string{"got 1kg leeks, 500g rice", "used 300g leeks and 100g rice in the soup", "800g soup left", c.froze, "", "took the soup out of the freezer"} {
			if text == "" {
				at = at.Add(48 * time.Hour)
				continue
			}
			if _, err := b.Handle(context.Background(), bot.Message{Kitchen: "k", ID: text, Cook: "bo", Text: text, At: at}); err != nil {
				t.Fatal(err)
			}
		}
		k, err := s.View(t.Context(), "k")
		if err != nil {
			t.Fatal(err)
		}
		l := k.Named("soup")
		for _, o := range l.Lots {
			if o.Left > 0 && string(o.Date) != c.want {
				t.Errorf("%s: %+v, not %s", c.froze, o, c.want)
			}
		}
	}
}
