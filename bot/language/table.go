package language

import (
	"bytes"
	_ "embed"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
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
}

// TableTalk is something said or asked of who cannot eat what.
type TableTalk struct {
	About About
	Who   []string // names as typed; none: the table
	N     int      // of AboutOf how many they are, of AboutNumbered which table; 0 none
	Needs []TableNeed
	Doubt bool // it is not said as a fact
	Name  bool // a name of Who is the word of a cook here, or said to be a guest's
}

// What is said of who cannot eat what; table.csv has the forms.
const (
	AboutNeeds    About = "needs"    // of the table
	AboutAll      About = "all"      // of everyone at it; read as AboutNeeds
	AboutOf       About = "of"       // of a table of N
	AboutNumbered About = "numbered" // of table N
	AboutGuest    About = "guest"    // of Who, for good
	AboutMe       About = "me"       // of the speaker
	AboutOver     About = "over"     // no needs any more: of the table
	AboutOverAt   About = "overat"   // of table N
	AboutBetter   About = "better"   // of Who
	AboutWell     About = "well"     // of the speaker
	AboutWho      About = "who"      // it is asked
	aboutOpen     About = "open"
)

//go:embed table.csv
var tableCSV []byte

var tableForms = sync.OnceValue(func() *asking {
	f, err := readQuestions("table.csv", bytes.NewReader(tableCSV))
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	return f
})

// tableWords are what a message about needs has one of, as they begin.
var tableWords = []string{"table", "allerg", "intoleran", "coeliac", "celiac", "vegan", "vegetarian", "veggie", "plant based", "plant-based", "meat free", "meat-free", " eat", "can have", "cant have", "can't have", "cannot have", "avoid",
	"dietar", "needs", "diets", "wrap", "halal", "kosher", "pescatarian", "isn't allowed", "isnt allowed", "not allowed", "mustn't have", "mustnt have", "can’t have", "mustn’t have", "isn’t allowed", "no longer", "fodmap", "jain", "can do", "can't do", "can't touch"}

// saysTable is a quick look for the words that a message about needs has.
func saysTable(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(tableWords, func(w string) bool { return strings.Contains(text, w) })
}

// Table reads what a message says or asks of who cannot eat what, sentence by sentence.
// Rest is what else it says.
func (r *Reader) Table(text string) (list []TableTalk, rest string) {
	if !saysTable(text) || len(text) > mostTable {
		return nil, text
	}
	p := r.asTyped(apartHyphens.Replace(text))
	if p.newFood() > 0 { // "new food: samphire, no allergens"
		return nil, text
	}
	open := false
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
		list = append(list, *x)
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
		take(i, end, end)
		i = end
	}
	if len(list) == 0 {
		return nil, text
	}
	return list, rest
}

// apartHyphens makes two words of "dairy-free".
var apartHyphens = strings.NewReplacer("-free", " free", "-allerg", " allerg", "-intoleran", " intoleran")

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
		if to < end && !p.t[to].isComma() {
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
			if x == nil || x.About == aboutOpen && to < end || to < end && x.About == AboutWho {
				continue
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
		if n := p.needList(p.idle(i), &q, anyNeed); n > 0 && p.idle(i)+n == end {
			return i, len(p.t), &TableTalk{About: AboutNeeds, Needs: q.Needs}
		}
	}
	return i, i, nil
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
		x := &TableTalk{About: f.about, Who: q.Who, N: q.N, Needs: q.Needs}
		if x.About == AboutNeeds && q.Heads > 0 { // "table: 8 covers, 2 vegan"
			x.About, x.N = AboutOf, q.Heads
		}
		for _, w := range q.Who {
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
		case asked && x.About != AboutWho: // "dee is vegan?"
			x.About = AboutWho
		}
		return x
	}
	return nil
}

// How strictly a list of needs is read.
const (
	anyNeed    = iota
	ofPersons  // only words that are said of people: "coeliac", "a nut allergy"; not "no nuts", "dairy free"
	barredFood // bare foods: what somebody cannot eat
	atNumber   // as anyNeed, but "table 7: no cream" may be an order
)

// needList reads "1 nut allergy, 2 vegan and a coeliac" at i into q, and gives how many
// tokens it takes; 0 none.
func (p *parser) needList(i int, q *Question, how int) int {
	j := i
	for len(q.Needs) < mostNeeds {
		k := j
		for k > i && (p.mark(k, ",-&+/") || p.word(k, "and") || p.word(k, "plus") || p.word(k, "also") || p.word(k, "or")) {
			k++
		}
		if k > i && k == j {
			break
		}
		for k == i && p.mark(k, "-:") {
			k++
		}
		n := p.need(k, q, how)
		if n == 0 {
			break
		}
		j = k + n
	}
	return j - i
}

// mostNeeds is how many needs one sentence may list.
const mostNeeds = 20

