package bot

import (
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
)

// askCameIn asks again for what was used of food that was not in the pantry, once that has been taken in: "now
// the 500 ml of milk into the custard?".
func (t *turn) askCameIn(r Reply, entries []pantry.Entry) (Reply, error) {
	kept := t.k.Questions[t.cook]
	if kept == nil || r.Ask != nil || t.m.At.Sub(kept.At) > serviceLong {
		return r, nil
	}
	q, message, err := t.open()
	if err != nil || q.Kind == askWeigh {
		return r, err
	}
	list := q.all(message)
	i := slices.IndexFunc(list, func(p pending) bool { return p.Kind == askInstead && p.Draft.Act == pantry.Use && p.Draft.Line == 0 })
	if i < 0 || slices.ContainsFunc(list[:i], func(p pending) bool { return !p.idle() }) {
		return r, nil
	}
	p := list[i]
	t.ear = t.b.ears.of(t.k)
	h := t.ear.find(p.Draft.Food)
	if !h.exact || len(h.lines) != 1 || !slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Act == pantry.Receive && e.Line == h.lines[0].ID }) {
		return r, nil
	}
	p.Draft.Line, p.About = h.lines[0].ID, h.lines[0].Name
	p.Kind, p.Options = askDone, []option{{Label: "yes", Yes: true}}
	if p.Draft.Amount.How == language.Unsaid {
		p.Kind, p.Options = askAmount, nil
	}
	p.Rest = slices.Delete(list, i, i+1) // what it was before it came in would be used before it was there
	p.Asked = ""
	r.Text, r.Ideas = r.Text+"\n"+p.text(t), nil
	r.Ask = &Ask{About: p.About, Options: []string{}}
	for _, o := range p.Options {
		r.Ask.Options = append(r.Ask.Options, o.Label)
	}
	return r, t.keep(p, t.said.ID)
}
