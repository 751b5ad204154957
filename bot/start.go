package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// started begins a service without a plan: how many dishes for how many, and when it is to be
// over, from which the minutes left are counted. Done is false where that is not said.
func (t *turn) started() (r Reply, done bool, err error) {
	wish, ok := t.reader().Start(t.m.Text)
	if !ok {
		return r, false, nil
	}
	was, already, err := t.running()
	if err != nil {
		return r, true, err
	} else if already && was.isPlan() && !was.isEmpty() {
		return Reply{Kind: Answer, Text: "A plan is on since " + was.at(0, t.m.At) + `. "wrap up" ends it.`}, true, nil
	}
	due := t.said.At.Add(time.Duration(cmp.Or(wish.Minutes, usualMinutes)) * time.Minute)
	if wish.Until != "" {
		var ok bool
		if due, ok = dueBy(t.said.At, wish); !ok {
			return Reply{Kind: Error, Text: `That is no time of the day. Say it like "start: 3 dishes for 2 by 18:30".`}, true, nil
		}
	}
	on := running{Service: pantry.Service{Message: t.said.ID, Cook: t.cook, Begun: t.said.At, Due: due}, Cooks: []string{t.cook}, Wish: wish, Room: t.m.Room}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	if _, err := t.timeSteps(on); err != nil {
		return r, true, err
	}
	text := "Service begun"
	if wish.Meal != "" {
		text = title(wish.Meal) + " begun"
	}
	if wish.Dishes > 0 {
		text += ": " + counted1(wish.Dishes, "dish", "dishes")
	}
	if wish.Portions > 0 {
		text += fmt.Sprintf(" for %d", wish.Portions)
	}
	text += ", due " + sayDue(due, t.m.At) + `. "plan" makes dishes of what is free, "wrap up" ends it.` + mayBeOther(wish, due, t.m.At, "start: 3 dishes for 2 by 6:30pm")
	if already && was.Message != t.said.ID {
		text += "\nOver: " + was.called() + `, and not wrapped up: both are in one account. "undo" takes this start back.`
	}
	return Reply{Kind: Answer, Text: text, Timed: t.m.Room != ""}, true, nil
}

// called: "lunch for 80", "the service before".
func (on *running) called() string {
	text := cmp.Or(on.Wish.Meal, "the service before")
	if on.Wish.Portions > 0 {
		text += fmt.Sprintf(" for %d", on.Wish.Portions)
	}
	return text
}

// served notes for how many a dish was. Done is false where no dish is meant.
func (t *turn) served(q *language.Question) (r Reply, done bool, err error) {
	_, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	w := WithDishes(list, 0)
	if w == nil {
		return r, false, nil
	}
	n := 0
	if q.Food != "" {
		if n = w.Dish(q.Food); n < 0 {
			return r, false, nil
		}
	} else if dish, err := t.lastDish(); err != nil {
		return r, true, err
	} else if n = w.Dish(dish); n < 0 && len(w.Dishes) == 1 {
		n = 0
	} else if n < 0 {
		return Reply{Kind: Answer, Text: "Which was? Say it like \"the " + w.Dishes[0].Name + fmt.Sprintf(" was for %d\".", q.N)}, true, nil
	}
	on := running{Service: pantry.Service{Message: t.said.ID, Cook: t.cook, Begun: t.said.At, Due: t.said.At, Ended: t.said.At}, Served: map[string]int{w.Dishes[n].Name: q.N}}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	text := fmt.Sprintf("The %s %s for %d. \"sheet for the %s\" tells a portion.", w.Dishes[n].Name, was(w.Dishes[n].Name), q.N, w.Dishes[n].Name)
	if each := int64(w.Dishes[n].Grams*1000) / int64(max(1, q.N)); each < int64(leastPortion) {
		text += " That is " + sayMg(each) + " of food each: say it again if that is not so."
	}
	r, err = t.withPortions(Reply{Kind: Answer, Text: text}, w.Dishes[n].Name, pantry.Corrected)
	return r, true, err
}

// forHowMany notes for how many dishes are, where that was said with what went into them: "used 2
// lemons in the broth for 8".
func (t *turn) forHowMany(r Reply, list []language.Statement) (Reply, error) {
	served := map[string]int{}
	for _, s := range list {
		for _, e := range t.ready {
			if s.Heads > 0 && e.Act == pantry.Use && e.Dish != "" && e.Dish == t.dishNow(s.Dish) {
				served[e.Dish] = s.Heads
			}
		}
	}
	return t.noteServed(r, served)
}

// madeForMany notes for how many what was made is, where that was said with it: "made soup for 40 with 4kg leeks".
func (t *turn) madeForMany(r Reply) (Reply, error) {
	served := map[string]int{}
	if r.Kind != Log {
		return r, nil
	}
	if m, ok := t.madeFrom(t.m.Text); ok && m.heads != "" {
		n, _ := strconv.Atoi(m.heads)
		for _, e := range r.Entries {
			if dish := t.dishNow(strings.ToLower(m.name)); n > 0 && e.Kind == string(pantry.Use) && e.Dish == dish {
				served[dish] = n
			}
		}
	}
	return t.noteServed(r, served)
}

// noteServed notes for how many dishes are, and tells it.
func (t *turn) noteServed(r Reply, served map[string]int) (Reply, error) {
	if len(served) == 0 {
		return r, nil
	}
	var told []string
	for dish, n := range served {
		told = append(told, fmt.Sprintf(" The %s is for %d.", dish, n))
	}
	slices.Sort(told)
	first, rest, more := strings.Cut(r.Text, "\n")
	if r.Text = first + strings.Join(told, ""); more {
		r.Text += "\n" + rest
	}
	on := running{Service: pantry.Service{Message: t.said.ID, Cook: t.cook, Begun: t.said.At, Due: t.said.At, Ended: t.said.At}, Served: served}
	return r, t.save(on)
}

// isPlan says whether a service was begun with a plan.
func (on *running) isPlan() bool { return len(on.Plan.Dishes) > 0 }
