package bot

import (
	"regexp"
	"strings"

	"scullion/pantry"
)

// What is left of food that was cooked by itself, told by the name of the raw: "leftover sausages 500g cooked", "bacon
// left, about 600g cooked", "leftovers: 600g bacon, 1.5kg sausages".
const weightSaid = `(?:about |abt |roughly )?\d[\d.,]* ?(?:kgs?|g|grams?|kilos?)`

var leftCooked = []*regexp.Regexp{
	regexp.MustCompile(`(?i)^\s*(?:the )?(?P<food>[a-z][a-z' -]*?) left(?: over)?,? (?P<amount>` + weightSaid + `)(?: of it)?,? cooked\s*[.!]?\s*$`),
	regexp.MustCompile(`(?i)^\s*left ?-?over (?:cooked )?(?P<food>[a-z][a-z' -]*?)[,:]? (?P<amount>` + weightSaid + `)(?:,? cooked)?(?:,? (?:chilled|cooled|in the fridge|in fridge|boxed|put by))?\s*[.!]?\s*$`),
	regexp.MustCompile(`(?i)^\s*(?P<amount>` + weightSaid + `) (?:of )?(?:left ?-?over|cooked) (?P<food>[a-z][a-z' -]*?)(?: left| left over| in the fridge| chilled| put by)\s*[.!]?\s*$`),
}

// cookedLeft answers that cooked food does not count the raw, and how it is put by; the text in the words that are read
// where some of it cooked is a line here, or it is a dish. Done is false where no raw food on the books is meant.
func (t *turn) cookedLeft() (r Reply, done bool, err error) {
	low := strings.ToLower(t.m.Text)
	if !strings.Contains(low, "left") {
		return r, false, nil
	}
	for _, x := range leftCooked {
		if m := x.FindStringSubmatch(t.m.Text); m != nil {
			text, err := t.notRaw(m[x.SubexpIndex("amount")], m[x.SubexpIndex("food")])
			return Reply{Kind: Error, Text: text}, text != "", err
		}
	}
	if m := leftsHead.FindStringSubmatch(t.m.Text); m != nil && strings.HasPrefix(strings.ToLower(m[1]), "left") {
		var says []string
		for _, part := range leftList(t.m.Text) {
			w := weightAndFood.FindStringSubmatch(part)
			if w == nil {
				return r, false, nil
			}
			s, err := t.notRaw(w[1], w[2])
			if err != nil || s == "" {
				return r, false, err
			}
			says = append(says, s)
		}
		return Reply{Kind: Error, Text: strings.Join(says, "\n")}, len(says) > 0, nil
	}
	return r, false, nil
}

var weightAndFood = regexp.MustCompile(`(?i)^\s*(` + weightSaid + `) (?:of )?(?:the )?(?:cooked |leftover )?([a-z][a-z' -]*?) left$`)

// notRaw is notTheRaw of raw food on the books; "" of a dish, and of what stands cooked in a line of its own.
func (t *turn) notRaw(amount, said string) (string, error) {
	said = strings.ToLower(said)
	if dish, _, err := t.cooked(said); err != nil || dish != "" || t.k.Named(singular("cooked "+said)) != nil || t.k.Named(singular("leftover "+said)) != nil {
		return "", err
	}
	h := t.ear.find(said)
	if !h.exact || h.sound || len(h.lines) != 1 || h.lines[0].Made > 0 {
		return "", nil
	}
	l := h.lines[0]
	if f := t.ear.foodOf(l); f == nil || t.isCookedLine(l) {
		return "", nil
	}
	return notTheRaw(strings.TrimSpace(amount), "cooked "+said, l), nil
}

func (t *turn) isCookedLine(l *pantry.Line) bool { return t.ear.areCooked([]*pantry.Line{l}) }
