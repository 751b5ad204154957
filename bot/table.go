package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// saysNone is a food that somebody is not to have.
var saysNone = regexp.MustCompile(`(?i)\b(?:no|without) [a-z]+`)

// tableTalk answers what a message says or asks of who cannot eat what, and reads the rest of
// it with that in force. Done is false where it says nothing of the kind.
func (t *turn) tableTalk(why string) (r Reply, done bool, err error) {
	if t.tabled {
		return r, false, nil
	}
	t.tabled = true
	text, day := t.withoutDay(t.m.Text)
	needs, behind, had := t.reader().AskedBehind(text)
	list, rest := t.reader().Table(needs)
	if len(list) == 0 && saysSeat.MatchString(needs) && (saysAllergy.MatchString(needs) || saysDiet.MatchString(needs)) {
		list, rest = t.reader().Table(language.LessFiller(needs))
	}
	if of, ok := t.guestsNeeds(text); ok {
		list, rest, behind = of, "", nil
	}
	if x, ok, err := t.placeMended(); err != nil {
		return r, true, err
	} else if ok {
		list, rest = []language.TableTalk{x}, ""
	}
	var keep []pantry.Need
	var lines []string
	asks := false
	for _, x := range list {
		if !t.mayBeTable(&x) {
			continue
		}
		x.Place = t.placeCalled(x.Place)
		if x.About == language.AboutHaveLeft {
			if stays(x.Place) {
				continue
			}
			x.About = language.AboutGone
		}
		switch x.About {
		case language.AboutWho:
			asks = true
		case language.AboutMoved:
			needs, said := t.movedSaid(&x)
			keep = append(keep, needs...)
			if said != "" {
				lines = append(lines, said)
			}
		default:
			needs, said := t.needsSaid(&x)
			if x.Doubt && len(needs) > 0 {
				needs, said = nil, fmt.Sprintf("Not kept, as it is not sure: %s. Ask the table, and say it again without the doubt.", sayNeeds(needs))
			}
			keep = append(keep, needs...)
			if said != "" {
				lines = append(lines, said)
			}
		}
	}
	if len(list) == 0 || len(keep)+len(lines) == 0 && !asks {
		return r, false, nil
	}
	if len(keep) > 0 {
		was := t.needs()
		if err := t.book.KeepNeeds(t.said, keep); err != nil {
			return r, true, err
		}
		told, err := t.sayNeedsKept(keep, was)
		if err != nil {
			return r, true, err
		}
		lines = append(lines, told...)
		if day != "" {
			lines = append(lines, lapses(day))
		}
	}
	if asks {
		lines = append(lines, t.sayAsked(list))
	}
	if allergensOnly.MatchString(t.m.Text) {
		of, err := t.dishAllergens()
		if err != nil {
			return r, true, err
		}
		if of != "" {
			lines = append(lines, of)
		}
	}
	r = Reply{Kind: Answer, Text: strings.Join(lines, "\n")}
	if len(keep) > 0 {
		r.Kind = Log
	}
	if rest != "" {
		behind = append([]string{rest}, behind...)
	}
	for _, rest := range behind {
		before := r.Text
		if r, err = t.besides(r, rest, why); err != nil {
			return r, true, err
		}
		if r.Text == before && (saysAllergy.MatchString(rest) || saysNone.MatchString(rest)) && !strings.Contains(rest, "?") {
			r.Text += fmt.Sprintf("\nNot kept: %q. Say each by itself, like \"table 12: no milk\".", rest)
		}
		if r.Text == before && strings.HasSuffix(rest, "?") && needs != text {
			r.Text += "\nNot answered, as no dish was made yet that anybody said: ask it again when it is (\"can table 3 have the tart?\")."
		}
	}
	if had { // common practice, no source
		r.Text += "\nIf it was eaten: tell the guest and whoever is in charge now. At any sign of a reaction call an ambulance."
	}
	return r, true, nil
}

