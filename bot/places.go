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

// inside are the places that guests are in, not at.
var inside = []string{"bed", "ward", "room", "side room", "bay", "year", "class", "form", "suite", "cabin", "unit", "flat", "pod", "house", "group", "cubicle", "apartment", "lodge", "villa", "icu", "itu", "hdu", "ccu", "maternity", "maternity ward", "labour ward", "delivery ward", "postnatal", "antenatal", "paediatrics", "paeds", "childrens ward", "oncology", "stroke unit", "renal unit", "burns unit"}

// homes are the named places whose guests are the same tomorrow.
var homes = []string{"school", "nursery", "preschool", "creche", "breakfast club", "after school club", "day centre"}

// sayAt: "at table 5", "in bed 3", "at the bar".
func sayAt(place string) string {
	switch kind := kindOf(place); {
	case slices.Contains(inside, kind):
		return "in " + place
	case language.IsSpot(place):
		return "at the " + place
	}
	return "at " + place
}

// kindOf is a place without its number: "side room"; of a bed in a ward, "bed".
func kindOf(place string) string {
	if i := strings.LastIndexByte(place, ' '); i > 0 && strings.ContainsAny(place[i:], digits) {
		place = place[:i]
		if j := strings.LastIndexAny(place, digits); j >= 0 {
			_, place, _ = strings.Cut(place[j:], " ")
		}
	}
	return place
}

// placeCalled is the place of the needs that a mere "3b", "12" or "bed 2" calls; what was said where there is none, or
// more than one.
func (t *turn) placeCalled(said string) string {
	if said == "" {
		return said
	}
	found := ""
	for _, n := range t.needs() {
		if topTable.MatchString(said) && topTable.MatchString(n.Who) { // "the head table" of the top table
			return n.Who
		}
		if short := language.IsSpot(said) && strings.HasPrefix(n.Who, said+" "); n.Lasting || !endsSo(n.Who, said) && !short { // "the coach" of the coach party
			continue
		}
		if found != "" && found != n.Who {
			return said
		}
		found = n.Who
	}
	return cmp.Or(found, said)
}

// topTable is the one table that a wedding party sits at, by its names.
var topTable = regexp.MustCompile(`^(?:the )?(?:top|head|high) table$`)

// isAt says whether a need is of a place as it was said: of each, where several are called "3b".
// What is of a bed is of its ward as well; what was said of a table may be of any seat at it.
func isAt(n pantry.Need, place string) bool {
	return endsSo(n.Who, place) || strings.ContainsAny(place, digits) && strings.HasPrefix(n.Who, place+" ") || n.Who != "" && within(place, n.Who)
}

// within says whether a place is another, or a seat at it: "table 9 seat 2" is within "table 9".
func within(place, other string) bool {
	return place == other || strings.HasPrefix(other, "table ") && strings.HasPrefix(place, other+" ")
}

// endsSo says whether a place is called so: "table 3b" as "3b", and "bay 3 bed 2" as "bed 2".
func endsSo(place, said string) bool {
	in, ends := strings.CutSuffix(place, " "+said)
	return place == said || ends && (!strings.Contains(said, " ") || strings.ContainsAny(in, digits))
}

// isClass is a class by its number and letter: "8c".
var isClass = regexp.MustCompile(`^\d{1,2}[a-f]$`)

// stays says whether what is said of a place stands until it is said to be over: who is in a bed, a
// ward or a class tonight is there tomorrow; who is at a table is not.
func stays(place string) bool {
	kind := kindOf(place)
	return slices.Contains(inside, kind) || slices.Contains(homes, kind) || isClass.MatchString(place)
}

// sayStanding: "Table of 14, for this service: 3 vegan." and "Until you say it is over: fish allergy in
// bed 5 (\"bed 5: none\")." Heads is how many are at the table, 0 unknown.
func sayStanding(list []pantry.Need, heads int) string {
	var now, on []pantry.Need
	for _, n := range list {
		if n.Stays {
			on = append(on, n)
		} else {
			now = append(now, n)
		}
	}
	var says []string
	of := ""
	if heads > 0 {
		of = fmt.Sprint(" of ", heads)
	}
	if len(now) > 0 {
		says = append(says, fmt.Sprintf("Table%s, for this service: %s.", of, sayList(now)))
	}
	if len(on) > 0 {
		until := fmt.Sprintf("Until you say %q", on[0].Who+": none")
		if last := on[len(on)-1].Who; slices.ContainsFunc(on, func(n pantry.Need) bool { return n.Who != last }) {
			until = fmt.Sprintf("Until each is ended, like %q", last+": none")
		}
		says = append(says, until+": "+sayList(on)+".")
	}
	return strings.Join(says, " ")
}

