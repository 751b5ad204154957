package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// patience is how long a question waits for its answer.
const patience = 10 * time.Minute

// mostOptions is how many options a question offers.
const mostOptions = 4

// The kinds of question.
const (
	askWhich   = "which"   // two foods fit equally
	askInstead = "instead" // none fits; the nearest are offered
	askAmount  = "amount"  // how much
	askMuch    = "much"    // more than twice what is on hand
	askUnit    = "unit"    // so many pieces, or grams
	askDone    = "done"    // an order or hearsay: has it happened
	askLeap    = "leap"    // a correction that may be about something else
	askNew     = "new"     // a food that no table knows
	askName    = "name"    // another name for a food
	askEntry   = "entry"   // which entry a correction is about
	askEach    = "each"    // a weight of all, or of each
	askFrozen  = "frozen"  // a count of all, or of what is not frozen
	askMore    = "more"    // ideas have been shown; "more" shows others
	askPlan    = "plan"    // a plan has been shown
	askWeigh   = "weigh"   // what the scales say of a line
	askFresh   = "fresh"   // some of it was thawed: what is frozen is not of that
	askNeed    = "need"    // somebody at the table is allergic to it
)

// pending is a question that a cook has not answered, as it is kept.
type pending struct {
	Kind    string
	About   string
	Options []option `json:",omitempty"`
	Part    string   `json:",omitempty"` // of an amount: "packet"
	Means   string   `json:",omitempty"` // of a name: what it is to stand for
	Draft   draft
	Rest    []pending       `json:",omitempty"` // what else is to be asked
	Asked   string          `json:",omitempty"` // of one of Rest: the message it was asked about, if another
	Replace int             `json:",omitempty"` // the answer replaces that entry of the message, counted from 1; 0 adds one
	Was     string          `json:",omitempty"` // of a leap: the amounts; of a need: what breaks it, and what "yes" does; of too much out of a pot: what there was
	Now     string          `json:",omitempty"`
	Amend   *language.Amend `json:",omitempty"` // of an entry: the correction
	Item    string          `json:",omitempty"` // of ideas: for which food
	Also    []string        `json:",omitempty"` // of ideas: for which foods besides
	Limits  language.Limits `json:",omitzero"`  // of ideas: what they are held to
	Shown   []shown         `json:",omitempty"` // of ideas: those shown, in the order of their numbers
	Latest  int             `json:",omitempty"` // of ideas: how many of those were shown last
	On      string          `json:",omitempty"` // the posting that asks it; "" none
	Behind  bool            `json:",omitempty"` // another was asked since, which nobody waits for
	Until   time.Time       `json:",omitzero"`  // how long it waits, where it was asked late
	Unread  bool            `json:",omitempty"` // it was told to be not read, and is not asked again
	Told    bool            `json:",omitempty"` // of one of Rest: it is told with the question: see gather

	Planned planned `json:",omitzero"` // of a plan: what was shown

	Ideas *pantry.Question `json:",omitempty"` // the ideas that the cook was shown before it was asked
}

// option is one answer offered.
type option struct {
	Label string
	Line  int64          `json:",omitempty"`
	All   bool           `json:",omitempty"` // all that is on hand
	Base  measure.Amount `json:",omitempty"` // that much, of Kind
	Kind  measure.Kind   `json:",omitempty"`
	Yes   bool           `json:",omitempty"`
	Entry int            `json:",omitempty"` // that entry of the message, counted from 1
}

func lineOptions(lines []*pantry.Line) (list []option) {
	for _, l := range lines[:min(len(lines), mostOptions)] {
		list = append(list, option{Label: l.Name, Line: l.ID})
	}
	return list
}

func whichOf(d *draft, lines []*pantry.Line) *pending {
	return &pending{Kind: askWhich, About: singular(strings.ToLower(d.Food)), Options: lineOptions(lines), Draft: *d}
}

func (t *turn) howMuch(d *draft, l *pantry.Line) *pending {
	q := &pending{Kind: askAmount, About: t.called(d, l), Draft: *d}
	if d.Trim && d.Off != "" { // of the peel, not of the food
		q.About += " " + d.Off
	}
	if l != nil && l.OnHand() > 0 && d.Act != pantry.Receive && d.Act != pantry.Return && d.Off == "" {
		q.Options = []option{{Label: "all of it", All: true}}
	}
	return q
}

// text puts the question in words, and says with it whom the food would harm.
func (q *pending) text(t *turn) string { return q.words(t) + t.mind(q) }