// need reads one need at i.
func (p *parser) need(i int, q *Question, how int) int {
	x := TableNeed{}
	j, counted := p.soMany(i, &x)
	if p.among("{fine}", j) > 0 && x.Count != 0 { // "5 eat everything": of them there is nothing to say
		return j + p.among("{fine}", j) - i
	}
	if counted && x.Count > 0 && p.among("{no}", j) > 0 && p.word(j, "no") { // "table 7 no cream"
		return 0
	}
	if counted {
		for n := p.among("{of}", j); n > 0; n = p.among("{of}", j) {
			j += n
		}
	}
	if n := p.among("{covers}", j); n > 0 && x.Count > 0 && how == anyNeed { // "8 covers"
		q.Heads = x.Count
		return j + n - i
	}
	n := 0
	for _, read := range []func(int, *TableNeed, int) int{p.allergic, p.hasAllergy, p.hasDiet, p.barred} {
		if n = read(j, &x, how); n > 0 {
			break
		}
	}
	if n == 0 {
		return 0
	}
	j += n
	if k := p.skipWord(j, "x"); k > j || p.mark(j, "x") { // "nut allergy x2"
		if p.mark(j, "x") {
			k = j + 1
		}
		if v, m := p.number(k); m > 0 && v.Den == 1 && v.Num > 0 && v.Num < 500 {
			x.Count, j = int(v.Num), k+m
		}
	}
	if n := p.among("{covers}", j); n > 0 && counted { // "2 vegan guests"
		j += n
	}
	q.Needs = append(q.Needs, x)
	return j - i
}

// soMany reads how many have a need: "2", "a", "all".
func (p *parser) soMany(i int, x *TableNeed) (j int, counted bool) {
	if n := p.among("{all}", i); n > 0 {
		x.Count = Everyone
		return i + n, true
	}
	if v, m := p.number(i); m > 0 && v.Den == 1 && v.Num > 0 && v.Num <= 500 {
		x.Count = int(v.Num)
		j = i + m
		if p.word(j, "x") || p.mark(j, "x") {
			j++
		}
		return j, true
	}
	if p.word(i, "a") || p.word(i, "an") {
		x.Count = 1
		return i + 1, true
	}
	return i, false
}

// among gives how many tokens the words of a slot of table.csv take at i.
func (p *parser) among(name string, i int) int { return p.spelt(tableForms().words[name], i) }

// allergic reads "allergic to nuts and fish".
func (p *parser) allergic(i int, x *TableNeed, _ int) int {
	j := i + p.among("{bad}", i)
	n := p.among("{to}", j)
	if n == 0 {
		return 0
	}
	k := p.notEaten(j+n, x)
	if k == 0 {
		return 0
	}
	x.Said += " allergy"
	return j + n + k - i
}

// hasAllergy reads "nut allergy", "dairy intolerant", "severe peanut allergy".
func (p *parser) hasAllergy(i int, x *TableNeed, _ int) int {
	j := i
	for n := p.among("{bad}", j); n > 0; n = p.among("{bad}", j) {
		j += n
	}
	k := p.notEaten(j, x)
	if k == 0 {
		return 0
	}
	e := p.hyphen(j + k)
	n := p.among("{ill}", e)
	if n == 0 {
		*x = TableNeed{Count: x.Count}
		return 0
	}
	switch w := p.t[e].w; {
	case strings.HasPrefix(w, "intol"):
		x.Said += " intolerance"
	case strings.HasPrefix(w, "sens"):
		x.Said += " sensitivity"
	default:
		x.Said += " allergy"
	}
	return e + n - i
}

// hasDiet reads "vegan", "coeliac", "halal".
func (p *parser) hasDiet(i int, x *TableNeed, how int) int {
	if how == barredFood {
		return 0
	}
	j := i + p.among("{bad}", i)
	if n := p.among("{other}", j); n > 0 && (how == anyNeed || p.t[j].w != "no") {
		x.Diet = strings.ToLower(p.asSaid(j, n))
		x.Diet = strings.TrimSuffix(x.Diet, "s")
		x.Said = x.Diet
		return j + n - i
	}
	d, m := p.class(j, "diet")
	switch {
	case m == 0:
		return 0
	case d.value == "coeliac":
		x.Allergy, x.Said = "gluten cereals", "coeliac"
	default:
		x.Diet, x.Said = d.value, d.value
	}
	return j + m - i
}

