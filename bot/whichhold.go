package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// whichHold tells which dishes of this service, of the plan that is on and of what was made and is
// on hand hold what is asked about, may carry it, or are not known.
func (t *turn) whichHold(x *Records, list []*Wrap, asked []language.TableNeed) (string, error) {
	var needs []pantry.Need
	for _, n := range asked {
		needs = append(needs, t.needSaid(pantry.Need{}, n))
	}
	return t.whichAgainst(x, list, needs)
}

// whichEats tells which dishes are against the needs of a place, of the table or of a person. Done is false where none
// is kept, or nothing was made: what is known of the needs is told then.
func (t *turn) whichEats(x *Records, list []*Wrap, q *language.Question) (r Reply, done bool, err error) {
	place := t.placeCalled(q.Place)
	var needs, unchecked []pantry.Need
	ofPlace := false
	for _, n := range t.needs() {
		switch {
		case n.Kind == pantry.NeedHeads:
			continue
		case len(q.Who) > 0:
			if !n.Lasting || !slices.ContainsFunc(q.Who, func(w string) bool {
				return n.Who == cmp.Or(t.ear.people[strings.ToLower(w)], strings.ToLower(w))
			}) {
				continue
			}
		case n.Lasting || place != "" && n.Who != "" && !isAt(n, place):
			continue
		}
		if n.Kind == pantry.NeedDiet && !t.tablesKnow(n.What) { // no dish is held against a texture
			unchecked = append(unchecked, n)
			continue
		}
		needs, ofPlace = append(needs, n), ofPlace || place == "" || n.Who != ""
	}
	names, err := t.dishesNow(list)
	if !ofPlace || len(names) == 0 || err != nil {
		return r, err != nil, err
	}
	var says []string
	for _, of := range dietsApart(needs) {
		text, err := t.whichAgainst(x, list, of)
		if err != nil {
			return r, true, err
		}
		says = append(says, title(sayNeeds(of))+".\n"+strings.TrimSuffix(text, "\n"+noClearance))
	}
	text := strings.Join(append(says, noClearance), "\n")
	if len(unchecked) > 0 {
		text += "\nNot checked here: " + sayNeeds(unchecked) + "."
	}
	return Reply{Kind: Answer, Text: text + t.stillOpen(t.m.At.Add(-serviceLong), "")}, true, err
}

// dietsApart parts needs of several diets so that each is told of by itself, and the allergies together: what a vegan
// cannot eat a vegetarian may.
func dietsApart(needs []pantry.Need) (list [][]pantry.Need) {
	var diets []string
	by := map[string][]pantry.Need{}
	for _, n := range needs {
		diet := ""
		if n.Kind == pantry.NeedDiet {
			diet = n.What
		}
		diets, by[diet] = appendOnce(diets, diet), append(by[diet], n)
	}
	if len(diets) == 1 || len(diets) == 2 && len(by[""]) > 0 {
		return [][]pantry.Need{needs}
	}
	for _, diet := range diets {
		list = append(list, by[diet])
	}
	return list
}

// whichAgainst tells which dishes are against needs, may be, or are not known.
func (t *turn) whichAgainst(x *Records, list []*Wrap, needs []pantry.Need) (string, error) {
	var what []string
	for _, need := range needs {
		if need.Kind == pantry.NeedAllergy {
			what = appendOnce(what, strings.ReplaceAll(need.What, "+", " or "))
			continue
		}
		what = appendOnce(what, need.What)
	}
	names, err := t.dishesNow(list)
	if err != nil {
		return "", err
	}
	if len(names) == 0 {
		return "No dish was made yet, as far as anybody said.", nil
	}
	var holds, may, unknown, open, not []string
	for _, name := range names {
		h, err := t.heldBy(x, list, name)
		if err != nil {
			return "", err
		}
		if h == nil {
			unknown = append(unknown, name)
			continue
		}
		hard, label := h.broken(needs)
		diet := ""
		for _, n := range needs {
			if n.Kind == pantry.NeedDiet && t.tablesKnow(n.What) && !strings.HasPrefix(diet, "No. ") { // of two diets the one it breaks tells
				diet = cmp.Or(t.sayDietOf(h, n), diet)
			}
		}
		switch {
		case len(hard) > 0:
			by := strings.TrimSuffix(strings.TrimPrefix(h.sayBy(hard), "By "), ".")
			if by == "" {
				by = hard[0].by[0]
			}
			holds = append(holds, name+" ("+by+")")
		case strings.HasPrefix(diet, "No. "):
			_, by, _ := strings.Cut(strings.TrimSuffix(diet, "."), ": ")
			holds = append(holds, name+" ("+by+")")
		case len(label) > 0:
			may = append(may, name+" ("+few(h.mayBring(label[0].by))+")")
		case len(unsettled(t.k, name, t.m.At.Add(-serviceLong)))+len(unsettledIn(t.k, t.k.Named(name))) > 0: // it may be in
			open = append(open, name)
		case !h.logged || len(h.noIdea) > 0 || diet != "":
			unknown = append(unknown, name)
		default:
			not = append(not, name)
		}
	}
	var says []string
	of := both(what, "or")
	isDiet := slices.ContainsFunc(needs, func(n pantry.Need) bool { return n.Kind == pantry.NeedDiet })
	if len(holds) > 0 && isDiet {
		says = append(says, "Not "+of+": "+strings.Join(holds, "; ")+".")
	} else if len(holds) > 0 {
		says = append(says, "With "+of+": "+strings.Join(holds, "; ")+".")
	}
	if len(may) > 0 {
		says = append(says, "May carry it: "+strings.Join(may, "; ")+".")
	}
	if len(unknown) > 0 {
		says = append(says, "Unknown, ask and check labels: "+both(unknown, "and")+".")
	}
	if len(open) > 0 {
		says = append(says, "Not settled, as something for it was asked about and nobody answered: "+both(open, "and")+".")
	}
	if len(not) > 0 {
		kind := "None by nature in what was logged"
		if isDiet {
			kind = "Nothing against it in what was logged"
		}
		says = append(says, fmt.Sprintf("%s: %s.", kind, both(not, "and")))
	}
	return strings.Join(append(says, noClearance), "\n"), nil
}

// dishesNow are the dishes of the service, of the plan that is on, those of which something was said and
// what was made and is on hand.
func (t *turn) dishesNow(list []*Wrap) (names []string, err error) {
	if w := WithDishes(list, 0); w != nil {
		for _, d := range w.Dishes {
			names = appendOnce(names, d.Name)
		}
	}
	on, running, err := t.running()
	if err != nil {
		return nil, err
	}
	if running {
		on.complete(t)
		for n, name := range on.Names {
			if n < len(on.Plan.Dishes) && !on.Plan.Dishes[n].isOff() {
				names = appendOnce(names, name)
			}
		}
	}
	for _, l := range t.k.Lines {
		if l.Made > 0 && l.OnHand() > 0 {
			names = appendOnce(names, l.Name)
		}
	}
	for _, l := range t.k.Lessons {
		if x, ok := l.Told(); ok && t.said.At.Sub(x.At) < serviceLong {
			names = appendOnce(names, x.Name)
		}
	}
	return names, nil
}
