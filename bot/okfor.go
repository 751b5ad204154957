package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// okFor asks whether something is all right for what stands behind it: a need, a place by a part of its name, or guests.
var okFor = regexp.MustCompile(`(?i)^\s*(?:and |so |ok |but |right |chef )*(is |are |will |would |could |should |can )?(?:the |this |our |that )?([a-z][a-z' -]*?) (?:be )?(?:still )?(?:ok|okay|safe|alright|all right|fine|good|suitable) (?:for|with) (the |a |our |that |those |them )?([a-z0-9][a-z0-9' /&-]*?)\s*(\??)\s*$`)

// okForTalk answers such a question by what the dish holds, and not by its date. Done is false where what stands behind it
// is none of those.
func (t *turn) okForTalk(why string) (r Reply, done bool, err error) {
	m := okFor.FindStringSubmatch(t.m.Text)
	if m == nil || t.m.Press != nil || m[1] == "" && m[5] == "" {
		return r, false, nil
	}
	food, whom := strings.ToLower(m[2]), strings.ToLower(m[4])
	if language.IsThing(food) || isPronoun(food) || slices.Contains(t.k.Dishes, t.dishNow(whom)) {
		return r, false, nil
	}
	if q, _ := t.reader().HoldTalk(t.m.Text); q != nil && !strings.Contains(q.Food, " for ") && (q.Place == "" || t.placeCalled(q.Place) != "" && len(t.needsAt(q.Place)) > 0) {
		return r, false, nil
	}
	place, rest := t.placeBegins(whom)
	if place == "" {
		rest = whom
	}
	if rest == "" {
		return t.holdOne(&language.Question{About: language.AboutEats, Food: food, Place: place}, why, true)
	}
	if m[3] == "" || place != "" {
		if q := t.asksNeed(food, rest); q != nil {
			return t.holdOne(q, why, true)
		}
	}
	if language.IsFolk(rest) && len(t.needs()) > 0 {
		return t.holdOne(&language.Question{About: language.AboutEats, Food: food, Place: place}, why, true)
	}
	return r, false, nil
}

// needsAt are the needs that are kept at a place.
func (t *turn) needsAt(place string) (list []pantry.Need) {
	place = t.placeCalled(place)
	for _, n := range t.needs() {
		if !n.Lasting && isAt(n, place) {
			list = append(list, n)
		}
	}
	return list
}

// placeBegins finds the one place with needs whose name begins some words, in whole or in part: "coach" of the coach
// party. Rest is what stands behind it.
func (t *turn) placeBegins(words string) (place, rest string) {
	list := strings.Fields(words)
	for n := len(list); n > 0; n-- {
		head := strings.Join(list[:n], " ")
		for _, x := range t.needs() {
			who := strings.ToLower(x.Who)
			if x.Lasting || who == "" || who != head && !strings.HasPrefix(who, head+" ") {
				continue
			}
			if place != "" && place != x.Who {
				return "", ""
			}
			place, rest = x.Who, strings.Join(list[n:], " ")
		}
		if place != "" {
			return place, rest
		}
	}
	return "", ""
}

// asksNeed is what is asked of a need that words name: "nuts", "dairy free"; nil where they name none.
func (t *turn) asksNeed(food, words string) *language.Question {
	if strings.HasSuffix(words, "free") {
		if q, _ := t.reader().HoldTalk("is the " + food + " " + words + "?"); q != nil && len(q.Needs) > 0 {
			return q
		}
		return nil
	}
	words = strings.TrimSuffix(strings.TrimSuffix(words, " allergies"), " allergy")
	if len(t.allergyCalled(words)) == 0 || !t.reader().NamesDish(food) && !t.isLogged(food) && !t.breaksNeed(words) {
		return nil
	}
	q, _ := t.reader().HoldTalk("does the " + food + " have " + words + "?")
	return q
}
