package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// A correction of what was told of heat and cold: it changes what was told, and never what came in.

const (
	mendOpens = `^\s*(?:no|nope|nah|sorry|oops|wait|actually|my bad|my mistake|scrap that|hang on)[,.!]?(?: (?:sorry|no|wait|actually|chef|guys)[,.!]?)* `
	mendFood  = `([a-z][a-z' -]{1,40}?)`
	mendWas   = `(?:was|were|is|are|has been|had been)`
	mendNot   = `(?:wasn'?t|weren'?t|was not|were not|isn'?t|is not|aren'?t|hasn'?t been|hadn'?t been|was never)`
	mendHow   = `(?: (?:out|left out|left|warm|it|the one|on the side|over ?night|all night|on the (?:pass|bench|counter|stove)|off|that was out|the one (?:that was )?(?:left )?out|probed|slimy|smelly))*`
	mendCold  = `((?:[a-z]+ )?(?:fridge|freezer|walk-?in|chiller|cooler|lowboy)(?: \d)?)`
)

var (
	mendIsFood = regexp.MustCompile(`(?i)` + mendOpens + `(?:that|it|this|they|those)(?:'s|s| ` + mendWas + `)? (?:actually |only |just )?(?:the )?` + mendFood + mendHow + `(?:,? (?:and )?not (?:the )?` + mendFood + `)?[\s.!]*$`)
	mendNotIt  = regexp.MustCompile(`(?i)^\s*(?:(?:no|sorry|oops|wait|actually|my bad)[,.!]? )*(?:the )?` + mendFood + ` ` + mendNot + mendHow + `[,.;]? (?:and |but )?(?:(?:it|that|they|this)(?: ` + mendWas + `|'s|s)|was) (?:actually |only |just )?(?:the )?` + mendFood + mendHow + `[\s.!]*$`)
	mendIsCold = regexp.MustCompile(`(?i)^\s*(?:(?:no|sorry|oops|wait|actually|my bad)[,.!]? )*(?:it|that) (?:was|is) (?:the )?` + mendCold + `(?: (?:that was|that is|at|reading|was))*(?: -?[\d.]+ ?(?:c|f)?)?,? (?:and )?not (?:the )?` + mendCold + `[\s.!]*$`)
	mendHint   = regexp.MustCompile(`(?i)^\s*(?:no|nope|nah|sorry|oops|wait|actually|my|scrap|hang)\b|\bnot\b|n'?t\b|\bnever\b`)
)

// mendsFor is for how long what was told is corrected by what the cook says next, mendsNamed where it is named. The program's own
// choice.
const (
	mendsFor   = 30 * time.Minute
	mendsNamed = 12 * time.Hour
)

// toldMending is a correction of what another message told.
type toldMending struct {
	of         *pantry.Message // nil: of none, it tells it itself
	was, food  string          // "" was: all that it named first
	place      string          // a fridge; "" none
	coldBefore string          // the fridge that it was not
}

// mendsTold reads that a message corrects what another told before it; nil it does not.
func (t *turn) mendsTold(m *pantry.Message, text string) *toldMending {
	if len(text) > longest/20 || !mendHint.MatchString(text) {
		return nil
	}
	var x toldMending
	switch {
	case mendIsCold.MatchString(text):
		s := mendIsCold.FindStringSubmatch(text)
		x.place, x.coldBefore = strings.ToLower(s[1]), strings.ToLower(s[2])
	case mendIsFood.MatchString(text):
		s := mendIsFood.FindStringSubmatch(text)
		x.food, x.was = s[1], s[2]
	case mendNotIt.MatchString(text):
		s := mendNotIt.FindStringSubmatch(text)
		x.food, x.was = s[2], s[1]
	default:
		return nil
	}
	if x.place == "" && (t.toldFood(x.food) == "" || isPronoun(x.food) || x.was != "" && t.toldFood(x.was) == "") {
		return nil
	}
	told, err := t.doubts()
	if err != nil {
		return nil
	}
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.N >= m.N || d.Told.Gone || m.At.Sub(d.Told.At) > mendsNamed {
			continue
		}
		q, _ := t.hazardIn(d.Told.Text)
		if q == nil {
			continue
		}
		foods := append([]string{q.Food}, q.Also...)
		switch {
		case x.place != "" && q.Place != "" && samePlace(q.Place, x.coldBefore),
			x.place == "" && x.was != "" && slices.ContainsFunc(foods, func(f string) bool { return f != "" && t.sameFood(f, x.was) }),
			x.place == "" && x.was == "" && q.Food != "" && d.Told.Cook == m.Cook && m.At.Sub(d.Told.At) <= mendsFor:
			x.of = d.Told
			return &x
		case x.was == "" && x.place == "" && d.Told.Cook == m.Cook:
			return nil
		}
	}
	if x.was == "" || x.place != "" || !mendNotIt.MatchString(text) || !mendTellsOut.MatchString(text) {
		return nil
	}
	return &x
}

