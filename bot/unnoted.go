package bot

import (
	"encoding/json"
	"fmt"
	"slices"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// What was said of a service or a dish and is no entry, taken back.

// unnoted takes back what the cook said last of a service or a dish and is no entry: that a
// service begins, for how many a dish was, what it came to; logged are the messages by which the
// cook logged something; by is the one that only corrected some, nil none.
func (t *turn) unnoted(logged []*pantry.Message, by *pantry.Message) (r Reply, done bool, err error) {
	list, err := t.book.Services(t.m.At.Add(-serviceLong))
	for _, s := range slices.Backward(list) {
		on := running{}
		if s.Cook != t.cook || json.Unmarshal(s.Body, &on) != nil || on.isPlan() {
			continue
		}
		m, err := t.book.Message(s.Message)
		if err != nil {
			return r, false, err
		}
		if len(logged) > 0 && logged[0].N >= m.N && (by == nil || by.N != m.N) {
			return r, false, nil
		}
		if err := t.stopFor(s.Message); err != nil {
			return r, true, err
		}
		r = Reply{Kind: Answer, Text: "Taken back: " + on.told() + "."}
		if err := t.book.DropService(s.Message); err != nil {
			return r, true, err
		}
		for dish := range on.dishes() {
			if r, err = t.withPortions(r, dish, pantry.Restored); err != nil {
				return r, true, err
			}
		}
		return r, true, nil
	}
	return r, false, err
}

// dishes are those of which a note tells something.
func (on *running) dishes() map[string]bool {
	list := map[string]bool{}
	for dish := range on.Served {
		list[dish] = true
	}
	for dish := range on.Yield {
		list[dish] = true
	}
	return list
}

// told says what was said of a service that is no plan, or of a dish.
func (on *running) told() string {
	for dish, n := range on.Served {
		return fmt.Sprintf("that the %s was for %d", dish, n)
	}
	for dish, c := range on.Yield {
		return "that the " + dish + " came to " + measure.Say(c.Amount, c.Unit)
	}
	return "the start of the service"
}
