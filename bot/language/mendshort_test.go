package language

import "testing"

func TestMendShort(t *testing.T) {
	for said, want := range map[string]string{
		"lables": "labels", "nxt?": "next?", "Acept": "accept", "sheeet for the pie": "sheet for the pie",
		"labels": "labels", "used 300g leek": "used 300g leek", "": "",
		"the lables on that shelf are all wrong": "the lables on that shelf are all wrong",
	} {
		if got := MendShort(said); got != want {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}
