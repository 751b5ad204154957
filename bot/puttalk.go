package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// Additions in kitchen words, "garnish pilaf with pistachio", and what may have got into a dish, "chips went in the
// prawn fryer". No form has them: what a message names, and the words that say how that goes together, are the evidence
// (mentions.csv).

// mostStrangePut is how many words may tell nothing of how a food and a dish go together for it to be kept as told; with
// more it is only named. The program's own choice.
const mostStrangePut = 2

// saysNever are the contrary, and saysHow instructions.
var (
	saysNever = regexp.MustCompile(`(?i)\b(?:not|no|didn'?t|hasn'?t|haven'?t|wasn'?t|weren'?t|isn'?t)\b`)
	saysHow   = regexp.MustCompile(`(?i)\b(?:don'?t|do not|never|avoid|careful not|if|make sure|should|must|always)\b`)
)

// putTalk keeps what is told to be in a dish. Done is false where no dish that was logged, and nothing in it, is named.
func (t *turn) putTalk(why string) (r Reply, done bool, err error) {
	text := t.m.Text
	if t.m.Press != nil || len(text) > mostMentioned || !t.namesDishes(text) || strings.ContainsAny(text, "?£$€") || strings.Contains(text, "://") || asksThis.MatchString(text) || saysMine.MatchString(text) || saysHow.MatchString(text) {
		return r, false, nil
	}
	all := t.mentions(nil)
	dish, inside := container(&all, text)
	if dish.Name == "" || len(inside) == 0 {
		return r, false, nil
	}
	if !all.Says[language.SaysIn] && !all.Says[language.SaysTouch] && !(slices.Contains(goingInto, dish.Joined) && all.Strange == 0) && !(inside[0].Joined == "with" && inside[0].Amount.How != language.Unsaid) {
		return r, false, nil
	}
	return t.putInto(all, t.dishNow(dish.Name), inside, why)
}

// namesDishes says whether a text may name a dish that was logged.
func (t *turn) namesDishes(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(t.k.Dishes, func(d string) bool { return strings.Contains(text, lastWord(d)) })
}

// putInto is putTalk of what goes into a dish.
func (t *turn) putInto(all language.Mentions, dish string, inside []language.Mention, why string) (r Reply, done bool, err error) {
	text := t.m.Text
	r.Kind = Silent
	if all.Strange > mostStrangePut || saysNever.MatchString(text) {
		return t.putUnread(inside, dish)
	}
	var told []language.Mention
	var list []draft
	for _, m := range inside {
		if m.Amount.How == language.Measured && !m.Amount.Vague() || m.Amount.How == language.Pieces && !m.Amount.Article {
			list = append(list, draft{Act: pantry.Use, Food: m.Name, Amount: m.Amount, Dish: dish, Doubt: isOrder(text), Day: t.day()})
		} else {
			told = append(told, m)
		}
	}
	if len(list) > 0 {
		if r, err = t.write(list, why); err != nil || r.Kind == Silent && len(told) == 0 {
			return r, r.Kind != Silent, err
		}
	}
	if len(told) > 0 && r.Kind == Silent { // else nothingLost names them: a message writes, or it teaches
		x, err := t.tellingOf(dish, told, all.Says[language.SaysTouch])
		if err != nil {
			return r, true, err
		}
		r, err = t.tellEach([]telling{x}, why)
		return r, r.Kind != Silent, err
	}
	return r, r.Kind != Silent, nil
}

// isOrder says whether a text begins with the plain form of what is done: "knock 50g butter into the pilaf".
func isOrder(text string) bool {
	first, _, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	return language.SpeaksOf(first, language.SaysIn) && !strings.HasSuffix(first, "ed") && first != "bit" && first != "put"
}

