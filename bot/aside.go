package bot

import (
	"encoding/json"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// aside is the idea for a line that goes behind an entry: none once the time of the service is
// past, nor the one that was told last.
func (t *turn) aside(l *pantry.Line) []shown {
	if on, running, err := t.running(); err != nil || running && t.m.At.After(on.Due) {
		return nil // what was written stands, whatever comes of the idea
	}
	s, err := t.service()
	if err != nil {
		return nil
	}
	list := t.ideasFor(s, l.Name, language.Limits{}, nil, 1)
	if len(list) > 0 && list[0].Title == t.toldLast() {
		return nil
	}
	return list
}

// mostSince is how many messages back the idea that was told last is looked for.
const mostSince = 6

// toldLast is the title of the idea that was told last in the kitchen; "" none was lately.
func (t *turn) toldLast() string {
	m := t.said
	for range mostSince {
		var err error
		if m, err = t.book.Heard("", m); err != nil || m == nil {
			return ""
		}
		r := Reply{}
		if len(m.Reply) > 0 && json.Unmarshal(m.Reply, &r) == nil && len(r.Ideas) > 0 {
			return r.Ideas[0].Title
		}
	}
	return ""
}

// forIdea is the line to offer an idea for: of the crate food just used or put back, what is left
// free. What is counted, thrown or given away begins nothing.
func (t *turn) forIdea(entries []pantry.Entry) (best *pantry.Line) {
	for _, e := range entries {
		l := t.k.Line(e.Line)
		if e.Act != pantry.Use && e.Act != pantry.Return && e.Act != pantry.Release || sayAway(e.Dish) != "" || l.Free() == 0 || l.Shelf != food.Crate {
			continue
		}
		if best == nil || l.Free() > best.Free() {
			best = l
		}
	}
	return best
}
