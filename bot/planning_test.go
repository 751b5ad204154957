package bot_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
)

// planRoom is a room with a crate and a cupboard for a small service.
func planRoom(t *testing.T) *room {
	r := newRoom(t)
	r.say("1", "larder", "got 1kg potatoes, 800g cauliflower, 600g carrots, 500g mushrooms, 200g butter, 12 eggs, 500g yoghurt, 4 lemons, 900g leeks, 300g cheddar, 400g spinach, 500g red onions")
	r.say("1", "larder", "got 1kg plain flour, 1l olive oil, 500g penne, 1kg basmati rice, 300g salt, 400g white bread, 2 x 400g tins of chickpeas for the cupboard")
	return r
}

func names(p *bot.Plan) (list []string) {
	for _, d := range p.Dishes {
		list = append(list, d.Name)
	}
	return list
}

// A plan is shown with its dishes, its end and what it leaves; nothing is written.
func TestPlanShown(t *testing.T) {
	r := planRoom(t)
	got := r.say("7", "ana", "plan 2 dishes for 2 in 40 minutes, two cooks")
	if got.Kind != bot.Answer || got.Plan == nil || len(got.Plan.Dishes) != 2 || len(got.Entries) > 0 {
		t.Fatalf("%+v", got)
	}
	end := r.at.Add(time.Duration(got.Plan.Minutes) * time.Minute).Format("15:04")
	if !strings.Contains(got.Text, "at "+end) || got.Plan.Minutes > 40 {
		t.Errorf("%d min: %s", got.Plan.Minutes, got.Text)
	}
	for n, d := range got.Plan.Dishes {
		dish := r.say("7", "ana", fmt.Sprintf("dish %d", n+1))
		for _, u := range slices.Concat(d.Uses, d.Cupboard) {
			if !strings.Contains(dish.Text, " "+u.Item) {
				t.Errorf("no %s in %s", u.Item, dish.Text)
			}
		}
		for _, s := range d.Steps {
			if !strings.Contains(dish.Text, s.Do) {
				t.Errorf("no %q in %s", s.Do, dish.Text)
			}
		}
	}
	if a := r.say("7", "ana", "dish 3"); !strings.Contains(a.Text, "no dish 3") {
		t.Errorf("%+v", a)
	}
}

// Again, keep, swap and a palette that is not wanted change the plan as far as was said.
func TestPlanChanged(t *testing.T) {
	r := planRoom(t)
	first := r.say("7", "ana", "plan 2 dishes for 2 in 45 minutes, two cooks").Plan
	if first == nil {
		t.Fatal("no plan")
	}
	kept := r.say("7", "ana", "keep 1").Plan
	if kept == nil || !slices.ContainsFunc(kept.Dishes, func(d bot.Planned) bool { return d.Key == first.Dishes[0].Key }) ||
		slices.ContainsFunc(kept.Dishes, func(d bot.Planned) bool { return d.Key == first.Dishes[1].Key }) {
		t.Fatalf("%v after %v", names(kept), names(first))
	}
	other := r.say("7", "ana", "again").Plan
	for _, d := range other.Dishes {
		for _, o := range kept.Dishes {
			if d.Frame == o.Frame && d.Uses[0].Item == o.Uses[0].Item {
				t.Errorf("%q again after %q", d.Name, o.Name)
			}
		}
	}
	off := r.say("7", "ana", "not that palette").Plan
	for _, d := range off.Dishes {
		for _, o := range other.Dishes {
			if d.Palette != "" && d.Palette == o.Palette {
				t.Errorf("%q is in the palette of %q", d.Name, o.Name)
			}
		}
	}
	bare := r.say("7", "ana", "no oven, one cold").Plan
	cold := 0
	for _, d := range bare.Dishes {
		for _, s := range d.Steps {
			if slices.Contains(s.Kit, "oven") {
				t.Errorf("%q wants the oven", d.Name)
			}
		}
		if d.Serve == "cold" {
			cold++
		}
	}
	if cold == 0 && len(bare.Relaxed) == 0 {
		t.Errorf("nothing cold in %v", names(bare))
	}
}

