package bot

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/food"
	"scullion/planner"
)

// wanted is given where a message cannot be answered before a plan is made: what is to be
// planned. Nothing is written then, and while the plan is made the kitchen goes on.
type wanted struct{ ask planner.PlanAsk }

func (w *wanted) Error() string { return "a plan is to be made first" }

// thought is a plan that was made for a message, outside the ledger.
type thought struct {
	of   uint64 // what was planned
	plan planner.Plan
	err  error
}

// think makes the plan that a message wants.
func (b *Bot) think(ctx context.Context, w *wanted) thought {
	ctx, cancel := context.WithTimeout(ctx, b.o.Think)
	defer cancel()
	p, err := planner.MakePlan(ctx, w.ask, nil)
	return thought{keyOf(w.ask), p, err}
}

// mostThoughts is how often a message is thought about: its plans, and again where the
// stock has changed meanwhile. What is not known then is planned with the kitchen waiting.
const mostThoughts = 6

// thinkThrough settles a message again for every plan that it wants.
func (b *Bot) thinkThrough(ctx context.Context, m *Message, err error, again func() error) error {
	var w *wanted
	if m.Thinks != nil && errors.As(err, &w) {
		defer m.Thinks()()
	}
	for n := 0; errors.As(err, &w); n++ {
		m.thoughts = append(m.thoughts, b.think(ctx, w))
		m.hurry = n >= mostThoughts
		err = again()
	}
	return err
}

// planFor gives the plan for an ask, where it has been made.
func (t *turn) planFor(a planner.PlanAsk) (planner.Plan, error) {
	key := keyOf(a)
	for _, x := range t.m.thoughts {
		if x.of == key {
			return x.plan, x.err
		}
	}
	if t.m.hurry {
		x := t.b.think(context.Background(), &wanted{a})
		return x.plan, x.err
	}
	return planner.Plan{}, &wanted{a}
}

// mayPlan says whether a message may want a plan.
func (b *Bot) mayPlan(m Message) bool {
	if m.Text == "" || len(m.Text) > longest {
		return false
	}
	if saysPlan(m.Text) {
		return true
	}
	if _, shown := b.plans.Load(m.Kitchen); !shown {
		return false
	}
	r := language.Reader{Foods: food.Default().Index()}
	_, change := r.PlanChange(m.Text)
	return change || r.PlanTalk(m.Text) != nil
}

// saysPlan is a quick look for the words that ask for one, which most messages lack.
func saysPlan(text string) bool {
	text = strings.ToLower(text)
	return strings.Contains(text, "plan") || strings.Contains(text, "come up with")
}

// keyOf tells asks apart.
func keyOf(a planner.PlanAsk) uint64 {
	h := fnv.New64a()
	for _, s := range a.Stock {
		fmt.Fprintln(h, s.Item, s.Free, s.Unit, s.Crate, s.Days, s.Each)
	}
	a.Stock = nil
	fmt.Fprintf(h, "%+v", a)
	return h.Sum64()
}