// besides reads the rest of a message, and puts its answer behind what was said of needs.
func (t *turn) besides(r Reply, rest, why string) (Reply, error) {
	whole := t.m.Text
	t.m.Text = rest
	more, err := t.answer(why)
	t.m.Text = whole
	switch {
	case err != nil:
		return r, err
	case more.Kind == Silent && rest != whole && (rest[0] >= '0' && rest[0] <= '9' || language.MeansNeed(rest)): // "1 frobnitz"
		r.Text += fmt.Sprintf("\nNot read: %q. Say it like \"table: 1 nut allergy\".", rest)
	case more.Kind != Silent:
		more.Text = strings.TrimSpace(r.Text + "\n" + more.Text)
		if more.Kind == Answer && r.Kind == Log {
			more.Kind = Log
		}
		r = more
	}
	return r, nil
}

// mayBeTable says whether what was read of persons is of persons: a word that is a food or a
// dish here is nobody's name.
func (t *turn) mayBeTable(x *language.TableTalk) bool {
	if x.Name || len(x.Who) == 0 {
		return true
	}
	return !slices.ContainsFunc(x.Who, func(w string) bool {
		return t.ear.find(w).exact || slices.Contains(t.k.Dishes, t.dish(strings.ToLower(w)))
	})
}

// needsSaid turns what was said into needs to keep. Said is what there is to say where there
// are none.
func (t *turn) needsSaid(x *language.TableTalk) (keep []pantry.Need, said string) {
	of := pantry.Need{}
	var persons []string
	switch x.About {
	case language.AboutNumbered, language.AboutOverAt, language.AboutGone:
		of.Who = x.Place
		if x.N > 0 {
			keep = append(keep, pantry.Need{Kind: pantry.NeedHeads, Who: x.Place, Count: x.N, Said: fmt.Sprint(x.N)})
		}
	case language.AboutOf:
		keep = append(keep, pantry.Need{Kind: pantry.NeedHeads, Count: x.N, Said: fmt.Sprint(x.N)})
	case language.AboutMe, language.AboutWell:
		persons = []string{t.cook}
	case language.AboutGuest, language.AboutBetter:
		for _, w := range x.Who {
			persons = append(persons, cmp.Or(t.ear.people[strings.ToLower(w)], strings.ToLower(w)))
		}
	}
	isOver := slices.Contains([]language.About{language.AboutOver, language.AboutOverAt, language.AboutGone, language.AboutBetter, language.AboutWell}, x.About)
	if x.About == language.AboutGuest && x.Place != "" { // is asked for by either: "oliver in year 4", "is it ok for year 4"
		for _, n := range x.Needs {
			one := t.needSaid(pantry.Need{Who: x.Place}, n)
			one.Said += " (" + title(x.Who[0]) + ")"
			keep = append(keep, one)
		}
	}
	if persons == nil {
		persons = []string{of.Who}
	} else {
		of.Lasting = true
	}
	for _, who := range persons {
		of.Who = who
		if isOver {
			over, none := t.overSaid(of, x)
			keep, said = append(keep, over...), cmp.Or(said, none)
			continue
		}
		for _, n := range x.Needs {
			one := t.needSaid(of, n)
			if x.Whose != "" { // two of one class with the same allergy are two
				one.Said += " (" + title(x.Whose) + ")"
			}
			keep = append(keep, one)
		}
	}
	return keep, said
}

// needSaid is one need. A food that holds allergens stands for those: "prawn allergy".
func (t *turn) needSaid(of pantry.Need, n language.TableNeed) pantry.Need {
	of.Count, of.Said = n.Count, n.Said
	if of.Lasting {
		of.Count = 0
	}
	switch {
	case n.Allergy != "":
		of.Kind, of.What = pantry.NeedAllergy, n.Allergy
	case n.Food != "":
		of.Kind, of.What = pantry.NeedFood, singular(n.Food)
		if h := t.ear.find(n.Food); h.food != nil && h.exact && len(h.food.Allergen) > 0 {
			of.Kind, of.What = pantry.NeedAllergy, strings.Join(h.food.Allergen, "+")
		}
	default:
		of.Kind, of.What = pantry.NeedDiet, n.Diet
		if n.Count == 0 && !of.Lasting && of.Who == "" { // "the table is vegan"
			of.Count = pantry.Everyone
		}
	}
	return of
}