func (q *pending) words(t *turn) string {
	var labels []string
	for i, o := range q.Options {
		labels = append(labels, fmt.Sprintf("%s (%d)", o.Label, i+1))
	}
	choice := both(labels, "or")
	switch q.Kind {
	case askWeigh:
		return t.sayScales(q)
	case askWhich:
		return fmt.Sprintf("Which %s: %s?", q.About, choice)
	case askInstead:
		if len(labels) == 0 && t.notPutBy(&q.Draft) {
			return fmt.Sprintf(`None of the %s is put by. Nothing written: say what is left of it first ("%s %s left").`, q.About, q.Draft.Amount.Said, q.About) + t.heed(q)
		}
		if len(labels) == 0 {
			return fmt.Sprintf("No %s in the pantry. Nothing written: say what it was, or take it in first (\"got 500g %s\").", q.About, q.About) + t.heed(q)
		}
		if q.Draft.Act == pantry.Receive {
			return fmt.Sprintf("No table knows %s. Is it %s? Or \"no\".", q.About, choice)
		}
		return fmt.Sprintf("No %s in the pantry. Did you mean %s? Or \"no\".", q.About, choice) + t.heed(q)
	case askEntry:
		return fmt.Sprintf("Which is %s: %s?", cmp.Or(q.About, "that"), choice)
	case askEach, askUnit, askFrozen:
		return fmt.Sprintf("%s: %s?", title(q.About), choice)
	case askMuch:
		if q.Was != "" { // of a pot
			return title(q.said()) + "? " + q.Was + ". Say \"yes\", or the right amount."
		}
		l := t.k.Line(q.Draft.Line)
		hand := "Only " + measure.Say(l.OnHand(), l.Unit) + " is on hand. Say \"yes\", the right amount, or \"all of it\"."
		if l.OnHand() == 0 {
			hand = "None is on hand. Say \"yes\", or the right amount."
		}
		return title(q.said()) + "? " + hand
	case askFresh:
		return fmt.Sprintf("Not frozen yet: %s of the %s was thawed, and that is not frozen again. If it is of the rest, which never was frozen, say \"yes\".", q.Was, q.About)
	case askDone:
		into := ""
		if q.Draft.Dish != "" {
			if into = " into the " + q.Draft.Dish; q.Draft.Dish == pantry.AwayTo(supplier) {
				into = " back to " + supplier
			}
		}
		return fmt.Sprintf("Done already: %s%s? Say \"yes\" and it is written.", q.said(), into)
	case askLeap:
		return fmt.Sprintf("%s %s, not %s? Say \"yes\" to change it.", title(q.About), q.Now, q.Was)
	case askName:
		return fmt.Sprintf("Is %q another name for %s here? Say \"yes\", and it is.", q.About, q.Means)
	case askNeed:
		return q.sayNeed()
	case askNew:
		return fmt.Sprintf("Is %s a food to keep count of? Say \"yes\", or give its weight (\"got 500g %s\").", q.About, q.About)
	}
	if q.Part != "" {
		return fmt.Sprintf("How much is a %s of %s? Say it in grams or millilitres.", q.Part, q.About)
	}
	if q.counted() {
		return fmt.Sprintf("How heavy are %s %s? In all, or \"80g each\".", q.Draft.Amount.Said, plural(q.About))
	}
	if choice != "" {
		return fmt.Sprintf("How much %s? An amount, or \"all of it\".", q.About)
	}
	return fmt.Sprintf("How much %s? Say an amount, like \"300g\".", q.About)
}

// counted says whether how much is asked of food that was counted, so that the weight of one is an
// answer.
func (q *pending) counted() bool {
	return (q.Kind == askAmount || q.Kind == askNew) && q.Draft.Amount.How == language.Pieces && q.Draft.Amount.N.Num > q.Draft.Amount.N.Den
}

// said is the amount and the food in the cook's words: "3kg leek".
func (q *pending) said() string {
	return strings.TrimSpace(q.Draft.Amount.Said + " " + strings.ToLower(q.Draft.Food))
}

// ask keeps the question for the cook and gives it as a reply.
func (t *turn) ask(list []pending, about *pantry.Message) (Reply, error) {
	list = openLast(list)
	q := list[0]
	q.Rest = list[1:]
	q.gather()
	kept := q
	if old, message, ok, err := t.before(); err != nil {
		return Reply{}, err
	} else if ok { // what was asked before is not forgotten
		q.Rest = append(q.Rest, old.all(message)...)
		for i := range q.Rest {
			if q.Rest[i].Asked == about.ID {
				q.Rest[i].Asked = ""
			}
		}
		kept = q
		if q.idle() { // nobody waits for this one: what waits for an answer is the next to be answered
			kept, about = t.firstOpen(q, about)
		}
	}
	if len(kept.Options) > 0 || kept.Kind == askAmount || kept.Kind == askWeigh || kept.Kind == askInstead {
		if err := t.keep(kept, about.ID); err != nil {
			return Reply{}, err
		}
	}
	r := Reply{Kind: Asking, Text: q.text(t) + q.sayRest(), Ask: &Ask{About: q.About, Options: []string{}}}
	for _, o := range q.Options {
		r.Ask.Options = append(r.Ask.Options, o.Label)
	}
	return r, nil
}

