package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// told says something in a kitchen and wants the answer to hold words.
type told struct{ say, want string }

// tellAll says lines in turn to the kitchen in a file, opened anew for each: what is held in
// memory only is lost between them.
func tellAll(t *testing.T, file, units string, from int, list []told) {
	t.Helper()
	for i, x := range list {
		s, err := store.Open(context.Background(), file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		r, err := bot.New(s, bot.Options{Units: units}).Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("m", from+i), Cook: "ana", Text: x.say,
			At: time.Date(2026, 3, 3, 17, from+i, 0, 0, time.UTC)})
		if err != nil || !strings.Contains(r.Text, x.want) || x.want == "" && r.Text != "" {
			t.Errorf("%q: %v %q, not %q", x.say, err, r.Text, x.want)
		}
		if wrong, err := s.Check(context.Background()); err != nil || len(wrong.Wrong) > 0 {
			t.Error(x.say, wrong, err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// A house rule outlives the program and goes along to another file; of rule, guidance and label
// the shortest gives the date, and the latest rule on a food is in force until it is taken back.
func TestHouseRule(t *testing.T) {
	dir := t.TempDir()
	here := filepath.Join(dir, "here.db")
	tellAll(t, here, "uk", 0, []told{
		{"house rule: soups keep 1 day", "House rule: soups 1 day in the fridge; the guidance has more"},
		{"made 1l leek soup", "Use by Wed 4 Mar (house rule, soups 24 h)"},
		{"our soup keeps 2 days", "as the guidance has it"},
		{"made 1l pea soup", "Use by Thu 5 Mar (UK FSA"},
		{"undo", "pea soup 1 l made"},
		{"undo", "the house rule, soup 2 days"},
		{"made 1l bean soup", "Use by Wed 4 Mar (house rule"},
		{"our leeks keep 4 days", "House rule: leeks 4 days"},
		{"got 1kg leeks use by 5 march", "use by 2026-03-05"}, // the pack's is the sooner
		{"when do the leeks go off?", "use by Thu 5 Mar (as its label"},
		{"house rule: leeks keep 20 days", "longer than the guidance"},
		{"our rice keeps 1 day", "House rule: rice 1 day"}, // not that of the sack
		{"got 2kg basmati rice for the cupboard", "Basmati rice 2 kg in"},
	})
	s, err := store.Open(context.Background(), here, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	taken := filepath.Join(dir, "k.json")
	if err := s.ExportJSON(context.Background(), "k", taken, bot.Relink); err != nil {
		t.Fatal(err)
	}
	s.Close()
	there := filepath.Join(dir, "there.db")
	if s, err = store.Open(context.Background(), there, store.Options{}); err != nil {
		t.Fatal(err)
	}
	if err := s.Import(context.Background(), taken, "", bot.Relink); err != nil {
		t.Fatal(err)
	}
	s.Close()
	tellAll(t, there, "uk", 20, []told{
		{"what are our house rules?", "House rules: soups 1 day in the fridge; leeks 4 days in the fridge; rice 1 day in the fridge."},
		{"made 1l carrot soup", "house rule, soups 24 h"},
		{"when does the basmati rice go off?", "usual keeping"},
	})
}

// US guidance gives leftovers 3 days: a rule of 2 is shorter there, and none for the UK.
func TestHouseRuleAgainstCountry(t *testing.T) {
	tellAll(t, filepath.Join(t.TempDir(), "us.db"), "us", 0, []told{
		{"our soups keep 2 days", "the guidance has more (US"},
		{"our soups keep 4 days", "longer than the guidance"},
		{"made 1l soup", "Use by Thu 5 Mar (house rule"},
	})
}

// No reply about keeping says of food that it is safe.
func TestNeverSafe(t *testing.T) {
	for _, text := range []string{"is the chicken safe to eat?", "is the curry still safe?", "can we keep the curry till thursday?", "will the risotto keep till friday?", "when does the curry go off?"} {
		t.Run(text, func(t *testing.T) {
			r := answerTo(t, []string{"got 500g chicken use by 9 march", "made 1kg curry"}, text)
			if r.Kind != bot.Answer || strings.Contains(strings.ToLower(r.Text), "safe") {
				t.Error(r.Kind, r.Text)
			}
		})
	}
}

// answerTo says lines in a new kitchen, a minute apart, and gives the answer to the last.
func answerTo(t *testing.T, before []string, text string) (r bot.Reply) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	k := bot.New(s, bot.Options{})
	for i, say := range append(slices.Clone(before), text) {
		m := bot.Message{Kitchen: "k", ID: fmt.Sprint("m", i), Cook: "ana", Text: say, At: time.Date(2026, 3, 3, 17, i, 0, 0, time.UTC)}
		if r, err = k.Handle(context.Background(), m); err != nil {
			t.Fatal(say, err)
		}
	}
	return r
}
