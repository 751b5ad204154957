package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry/measure"
)

// Claims in other words, and what is asked before one is made.
var (
	mayHave  = regexp.MustCompile(`(?i)^\s*(?:chef,? |guys,? )?(?:can|could|may) (?:i|we) (?:have|take|get|grab|nick|use) ((?:about )?\d[\d.,]* ?(?:kgs?|g|grams?|kilos?|l|ml|litres?)) (?:of )?(?:the |that )?([a-z][a-z' -]*?) for (?:a |an |the |some )?([a-z][a-z' -]*?)\s*\??\s*$`)
	isFor    = regexp.MustCompile(`(?i)^\s*(?:all )?(?:the |that |those |these )([a-z][a-z' -]*?) (?:is|are|r) (?:all )?for (?:the )?((?:wedding|banquet|buffet|function|christening|wake|party|conference|carvery|dinner|lunch|breakfast|brunch|afternoon tea)(?: [a-z]+)?)\s*[.!]?\s*$`)
	keepRest = regexp.MustCompile(`(?i)^\s*(keep|save|hold|need) (\d[\d.,]* ?(?:kgs?|g|grams?|kilos?|l|ml|litres?)|\d+)(?: of(?: the)?)?((?: [a-z'-]+)*?) for (?:the )?([a-z][a-z' -]*?)[,;.]? (?:and )?(?:the )?rest (?:is|are|is for|goes for|for|can go for|goes in) (?:the )?([a-z][a-z' -]*?)\s*[.!]?\s*$`)
)

// asClaim puts a claim into the words that are read: "the salmon sides are for the wedding". The text as it is where no
// one food on hand is meant.
func (t *turn) asClaim(text string) string {
	m := isFor.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	said := m[1]
	h := t.ear.find(said)
	for words := strings.Fields(said); (!h.exact || len(h.lines) == 0) && len(words) > 1; { // "salmon sides"
		words = words[:len(words)-1]
		said = strings.Join(words, " ")
		h = t.ear.find(said)
	}
	if !h.exact || h.sound || len(h.lines) != 1 || h.lines[0].Free() == 0 {
		return text
	}
	return "keep all the " + h.lines[0].Name + " for the " + m[2]
}

// claimTalk answers who asks for food, with what is free of it, and keeps so much of food whose rest is for something else.
// Done is false where no food on hand is meant.
func (t *turn) claimTalk(why string) (r Reply, done bool, err error) {
	if m := mayHave.FindStringSubmatch(t.m.Text); m != nil {
		h := t.ear.find(m[2])
		if !h.exact || h.sound || len(h.lines) != 1 {
			return r, false, nil
		}
		l := h.lines[0]
		return Reply{Kind: Answer, Text: fmt.Sprintf("%s Not written: \"need %s %s for the %s\" keeps it.", t.sayStock(l), strings.ReplaceAll(m[1], " ", ""), l.Name, strings.ToLower(m[3]))}, true, nil
	}
	m := keepRest.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	said := strings.TrimSpace(m[3])
	if said == "" {
		_, entries, err := t.justWritten()
		if err != nil {
			return r, false, err
		}
		if len(entries) != 1 {
			return Reply{Kind: Error, Text: fmt.Sprintf("Keep %s of what? Nothing written: say it with its food, like \"keep %[1]s salmon for the %s\".", m[2], m[4])}, true, nil
		}
		said = t.k.Line(entries[0].Line).Name
	}
	h := t.ear.find(said)
	if !h.exact || h.sound || len(h.lines) != 1 {
		return r, false, nil
	}
	whole := t.m.Text
	defer func() { t.m.Text = whole }()
	t.m.Text = fmt.Sprintf("keep %s %s for the %s", m[2], said, m[4])
	if r, err = t.answer(why); err != nil || r.Kind == Silent {
		return r, false, err
	}
	if l := t.k.Line(h.lines[0].ID); l != nil && l.Free() > 0 && r.Kind == Log {
		free := measure.Say(l.Free(), l.Unit)
		r.Text += fmt.Sprintf("\nThe rest is free, and kept for nobody: \"need %s %s for the %s\" keeps it.", strings.ReplaceAll(free, " ", ""), l.Name, strings.ToLower(m[5]))
	}
	return r, true, nil
}
