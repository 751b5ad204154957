package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// An amount with its unit, and one whose unit the other of two amounts may tell.
const (
	withUnit  = `(\d[\w.,]* ?(?:kg|g|l|ml|kilos?|litres?|grams?))`
	maybeUnit = `(\d[\w.,]* ?(?:kg|g|l|ml|kilos?|litres?|grams?)?)`
)

// What a cook says an amount was that they wrote before: "chicken thighs were 4.8kg", "thighs 4.8kg actually",
// "leeks were short by 500g".
var (
	wasSaid  = regexp.MustCompile(`(?i)^\s*(?:actually |sorry |no,? )?(?:the )?([a-z' -]+?) (?:was|were) (?:only |actually |really )?` + withUnit + `(?: actually| really| in the end| in total)?[.!]?\s*$`)
	saidLast = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?) ` + withUnit + `,? (?:actually|not that|in the end|sorry|my mistake)[.!]?\s*$`)
	shortBy  = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?)(?:'s|’s| was| were| is| are| came| came in| came up) (?:short by ` + withUnit + `|` + withUnit + ` short)(?: on (?:the|that|todays|today's) (?:invoice|delivery|delivery note|note|order|bill))?[.!]?\s*$`)
)

// wasWrittenTalk corrects the last that this cook wrote of a food, use or delivery, within a service. Done is
// false where that is none, so that talk of a food stays talk.
func (t *turn) wasWrittenTalk() (r Reply, done bool, err error) {
	food, said, short := "", "", false
	if m := shortBy.FindStringSubmatch(t.m.Text); m != nil {
		food, said, short = m[1], m[2]+m[3], true
	} else if m := wasSaid.FindStringSubmatch(t.m.Text); m != nil {
		food, said = m[1], m[2]
	} else if m := saidLast.FindStringSubmatch(t.m.Text); m != nil {
		food, said = m[1], m[2]
	} else {
		return r, false, nil
	}
	a := t.reader().Answer(said).Amount
	if a.How != language.Measured {
		return r, false, nil
	}
	target, entries, i, err := t.lastEntry(t.cook, mostNotBack, func(e pantry.Entry) bool {
		return (e.Act == pantry.Receive || !short && e.Act == pantry.Use) && t.isShortly(e, food)
	})
	if err != nil || target == nil {
		return r, false, err
	}
	e, l := entries[i], t.k.Line(entries[i].Line)
	if a.Kind != l.Unit || short && a.Base >= e.Amount {
		return r, false, nil
	}
	if short {
		a.Base = e.Amount - a.Base
		a.Said = strings.TrimSpace(measure.Say(a.Base, l.Unit))
	}
	return t.mendOf(target, entries, i, l, a)
}

// isShortly says whether an entry is of a food that is called so, or so for short: "the thighs" of the chicken thighs.
func (t *turn) isShortly(e pantry.Entry, said string) bool {
	said = strings.ToLower(said)
	name := t.k.Line(e.Line).Name
	return t.isFood(e, said) || strings.HasSuffix(name, " "+said) || strings.HasSuffix(name, " "+singular(said))
}
