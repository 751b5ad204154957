package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestAnswerTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]About{
		"go ahead": AboutYes, "confirmed": AboutYes, "Yeah go on": AboutYes, "yep do it": AboutYes, "yes please do": AboutYes, "ok, log it": AboutYes,
		"yes yes": AboutYes, "go on then chef": AboutYes, "sure, go for it!": AboutYes, "thats fine": AboutYes, "absolutely": AboutYes, "do it do it": AboutYes,
		"no dont": AboutNo, "leave it out": AboutNo, "no not that one": AboutNo, "nah skip it": AboutNo, "no, don't!": AboutNo, "absolutely not": AboutNo,
		"no no": AboutNo, "leave that out please": AboutNo, "don't log it": AboutNo, "of course not": AboutNo, "not yet": AboutNo, "dont do it mate": AboutNo,
		"not that one, skip it": AboutNo, "hold off": AboutNo, "no chef, stop": AboutNo,
	} {
		q := r.AnswerTalk(text)
		if q == nil || q.About != want {
			t.Errorf("%q: %+v, want %q", text, q, want)
		}
	}
	for _, text := range []string{"go ahead and chop the leeks", "do it after lunch", "yes but leave it out of the soup", "leave it to rest", "dont know", "dont touch the oven",
		"no go", "is that right?", "go ahead?", "skip the queue", "not now dee is on it", "stop the timer", "scrap that", "carry on", "I know", "definitely maybe", "yes no", "ok", "never eaten it", "without onions"} {
		if q := r.AnswerTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}
