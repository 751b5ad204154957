package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// A food that was logged into a dish and is not in it: "take the flour out of the torte", "actually no flour in it",
// "take the butter off". Only what is told as a slip of the record is one: "took the chicken out" is cooking.
var (
	offOfDish  = regexp.MustCompile(`(?i)^\s*(?:(?:actually|sorry|oops|oh|no|wait|please|can you|and|ps|chef)[, ]+)*(?:take|remove) (?:the |all the |that )?([a-z' -]+?) (?:back )?(?:out of|off of|off|from) (?:the |that |our )?([a-z' -]+?)(?: please| again| record)?\s*[.!]*\s*$`)
	offTheDish = regexp.MustCompile(`(?i)^\s*(?:used|it was|we used|i used|put in|had)? ?([a-z' -]+?) instead of (?:the )?([a-z' -]+?)(?: actually| in the end)?[,.;]? (?:so |and |please )*(?:take|remove) (?:the |that )?([a-z' -]+?) (?:off|out)\s*[.!]*\s*$`)
	noneInIt   = regexp.MustCompile(`(?i)^\s*(?:(?:sorry|oops|oh|no|wait)[, ]+)*actually[, ]+(?:theres |there's |there is |there was )?no ([a-z' -]+?) in (?:the |that )?([a-z' -]+?)(?:[,;] ?.*| (?:its|it's|it is|theyre|they're|thats|that's) .*)?\s*[.!]*\s*$`)
)

// noneOfIt answers that what was told to be unread did not go in: "no butter in the pilaf".
var noneOfIt = regexp.MustCompile(`(?i)^\s*(?:there(?:'?s| is| was) )?no ([a-z' -]+?) in (?:the |that )?([a-z' -]+?)\s*[.!]*\s*$`)

// notInIt takes such a food off a dish. Done is false where none was logged into one, or asked about for it.
func (t *turn) notInIt() (r Reply, done bool, err error) {
	what, dish, besides := "", "", ""
	if m := offOfDish.FindStringSubmatch(t.m.Text); m != nil {
		what, dish = m[1], m[2]
	} else if m := noneInIt.FindStringSubmatch(t.m.Text); m != nil {
		what, dish = m[1], m[2]
	} else if m := offTheDish.FindStringSubmatch(t.m.Text); m != nil && strings.EqualFold(m[2], m[3]) {
		what, dish, besides = m[3], "it", m[1]
	} else if m := noneOfIt.FindStringSubmatch(t.m.Text); m != nil {
		dish = t.dishNow(strings.ToLower(m[2]))
		left, err := t.offAsked(m[1], dish)
		return Reply{Kind: Answer, Text: left + " That clears nothing: labels and traces stay."}, left != "", err
	} else {
		return r, false, nil
	}
	if isPronoun(dish) {
		if dish, err = t.spokenOf(); err != nil || dish == "" {
			return r, false, err
		}
	}
	dish = t.dishNow(strings.ToLower(dish))
	if !slices.Contains(t.k.Dishes, dish) {
		return r, false, nil
	}
	text, err := t.offRecord(what, dish)
	if err != nil {
		return r, false, err
	}
	left, err := t.offAsked(what, dish)
	if err != nil || text == "" && left == "" {
		return r, false, err
	}
	r = Reply{Kind: Answer, Text: strings.TrimSpace(text + "\n" + left)}
	if strings.HasPrefix(text, "Not ") {
		return r, true, nil
	} else if text != "" {
		r.Kind = Log
	}
	if besides != "" {
		r.Text += fmt.Sprintf("\nNot written: how much %s. Say \"used 200g %[1]s in the %s\".", strings.ToLower(besides), dish)
	}
	return r.and(" That clears nothing: labels and traces stay."), true, nil
}

// offRecord takes back what this cook logged last of a food into a dish; "" nothing of it was.
func (t *turn) offRecord(what, dish string) (string, error) {
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return "", err
	}
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return "", err
		}
		at := slices.IndexFunc(entries, func(e pantry.Entry) bool {
			return e.Act == pantry.Use && e.Dish == dish && t.isFood(e, what)
		})
		if at < 0 || at > 0 && isPassing(entries, at-1) {
			continue
		}
		e := entries[at]
		l := t.k.Line(e.Line)
		if len(entries) == 1 {
			r, err := t.takeBack([]*pantry.Message{m})
			return r.Text, err
		}
		t.unsaid = append(t.unsaid, m.ID)
		t.touch(m)
		if _, err := t.book.Revise(m, t.said, pantry.Corrected, slices.Delete(slices.Clone(entries), at, at+1)); err != nil {
			return "", err
		}
		return fmt.Sprintf("Taken off the %s: %s. %s left.", dish, thing(l, e), measure.Say(t.k.Line(e.Line).OnHand(), l.Unit)), nil
	}
	in, err := t.book.IntoDish(dish, t.said.At.Add(-serviceLong))
	if err != nil {
		return "", err
	}
	for _, e := range in {
		if e.Act == pantry.Use && t.isFood(e, what) {
			return fmt.Sprintf("Not taken off: the %s in the %s is another cook's, or was logged a while ago. Each cook takes back their own.", t.k.Line(e.Line).Name, dish), nil
		}
	}
	return "", nil
}

// offAsked drops what this cook was asked about a food for a dish; "" nothing was.
func (t *turn) offAsked(what, dish string) (string, error) {
	kept := t.k.Questions[t.cook]
	if kept == nil {
		return "", nil
	}
	q, message, err := t.open()
	if err != nil || q.Kind == askWeigh {
		return "", err
	}
	all := q.all(message)
	stay := slices.DeleteFunc(slices.Clone(all), func(p pending) bool {
		if p.Draft.Act != pantry.Use || p.Draft.Dish != dish {
			return false
		}
		h := t.ear.find(what)
		return h.exact && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.ID == p.Draft.Line || l.Name == p.About }) || strings.EqualFold(p.About, what)
	})
	if len(stay) == len(all) {
		return "", nil
	}
	if len(stay) == 0 {
		return "Left out: " + strings.ToLower(what) + ".", t.setQuestion(t.cook, nil)
	}
	body, of, err := lifted(stay)
	if err != nil {
		return "", err
	}
	return "Left out: " + strings.ToLower(what) + ".", t.setQuestion(t.cook, &pantry.Question{Message: of, At: kept.At, Body: body})
}