// barred reads "no nuts or dairy", "dairy free", and of what somebody cannot eat the bare
// foods.
func (p *parser) barred(i int, x *TableNeed, how int) int {
	j := i
	if how == ofPersons {
		return 0
	}
	no := p.among("{no}", j)
	if no > 0 {
		j += no
		j = p.skipWord(j, "any")
	} else if how == barredFood {
		j = p.skip(p.skipWord(j, "any"), "det")
	}
	if n := p.among("{animal}", j); n > 0 && (no > 0 || how == barredFood) {
		x.Diet, x.Said = "vegan", "vegan"
		return j + n - i
	}
	if n := p.among("{meat}", j); n > 0 && (no > 0 || how == barredFood) {
		x.Diet, x.Said = "vegetarian", "vegetarian"
		return j + n - i
	}
	k := p.notEaten(j, x)
	if k == 0 {
		return 0
	}
	e := p.hyphen(j + k)
	switch {
	case no > 0 && how == atNumber && (x.Allergy == "" || p.foodAt(j) && p.among("{risky}", j) == 0):
	case no > 0 || how == barredFood:
		x.Said = "no " + p.asNamed(j, k)
		return j + k - i
	case p.word(e, "free"):
		x.Said = "no " + p.asNamed(j, k)
		return e + 1 - i
	}
	*x = TableNeed{Count: x.Count}
	return 0
}

// notEaten reads what somebody cannot eat, at i: words for allergens, "nuts and dairy", else one
// food.
func (p *parser) notEaten(i int, x *TableNeed) int {
	l, said := Limits{}, []string{}
	j := i
	for {
		k := j
		if j > i {
			k = p.skipMark(j, ",/&")
			if p.word(k, "and") || p.word(k, "or") {
				k++
			}
			if k == j {
				break
			}
		}
		k = p.skip(p.skipWord(k, "any"), "det")
		a, m := p.class(k, "allergen")
		if n := p.knownLength(k); m == 0 || n > m && !p.allergenEnds(k, m) { // "soy sauce", "cream of tartar"
			break
		}
		l.avoid(a.value)
		said = append(said, strings.ToLower(p.asSaid(k, m)))
		j = k + m
	}
	if j > i {
		x.Allergy, x.Said = strings.Join(l.Avoid, "+"), saidOf(said)
		return j - i
	}
	k := p.skip(p.skipWord(i, "any"), "det")
	n := p.knownLength(k)
	if n == 0 || p.lexHas(k, k+n, "diet") {
		return 0
	}
	x.Food = strings.ToLower(p.asSaid(k, n))
	x.Said = saidOf([]string{x.Food})
	return k + n - i
}

// asNamed gives the m tokens at i as they were said, without "any" and "the".
func (p *parser) asNamed(i, m int) string {
	k := min(p.skip(p.skipWord(i, "any"), "det"), i+m-1)
	return strings.ToLower(p.asSaid(k, i+m-k))
}

// allergenEnds says whether behind the words for an allergen stands one that only says how
// it is meant.
func (p *parser) allergenEnds(i, m int) bool {
	return p.among("{ill}", p.hyphen(i+m)) > 0 || p.word(p.hyphen(i+m), "free")
}

// saidOf puts words for allergens together: "nut and dairy"; one in the plural is said in
// the singular, as in "nut allergy".
func saidOf(words []string) string {
	for i, w := range words {
		if _, plural := strings.CutSuffix(w, "s"); plural && !strings.HasSuffix(w, "ss") {
			words[i] = food.Fold(w)
		}
	}
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// nameAt gives how many tokens a guest's name takes at i: a cook's, a word that is no other
// here, or any behind "guest".
func (p *parser) nameAt(i int, q *Question) int {
	if !p.is(i, word) {
		return 0
	}
	raw := strings.TrimSpace(p.t[i].raw)
	w := p.t[i].w
	if base := p.owner(i); base != "" {
		w, raw = base, raw[:len(base)]
	}
	cook := slices.Contains(p.cooks, w)
	if !cook && !p.word(i-1, "guest") && !p.strangerAt(i, w) {
		return 0
	}
	q.Who = append(q.Who, raw)
	return 1
}

// nameIs gives how many tokens "dee is", "dee has got" or "dee's" takes at i.
func (p *parser) nameIs(i int, q *Question) int {
	n := p.nameAt(i, q)
	if n == 0 {
		return 0
	}
	is := p.among("{is}", i+n)
	if is == 0 && p.owner(i) == "" {
		return 0
	}
	return n + is
}

// strangerAt says whether a word may be the name of somebody: it is no food, no word that
// is known here and no plain English.
func (p *parser) strangerAt(i int, w string) bool {
	l := words()
	if len([]rune(w)) < 2 || len(l.first[w]) > 0 || tableForms().known[w] || questions().known[w] || p.knownWords([]string{w}) || food.IsPlain(w) || slices.Contains(noGuests(), w) {
		return false
	}
	return p.knownLength(i) == 0
}

//go:embed noguests.txt
var noGuestsTXT string

// noGuests are words that are nobody's name; see the head of noguests.txt.
var noGuests = sync.OnceValue(func() (list []string) {
	for line := range strings.Lines(noGuestsTXT) {
		if !strings.HasPrefix(line, "#") {
			list = append(list, strings.Fields(line)...)
		}
	}
	return list
})
