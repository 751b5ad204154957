package bot

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/pantry"
)

// What an undo must not take back: another message's entry, where the last that the cook told was of food that stood
// warm or of a fridge, or where the rest of the message speaks of other food.

// notUndone answers an undo that names no food, where taking back the last entry may not be what was meant; done is false
// where it is. Instead says whether the message also says what was done instead.
func (t *turn) notUndone(instead, near bool) (r Reply, done bool, err error) {
	last, err := t.book.LastLogged(t.cook, 1)
	if err != nil {
		return r, false, err
	}
	if r, done, err = t.askedOnly(near); done || err != nil {
		return r, done, err
	}
	var lines []string
	was := ""
	if len(last) > 0 {
		entries, err := t.book.InForce(last[0])
		if err != nil {
			return r, false, err
		}
		for _, e := range entries {
			lines = appendOnce(lines, t.k.Line(e.Line).Name)
		}
		if was, err = t.stood(last[0]); err != nil {
			return r, false, err
		}
	}
	told, err := t.toldSince(last)
	if err != nil {
		return r, false, err
	}
	switch names := t.namesOther(lines); {
	case told != nil && instead: // what was done instead is of some food, not of a fridge
		r.Text = fmt.Sprintf("%q stands until that message is edited or deleted. Nothing was taken back.", strings.TrimSpace(told.Text))
	case told != nil:
		if err := t.book.DropDoubt(told); err != nil {
			return r, true, err
		}
		t.told = nil
		r.Text = fmt.Sprintf("Taken back: %q. It counts no more; if it was so, say it again.", strings.TrimSpace(told.Text))
	case names != "" && !instead:
		r.Text = fmt.Sprintf("That names %s. Nothing was taken back.", names)
	default:
		return r, false, nil
	}
	if len(lines) > 0 {
		r.Text += fmt.Sprintf(` To take back %s: "undo the %s".`, was, lines[0])
	}
	return Reply{Kind: Answer, Text: r.Text}, true, nil
}

// askedOnly answers an undo right behind a question that wrote nothing, or behind the "no" to it: nothing is taken back but that
// question; to words that may be talk, near, it is silent. Done is false where the cook's last words were none of these, or some of
// them wrote something.
func (t *turn) askedOnly(near bool) (r Reply, done bool, err error) {
	of := "" // what the last was asked
	for m, err := range t.back(t.cook, t.said, 2, t.said.At.Add(-patience)) {
		if err != nil {
			return r, false, err
		}
		var was kept
		if m.Gone || json.Unmarshal(m.Reply, &was) != nil || m.Rev > 0 || len(was.Entries) > 0 {
			return r, false, nil
		}
		if changed, err := t.book.Revised(m); err != nil || len(changed) > 0 {
			return r, false, err
		}
		if was.Kind == Asking {
			of = strings.TrimSpace(m.Text)
			break
		}
		if was.Kind != Answer || !strings.HasPrefix(was.Text, leftOutSaid) || t.reader().Read(m.Text).Undo > 0 {
			return r, false, nil
		}
	}
	if of == "" {
		return r, false, nil
	}
	if asked, err := t.askedLast(); asked || err != nil { // it is dropped as one that waits
		return r, false, err
	}
	if near {
		return Reply{Kind: Silent}, true, nil
	}
	if q, ok := t.recent(); ok && q.Kind == askInstead { // of what is not here nobody waits for the answer
		if err := t.setQuestion(t.cook, nil); err != nil {
			return r, false, err
		}
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%q wrote nothing, and is not asked any more. Nothing else was taken back; say \"undo\" and its food for what was before.", of)}, true, nil
}

// mostUndone is how many of a cook's messages back what was told is looked for.
const mostUndone = 10

// toldSince is the message by which the cook told last that food may not be safe, since the one that logged something
// last; nil none, or that is too long ago.
func (t *turn) toldSince(logged []*pantry.Message) (*pantry.Message, error) {
	told, err := t.doubts()
	if err != nil || len(told) == 0 {
		return nil, err
	}
	for m, err := range t.back(t.cook, t.said, mostUndone, t.said.At.Add(-serviceLong)) {
		if err != nil {
			return nil, err
		}
		if m.Gone || m.Text == "" {
			continue
		}
		if len(logged) > 0 && m.N <= logged[0].N {
			return nil, nil
		}
		if changed, err := t.book.Revised(m); err != nil || len(changed) > 0 { // a correction, or a thing taken back
			return nil, err
		}
		if slices.ContainsFunc(told, func(d pantry.Doubt) bool { return d.Message.N == m.N && d.Told.N == m.N }) {
			return m, nil
		}
	}
	return nil, nil
}

// undoRest cuts off the words that take back: "scrap that, soup wasnt left out".
var undoRest = regexp.MustCompile(`^[^,;:.!\n-]+[,;:.!\n-]+`)

// namesOther gives the food that the rest of an undo names, if it names none of some lines; "" else.
func (t *turn) namesOther(lines []string) string {
	head := undoRest.FindString(t.m.Text)
	if head == "" || len(lines) == 0 {
		return ""
	}
	rest := strings.ToLower(t.m.Text[len(head):])
	words := wordsOfAll.FindAllString(rest, 40)
	for _, name := range lines {
		for _, w := range words {
			if key(w) == key(lastWord(name)) || t.ear.foodOf(t.k.Named(name)) != nil && t.ear.find(w).food == t.ear.foodOf(t.k.Named(name)) {
				return ""
			}
		}
	}
	food, _ := t.foodIn(rest, true)
	return food
}

// mendsTold begins what takes back in words what was told: "sorry not the curry, the naan", "oops fridge at 2 not 12".
var mendsTold = regexp.MustCompile(`(?i)^\s*(?:sorry|soz|oops|ooops|whoops|my bad|my mistake|no wait|wait|wrong|ignore that|forget that|actually|i meant|meant|false alarm|panic over)\b`)

// mendsSo is what else such words have.
var mendsSo = regexp.MustCompile(`(?i)\b(?:not|was|were|wasnt|wasn't|isnt|isn't|meant|wrong|fine|false|other|at \d)\b`)

// mindMended tells how what was told of a hazard is set right, where a cook tries to in words that are not read: it stands
// until then.
func (t *turn) mindMended(r Reply) (Reply, error) {
	if r.Kind != Silent || t.m.Delete || t.m.Press != nil || !mendsTold.MatchString(t.m.Text) || !mendsSo.MatchString(t.m.Text) {
		return r, nil
	}
	last, err := t.book.LastLogged(t.cook, 1)
	if err != nil {
		return r, err
	}
	told, err := t.toldSince(last)
	if told == nil || err != nil || t.m.At.Sub(told.At) > spokenLong {
		return r, err
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%q stands. If it was wrong, edit or delete that message, or say \"undo\" and tell it anew.", strings.TrimSpace(told.Text))}, nil
}
