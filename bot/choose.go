package bot

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// ideaMeant gives the ideas shown last, and the one of them that is meant. None is what to
// say where there are none, or not that one; it is given with any error.
func (t *turn) ideaMeant(q *language.Question) (list pending, i shown, none *Reply, err error) {
	list, ok, err := t.latest()
	if err != nil || !ok {
		return list, i, &Reply{Kind: Silent}, err
	}
	if q.N > len(list.Shown) { // behind an entry stands one, and before it stood more
		if longer, ok := t.ideasShown(ideasIn(t.k.Questions[t.cook])); ok {
			list = longer
		}
	}
	i, wrong := list.numbered(q.N)
	if wrong != "" {
		none = &Reply{Kind: Answer, Text: wrong}
	}
	return list, i, none, nil
}

// begin starts ideas that were shown: "do 2 for the soup", "do 1 and 3".
func (t *turn) begin(q *language.Question) (Reply, error) {
	list, i, none, err := t.ideaMeant(q)
	if none != nil || err != nil {
		return *none, err
	}
	meant := []shown{i}
	for _, n := range q.Others {
		i, wrong := list.numbered(n)
		if wrong != "" {
			return Reply{Kind: Answer, Text: wrong}, nil
		}
		meant = append(meant, i)
	}
	return t.take(meant, q.Food)
}

// take keeps for the cook what ideas need, and starts their clocks. Without a dish
// each idea is one of its own.
func (t *turn) take(list []shown, dish string) (Reply, error) {
	if q, err := t.mayNotBegin(list, dish); err != nil {
		return Reply{}, err
	} else if q != nil {
		return t.ask([]pending{*q}, t.said)
	}
	kept := map[int64]measure.Amount{}
	for _, i := range list {
		for _, u := range i.Uses {
			l := t.k.Named(u.Item)
			if l == nil {
				continue
			}
			base := min(l.Free()-kept[l.ID], measure.Amount(u.Amount*1000+0.5))
			switch {
			case base == 0 && kept[l.ID] > 0:
				return Reply{Kind: Error, Text: "There is not enough " + u.Item + " for both. Begin one, then ask \"ideas?\" again."}, nil
			case base == 0:
				return Reply{Kind: Error, Text: "No " + u.Item + " is free for that any more. \"ideas?\" shows what can be made now."}, nil
			}
			kept[l.ID] += base
			t.ready = append(t.ready, pantry.Entry{Act: pantry.Claim, Line: l.ID, Amount: base, Dish: t.dish(cmp.Or(dish, i.name())), Cook: t.cook, At: t.m.At, Said: u.say(), Approx: true})
		}
	}
	if len(t.ready) == 0 {
		return Reply{Kind: Error, Text: "There is nothing to keep for that."}, nil
	}
	effects, err := t.book.Revise(t.said, t.said, pantry.Said, t.ready)
	if err != nil {
		return Reply{}, err
	}
	if err := t.dishes(t.ready); err != nil {
		return Reply{}, err
	}
	r := t.noted(t.ready, effects)
	begun := t.said.At
	for part, i := range list {
		clock, err := t.startClock(i, part, begun)
		if err != nil {
			return r, err
		}
		r.Text += "\n" + clock
		begun = begun.Add(time.Duration(i.HandsOn) * time.Minute) // the same hands
	}
	r.Timed = t.m.Room != ""
	return r, nil
}

// name is what an idea is called for short: "leek tart".
func (i Idea) name() string {
	name, _, _ := strings.Cut(i.Title, ",")
	name, _, _ = strings.Cut(name, ";")
	return name
}

// startClock notes that an idea is begun, with the kit and the hands it holds, and
// calls the cook when it should be ready, where there is a room to call in.
func (t *turn) startClock(i shown, part int, begun time.Time) (string, error) {
	ready := begun.Add(time.Duration(i.Minutes) * time.Minute)
	err := t.book.Choose(pantry.Choice{Message: t.said.ID, Part: part, Cook: t.cook, Technique: i.Technique, Palette: i.Palette, Item: i.main(), Title: i.Title, Taken: true,
		At: begun, Until: ready, Hands: begun.Add(time.Duration(i.HandsOn) * time.Minute), Kit: i.Kit})
	if err != nil {
		return "", err
	}
	s := fmt.Sprintf("%s: ready %s", title(i.name()), ready.In(t.m.At.Location()).Format("15:04"))
	if t.m.Room != "" || t.m.Counts {
		s += ", timer set"
		err = t.book.SetTimer(pantry.Timer{Message: t.said.ID, Part: part, Cook: t.cook, Room: t.m.Room, About: i.name(), Begun: begun, Due: ready})
	}
	s += "."
	if i.How != "" {
		s += " " + i.How
	}
	return s, err
}

