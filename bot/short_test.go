package bot_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/store"
)

// service is the plan that is on, as it is kept.
type service struct {
	Down  []string
	Plan  bot.Plan
	Names []string
	Shown []string
	Short map[string]int64
	Due   time.Time
	uses  map[string]int64 // milligrams that went into dishes, by "dish/item"
}

// failer is a test, or one of many that are drawn.
type failer interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// serviceIn reads the plan that is on in a kitchen; nil none.
func serviceIn(t failer, s *store.Store) (on *service) {
	t.Helper()
	err := s.Do(context.Background(), "k", func(b pantry.Book) error {
		list, err := b.Services(time.Time{})
		if err != nil || len(list) == 0 {
			return err
		}
		on = &service{uses: map[string]int64{}}
		if err := json.Unmarshal(list[len(list)-1].Body, on); err != nil {
			return err
		}
		on.Due = list[len(list)-1].Due
		for _, l := range b.Kitchen().Lines {
			uses, err := b.Uses(l.ID, 1000)
			if err != nil {
				return err
			}
			for _, u := range uses {
				on.uses[u.Dish+"/"+l.Name] += int64(u.Amount)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// checkKept holds what the plan that is on keeps against its dishes and the stock: each has
// claimed what it still needs, less what was told to be short, and of no line is more claimed
// with the plan than is there and not claimed by others. It gives the plan.
func checkKept(t failer, s *store.Store, now int) *service {
	t.Helper()
	on := serviceIn(t, s)
	if on == nil {
		t.Fatal("no plan is on")
	}
	k, err := s.View(context.Background(), "k")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range k.Lines {
		var ours, others int64
		for _, h := range l.Holds {
			n := slices.Index(on.Names, h.Dish)
			switch {
			case n < 0:
				others += int64(h.Amount)
			case len(on.Plan.Dishes[n].Steps) == 0:
				t.Fatalf("the %s is off, and keeps %d of %s", h.Dish, h.Amount, l.Name)
			case on.Plan.Dishes[n].Ready > now:
				ours += int64(h.Amount)
			}
		}
		if room := max(0, int64(l.OnHand())-others); ours > room {
			t.Fatalf("%s: %d claimed with the plan, %d are there for it: %+v", l.Name, ours, room, l)
		}
		for n, d := range on.Plan.Dishes {
			at := slices.IndexFunc(d.Uses, func(u bot.Quantity) bool { return u.Item == l.Name })
			if at < 0 || d.Ready <= now {
				continue
			}
			var held int64
			for _, h := range l.Holds {
				if h.Dish == on.Names[n] {
					held += int64(h.Amount)
				}
			}
			if need := int64(d.Uses[at].Amount*1000+0.5) - on.uses[on.Names[n]+"/"+l.Name] - on.Short[on.Names[n]+"/"+l.Name]; held < need {
				t.Fatalf("the %s has %d of %s, needs %d, and nobody was told", on.Names[n], held, l.Name, need)
			}
		}
	}
	return on
}

// timersIn lists the timers that run in a kitchen.
func timersIn(t *testing.T, s *store.Store) (list []pantry.Timer) {
	t.Helper()
	err := s.Do(context.Background(), "k", func(b pantry.Book) (err error) {
		list, err = b.Timers()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// shortName is a dish's name up to what is beside it.
func shortName(title string) string {
	if i := strings.IndexAny(title, ",;"); i >= 0 {
		return title[:i]
	}
	return title
}

// own finds a food that only one of the dishes takes, and of that dish as much as can be.
func own(t *testing.T, p *bot.Plan, dish int) bot.Quantity {
	t.Helper()
	var best bot.Quantity
	for _, u := range p.Dishes[dish].Uses {
		others := false
		for n, d := range p.Dishes {
			others = others || n != dish && slices.ContainsFunc(d.Uses, func(o bot.Quantity) bool { return o.Item == u.Item })
		}
		if !others && u.Amount > best.Amount && u.Item != "hen's egg" && u.Item != "egg" {
			best = u
		}
	}
	if best.Amount < 60 {
		t.Fatalf("nothing is of dish %d alone: %+v", dish+1, p.Dishes)
	}
	return best
}

// A food that runs out, or is claimed by another, before its dish has begun: another dish
// takes its place, the room is told, and what was kept for the first is free.
func TestFoodGone(t *testing.T) {
	for _, form := range []string{
		"86 %[1]s", "binned all the %[1]s", "used all the %[1]s in the staff curry", "there's 5g %[1]s left", "need %[2]dg %[1]s for the staff curry",
	} {
		t.Run(form, func(t *testing.T) {
			r, p, at := begun(t)
			gone := own(t, p, 1)
			k, _ := r.s.View(context.Background(), "k")
			all := int(k.Named(gone.Item).OnHand() / 1000)
			got := r.say("9", "cem", fmt.Sprintf(form, gone.Item, all))
			if got.Kind != bot.Log || !strings.Contains(got.Text, "2 is now the ") || !strings.Contains(got.Text, "All ready ") {
				t.Fatalf("%s: %+v", gone.Item, got)
			}
			on := checkKept(t, r.s, 0)
			d := on.Plan.Dishes[1]
			if d.Key == p.Dishes[1].Key || slices.ContainsFunc(d.Uses, func(u bot.Quantity) bool { return u.Item == gone.Item && u.Amount > 5 }) {
				t.Errorf("dish 2 is %s, with %v", d.Name, d.Uses)
			}
			if on.Plan.Dishes[0].Key != p.Dishes[0].Key {
				t.Errorf("dish 1 is %s", on.Plan.Dishes[0].Name)
			}
			if d.Frame == p.Dishes[0].Frame || d.Palette != "" && d.Palette == p.Dishes[0].Palette {
				t.Errorf("%s beside %s", d.Key, p.Dishes[0].Key)
			}
			for _, a := range d.Allergens {
				if !strings.Contains(got.Text, a) {
					t.Errorf("%s is not told in %s", a, got.Text)
				}
			}
			for _, x := range timersIn(t, r.s) {
				if x.About != "is the service over?" && !slices.ContainsFunc(on.Plan.Dishes, func(d bot.Planned) bool { return strings.HasSuffix(x.About, "("+shortName(d.Name)+")") }) {
					t.Errorf("a timer for %s", x.About)
				}
			}
			if on.Due.After(at.Add(46 * time.Minute)) {
				t.Errorf("due %v, begun %v", on.Due, at)
			}
			if dish := r.say("8", "bo", "dish 2"); !strings.Contains(dish.Text, d.Steps[0].Do) {
				t.Errorf("%s", dish.Text)
			}
			if again := r.say("9", "cem", "used 1g butter in the staff curry"); strings.Contains(again.Text, "is now") {
				t.Errorf("told again: %s", again.Text)
			}
			checkKept(t, r.s, 0)
		})
	}
}

// What is covered, and what goes into the dish itself, changes nothing.
func TestNothingShort(t *testing.T) {
	for _, form := range []string{"need %[2]dg %[1]s for the staff curry", "used %[2]dg %[1]s in the staff curry", "used %[3]dg %[1]s in the %[4]s", "used %[3]dg %[1]s in dish 2"} {
		r, p, _ := begun(t)
		u := own(t, p, 1)
		k, _ := r.s.View(context.Background(), "k")
		on := serviceIn(t, r.s)
		free := int(k.Named(u.Item).Free() / 1000)
		if free < 10 { // more comes in first
			r.say("1", "larder", "got 400g "+u.Item)
			free += 400
		}
		text := fmt.Sprintf(form, u.Item, free-1, int(u.Amount), on.Names[1])
		got := r.say("9", "cem", text)
		if got.Kind != bot.Log || len(got.Entries) != 1 || strings.Contains(got.Text, "2 is now") || strings.Contains(got.Text, ", gets ") || strings.Contains(got.Text, "All ready") {
			t.Errorf("%q: %+v", text, got)
		}
		if now := checkKept(t, r.s, 0); now.Plan.Dishes[1].Key != p.Dishes[1].Key || len(now.Short) > 0 {
			t.Errorf("%q: %s, %v", text, now.Plan.Dishes[1].Name, now.Short)
		}
	}
}

// A cook who accepted the plan and uses of what is kept, in something else, where more of it
// is free: that is kept in its place.
func TestKeptAgain(t *testing.T) {
	r, p, _ := begun(t)
	u := own(t, p, 1)
	r.say("1", "larder", "got 2kg "+u.Item)
	got := r.say("7", "ana", fmt.Sprintf("used 100g %s in the staff curry", u.Item))
	if strings.Contains(got.Text, "2 is now") {
		t.Errorf("%s", got.Text)
	}
	checkKept(t, r.s, 0)
	r.say("7", "ana", fmt.Sprintf("used 1.5kg %s in the staff curry", u.Item))
	if on := checkKept(t, r.s, 0); len(on.Short) > 0 {
		t.Errorf("short: %v", on.Short)
	}
	r.say("7", "ana", "undo")
	checkKept(t, r.s, 0)
}

// A little less is made with that; it is said once, and taken back when it is there again.
func TestLittleShort(t *testing.T) {
	r, p, _ := begun(t)
	u := own(t, p, 1)
	left := int(u.Amount * 0.93)
	got := r.say("9", "cem", fmt.Sprintf("there's %dg %s left", left, u.Item))
	if !strings.Contains(got.Text, fmt.Sprintf(" gets %d g %s instead of ", left, u.Item)) {
		t.Fatalf("%s", got.Text)
	}
	on := checkKept(t, r.s, 0)
	if on.Plan.Dishes[1].Key != p.Dishes[1].Key || len(on.Short) != 1 {
		t.Errorf("%s, %v", on.Plan.Dishes[1].Name, on.Short)
	}
	if dish := r.say("8", "bo", "dish 2"); !strings.Contains(dish.Text, fmt.Sprintf("%d g %s", left, u.Item)) {
		t.Errorf("%s", dish.Text)
	}
	if again := r.say("9", "cem", "used 1g butter in the staff curry"); strings.Contains(again.Text, "gets") {
		t.Errorf("told again: %s", again.Text)
	}
	if back := r.say("1", "larder", fmt.Sprintf("got 300g %s", u.Item)); !strings.Contains(back.Text, "Kept again for 2") {
		t.Errorf("%s", back.Text)
	}
	if on := checkKept(t, r.s, 0); len(on.Short) > 0 {
		t.Errorf("%v", on.Short)
	}
}

// What has begun stays, and it is said what it lacks.
func TestShortBegun(t *testing.T) {
	r, p, at := begun(t)
	u := own(t, p, 1)
	first := p.Minutes
	for _, s := range p.Dishes[1].Steps {
		if s.HandsOn > 0 {
			first = min(first, s.Start)
		}
	}
	r.at = at.Add(time.Duration(first)*time.Minute + time.Minute)
	got := r.say("9", "cem", "86 "+u.Item)
	if !strings.Contains(got.Text, "2, the ") || !strings.Contains(got.Text, "has begun and stays: no "+u.Item+" is left") {
		t.Errorf("%s", got.Text)
	}
	if on := checkKept(t, r.s, first+1); on.Plan.Dishes[1].Key != p.Dishes[1].Key {
		t.Errorf("dish 2 is %s", on.Plan.Dishes[1].Name)
	}
}

// Where nothing is free for another dish, that is said, and what is kept stays kept.
func TestNoOtherDish(t *testing.T) {
	r, p, at := begun(t)
	k, _ := r.s.View(context.Background(), "k")
	for _, l := range k.Lines {
		if l.Free() > 0 {
			r.say("9", "cem", fmt.Sprintf("need %s for the staff curry", l.Name))
			r.at = at // in no time
		}
	}
	var all []string
	for _, u := range p.Dishes[1].Uses {
		all = append(all, "all the "+u.Item)
	}
	got := r.say("9", "cem", "used "+strings.Join(all, ", ")+" in the staff curry")
	if !strings.Contains(got.Text, "2, the ") || !strings.Contains(got.Text, "cannot be made") || !strings.Contains(got.Text, `"swap 2" looks again`) {
		t.Fatalf("%s", got.Text)
	}
	on := checkKept(t, r.s, 0)
	if on.Plan.Dishes[1].Key != p.Dishes[1].Key {
		t.Errorf("dish 2 is %s", on.Plan.Dishes[1].Name)
	}
	if got := r.say("7", "ana", "swap 2"); !strings.Contains(got.Text, "stays. ") {
		t.Errorf("%s", got.Text)
	}
	checkKept(t, r.s, 0)
}

// What brought another dish about is taken back, edited or deleted, or the program starts
// anew: what was to be made is on again, and nothing is kept twice.
func TestShortTakenBack(t *testing.T) {
	for _, how := range []string{"undo", "delete", "edit", "correct", "restart", "asked", "corrected"} {
		t.Run(how, func(t *testing.T) {
			r, p, _ := begun(t)
			before, _ := r.s.View(context.Background(), "k")
			claims := claimsOf(before)
			u := own(t, p, 1)
			text := fmt.Sprintf("used all the %s in the staff curry", u.Item)
			if how == "corrected" {
				r.say("9", "cem", "used 1g "+u.Item+" in the staff curry")
				r.at = r.at.Add(-20 * time.Second)
				text = fmt.Sprintf("make that %dg", before.Named(u.Item).OnHand()/1000)
			}
			if how == "asked" {
				r.say("9", "cem", "used some "+u.Item+" in the staff curry")
				r.at = r.at.Add(-20 * time.Second)
				text = "all of it"
			}
			first := r.say("9", "cem", text)
			if !strings.Contains(first.Text, "2 is now the ") {
				t.Fatalf("%s", first.Text)
			}
			r.at = r.at.Add(-20 * time.Second) // the other has not begun
			if how == "restart" {
				r.b = bot.New(r.s, bot.Options{Think: time.Minute})
				checkKept(t, r.s, 0)
			}
			var got bot.Reply
			switch how {
			case "undo", "restart", "asked", "corrected":
				got = r.say("9", "cem", "undo")
			case "delete":
				got = r.do(bot.Message{ID: r.byText[text], Delete: true})
			case "edit":
				got = r.do(bot.Message{ID: r.byText[text], Edit: true, Version: "2", Text: "used 1g " + u.Item + " in the staff curry"})
			case "correct":
				got = r.say("9", "cem", "make that 1g")
			}
			on := checkKept(t, r.s, 0)
			if on.Plan.Dishes[1].Key != p.Dishes[1].Key || !strings.Contains(got.Text, "2, the ") {
				t.Fatalf("dish 2 is %s: %s", on.Plan.Dishes[1].Name, got.Text)
			}
			after, _ := r.s.View(context.Background(), "k")
			if how == "undo" || how == "delete" || how == "restart" {
				if now := claimsOf(after); now != claims {
					t.Errorf("kept before:\n%s\nnow:\n%s", claims, now)
				}
			}
		})
	}
}

func claimsOf(k *pantry.Kitchen) string {
	var list []string
	for _, l := range k.Lines {
		for _, h := range l.Holds {
			list = append(list, fmt.Sprintf("%s %s %s %d", l.Name, h.Cook, h.Dish, h.Amount))
		}
	}
	slices.Sort(list)
	return strings.Join(list, "\n")
}

// A cook may swap a dish that has not begun, and take that back.
func TestSwapRunning(t *testing.T) {
	r, p, _ := begun(t)
	before, _ := r.s.View(context.Background(), "k")
	got := r.say("8", "bo", "swap 2")
	if got.Kind != bot.Answer || !strings.Contains(got.Text, "2 is now the ") {
		t.Fatalf("%+v", got)
	}
	second := checkKept(t, r.s, 0).Plan.Dishes[1].Key
	r.at = r.at.Add(-20 * time.Second)
	r.say("8", "bo", "swap 2")
	third := checkKept(t, r.s, 0).Plan.Dishes[1].Key
	if second == p.Dishes[1].Key || third == second || third == p.Dishes[1].Key {
		t.Errorf("%s, %s, %s", p.Dishes[1].Key, second, third)
	}
	for _, want := range []string{second, p.Dishes[1].Key} {
		r.at = r.at.Add(-20 * time.Second)
		if got := r.say("8", "bo", "undo"); got.Kind != bot.Answer || !strings.Contains(got.Text, "is on again") {
			t.Fatalf("%+v", got)
		}
		if now := checkKept(t, r.s, 0).Plan.Dishes[1].Key; now != want {
			t.Errorf("%s is on, not %s", now, want)
		}
	}
	if after, _ := r.s.View(context.Background(), "k"); claimsOf(after) != claimsOf(before) {
		t.Errorf("kept before:\n%s\nnow:\n%s", claimsOf(before), claimsOf(after))
	}
	if got := r.say("7", "ana", "accept the plan"); len(got.Entries) > 0 || !strings.Contains(got.Text, "on since") {
		t.Errorf("%+v", got)
	}
}

// A dish may be dropped, begun or not: what was kept for it is free, the others keep their
// numbers, and it can be taken back.
func TestDropRunning(t *testing.T) {
	for _, how := range []string{"undo", "delete", "swap"} {
		t.Run(how, func(t *testing.T) {
			r, p, _ := begun(t)
			before, _ := r.s.View(context.Background(), "k")
			got := r.say("8", "bo", "drop dish 2")
			if got.Kind != bot.Answer || !strings.Contains(got.Text, "2, the ") || !strings.Contains(got.Text, "is off. Free again: ") {
				t.Fatalf("%+v", got)
			}
			on := checkKept(t, r.s, 0)
			if len(on.Plan.Dishes) != len(p.Dishes) || len(on.Plan.Dishes[1].Steps) != 0 || on.Plan.Dishes[0].Key != p.Dishes[0].Key {
				t.Fatalf("%d dishes, of dish 2 %d steps", len(on.Plan.Dishes), len(on.Plan.Dishes[1].Steps))
			}
			for _, d := range on.Plan.Dishes {
				for _, s := range d.Steps {
					for _, a := range s.After {
						if !slices.ContainsFunc(on.Plan.Dishes, func(d bot.Planned) bool {
							return slices.ContainsFunc(d.Steps, func(s bot.PlanStep) bool { return s.ID == a })
						}) {
							t.Errorf("%s waits for %s, which is nowhere", s.Do, a)
						}
					}
				}
			}
			for _, x := range timersIn(t, r.s) {
				if strings.Contains(x.About, "("+shortName(p.Dishes[1].Name)) {
					t.Errorf("a timer of what is off: %s", x.About)
				}
			}
			r.at = r.at.Add(-20 * time.Second)
			switch how {
			case "swap":
				if got := r.say("8", "bo", "swap 2"); !strings.Contains(got.Text, "2 is now the ") || checkKept(t, r.s, 0).Plan.Dishes[1].Key == p.Dishes[1].Key {
					t.Errorf("%+v", got)
				}
				return
			case "undo":
				r.say("8", "bo", "undo")
			case "delete":
				r.do(bot.Message{ID: r.byText["drop dish 2"], Delete: true})
			}
			if now := checkKept(t, r.s, 0).Plan.Dishes[1]; now.Key != p.Dishes[1].Key || len(now.Steps) == 0 {
				t.Errorf("%+v", now)
			}
			if after, _ := r.s.View(context.Background(), "k"); claimsOf(after) != claimsOf(before) {
				t.Errorf("kept before:\n%s\nnow:\n%s", claimsOf(before), claimsOf(after))
			}
		})
	}
}

// Whatever is used, binned, counted, claimed, swapped, and taken back while a plan is on, each
// of its dishes keeps what it needs or is told to be short, and no more is kept than is there.
func TestKeptLaws(t *testing.T) {
	t.Parallel()
	dir, at := t.TempDir(), time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	raw := begunFile(t, at)
	open := func(t testing.TB, file string) *store.Store {
		s, err := store.Open(context.Background(), file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	files, swapped, short := 0, 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		files++
		file := filepath.Join(dir, fmt.Sprint(files))
		if err := os.WriteFile(file, raw, 0o600); err != nil {
			rt.Fatal(err)
		}
		s := open(t, file)
		defer s.Close()
		k := &kitchen{T: rt, s: s, k: bot.New(s, bot.Options{Think: time.Minute}), at: at, heard: map[string]string{}}
		for range rapid.IntRange(1, 10).Draw(rt, "turns") {
			if rapid.Bool().Draw(rt, "at once") && k.at.After(at) {
				k.at = k.at.Add(-time.Minute)
			}
			k.during()
			k.check()
			on := checkKept(rt, s, int(k.at.Sub(at).Minutes()))
			if short += len(on.Short); len(k.heard) > 0 && slices.ContainsFunc(on.Plan.Dishes, func(d bot.Planned) bool { return !slices.Contains(on.Shown, d.Key) }) {
				swapped++
			}
		}
	})
	if swapped == 0 || short == 0 {
		t.Errorf("swapped %d times, short %d times", swapped, short)
	}
}

// begunFile is a kitchen's file in which a plan for two cooks has begun at a time.
func begunFile(t *testing.T, at time.Time) []byte {
	t.Helper()
	file := filepath.Join(t.TempDir(), "begun.db")
	s, err := store.Open(context.Background(), file, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	b := bot.New(s, bot.Options{Think: time.Minute})
	for n, m := range []string{
		"got 1kg potatoes, 800g cauliflower, 600g carrots, 500g mushrooms, 200g butter, 12 eggs, 500g yoghurt, 4 lemons, 900g leeks, 300g cheddar, 400g spinach, 500g red onions",
		"got 1kg plain flour, 1l olive oil, 500g penne, 1kg basmati rice, 300g salt, 400g white bread, 2 x 400g tins of chickpeas for the cupboard",
		"plan 3 dishes for 2 in 60 minutes, two cooks", "accept",
	} {
		if _, err := b.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("b", n), Cook: "ana", At: at, Text: m}); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// Whatever is said while a plan is on and as the service ends, needs of the table among it:
// nothing breaks, the ledger is whole, and the accounts close.
func TestServiceLaws(t *testing.T) {
	t.Parallel()
	dir, at := t.TempDir(), time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	raw := begunFile(t, at)
	files, ended := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		files++
		file := filepath.Join(dir, fmt.Sprint(files))
		if err := os.WriteFile(file, raw, 0o600); err != nil {
			rt.Fatal(err)
		}
		s, err := store.Open(context.Background(), file, store.Options{})
		if err != nil {
			rt.Fatal(err)
		}
		defer s.Close()
		k := &kitchen{T: rt, s: s, k: bot.New(s, bot.Options{Think: time.Minute}), at: at, heard: map[string]string{}}
		for range rapid.IntRange(1, 12).Draw(rt, "turns") {
			if rapid.IntRange(0, 2).Draw(rt, "end") > 0 {
				k.during()
				continue
			}
			k.say(rapid.SampledFrom([]string{"ana", "bo"}).Draw(rt, "who"), rapid.SampledFrom([]string{
				"wrap up", "as planned", "weigh back", "same", "200g", "enough", "undo", "sheets", "sheet 1", "every line", "labels", "past services", "what do we waste?",
				"start: 2 dishes for 4 in 30 minutes", "table: 1 milk allergy", "table: 2 vegan", "table: none", "yes", "opened the yoghurt", "froze 200g of the spinach",
				"plan 2 dishes for 2 in 40 minutes", "accept", "cook the omelette again for 4", "the potatoes are done", "5 more min on the potatoes", "what must go today?",
			}).Draw(rt, "said"))
		}
		if rapid.Bool().Draw(rt, "wrapped") {
			k.say("ana", "wrap up")
		}
		k.check()
		wraps(rt, s, "k", func(x *bot.Records, list []*bot.Wrap) {
			ended += len(list) - 1
			for i, w := range list {
				c := w.Crate
				if in, out := c.Had.AP+c.Came.AP+c.Made.AP, c.Dishes.AP+c.Trim.AP+c.Binned.AP+c.Carried.AP+c.Variance.AP; in-out > 1e-6 || out-in > 1e-6 {
					rt.Fatalf("%d: %g in, %g out: %+v", i, in, out, c)
				}
				for _, d := range w.Dishes {
					if sheet, err := x.Sheet(w, d.Name); err != nil || len(sheet.Parts) == 0 {
						rt.Fatalf("%v: %+v", err, sheet)
					}
				}
			}
		})
	})
	if ended == 0 {
		t.Error("nothing was wrapped up")
	}
}

// during says something in a kitchen while a plan is on.
func (k *kitchen) during() {
	one := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(k.T, name) }
	food := one("food", "leek", "carrots", "spinach", "cauliflower", "potatoes", "mushrooms", "yoghurt", "cheddar", "red onions")
	text := one("form", "86 "+food, "used "+one("amount", "100g", "300g", "all the", "half the")+" "+food+" in the "+one("dish", "staff curry", "soup"),
		"used 100g "+food+" in dish "+one("number", "1", "2", "3"), "binned 150g "+food, "need "+one("claim", "100g", "400g")+" "+food+" for the soup",
		"there's "+one("left", "50g", "200g", "450g")+" "+food+" left", "got 300g "+food, "undo", "make that 20g", one("talk", "swap ", "drop ")+one("swap", "1", "2", "3"),
		"out of "+one("out", "plain flour", "salt", "olive oil", "chickpeas"), "got 200g plain flour",
		"running 5 late", "done", "the oven's broken", "the oven's back", "what's next?", "don't need the "+food)
	switch n := rapid.IntRange(0, 9).Draw(k.T, "turn"); {
	case n == 0 && len(k.ids) > 0:
		k.send(bot.Message{ID: rapid.SampledFrom(k.ids).Draw(k.T, "edited"), Edit: true, Text: text})
	case n == 1 && len(k.ids) > 0:
		k.send(bot.Message{ID: rapid.SampledFrom(k.ids).Draw(k.T, "deleted"), Delete: true})
	case n == 2 && len(k.said) > 0:
		k.hear(rapid.SampledFrom(k.said).Draw(k.T, "again"))
	case n == 3: // the program starts anew
		k.k = bot.New(k.s, bot.Options{Think: time.Minute})
	default:
		k.say(rapid.SampledFrom([]string{"bo", "cem", "cem"}).Draw(k.T, "cook"), text)
	}
	if len(k.said) > 0 {
		k.Log(k.at.Format("15:04"), k.said[len(k.said)-1])
	}
}
