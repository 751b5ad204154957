package bot

import (
	"fmt"
	"regexp"
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
)

// needsHeard reads needs by evidence where the forms do not read all of a text, or would not tell that it speaks of
// needs that are known already: "one more coeliac on table 3". Read says that the forms read all of it.
func (t *turn) needsHeard(text string, read bool) (list []language.TableTalk, left string, ok bool) {
	if len(t.m.Text) > longest/10 || asksThis.MatchString(text) {
		return nil, "", false
	}
	list, left, _ = t.reader().NeedsHeard(text)
	if ofKnown := slices.ContainsFunc(list, func(x language.TableTalk) bool {
		return x.More || x.Again || x.About == language.AboutOverAt || slices.ContainsFunc(x.Needs, func(n language.TableNeed) bool { return n.Known })
	}); len(list) == 0 || read && !ofKnown {
		return nil, "", false
	}
	return t.oneOfThem(list), left, true
}

// oneOfThem has a change that is said of one, or of some, leave the others as they are: "table 3 vegan is now vegetarian"
// where three are vegan.
func (t *turn) oneOfThem(list []language.TableTalk) []language.TableTalk {
	for i, x := range list {
		if x.About != language.AboutOverAt || len(x.Needs) != 1 || i+1 >= len(list) || len(list[i+1].Needs) == 0 {
			continue
		}
		of, said := t.needSaid(pantry.Need{Who: x.Place}, x.Needs[0]), max(1, list[i+1].Needs[0].Count, x.Needs[0].Count)
		for _, o := range t.needsOn(t.needsFor) {
			if o.Who == x.Place && o.Kind == of.Kind && o.What == of.What && o.Count > said && o.Count != pantry.Everyone {
				list[i].About, list[i].Needs[0].Count = language.AboutNumbered, o.Count-said
				list[i+1].Needs[0].Count = said
			}
		}
	}
	return list
}

// onlyNow tells how many there are, whether they were told of before or not: "only 1 nut allergy now".
var onlyNow = regexp.MustCompile(`(?i)\b(?:only|just) `)

// asKnown holds needs against those that are known where they are said to go on from them: so many more of them, so many
// after all, or of one whose other need is known. None says why nothing is kept.
func (t *turn) asKnown(x *language.TableTalk, list []pantry.Need) (keep []pantry.Need, none string) {
	known := t.needsOn(t.needsFor)
	for i, n := range list {
		at, places := -1, 0
		for k, o := range known {
			if !o.Lasting && o.Kind == n.Kind && o.What == n.What && (x.Again || o.Who == n.Who) {
				at, places = k, places+1
			}
		}
		switch {
		case places > 1 && x.Again && slices.ContainsFunc(known, func(o pantry.Need) bool { return o.N > known[at].N }): // fewer of which table, nobody can tell
			return nil, fmt.Sprintf("Not changed: several places have %s. Say it of one, like \"table 2: %d %[1]s\".", n.Said, max(n.Count, 1))
		case at < 0 && x.Again && !onlyNow.MatchString(t.m.Text):
			return nil, fmt.Sprintf("Not kept: nobody told of %s yet. Say it like \"table 2: %d %s\".", n.Said, max(n.Count, 1), n.Said)
		case at >= 0 && x.Again:
			n.Who, n.Said = known[at].Who, known[at].Said
		case at >= 0 && x.More:
			n.Said, n.Count = known[at].Said, headsOf(known[at])+n.Count
		case at >= 0 && i < len(x.Needs) && x.Needs[i].Known:
			continue
		}
		keep = append(keep, n)
	}
	return keep, ""
}

// soundsLikeNeed says whether a text that nothing has read tells of a place or a person and of what somebody cannot eat.
func (t *turn) soundsLikeNeed(text string) bool {
	if saysMine.MatchString(text) || asksThis.MatchString(text) {
		return false
	}
	_, _, seems := t.reader().NeedsHeard(text)
	return seems
}
