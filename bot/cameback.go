package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
)

// tellBack says that food which came back from the table is not taken in: it was drawn as it was
// used. It is silent on what is no food.
func (t *turn) tellBack(r Reply, it *language.Item) Reply {
	if it == nil {
		return r
	}
	h := t.ear.find(it.Food)
	if !h.exact {
		return r
	}
	name := singular(strings.ToLower(it.Food))
	tell := fmt.Sprintf(`Not taken in: %s back from the table is waste, and was written off as it was used. Only what was never served goes back: "put back 1kg %s".`, name, name)
	if r.Kind == Silent {
		return Reply{Kind: Answer, Text: tell}
	}
	r.Text += "\n" + tell
	return r
}
