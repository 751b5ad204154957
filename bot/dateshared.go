package bot

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// Dates of several foods at once: "got 2l milk and 1l cream use by 9/3", "..., all use by 5/3", and later "both use by today",
// "milk and cream use by 9/3".

var (
	// labelBehind is a date right behind so much of food that is named before it: "prawns 3kg ub 5/3".
	labelBehind = regexp.MustCompile(`(?i)([a-z] \d[\d.]* ?(?:kgs?|kilos?|g|grams?|l|ltrs?|litres?|ml|lbs?|oz|pints?|pts?)) (` + doorDate + `)`)
	// labelOfAll says that a date is of all that came.
	labelOfAll = regexp.MustCompile(`(?i)[,;.]?\s+(?:and |with |they |they're |theyre )*(?:all|both|everything|the lot)(?: (?:of (?:it|them|those)|are|is|has|have|with|got|say|says|dated))*,? (` + doorDate + `)`)
	// labelApart is a date behind a full stop, a dash, or "and": it is still of what stands before.
	labelApart = regexp.MustCompile(`(?i)(?:\s*[./;]\s*|\s+[-–]\s+|\s+(?:and|with)\s+(?:the |a )?)(` + doorDate + `)`)
	// bracketDate is a date in brackets.
	bracketDate = regexp.MustCompile(`(?i),? ?\((` + doorDate + `[^()]*)\)`)
	labelIs     = regexp.MustCompile(`(?i)\b(` + doorDate + `)(?: date)? (?:is|was|says|are) `)
	labelSaid   = regexp.MustCompile(`(?i)\b` + doorDate)
	// twoJoined are two foods that came, joined by "and", and a date behind both.
	twoJoined = regexp.MustCompile(`(?i)^[^,;\n]*?\d[^,;\n]*? (?:and|&|n) [^,;\n]*?,? ?` + doorDate + `[^,;\n]*$`)
	labelLast = regexp.MustCompile(`(?i)` + doorDate + `[^,;\n]* (?:all|both|everything|all of (?:it|them))[\s.!]*$`)
	allDated  = regexp.MustCompile(`(?i)^\s*(?:and |they'?re |they |they are )*(?:all|both|everything|the lot)(?: (?:of (?:it|them|those)|are|is|has|have|say|says|dated))*,? (` + doorDate + `.*)$`)
	eachDated = regexp.MustCompile(`(?i)^\s*(?:the |all the )?([a-z][a-z' ,&-]*?(?:,| and | & | n )[a-z' ,&-]*?)(?: (?:are|is|all|both))* (` + doorDate + `.*)$`)
	datedAnd  = regexp.MustCompile(`\s*(?:,|&|\band\b|\bn\b)\s*(?:the )?`)
)

// withLabels puts the dates of what comes in where they are read.
func withLabels(text string) string {
	if !comesIn.MatchString(text) || !labelSaid.MatchString(text) {
		return text
	}
	text = labelIs.ReplaceAllString(bracketDate.ReplaceAllString(text, ", $1"), "$1 ")
	text = labelApart.ReplaceAllString(text, ", $1")
	return labelBehind.ReplaceAllString(labelOfAll.ReplaceAllString(text, " $1"), "$1, $2")
}

// shareDate gives the one date that is told of all that comes in to each of it.
func (t *turn) shareDate(list []draft) {
	comes := func(d draft) bool { return d.Act == pantry.Receive }
	i := slices.IndexFunc(list, func(d draft) bool { return comes(d) && d.Label })
	whole := t.wholeText()
	if i < 0 || len(list) < 2 || len(labelSaid.FindAllString(whole, 3)) != 1 || !labelOfAll.MatchString(whole) && !labelLast.MatchString(whole) && !(len(list) == 2 && twoJoined.MatchString(whole)) {
		return
	}
	for k := range list {
		if comes(list[k]) && list[k].Date == "" {
			list[k].Date, list[k].Label, list[k].Best = list[i].Date, true, list[i].Best
		}
	}
}

// wholeText is the message as it was said.
func (t *turn) wholeText() string { return cmp.Or(t.wholeSaid, t.m.Text) }

// sayLabels tells which dates several foods came in with, as far as labels were told: "Use by: haddock Wed 4 Mar, cod Thu 5 Mar."
func (t *turn) sayLabels(list []pantry.Entry) string {
	var says []string
	for _, best := range []bool{false, true} {
		var of []string
		for _, e := range list {
			if e.Act == pantry.Receive && e.Lot.Label && e.Lot.Date != "" && e.Lot.Best == best {
				of = append(of, t.k.Line(e.Line).Name+" "+t.sayDate(e.Lot.Date))
			}
		}
		if len(of) > 0 {
			says = append(says, map[bool]string{false: "Use by: ", true: "Best before: "}[best]+strings.Join(of, ", ")+".")
		}
	}
	if len(list) < 2 || len(says) == 0 {
		return ""
	}
	return "\n" + strings.Join(says, " ")
}

// datesTogether gives several foods that have come in one date. Done is false where none is told of several.
func (t *turn) datesTogether() (r Reply, done bool, err error) {
	text := strings.TrimRight(t.m.Text, " .!")
	if asksThis.MatchString(text) || strings.ContainsAny(text[:min(len(text), 3)], digits) {
		return r, false, nil
	}
	var lines []*pantry.Line
	label := ""
	if m := allDated.FindStringSubmatch(text); m != nil {
		label = m[1]
		_, entries, err := t.justWritten()
		if err != nil {
			return r, false, err
		}
		for _, e := range entries {
			if e.Act == pantry.Receive {
				lines = append(lines, t.k.Line(e.Line))
			}
		}
	} else if m := eachDated.FindStringSubmatch(text); m != nil {
		label = m[2]
		for _, name := range datedAnd.Split(m[1], -1) {
			if name = strings.TrimSpace(name); name == "" {
				continue
			}
			of, err := t.datedLines(&language.Question{About: language.AboutUseBy, Food: name})
			if err != nil || len(of) != 1 {
				return r, false, err
			}
			lines = append(lines, of[0])
		}
	}
	q := t.reader().DateTalk(label)
	if len(lines) < 2 || q == nil {
		return r, false, nil
	}
	when, ok := day(q.Date, t.said.At.In(t.m.At.Location()))
	if !ok {
		return Reply{Kind: Answer, Text: "That is no day of the calendar."}, true, nil
	}
	var says []string
	for _, l := range lines {
		one, err := t.redate(l, pantry.DateOf(when), q.About == language.AboutBestBy || q.About == language.AboutItsBestBy)
		if err != nil {
			return r, false, err
		}
		if one.Kind == Silent {
			continue
		}
		r.Kind, r.Entries, says = one.Kind, append(r.Entries, one.Entries...), append(says, one.Text)
	}
	r.Text = strings.Join(says, "\n")
	return r, len(says) > 0, nil
}
