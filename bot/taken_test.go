package bot_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/store"
)

// What else is said in a kitchen that is taken along, besides what TestLaws says.
var more = [][]string{
	{"timer 12 min tart"}, {"call me at 18:30 for the bread"}, {"timer 5 min soup", "stop the soup timer"}, {"5 more min on the tart timer"},
	{"house rule: leeks keep 3 days", "got 500g leeks"}, {"our soups keep 1 day", "made 1l soup"}, {"new food: sea beet, like spinach, a handful is 30 g, no allergens"}, {"we call carrots rootles", "used 100g rootles"},
	{"ideas for the leek?", "do 1 for the soup"}, {"ideas?", "not that"}, {"used an onion in the pie", "red"},
	{"plan 1 dish for 2 in 45 minutes, two cooks", "accept"}, {"what's next?"}, {"running 5 late"},
	{"weigh back", "half of it", "2 left"}, {"gave 100g leek to next door", "weigh back"}, {"200g"},
	{"got 2 kg celeriac £3.20 use by 9 march"}, {"=1+1 used 50g leek\r\nand 20g carrots"}, {"dee is 'ere; used 10g \"leek\", thanks"},
}

func (k *kitchen) sayMore() {
	cook := rapid.SampledFrom(cooks).Draw(k.T, "cook")
	for _, text := range rapid.SampledFrom(more).Draw(k.T, "more") {
		m := bot.Message{ID: fmt.Sprint("m", len(k.ids)), Cook: cook, Text: text, Room: "r1"}
		if cook == "stove" {
			m.Person = "77"
		}
		k.ids = append(k.ids, m.ID)
		k.send(m)
	}
}

// TestTaken takes random kitchens along, as JSON and as CSV, into files where lines have other
// ids: what is exported there is the same to the byte, the balances are the same, and whatever is
// said, edited, deleted or undone from there on gets the same answer in all of them.
func TestTaken(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	files := 0
	file := func(ext string) string {
		files++
		return filepath.Join(dir, fmt.Sprint(files, ext))
	}
	rapid.Check(t, func(t *rapid.T) {
		k := newKitchen(t, file(".db"))
		defer k.s.Close()
		k.say("larder", "got 900g leeks, 2kg carrots, 4 red onions, 6 brown onions, 500ml cream, 6 eggs, 200g butter")
		for range rapid.IntRange(1, 20).Draw(t, "turns") {
			if rapid.IntRange(0, 2).Draw(t, "more") == 0 {
				k.sayMore()
			} else {
				k.turn()
			}
		}
		csv := file(".csv")
		if err := k.s.ExportCSV(context.Background(), "k", csv, bot.Relink); err != nil {
			t.Fatal(err)
		}
		before := exported(t, k.s, file(".json"))
		json := filepath.Join(dir, fmt.Sprint(files, ".json"))
		others := []*kitchen{newKitchen(t, file(".db")), newKitchen(t, file(".db"))}
		for i, from := range []string{json, csv} {
			o := others[i]
			defer o.s.Close()
			o.at, o.ids, o.said = k.at, k.ids, k.said
			if i == 0 { // lines and messages of others come first
				if _, err := o.k.Handle(context.Background(), bot.Message{Kitchen: "next door", ID: "m0", Cook: "bo", At: k.at, Text: "got 1kg leeks, 2kg flour"}); err != nil {
					t.Fatal(err)
				}
			}
			if err := o.s.Import(context.Background(), from, "", bot.Relink); err != nil {
				t.Fatal(err)
			}
			o.check()
			if after := exported(t, o.s, file(".json")); !bytes.Equal(after, before) {
				t.Fatalf("%s came out as\n%s\nwent in as\n%s", from, after, before)
			}
			if was, is := balances(t, k.s), balances(t, o.s); !reflect.DeepEqual(was, is) {
				t.Fatalf("balances\n%+v\nwere\n%+v", is, was)
			}
		}
		for range rapid.IntRange(1, 4).Draw(t, "more turns") {
			k.turn()
			m := k.said[len(k.said)-1]
			want, _ := k.k.Handle(context.Background(), m)
			for _, o := range others {
				if got, err := o.k.Handle(context.Background(), m); err != nil || !reflect.DeepEqual(jsonOf(t, got), jsonOf(t, want)) {
					t.Fatalf("%+v: %+v, %v; want %+v", m, got, err, want)
				}
			}
		}
		on := exported(t, k.s, file(".json"))
		for _, o := range others {
			o.check()
			if got := exported(t, o.s, file(".json")); !bytes.Equal(got, on) {
				t.Fatalf("gone on with:\n%s\nwant\n%s", got, on)
			}
		}
	})
}

func newKitchen(t *rapid.T, file string) *kitchen {
	s, err := store.Open(context.Background(), file, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return &kitchen{T: t, s: s, k: bot.New(s, bot.Options{Think: time.Minute}), at: time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC), heard: map[string]string{}}
}

func exported(t *rapid.T, s *store.Store, file string) []byte {
	if err := s.ExportJSON(context.Background(), "k", file, bot.Relink); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// balances are the lines without their ids.
func balances(t *rapid.T, s *store.Store) (list []pantry.Line) {
	k, err := s.View(context.Background(), "k")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range k.Lines {
		x := *l
		x.ID = 0
		list = append(list, x)
	}
	return list
}

// Ids of lines are changed where a Bot keeps them, and never in what somebody said.
func TestRelink(t *testing.T) {
	const kept = `{"text":"say {\"Line\":7} or ,\"Line\":7","question":{"Options":[{"Label":"leek","Line":7},{"Line":12}],"Draft":{"Line":7}},"line":7}`
	const want = `{"text":"say {\"Line\":7} or ,\"Line\":7","question":{"Options":[{"Label":"leek","Line":70},{"Line":120}],"Draft":{"Line":70}},"line":7}`
	if got := bot.Relink(kept, func(id int64) int64 { return 10 * id }); got != want {
		t.Errorf("%s", got)
	}
}
