package bot

import (
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
)

// ofAsked takes a correction as being of what its cook was asked about and has not answered: "actually it
// was 200g butter" while the butter waits for a "yes". It is not done where none of that is named, or
// the cook has logged the food since.
func (t *turn) ofAsked(a *language.Amend, logged *pantry.Message) (r Reply, done bool, err error) {
	kept := t.k.Questions[t.cook]
	q, ok := t.stillAsked(kept)
	if !ok || q.Kind == askWeigh || a.Amount.How == language.Unsaid || a.Act != "" || a.Not != "" {
		return r, false, nil
	}
	list := q.all(kept.Message)
	i := slices.IndexFunc(list, func(p pending) bool { return t.asksOf(&p, a) })
	if i < 0 {
		return r, false, nil
	}
	p := list[i]
	about, err := t.book.Message(p.Asked)
	if err != nil || logged != nil && logged.N > about.N {
		return r, false, err
	}
	p.Kind, p.Part, p.Options, p.Asked = askAmount, "", nil, ""
	p.Draft.Amount = a.Amount
	if a.Dish != "" {
		p.Draft.Dish = t.dish(a.Dish)
	}
	p.Rest = slices.Delete(list, i, i+1)
	r, err = t.complete(p, about.ID)
	return r, true, err
}

// asksOf says whether a question is about the food that a correction names; the first of all where it
// names none, as that is what the cook has read last.
func (t *turn) asksOf(q *pending, a *language.Amend) bool {
	if q.isShown() || q.Replace > 0 || q.Amend != nil || q.Draft.Act == "" || q.Draft.Food == "" {
		return false
	}
	if a.Food == "" {
		return (q.Kind == askNeed || q.Kind == askMuch) && a.Dish == "" && !a.Near && a.Unit == "" && a.Scale.Den == 0
	}
	was, is := t.ear.find(q.Draft.Food), t.ear.find(a.Food)
	if !is.exact {
		return false
	}
	if q.Draft.Line != 0 {
		return slices.ContainsFunc(is.lines, func(l *pantry.Line) bool { return l.ID == q.Draft.Line })
	}
	return was.food != nil && was.food == is.food || slices.ContainsFunc(is.lines, func(l *pantry.Line) bool { return slices.Contains(was.lines, l) })
}
