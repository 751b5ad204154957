package bot_test

import (
	"fmt"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// TestWithTable says what ideas and plans are held to: an allergy always, a diet where all
// have it.
func TestWithTable(t *testing.T) {
	milk := pantry.Need{Kind: pantry.NeedAllergy, What: "milk", Count: 1}
	nuts := pantry.Need{Kind: pantry.NeedAllergy, What: "tree nuts+peanuts", Who: "dee", Lasting: true}
	kiwi := pantry.Need{Kind: pantry.NeedFood, What: "kiwi"}
	diet := func(what string, count int) pantry.Need {
		return pantry.Need{Kind: pantry.NeedDiet, What: what, Count: count}
	}
	eight := pantry.Need{Kind: pantry.NeedHeads, Count: 8}
	for name, c := range map[string]struct {
		said     planner.Needs
		list     []pantry.Need
		portions int
		want     planner.Needs
	}{
		"nothing":             {},
		"allergies":           {list: []pantry.Need{milk, nuts, kiwi}, want: planner.Needs{Avoid: []string{"milk", "tree nuts", "peanuts"}, Foods: []string{"kiwi"}}},
		"limits of its own":   {said: planner.Needs{Avoid: []string{"fish", "milk"}, Meatless: true}, list: []pantry.Need{milk}, want: planner.Needs{Avoid: []string{"fish", "milk"}, Meatless: true}},
		"2 vegan":             {list: []pantry.Need{diet("vegan", 2)}},
		"2 vegan of 8":        {list: []pantry.Need{eight, diet("vegan", 2)}},
		"2 vegan, for 8":      {list: []pantry.Need{diet("vegan", 2)}, portions: 8},
		"2 vegan, for 2":      {list: []pantry.Need{diet("vegan", 2)}, portions: 2, want: planner.Needs{Vegan: true}},
		"8 vegan of 8":        {list: []pantry.Need{eight, diet("vegan", 8)}, want: planner.Needs{Vegan: true}},
		"2 vegan, 6 veggie":   {list: []pantry.Need{eight, diet("vegan", 2), diet("vegetarian", 6)}, want: planner.Needs{Meatless: true}},
		"all vegetarian":      {list: []pantry.Need{diet("vegetarian", pantry.Everyone)}, want: planner.Needs{Meatless: true}},
		"all vegan at one":    {list: []pantry.Need{{Kind: pantry.NeedDiet, What: "vegan", Count: pantry.Everyone, Who: "table 4"}}, portions: 6},
		"a vegan cook":        {list: []pantry.Need{{Kind: pantry.NeedDiet, What: "vegan", Who: "cem", Lasting: true}}, portions: 1},
		"what no table knows": {list: []pantry.Need{diet("halal", pantry.Everyone)}},
	} {
		got := bot.WithTable(c.said, c.list, c.portions)
		if fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// TestNeedsAt says how long needs are in force, and what takes them off.
func TestNeedsAt(t *testing.T) {
	begun := time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	n := func(minutes int, who string, lasting bool, kind pantry.NeedKind, what string) pantry.Need {
		return pantry.Need{At: begun.Add(time.Duration(minutes) * time.Minute), Who: who, Lasting: lasting, Kind: kind, What: what}
	}
	nuts := n(0, "", false, pantry.NeedAllergy, "tree nuts+peanuts")
	vegan := n(1, "", false, pantry.NeedDiet, "vegan")
	dee := n(2, "dee", true, pantry.NeedAllergy, "gluten cereals")
	four := n(3, "table 4", false, pantry.NeedAllergy, "fish")
	for name, c := range map[string]struct {
		list []pantry.Need
		at   int // minutes
		want string
	}{
		"all":                    {[]pantry.Need{nuts, vegan, dee, four}, 10, "tree nuts+peanuts, vegan, gluten cereals, fish"},
		"the service is over":    {[]pantry.Need{nuts, vegan, dee, four}, 12*60 + 10, "gluten cereals"},
		"table: none":            {[]pantry.Need{nuts, vegan, dee, four, n(5, "", false, pantry.NeedOver, "")}, 10, "gluten cereals"},
		"table 4: none":          {[]pantry.Need{nuts, dee, four, n(5, "table 4", false, pantry.NeedOver, "")}, 10, "tree nuts+peanuts, gluten cereals"},
		"said again":             {[]pantry.Need{nuts, n(5, "", false, pantry.NeedOver, ""), vegan}, 10, "vegan"},
		"dee can eat everything": {[]pantry.Need{nuts, dee, n(5, "dee", true, pantry.NeedOver, "")}, 10, "tree nuts+peanuts"},
		"dee can eat gluten":     {[]pantry.Need{dee, n(5, "dee", true, pantry.NeedOver, "gluten cereals+milk")}, 10, ""},
		"dee can eat nuts":       {[]pantry.Need{nuts, dee, n(5, "dee", true, pantry.NeedOver, "tree nuts+peanuts")}, 10, "tree nuts+peanuts, gluten cereals"},
		"bo can eat everything":  {[]pantry.Need{dee, n(5, "bo", true, pantry.NeedOver, "")}, 10, "gluten cereals"},
		"twice":                  {[]pantry.Need{nuts, nuts}, 10, "tree nuts+peanuts"},
	} {
		var got []string
		for _, x := range bot.NeedsAt(&pantry.Kitchen{Needs: c.list}, begun.Add(time.Duration(c.at)*time.Minute)) {
			got = append(got, x.What)
		}
		if g := strings.Join(got, ", "); g != c.want {
			t.Errorf("%s: %q, want %q", name, g, c.want)
		}
	}
}

// talker has cooks say things, a minute apart, in a kitchen with a full crate.
func talker(t *testing.T) func(cook, text string) bot.Reply {
	s, _ := openKitchen(t)
	k := bot.New(s, bot.Options{Think: time.Minute})
	n := 0
	say := func(cook, text string) bot.Reply {
		n++
		r, err := k.Handle(t.Context(), bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: cook, At: time.Date(2026, 3, 3, 17, n, 0, 0, time.UTC), Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	say("larder", "got 1.2kg leeks, 12 eggs, 600ml double cream, 250g butter, 1kg potatoes, 500g mushrooms, 300g cheddar, 1kg carrots, 500g spinach, 1 cauliflower, 4 onions, 2 tins chickpeas, 4 tomatoes")
	return say
}

// TestPlanKeepsToTheTable plans with needs at the table: no dish holds or often carries the
// allergen, and a diet of some is told and not forced.
func TestPlanKeepsToTheTable(t *testing.T) {
	say := talker(t)
	for _, c := range []struct {
		table, diet string // "" not forced
	}{{"table of 8: 1 milk allergy, 2 vegan", ""}, {"table of 8: 8 vegan", "vegan"}} {
		say("bo", c.table)
		r := say("ana", "plan 2 dishes for 8 in 60 minutes, lighter")
		if r.Plan == nil {
			t.Fatalf("%s: %s", c.table, r.Text)
		}
		some := false
		for _, d := range r.Plan.Dishes {
			for _, u := range append(d.Uses, d.Cupboard...) {
				f, ok := food.Default().Food(u.Item)
				if !ok {
					t.Errorf("%s: nobody knows %s", d.Name, u.Item)
					continue
				}
				if strings.Contains(fmt.Sprint(f.Allergen, f.MayCarry), "milk") {
					t.Errorf("%s: %s may hold milk", d.Name, u.Item)
				}
				some = some || f.Vegan != "yes"
				if c.diet == "vegan" && f.Vegan != "yes" {
					t.Errorf("%s: %s is %s", d.Name, u.Item, f.Vegan)
				}
			}
		}
		if !strings.Contains(r.Text, "Left out: what holds or often carries milk. Read every label") || strings.Contains(r.Text, "\nVegan (2)") != (c.diet == "") || strings.Contains(r.Text, "All is vegan, as the whole table is.") != (c.diet != "") {
			t.Errorf("%s: %s", c.table, r.Text)
		}
		if !some && c.diet == "" {
			t.Errorf("%s: everything is vegan, nobody asked for that", c.table)
		}
	}
}

// TestPressNeed answers with a button, and a bare number is no yes.
func TestPressNeed(t *testing.T) {
	r := newRoom(t)
	r.say("7", "ana", "got 500g butter")
	r.say("7", "ana", "table: milk allergy")
	r.say("7", "ana", "used 50g butter in the tart")
	p := r.post("used 50g butter in the tart")
	if p.Asked == "" || !reflect.DeepEqual(p.Reply.Ask.Options, []string{"yes"}) {
		t.Fatalf("asked: %+v", p)
	}
	if got := r.say("7", "ana", "1"); len(got.Entries) > 0 {
		t.Fatalf("a number was taken for a yes: %+v", got)
	}
	got := r.press("8", "bo", bot.Press{On: p.ID, Kind: bot.PressOption, N: 1, Question: p.Asked})
	if got.Kind != bot.Log || len(got.Entries) != 1 || got.Entries[0].Cook != "ana" || got.Entries[0].Dish != "tart" {
		t.Errorf("pressed: %+v", got)
	}
}

// TestForgetNeeds forgets what a cook cannot eat with the cook.
func TestForgetNeeds(t *testing.T) {
	r := newRoom(t)
	r.say("777000", "Quillon", "I'm coeliac")
	r.say("8", "bo", "quillon is vegan")
	r.say("8", "bo", "table: milk allergy")
	if got := r.say("8", "bo", "table?"); !strings.Contains(got.Text, "Quillon, for good: coeliac (gluten cereals), vegan.") {
		t.Fatalf("before: %s", got.Text)
	}
	if _, err := r.s.Forget(t.Context(), "k", "quillon"); err != nil {
		t.Fatal(err)
	}
	if got := r.say("8", "bo", "table?"); !strings.Contains(got.Text, "milk allergy") || strings.Contains(got.Text, "coeliac") || strings.Contains(got.Text, "vegan") {
		t.Errorf("after: %s", got.Text)
	}
	dump := filepath.Join(t.TempDir(), "copy.db")
	if err := r.s.Backup(t.Context(), dump); err != nil || contains(t, dump, "quillon") {
		t.Errorf("the name is still in the file: %v", err)
	}
}

// TestForgetGuest forgets a guest, and nothing of anybody else.
func TestForgetGuest(t *testing.T) {
	r := newRoom(t)
	r.say("8", "bo", "Quillon is coeliac")
	r.say("8", "bo", "table: milk allergy")
	r.say("8", "bo", "cem is vegan")
	for _, want := range []bool{true, false} {
		if known, err := r.s.ForgetGuest(t.Context(), "k", "quillon"); known != want || err != nil {
			t.Fatalf("known %v, want %v, %v", known, want, err)
		}
	}
	if got := r.say("8", "bo", "table?"); got.Text != "Table, for this service: milk allergy.\nCem, for good: vegan. Labels go first." {
		t.Errorf("after: %s", got.Text)
	}
	dump := filepath.Join(t.TempDir(), "copy.db")
	if err := r.s.Backup(t.Context(), dump); err != nil || contains(t, dump, "quillon") {
		t.Errorf("the name is still in the file: %v", err)
	}
}

// TestMadeFood asks of what was made here by what went into it.
func TestMadeFood(t *testing.T) {
	say := talker(t)
	say("bo", "made 300g paste from 100g butter and 50g mushrooms")
	say("bo", "table: milk allergy")
	if r := say("bo", "used 50g paste in the pie"); r.Kind != bot.Asking || !strings.Contains(r.Text, "paste holds milk") {
		t.Errorf("%s: %s", r.Kind, r.Text)
	}
}

// TestAskedOnceAService asks once for a dish in a service, and again in the next.
func TestAskedOnceAService(t *testing.T) {
	say := talker(t)
	for _, c := range []struct {
		text string
		kind bot.Kind
	}{
		{"table: milk allergy", bot.Log},
		{"used 20g butter in the tart", bot.Asking},
		{"yes", bot.Log},
		{"used 20ml cream in the tart", bot.Log},
		{"used 20g butter in the soup", bot.Asking},
		{"no", bot.Answer},
		{"used 20g butter in the soup", bot.Asking},
		{"yes", bot.Log},
		{"undo", bot.Log},
		{"used 20g butter in the soup", bot.Asking},
		{"no", bot.Answer},
		{"used 20g spinach in the soup", bot.Log},
		{"wrap up", bot.Answer},
		{"used 20g butter in the pie", bot.Log},
		{"table: milk allergy", bot.Log},
		{"used 20g butter in the tart", bot.Asking},
	} {
		if r := say("bo", c.text); r.Kind != c.kind {
			t.Fatalf("%q: %s %s", c.text, r.Kind, r.Text)
		}
	}
}

// TestNotAPerson keeps what is said of the table beside what only looks like a name.
func TestNotAPerson(t *testing.T) {
	say := talker(t)
	say("bo", "got 500g blurgh")
	if r := say("bo", "blurgh is vegan"); r.Kind != bot.Silent {
		t.Errorf("%s: %s", r.Kind, r.Text)
	}
	if r := say("bo", "table: 1 nut allergy, blurgh is vegan"); r.Kind != bot.Log || strings.Contains(r.Text, "Blurgh") || !strings.Contains(r.Text, "1 nut allergy") {
		t.Errorf("%s: %s", r.Kind, r.Text)
	}
}

// TestPlanThatIsOn tells of a plan that is on when a need is said, and swaps by it.
func TestPlanThatIsOn(t *testing.T) {
	say := talker(t)
	say("ana", "plan 2 dishes for 4 in 90 minutes")
	r := say("ana", "accept")
	if r.Kind != bot.Log {
		t.Fatal(r.Text)
	}
	r = say("bo", "table: 1 egg allergy and a dairy intolerance")
	if !strings.Contains(r.Text, "The plan that is on: ") || !strings.Contains(r.Text, "swap") {
		t.Errorf("said: %s", r.Text)
	}
}
