package bot

import "scullion/pantry"

// lastEntry looks back, as far as a service and so many messages go, for the latest entry in force that fits,
// of this cook, or with "" of anybody. It gives its message, the entries of that, and its place among them; a
// nil message where none fits.
func (t *turn) lastEntry(cook string, most int, fits func(pantry.Entry) bool) (*pantry.Message, []pantry.Entry, int, error) {
	for m, err := range t.back(cook, t.said, most, t.m.At.Add(-serviceLong)) {
		if err != nil {
			return nil, nil, 0, err
		}
		if m.Rev == 0 || m.Gone {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, nil, 0, err
		}
		for i := len(entries) - 1; i >= 0; i-- {
			if fits(entries[i]) {
				return m, entries, i, nil
			}
		}
	}
	return nil, nil, 0, nil
}
