package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// isAbout says whether the words of an answer are the question's own: "red",
// "the brown onion". Anything else is talk that only begins like an answer.
func (q *pending) isAbout(words []string) bool {
	all := q.About + " " + q.Part + " " + q.Draft.Food
	for _, o := range q.Options {
		all += " " + o.Label
	}
	return nearLabel(words, all)
}

// smallestBare is the least bare number that answers "how much?" in grams or
// millilitres; less are pieces. Common practice, no source.
const smallestBare = 20

// take puts the answer into the draft; false where it does not answer.
func (q *pending) take(a language.Answer) bool {
	d := &q.Draft
	switch q.Kind {
	case askWhich, askInstead:
		o := q.chosen(a)
		if o == nil {
			return false
		}
		d.Line, d.Yes = o.Line, d.Yes || o.Yes
		if a.Amount.How != language.Unsaid && len(a.Words) > 0 { // "2 red onions"
			d.Amount = a.Amount
		}
		return true
	case askEntry:
		if o := q.chosen(a); o != nil && a.Amount.How != language.Measured {
			q.Replace = o.Entry
		}
		return q.Replace > 0
	case askNeed:
		q.takeAll(a)
		if d.Knowing = a.Yes; a.Yes && a.Amount.How == language.Measured {
			d.Amount = a.Amount
		}
		return a.Yes
	case askNew, askName:
		if d.Yes = a.Yes; q.Part == "" { // else it is "80g each"
			return a.Yes
		}
		d.Yes = true
	case askUnit, askEach, askFrozen:
		if o := q.chosen(a); o != nil && a.N > 0 {
			return q.choose(o)
		}
	}
	if a.Amount.How != language.Unsaid && (len(a.Words) == 0 || inLabel(a.Words, q.About+" "+q.Part)) {
		d.Yes = d.Yes || q.Kind == askDone || a.Yes || q.Kind == askMuch && a.Amount.How == d.Amount.How && a.Amount.Base == d.Amount.Base && a.Amount.N == d.Amount.N
		if q.Part != "" { // the weight of one packet
			if a.Amount.How != language.Measured {
				return false
			}
			n := d.Amount.N
			base, err := n.Of(a.Amount.Base)
			if err != nil {
				return false
			}
			a.Amount.Base, a.Amount.Count, a.Amount.Said = base, n, d.Amount.Said+" x "+a.Amount.Said
		}
		d.Amount = a.Amount
		return true
	}
	if a.Yes && q.Kind != askAmount && q.Kind != askUnit && q.Kind != askEach && q.Kind != askFrozen {
		d.Yes = true
		return true
	}
	if o := q.chosen(a); o != nil {
		return q.choose(o)
	}
	return false
}

// choose puts an option into the draft.
func (q *pending) choose(o *option) bool {
	switch {
	case o.Base > 0:
		q.Draft.Told = q.Kind == askEach || q.Kind == askFrozen
		a := q.Draft.Amount
		q.Draft.Amount = language.Amount{How: language.Measured, Base: o.Base, Kind: o.Kind, Said: o.Label, Count: a.Count, Both: a.Both, Approx: q.Kind == askFrozen && (a.Approx || a.How == language.Pieces)}
	case o.All:
		q.Draft.Amount = language.Amount{How: language.Share, N: measure.Whole(1), Said: "all of it"}
	}
	q.Draft.Yes = true
	return true
}

// chosen finds the option that an answer picks: by number, or by words that
// stand in one option only.
func (q *pending) chosen(a language.Answer) *option {
	if a.N > 0 && a.N <= len(q.Options) && (len(a.Words) == 0 || inLabel(a.Words, q.Options[a.N-1].Label)) {
		return &q.Options[a.N-1]
	}
	if a.Yes && len(q.Options) == 1 && q.Kind != askAmount {
		return &q.Options[0]
	}
	if len(a.Words) == 0 {
		return nil
	}
	if hit, some := q.only(a.Words, inLabel); some {
		return hit
	}
	hit, _ := q.only(a.Words, nearLabel)
	return hit
}

// only gives the one option that words fit, and whether they fit any.
func (q *pending) only(words []string, fit func([]string, string) bool) (hit *option, some bool) {
	for i := range q.Options {
		if !fit(words, q.Options[i].Label) {
			continue
		}
		if some {
			return nil, true
		}
		hit, some = &q.Options[i], true
	}
	return hit, some
}

// inLabel says whether all words stand in a label.
func inLabel(words []string, label string) bool {
	return eachInLabel(words, label, func(said, have string) bool { return said == have })
}

// nearLabel says the same, and allows a slip in each: "brwon", "rde".
func nearLabel(words []string, label string) bool { return eachInLabel(words, label, food.IsSlip) }

func eachInLabel(words []string, label string, fit func(said, have string) bool) bool {
	have := strings.Fields(label)
	for i, w := range have {
		have[i] = food.Fold(w)
	}
	for _, w := range words {
		said := food.Fold(w)
		if !slices.ContainsFunc(have, func(h string) bool { return fit(said, h) }) {
			return false
		}
	}
	return true
}

// named takes the name of something in the pantry as the answer to what it was,
// whether it was offered or not.
func (t *turn) named(q *pending, words []string) bool {
	if len(words) == 0 {
		return false
	}
	h := t.ear.find(strings.Join(words, " "))
	if !h.exact || len(h.lines) != 1 || h.lines[0].OnHand() == 0 {
		return false
	}
	q.Draft.Line = h.lines[0].ID
	return true
}
