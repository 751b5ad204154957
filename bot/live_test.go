package bot_test

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
)

// begun is a room in which a plan for two cooks has begun; it gives the plan.
func begun(t *testing.T) (*room, *bot.Plan, time.Time) {
	return begunWith(t, "plan 2 dishes for 2 in 45 minutes, two cooks")
}

func begunWith(t *testing.T, plan string) (*room, *bot.Plan, time.Time) {
	r := planRoom(t)
	p := r.say("7", "ana", plan).Plan
	if p == nil {
		t.Fatal("no plan")
	}
	if got := r.say("7", "ana", "accept"); got.Kind != bot.Log {
		t.Fatalf("%+v", got)
	}
	at := r.at
	r.say("8", "bo", "what's next?")
	return r, p, at
}

// What runs late moves what comes after it and the end, and the room is told that.
func TestRunningLate(t *testing.T) {
	r, p, at := begun(t)
	r.at = at.Add(time.Minute)
	got := r.say("7", "ana", "running 5 late")
	if got.Kind != bot.Answer || !strings.Contains(got.Text, "5 min more: ") {
		t.Fatalf("%+v", got)
	}
	if !strings.Contains(got.Text, "instead of") && !strings.Contains(got.Text, "now by") && !strings.Contains(got.Text, "The plan stands") {
		t.Errorf("%s", got.Text)
	}
	plan := r.say("7", "ana", "what's the plan?").Text
	end := at.Add(time.Duration(p.Minutes) * time.Minute)
	ready := false
	for late := 0; late <= 5; late++ {
		ready = ready || strings.Contains(plan, "all ready "+end.Add(time.Duration(late)*time.Minute).Format("15:04"))
	}
	if !ready {
		t.Errorf("planned for %s: %s", end.Format("15:04"), plan)
	}
}

// Done early, a cook is free for what comes next.
func TestDoneEarly(t *testing.T) {
	r, p, at := begun(t)
	var long bot.PlanStep // the longest of cook 1
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			if s.Cook == 1 && s.HandsOn > long.HandsOn {
				long = s
			}
		}
	}
	if long.HandsOn < 3 {
		t.Fatalf("cook 1 has no step that could be done early: %+v", p.Dishes)
	}
	r.at = at.Add(time.Duration(long.Start)*time.Minute + time.Minute)
	if got := r.say("7", "ana", "done"); got.Kind != bot.Answer || !strings.Contains(got.Text, "Done: "+long.Do) {
		t.Fatalf("%+v", got)
	}
	if next := r.say("7", "ana", "what's next?").Text; strings.HasPrefix(next, "Now") && strings.Contains(strings.SplitN(next, "\n", 2)[0], long.Do) {
		t.Errorf("still at it: %s", next)
	}
}

// Kit that breaks is not planned with; a dish that cannot go on without it is named, and
// when the kit is back the plan goes on.
func TestKitBreaks(t *testing.T) {
	r := planRoom(t)
	p := r.say("7", "ana", "plan 2 dishes for 2 in 60 minutes, two cooks, no microwave").Plan
	oven := false
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			oven = oven || len(s.Kit) > 0 && s.Kit[0] == "oven"
		}
	}
	r.say("7", "ana", "accept")
	got := r.say("7", "ana", "the oven's broken")
	if !strings.Contains(got.Text, "No oven from now on") || oven && !strings.Contains(got.Text, "cannot go on without it") || !oven && !strings.Contains(got.Text, "The plan stands") {
		t.Errorf("with oven %v: %s", oven, got.Text)
	}
	if got := r.say("7", "ana", "oven's back on"); !strings.Contains(got.Text, "The oven is back") || !strings.Contains(got.Text, "eady") {
		t.Errorf("%s", got.Text)
	}
}

