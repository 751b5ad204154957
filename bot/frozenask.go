package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// What is asked and told of the freezer, in words besides those of the tables.

var (
	outOfFreezer = regexp.MustCompile(`(?i)^\s*(?:just |i |we |ive |weve )*(?:took|taken|got|pulled|moved|had)? ?((?:\d[\d.,]*\s?(?:kgs?|g|l|ml|litres?)?|half|all|some)(?: of)? [a-z][a-z' -]*?) out (?:of )?the freezer(?: (?:for|to|into|in|overnight|ready|so) ?.*)?\s*[.!]?\s*$`)
	alsoFrozen   = regexp.MustCompile(`(?i)^\s*(?:and|also|plus|& )\s*((?:another )?\d[\d.,]*\s?(?:kgs?|g|l|ml|litres?)? ?(?:of )?(?:the )?)([a-z][a-z' -]*?)(?: too| as well)?\s*[.!]?\s*$`)
	bagsFrozen   = regexp.MustCompile(`(?i)^\s*(\d{1,3}) (?:bags?|boxes|box|packs?|trays?|tubs?) of (\d{1,4}) ([a-z][a-z' -]*?) (?:are |is |now )?in the freezer\s*[.!]?\s*$`)
	freezeThat   = regexp.MustCompile(`(?i)^\s*(?:please |just |can you |better |lets |let's )?freeze (it|them|that|those|the rest|the rest of it)(?: please| then| now)?\s*[.!]?\s*$`)
	whoFroze     = regexp.MustCompile(`(?i)^\s*(?:did|has|have) (?:anyone|anybody|someone|somebody|you|we|they|[a-z]+) (?:(?:freeze|frozen|froze) (?:all |any )?(?:of )?(?:the |our )([a-z][a-z' -]*?)|put (?:all |any )?(?:of )?(?:the |our )?([a-z][a-z' -]*?) in the freezer)(?: yet| already)?\s*\??\s*$`)
	laterLot     = regexp.MustCompile(`(?i)^\s*(?:the )?(?:second|2nd|new|newest|last|latest|newer) (?:lot|batch|delivery|box|load) of (?:the )?([a-z][a-z' -]*?) (?:is|are|was|says|has) (use by|best before|good till|good until)`)
)

// asFrozen puts what is told of the freezer into the words that are read; the text as it is where it tells nothing of it.
func (t *turn) asFrozen(text string) string {
	if m := outOfFreezer.FindStringSubmatch(text); m != nil {
		return "took " + m[1] + " out of the freezer to defrost"
	}
	if m := laterLot.FindStringSubmatchIndex(text); m != nil {
		if h := t.ear.find(text[m[2]:m[3]]); h.exact && len(h.lines) == 1 { // what came last is what a date is given to
			return "the " + text[m[2]:m[3]] + " is " + text[m[4]:m[5]] + text[m[1]:]
		}
	}
	if m := bagsFrozen.FindStringSubmatch(text); m != nil {
		bags, _ := strconv.Atoi(m[1])
		each, _ := strconv.Atoi(m[2])
		if h := t.ear.find(m[3]); h.exact && len(h.lines) == 1 {
			return fmt.Sprintf("put %d %s in the freezer", bags*each, m[3])
		}
	}
	if m := alsoFrozen.FindStringSubmatch(text); m != nil && t.frozeJust() {
		if h := t.ear.find(m[2]); h.exact && !h.sound { // not "and 500g butter in the sauce"
			return "put " + strings.TrimPrefix(strings.ToLower(m[1]), "another ") + m[2] + " in the freezer"
		}
	}
	return text
}

// frozeJust says whether what this cook logged last is that food was frozen.
func (t *turn) frozeJust() bool {
	_, entries, err := t.justWritten()
	return err == nil && len(entries) > 0 && entries[len(entries)-1].Act == pantry.Count && entries[len(entries)-1].Lot.State == food.Frozen
}

