package food

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestCommonMisspellings holds the catalogue against a published list of words
// that people misspell, the npm package @cspell/dict-en-common-misspellings
// (licence CC BY-SA 4.0; the list is read where node has it and is no part of
// this repository). Of every entry that may stand for a food's word, the
// misspelling must bring a food with that word first.
func TestCommonMisspellings(t *testing.T) {
	entries := misspellings(t)
	c, tried, sure, loose, found := Default(), 0, 0, 0, 0
	for wrong, meant := range entries {
		if c.index.knows(wrong) || !slices.ContainsFunc(meant, c.index.knows) {
			continue // another food's right spelling, or no food's wrong one
		}
		m := c.Find(wrong)
		ok := len(m) > 0 && slices.ContainsFunc(meant, func(w string) bool { return c.foods[m[0].ID].has(w) })
		if loose++; ok {
			found++
		}
		if !slices.ContainsFunc(meant, isFoodWord) {
			continue
		}
		if tried++; asNear[wrong] {
			continue
		}
		if !ok {
			t.Errorf("Find(%q) = %v, want a food with %q", wrong, m[:min(3, len(m))], meant)
		} else if m[0].Score >= Sure {
			sure++
		}
	}
	t.Logf("%d of %d entries may be a food's word, %d of them sure", tried, len(entries), sure)
	t.Logf("of %d that may be any word at all of a name (the, in, type, style) %d bring a food with it", loose, found)
	if tried < 250 {
		t.Errorf("only %d entries: the list has another form than expected", tried)
	}
}

// What is spelt rightly and is no food's word seldom passes for one: of the
// same list's corrections, one in a hundred, and hardly any of four letters.
func TestOtherWordsAreNoFood(t *testing.T) {
	words := map[string]bool{}
	for _, meant := range misspellings(t) {
		for _, w := range meant {
			words[w] = true
		}
	}
	x, tried, sure, short := Default().Index(), 0, 0, 0
	for w := range words {
		if rightly(x, w) {
			continue
		}
		tried++
		if m := x.Find(w); len(m) > 0 && m[0].Score >= Sure {
			if sure++; len(w) < 5 {
				short++
			}
		}
	}
	t.Logf("of %d English words that are no food's %d pass for one, %d of them short", tried, sure, short)
	if 100*sure > tried || 1000*short > tried {
		t.Errorf("%d of %d words pass for a food's, %d of them short", sure, tried, short)
	}
}

// asNear are misspellings that are as near to another food: chank to chana, cips
// to the beginning of cipolla, gound to
// gourd, rin to rib.
var asNear = map[string]bool{"chank": true, "chanks": true, "cips": true, "gound": true, "rin": true}

// isFoodWord says whether a word alone is enough to name a food for sure: not
// "the", "type" or "style", though they are in names.
func isFoodWord(word string) bool {
	if _, ok := Default().index.forms[word]; !ok {
		return false
	}
	found := Default().Find(word)
	return len(found) > 0 && found[0].Score >= Sure && Default().foods[found[0].ID].has(word)
}

// has says whether one of the food's names has the word.
func (f *Food) has(word string) bool {
	return slices.ContainsFunc(f.Called(), func(name string) bool { return slices.Contains(folded(name), Fold(word)) })
}

// misspellings gives the list: a word as written -> the words it may stand for.
func misspellings(t *testing.T) map[string][]string {
	t.Helper()
	const list = "@cspell/dict-en-common-misspellings"
	out, err := exec.Command("node", "-p", "require.resolve('"+list+"')").Output()
	if err != nil {
		t.Skipf("node cannot find %s (npm install it where NODE_PATH points): %v", list, err)
	}
	files, _ := filepath.Glob(filepath.Join(filepath.Dir(strings.TrimSpace(string(out))), "dict", "dict-*.json"))
	entries := map[string][]string{}
	for _, file := range files {
		var dict struct {
			DictionaryDefinitions []struct{ FlagWords, SuggestWords []string }
		}
		text, err := os.ReadFile(file)
		if err == nil {
			err = json.Unmarshal(text, &dict)
		}
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, d := range dict.DictionaryDefinitions {
			for _, line := range slices.Concat(d.FlagWords, d.SuggestWords) {
				wrong, meant, _ := strings.Cut(line, "->")
				entries[wrong] = append(entries[wrong], strings.Split(meant, ", ")...)
			}
		}
	}
	return entries
}
