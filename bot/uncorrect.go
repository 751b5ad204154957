package bot

import (
	"slices"

	"scullion/pantry"
)

// mostBack is how many of a cook's messages back a correction is looked for.
const mostBack = 10

// lastCorrection gives the message by which the cook corrected something since it last logged
// anything, and the message that was corrected; nil where it did not, or that is taken back already.
func (t *turn) lastCorrection(logged []*pantry.Message) (by, of *pantry.Message, err error) {
	if len(logged) == 0 {
		return nil, nil, nil
	}
	services, err := t.book.Services(t.m.At.Add(-serviceLong))
	if err != nil {
		return nil, nil, err
	}
	isPlan := func(m *pantry.Message) bool {
		return slices.ContainsFunc(services, func(s pantry.Service) bool { return s.Message == m.ID })
	}
	m := t.said
	for range mostBack {
		if m, err = t.book.Heard(t.cook, m); err != nil || m == nil || m.N <= logged[0].N {
			return nil, nil, err
		}
		others, err := t.book.Revised(m)
		if err != nil {
			return nil, nil, err
		}
		for _, o := range others {
			if why, err := t.book.RevisedFor(o); err != nil || why == pantry.Corrected && !o.Gone && !isPlan(o) {
				return m, o, err
			}
		}
	}
	return nil, nil, nil
}

// uncorrect takes a correction back, and says what holds again.
func (t *turn) uncorrect(of *pantry.Message) (Reply, error) {
	if err := t.setQuestion(t.cook, nil); err != nil {
		return Reply{}, err
	}
	was, err := t.book.InForce(of)
	if err != nil {
		return Reply{}, err
	}
	now, err := t.book.Before(of)
	if err != nil {
		return Reply{}, err
	}
	t.unsaid = append(t.unsaid, of.ID)
	t.touch(of)
	effects, err := t.book.Revise(of, t.said, pantry.Restored, now)
	if err != nil {
		return Reply{}, err
	}
	t.ear = t.b.ears.of(t.k)
	var told []pantry.Entry
	var did []pantry.Effect
	for i, e := range now {
		if len(was) != len(now) || was[i] != e {
			told, did = append(told, e), append(did, effects[i])
		}
	}
	if len(told) == 0 {
		return Reply{Kind: Log, Text: "Taken back: the correction."}, nil
	}
	r := t.noted(told, did)
	r.Text = "Taken back: the correction. Again: " + r.Text
	return r, nil
}

// alsoRestored puts back what else a message changed of others: the pot that was dated again with what is in
// it, the dish that was given to what was peeled before. It gives their lines.
func (t *turn) alsoRestored(by, but *pantry.Message) (lines []*pantry.Line, err error) {
	others, err := t.book.Revised(by)
	if err != nil || len(others) == 0 {
		return nil, err
	}
	services, err := t.book.Services(t.m.At.Add(-serviceLong))
	if err != nil {
		return nil, err
	}
	for _, o := range others {
		if slices.ContainsFunc(services, func(s pantry.Service) bool { return s.Message == o.ID }) { // a plan keeps what it needs now
			continue
		}
		why, err := t.book.RevisedFor(o)
		if err != nil {
			return nil, err
		}
		if but != nil && o.ID == but.ID || o.Gone || why != pantry.Corrected {
			continue
		}
		old, err := t.book.Before(o)
		if err != nil {
			return nil, err
		}
		t.unsaid = append(t.unsaid, o.ID)
		t.touch(o)
		if _, err := t.book.Revise(o, t.said, pantry.Restored, old); err != nil {
			return nil, err
		}
		for _, e := range old {
			lines = append(lines, t.k.Line(e.Line))
		}
	}
	return lines, nil
}