// What can be done another way goes on when its kit breaks, and the room is told with what.
func TestKitBreaksOtherWay(t *testing.T) {
	two, three := "plan 2 dishes for 2 in 45 minutes, two cooks", "plan 3 dishes for 2 in 60 minutes, two cooks"
	for _, x := range []struct{ kit, plan, want string }{
		{"oven", two, `finish in the microwave now, \d+ min`},
		{"blender", three, `mash the dip with a fork with oil, acid and garlic.*, by hand now, \d+ min`},
		{"grill", two, `, on a ring now, \d+ min`},
	} {
		r, _, at := begunWith(t, x.plan)
		r.at = at.Add(time.Minute)
		got := r.say("7", "ana", "the "+x.kit+"'s broken").Text
		if !strings.Contains(got, "No "+x.kit+" from now on") || !regexp.MustCompile(x.want).MatchString(got) {
			t.Errorf("no %s: %s", x.kit, got)
		}
	}
}

// Who leaves gets nothing more; the others get it, later if need be.
func TestCookLeaves(t *testing.T) {
	r, _, _ := begun(t)
	got := r.say("7", "ana", "bo has to leave")
	if !strings.Contains(got.Text, "Bo leaves.") {
		t.Fatalf("%+v", got)
	}
	idle := 0
	for range 40 {
		r.at = r.at.Add(time.Minute)
		switch next := r.say("8", "bo", "what's next?").Text; {
		case strings.HasPrefix(next, "Nothing more for your hands"):
			idle++
		case !strings.HasPrefix(next, "Now") || idle > 0: // what bo was at may be finished, and no more
			t.Fatalf("bo has left and is told: %s", next)
		}
	}
	if idle == 0 {
		t.Error("bo was never told that there is nothing more")
	}
}

// What is said of a service means nothing where none is on.
func TestNothingOn(t *testing.T) {
	r := planRoom(t)
	for _, text := range []string{"done", "running 5 late", "oven's broken", "i have to leave"} {
		if got := r.say("7", "ana", text); got.Kind != bot.Silent {
			t.Errorf("%q: %+v", text, got)
		}
	}
}

// The timers of a plan move with it, and none is left when its message goes.
func TestTimersMove(t *testing.T) {
	r, _, at := begun(t)
	_, before, err := r.b.Ring(context.Background(), r.at)
	if err != nil || before.IsZero() {
		t.Fatalf("no timer runs: %v, %v", before, err)
	}
	r.at = at.Add(time.Minute)
	if got := r.say("7", "ana", "running 9 late"); !strings.Contains(got.Text, "9 min more") {
		t.Fatalf("%s", got.Text)
	}
	_, after, _ := r.b.Ring(context.Background(), r.at)
	if after.Before(before.Add(-9 * time.Minute)) {
		t.Errorf("rang at %v, rings at %v", before, after)
	}
	r.do(bot.Message{ID: r.byText["accept"], Delete: true})
	if _, left, _ := r.b.Ring(context.Background(), r.at); !left.IsZero() {
		t.Errorf("rings at %v", left)
	}
}

// calls rings in a room minute by minute, and gives what was called for to be begun and when.
func calls(t *testing.T, r *room, from time.Time, minutes int) map[string]int {
	t.Helper()
	list := map[string]int{}
	for m := range minutes + 1 {
		rung, _, err := r.b.Ring(context.Background(), from.Add(time.Duration(m)*time.Minute))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range rung {
			if text, ok := strings.CutPrefix(p.Reply.Text, "Now: "); ok {
				if list[text] > 0 || p.Room != "r1" || strings.Contains(text, "\n") {
					t.Errorf("%+v", p)
				}
				list[text] = m
			}
		}
	}
	return list
}

// What is to be set going without hands is called for when it is time, once; what is begun
// with the plan, and what hands do, is not.
func TestCalled(t *testing.T) {
	r, p, at := begun(t)
	if got := r.say("7", "ana", "what timers are running?"); strings.Contains(got.Text, " 0 s,") {
		t.Errorf("%s", got.Text)
	}
	got := calls(t, r, at, p.Minutes)
	want := 0
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			if s.Cook > 0 || s.Start == 0 {
				continue
			}
			want++
			found := false
			for text, m := range got {
				found = found || strings.HasPrefix(text, s.Do) && m == s.Start
			}
			if !found {
				t.Errorf("%s at %d is not called for: %v", s.Do, s.Start, got)
			}
		}
	}
	if want == 0 || len(got) != want {
		t.Errorf("%d calls, %d wanted: %v", len(got), want, got)
	}
}

