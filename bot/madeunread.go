package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// madeWith parts what was made from what a message says it is of.
var madeWith = regexp.MustCompile(`(?is)\b(?:with|from|using|out of) (.*)$`)

// madeUnread names food that is told of what was made and of which nothing was drawn, as none of it is held or nobody said
// how much, and keeps it as unsettled: "made 2kg granola with oats, honey and pecans".
func (t *turn) madeUnread(r Reply) (Reply, bool, error) {
	made := slices.IndexFunc(r.Entries, func(e Entry) bool { return e.Kind == string(pantry.Make) })
	m := madeWith.FindStringSubmatch(t.m.Text)
	if made < 0 || m == nil || t.m.Edit || len(t.ofTrim) > 0 {
		return r, false, nil
	}
	into := r.Entries[made].Item
	of := t.accounted(r)
	of.dishes = []string{into}
	whole := t.m.Text
	t.m.Text = m[1]
	all := t.mentions(of.dishes)
	t.m.Text = whole
	var lost []language.Mention
	var names []string
	for _, x := range t.notIn(all, of) {
		if !t.isBare(x.Name) && t.isKnownFood(x.Name) && !hasWords(into, x.Name) {
			lost, names = append(lost, x), append(names, strings.TrimSpace(x.Amount.Said+" "+x.Name))
		}
	}
	if len(lost) == 0 {
		return r, false, nil
	}
	t.plain = false
	return r.and("\n" + t.sayUnread(lost, names, into)), true, t.keepUnread(lost, into)
}
