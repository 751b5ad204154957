package bot

import (
	"iter"
	"time"

	"scullion/pantry"
)

// mostLately is how many messages back what was said of food by the way is looked for.
const mostLately = 200

// back goes back through what was heard before m, of a cook or with "" of anybody, the latest first: so many
// messages at most, and none from before since. An error ends it.
func (t *turn) back(cook string, m *pantry.Message, most int, since time.Time) iter.Seq2[*pantry.Message, error] {
	return func(yield func(*pantry.Message, error) bool) {
		for range most {
			before, err := t.book.Heard(cook, m)
			if err != nil {
				yield(nil, err)
				return
			}
			if before == nil || before.At.Before(since) || !yield(before, nil) {
				return
			}
			m = before
		}
	}
}
