package language

import (
	_ "embed"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// Everyone is the count of a need that all at the table have.
const Everyone = 1_000_000

// TableNeed is what somebody cannot or does not eat.
type TableNeed struct {
	Count   int    // so many of them; 0 not said; Everyone
	Allergy string // allergens of the EU/UK 14 by the names of the food table, "+" between
	Food    string // or a food that is none of their words: "kiwi"
	Diet    string // or "vegan", "vegetarian", or one that no table knows: "halal"
	Said    string // "nut allergy", "coeliac", "no fish"
	Known   bool   // it is said of one whose need it was already: "one vegan is also gluten free"
}

// TableTalk is something said or asked of who cannot eat what.
type TableTalk struct {
	About About
	Who   []string // names as typed; none: the table
	N     int      // of AboutOf and AboutNumbered how many they are; 0 not said
	Place string   // of AboutNumbered and AboutOverAt which: "table 5", "bed 3"
	From  string   // of AboutMoved where they were before
	Whose string   // of AboutNumbered the name of who has the needs, where it was said: "oliver"
	Needs []TableNeed
	Doubt bool // it is not said as a fact
	More  bool // so many come to those who have the need already: "one more coeliac on table 3"
	Again bool // so many have what was told last, instead of as many as were told then: "make that 3 coeliac"
	Food  bool // a name of Who is that of a food as well: "olive"
	Name  bool // a name of Who is the word of a cook here, or said to be a guest's
}

// What is said of who cannot eat what; table.csv has the forms.
const (
	AboutNeeds    About = "needs"    // of the table
	AboutAll      About = "all"      // of everyone at it; read as AboutNeeds
	AboutOf       About = "of"       // of a table of N
	AboutNumbered About = "numbered" // of Place
	AboutGuest    About = "guest"    // of Who, for good
	AboutMe       About = "me"       // of the speaker
	AboutOver     About = "over"     // no needs any more: of the table
	AboutNoneSaid About = "nonesaid" // no needs, and it is not said of whom
	AboutOverAt   About = "overat"   // of Place
	AboutMoved    About = "moved"    // from From to Place
	AboutGone     About = "gone"     // over at Place, as who was there has left
	AboutHaveLeft About = "haveleft" // as AboutGone, of a table: who leaves a class is back tomorrow
	AboutBetter   About = "better"   // of Who
	AboutWell     About = "well"     // of the speaker
	AboutWho      About = "who"      // it is asked
	aboutOpen     About = "open"
	aboutUnknown  About = "unknown" // an allergy to what no table knows; read as AboutNumbered or AboutNeeds
)

//go:embed table.csv
var tableCSV []byte

var tableForms = sync.OnceValue(func() *asking { return formsOf("table.csv", tableCSV) })

// tableWords are what a message about needs has one of, as they begin.
var tableWords = []string{"table", "allerg", "intoleran", "coeliac", "celiac", "vegan", "vegetarian", "veggie", "plant based", "plant-based", "meat free", "meat-free", " eat", "can have", "cant have", "can't have", "cannot have", "avoid",
	"dietar", "needs", "diets", "wrap", "halal", "kosher", "pescatarian", "isn't allowed", "isnt allowed", "not allowed", "mustn't have", "mustnt have", "can’t have", "mustn’t have", "isn’t allowed", "no longer", "fodmap", "jain", "can do", "can't do", "can't touch", "anaphyla", "tbl",
	"bed ", "ward ", "room ", "seat ", "bay ", "year ", "class ", "beds ", "wards ", "rooms ", "seats ", "bays ", "years ", "classes ", "cover ", "order ", "ticket ", "booking ", "patient", "resident", "pupil", "puree", "purée", "minced", "liquidi", "soft ", "bite siz", "level ", "iddsi", "easy chew", "to chew", "thicken", "mashable", "mashed diet", "free", " off ", "nil by mouth", "nbm", "cmpa", "no shellfish", "no nuts", "party of", "cubicle", "rm ", "booth"}

// saysTable is a quick look for the words that a message about needs has.
func saysTable(text string) bool {
	text = strings.ToLower(text)
	return atPlace.MatchString(text) || slices.ContainsFunc(tableWords, func(w string) bool { return strings.Contains(text, w) })
}

// Table reads what a message says or asks of who cannot eat what, sentence by sentence.
// Rest is what else it says.
func (r *Reader) Table(text string) (list []TableTalk, rest string) {
	if len(text) > mostTable {
		return nil, text
	}
	if tableNumber.MatchString(text) {
		if list, rest := r.Table("table " + strings.TrimSpace(text)); rest == "" && !slices.ContainsFunc(list, func(x TableTalk) bool { return x.About != AboutNumbered || len(x.Needs) == 0 }) {
			return list, rest
		}
	}
	whole := text
	if text = plainNeeds(MendNeeds(text)); !saysTable(text) && !numberFirst.MatchString(text) {
		return nil, whole
	}
	p := r.asTyped(countedNeeds(apartHyphens.Replace(writtenOut(patientShort.ReplaceAllString(text, "patient $1")))))
	if p.newFood() > 0 { // "new food: samphire, no allergens"
		return nil, whole
	}
	p.whole = true // what stands behind a need is not its reason: it is the next table
	open, first := false, 0
	var take func(i, end, stop int)
	take = func(i, end, stop int) { // of the sentence that ends before stop
		p.end = end
		at, to, x := p.tableTalk(i, open)
		switch {
		case i >= end:
			return
		case x == nil: // not for us
			open = false
			k := end
			if end == stop {
				k = min(stop+1, len(p.t))
			}
			rest = strings.TrimSpace(rest + "\n" + p.text[p.t[i].from:p.t[k-1].to])
			return
		case x.About == aboutOpen:
			open = true
			return
		}
		take(i, at, stop)
		open = len(x.Needs) > 0 && x.About != AboutWho
		x.Doubt = p.doubted(i, stop)
		if n := len(list); n > first && x.ofAll() && len(x.Who) == 0 && !p.saysTheTable(at-1, min(to, stop)) && list[n-1].Place != "" { // "bed 9: lucuma allergy, level 4"
			x.About, x.Place = AboutNumbered, list[n-1].Place
		}
		if n := len(list); n > first && x.ofAll() && len(x.Who) == 0 && !p.saysTheTable(at-1, min(to, stop)) && (list[n-1].About == AboutGuest || list[n-1].About == AboutMe) && x.ofOne() { // "sam is coeliac, no dairy"
			x.About, x.Who, x.Place, x.Name, x.Food = list[n-1].About, list[n-1].Who, list[n-1].Place, list[n-1].Name, list[n-1].Food
		}
		if x.About == AboutOverAt && at > i && slices.ContainsFunc(list[first:], func(o TableTalk) bool { return o.Place == x.Place && len(o.Needs) > 0 }) { // "t4 nut allergy, no dietaries"
			x.About = AboutNoneSaid
		}
		for _, one := range x.eachPlace() {
			one.seated(list)
			list = append(list, one)
		}
		if to < end {
			take(to+1, end, stop)
		}
	}
	for i := 0; i < len(p.t); {
		if p.end = len(p.t); p.breaks(i) {
			i++
			continue
		}
		p.start, p.end = i, p.sentenceEnd(i)
		end := p.end
		p.classesOf(i, end)
		first = len(list)
		take(i, end, end)
		i = end
	}
	if _, told, sure := r.asTyped(rest).bareNeeds(); sure { // what guests are told of so seldom is an order
		more, left := r.Table(told)
		list, rest = append(list, more...), left
	}
	if len(list) == 0 {
		return nil, whole
	}
	return list, rest
}

// apartHyphens makes two words of "dairy-free".
var apartHyphens = strings.NewReplacer("-free", " free", "-allerg", " allerg", "-intoleran", " intoleran", "-sized", " sized", "bite-size", "bite size")

// patientShort is "pt" of a ward, which is no slip for "put".
var patientShort = regexp.MustCompile(`(?i)\bpt (in|on|is|has|with)\b`)

// doubted says whether a word of doubt stands between i and k.
func (p *parser) doubted(i, k int) bool {
	end := p.end
	defer func() { p.end = end }()
	for p.end = k; i < k; i++ {
		if p.among("{doubt}", i) > 0 {
			return true
		}
	}
	return false
}

// A longer message than mostTable bytes is a paste, and no sentence about needs has more than
// mostTableWords.
const (
	mostTable      = 2000
	mostTableWords = 100
)

// tableTalk reads a sentence from i, or a part of it between commas or from an "and" on, and
// gives where that begins and ends; nil where it says nothing of needs. Open: a list may go on.
func (p *parser) tableTalk(i int, open bool) (at, to int, x *TableTalk) {
	end := p.end
	if end-i > mostTableWords {
		return i, i, nil
	}
	asked := end < len(p.t) && p.t[end].w == "?"
	for end > i && p.t[end-1].sort == mark {
		end--
	}
	defer func(was int) { p.end = was }(p.end)
	for to = end; to > i; to-- {
		joined := to < end && p.alsoSo(to)
		if to < end && !p.t[to].isComma() && !joined {
			continue
		}
		p.end = to
		for at = i; at < to; at++ {
			if at > i && !p.splits(at-1) {
				continue
			}
			x := p.tableForm(at, asked && to == end, at == i)
			if x == nil && p.idle(at) > at {
				x = p.tableForm(p.idle(at), asked && to == end, at == i)
			}
			if joined && x != nil && x.About != AboutGuest && x.About != AboutNumbered { // "josh is coeliac and can't have dairy"
				x = nil
			}
			if x == nil || x.About == aboutOpen && to < end || to < end && x.About == AboutWho {
				continue
			}
			if at > i && x.ofAll() && p.placeBefore(i, at) { // "bed 11 something, level 6" is not of all
				continue
			}
			if x.About == AboutOver || x.About == AboutNoneSaid {
				p.noneOf(x, i, at, to)
			}
			for at > i && p.splits(at-1) {
				at--
			}
			if to == end {
				to = len(p.t)
			}
			return at, to, x
		}
	}
	p.end = end
	if q := (Question{}); open && !asked {
		k := p.idle(i)
		if !p.word(k, "a") && !p.word(k, "an") {
			k += p.among("{is}", k)
		}
		if n := p.needList(k, &q, anyNeed); n > 0 && k+n == end {
			return i, len(p.t), &TableTalk{About: AboutNeeds, Needs: q.Needs}
		}
	}
	return i, i, nil
}

// alsoSo says whether an "and" stands at i that goes on with what else is so of a person: "and can't have dairy".
func (p *parser) alsoSo(i int) bool {
	if !p.word(i, "and") && !p.word(i, "but") {
		return false
	}
	return p.among("{is}", i+1) > 0 || p.among("{no}", i+1) > 0
}

func (t *token) isComma() bool { return t.sort == mark && t.w == "," }

// splits says whether a clause may begin behind the token at i.
func (p *parser) splits(i int) bool {
	return p.mark(i, ",-") || p.word(i, "and") || p.word(i, "but") || p.word(i, "also")
}

// tableForm holds the forms against the words from i; first says that a sentence begins there.
func (p *parser) tableForm(i int, asked, first bool) *TableTalk {
	for _, f := range append(slices.Clone(tableForms().forms[p.firstAt(i)]), tableForms().forms[""]...) {
		if f.asked && !asked {
			continue
		}
		q, end := p.match(f, i)
		if q == nil || end < p.end {
			continue
		}
		x := &TableTalk{About: f.about, Who: q.Who, N: q.N, Place: q.Place, Needs: q.Needs}
		if x.About == AboutMoved {
			x.From = q.Food
		}
		if x.About == aboutUnknown && !x.unknown(q.Food) || x.About == AboutNeeds && p.isTableNumber(i, q) {
			continue
		}
		switch {
		case x.About == AboutNeeds && q.Heads > 0: // "table: 8 covers, 2 vegan"
			x.About, x.N = AboutOf, q.Heads
		case f.about == AboutNumbered && len(q.Needs) == 0: // "table 4: 8 covers"
			continue
		case f.about == AboutNumbered && f.calls && !p.someone(q.Food): // "nobody on table 4 is allergic to nuts"
			continue
		case f.about == AboutNumbered && f.calls && x.diets() && p.callsFood(q.Food): // "t4 burger vegan" is an order
			continue
		case x.About == AboutNumbered: // "table 4: halal, 8 guests"
			switch {
			case f.about != AboutNumbered:
			case f.calls:
				x.Whose = nameOnly(q.Food)
			case q.Food != "":
				x.Place = seatedAt(q.Food, q.Place)
			}
			if x.Place == "" && q.N > 0 { // "a coeliac on 14"
				x.Place = fmt.Sprint("table ", q.N)
			}
			x.N = q.Heads
		}
		for _, w := range q.Who {
			x.Food = x.Food || isFoodName(w)
			x.Name = x.Name || slices.Contains(p.cooks, strings.ToLower(w))
		}
		x.Name = x.Name || p.word(i, "guest")
		switch {
		case x.About == AboutAll:
			x.About = AboutNeeds
			for n := range x.Needs {
				x.Needs[n].Count = Everyone
			}
		case x.About == aboutOpen && (asked || !first):
			return nil
		case f.ill && !first: // "no walnuts on seat 2, nut allergy"
			return nil
		case asked && x.About != AboutWho: // "dee is vegan?"
			x.About = AboutWho
		}
		return x
	}
	return nil
}
