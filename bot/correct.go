package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// amend corrects the last thing this cook logged: its amount, its food, its
// dish. Where the message had several entries, the one that the correction
// names, else the last; where several have equal claim, it asks.
func (t *turn) amend(a *language.Amend) (Reply, error) {
	if r, done, err := t.notPending(a); done || err != nil {
		return r, err
	}
	if a.Dish != "" && a.Food == "" && !slices.Contains(t.k.Dishes, t.dish(a.Dish)) { // "sorry it was the normal mayo" is no dish
		if name := language.PlainName(a.Dish); t.isKnownFood(name) && (!t.reader().NamesDish(name) || len(t.ear.find(name).lines) > 0) {
			a.Food, a.Dish = name, ""
		}
	}
	target, entries, err := t.corrected(a)
	if err != nil {
		return Reply{}, err
	}
	if r, done, err := t.ofAsked(a, target); done || err != nil {
		return r, err
	}
	if len(t.tooFar) > 0 && !a.Near && (a.Amount.How == language.Measured || t.behindUnread) {
		e := lastOf(t.tooFar)
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not changed: %s is too far back to be meant by that. Say in full what it was, or edit that message.", thing(t.k.Line(e.Line), e)+t.verbal(e))}, nil
	}
	if len(entries) == 0 {
		return Reply{Kind: Silent}, err
	}
	if r, done, err := t.ofAnother(a, entries); done || err != nil {
		return r, err
	}
	last, pinned, err := t.lastChanged(target, entries)
	if err != nil {
		return Reply{}, err
	}
	named := a.Named
	at := t.amended(entries, last, a)
	if at < 0 {
		return Reply{Kind: Silent}, nil
	}
	if list := t.alike(entries, a); len(list) > 0 && !named && !(pinned && slices.Contains(list, last)) {
		if at = list[0]; len(list) > 1 {
			return t.whichEntry(target, entries, list, a)
		}
	}
	return t.mend(target, entries, at, a)
}

// corrected finds the message that a correction is about: the cook's last, or
// the last with an entry of the food that it names, or says it was not.
func (t *turn) corrected(a *language.Amend) (*pantry.Message, []pantry.Entry, error) {
	if a.Near {
		return t.justWritten()
	}
	if !a.Named && a.Not == "" {
		if a.Food != "" && a.Amount.How == language.Share { // "actually all the short rib went in", of what went in before the duck
			return t.lastOf(a)
		}
		m, entries, err := t.lastWritten()
		if err == nil && m != nil && a.Food == "" && a.Dish == "" && a.Amount.How != language.Unsaid {
			passed, err := t.passedSince(m)
			if passed || err != nil || !t.fair(m) { // what it corrects was not read
				t.tooFar, t.behindUnread = entries, passed
				return nil, nil, err
			}
		}
		return m, entries, err
	}
	return t.loggedWith(func(e pantry.Entry) bool { return t.isCalled(e, a) })
}

// loggedWith gives the cook's last message of fair time that logged an entry which fits, and its entries; nil none.
func (t *turn) loggedWith(fits func(pantry.Entry) bool) (*pantry.Message, []pantry.Entry, error) {
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return nil, nil, err
	}
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, nil, err
		}
		if t.fair(m) && slices.ContainsFunc(entries, fits) {
			return m, entries, nil
		}
	}
	return nil, nil, nil
}

// lastOf is lastWritten, or where that has no entry of the food of a correction, the last message of the cook that used some.
func (t *turn) lastOf(a *language.Amend) (*pantry.Message, []pantry.Entry, error) {
	m, entries, err := t.loggedWith(func(e pantry.Entry) bool { return e.Act == pantry.Use && t.isFood(e, a.Food) })
	if m != nil || err != nil {
		return m, entries, err
	}
	return t.lastWritten()
}

// ofLastWritten says whether a correction names by its food, with an amount, what the cook's last message wrote.
func (t *turn) ofLastWritten(a *language.Amend) bool {
	if a == nil || a.Food == "" || a.Amount.How == language.Unsaid || a.Not != "" {
		return false
	}
	_, entries, err := t.justWritten()
	return err == nil && slices.ContainsFunc(entries, func(e pantry.Entry) bool { return t.isFood(e, a.Food) })
}

// passedSince says whether the cook has said a line of figures since a message that was not read, or what could not be
// written: a correction that names no food is of that.
func (t *turn) passedSince(m *pantry.Message) (bool, error) {
	for at := t.said; ; {
		before, err := t.book.Heard(t.cook, at)
		if err != nil || before == nil || before.N <= m.N {
			return false, err
		}
		if t.passedOver(before) || failed(before) {
			return true, nil
		}
		at = before
	}
}

// failed says whether a message was for the kitchen and could not be written.
func failed(m *pantry.Message) bool {
	r, err := stored(m.ID, m.Reply)
	return err == nil && r.Kind == Error && len(r.Entries) == 0
}

