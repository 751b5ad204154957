package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// madeTalk answers what a dish came to ("the stew came out at 2.6kg"), and writes down what is
// left of one ("600g stew left over"): a line of its own, of what went into the dish. Done is
// false where no dish that was made lately is meant.
func (t *turn) madeTalk(why string) (r Reply, done bool, err error) {
	text := strings.ToLower(t.m.Text)
	if !t.namesMade(text) && !t.namesPieces(text) && !t.putsBy(text) && !saysCameOut.MatchString(text) && !slices.ContainsFunc([]string{"plate", "scraping", "portion", "serving", "helping", "back in"}, func(w string) bool { return strings.Contains(text, w) }) {
		return r, false, nil
	}
	if r, done, err := t.leftTalk(why); done || err != nil {
		return r, done, err
	}
	if r, done, err := t.portionsLeft(why); done || err != nil {
		return r, done, err
	}
	_, said := language.MadeOn(t.m.Text, t.m.At.Weekday())
	q := t.reader().MadeTalk(said)
	if q == nil {
		q = t.reader().MadeTalk(asLeft(said))
	}
	if raw, err := t.leftRaw(said); raw != nil || err != nil {
		q = raw
	}
	if q == nil {
		return r, false, nil
	}
	thawed := false
	if q.About == language.AboutFrozen {
		q.Food, thawed = language.WithoutThawed(q.Food)
		thawed = thawed || language.FreezesAgain(said)
	}
	if state := (map[language.About]food.State{language.AboutFrozen: food.Frozen, language.AboutThawed: food.Thawed, language.AboutCooked: food.Cooked})[q.About]; state != "" {
		l := t.madeCalled(q.Food)
		if l != nil && !t.ear.find(q.Food).exact && key(l.Name) != key(q.Food) {
			if r.Text, err = t.whichMade(q.Food); err != nil || r.Text != "" {
				r.Kind = Error
				return r, true, err
			}
		}
		return t.turnedDish(q, state, thawed, why)
	}
	switch q.About {
	case language.AboutLeftOf:
		r.Kind = Answer
		r.Text, err = t.sayNoPot(q.Food)
		return r, r.Text != "", err
	case language.AboutPlates:
		return t.platesBack(q, why)
	case language.AboutBinnedOne:
		if dish, err := t.inPot(q.Food, false); err != nil || dish == "" && !t.standsByPiece(q.Food) {
			return r, false, err
		}
		return t.portionsGone(q, why)
	case language.AboutBinned, language.AboutGiven, language.AboutUsed, language.AboutUsedOne:
		return t.portionsGone(q, why)
	case language.AboutBinnedAll:
		return t.allGone(q, why)
	case language.AboutMade:
		return t.portionsMade(q, why)
	}
	if h := t.ear.find(q.Food); q.About == language.AboutWeighs && h.exact && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 && l.Made == 0 }) {
		return r, false, nil // "the beef weighs 3kg" counts it
	}
	dish, _, err := t.cooked(q.Food)
	if err == nil && q.About == language.AboutLeftOver && q.Amount.How == language.Measured && strings.Contains(text, "back in") {
		if r, done, err := t.backAsMade(dish, q, why); done || err != nil {
			return r, done, err
		}
	}
	if err == nil && dish == "" && !t.ear.find(q.Food).exact {
		if r.Text, err = t.whichMade(q.Food); r.Text != "" {
			r.Kind = Error
			return r, true, err
		}
	}
	if err == nil && dish == "" {
		if text := t.cameOutRaw(q); text != "" {
			return Reply{Kind: Error, Text: text}, true, nil
		}
	}
	if err == nil && dish == "" && q.About == language.AboutLeftOver && q.Amount.How == language.Measured && t.cookedUnlogged(q.Food) {
		if d := t.countMade(q.Food, q.Amount); d != nil {
			r, err = t.write([]draft{*d}, why)
			return r, r.Kind != Silent, err
		}
		r, err = t.write([]draft{*t.putBy(&draft{Food: strings.ToLower(q.Food), Amount: q.Amount}, "")}, why)
		return r, r.Kind != Silent, err
	}
	if err != nil || dish == "" {
		return r, false, err
	}
	if text := t.whichLeft(q.Food, dish); text != "" && q.About == language.AboutLeftOver {
		return Reply{Kind: Error, Text: text}, true, nil
	}
	if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 && q.About == language.AboutLeftOver {
		if anew, err := t.cookedSince(l, dish); err != nil || !anew {
			return r, false, err // it is counted
		}
	}
	if q.About == language.AboutPortions {
		q.Food = dish
		return t.served(q)
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return r, false, err
	}
	if q.About == language.AboutYield || q.About == language.AboutWeighs {
		r, err = t.cameTo(s, cookedWeight{q.Amount.Base, q.Amount.Kind})
		return r, true, err
	}
	if a := q.Amount; q.About == language.AboutLeftOver && a.How == language.Pieces && a.Part == "" && a.N.Den == 1 && int(a.N.Num) <= s.Portions { // 9 of a dish are 9 portions, as where they are binned
		q.N, q.Amount = int(a.N.Num), language.Amount{}
	}
	a, ok := partOf(s, q)
	if !ok {
		return Reply{Kind: Error, Text: fmt.Sprintf(`How much is that? Weigh it: "600g %s left". Or say first for how many it was: "the %s %s for 6".`, dish, dish, was(dish))}, true, nil
	}
	if q.N > 0 && s.Covers > 0 {
		t.note = fmt.Sprintf("A portion is by the %d covers, as nobody told: %s", s.Covers, tellPortions(dish))
	}
	r, err = t.write([]draft{*t.putBy(&draft{Food: dish, Amount: a}, dish)}, why)
	return r, r.Kind != Silent, err
}