// overSaid is what is over: all, or what was named; none says that there was nothing.
func (t *turn) overSaid(of pantry.Need, x *language.TableTalk) (over []pantry.Need, none string) {
	of.Kind, of.Said = pantry.NeedOver, "no needs"
	var whats []pantry.Need
	for _, n := range x.Needs {
		w := t.needSaid(of, n)
		w.Kind, w.Said, w.Count = pantry.NeedOver, "no longer "+strings.TrimPrefix(n.Said, "no "), 0
		whats = append(whats, w)
	}
	if len(x.Needs) == 0 {
		whats = []pantry.Need{of}
	}
	known := t.needs()
	for _, w := range whats {
		if slices.ContainsFunc(known, func(o pantry.Need) bool { return overtakes(w, o) }) {
			over = append(over, w)
		}
	}
	switch {
	case len(over) > 0 || of.Lasting && !x.Name && x.About != language.AboutWell, x.About == language.AboutGone && !stays(of.Who):
	case of.Lasting:
		none = "Nothing of that was kept of " + title(t.k.CookName(of.Who)) + "."
	default:
		none = "No such needs of the table were kept. That is no clearance: ask the guests."
	}
	return over, none
}

// sayNeedsKept tells what is kept now, and was before, of whom something was just said, and what in the dishes of
// this service and in the plan that is on goes against it.
func (t *turn) sayNeedsKept(keep, was []pantry.Need) (lines []string, err error) {
	now := t.needs()
	var whose []string
	for _, n := range keep {
		who := n.Who
		if !n.Lasting {
			who = ""
		}
		if slices.Contains(whose, who) {
			continue
		}
		whose = append(whose, who)
		if n.Kind != pantry.NeedOver && !slices.ContainsFunc(now, func(o pantry.Need) bool { return o.N == t.said.N }) { // an edit, of what has been taken off since
			lines = append(lines, "That was said to be over since: "+sayNeed(n)+".")
			continue
		}
		if n.Kind == pantry.NeedOver && !n.Lasting && n.Who != "" && len(keep) == 1 {
			lines = append(lines, sayOverAt(now, was, n.Who))
			continue
		}
		if said := t.sayAdded(now, n.Lasting); said != "" {
			lines = append(lines, said)
			continue
		}
		lines = append(lines, t.sayNow(now, who, n.Lasting))
	}
	if len(keep) > 1 {
		lines = append(lines, sayEnded(now, was, keep)...)
	}
	var new []pantry.Need
	var allergy, strange []string
	for _, n := range keep {
		switch {
		case n.Kind == pantry.NeedAllergy:
			for a := range strings.SplitSeq(n.What, "+") {
				allergy = appendOnce(allergy, a)
			}
			new = append(new, n)
		case n.Kind == pantry.NeedFood:
			strange, new = appendOnce(strange, n.What), append(new, n)
		}
	}
	if len(allergy) > 0 {
		lines = append(lines, "Ideas and plans leave out what holds or often carries "+both(allergy, "or")+", and a use of it is asked about first. Check every label, and mind traces.")
	}
	if len(strange) > 0 {
		lines = append(lines, title(both(strange, "and"))+": none of the 14 that labels must name, so only the names of foods are watched. Read the whole label.")
	}
	lines = append(lines, sayDiets(keep)...)
	in, err := t.alreadyIn(append(slices.Clone(new), dietsOf(keep)...))
	if err != nil {
		return nil, err
	}
	lines = append(lines, in...)
	on, ok, err := t.running()
	if err != nil || !ok || len(new) == 0 {
		return lines, err
	}
	broken, err := t.sayPlanBreaks(on.Plan.Dishes, new)
	for _, s := range broken {
		lines = append(lines, "The plan that is on: "+s+` "swap" and its number looks for another.`)
	}
	return lines, err
}

