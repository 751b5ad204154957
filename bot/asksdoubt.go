package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// asksOf are questions of what may be done with food: whatever else is answered, what was told against it comes first.
var asksOf = regexp.MustCompile(`(?i)\?|^\s*(?:and |so |but |ok |right )*(?:can|could|may|should|shall|do|does|is|are|what|how|when|any)\b|\b(?:ok|okay|alright|fine|good|safe)(?: (?:to|for|now|then)\b.*)?\s*[?.!]*$`)

// asksHowMuch are questions that ask for no leave.
var asksHowMuch = regexp.MustCompile(`(?i)\b(?:how (?:much|many)|whats|what's|what is|who|where|any|got|left)\b`)

// asksHow asks how a thing is done, or by which figure.
var asksHow = regexp.MustCompile(`(?i)^\s*(?:and |so |ok )?(?:how (?:do|to|hot|cold|should)|what temp|whats the temp|what's the temp|what is the temp)\b`)

// asksHowLong asks no leave, but how a thing is done or for how long.
var asksHowLong = regexp.MustCompile(`(?i)^\s*(?:and |so |ok |right )*(?:how|when|why|what)\b`)

// mindAsked puts before the answer to a question about food what was told against that food, and answers it where
// nothing else does: silence, or its weight, would be taken for leave.
func (t *turn) mindAsked(r Reply) (Reply, error) {
	if r, err := t.mindToldOf(r); err != nil {
		return r, err
	} else if r.Kind != Silent && r.Kind != Answer {
		return r, nil
	} else {
		return t.mindPast(r)
	}
}

// mindPast puts before the answer to such a question that the food is past its use-by.
func (t *turn) mindPast(r Reply) (Reply, error) {
	if t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 || !asksOf.MatchString(t.m.Text) || asksHowMuch.MatchString(t.m.Text) || asksHowLong.MatchString(t.m.Text) || strings.Contains(strings.ToLower(r.Text), "past its use-by") {
		return r, nil
	}
	name, lines := t.foodIn(strings.ToLower(t.m.Text), true)
	if name == "" {
		return r, nil
	}
	if len(lines) == 0 { // "the pie" is the chicken pie
		lines, _ = t.heldLines(name)
	}
	list, _, err := t.heldOf(lines)
	if err != nil {
		return r, err
	}
	if len(list) == 0 {
		if list, err = t.leftOf(name); err != nil {
			return r, err
		}
	}
	var says []string
	for _, h := range list {
		if h.days < 0 && h.UseBy && len(says) < mostTold {
			says = append(says, h.sayTill(t.day(), t.day(), false))
		}
	}
	if len(says) == 0 {
		return r, nil
	}
	r.Kind, r.Text = Answer, strings.TrimSpace(strings.Join(says, "\n")+"\n"+r.Text)
	return r, nil
}

// mindToldOf is mindAsked of what was told.
func (t *turn) mindToldOf(r Reply) (Reply, error) {
	if r.Kind != Silent && r.Kind != Answer || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 || !asksOf.MatchString(t.m.Text) {
		return r, nil
	}
	told, err := t.doubts()
	if err != nil || len(told) == 0 {
		return r, err
	}
	q, _ := t.hazardIn(t.m.Text)
	if q != nil && q.About != aboutReading { // it tells it now
		return r, nil
	}
	mere := q != nil || asksHow.MatchString(t.m.Text) // what is in doubt is told where leave is asked for
	name, lines := t.foodIn(strings.ToLower(t.m.Text), true)
	if name == "" {
		return r, nil
	}
	if len(lines) == 0 { // "the pie" is the chicken pie
		lines, _ = t.heldLines(name)
	}
	if said, err := t.reheatedAsked(lines); said != "" || err != nil {
		r.Kind, r.Text = Answer, strings.TrimSpace(said+"\n"+r.Text)
		return r, err
	}
	list, err := t.warmOf(slices.DeleteFunc(slices.Clone(lines), t.needsNoFridge))
	if err != nil {
		return r, err
	}
	if dish, _, err := t.cooked(name); err != nil {
		return r, err
	} else if dish != "" && len(list) == 0 {
		w, err := t.warmDish(dish)
		if err != nil {
			return r, err
		}
		if w != nil {
			list = append(list, *w)
		}
	}
	if len(list) == 0 { // what was told of it is of food by another name, or of none that was logged
		if list, err = t.warmNamed(name, lines); err != nil {
			return r, err
		}
	}
	howMuch := r.Kind == Answer && asksHowMuch.MatchString(t.m.Text)
	var says []string
	all := len(list) > 0 && !howMuch // of it is to be binned
	for _, w := range list {
		over := t.isOver(w)
		all = all && over && w.came == 0
		switch {
		case over && howMuch:
			says = append(says, "Bin it: "+t.sayWarm(w))
		case over:
			says = append(says, "No: bin the "+strings.TrimPrefix(name, "the ")+". "+t.sayWarm(w))
		case !howMuch && !mere:
			says = append(says, t.sayWarm(w))
		}
	}
	if len(says) == 0 || strings.Contains(r.Text, fmt.Sprintf("%q", list[0].said.Text)) {
		return r, nil
	}
	if r.Kind = Answer; all && !isWeighed.MatchString(r.Text) { // no recipe for it, nor how long it keeps
		r.Text = ""
	}
	r.Text = strings.TrimSpace(strings.Join(says, "\n") + "\n" + r.Text)
	return r, nil
}

// isWeighed is an answer that tells how much there is.
var isWeighed = regexp.MustCompile(`^[^\n]*: [\d.,]+ (?:kg|g|l|ml)\.?[^\n]*$`)

// warmNamed is warmCalled of food that is on no line, or on none that must be chilled, and came on none since.
func (t *turn) warmNamed(name string, lines []*pantry.Line) ([]warm, error) {
	w, err := t.warmCalled(name)
	if w == nil || err != nil {
		return nil, err
	}
	if stood := w.why.About == language.AboutStood || w.why.About == language.AboutStoodHours; stood && len(lines) > 0 && t.keptAs(name) == "" && t.keepsOut(lines) { // muesli
		return nil, nil
	}
	for _, l := range lines {
		by, err := t.book.CameWith(l.ID)
		if err != nil || !t.needsNoFridge(l) || by != nil && by.At.After(w.said.At) {
			return nil, err
		}
	}
	return []warm{*w}, nil
}