// container is the dish that a message puts something into, and what: what stands behind "in", "into" or "on", but for
// what is tossed, fried or dressed in something.
func container(all *language.Mentions, text string) (dish language.Mention, inside []language.Mention) {
	at := -1
	for i, m := range all.List {
		if !m.Dish || m.Out || m.Talk {
			continue
		}
		if at < 0 || slices.Contains(goingInto, m.Joined) && !coats.MatchString(text) {
			at = i
		}
	}
	if at < 0 {
		return dish, nil
	}
	for i, m := range all.List {
		if i != at && !m.Out && !m.Talk && m.Name != all.List[at].Name && food.Fold(m.Name) != "water" && m.Known || m.Dish && i != at || !m.Known && !m.Out && m.Amount.How == language.Measured {
			inside = append(inside, m)
		}
	}
	return all.List[at], inside
}

// goingInto stand before the dish that something goes into; behind coats they stand before what goes onto it.
var (
	goingInto = strings.Fields("in into on onto over through inside to")
	coats     = regexp.MustCompile(`(?i)\b(?:toss(?:ed)?|coat(?:ed)?|roll(?:ed)?|dress(?:ed)?|fried|fry|cook(?:ed)?|poach(?:ed)?|braised?|baked?|marinated?|bathed?|finish(?:ed)?|glazed?) [a-z' -]*\b(?:in|with|w)\b`)
)

// putUnread names food that was told in one breath with a dish, where that would break a need, and keeps it as unsettled.
func (t *turn) putUnread(inside []language.Mention, dish string) (r Reply, done bool, err error) {
	of := tallied{}
	in, err := t.book.IntoDish(dish, t.said.At.Add(-serviceLong))
	if err != nil || len(in) == 0 {
		return r, false, err
	}
	for _, e := range in {
		of.items = append(of.items, item{names: []string{t.k.Line(e.Line).Name}})
	}
	var lost []language.Mention
	var names []string
	for _, m := range inside {
		hard := t.breaksNeed(m.Name)
		if m.Dish || !hard || slices.ContainsFunc(of.items, func(x item) bool { return t.isOneOf(m.Name, x.names) }) {
			continue
		}
		lost, names = append(lost, m), append(names, m.Name)
	}
	if len(lost) == 0 {
		return r, false, nil
	}
	if err := t.keepUnread(lost, dish); err != nil {
		return r, true, err
	}
	return Reply{Kind: Answer, Text: t.sayUnread(lost, names, dish)}, true, nil
}

// breaksNeed says whether food that words call is against somebody's need.
func (t *turn) breaksNeed(said string) bool {
	needs := t.needs()
	if len(needs) == 0 {
		return false
	}
	c := t.contentsCalled(said)
	hard, _ := c.broken(needs)
	return len(hard) > 0
}

// contentsCalled is what food that words call is known to hold: by its line, by the tables, or by its name.
func (t *turn) contentsCalled(said string) (c contents) {
	h := t.ear.find(said)
	if h.exact && !h.sound && len(h.lines) == 1 {
		if c, err := t.contentsOf(h.lines[0]); err == nil {
			return c
		}
	}
	f := h.food
	if f == nil || !h.exact || h.sound {
		f = food.Named(said)
	}
	c = contents{holds: slices.Clone(f.Allergen), may: slices.Clone(f.MayCarry), foods: []*food.Food{f}, names: []string{said}}
	for _, n := range t.allergyCalled(said) {
		c.holds = append(c.holds, strings.Split(n.Allergy, "+")...)
	}
	return c
}

// allergyCalled are the allergens that a word is for: "shellfish"; none where it is a food.
func (t *turn) allergyCalled(said string) (list []language.TableNeed) {
	q, _ := t.reader().HoldTalk("soup contains " + said)
	if q == nil || q.About != language.AboutSaidIn {
		return nil
	}
	for _, n := range q.Needs {
		if n.Allergy != "" {
			list = append(list, n)
		}
	}
	return list
}