// mendTellsOut is that something stood out, in a correction of what nobody told.
var mendTellsOut = regexp.MustCompile(`(?i)\bout\b|on the (?:side|bench|counter|stove)|over ?night|all night`)

// samePlace says whether two fridges are the same, as far as they are named.
func samePlace(a, b string) bool {
	plain := strings.NewReplacer("the ", "", "-", " ", "number ", "", "no ", "")
	a, b = plain.Replace(strings.ToLower(a)), plain.Replace(strings.ToLower(b))
	return a == b || !strings.ContainsAny(a+b, digits) && (strings.HasSuffix(a, " "+b) || strings.HasSuffix(b, " "+a))
}

// toldBy is hazardIn of what a message told, as it was corrected since.
func (t *turn) toldBy(m *pantry.Message) (q *language.Question, lines []*pantry.Line, at *pantry.Message) {
	if x := t.mendsTold(m, m.Text); x != nil {
		q, at = t.mended(x, m)
		return q, nil, at
	}
	q, lines = t.hazardIn(m.Text)
	if q == nil || q.Food == "" && q.Place == "" {
		return q, lines, m
	}
	told, err := t.doubts()
	if err != nil {
		return q, lines, m
	}
	for _, d := range told {
		if d.Message.N <= m.N || d.Message.N != d.Told.N || d.Told.Gone {
			continue
		}
		x := t.mendsTold(d.Told, d.Told.Text)
		if x == nil || x.of == nil || x.of.N != m.N {
			continue
		}
		if x.place != "" || len(q.Also) == 0 {
			return nil, nil, m
		}
		rest := slices.DeleteFunc(append([]string{q.Food}, q.Also...), func(f string) bool { return x.was == "" && f == q.Food || x.was != "" && t.sameFood(f, x.was) })
		if len(rest) == 0 {
			return nil, nil, m
		}
		return withFoods(q, rest), nil, m
	}
	return q, lines, m
}

func withFoods(q *language.Question, list []string) *language.Question {
	one := *q
	one.Food, one.Also = list[0], list[1:]
	return &one
}

// mended is what was told as a correction has it, and the message that told when.
func (t *turn) mended(x *toldMending, m *pantry.Message) (*language.Question, *pantry.Message) {
	if x.of == nil {
		return &language.Question{About: language.AboutStoodHours, Food: x.food}, m
	}
	q, _ := t.hazardIn(x.of.Text)
	if q == nil {
		return nil, m
	}
	if x.place != "" {
		one := *q
		one.Place = x.place
		return &one, x.of
	}
	return withFoods(q, []string{x.food}), x.of
}

// mendToldTalk answers a correction of what was told of heat or cold. Done is false where the message is none.
func (t *turn) mendToldTalk() (r Reply, done bool, err error) {
	x := t.mendsTold(t.said, t.m.Text)
	if x == nil {
		return r, false, nil
	}
	if x.of != nil && x.was == "" && x.place == "" { // it is of what was said last
		if last, err := t.book.Heard(t.cook, t.said); err != nil || last == nil || last.N != x.of.N {
			return r, false, err
		}
	}
	q, at := t.mended(x, t.said)
	if q == nil {
		return r, false, nil
	}
	text := t.m.Text
	if x.of != nil {
		text = x.of.Text
	}
	t.outSince(q, text, at.At)
	if r, done, err = t.sayTold(q, text); err != nil || !done && q.Food == "" {
		return r, done, err
	}
	if !done {
		r = Reply{Kind: Answer, Text: fmt.Sprintf("%s: no rule here has it in the fridge alone. Go by its label; in doubt, bin it.%s", title(strings.ToLower(q.Food)), ownRules)}
	}
	was := x.was
	if x.place != "" {
		r.Text = exactly(r.Text, q.N, text, t.country())
	}
	switch {
	case x.of == nil:
	case x.place != "":
		r.Text += fmt.Sprintf("\n%s: what was told of it at %s is taken back.", title(x.coldBefore), at.At.In(t.m.At.Location()).Format("15:04"))
	default:
		if was == "" {
			if told, _ := t.hazardIn(x.of.Text); told != nil {
				was = told.Food
			}
		}
		r.Text += fmt.Sprintf("\n%s: what was told of it at %s is taken back, on your word.", title(strings.ToLower(was)), at.At.In(t.m.At.Location()).Format("15:04"))
	}
	return r, true, nil
}