// alreadyIn tells which dishes of the last hours, whatever was said of the table since, hold what somebody is allergic to.
func (t *turn) alreadyIn(new []pantry.Need) (lines []string, err error) {
	if len(new) == 0 {
		return nil, nil
	}
	in, err := t.book.IntoDish("", t.m.At.Add(-serviceLong))
	if err != nil {
		return nil, err
	}
	var dishes []string
	by := map[string][]string{}
	for _, e := range in {
		l := t.k.Line(e.Line)
		against, err := t.isAgainst(l, new)
		if err != nil {
			return nil, err
		}
		if against && sayAway(e.Dish) == "" {
			dishes, by[e.Dish] = appendOnce(dishes, e.Dish), appendOnce(by[e.Dish], l.Name)
		}
	}
	for _, dish := range dishes {
		are := " is"
		if len(by[dish]) > 1 {
			are = " are"
		}
		lines = append(lines, fmt.Sprintf("Mind the %s: %s%s in it, or kept for it.", dish, both(by[dish], "and"), are))
	}
	return lines, nil
}

// isAgainst says whether a line is plainly against one of some needs.
func (t *turn) isAgainst(l *pantry.Line, needs []pantry.Need) (bool, error) {
	c, err := t.contentsOf(l)
	if err != nil {
		return false, err
	}
	if hard, _ := c.broken(needs); len(hard) > 0 {
		return true, nil
	}
	for _, n := range dietsOf(needs) {
		if fit, _, _, err := t.byDiet(n.What, l); err != nil || fit == food.NotFit {
			return err == nil, err
		}
	}
	return false, nil
}

// mostNeedsTold is how many needs of the table are told again behind a new one.
const mostNeedsTold = 5

// sayAdded tells what this message adds to a long list of the table's needs, or to those of other places; "" where all
// of it is told.
func (t *turn) sayAdded(now []pantry.Need, lasting bool) string {
	var of, new []pantry.Need
	for _, n := range now {
		if n.Lasting || n.Kind == pantry.NeedHeads && n.Who == "" {
			continue
		}
		if of = append(of, n); n.N == t.said.N {
			new = append(new, n)
		}
	}
	if lasting || len(new) == 0 || len(new) == len(of) {
		return ""
	}
	if one := ofOnePlace(new, of); len(one) > 0 {
		new = one
	} else if len(of) <= mostNeedsTold {
		return ""
	}
	if len(new) == len(of) {
		return ""
	}
	return fmt.Sprintf("%s With what was said before %d needs: \"table?\" lists them.", sayStanding(new, 0), len(of))
}

// ofOnePlace gives all needs of the place that new ones are of; none where they are of the table, or of several.
func ofOnePlace(new, all []pantry.Need) (list []pantry.Need) {
	for _, n := range new {
		if n.Who == "" || n.Who != new[0].Who {
			return nil
		}
	}
	for _, n := range all {
		if n.Who == new[0].Who {
			list = append(list, n)
		}
	}
	return list
}

// sayEach tells each of some needs, of the table first, then of persons: "Dee: mustard allergy".
func sayEach(k *pantry.Kitchen, list []pantry.Need) (of []string) {
	var persons []string
	for _, n := range list {
		switch {
		case n.Kind == pantry.NeedHeads:
		case n.Lasting:
			persons = append(persons, title(k.CookName(n.Who))+": "+sayNeed(n))
		default:
			of = append(of, sayNeed(n))
		}
	}
	return append(of, persons...)
}

func sayList(list []pantry.Need) string {
	var says []string
	for _, n := range list {
		says = append(says, sayNeed(n))
	}
	return strings.Join(says, ", ")
}

// sayNow tells what is known of a person, or of the table.
func (t *turn) sayNow(now []pantry.Need, who string, lasting bool) string {
	var list []pantry.Need
	heads := 0
	for _, n := range now {
		switch {
		case n.Lasting != lasting || lasting && n.Who != who:
		case n.Kind == pantry.NeedHeads && n.Who == "":
			heads = n.Count
		default:
			list = append(list, n)
		}
	}
	switch {
	case lasting && len(list) == 0:
		return title(t.k.CookName(who)) + ": nothing kept any more. \"undo\" takes that back."
	case lasting:
		return title(t.k.CookName(who)) + ", for good: " + sayList(list) + "."
	case len(list) == 0:
		return "Table: no needs are kept any more. \"undo\" takes that back."
	}
	return sayStanding(list, heads)
}

