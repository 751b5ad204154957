package bot

import (
	"regexp"
	"slices"
	"strings"
)

// partBefore is a part of a dish before the dish of a part of a dish before the dish: "vinaigrette on the duck salad".
var partBefore = regexp.MustCompile(`^(.+?) (?:on top of|on|of|in|for|with|over|under|around|inside|that goes with|thats on|that's on) (?:the |our |that |this )?(.+)$`)

// dishOfPart is the dish of which words call a part: "vinaigrette on the duck salad", "fish pie topping". What is in
// the part is in the dish. "" where they call no part of a dish that is known, or something that is known by itself.
func (t *turn) dishOfPart(list []*Wrap, said string) string {
	if slices.Contains(t.k.Dishes, t.dishCalled(list, said)) {
		return ""
	}
	for rest := said; ; {
		m := partBefore.FindStringSubmatch(rest)
		if m == nil {
			break
		}
		rest = m[2]
		if dish := t.dishCalled(list, rest); slices.Contains(t.k.Dishes, dish) {
			return dish
		}
	}
	words := strings.Fields(said)
	for n := len(words) - 1; n > 0; n-- {
		name := strings.TrimSuffix(strings.TrimSuffix(strings.Join(words[:n], " "), "'s"), "’s")
		if dish := t.sameDish(name); slices.Contains(t.k.Dishes, dish) && (dish == name || plural(dish) == name || dish == plural(name)) {
			return dish
		}
	}
	return ""
}

// heldByPart is heldBy, of the dish where words call a part of one, and the name that was looked for.
func (t *turn) heldByPart(x *Records, list []*Wrap, said string) (*holding, string, error) {
	if dish := t.dishOfPart(list, said); dish != "" {
		if h := t.ear.find(said); !h.exact || h.sound || h.food == nil && len(h.lines) == 0 { // food of that name is by itself
			said = dish
		}
	}
	h, err := t.heldBy(x, list, said)
	return h, said, err
}
