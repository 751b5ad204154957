package bot_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry/store"
)

// liveTalk is what is said of a plan that is on.
var liveTalk = []string{
	"running 5 late", "done", "bo is done", "the oven's broken", "the oven's back", "a ring is broken", "only 1 ring left", "rings are back", "bo has to leave", "bo is back", "i have to go",
	"i can help", "mia can help", "cem is here", "they're 15 min late", "guests 10 min early", "service pushed to 18:30", "dish 1 for 4 now", "dish 2 for 1 now", "two more covers",
	"1 fewer cover", "drop 2", "swap 3", "undo", "undo", "undo", "the potatoes are in", "potatoes done", "the potatoes are out of the oven", "give it 5 more", "5 more min on the potatoes",
	"bo is running 4 late", "bo's back in 5", "out of basmati rice", "used 300g potatoes in the staff curry", "86 leek", "the microwave died",
}

// Whatever is said of a plan that is on, and taken back, also by the program begun anew: nobody is at two steps at once,
// and no step to come begins before what it waits for is over.
func TestLiveLaws(t *testing.T) {
	t.Parallel()
	dir, at := t.TempDir(), time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	raw := begunFile(t, at)
	files := 0
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
		k.say("bo", "what's next?")
		for range rapid.IntRange(1, 10).Draw(rt, "turns") {
			k.at = k.at.Add(time.Duration(rapid.IntRange(0, 6).Draw(rt, "minutes")) * time.Minute)
			text := rapid.SampledFrom(liveTalk).Draw(rt, "said")
			before := serviceIn(rt, s)
			switch n := rapid.IntRange(0, 9).Draw(rt, "how"); {
			case n == 0 && len(k.ids) > 1:
				k.send(bot.Message{ID: rapid.SampledFrom(k.ids[1:]).Draw(rt, "edited"), Edit: true, Text: text})
			case n == 1 && len(k.ids) > 1:
				k.send(bot.Message{ID: rapid.SampledFrom(k.ids[1:]).Draw(rt, "deleted"), Delete: true})
			case n == 2:
				k.k = bot.New(k.s, bot.Options{Think: time.Minute})
				k.say("bo", "what's next for ana?")
			default:
				k.say(rapid.SampledFrom([]string{"ana", "bo", "cem"}).Draw(rt, "cook"), text)
			}
			rt.Log(k.at.Format("15:04"), k.said[len(k.said)-1].Text)
			on := serviceIn(rt, s)
			if on == nil { // it was taken back, or is over
				break
			}
			checkLive(rt, before, on, int(k.at.Sub(at)/time.Minute))
		}
		k.check()
	})
}

// checkLive looks at a plan that is on from the outside.
func checkLive(t failer, before, on *service, now int) {
	t.Helper()
	steps, was := map[string]bot.PlanStep{}, map[string]bot.PlanStep{}
	for _, d := range before.Plan.Dishes {
		for _, s := range d.Steps {
			was[s.ID] = s
		}
	}
	for _, d := range on.Plan.Dishes {
		if slices.ContainsFunc(d.Steps, func(s bot.PlanStep) bool {
			return slices.ContainsFunc(s.Kit, func(k string) bool { return slices.Contains(on.Down, k) })
		}) { // it cannot go on, and stays as it is
			continue
		}
		for _, s := range d.Steps {
			if _, twice := steps[s.ID]; twice {
				t.Fatalf("two steps are called %s", s.ID)
			}
			steps[s.ID] = s
		}
	}
	busy := map[int]map[int]string{}
	for _, s := range steps {
		if s.Minutes < 1 || s.HandsOn > s.Minutes || s.HandsOn < 0 {
			t.Fatalf("%s takes %d min, %d of hands", s.Do, s.Minutes, s.HandsOn)
		}
		if s.Start < now {
			continue
		}
		for _, a := range s.After {
			if o, known := steps[a]; known && o.Start+o.Minutes > s.Start && !strings.HasPrefix(s.Do, "heat ") {
				t.Fatalf("%s at %d comes before %s is over at %d", s.Do, s.Start, o.Do, o.Start+o.Minutes)
			}
		}
		for m := s.Start; s.Cook > 0 && m < s.Start+s.HandsOn; m++ {
			if busy[s.Cook] == nil {
				busy[s.Cook] = map[int]string{}
			}
			if other := busy[s.Cook][m]; other != "" {
				t.Fatalf("cook %d is at %s and %s at %d", s.Cook, s.Do, other, m)
			}
			busy[s.Cook][m] = s.Do
		}
	}
}