// before gives what the cook was asked before, in this service, and has not answered; not ok where there
// is nothing, or nothing but ideas or a plan that were shown.
func (t *turn) before() (q pending, message string, ok bool, err error) {
	kept := t.k.Questions[t.cook]
	if kept == nil || t.m.At.Sub(kept.At) > serviceLong {
		return q, "", false, nil
	}
	q, message, err = t.open()
	return q, message, err == nil && !q.isShown() && q.Kind != askWeigh || err == nil && t.waiting(), err
}

// firstOpen puts the first question that waits for an answer before one that does not.
func (t *turn) firstOpen(q pending, about *pantry.Message) (pending, *pantry.Message) {
	i := slices.IndexFunc(q.Rest, func(p pending) bool { return !p.idle() })
	if i < 0 {
		return q, about
	}
	first, rest := q.Rest[i], append(slices.Clone(q.Rest[:i]), q.Rest[i+1:]...)
	q.Rest = nil
	q.Asked = cmp.Or(q.Asked, about.ID)
	for n := range rest {
		rest[n].Asked = cmp.Or(rest[n].Asked, about.ID)
	}
	m := &pantry.Message{ID: cmp.Or(first.Asked, about.ID)}
	first.Asked, first.Rest, first.Behind = "", append(rest, q), true
	return first, m
}

func (t *turn) keep(q pending, message string) error {
	if t.m.Room != "" && !q.isShown() {
		q.On, t.askTag = t.m.ID, q.tag()
		if t.m.Press != nil {
			q.On = t.m.Press.On
		}
	}
	if !t.m.Heard.IsZero() {
		q.Until = t.m.Heard.Add(patience)
	}
	body, err := json.Marshal(q)
	if err != nil {
		return err
	}
	if message == t.said.ID && !q.isShown() {
		t.asked = body
	}
	return t.setQuestion(t.cook, &pantry.Question{Message: message, At: t.m.At, Body: body})
}

// open gives the question that the cook has not answered, and the message that
// it is about.
func (t *turn) open() (q pending, message string, err error) {
	kept := t.k.Questions[t.cook]
	return q, kept.Message, json.Unmarshal(kept.Body, &q)
}

// close drops what the cook was asked about a line that has just been written to: it has been answered
// in other words. What was asked about other lines stays asked.
func (t *turn) close(entries []pantry.Entry) error {
	kept := t.k.Questions[t.cook]
	if kept == nil {
		return nil
	}
	q, message, err := t.open()
	if err != nil || q.Kind == askWeigh {
		return err
	}
	list := q.all(message)
	stay := slices.DeleteFunc(slices.Clone(list), func(p pending) bool { return p.Asked != t.said.ID && t.writtenTo(&p, entries) })
	switch {
	case len(stay) == len(list):
		return nil
	case len(stay) == 0:
		return t.setQuestion(t.cook, nil)
	}
	body, of, err := lifted(stay)
	if err != nil {
		return err
	}
	return t.setQuestion(t.cook, &pantry.Question{Message: of, At: kept.At, Body: body})
}

// writtenTo says whether entries do to a line what a question asks about.
func (t *turn) writtenTo(q *pending, entries []pantry.Entry) bool {
	if q.isShown() || q.Kind == askWeigh {
		return false
	}
	for _, l := range t.ear.find(q.Draft.Food).lines {
		for _, e := range entries {
			if q.Kind == askDone && q.Draft.Doubt && e.Line == l.ID && e.Act == q.Draft.Act && e.Amount == q.Draft.Amount.Base { // "salmon 5kg poached", and then into what
				return true
			}
			if e.Line == l.ID && e.Act == q.Draft.Act && (e.Act != pantry.Use || q.Draft.Dish == "" || e.Dish == q.Draft.Dish) {
				return true
			}
		}
	}
	return false
}

// all is the question and those behind it, each with the message that it is about.
func (q pending) all(message string) []pending {
	list := append([]pending{q}, q.Rest...)
	for i := range list {
		list[i].Asked, list[i].Rest = cmp.Or(list[i].Asked, message), nil
	}
	return list
}

// lifted makes the first of some questions the one to be answered next. It gives the message that one is
// about.
func lifted(list []pending) (body []byte, of string, err error) {
	first := list[0]
	of = first.Asked
	first.Asked, first.Rest = "", list[1:]
	body, err = json.Marshal(first)
	return body, of, err
}

// waiting says whether the cook has been asked something that still counts.
func (t *turn) waiting() bool {
	q, ok := t.recent()
	return ok && !q.idle()
}