// freezerTalk answers what is asked of the freezer, and of when food was made. Done is false where no food is meant.
func (t *turn) freezerTalk() (r Reply, done bool, err error) {
	r.Kind = Answer
	switch {
	case freezeThat.MatchString(t.m.Text):
		r.Text, err = t.sayFreeze()
	case whoFroze.MatchString(t.m.Text):
		m := whoFroze.FindStringSubmatch(t.m.Text)
		r.Text, err = t.sayFroze(cmp.Or(m[1], m[2]))
	case bagsFrozen.MatchString(t.m.Text):
		m := bagsFrozen.FindStringSubmatch(t.m.Text)
		bags, _ := strconv.Atoi(m[1])
		each, _ := strconv.Atoi(m[2])
		if h := t.ear.find(lastWord(m[3])); !h.exact || h.food == nil && len(h.lines) == 0 {
			return r, false, nil
		}
		return Reply{Kind: Error, Text: fmt.Sprintf("Not written: no %s here. Say \"got %d frozen %[1]s\" if they came in, or \"made %[2]d %[1]s\" if they were made.", strings.ToLower(m[3]), bags*each)}, true, nil
	case whenMade.MatchString(t.m.Text):
		m := whenMade.FindStringSubmatch(t.m.Text)
		r.Text, err = t.sayWhenMade(m[1])
	}
	return r, r.Text != "", err
}

// sayFreeze answers an order to freeze what was just spoken of: whether it was done nobody has said.
func (t *turn) sayFreeze() (string, error) {
	said, err := t.spokenJust()
	if err == nil && said == "" {
		said, err = t.spokenOf()
	}
	if err != nil || said == "" {
		return "", err
	}
	l := potLine(t.k, said)
	if h := t.ear.find(said); l == nil && h.exact && len(h.lines) == 1 {
		l = h.lines[0]
	}
	if l == nil {
		l = t.madeCalled(said)
	}
	if l == nil || l.Turnable(food.Frozen) == 0 {
		if dish, err := t.standsUnput(said); err != nil || dish == "" {
			return "", err
		} else {
			return fmt.Sprintf("Not written: how much %s is there? Say \"froze 600g %[1]s\" when it is in.", dish), nil
		}
	}
	text := fmt.Sprintf("Not written yet: say \"froze the %s\" when it is in, and it is %s.", l.Name, measure.Say(l.Turnable(food.Frozen), l.Unit))
	if warm, err := t.warmSaid([]*pantry.Line{l}); err != nil || warm != "" {
		return warm + "\nFreezing makes it no safer.", err
	}
	return text, nil
}

// sayFroze: "Sausage: 4 kg in the freezer, best before Thu 2 Apr (Bo, at 16:03). 8 kg is not frozen."
func (t *turn) sayFroze(said string) (string, error) {
	h := t.ear.find(said)
	if !h.exact || h.sound || len(h.lines) == 0 {
		return "", nil
	}
	var says []string
	for _, l := range h.lines {
		frozen, lot := l.In(food.Frozen)
		if frozen == 0 {
			says = append(says, fmt.Sprintf("Nobody has said that %s was frozen. %s is on hand.", l.Name, measure.Say(l.OnHand(), l.Unit)))
			continue
		}
		s := fmt.Sprintf("%s: %s in the freezer", title(l.Name), measure.Say(frozen, l.Unit))
		if lot.Date != "" {
			s += fmt.Sprintf(", %s %s", sayBy(map[bool]string{true: "best-before"}[lot.Best]), t.sayDate(lot.Date))
		}
		entries, err := t.book.Since(l.ID, &pantry.Message{})
		if err != nil {
			return "", err
		}
		for _, e := range slices.Backward(entries) {
			if e.Lot.State == food.Frozen {
				s += fmt.Sprintf(" (%s, %s)", title(t.k.CookName(e.Cook)), t.sayAt(e))
				break
			}
		}
		if rest := l.OnHand() - frozen; rest > 0 {
			s += fmt.Sprintf(". %s is not frozen", measure.Say(rest, l.Unit))
		}
		says = append(says, s+".")
	}
	return strings.Join(says, "\n"), nil
}
