package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/planner"
)

// mostIdeas is how many ideas a reply has, for a phone is small.
const mostIdeas = 3

// offer shows ideas, and remembers them for "more", "why 2" and "do 2". Of several
// foods each gets its share of the room.
func (t *turn) offer(q pending) (Reply, error) { return t.offerSome(q, mostIdeas) }

func (t *turn) offerSome(q pending, most int) (Reply, error) {
	s, err := t.service()
	if err != nil {
		return Reply{}, err
	}
	items := append([]string{q.Item}, q.Also...)
	each := max(1, most/len(items))
	var list []shown
	for _, item := range items[:min(len(items), most)] {
		list = append(list, t.ideasFor(s, item, q.Limits, slices.Concat(q.Shown, list), each)...)
	}
	if len(list) == 0 {
		return Reply{Kind: Answer, Text: t.noIdeas(q, s)}, nil
	}
	r := Reply{Kind: Answer}
	for _, i := range list {
		r.Ideas = append(r.Ideas, i.Idea)
	}
	r.Text = sayIdeas(r.Ideas, len(q.Shown)+1)
	if w := s.wait(); w > 0 {
		r.Text += fmt.Sprintf("\nYour hands are at the %s for %d min more: these times begin after.", s.at, w)
	}
	for _, line := range t.keptTo(q.Limits, ideaItems(r.Ideas), len(q.Shown), "") {
		r.Text += "\n" + line
	}
	q.Kind, q.Shown, q.Latest = askMore, append(q.Shown, list...), len(list)
	if t.waiting() { // a question is not pushed aside
		return r, nil
	}
	return r, t.keep(q, t.said.ID)
}

// noIdeas says what stands in the way.
func (t *turn) noIdeas(q pending, s service) string {
	switch {
	case len(q.Shown) > 0:
		return "No more ideas for that. \"ideas?\" starts again."
	case q.Item == "" && t.nothingFree():
		return "Nothing is free to have ideas for. \"what's left?\" shows the stock."
	}
	for_ := ""
	if q.Item != "" {
		for_ = " for " + both(append([]string{q.Item}, q.Also...), "or")
	}
	var within []string
	if q.Limits.Minutes > 0 {
		within = append(within, fmt.Sprintf("%d minutes", q.Limits.Minutes))
	}
	for k := range s.busy {
		if s.kit(q.Limits)[k] <= 0 && !slices.Contains(q.Limits.Without, k) {
			within = append(within, "the "+k+" in use")
		}
	}
	slices.Sort(within)
	if w := s.wait(); w > 0 {
		within = append(within, fmt.Sprintf("your hands at the %s for %d min more", s.at, w))
	}
	if i, ok := t.quickest(q, s); ok && i.Minutes <= i.over && s.wait() > 0 {
		return fmt.Sprintf("Your hands are at the %s for %d min more. After that the quickest: %s", s.at, s.wait(), i.say())
	} else if ok {
		return fmt.Sprintf("No idea%s is done in %d min. The quickest with that kit: %s", for_, i.over, i.say())
	}
	if q.Limits.Said() && (len(within) == 0 || len(q.Limits.Avoid)+len(q.Limits.Without)+len(q.Limits.Only) > 0 || q.Limits.Diet != "" || q.Limits.Serve != "") {
		within = append(within, "what was said")
	}
	if n := t.mustNot(language.Limits{}); len(n.Avoid)+len(n.Foods) > 0 || n.Vegan || n.Meatless {
		within = append(within, "what the table can eat")
	}
	if len(within) == 0 {
		return "No idea" + for_ + " with what is free, the time and the kit."
	}
	return "No idea" + for_ + " with what is free and " + both(within, "and") + "."
}

// late is an idea that takes longer than was asked.
type late struct {
	shown
	over int // the minutes that are not enough
}

// quickest gives the idea that would be ready first, if only time stands in the way.
func (t *turn) quickest(q pending, s service) (best late, ok bool) {
	best.over = cmp.Or(q.Limits.Minutes, s.left, planner.Usual)
	for m := best.over + 5; m <= 24*60 && !ok; m += m / 3 { // no sooner idea is left out by ones that use more
		q.Limits.Minutes = m
		for _, i := range t.ideasFor(s, q.Item, q.Limits, nil, 12) {
			if !ok || i.Minutes < best.Minutes {
				best.shown, ok = i, true
			}
		}
	}
	return best, ok
}

