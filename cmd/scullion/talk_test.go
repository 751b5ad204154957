package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"time"
)

// talk makes the lines of an evening's conversation, as the pipe takes them:
// three cooks, every act, edits, deletes, undo, questions and their answers,
// chatter. The same seed gives the same talk.
func talk(seed uint64, n int) (lines []string) {
	t := talker{Rand: rand.New(rand.NewPCG(seed, 42)), at: time.Date(2026, 3, 3, 16, 0, 0, 0, time.UTC)}
	for _, food := range t.foods() {
		t.say("larder", fmt.Sprintf("got %d g %s", 2000+100*t.IntN(20), food))
	}
	t.say("larder", "got 6 red onions")
	t.say("larder", "got 8 brown onions")
	for len(t.lines) < n {
		t.turn()
	}
	return t.lines
}

type talker struct {
	*rand.Rand
	at    time.Time
	lines []string
	ids   []string // of messages that can be edited
}

func (t *talker) foods() []string {
	return []string{"leeks", "carrots", "potatoes", "mushrooms", "flour"}
}

func pick[T any](t *talker, of ...T) T { return of[t.IntN(len(of))] }

func (t *talker) line(fields map[string]any) {
	t.at = t.at.Add(time.Duration(1+t.IntN(60)) * time.Second)
	fields["at"] = t.at.Format(time.RFC3339)
	b, err := json.Marshal(fields)
	if err != nil {
		panic(err)
	}
	t.lines = append(t.lines, string(b))
}

func (t *talker) say(cook, text string) {
	id := fmt.Sprintf("m%d", len(t.lines))
	t.ids = append(t.ids, id)
	t.line(map[string]any{"id": id, "cook": cook, "text": text})
}

// turn adds what one cook says next: mostly one line.
func (t *talker) turn() {
	cook := pick(t, "larder", "stove", "pastry")
	food := pick(t, t.foods()...)
	grams := 10 * (1 + t.IntN(30))
	dish := pick(t, "tart", "soup", "salad")
	switch t.IntN(18) {
	case 0, 1, 2:
		t.say(cook, fmt.Sprintf("used %d g %s in the %s", grams, food, dish))
	case 3:
		t.say(cook, fmt.Sprintf("got %d g %s", 3*grams, food))
	case 4:
		t.say(cook, fmt.Sprintf("need %d g %s for the %s", grams, food, dish))
	case 5:
		t.say(cook, fmt.Sprintf("don't need the %s", food))
	case 6:
		t.say(cook, fmt.Sprintf("binned %d g %s", grams, pick(t, food, "potato peel")))
	case 7:
		t.say(cook, fmt.Sprintf("there's %d g %s left", 3*grams, food))
	case 8:
		t.say(cook, fmt.Sprintf("put back %d g %s", grams, food))
	case 9:
		t.line(map[string]any{"id": pick(t, t.ids...), "edit": true, "text": fmt.Sprintf("used %d g %s in the %s", grams, food, dish)})
	case 10:
		t.line(map[string]any{"id": pick(t, t.ids...), "delete": true})
	case 11:
		t.say(cook, pick(t, "undo", "scrap that"))
	case 12:
		t.say(cook, fmt.Sprintf("make that %d g", grams))
	case 13:
		t.say(cook, "used 2 onions in the "+dish)
		if t.IntN(3) > 0 {
			t.say(cook, pick(t, "red", "brown", "1"))
		}
	case 14:
		t.say(cook, pick(t, "what's left", "how much leek", "who has the carrots", "ideas"))
	case 15:
		t.say(cook, pick(t, "new food: sea beet, like spinach, 30 g a handful", "long onion means leek", "got 2 handfuls of sea beet"))
	case 16:
		t.say(cook, fmt.Sprintf("used %d g %s in the %s", grams, pick(t, "long onion", "sea beet"), dish))
	case 17:
		t.say(cook, pick(t, "the radio is too loud", "who used my pan", "doors at half six"))
	}
}
