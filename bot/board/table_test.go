package board

import (
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
)

// What runs tells how long it has to go; what has run out is told as that, until somebody says that it
// is done, its dish has gone on, or it can no longer be given more time.
func TestLayTable(t *testing.T) {
	at := time.Date(2026, 3, 2, 17, 0, 0, 0, time.UTC)
	plan := bot.Plan{Minutes: 60, Dishes: []bot.Planned{{Name: "leek tart", Portions: 2, Steps: []bot.PlanStep{
		{ID: "1", Do: "slice <leeks>", Minutes: 5, HandsOn: 5, Cook: 1},
		{ID: "2", Do: "bake", Start: 5, Minutes: 20, HandsOn: 1, Kit: []string{"oven"}, Temp: 190, Cook: 1},
		{ID: "3", Do: "serve", Start: 45, Minutes: 2, HandsOn: 2, Cook: 1},
	}}}}
	over := func(p *bot.PlanNow, minutes float64) (list []string) {
		for _, s := range layTable(p, at.Add(time.Duration(minutes*float64(time.Minute)))).Over {
			list = append(list, s.Lane+" "+s.Do+" "+s.Left)
		}
		return list
	}
	p := plan.At(at)
	p.On = true
	x := layTable(p, at.Add(7*time.Minute+30*time.Second))
	if len(x.Alone) != 1 || x.Alone[0].Left != "18 min" || x.Alone[0].End != "17:25" || x.Hands[0].Now != nil || x.Hands[0].Next.Do != "serve" {
		t.Errorf("%+v", x)
	}
	if x := layTable(p, at.Add(90*time.Second)); x.Hands[0].Now == nil || x.Hands[0].Now.Left != "4 min" {
		t.Errorf("%+v", x.Hands)
	}
	if pic := string(x.Picture); !strings.Contains(pic, "now 17:07") || !strings.Contains(pic, "slice &lt;leeks&gt;") || strings.Contains(pic, "<leeks>") {
		t.Errorf("%.300s", pic)
	}
	for minutes, want := range map[float64][]string{24: nil, 25.5: {"oven bake now"}, 28: {"oven bake over 3 min"}, 34.9: {"oven bake over 9 min"}, 35: nil} {
		if got := over(p, minutes); !slices.Equal(got, want) {
			t.Errorf("minute %g: %q", minutes, got)
		}
	}
	p.Work[2].From = 26 // the dish goes on
	if got := over(p, 28); got != nil {
		t.Errorf("its dish has gone on: %q", got)
	}
	plan.Dishes[0].Steps[1].Do = "bake it"
	p = plan.At(at)
	p.On = true
	for i := range p.Lanes {
		for j := range p.Lanes[i].Steps {
			p.Lanes[i].Steps[j].Said = true
		}
	}
	if got := over(p, 28); got != nil {
		t.Errorf("somebody said that it is done: %q", got)
	}
}

// Two boards that are in use do not speak as one cook; one that is not, gives its name up.
func TestNames(t *testing.T) {
	var n names
	now := time.Date(2026, 3, 2, 17, 0, 0, 0, time.UTC)
	has := func(want bool, name, device string) {
		t.Helper()
		if got := n.take(name, device, now); got != want {
			t.Errorf("%s on %s: %v", name, device, got)
		}
	}
	has(true, "Dee", "a")
	has(true, "dee", "a")
	has(false, "DEE", "b")
	has(true, "bo", "b")
	end := n.show("dee", "a", now)
	now = now.Add(time.Hour)
	has(false, "dee", "b") // its board hangs there
	end(now)
	has(false, "dee", "b")
	now = now.Add(liveFor)
	has(true, "dee", "b")
	has(false, "dee", "a")
	n.drop("dee", "a") // another's is not dropped
	has(false, "dee", "a")
	n.drop("dee", "b")
	has(true, "dee", "a")
	n.show("", "a", now)(now)
	n.show("dee", "", now)(now)
	for x := range 2 * mostNames {
		has(true, strings.Repeat("x", x+1), "c")
		now = now.Add(liveFor)
	}
	if len(n.held) > mostNames {
		t.Errorf("%d names are held", len(n.held))
	}
}

// The picture goes back a few minutes, and no further ahead than a wall has room for; the lists have
// all of it.
func TestForWall(t *testing.T) {
	at := time.Date(2026, 3, 2, 17, 0, 0, 0, time.UTC)
	plan := bot.Plan{Minutes: 90, Dishes: []bot.Planned{{Name: "leek tart", Portions: 2}}}
	for n := range 30 {
		plan.Dishes[0].Steps = append(plan.Dishes[0].Steps, bot.PlanStep{ID: string(rune('a' + n)), Do: "stir what is in the pan, and keep on stirring it, " + string(rune('a'+n)), Start: 3 * n, Minutes: 3, HandsOn: 3, Cook: 1})
	}
	p := plan.At(at)
	p.On = true
	x := layTable(p, at.Add(30*time.Minute))
	pic := string(x.Picture)
	for what, in := range map[string]bool{"stirring it, a": false, "stirring it, h": false, "stirring it, i": true, "stirring it, k": true, "stirring it, o": true, "stirring it, z": false, "all ready": false, "leek tart": false} {
		if strings.Contains(pic, what) != in {
			t.Errorf("%q is in the picture: %v", what, !in)
		}
	}
	if x.Until.Before(at.Add(45*time.Minute)) || !x.Until.Before(p.Ready) {
		t.Errorf("until %v", x.Until)
	}
	if n := len(x.Lanes[0].Steps); n != 30 {
		t.Errorf("the list has %d steps", n)
	}
	plan.Dishes[0].Steps = plan.Dishes[0].Steps[:5]
	plan.Minutes = 15
	p = plan.At(at)
	p.On = true
	if x := layTable(p, at.Add(time.Minute)); !x.Until.IsZero() || !strings.Contains(string(x.Picture), "stirring it, e") {
		t.Errorf("all of it has room: %v", x.Until)
	}
}
