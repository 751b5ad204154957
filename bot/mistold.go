package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// A substitution told after the use: "swapped the oat milk for cows milk", "whoops wrong carton, was milk". What was used
// is known, so that is what was wrong, whichever way round it is told; what else is named is what it was.

// swappedTalk corrects such a use, asks about it, or says that it was not read; the dish is unsettled then. Done is false
// where no food or dish that was just used is named or meant.
func (t *turn) swappedTalk(string) (r Reply, done bool, err error) {
	text := t.m.Text
	if t.m.Press != nil || t.m.Edit || len(text) > mostMentioned || strings.ContainsAny(text, "?£$€") || strings.Contains(text, "://") || saysMine.MatchString(text) || saysHow.MatchString(text) || !language.SpeaksOf(text, language.SaysMend) {
		return r, false, nil
	}
	all := t.mentions(nil)
	if len(all.List) == 0 || all.Strange > 2*mostStrangePut {
		return r, false, nil
	}
	dish := ""
	var foods []language.Mention
	for _, m := range all.List {
		switch {
		case m.Amount.How == language.Measured:
			return r, false, nil
		case (m.Dish || m.Joined == "in" && t.isLogged(m.Name)) && dish == "": // "... in the cookies", which are on hand as well
			dish = t.dishNow(m.Name)
		case !m.Dish && m.Known && !m.Talk:
			foods = append(foods, m)
		}
	}
	target, entries, err := t.loggedWith(func(e pantry.Entry) bool {
		return e.Act == pantry.Use && e.Dish != "" && sayAway(e.Dish) == "" && (dish == "" || e.Dish == dish) && (dish != "" || slices.ContainsFunc(foods, func(m language.Mention) bool { return t.isFood(e, m.Name) || t.isLike(e, m.Name) }))
	})
	if err != nil || target == nil {
		return r, false, err
	}
	at, is := t.swapOf(entries, foods, dish)
	if at < 0 || is == "" {
		return r, false, nil
	}
	if h := t.ear.find(is); len(h.lines) == 0 && t.isKnownFood(language.PlainName(is)) { // "cows milk"
		is = language.PlainName(is)
	}
	e := entries[at]
	if r, err = t.mend(target, slices.Clone(entries), at, &language.Amend{Food: is}); err != nil || r.Kind == Log {
		return r, true, err
	}
	if r.Kind == Asking && len(t.askedOfMessage(target.ID)) > 0 {
		return r, true, nil
	}
	lost := []language.Mention{{Name: is, Amount: language.Amount{Said: e.Said}}}
	if err := t.keepUnread(lost, e.Dish); err != nil {
		return r, true, err
	}
	l := t.k.Line(e.Line)
	text = fmt.Sprintf(`Not read as changed: %s in the %s, not %s? Say "used %s %s in the %[2]s", and "no %[3]s in the %[2]s".`, is, e.Dish, l.Name, amountOf(e, l.Unit), is)
	return Reply{Kind: Answer, Text: text + t.heed(&pending{About: is, Draft: draft{Act: pantry.Use, Dish: e.Dish}})}, true, nil
}

// swapOf finds which entry was wrong, and what it was: of the foods named, one that was used is the first, and one that
// was not the second. -1 where that cannot be told.
func (t *turn) swapOf(entries []pantry.Entry, foods []language.Mention, dish string) (at int, is string) {
	at = -1
	used := func(name string) int {
		return slices.IndexFunc(entries, func(e pantry.Entry) bool {
			return e.Act == pantry.Use && (dish == "" || e.Dish == dish) && t.isFood(e, name)
		})
	}
	for _, m := range foods {
		if i := used(m.Name); i >= 0 && (at < 0 || m.Out) {
			at = i
		}
	}
	for _, m := range foods {
		if used(m.Name) >= 0 || m.Out && len(foods) > 1 && at >= 0 {
			continue
		}
		is = m.Name
		if at < 0 { // what it was stands alone: of the entry that is called like it
			at = slices.IndexFunc(entries, func(e pantry.Entry) bool {
				return e.Act == pantry.Use && (dish == "" || e.Dish == dish) && t.isLike(e, m.Name)
			})
		}
	}
	return at, is
}

// isLike says whether an entry's food is called with the last word of what words call: oat milk and milk.
func (t *turn) isLike(e pantry.Entry, words string) bool {
	name := t.k.Line(e.Line).Name
	return singular(lastWord(name)) == singular(lastWord(words)) && !t.isFood(e, words)
}

// askedOfMessage is what the cook is asked about a message.
func (t *turn) askedOfMessage(message string) (list []pending) {
	if t.k.Questions[t.cook] == nil {
		return nil
	}
	q, of, err := t.open()
	if err != nil || q.isShown() {
		return nil
	}
	return slices.DeleteFunc(q.all(of), func(p pending) bool { return p.Asked != message })
}

// notPending takes a correction of food that the cook was asked about, and that is not written: "it was vegan mayo not
// mayo". Done is false where none was.
func (t *turn) notPending(a *language.Amend) (r Reply, done bool, err error) {
	if a.Food == "" || a.Not == "" || a.Amount.How != language.Unsaid || t.k.Questions[t.cook] == nil {
		return r, false, nil
	}
	q, message, err := t.open()
	if err != nil || q.isShown() {
		return r, false, err
	}
	for _, p := range q.all(message) {
		if p.Draft.intoDish() && p.Replace == 0 && t.isOneOf(strings.ToLower(a.Not), []string{p.About, p.Draft.Food}) {
			if _, err := t.offAsked(a.Not, p.Draft.Dish); err != nil {
				return r, true, err
			}
			d := p.Draft
			d.Line, d.Food, d.New, d.Whole, d.Knowing = 0, a.Food, nil, "", false
			r, err = t.write([]draft{d}, pantry.Said)
			return r, r.Kind != Silent, err
		}
	}
	return r, false, nil
}

// wentInAfterAll asks about food against somebody's need that is said to have gone in, of which no dish is named: into
// what its cook was just cooking. Done is false where that cannot be told.
func (t *turn) wentInAfterAll(string) (r Reply, done bool, err error) {
	text := t.m.Text
	if t.m.Press != nil || len(text) > mostMentioned || len(t.needs()) == 0 || strings.ContainsAny(text, "?£$€") || strings.Contains(text, "://") || saysMine.MatchString(text) || saysHow.MatchString(text) || saysSeat.MatchString(text) || !language.SpeaksOf(text, language.SaysIn, language.SaysMend) {
		return r, false, nil
	}
	all := t.mentions(nil)
	if all.Strange > mostStrangePut || !all.Says[language.SaysIn] && !all.Says[language.SaysMend] || slices.ContainsFunc(all.List, func(m language.Mention) bool { return m.Dish }) {
		return r, false, nil
	}
	_, entries, err := t.loggedWith(func(e pantry.Entry) bool { return e.Act == pantry.Use && e.Dish != "" && sayAway(e.Dish) == "" })
	if err != nil || len(entries) == 0 {
		return r, false, err
	}
	dish := ""
	for _, e := range entries {
		if e.Act == pantry.Use {
			dish = e.Dish
		}
	}
	var inside []language.Mention
	for _, m := range all.List {
		if !m.Talk {
			inside = append(inside, m)
		}
	}
	return t.putUnread(inside, dish)
}
