package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestSpoiltTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for text, want := range map[string]About{
		"milk's off binned the lot": AboutSpoiltAll, "the milk is off, chucked it all": AboutSpoiltAll, "leeks slimy, binned the lot": AboutSpoiltAll,
		"milk off, binned": AboutSpoilt, "chucked the milk": AboutSpoilt, "milk out of date, binned": AboutSpoilt, "milk split, in the bin": AboutSpoilt, "the leeks have gone off so I chucked them": AboutSpoilt,
		"threw out the leeks - mouldy": AboutSpoilt,
	} {
		if q := r.SpoiltTalk(text); q == nil || q.About != want || q.Food == "" {
			t.Errorf("%q: %+v", text, q)
		}
	}
	for _, text := range []string{"chucked the milk in the fridge", "tossed the leeks in butter", "oven's off", "bo's off", "milk's off", "the milk is fine", "is the milk off?", "threw the leeks to bo", "chucked the milk on the shelf"} {
		if q := r.SpoiltTalk(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}