// leftRaw reads what is left of a dish where its message also tells that it is not cooked; nil where it does not.
func (t *turn) leftRaw(said string) (*language.Question, error) {
	without := language.WithoutRaw(said)
	if without == said {
		return nil, nil
	}
	q := t.reader().MadeTalk(without)
	if q == nil {
		q = t.reader().MadeTalk(asLeft(without))
	}
	if q == nil || q.About != language.AboutLeftOver {
		return nil, nil
	}
	dish, _, err := t.cooked(q.Food)
	if dish == "" {
		return nil, err
	}
	return q, err
}

// putsBy is a quick look for words of food that was left or put away, and a dish's name with them.
func (t *turn) putsBy(text string) bool {
	return slices.ContainsFunc([]string{"left", "fridge", "boxed", "tubbed", "packed", "bagged", "stored", "chilled", "remain"}, func(w string) bool { return strings.Contains(text, w) }) && t.reader().SpeaksOfDish(text)
}

// putLast are words behind food that was put away, and bitLeft what says it in the middle.
var (
	putLast = regexp.MustCompile(`(?i)^(\s*\d[^,?]*?),? (?:put by|put away|boxed up|tubbed up|in the fridge)\s*[.!]?$`)
	bitLeft = regexp.MustCompile(`(?i)^\s*(?:a )?(?:bit|little|few|some) (?:of )?(?:the )?([a-z' -]+?) left(?: over)?,? (?:about )?(\d[^,?]*?)(?:,? (?:put by|put away|in the fridge|boxed up))?\s*[.!]?$`)
)

// leftAt is where and when what is left was put: ", in the fridge at 6", ", fridge 18:00".
var leftAt = regexp.MustCompile(`(?i)\b(left|left over|leftover|remaining),? (?:and |now |its |it's |put )*(?:in |into )?(?:the )?(?:fridge|walk-?in|chiller|cold room|blast chiller)(?: at \d[\d:.]*(?: ?[ap]m)?| \d{1,2}[:.]\d\d)?\s*[.!]?$`)

// asLeft writes what was put away as what is left: "1.2kg refried beans put by", "bit of stew left, 900g".
func asLeft(text string) string {
	text = leftAt.ReplaceAllString(text, "$1")
	if m := bitLeft.FindStringSubmatch(text); m != nil {
		return m[2] + " " + m[1] + " left"
	}
	if m := putLast.FindStringSubmatch(text); m != nil && !strings.HasSuffix(strings.ToLower(m[1]), " back") {
		return m[1] + " left"
	}
	return text
}

// putByDraft drafts that something was put by, of a dish that was cooked, or of one that nobody logged; nil
// where it is food that came in, and is only kept.
func (t *turn) putByDraft(d draft) (*draft, error) {
	dish, _, err := t.cooked(d.Food)
	if err != nil {
		return nil, err
	}
	if h := t.ear.find(d.Food); dish != "" && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 && l.Made == 0 }) && h.exact {
		dish = ""
	}
	switch {
	case dish != "":
		if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 {
			if anew, err := t.cookedSince(l, dish); err != nil || !anew && !t.madeBefore() {
				return nil, err
			}
		}
		d.Food = dish
		return t.putBy(&d, dish), nil
	case t.cookedUnlogged(d.Food) && len(t.madeNamed(d.Food)) > 0:
		return t.countMade(d.Food, d.Amount), nil
	case t.cookedUnlogged(d.Food) || t.madeBefore() && t.isPotName(d.Food):
		d.Food = strings.ToLower(d.Food)
		return t.putBy(&d, ""), nil
	}
	return nil, nil
}

// intoWords stand between a food and the dish it goes into: "put 150g cheddar in the pasties".
var intoWords = []string{"in", "into", "on", "onto", "for", "to", "over"}

// cookedUnlogged says whether a name is that of a dish which nobody has logged, and of no food on hand:
// what is put by of it came out of some pot.
func (t *turn) cookedUnlogged(name string) bool {
	if !t.reader().NamesDish(name) && !food.IsDishOf(name) || slices.ContainsFunc(strings.Fields(name), func(w string) bool { return slices.Contains(intoWords, w) }) {
		return false
	}
	h := t.ear.find(name)
	return !h.exact || food.IsDishOf(name) && !slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 })
}

// backAsMade counts what is left of what was put by before, and goes back to where it was: none of it
// was used, as far as anybody said. Done is false where no such line is meant.
func (t *turn) backAsMade(dish string, q *language.Question, why string) (r Reply, done bool, err error) {
	l := t.madeCalled(q.Food)
	if named := potLine(t.k, cmp.Or(dish, singular(strings.ToLower(q.Food)))); named != nil {
		l = named
	}
	if l == nil || l.Made == 0 || l.OnHand() < q.Amount.Base || l.Unit != q.Amount.Kind {
		return r, false, nil
	}
	if dish != "" {
		if anew, err := t.cookedSince(l, dish); anew || err != nil {
			return r, false, err
		}
	}
	r, err = t.write([]draft{{Act: pantry.Count, Food: l.Name, Line: l.ID, Amount: q.Amount, Day: t.day()}}, why)
	return r, r.Kind != Silent, err
}
