package bot

import (
	"encoding/json"
	"time"

	"scullion/pantry"
)

// reopen brings the plan back that a message has ended, if it would still be on: what it kept is
// kept again, its timers run. It tells so; "" where there was none.
func (t *turn) reopen(m *pantry.Message) (string, error) {
	list, err := t.book.Services(m.At.Add(-serviceLong))
	if err != nil {
		return "", err
	}
	for _, s := range list {
		on := running{}
		if isNote(s) || !s.Ended.Equal(m.At) || s.Message == m.ID || t.m.At.After(s.Due.Add(lateService)) || json.Unmarshal(s.Body, &on) != nil {
			continue
		}
		on.Service = s
		on.Ended = time.Time{}
		if err := t.save(on); err != nil {
			return "", err
		}
		said, err := t.book.Message(s.Message)
		if err != nil {
			return "", err
		}
		kept, err := t.book.InForce(said)
		if err != nil {
			return "", err
		}
		if len(kept) == 0 && !said.Gone {
			if err := t.restore(said); err != nil {
				return "", err
			}
		}
		if !on.isPlan() {
			return "The service is on again.", nil
		}
		_, err = t.timeSteps(on)
		return "The plan of " + on.at(0, t.m.At) + " is on again.", err
	}
	return "", nil
}