func sayNeeds(list []pantry.Need) string {
	var says []string
	for _, n := range list {
		says = append(says, sayNeed(n))
	}
	return both(says, "and")
}

// sayNeed: "1 nut allergy (tree nuts, peanuts)", "2 vegan", "all vegan".
func sayNeed(n pantry.Need) string {
	s := n.Said
	switch {
	case n.Kind == pantry.NeedHeads && n.Who != "":
		return fmt.Sprint(n.Count, " ", sayAt(n.Who))
	case n.Kind == pantry.NeedHeads:
		return fmt.Sprint(n.Count, " at the table")
	case n.Kind == pantry.NeedOver:
		return s
	case n.Count == pantry.Everyone:
		s = "all " + s
	case n.Count > 0:
		if n.Count > 1 {
			s = strings.TrimSuffix(s, "y") + map[bool]string{true: "ies", false: ""}[strings.HasSuffix(s, "y")]
			if strings.HasSuffix(s, "intolerance") {
				s += "s"
			}
		}
		s = fmt.Sprint(n.Count, " ", s)
	}
	if n.Kind == pantry.NeedAllergy && !strings.Contains(n.Said, n.What) {
		s += " (" + strings.ReplaceAll(n.What, "+", ", ") + ")"
	}
	if !n.Lasting && n.Who != "" {
		s += " " + sayAt(n.Who)
	}
	return s
}

// sayTable answers who cannot eat what.
func (t *turn) sayTable(asked []language.TableTalk) string {
	now := t.needs()
	var lines []string
	if slices.ContainsFunc(now, func(n pantry.Need) bool { return !n.Lasting && (n.Kind != pantry.NeedHeads || n.Who != "") }) {
		lines = append(lines, t.sayNow(now, "", false))
	} else {
		lines = append(lines, "Table: no needs are known. That is no clearance: ask the guests.")
	}
	var persons []string
	for _, n := range now {
		if n.Lasting {
			persons = appendOnce(persons, n.Who)
		}
	}
	for _, x := range asked {
		for _, w := range x.Who {
			who := cmp.Or(t.ear.people[strings.ToLower(w)], strings.ToLower(w))
			if !slices.Contains(persons, who) {
				lines = append(lines, title(w)+": nothing is kept, so unknown. Ask.")
			}
		}
	}
	for _, who := range persons {
		lines = append(lines, t.sayNow(now, who, true))
	}
	if len(now) > 0 {
		lines[len(lines)-1] += " Labels go first."
	}
	return strings.Join(lines, "\n")
}

// needsOf says what a message has said of needs, as far as it is in force.
func (t *turn) needsOf(m *pantry.Message) (list []string) {
	for _, n := range t.k.Needs {
		if n.N != m.N {
			continue
		}
		s := sayNeed(n)
		if n.Lasting {
			s = title(t.k.CookName(n.Who)) + " " + s
		} else if n.Who == "" && n.Kind != pantry.NeedHeads {
			s += " at the table"
		}
		list = append(list, s)
	}
	return list
}

const notKept = `Not kept: that is not read as a need of the table. Say it like "table: 1 nut allergy", "bed 3 is allergic to egg" or "dee is allergic to nuts"; "table?" tells what is known.`

// notSilent answers a message that speaks of an allergy and was not understood: silence would be
// taken for having heard.
func (t *turn) notSilent(r Reply) Reply {
	if r.Kind != Silent || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 {
		return r
	}
	if told := t.maybeNeed(t.m.Text); told != "" {
		return Reply{Kind: Answer, Text: told}
	}
	if told, ok := t.reader().BareNeed(t.m.Text); ok { // "table 4: fish" may be what it orders
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not kept: if that is an allergy, say %q. An order is not kept either.", told)}
	}
	if !language.MeansNeed(t.m.Text) && !t.reader().HasNeedWord(t.m.Text) {
		return r
	}
	if whoMayHave.MatchString(t.m.Text) && asksThis.MatchString(t.m.Text) {
		return Reply{Kind: Answer, Text: noAnswerClears}
	}
	return Reply{Kind: Answer, Text: notKept}
}