// movedSaid takes the needs of a place to another.
func (t *turn) movedSaid(x *language.TableTalk) (keep []pantry.Need, said string) {
	for _, n := range t.needs() {
		if !n.Lasting && within(n.Who, x.From) {
			n.Who = x.Place + strings.TrimPrefix(n.Who, x.From)
			keep = append(keep, n)
		}
	}
	if len(keep) == 0 {
		if !stays(x.From) {
			return nil, ""
		}
		return nil, "Nothing was kept of " + x.From + ", so nothing moves. That is no clearance: ask."
	}
	var over []pantry.Need
	for _, day := range daysOf(keep) {
		over = append(over, pantry.Need{Kind: pantry.NeedOver, Who: x.From, Day: day, Said: "no needs"})
	}
	return append(over, keep...), ""
}

// sayAsked answers who cannot eat what: of the places that were asked about, or of all.
func (t *turn) sayAsked(asked []language.TableTalk) string {
	if t.needsFor > t.day() {
		return t.sayAskedFor(t.needsFor)
	}
	var lines []string
	for _, x := range asked {
		if x.About != language.AboutWho || x.Place == "" || len(x.Needs) > 0 {
			return t.sayTable(asked)
		}
		x.Place = t.placeCalled(x.Place)
		var list []pantry.Need
		for _, n := range t.needs() {
			if !n.Lasting && isAt(n, x.Place) {
				list = append(list, n)
			}
		}
		if len(list) == 0 {
			lines = append(lines, title(x.Place)+": no needs are known. That is no clearance: ask.")
			continue
		}
		lines = append(lines, sayStanding(list, 0)+fmt.Sprintf(" Labels go first. \"can %s have the soup?\" asks of a dish.", x.Place))
	}
	return strings.Join(lines, "\n")
}

// sayNoneSaid answers that there are no needs, or not some any more, where it was not said of whom: that ends none, and
// what stands is told with the words that would end it.
func (t *turn) sayNoneSaid(x *language.TableTalk) string {
	var list []pantry.Need
	for _, n := range t.needsOn(t.needsFor) {
		if n.Lasting || n.Kind == pantry.NeedHeads || len(x.Needs) > 0 && !slices.ContainsFunc(x.Needs, func(over language.TableNeed) bool {
			return isPart(n.What, t.needSaid(pantry.Need{Who: "table"}, over).What)
		}) {
			continue
		}
		list = append(list, n)
	}
	if len(list) == 0 {
		return "No such needs of the table were kept. That is no clearance: ask the guests."
	}
	say := `"table: none" ends all of the table.`
	if who := list[0].Who; who != "" {
		say = fmt.Sprintf("%q ends one, and %s", who+": none", say)
		if len(x.Needs) == 1 && !strings.Contains(list[0].Said, "(") { // and not what others there have
			say = fmt.Sprintf("%q ends one.", "no more "+list[0].Said+" at "+who)
		}
	}
	return "Nothing is taken off, as it was not said of whom. Kept still: " + sayList(list) + ". " + say
}

// sayOverAt tells what of a place's needs is over, and what is left of them.
func sayOverAt(now, ended []pantry.Need, place string) string {
	var list []pantry.Need
	for _, n := range now {
		if !n.Lasting && within(n.Who, place) {
			list = append(list, n)
		}
	}
	ended = slices.DeleteFunc(slices.Clone(ended), func(n pantry.Need) bool {
		return n.Lasting || !within(n.Who, place) || n.Kind == pantry.NeedHeads || slices.ContainsFunc(list, func(o pantry.Need) bool { return o.N == n.N && o.Kind == n.Kind && o.What == n.What })
	})
	if len(list) == 0 {
		over := ""
		if len(ended) > 0 {
			over = "Over: " + sayNeeds(ended) + ". "
		}
		return title(place) + ": no needs are kept any more. " + over + "\"undo\" takes that back."
	}
	return sayStanding(list, 0) + " \"undo\" takes back what is over."
}

// sayEnded tells what is over of places of which a message says new needs as well: "table 9 left, new people 1 vegan".
func sayEnded(now, was, keep []pantry.Need) (lines []string) {
	for _, o := range keep {
		if o.Kind != pantry.NeedOver || o.Lasting || o.Who == "" {
			continue
		}
		over := slices.DeleteFunc(slices.Clone(was), func(n pantry.Need) bool {
			return !within(n.Who, o.Who) || n.Lasting || n.Kind == pantry.NeedHeads || slices.ContainsFunc(now, func(x pantry.Need) bool { return x.Kind == n.Kind && x.What == n.What && x.Said == n.Said })
		})
		if len(over) > 0 {
			lines = append(lines, "Over: "+sayNeeds(over)+".")
		}
	}
	return lines
}
