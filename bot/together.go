package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
)

// gather makes one question of all that one message would put into a dish and somebody is not to have: what else is to be
// asked of it comes right behind, is told with it, and goes with its answer.
func (q *pending) gather() {
	var with, rest []pending
	for _, p := range q.Rest {
		if p.Asked != "" {
			rest = append(rest, p)
			continue
		}
		if p.Told = q.canGather() && p.canGather() && p.Draft.Dish == q.Draft.Dish && p.Draft.Act == q.Draft.Act; p.Told {
			with = append(with, p)
		} else {
			rest = append(rest, p)
		}
	}
	q.Told, q.Rest = false, append(with, rest...)
}

// canGather says whether the question is of food for a dish that a need is against, and of no correction.
func (q *pending) canGather() bool {
	return q.Kind == askNeed && q.Draft.Line != 0 && q.Draft.Dish != "" && q.Replace == 0 && q.Amend == nil
}

// with are those of the rest that are told with the question. What was told with another stays apart.
func (q *pending) with() (list []*pending) {
	for i := range q.Rest {
		if p := &q.Rest[i]; p.Told && p.Asked == "" && q.canGather() && p.Draft.Dish == q.Draft.Dish {
			list = append(list, p)
		}
	}
	return list
}

// takeAll lets a plain yes be of all that was told with the question.
func (q *pending) takeAll(a language.Answer) {
	if a.Yes && a.Amount.How == language.Unsaid {
		for _, p := range q.with() {
			p.Draft.Knowing = true
		}
	}
}

// withNames are what the question is about, and all that is told with it.
func (q *pending) withNames() []string {
	names := []string{q.About}
	for _, p := range q.with() {
		names = appendOnce(names, p.About)
	}
	return names
}

// withoutGroup is the rest but what was told with the question.
func (q *pending) withoutGroup() []pending {
	n := len(q.with())
	return slices.DeleteFunc(slices.Clone(q.Rest), func(p pending) bool {
		return n > 0 && p.Told && p.Asked == "" && p.Draft.Dish == q.Draft.Dish
	})
}

// sayNeed: "Cod and milk for the pie? Fish allergy at table 3: cod holds fish. Milk allergy at table 4: milk holds milk.
// Say "yes" and it is written." Of one need all is told in one sentence.
func (q *pending) sayNeed() string {
	what := ""
	if q.Draft.Dish != "" && q.Draft.Line != 0 { // which of two that are open, the answer is to tell
		what = title(both(q.withNames(), "and")) + " for the " + q.Draft.Dish + "? "
	}
	says, now := []string{q.Was}, q.Now
	for _, p := range q.with() {
		now = "all of it is written"
		need, by, ok := strings.Cut(p.Was, ": ")
		at := slices.IndexFunc(says, func(s string) bool { return ok && strings.HasPrefix(s, need+": ") })
		if at < 0 {
			says = append(says, p.Was)
		} else if !strings.Contains(says[at], by) {
			says[at] = strings.TrimSuffix(says[at], ".") + "; " + by
		}
	}
	return fmt.Sprintf("%s%s Say \"yes\" and %s.", what, strings.Join(says, " "), now)
}

// notAllOf is an answer that leaves some of it out: "yes but no milk", "all but the cod", "not the milk".
var notAllOf = regexp.MustCompile(`(?i)^\s*((?:(?:yes|yep|yeah|yup|ok|okay|sure|all|everything|all of it)\b[\s,.!-]*)*)(?:but )?(?:it'?s |there'?s |there was |with )?(?:no|not|without|except(?: for)?|apart from|leave out|left out|skip|minus|but)(?: the| any)? ([a-z][a-z', -]*?)(?: out)?[.!\s]*$`)

// someOf takes an answer that leaves out some of what was told in one question: the rest is written where it is a yes, else
// it is asked about anew. Done is false where it names anything else.
func (t *turn) someOf(q pending, about string) (r Reply, done bool, err error) {
	m := notAllOf.FindStringSubmatch(t.m.Text)
	if m == nil || !q.canGather() {
		return r, false, nil
	}
	var out []string
	for _, name := range splitNames.Split(strings.ToLower(m[2]), -1) {
		name = strings.TrimPrefix(strings.TrimSpace(name), "the ")
		at := slices.IndexFunc(q.withNames(), func(n string) bool {
			return n == name || n == singular(name) || lastWord(n) == singular(name)
		})
		if at < 0 {
			return r, false, nil
		}
		out = appendOnce(out, q.withNames()[at])
	}
	first := q
	first.Rest = nil
	group := []pending{first}
	for _, p := range q.with() {
		group = append(group, *p)
	}
	group = slices.DeleteFunc(group, func(p pending) bool { return slices.Contains(out, p.About) })
	if err := t.setQuestion(t.cook, nil); err != nil {
		return r, true, err
	}
	asked, err := t.book.Message(about)
	if err != nil {
		return r, true, err
	}
	for i := range group {
		group[i].Told, group[i].Draft.Knowing = false, strings.TrimSpace(m[1]) != ""
	}
	r, err = t.askNext(Reply{Kind: Answer, Text: "Left out: " + both(out, "and") + "."}, append(group, q.withoutGroup()...), asked)
	return r, true, err
}

// leavesOther says whether a message leaves out food by its name; someOf has looked whether it was asked about.
func (t *turn) leavesOther() bool {
	m := notAllOf.FindStringSubmatch(t.m.Text)
	return m != nil && t.isKnownFood(strings.ToLower(m[2]))
}

// splitNames parts foods that are named one behind the other.
var splitNames = regexp.MustCompile(`\s*(?:,|\band\b|\bor\b|\bn\b)\s*`)