func (t *turn) nothingFree() bool {
	return !slices.ContainsFunc(t.k.Lines, func(l *pantry.Line) bool { return l.Free() > 0 })
}

// more goes on from the ideas that were shown last.
func (t *turn) more() (Reply, error) {
	q, ok, err := t.latest()
	if err != nil || !ok {
		return Reply{Kind: Silent}, err
	}
	return t.offer(q)
}

// refine takes a message that says nothing but limits, "something cold", right
// after ideas: the same again within them.
func (t *turn) refine() (r Reply, done bool, err error) {
	q, ok := t.recent()
	if !ok || q.Kind != askMore {
		return r, false, nil
	}
	l, ok := t.reader().Limits(t.m.Text)
	if !ok {
		return r, false, nil
	}
	q.Limits, q.Shown = l.Over(q.Limits), nil
	r, err = t.offer(q)
	return r, true, err
}

// latest gives the ideas that were shown last: to this cook, in answer to a
// question or behind an entry; else to whoever asked last.
func (t *turn) latest() (q pending, ok bool, err error) {
	last, entries, err := t.lastWritten()
	if err != nil {
		return q, false, err
	}
	l := t.forIdea(entries)
	kept := ideasIn(t.k.Questions[t.cook])
	if q, ok := t.ideasShown(kept); ok && (l == nil || last == nil || !kept.At.Before(last.At)) {
		return q, true, nil
	}
	if l != nil && last != nil && t.m.At.Sub(last.At) <= serviceLong {
		if r, err := stored(last.ID, last.Reply); err == nil && len(r.Ideas) > 0 {
			q := pending{Kind: askMore, Item: l.Name, Latest: len(r.Ideas)}
			for _, i := range r.Ideas {
				q.Shown = append(q.Shown, shown{Idea: i})
			}
			return q, true, nil
		}
		return pending{Kind: askMore, Item: l.Name}, true, nil
	}
	return t.shownToOthers()
}

// shownToOthers gives the ideas that any other cook was shown last.
func (t *turn) shownToOthers() (q pending, ok bool, err error) {
	var newest *pantry.Question
	for cook, kept := range t.k.Questions {
		kept = ideasIn(kept)
		if cook == t.cook || kept == nil || newest != nil && !kept.At.After(newest.At) {
			continue
		}
		if x, is := t.ideasShown(kept); is {
			q, newest = x, kept
		}
	}
	return q, newest != nil, nil
}

// ideasIn gives the ideas, or the plan, that a cook was shown, of what is kept for the cook; nil none.
func ideasIn(kept *pantry.Question) *pantry.Question {
	var q pending
	if kept == nil || json.Unmarshal(kept.Body, &q) != nil {
		return nil
	}
	if q.isShown() {
		return kept
	}
	return q.Ideas
}

// shownLast reads the ideas, or the plan, that were shown, if it was in this service.
func (t *turn) shownLast(kept *pantry.Question) (q pending, ok bool) {
	if kept == nil || json.Unmarshal(kept.Body, &q) != nil {
		return q, false
	}
	return q, q.isShown() && t.m.At.Sub(kept.At) <= serviceLong
}

// ideasShown is shownLast where that is ideas.
func (t *turn) ideasShown(kept *pantry.Question) (q pending, ok bool) {
	q, ok = t.shownLast(kept)
	return q, ok && q.Kind == askMore
}

// numbered gives the idea that was meant by a number, or by "that": 0. Of several
// shown last, "that" is none of them, and what says so is given.
func (q *pending) numbered(n int) (shown, string) {
	switch {
	case n == 0 && q.Latest == 1:
		return q.Shown[len(q.Shown)-1], ""
	case n >= 1 && n <= len(q.Shown):
		return q.Shown[n-1], ""
	case n == 0:
		return shown{}, fmt.Sprintf("Which one, %s? Say its number.", strings.Join(q.numbers(), ", "))
	}
	return shown{}, fmt.Sprintf("No idea has the number %d. \"ideas?\" shows what can be made now.", n)
}

// numbers are those of the ideas shown last.
func (q *pending) numbers() (list []string) {
	for n := len(q.Shown) - q.Latest; n < len(q.Shown); n++ {
		list = append(list, fmt.Sprint(n+1))
	}
	return list
}