// isCalled says whether an entry is the one that a correction names: by its
// food, or by the food or the dish that it was not.
func (t *turn) isCalled(e pantry.Entry, a *language.Amend) bool {
	if a.Named {
		return t.isFood(e, a.Food)
	}
	return e.Dish != "" && (e.Dish == t.dish(a.Not) || strings.HasSuffix(e.Dish, " "+a.Not)) || t.isFood(e, a.Not)
}

// isFood says whether the words name the entry's food: "leek", or "red" of red
// onions.
func (t *turn) isFood(e pantry.Entry, words string) bool {
	l := t.k.Line(e.Line)
	h := t.ear.find(words)
	if len(h.lines) == 0 {
		h = t.ear.find(words + " " + lastWord(l.Name))
	}
	return h.exact && slices.Contains(h.lines, l)
}

func lastWord(name string) string { return name[strings.LastIndexByte(name, ' ')+1:] }

// mend puts a correction of the entry at into force, and with a new dish that of
// all that went into the old one.
func (t *turn) mend(target *pantry.Message, entries []pantry.Entry, at int, a *language.Amend) (Reply, error) {
	var was []string
	var changed []int
	meant, dish := entries[at], a.Dish != "" && a.Food == "" && a.Amount.How == language.Unsaid
	for i, old := range entries {
		if i != at && !(dish && old.Dish == meant.Dish && old.Act == meant.Act) {
			continue
		}
		res, err := t.redone(target, old, a)
		if pass := i > 0 && isPassing(entries, i-1); pass && err == nil {
			res, err = t.passedAgain(entries, i, a, res)
		}
		if err != nil {
			return Reply{}, err
		}
		if res.ask != nil || res.entry == nil {
			return t.unmended(target, i, res, a)
		}
		was = append(was, thing(t.k.Line(old.Line), old)+t.verbal(old))
		changed, entries[i] = append(changed, i), *res.entry
	}
	t.unsaid = append(t.unsaid, target.ID)
	t.touch(target)
	effects, err := t.book.Revise(target, t.said, pantry.Corrected, entries)
	if err != nil {
		return Reply{}, err
	}
	var now []pantry.Entry
	var new []pantry.Effect
	for _, i := range changed {
		now, new = append(now, entries[i]), append(new, effects[i])
	}
	if err := t.dishes(now); err != nil {
		return Reply{}, err
	}
	if q, ok := t.recent(); ok && q.Kind == askEntry { // it has been said in full
		if err := t.setQuestion(t.cook, nil); err != nil {
			return Reply{}, err
		}
	}
	r := t.noted(now, new)
	if at > 0 && isPassing(entries, at-1) { // nobody knows what is left in the pot
		r.Text = strings.TrimSuffix(r.Text, " None left.")
	}
	r.Text = "Was " + strings.Join(was, ", ") + ". Now: " + r.Text
	if q, ok := t.recent(); ok && q.Kind == askWeigh {
		r.Text += "\n" + q.text(t)
	}
	return r, nil
}

// unmended asks about a correction of the entry at that is not clear, or looks
// odd; nothing is written.
func (t *turn) unmended(target *pantry.Message, at int, res result, a *language.Amend) (Reply, error) {
	switch {
	case res.ask == nil:
		return Reply{Kind: Silent}, nil
	case res.ask.Kind == askNeed:
		res.ask.Replace, res.ask.Amend = at+1, a
		return t.ask([]pending{*res.ask}, target)
	case res.ask.Kind == askMuch || res.ask.Kind == askLeap || res.ask.Kind == askUnit || res.ask.Kind == askFrozen:
		res.ask.Replace = at + 1
		return t.ask([]pending{*res.ask}, target)
	case len(res.ask.Options) > 0 && (res.ask.Kind == askWhich || res.ask.Kind == askInstead):
		if e := res.ask.Draft; e.intoDish() {
			if err := t.keepUnread([]language.Mention{{Name: res.ask.About}}, e.Dish); err != nil {
				return Reply{}, err
			}
		}
		return Reply{Kind: Asking, Text: res.ask.text(t) + " Say it in full, like \"make that 200g red onion\".",
			Ask: &Ask{About: res.ask.About, Options: labels(res.ask.Options)}}, nil
	}
	return Reply{Kind: Silent}, nil
}

// alike lists the entries that a correction without a food may be about: "make
// that 150g" those that were measured so, "make that 3" those that were
// counted; where none was, all that were measured.
func (t *turn) alike(entries []pantry.Entry, a *language.Amend) (list []int) {
	if a.Food != "" || a.Not != "" || a.Amount.How == language.Unsaid && a.Unit == "" && a.Scale.Den == 0 {
		return nil
	}
	fits := []func(pantry.Entry) bool{
		func(e pantry.Entry) bool { return a.Scale.Den > 0 || a.Amount.How == language.Pieces && e.Pieces != 0 },
		func(e pantry.Entry) bool {
			return e.Pieces == 0 && t.k.Line(e.Line).Unit == a.Amount.Kind && a.Unit == ""
		},
		func(e pantry.Entry) bool { return e.Pieces == 0 },
	}
	if a.Amount.How == language.Pieces {
		fits[1] = fits[2]
	}
	for _, fit := range fits {
		for i, e := range entries {
			if fit(e) && !isPassing(entries, i) {
				list = append(list, i)
			}
		}
		if len(list) > 0 {
			break
		}
	}
	return list
}