// tellingOf is what is told to be in a dish, or that it may be.
func (t *turn) tellingOf(dish string, list []language.Mention, may bool) (told telling, err error) {
	x, wraps, err := t.wraps()
	if err != nil {
		return told, err
	}
	told.name = dish
	put := func(name string, holds, carries []string, may bool) {
		n := language.TableNeed{Said: name, Allergy: strings.Join(holds, "+")}
		if may {
			n.Allergy = strings.Join(append(slices.Clone(holds), carries...), "+")
			told.may = append(told.may, n)
			return
		}
		if len(carries) > 0 {
			n.Allergy += mayCarry + strings.Join(carries, "+")
		}
		told.needs = append(told.needs, n)
	}
	var open []language.Mention
	for _, m := range list {
		if !m.Dish {
			c := t.contentsCalled(m.Name)
			put(m.Name, c.holds, c.may, may)
			continue
		}
		name := t.dishNow(m.Name)
		h, err := t.heldBy(x, wraps, name)
		if err != nil {
			return told, err
		}
		if h == nil || h.unknown || t.beforeSettled(h, name) != "" {
			open = append(open, language.Mention{Name: name, Dish: true})
		}
		if h != nil {
			put(name, h.holds, missing(h.may, h.holds), may)
		}
	}
	if len(open) > 0 {
		if err := t.keepUnread(open, dish); err != nil {
			return told, err
		}
	}
	return told, nil
}

// touchTalk keeps what may have got from one food into another: fried in the same oil, cut on the same board. Done is
// false where nothing that holds an allergen, and no dish or food beside it, is named.
func (t *turn) touchTalk(why string) (r Reply, done bool, err error) {
	text := t.m.Text
	if t.m.Press != nil || len(text) > mostMentioned || strings.Contains(text, "?") || asksThis.MatchString(text) || !language.SpeaksOf(text, language.SaysTouch) || saysNever.MatchString(text) || saysHow.MatchString(text) || saysMine.MatchString(text) {
		return r, false, nil
	}
	all := t.reader().Mentions(text, func(said string) bool {
		return slices.Contains(t.k.Dishes, said) || t.reader().NamesDish(said) && !strings.Contains(said, " ") && !t.isKnownFood(said) || !t.isKnownFood(said) && slices.Contains(t.k.Dishes, t.dishNow(said))
	})
	if !all.Says[language.SaysTouch] || all.Strange > mostStrangePut || len(all.List) == 0 || slices.ContainsFunc(all.List, func(m language.Mention) bool { return m.Out || m.Amount.How == language.Measured }) {
		return r, false, nil
	}
	dishes := slices.ContainsFunc(all.List, func(m language.Mention) bool { return m.Dish })
	var told []telling
	for _, victim := range all.List {
		if dishes && !victim.Dish || len(t.allergyCalled(victim.Name)) > 0 && !t.isKnownFood(victim.Name) {
			continue
		}
		name := victim.Name
		if victim.Dish {
			name = t.dishNow(name)
		} else if h := t.ear.find(name); h.exact && len(h.lines) == 1 {
			name = h.lines[0].Name
		} else if !t.reader().NamesDish(name) && !t.isKnownFood(name) {
			continue
		}
		own := t.contentsCalled(victim.Name)
		var list []language.Mention
		for _, m := range all.List {
			if m.Name == victim.Name || m.Talk {
				continue
			}
			c := t.contentsCalled(m.Name)
			if m.Dish || len(missing(c.holds, own.holds)) > 0 || t.breaksNeed(m.Name) {
				list = append(list, m)
			}
		}
		if len(list) == 0 {
			continue
		}
		x, err := t.tellingOf(name, list, true)
		if err != nil {
			return r, true, err
		}
		told = append(told, x)
	}
	if len(told) > 0 {
		r, err = t.tellEach(told, why)
		return r, r.Kind != Silent, err
	}
	if len(all.List) == 1 && t.breaksNeed(all.List[0].Name) && !all.List[0].Dish {
		name := all.List[0].Name
		return Reply{Kind: Answer, Text: fmt.Sprintf(`Not kept of any dish: which may hold %s? Say it of each, like "chips may contain %[1]s".`, name) + t.heed(&pending{About: name, Draft: draft{Act: pantry.Use}})}, true, nil
	}
	return r, false, nil
}