// recent gives what the cook has been asked or shown, if that still counts.
func (t *turn) recent() (q pending, ok bool) {
	return t.stillAsked(t.k.Questions[t.cook])
}

// stillAsked gives what a cook has been asked or shown, if that still counts: it
// was not too long ago, or was asked late and not too long ago by then.
func (t *turn) stillAsked(kept *pantry.Question) (q pending, ok bool) {
	if kept == nil || json.Unmarshal(kept.Body, &q) != nil {
		return q, false
	}
	return q, t.m.At.Sub(kept.At) <= patience || t.m.At.Before(q.Until)
}

// isShown says whether it is no question, but ideas or a plan that were shown.
func (q *pending) isShown() bool { return q.Kind == askMore || q.Kind == askPlan }

// idle says whether nobody waits for the answer: what comes next may push it
// aside.
func (q *pending) idle() bool {
	return q.isShown() || q.Unread || q.Kind == askInstead && len(q.Options) == 0
}

// resume takes the message as the answer to what its cook was asked. It is not
// done where nothing was asked, too long ago, or this is no answer.
func (t *turn) resume() (r Reply, done bool, err error) {
	kept := t.k.Questions[t.cook]
	q, ok := t.stillAsked(kept)
	if !ok || t.m.At.Before(kept.At) {
		return r, false, nil
	}
	if r, done, err := t.surely(q, kept.Message); done || err != nil {
		return r, done, err
	}
	if q.Behind && t.saysYes() { // it was asked before the last: which is meant?
		q.Behind = false
		return Reply{Kind: Asking, Text: q.text(t), Ask: &Ask{About: q.About, Options: labels(q.Options)}}, true, t.keep(q, kept.Message)
	}
	if q.Kind == askLeap || q.idle() { // what was asked of a correction, or of what is not here, is over once the cook logs something else
		logged, err := t.book.LastLogged(t.cook, 1)
		if err != nil || len(logged) > 0 && logged[0].At.After(kept.At) {
			return r, false, err
		}
	}
	if q.Kind == askNeed && isWeighWord(t.m.Text) { // said at the scales, it answers for no guest
		return r, false, nil
	}
	if q.canGather() && t.leavesOther() { // "no parsnip" leaves none of it out
		return r, false, nil
	}
	a := t.reader().Answer(t.m.Text)
	if q.Unread && (a.No && len(strings.Fields(t.m.Text)) > 2 || q.Draft.Amount.How != language.Unsaid) { // nobody waits for it: "no that was 3kg" is of something else
		return r, false, nil
	}
	if q.Kind == askInstead && a.Amount.How != language.Unsaid && goesOnWith.MatchString(t.m.Text) { // "and 500g bacon" is one more
		return r, false, nil
	}
	if q.Kind == askInstead && !a.Other && t.named(&q, a.Words) {
		if a.Amount.How == language.Measured || a.Amount.How == language.Pieces {
			q.Draft.Amount = a.Amount
		}
		r, err = t.complete(q, kept.Message)
		return r, true, err
	}
	if q.Kind == askNeed && a.Denies && a.Amount.How == language.Unsaid { // "no, that was for the kids": a later yes must not write it
		r, err = t.leaveOut(q, kept.Message)
		return r, true, err
	}
	if q.isShown() || a.Other || !q.isAbout(a.Words) {
		return r, false, nil
	}
	if n := a.Amount.N; q.Kind == askAmount && a.Amount.How == language.Pieces && a.Amount.Part == "" && n.Num < n.Den { // "half"
		a.Amount.How = language.Share
	}
	if n := a.Amount.N; a.Amount.How == language.Pieces && a.Amount.Part == "" && n.Num >= smallestBare*n.Den && q.Draft.Line != 0 {
		a.Amount = language.Amount{How: language.Measured, Kind: t.k.Line(q.Draft.Line).Unit, Said: a.Amount.Said, Approx: a.Amount.Approx}
		if a.Amount.Base, err = n.Of(1000); err != nil {
			return r, false, nil
		}
	}
	if a.Each && q.counted() && a.Amount.How == language.Measured && q.Part == "" {
		q.Part = "piece"
	}
	if a.Each && q.Part == "" {
		return t.eachOf(q, kept.Message, a.Amount)
	}
	switch {
	case q.take(a):
		if r, asked, err := t.doubted(q, kept.Message); asked || err != nil {
			return r, true, err
		}
	case a.No && q.Kind == askNeed && a.Amount.How != language.Unsaid: // "no make that 150g" is about something else: what harms a guest is not left out by it
		return r, false, nil
	case a.No:
		r, err = t.leaveOut(q, kept.Message)
		return r, true, err
	default:
		return r, false, nil
	}
	r, err = t.complete(q, kept.Message)
	return r, true, err
}
