package bot

import (
	"fmt"
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
	i, wrong := list.numbered(q.N)
	if wrong != "" {
		none = &Reply{Kind: Answer, Text: wrong}
	}
	return list, i, none, nil
}

// begin starts an idea that was shown: "do 2 for the soup".
func (t *turn) begin(q *language.Question) (Reply, error) {
	_, i, none, err := t.ideaMeant(q)
	if none != nil || err != nil {
		return *none, err
	}
	return t.take(i, q.Food)
}

// take keeps for the cook what an idea needs, and starts its clock. Without a dish
// the idea is one of its own.
func (t *turn) take(i shown, dish string) (Reply, error) {
	name, _, _ := strings.Cut(i.Title, ",")
	if dish == "" {
		dish = name
	}
	for _, u := range i.Uses {
		l := t.k.Named(u.Item)
		if l == nil {
			continue
		}
		base := min(l.Free(), measure.Amount(u.Amount*1000+0.5))
		if base == 0 {
			return Reply{Kind: Error, Text: "No " + u.Item + " is free for that any more. \"ideas?\" shows what can be made now."}, nil
		}
		t.ready = append(t.ready, pantry.Entry{Act: pantry.Claim, Line: l.ID, Amount: base, Dish: t.dish(dish), Cook: t.cook, At: t.m.At, Said: u.say(), Approx: true})
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
	clock, err := t.startClock(i, name)
	r.Text += "\n" + clock
	r.Timed = t.m.Room != ""
	return r, err
}

// startClock notes that an idea is begun, with the kit it holds, and calls the cook
// when it should be ready, where there is a room to call in.
func (t *turn) startClock(i shown, name string) (string, error) {
	begun := t.said.At
	ready := begun.Add(time.Duration(i.Minutes) * time.Minute)
	err := t.book.Choose(pantry.Choice{Message: t.said.ID, Cook: t.cook, Technique: i.Technique, Palette: i.Palette, Item: i.main(), Title: i.Title, Taken: true, At: begun, Until: ready, Kit: i.Kit})
	if err != nil {
		return "", err
	}
	s := fmt.Sprintf("%s: ready %s", title(name), ready.In(t.m.At.Location()).Format("15:04"))
	if t.m.Room != "" {
		s += ", timer set"
		err = t.book.SetTimer(pantry.Timer{Message: t.said.ID, Cook: t.cook, Room: t.m.Room, About: name, Begun: begun, Due: ready})
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
	if len(i.Why) == 0 { // it stood behind an entry: reckon again
		again, ok, err := t.reckonAgain(i)
		if err != nil || !ok {
			return Reply{Kind: Answer, Text: "That is no idea any more, with what is free now. \"ideas?\" shows what can be made."}, err
		}
		i = again
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

// reckonAgain reckons an idea once more, to say why.
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