// turnDown notes that an idea is not wanted in this service, and shows another.
func (t *turn) turnDown(q *language.Question) (Reply, error) {
	list, i, none, err := t.ideaMeant(q)
	if none != nil || err != nil {
		return *none, err
	}
	err = t.book.Choose(pantry.Choice{Message: t.said.ID, Cook: t.cook, Technique: i.Technique, Item: i.main(), Title: i.Title, At: t.said.At, Until: t.said.At})
	if err != nil {
		return Reply{}, err
	}
	r, err := t.offerSome(list, 1)
	r.Text = "Not again in this service: " + i.Title + ".\n" + r.Text
	return r, err
}

// why tells by what numbers an idea stands where it does.
func (t *turn) why(q *language.Question) (Reply, error) {
	_, i, none, err := t.ideaMeant(q)
	if none != nil || err != nil {
		return *none, err
	}
	if i, none, err = t.whole(i); none != nil || err != nil {
		return *none, err
	}
	score := 1.0
	var says []string
	for n, w := range i.Why {
		score *= w.Times
		sign := "× "
		if n == 0 {
			sign = ""
		}
		says = append(says, fmt.Sprintf("%s%.2f %s", sign, w.Times, w.Says))
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%s: %.2f.\n%s", title(i.Title), score, strings.Join(says, "\n"))}, nil
}

// how tells all that an idea takes, and its steps.
func (t *turn) how(q *language.Question) (Reply, error) {
	_, i, none, err := t.ideaMeant(q)
	if none != nil || err != nil {
		return *none, err
	}
	if i, none, err = t.whole(i); none != nil || err != nil {
		return *none, err
	}
	lines := []string{fmt.Sprintf("%s, for %d: %s", title(i.Title), i.Portions, i.sayUses(len(i.Uses)))}
	if len(i.Cupboard) > 0 {
		var list []string
		for _, u := range i.Cupboard {
			list = append(list, u.say())
		}
		lines[0] += "; from the cupboard " + both(list, "and")
	}
	lines[0] += ". " + i.sayTime() + i.warn()
	for n, s := range i.Steps {
		lines = append(lines, fmt.Sprintf("%c %s", 'a'+n, s.say()))
	}
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n")}, nil
}

// whole gives an idea with what is told of it only when asked: one that stood behind an
// entry is reckoned again. None is what to say where it is no idea any more; it is given
// with any error.
func (t *turn) whole(i shown) (again shown, none *Reply, err error) {
	if len(i.Why) > 0 {
		return i, nil, nil
	}
	again, ok, err := t.reckonAgain(i)
	if err != nil || !ok {
		none = &Reply{Kind: Answer, Text: "That is no idea any more, with what is free now. \"ideas?\" shows what can be made."}
	}
	return again, none, err
}

// reckonAgain reckons an idea once more.
func (t *turn) reckonAgain(i shown) (shown, bool, error) {
	s, err := t.service()
	if err != nil {
		return i, false, err
	}
	for _, x := range t.ideasFor(s, i.main(), language.Limits{}, nil, 12) {
		if x.Technique == i.Technique {
			return x, true, nil
		}
	}
	return i, false, nil
}

// pickShown makes a number alone, said right behind ideas that were shown, the beginning of that idea.
func (t *turn) pickShown(text string) string {
	q, ok := t.recent()
	kept := t.k.Questions[t.cook]
	if !ok || q.Kind != askMore || t.m.At.Sub(kept.At) > spokenLong {
		return text
	}
	if n, err := strconv.Atoi(strings.TrimSpace(text)); err != nil || n < 1 || n > 9 {
		return text
	}
	return "do " + strings.TrimSpace(text)
}
