package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
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
	t.needsFor = day
	needs, behind, had := t.reader().AskedBehind(text)
	list, rest := t.reader().Table(needs)
	if len(list) == 0 && saysSeat.MatchString(needs) && (saysAllergy.MatchString(needs) || saysDiet.MatchString(needs)) {
		list, rest = t.reader().Table(language.LessFiller(needs))
	}
	left := ""
	if len(behind) == 0 && (len(list) == 0 || rest != "" && (saysAllergy.MatchString(rest) || saysDiet.MatchString(rest))) {
		if plain, cut, ok := t.reader().LooseNeed(needs); ok {
			left = cut
			list, rest = t.reader().Table(plain)
		}
	}
	if of, unheard, ok := t.needsHeard(needs, len(list) > 0 && rest == ""); ok && len(behind) == 0 {
		list, rest = of, unheard
	}
	if of, ok := t.guestsNeeds(text); ok {
		list, rest, behind = of, "", nil
	}
	if of := t.movesSaid(); len(of) > 0 {
		list, rest, behind = of, "", nil
	}
	if place, ok := t.reader().AsksNeeds(text); ok && !slices.ContainsFunc(list, func(x language.TableTalk) bool { return x.About == language.AboutWho }) { // what asks never writes a need
		list, rest, behind = []language.TableTalk{{About: language.AboutWho, Place: place}}, "", nil
	}
	if x, ok, err := t.placeMended(); err != nil {
		return r, true, err
	} else if ok {
		list, rest = []language.TableTalk{x}, ""
	}
	var keep []pantry.Need
	var lines []string
	for _, read := range []func() ([]pantry.Need, string, bool){t.personMoves, t.personGoes, t.askedNumber, t.needOnNot, t.occasionMoves} {
		if len(list) > 0 {
			break
		}
		moved, said, ok := read()
		if !ok {
			continue
		}
		if list, rest, behind, keep = []language.TableTalk{{}}, "", nil, moved; said != "" {
			lines = append(lines, said)
		}
		break
	}
	asks := false
	if len(keep)+len(lines) > 0 {
		list = []language.TableTalk{{About: language.AboutMoved}}
	}
	if len(list) == 2 && list[0].About == language.AboutMoved && list[0].From == list[1].Place && list[0].Place == list[1].From { // they change places
		keep, list = t.swapped(list[0].From, list[0].Place), list[:1]
		list[0] = language.TableTalk{About: language.AboutMoved}
	}
	for _, x := range list {
		if !t.mayBeTable(&x) {
			if len(x.Needs) > 0 && x.About == language.AboutGuest && x.Food {
				lines = append(lines, fmt.Sprintf("Not kept: %s is a food as well. Of a guest, say %q.", title(x.Who[0]), "guest "+strings.ToLower(x.Who[0])+" is "+x.Needs[0].Said))
			}
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
		case language.AboutNoneSaid:
			if x.Place == "" { // else it is said behind needs of that place, which have no others
				lines = append(lines, t.sayNoneSaid(&x))
			}
		case language.AboutMoved:
			if x.From == "" { // read above
				continue
			}
			needs, said := t.movedSaid(&x)
			keep = append(keep, needs...)
			if said != "" {
				lines = append(lines, said)
			}
		default:
			needs, said := t.needsSaid(&x)
			if x.More || x.Again || slices.ContainsFunc(x.Needs, func(n language.TableNeed) bool { return n.Known }) {
				needs, said = t.asKnown(&x, needs)
			}
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
		t.setDays(keep)
		if err := t.book.KeepNeeds(t.said, keep); err != nil {
			return r, true, err
		}
		told, err := t.sayNeedsKept(keep, was)
		if err != nil {
			return r, true, err
		}
		lines = append(lines, told...)
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
	if left != "" && len(keep) > 0 {
		r.Text += fmt.Sprintf("\nNot read: %q. What is kept stands without it.", left)
	}
	if rest != "" {
		behind = append([]string{rest}, behind...)
	}
	for _, rest := range behind {
		before := r.Text
		if r, err = t.besides(r, rest, why); err != nil {
			return r, true, err
		}
		t.partSilent = t.partSilent || r.Text == before
		if r.Text == before && (saysAllergy.MatchString(rest) || saysNone.MatchString(rest) || saysDiet.MatchString(rest) && len(keep) > 0) && !strings.Contains(rest, "?") {
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
	if t.isKnownGuest(x.Who) {
		return true
	}
	ill := !slices.ContainsFunc(x.Needs, func(n language.TableNeed) bool { return n.Diet != "" || strings.HasPrefix(n.Said, "no ") })
	if x.About == language.AboutGuest && len(x.Needs) > 0 && (ill || x.Food && x.Needs[0].Diet == "") { // no dish is allergic
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
			one.Said += " (" + named(x.Who[0]) + ")"
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
			stay, told := t.turnedOut(over)
			keep, said = append(append(keep, over...), stay...), cmp.Or(said, none, told)
			continue
		}
		for _, n := range x.Needs {
			one := t.needSaid(of, n)
			if x.Whose != "" { // two of one class with the same allergy are two
				one.Said += " (" + named(x.Whose) + ")"
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
	known := t.needsOn(t.needsFor)
	for _, w := range whats {
		for _, w.Day = range daysOf(known) { // what was said for today as well
			if slices.ContainsFunc(known, func(o pantry.Need) bool { return overtakes(w, o) }) {
				over = append(over, w)
			}
		}
	}
	switch {
	case len(over) > 0 || of.Lasting && !x.Name && x.About != language.AboutWell, x.About == language.AboutGone && !stays(of.Who):
	case of.Lasting:
		none = "Nothing of that was kept of " + title(t.k.CookName(of.Who)) + "."
	default:
		none = "No such needs of " + cmp.Or(of.Who, "the table") + " were kept. That is no clearance: ask the guests."
	}
	return over, none
}
