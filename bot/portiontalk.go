package bot

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/measure"
)

// saysPortions is so many portions of something, up to where the next thing begins.
var saysPortions = regexp.MustCompile(`(?i)\b(\d{1,3}|a|one|two|three|four|five|six|eight|ten) (?:portions?|servings?|helpings?)(?: of)?(?: the| our| that)? ([a-z' -]+?)((?: in| into| for| to| and| on| out| from|[,.+&!]).*)?$`)

// wordNumbers are those that portions are counted by in words.
var wordNumbers = map[string]int{"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10}

// portionTalk reads portions of what was put by as the weight that they are, by what the dish came to and for how
// many it was: "used 2 portions of quiche in the lunchbox", "froze 2 portions of quiche". It is among the last to
// be asked: portions of what is still in the pot are read before. Done is false where none is meant.
func (t *turn) portionTalk(why string) (r Reply, done bool, err error) {
	text, said := t.m.Text, t.m.Text
	for range mostPortions {
		m := saysPortions.FindStringSubmatchIndex(text)
		if m == nil {
			break
		}
		n := wordNumbers[strings.ToLower(text[m[2]:m[3]])]
		if n == 0 {
			n, _ = strconv.Atoi(text[m[2]:m[3]])
		}
		name := strings.ToLower(text[m[4]:m[5]])
		l := potLine(t.k, name)
		if l == nil {
			l = t.madeCalled(name)
		}
		if l == nil || l.Made == 0 || l.OnHand() == 0 || n == 0 {
			return r, false, nil
		}
		dish, _, err := t.cooked(name)
		if err != nil || dish == "" {
			return r, false, err
		}
		s, err := t.sheetOf(dish)
		if err != nil || s == nil {
			return r, false, err
		}
		if s.Portions == 0 {
			return Reply{Kind: Error, Text: askPortions(dish)}, true, nil
		}
		a, ok := partOf(s, &language.Question{N: n})
		if !ok || a.Kind != l.Unit {
			return r, false, nil
		}
		unit := map[measure.Kind]string{measure.Millilitre: "ml"}[a.Kind]
		if unit == "" {
			unit = "g"
		}
		text = fmt.Sprintf("%sabout %d%s %s%s", text[:m[2]], (int64(a.Base)+500)/1000, unit, l.Name, text[m[5]:])
	}
	if text == said {
		return r, false, nil
	}
	defer func() { t.m.Text = said }()
	t.m.Text = text
	if r, done, err = t.madeTalk(why); done || err != nil {
		return r, done, err
	}
	r, err = t.acted(t.reader().Read(text), why)
	return r, r.Kind != Silent, err
}

// mostPortions is of how many dishes a message may tell portions.
const mostPortions = 6