// whichEntry asks which of the entries a correction is about.
func (t *turn) whichEntry(target *pantry.Message, entries []pantry.Entry, list []int, a *language.Amend) (Reply, error) {
	q := pending{Kind: askEntry, About: a.Amount.Said, Amend: a}
	for _, i := range list[:min(len(list), mostOptions)] {
		l := t.k.Line(entries[i].Line)
		q.Options = append(q.Options, option{Label: l.Name, Line: l.ID, Entry: i + 1})
	}
	if q.Options[0].Line == q.Options[1].Line { // twice the same food
		for k := range q.Options {
			e := entries[q.Options[k].Entry-1]
			q.Options[k].Label = thing(t.k.Line(e.Line), e) + t.verbal(e)
		}
	}
	return t.ask([]pending{q}, target)
}

// lastWritten gives the cook's last message with entries, and those; none where
// the cook has lately written none.
func (t *turn) lastWritten() (*pantry.Message, []pantry.Entry, error) {
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return nil, nil, err
	}
	for _, m := range list {
		if entries, err := t.book.InForce(m); err != nil || len(entries) > 0 { // not a lesson
			return m, entries, err
		}
	}
	return nil, nil, nil
}

func labels(options []option) (list []string) {
	for _, o := range options {
		list = append(list, o.Label)
	}
	return list
}

// lastChanged is the entry that a correction without a name is about: the one
// that the cook corrected last ("make that 3 onions", "no, 4"), which pins it,
// else the last.
func (t *turn) lastChanged(m *pantry.Message, entries []pantry.Entry) (at int, pinned bool, err error) {
	at = len(entries) - 1
	before, err := t.book.Before(m)
	if err != nil || len(before) != len(entries) {
		return at, len(before) > 0 && len(before) < len(entries), err // what was answered last is the last
	}
	for i := range entries {
		if entries[i] != before[i] {
			return i, true, nil
		}
	}
	return at, false, nil
}

// amended finds which entry is meant; -1 where the correction makes no sense
// of any, which is then most likely talk.
func (t *turn) amended(entries []pantry.Entry, at int, a *language.Amend) int {
	if a.Not != "" || a.Named {
		at = slices.IndexFunc(entries, func(e pantry.Entry) bool { return t.isCalled(e, a) })
		if at < 0 {
			return -1
		}
	}
	if t.isCook(strings.ToLower(a.Food)) || a.Dish != "" && (t.isCook(a.Dish) || !takesDish(entries[at].Act)) { // "that was for gran"
		return -1
	}
	if a.Named {
		a.Food, a.Named = "", false
		return at
	}
	if a.Food == "" {
		return likest(entries, at, a.Amount)
	}
	dish := strings.ToLower(a.Food)
	if e := entries[at]; a.Not != "" && e.Dish != "" && !t.isFood(e, a.Not) { // "the stew, not the soup"
		a.Food, a.Dish = "", dish
		return at
	}
	h := t.ear.find(a.Food)
	named := slices.Contains(t.k.Dishes, t.dish(dish)) && takesDish(entries[at].Act)
	if len(h.lines) == 0 || a.Bare { // "I meant brown", of the onions
		other := t.ear.find(a.Food + " " + lastWord(t.k.Line(entries[at].Line).Name))
		if len(other.lines) == 1 && other.exact {
			a.Food, h = other.lines[0].Name, other
		} else if a.Bare && !named {
			return -1
		}
	}
	if len(h.lines) == 0 && named { // "I meant the soup"
		a.Food, a.Dish = "", dish
		return at
	}
	if len(h.lines) == 0 && h.food == nil || h.sound && a.Amount.How == language.Unsaid {
		return -1
	}
	if a.Amount.How == language.Unsaid { // "I meant celeriac": another food, of the one that is called like it
		if i := slices.IndexFunc(entries, func(e pantry.Entry) bool { return t.isLike(e, a.Food) }); i >= 0 && a.Not == "" && !t.isLike(entries[at], a.Food) {
			return i
		}
		return at
	}
	for i, e := range entries { // "make that 200g leek": of this one
		for _, l := range h.lines {
			if e.Line == l.ID {
				return i
			}
		}
	}
	return at
}

// isCook says whether a word is a cook's name.
func (t *turn) isCook(word string) bool { return slices.Contains(t.ear.cooks, word) }

// takesDish says whether an entry of the act may name a dish.
func takesDish(act pantry.Act) bool {
	return act == pantry.Use || act == pantry.Claim || act == pantry.Release
}

// likest is the last entry that was measured, or counted, as the correction is:
// "make that 200g" is not about the eggs.
func likest(entries []pantry.Entry, at int, a language.Amount) int {
	if a.How != language.Measured || entries[at].Pieces == 0 {
		return at
	}
	for i := len(entries) - 1; i >= 0; i-- {
		if entries[i].Pieces == 0 {
			return i
		}
	}
	return at
}

// digits are what a number in figures is made of.
const digits = "0123456789½⅓⅔¼¾"