// Accepting a plan keeps what it needs and starts the service: each cook is told what is
// next, ideas know the kit and the dishes, and deleting the message takes all of it back.
func TestPlanAccepted(t *testing.T) {
	r := planRoom(t)
	p := r.say("7", "ana", "plan 2 dishes for 2 in 45 minutes, two cooks").Plan
	got := r.say("7", "ana", "accept")
	if got.Kind != bot.Log {
		t.Fatalf("%+v", got)
	}
	want := map[string]float64{}
	for _, d := range p.Dishes {
		for _, u := range d.Uses {
			want[u.Item] += u.Amount
		}
	}
	for _, e := range got.Entries {
		want[e.Item] -= e.Amount
		if e.Kind != "claim" || e.Dish == "" {
			t.Errorf("%+v", e)
		}
	}
	for item, left := range want {
		if left > 1 || left < -1 {
			t.Errorf("%s: %g not kept", item, left)
		}
	}
	if again := r.say("7", "ana", "accept the plan"); again.Kind != bot.Answer || len(again.Entries) > 0 || !strings.Contains(again.Text, "on since") {
		t.Errorf("%+v", again)
	}
	begun := r.at.Add(-20 * time.Second)
	var seen []string
	for minute := range p.Minutes {
		r.at = begun.Add(time.Duration(minute) * time.Minute)
		seen = append(seen, r.say("7", "ana", "what's next?").Text, r.say("8", "bo", "what's next?").Text)
	}
	all := strings.Join(seen, "\n")
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			if s.Cook > 0 && !strings.Contains(all, s.Do) {
				t.Errorf("nobody was told to %s", s.Do)
			}
		}
	}
	r.at = begun.Add(time.Minute)
	if a := r.say("8", "bo", "what's the plan?"); !strings.Contains(a.Text, "On since "+begun.Format("15:04")) {
		t.Errorf("%s", a.Text)
	}
	if a := r.do(bot.Message{ID: r.byText["accept"], Delete: true}); a.Kind != bot.Log {
		t.Errorf("%+v", a)
	}
	if a := r.say("8", "bo", "what's the plan?"); strings.Contains(a.Text, "On since") {
		t.Errorf("%s", a.Text)
	}
	if _, next, err := r.b.Ring(context.Background(), r.at); err != nil || !next.IsZero() {
		t.Errorf("rings at %v, %v", next, err)
	}
}

// What was used since is not promised: the plan is asked for again.
func TestPlanOvertaken(t *testing.T) {
	r := planRoom(t)
	p := r.say("7", "ana", "plan 2 dishes for 2 in 45 minutes, two cooks").Plan
	r.say("8", "bo", "used all the "+p.Dishes[0].Uses[0].Item)
	if got := r.say("7", "ana", "accept"); got.Kind != bot.Error || len(got.Entries) > 0 || !strings.Contains(strings.ToLower(got.Text), p.Dishes[0].Uses[0].Item) {
		t.Errorf("%+v", got)
	}
}

// Why not: the food is in it, or what a plan with it would be is reckoned.
func TestWhyNotInPlan(t *testing.T) {
	r := planRoom(t)
	r.say("1", "larder", "got 500g parsnips, 600g celeriac, 500g beetroot, 400g kale")
	p := r.say("7", "ana", "plan 2 dishes for 2 in 45 minutes, two cooks").Plan
	in := p.Dishes[1].Uses[0].Item
	if a := r.say("7", "ana", "why not the "+in+"?"); !strings.Contains(a.Text, "It is in: ") || !strings.Contains(a.Text, "dish ") {
		t.Errorf("%s: %s", in, a.Text)
	}
	used := map[string]bool{}
	for _, d := range p.Dishes {
		for _, u := range d.Uses {
			used[u.Item] = true
		}
	}
	out := 0
	for _, item := range []string{"potato", "cauliflower", "carrot", "mushroom", "leek", "spinach", "red onion", "parsnip", "celeriac", "beetroot", "kale"} {
		if !used[item] {
			out++
			if a := r.say("7", "ana", "why not the "+item+"?"); a.Kind != bot.Answer || !strings.Contains(a.Text, item) || strings.Contains(a.Text, "It is in") {
				t.Errorf("%s: %+v", item, a)
			}
		}
	}
	if out == 0 {
		t.Error("all of the crate is in the plan: this tests nothing")
	}
}

// A message that comes right behind one that asks for a plan is settled after it.
func TestPlanInOrder(t *testing.T) {
	r := planRoom(t)
	say := func(id, text string) func() (bot.Reply, error) {
		return r.b.Start(context.Background(), bot.Message{Kitchen: "k", ID: id, Cook: "ana", At: r.at, Text: text})
	}
	waits := []func() (bot.Reply, error){say("p1", "plan 2 dishes for 2 in 45 minutes, two cooks"), say("p2", "dish 1"), say("p3", "accept")}
	var got []bot.Reply
	for _, w := range waits {
		a, err := w()
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, a)
	}
	if got[0].Plan == nil || !strings.Contains(got[1].Text, got[0].Plan.Dishes[0].Steps[0].Do) || got[2].Kind != bot.Log {
		t.Errorf("%+v", got)
	}
}

// A plan that one cook has asked for may be accepted by another; a cook who was shown
// ideas of their own since means those.
func TestPlanOfAnother(t *testing.T) {
	r := planRoom(t)
	p := r.say("7", "ana", "plan 2 dishes for 2 in 45 minutes, two cooks").Plan
	if a := r.say("8", "bo", "dish 1"); !strings.Contains(a.Text, p.Dishes[0].Steps[0].Do) {
		t.Errorf("%+v", a)
	}
	r.say("9", "cem", "ideas?")
	if a := r.say("9", "cem", "accept"); a.Kind != bot.Silent {
		t.Errorf("%+v", a)
	}
	if a := r.say("8", "bo", "accept"); a.Kind != bot.Log || !strings.Contains(a.Text, "Cook 1 (bo)") {
		t.Errorf("%+v", a)
	}
}
