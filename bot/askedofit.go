package bot

import (
	"fmt"
	"regexp"
	"strings"
)

// asksOfIt is what is asked of the food that was just named: "need 12 leaves gelatine, is that veggie?"
var asksOfIt = regexp.MustCompile(`(?i)^\s*(.+?\b([a-z]+)),? (?:is|are) (?:that|it|they|those) ((?:ok for |okay for |safe for |suitable for )?(?:a |the )?(?:veggie|veggies|vegan|vegans|vegetarian|vegetarians|gluten free|dairy free|halal|kosher|coeliacs?))\s*\??\s*$`)

// askedOfIt answers such a question behind what was said. Done is false where the food is none.
func (t *turn) askedOfIt(why string) (r Reply, done bool, err error) {
	m := asksOfIt.FindStringSubmatch(t.m.Text)
	if m == nil || !strings.ContainsAny(m[1], "0123456789") {
		return r, false, nil
	}
	if h := t.ear.find(m[2]); !h.exact || h.sound || h.food == nil && len(h.lines) == 0 {
		return r, false, nil
	}
	whole := t.m.Text
	defer func() { t.m.Text = whole }()
	t.m.Text = m[1]
	if r, err = t.answer(why); err != nil {
		return r, false, err
	}
	if r.Kind == Silent {
		r.Text = fmt.Sprintf("Not written: %q.", strings.TrimSpace(m[1]))
	}
	t.m.Text = "is " + m[2] + " " + m[3] + "?"
	a, err := t.answer(why)
	if err != nil || a.Kind == Silent {
		return r, false, err
	}
	if r.Kind == Silent {
		r.Kind = a.Kind
	}
	r.Text = a.Text + "\n" + r.Text
	return r, true, nil
}
