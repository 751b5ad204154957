package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry/store"
)

// faulty is what may be told against food; X is the food.
var faulty = []struct {
	text  string
	after bool // it was used and is cooked
	none  bool // no food is named: all that is chilled may be meant
}{
	{text: "X left out overnight"},
	{text: "the X stood out for 6 hours"},
	{text: "X was out 3 hours"},
	{text: "X smells off"},
	{text: "X was 12 on delivery"},
	{text: "fridge at 14 since last night", none: true},
	{text: "power out for 9 hours", none: true},
	{text: "X still pink", after: true},
	{text: "the X was pink in the middle", after: true},
}

// waysIn are ways by which food goes into a stew, a message each; Y is other food of the kitchen.
var waysIn = []string{
	"used 1kg X in the stew",
	"used 3kg X in the stew",
	"X 1kg in the stew",
	"stew: 1kg X, 200g Y",
	"used 9kg X in the stew|yes",
	"used X in the stew|all of it",
	"used X in the stew|1kg",
	"need 1kg X|used the X in the stew|all",
	"used 1kg Y in the stew|I meant X",
	"used 1kg X|that was for the stew",
	"used 500g Y in the stew|edit used 1kg X in the stew",
	"used 1kg X in the pie|that was for the stew",
	"made 3kg stew from 1kg X",
	"made 2kg sauce from 1kg X|used 1kg sauce in the stew",
	"used 1kg X in the sauce|2kg sauce left|used 1kg sauce in the stew",
	"used 1kg X in the stew|2kg stew left",
	"used 200g Y in the stew|used another 300g X in the stew",
}

// TestFaultsFollow tells a fault of food, lets the food go into a dish by some way, in any order and with other talk between,
// and checks that whatever is asked of the dish names the fault and never clears it; and that a dish without it is not accused.
func TestFaultsFollow(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	files := 0
	foods := []struct{ name, need string }{
		{"prawns", "shellfish allergy"}, {"chicken thighs", "no poultry"}, {"salmon", "fish allergy"}, {"beef mince", "vegetarian"}, {"pork belly", "no pork"},
	}
	rapid.Check(t, func(rt *rapid.T) {
		files++
		s, err := store.Open(context.Background(), filepath.Join(dir, fmt.Sprint(files)), store.Options{})
		if err != nil {
			rt.Fatal(err)
		}
		defer s.Close()
		k := bot.New(s, bot.Options{})
		at, n := time.Date(2026, 3, 3, 9, 0, 0, 0, time.UTC), 0
		var talk []string
		send := func(m bot.Message) bot.Reply {
			at = at.Add(time.Minute)
			m.Kitchen, m.Cook, m.At = "k", "kim", at
			r, err := k.Handle(context.Background(), m)
			if err != nil {
				rt.Fatal(err)
			}
			talk = append(talk, "> "+m.Text, "  "+r.Text)
			return r
		}
		say := func(text string) bot.Reply {
			n++
			return send(bot.Message{ID: fmt.Sprint(n), Text: text})
		}
		noise := func() {
			for range rapid.IntRange(0, 2).Draw(rt, "noise") {
				say(rapid.SampledFrom([]string{"got 2kg leeks", "what's left", "ideas", "fridge at 3", "used 100g leeks in the tart", "cheers", "prep list?"}).Draw(rt, "says"))
			}
			at = at.Add(time.Duration(rapid.IntRange(0, 40).Draw(rt, "minutes")) * time.Minute)
		}
		f := rapid.SampledFrom(foods).Draw(rt, "food")
		fault := rapid.SampledFrom(faulty).Draw(rt, "fault")
		if fault.after { // other meat and fish are eaten pink
			f = foods[1]
		}
		way := rapid.SampledFrom(waysIn).Draw(rt, "way")
		words := strings.NewReplacer("X", f.name, "Y", "carrots")
		say("got 3kg " + f.name + " use by 20 march, 4kg carrots, 1kg leeks")
		say("used 100g leeks in the tart")
		if rapid.Bool().Draw(rt, "need") {
			say("room 9: " + f.need)
		}
		text := words.Replace(fault.text)
		put := func() {
			for _, part := range strings.Split(words.Replace(way), "|") {
				var r bot.Reply
				if rest, ok := strings.CutPrefix(part, "edit "); ok {
					r = send(bot.Message{ID: fmt.Sprint(n), Edit: true, Version: "2", Text: rest})
				} else {
					r = say(part)
				}
				for range 3 { // because of the need
					if r.Kind != bot.Asking || !strings.Contains(r.Text, `"yes" and it`) {
						break
					}
					r = say("yes")
				}
			}
		}
		if !fault.after && rapid.Bool().Draw(rt, "told first") {
			say(text)
			noise()
			put()
		} else {
			put()
			noise()
			say(text)
		}
		noise()
		for _, ask := range rapid.Permutation([]string{"is the stew ok", "can table 3 have the stew", "can we serve the stew?", "labels", "what do we hold back?"}).Draw(rt, "asked")[:3] {
			r := say(ask)
			if !strings.Contains(r.Text, fmt.Sprintf("%q", text)) || strings.Contains(r.Text, "Within its date") {
				rt.Fatalf("%s does not tell %q:\n%s", ask, text, strings.Join(talk, "\n"))
			}
		}
		if r := say("is the tart ok"); strings.Contains(r.Text, text) && !fault.none {
			rt.Fatalf("the tart is accused:\n%s", strings.Join(talk, "\n"))
		}
	})
}
