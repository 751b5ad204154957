package bot

import "testing"

// The table of cuts holds together: no word is a part and trim as well, and each verb's name for what is left holds "it".
func TestCutWords(t *testing.T) {
	words := cutWords()
	for _, what := range []string{"verb", "into", "part", "trim", "bone", "whole"} {
		if len(words[what]) == 0 {
			t.Errorf("no word is %q", what)
		}
	}
	for w := range words["part"] {
		if isOffcut(w) {
			t.Errorf("%q is a part and trim", w)
		}
	}
	for name, want := range map[string]string{"whole chickens": "chicken", "Lamb shoulders": "lamb", "hake": "hake", "beef short rib": "beef"} {
		if got := cutBase(name); got != want {
			t.Errorf("parts of %s are of %q, not %q", name, got, want)
		}
	}
}
