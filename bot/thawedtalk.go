package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// What is told of frozen food that has thawed, in words besides those of the tables: "prawns have thawed", "prawns all
// soft", "chicken out the freezer to defrost". All that is frozen of it has the date of thawed food from then on.

const (
	thawedFood = `(?P<amount>\d[\d.,]* ?(?:kgs?|kilos?|g|grams?|l|litres?|ml|lbs?|oz) (?:of )?)?(?:all )?(?:of )?(?:the |our |that |those )?(?P<food>[a-z][a-z' ,&-]*?)`
	thawedHow  = `(?: (?:has|have|had|is|are|were|was|been|be|being|got|gone|went|now|all|already|fully|completely|totally|nearly|almost|half|partly|a bit|really|just|quite|looks?|feels?|theyre|its))*`
	thawedWhen = `(?: (?:now|already|overnight|today|yesterday|last night|this morning|this afternoon|in (?:the )?(?:fridge|walk-?in|chiller)|in there|at last|through|again|for (?:tonight|tomorrow|lunch|dinner|service|later)))*`
	thawedEnds = thawedWhen + `\s*(?:[.!]*|[,;.!-]*\s*(?P<rest>(?:can|could|may|is|are|do|does|ok|okay|safe|what|how|should|shall)\b.*))\s*$`
)

var (
	thawedForms = []*regexp.Regexp{
		regexp.MustCompile(`(?i)^\s*` + thawedFood + `(?:s|ve|'ve|'s)?` + thawedHow + ` (?:thawed|defrosted|unfrozen|thawing|defrosting|melted|soft)(?: out)?` + thawedEnds),
		regexp.MustCompile(`(?i)^\s*` + thawedFood + `(?: (?:is|are|was|were|has|have|been|came|come|taken|brought|pulled|moved|just|now))* (?:out|down) (?:of |from )?(?:the |our )?freezer(?: to| for)?(?: (?:defrost|thaw|defrosting|thawing))?(?: out)?` + thawedEnds),
		regexp.MustCompile(`(?i)^\s*` + thawedFood + `(?: (?:is|are|was|were|has|have|been|put|left|moved))* (?:in|into) (?:the |our )?(?:fridge|walk-?in|chiller|sink) (?:to|for) (?:defrost|thaw)(?:ing)?(?: out)?` + thawedEnds),
		regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve |i've |we've |im |we're |were |just |am )*(?:defrosting|thawing|put|left|moved)(?: out)? ` + thawedFood + `(?: out)?(?: (?:in|into|on) (?:the |our )?(?:fridge|walk-?in|chiller))?(?: to (?:defrost|thaw)(?: out)?)` + thawedEnds),
		regexp.MustCompile(`(?i)^\s*(?:i |we |im |we're |were |just |am )*(?:defrosting|thawing) ` + thawedFood + thawedEnds),
	}
	thawsAt   = regexp.MustCompile(`(?i)thaw|defrost|unfrozen|melted|\bsoft\b|freezer`)
	notThawed = regexp.MustCompile(`(?i)^\s*(?:get|take|grab|bring|move|pull|need|can|could|please|is|are|has|have|did|does|when|how|who|what|whats|if|make sure|remember|someone|somebody|dont|don't|never|no|any)\b|\bnot\b|n't\b|\bstill (?:frozen|hard)\b|\b(?:havent|hasnt|isnt|arent)\b`)
	asksFroze = regexp.MustCompile(`(?i)\b(?:re-?freez\w*|re-?frozen?|freeze|frozen|freezer)\b`)
	thawsAnd  = regexp.MustCompile(`(?i)\s*(?:,|&|\band\b)\s*(?:the |our )?`)
)

// thawedTalk writes that all there is of some frozen food has thawed, and answers whether it may be frozen again where
// that is asked with it. Done is false where none of it is frozen here.
func (t *turn) thawedTalk(why string) (r Reply, done bool, err error) {
	if !thawsAt.MatchString(t.m.Text) || notThawed.MatchString(t.m.Text) {
		return r, false, nil
	}
	for _, x := range thawedForms {
		m := x.FindStringSubmatch(t.m.Text)
		if m == nil {
			continue
		}
		names := thawsAnd.Split(m[x.SubexpIndex("food")], -1)
		a, measured := t.amountSaid(strings.TrimSuffix(strings.TrimSpace(m[x.SubexpIndex("amount")]), " of"))
		if m[x.SubexpIndex("amount")] == "" {
			a = language.Amount{}
		} else if !measured || len(names) > 1 {
			return r, false, nil
		}
		var list []draft
		for _, name := range names {
			d := t.thaws(name)
			if d == nil {
				text := ""
				if lines, _ := t.heldLines(name); len(lines) > 0 && asksFroze.MatchString(m[x.SubexpIndex("rest")]) { // it had thawed before
					text = t.sayRules("refreezing", name, t.ear.foodOf(lines[0]))
				}
				return Reply{Kind: Answer, Text: text}, text != "", nil
			}
			d.Amount = a
			list = append(list, *d)
		}
		if r, err = t.write(list, why); err != nil || r.Kind == Silent {
			return r, false, err
		}
		if asksFroze.MatchString(m[x.SubexpIndex("rest")]) {
			r.Text += "\n" + t.sayRules("refreezing", names[0], t.ear.find(names[0]).food)
		}
		return r, true, nil
	}
	return r, false, nil
}

// thaws drafts that what is frozen of a food has thawed; nil where nothing of it is frozen. Of several lines it is asked
// which.
func (t *turn) thaws(name string) *draft {
	d := &draft{Act: pantry.Count, Food: strings.ToLower(name), State: food.Thawed, Day: t.day()}
	lines, _ := t.heldLines(name)
	if len(lines) == 0 {
		lines = t.madeNamed(name)
	}
	for _, l := range lines {
		if isFrozen(l) {
			d.Among = append(d.Among, l.ID)
		}
	}
	switch len(d.Among) {
	case 0:
		return nil
	case 1:
		d.Line, d.Among = d.Among[0], nil
	}
	return d
}

// isFrozen says whether some of a line is frozen: as it was told, or as its name has it.
func isFrozen(l *pantry.Line) bool {
	frozen, _ := l.In(food.Frozen)
	came, _ := l.In("")
	return frozen > 0 || came > 0 && strings.HasPrefix(l.Name, "frozen ")
}
