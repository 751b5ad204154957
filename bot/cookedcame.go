package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// What food that was cooked for no dish came to: "cooked 4kg rice", then "it came to 10kg".
var (
	cameForm   = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z][a-z' -]*?) (?:came|comes|came out|comes out|weighs|weighed|yielded|made|gave)(?: out)?(?: to| at| as| in at)? (\d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?))(?: cooked)?\s*[.!]?$`)
	cookedVerb = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve |i've |we've )?(?:cooked|boiled|steamed|simmered|roasted|baked|braised|poached|grilled)\b`)
)

// mostCookedBack is how many messages back food may have been cooked that came to so much.
const mostCookedBack = 30

// cookedCame writes that so much cooked food was made of what was cooked before, which was drawn then. Done is false
// where none was.
func (t *turn) cookedCame(why string) (r Reply, done bool, err error) {
	m := cameForm.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	cook, of := "", func(*pantry.Line) bool { return true }
	if slices.Contains(pronouns, strings.ToLower(m[1])) {
		cook = t.cook
	} else {
		h := t.ear.find(m[1])
		if !h.exact || h.sound {
			return r, false, nil
		}
		of = func(l *pantry.Line) bool { return slices.Contains(h.lines, l) }
	}
	a, ok := t.amountSaid(m[2])
	target, entries, i, err := t.lastEntry(cook, mostCookedBack, func(e pantry.Entry) bool {
		return e.Act == pantry.Use && e.Dish == "" && !e.Trim && of(t.k.Line(e.Line))
	})
	if err != nil || target == nil || !ok || a.How != language.Measured || t.m.At.Sub(target.At) > preparedLong || !cookedVerb.MatchString(target.Text) {
		return r, false, err
	}
	product := "cooked " + t.k.Line(entries[i].Line).Name
	if _, err := t.givePrepared(target, slices.Clone(entries), i, entries[i].Amount, &draft{Act: pantry.Use, Dish: product, Amount: language.Amount{Said: entries[i].Said}}); err != nil {
		return r, false, err
	}
	drafts, err := t.drafts(t.reader().Read("made " + m[2] + " " + product))
	if err != nil {
		return r, false, err
	}
	r, err = t.write(drafts, why)
	return r, r.Kind != Silent, err
}

// mindCooked adds to what was written of a dry staple that was cooked for no dish how it is put by.
func (t *turn) mindCooked(r Reply) Reply {
	if r.Kind != Log || len(r.Entries) != 1 || !cookedVerb.MatchString(t.m.Text) {
		return r
	}
	e := r.Entries[0]
	if l := t.k.Named(e.Item); l != nil && e.Kind == string(pantry.Use) && e.Dish == "" && isDry(l.Name) {
		r.Text += "\nSay what it came to, like \"it came to 10kg\", and the cooked " + l.Name + " is put by with its date."
	}
	return r
}