// Calls end with the service, however it ends, and move with the plan.
func TestCallsEnd(t *testing.T) {
	for _, how := range []string{"delete", "undo", "another plan", "late"} {
		r, p, at := begun(t)
		moved := 0
		switch how {
		case "delete":
			r.do(bot.Message{ID: r.byText["accept"], Delete: true})
		case "undo":
			r.say("7", "ana", "undo")
		case "another plan":
			p = r.say("7", "ana", "plan 1 dish for 2 in 45 minutes, two cooks").Plan
			r.say("7", "ana", "accept the plan")
		case "late":
			r.at = at.Add(time.Minute)
			r.say("7", "ana", "running 9 late")
			p = &serviceIn(t, r.s).Plan
			moved = 1
		}
		want := 0
		if how == "another plan" || how == "late" {
			for _, d := range p.Dishes {
				for _, s := range d.Steps {
					if s.Cook == 0 && s.Start > moved {
						want++
					}
				}
			}
		}
		if got := calls(t, r, at, 120); len(got) != want {
			t.Errorf("%s: %d calls, not %d: %v", how, len(got), want, got)
		}
	}
}

// A timer of a plan that rings tells what follows, and by what words it is over or not; what is said of it then moves the plan.
func TestRungTells(t *testing.T) {
	for _, said := range []string{"done", "longer", "give it 5 more"} {
		r, _, at := begun(t)
		s, n, x := alone(t, r)
		name := shortName(serviceIn(t, r.s).Plan.Dishes[n].Name)
		var text string
		for m := 0; at.Add(time.Duration(m) * time.Minute).Before(x.Due.Add(time.Second)); m++ {
			rung, _, err := r.b.Ring(context.Background(), at.Add(time.Duration(m)*time.Minute))
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range rung {
				if strings.HasPrefix(p.Reply.Text, "Timer: "+x.About) {
					text = p.Reply.Text
				}
			}
		}
		if !strings.Contains(text, " is done\", or \"5 more min on the ") || !strings.Contains(text, "Then: ") && !strings.Contains(text, "the last of ") {
			t.Fatalf("%s (%s): %q", s.Do, name, text)
		}
		r.at = x.Due
		switch said {
		case "done":
			said = regexp.MustCompile(`the [a-z0-9 ]+ is done`).FindString(text)
		case "longer":
			said = regexp.MustCompile(`5 more min on the [a-z0-9 ]+`).FindString(text)
		}
		got := r.say("7", "ana", said)
		now := stepIn(t, r, s.ID)
		switch {
		case strings.HasPrefix(said, "the "):
			if !strings.Contains(got.Text, "Done: "+s.Do) {
				t.Errorf("%s: %s", said, got.Text)
			}
		case !strings.HasPrefix(got.Text, "Which?"):
			if more := now.Minutes - s.Minutes; more < 5 || more > 6 || !strings.Contains(got.Text, " until ") {
				t.Errorf("%s: %d min more: %s", said, more, got.Text)
			}
		}
	}
}

// alone finds what cooks by itself last in the plan that is on, its dish and its timer.
func alone(t *testing.T, r *room) (s bot.PlanStep, dish int, x pantry.Timer) {
	t.Helper()
	for n, d := range serviceIn(t, r.s).Plan.Dishes {
		for _, o := range d.Steps {
			if o.Minutes-o.HandsOn >= 8 && len(o.Kit) > 0 && !strings.HasPrefix(o.Do, "heat ") && o.Start >= s.Start {
				s, dish = o, n
			}
		}
	}
	for _, o := range timersIn(t, r.s) {
		if strings.HasPrefix(o.About, s.Do+" (") && o.Due.After(o.Begun) {
			x = o
		}
	}
	if s.ID == "" || x.About == "" {
		t.Fatal("nothing cooks by itself")
	}
	return s, dish, x
}

// stepIn finds a step of the plan that is on; nil none.
func stepIn(t *testing.T, r *room, id string) *bot.PlanStep {
	for _, d := range serviceIn(t, r.s).Plan.Dishes {
		for i := range d.Steps {
			if d.Steps[i].ID == id {
				return &d.Steps[i]
			}
		}
	}
	return nil
}

// wordOf finds a word by which a timer is told from the others.
func wordOf(t *testing.T, r *room, x pantry.Timer) string {
	t.Helper()
	for _, w := range strings.FieldsFunc(x.About, func(c rune) bool { return c < 'a' || c > 'z' }) {
		others := slices.ContainsFunc(timersIn(t, r.s), func(o pantry.Timer) bool { return o.About != x.About && strings.Contains(o.About, w) })
		if len(w) > 4 && !others {
			return w
		}
	}
	t.Fatalf("no word for %s", x.About)
	return ""
}

// More time on a timer of the plan, before it rings or soon after, is more time for the step;
// taken back, it is not. What is done sooner ends the timer.
func TestTimerMovesPlan(t *testing.T) {
	for _, how := range []string{"timer", "rung", "named", "early", "own timer"} {
		t.Run(how, func(t *testing.T) {
			r, _, at := begun(t)
			s, _, x := alone(t, r)
			minutes, word := 4, wordOf(t, r, x)
			if how == "rung" {
				minutes = s.Minutes + 2
				if _, _, err := r.b.Ring(context.Background(), x.Due); err != nil {
					t.Fatal(err)
				}
			}
			r.at = at.Add(time.Duration(s.Start+max(minutes, s.HandsOn+1)) * time.Minute)
			now := int(r.at.Add(20*time.Second).Sub(at) / time.Minute)
			before := serviceIn(t, r.s).Plan.Minutes
			text, want := "6 more min on the "+word+" timer", s.Minutes+6
			switch how {
			case "rung":
				text = "6 more min on the " + word
				want = now - s.Start + 6
			case "named":
				text = "the " + word + " needs 6 more minutes"
			case "early":
				text, want = "the "+word+" is done", now-s.Start
			case "own timer":
				text, want = "timer 40 min for the "+word, now-s.Start+40
			}
			got := r.say("8", "bo", text)
			if o := stepIn(t, r, s.ID); got.Kind != bot.Answer || o == nil || o.Minutes < want-1 || o.Minutes > want+1 {
				t.Fatalf("%q: %+v of %+v, wanted %d: %s", text, o, s, want, got.Text)
			}
			due, n := at.Add(time.Duration(s.Start+stepIn(t, r, s.ID).Minutes)*time.Minute), 0
			for _, o := range timersIn(t, r.s) {
				if o.About == x.About && o.Due.Sub(due).Abs() <= time.Minute {
					n++
				}
				if o.Cook == "bo" {
					t.Errorf("a timer of its own: %+v", o)
				}
			}
			if n != 1 && how != "early" || n != 0 && how == "early" {
				t.Errorf("%d timers at %v: %+v", n, due, timersIn(t, r.s))
			}
			if end := serviceIn(t, r.s).Plan.Minutes; how != "early" && s.Start+want > before && end < s.Start+want-1 {
				t.Errorf("all ready at %d", end)
			}
			back := bot.Reply{}
			if how == "named" || how == "early" {
				r.at = r.at.Add(-20 * time.Second)
				back = r.say("8", "bo", "undo")
			} else {
				back = r.do(bot.Message{ID: r.byText[text], Delete: true})
			}
			if stepIn(t, r, s.ID).Minutes != s.Minutes {
				t.Errorf("taken back: %d min, not %d: %s", stepIn(t, r, s.ID).Minutes, s.Minutes, back.Text)
			}
		})
	}
}

// A timer of the plan that is stopped stays so when the plan moves, and moves nothing.
func TestTimerOfPlanStops(t *testing.T) {
	r, _, at := begun(t)
	s, _, x := alone(t, r)
	r.at = at.Add(time.Minute)
	if got := r.say("8", "bo", "stop the "+wordOf(t, r, x)+" timer"); !strings.HasPrefix(got.Text, "Stopped") {
		t.Fatalf("%s", got.Text)
	}
	if o := stepIn(t, r, s.ID); o.Minutes != s.Minutes || o.Start != s.Start {
		t.Errorf("%+v, not %+v", o, s)
	}
	r.say("7", "ana", "running 4 late")
	for _, o := range timersIn(t, r.s) {
		if o.About == x.About && o.Due.After(o.Begun) {
			t.Errorf("runs again: %+v", o)
		}
	}
}
