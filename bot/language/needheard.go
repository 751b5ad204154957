package language

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// cannot is said of what somebody does not eat, whatever it is.
var cannot = regexp.MustCompile(`(?i)\b(?:can['’]?t|cannot|can not|mustn['’]?t) (?:have|eat|do|touch)\b`)

// isIll is a word of what nobody orders.
var isIll = regexp.MustCompile(`(?i)\b(?:all?erg|intol|anaph|c[oe]+liac|celiac)`)

// countedShort is a short form of a need with how many have it: "2 gf".
var countedShort = sync.OnceValue(func() *regexp.Regexp {
	return anyOf(shortsQuoted(), `(?i)\b\d{1,3} ?(?:x )?(?:`, `)\b`)
})

// heardNeeds are what is said of one guest or one place: where, who, and what they cannot eat.
type heardNeeds struct {
	place, whose string
	guest        string // a name with its title, "mr byrne"
	fine         bool   // they eat everything
	heads        int    // how many there are in all
	needs        []TableNeed
	were         []TableNeed // what is said to be so no longer: "table 3 vegan is now vegetarian"
	more, again  bool
	less         bool // there are fewer of them
	named        bool // by a name without a title
	role         bool // by what they do at the party: "the dj"
	person       bool // a need is said in words that are of persons alone: "coeliac", "nut allergy"
	doubt        bool
}

// NeedsHeard reads needs by evidence, in any order of words, where no form of table.csv has them: places, persons, needs,
// how many, and words that add nothing. Every word of a clause must be one of these. Left are the clauses that are not
// read, seems says that a place or a person and a need were heard, read or not.
func (r *Reader) NeedsHeard(text string) (list []TableTalk, left string, seems bool) {
	if len(text) > mostHeld || strings.Contains(text, "?") || strings.Contains(text, "://") {
		return nil, "", false
	}
	if tableNumber.MatchString(text) { // as the forms have it
		text = "table " + strings.TrimSpace(text)
	}
	if text = MendNeeds(text); !looseWord.MatchString(text) && !cannot.MatchString(text) && !countedShort().MatchString(text) { // a quick look
		return nil, text, false
	}
	if countedShort().MatchString(text) { // "40 for lunch: 6 veg 2 gf"
		text = shortWritten(text)
	}
	h := &needEar{p: r.asTyped(apartHyphens.Replace(writtenOut(text)))}
	p := h.p
	h.ordered = saysPlace.MatchString(text) && !isIll.MatchString(text)
	for i := 0; i < len(p.t); {
		k := i
		for k < len(p.t) && !h.ends(k) {
			k++
		}
		left = strings.TrimSpace(left + "\n" + h.sentence(i, k))
		i = k + 1
	}
	h.flush()
	seems = h.everWhere && h.everWhat
	if h.bad || len(h.list) == 0 || left != "" && slices.ContainsFunc(h.list, func(x TableTalk) bool { return x.About == AboutNeeds || x.About == AboutOf }) {
		return nil, text, seems
	}
	return h.list, left, seems
}

// ends says whether a sentence ends at i.
func (h *needEar) ends(i int) bool {
	return h.p.t[i].sort == mark && strings.Contains(".;\n", h.p.t[i].w)
}

// sentence hears the clauses from i to before end, and gives those that are not read. Where one of them speaks of a place,
// a person or a need, nothing of the sentence is taken as heard: what is read may be of what is not.
func (h *needEar) sentence(i, end int) (left string) {
	p, from, spoke := h.p, i, false
	start := h.copied()
	for i < end {
		if p.end = len(p.t); h.parts(i) > 0 {
			i += h.parts(i)
			continue
		}
		k := i
		for k < end && h.parts(k) == 0 {
			k++
		}
		p.start, p.end = i, k
		p.classesOf(i, k)
		was := h.copied()
		h.where, h.what, h.ill = false, false, false
		read := h.clause()
		h.what = h.what && (read || h.ill || !h.served(i, k))
		h.everWhere, h.everWhat = h.everWhere || h.where, h.everWhat || h.what
		if !read {
			spoke = spoke || h.where || h.what
			h.restore(was)
			left = strings.TrimSpace(left + "\n" + p.text[p.t[i].from:p.t[k-1].to])
		}
		i = k
	}
	if spoke {
		h.restore(start)
		left = p.text[p.t[from].from:p.t[end-1].to]
	}
	return left
}

// needEar goes through a text that may tell needs.
type needEar struct {
	p           *parser
	cur         heardNeeds
	list        []TableTalk
	needFirst   bool // needs stand before their places: "nut allergy on 3, vegan on 4"
	begun       bool // whether that is known
	ordered     bool // a place is said and no illness: "no cream" may be how they want it
	count       int  // how many the next need is of
	bad         bool // what is heard does not fit together
	where, what bool // a place or a person, and a need, were heard in this clause
	ill         bool // a need is an illness, which nobody orders
	// and in any, read or not
	everWhere, everWhat bool
}

// served says whether food or a dish is named between i and k, of which a diet may be said as well: "table 4 burger vegan".
func (h *needEar) served(i, k int) bool {
	for ; i < k; i++ {
		if h.p.is(i, word) && h.p.among("{risky}", i) == 0 && h.p.among("{rarely}", i) == 0 && (h.p.knownLength(i) > 0 || h.p.namesDish(i, i+1)) {
			return true
		}
	}
	return false
}

// copied and restore let a clause that is not read leave nothing behind.
func (h *needEar) copied() needEar {
	was := *h
	was.cur.needs, was.cur.were, was.list = slices.Clone(h.cur.needs), slices.Clone(h.cur.were), slices.Clone(h.list)
	return was
}

func (h *needEar) restore(was needEar) {
	was.everWhere, was.everWhat = h.everWhere, h.everWhat
	*h = was
}

// parts gives how many tokens part two clauses at i.
func (h *needEar) parts(i int) int {
	if t := h.p.t[i]; t.sort == mark && strings.Contains(",()-!", t.w) {
		return 1
	}
	return h.p.among("{butthen}", i)
}

// clause hears one clause; false where a word of it is none of what is heard here.
func (h *needEar) clause() bool {
	p, ok := h.p, true
	link := "" // what stands between two needs: "also", "now"
	for i := p.start; i < p.end; {
		n := 0
		switch {
		case p.among("{doubt}", i) > 0:
			n, h.cur.doubt = p.among("{doubt}", i), true
		case p.among("{makeit}", i) > 0:
			n, h.cur.again = p.among("{makeit}", i), true
		case p.among("{oneless}", i) > 0:
			n, h.cur.less = p.among("{oneless}", i), true
		case p.among("{calledoff}", i) > 0 && h.cur.place == "":
			n, h.cur.less = p.among("{calledoff}", i), true
		case p.onlySoMany(i) && len(h.cur.needs) == 0 && h.cur.place == "": // "only 1 nut allergy now"
			n, h.cur.again = 1, true
		case p.among("{fine}", i) > 0 && i+p.among("{fine}", i) == p.end && i > p.start: // "he's fine"
			n = p.among("{fine}", i)
			h.cur.fine = len(h.cur.needs) == 0
		default:
			n = h.oneMore(i)
		}
		if n == 0 {
			n = cmp.Or(h.somewhere(i), h.someone(i))
		}
		if n == 0 {
			if n = h.need(i, link); n > 0 {
				link = ""
			}
		}
		for _, slot := range []string{"{alsoneed}", "{nowneed}", "{heardfill}"} {
			if n > 0 {
				break
			}
			if n = p.among(slot, i); n > 0 && slot != "{heardfill}" {
				link = slot
			}
		}
		if n == 0 {
			n = h.heads(i)
		}
		if n == 0 {
			n = h.hour(i)
		}
		if n == 0 && len(h.cur.needs) > 0 { // "no shellfish, allergic"
			n = cmp.Or(p.among("{ill}", i), p.among("{mayfolk}", i))
		}
		if n == 0 && p.mark(i, ":/&+'\"") {
			n = 1
		}
		if n == 0 && p.among("{cant}", i) > 0 { // of what, no table knows
			h.what = true
		}
		if n == 0 {
			ok, n = false, 1
		}
		i += n
	}
	return ok
}

// needAhead says whether a need of persons is said behind i, in the same clause.
func (h *needEar) needAhead(i int) bool {
	for k := i; k < h.p.end; k++ {
		if h.p.needList(k, &Question{}, ofPersons) > 0 {
			return true
		}
	}
	return false
}

// need hears needs at i, and what a link to one before it makes of that.
func (h *needEar) need(i int, link string) int {
	p := h.p
	q := Question{}
	how := anyNeed
	if h.ordered && len(h.cur.needs) == 0 && (p.word(i, "no") || p.word(i, "without")) { // "table 7 no cream" may be an order
		how = atNumber
	}
	n := p.needList(i, &q, ofPersons)
	if n > 0 {
		h.cur.person = true
		h.ill = h.ill || slices.ContainsFunc(q.Needs, func(x TableNeed) bool { return x.Diet == "" })
	} else if n = p.needList(i, &q, how); n == 0 {
		n = h.bare(i, &q)
	}
	if n == 0 || len(q.Needs) == 0 {
		return 0
	}
	h.what = true
	if h.count > 0 && q.Needs[0].Count == 0 {
		q.Needs[0].Count = h.count
	}
	h.count = 0
	if !h.begun {
		h.begun, h.needFirst = true, h.cur.place == ""
	}
	if h.needFirst && h.cur.place != "" {
		h.flush()
	}
	switch {
	case link == "{nowneed}" && len(h.cur.needs) > 0 && !slices.ContainsFunc(h.cur.needs, func(x TableNeed) bool { return x.Diet == "" }): // no allergy ends so
		h.cur.were, h.cur.needs = append(h.cur.were, h.cur.needs...), nil
	case link == "{alsoneed}":
		for x := range h.cur.needs { // "one vegan is also gluten free" tells of no other vegan
			h.cur.needs[x].Known = true
		}
	}
	h.cur.needs = append(h.cur.needs, q.Needs...)
	return n
}

// bare hears the word for an allergen alone, which nobody orders, of a place or with how many: "table 2 seat 3 nuts".
func (h *needEar) bare(i int, q *Question) int {
	p, x := h.p, TableNeed{}
	j, counted := p.soMany(i, &x)
	if counted {
		j = p.skipWord(p.skipWord(j, "of"), "the")
	}
	m := p.among("{risky}", j)
	folk := p.among("{mayfolk}", j+m) > 0
	alone := m > 0 && i == p.start && j+m == p.end // "nuts! table 9"
	a, n := p.class(j, "allergen")
	if m == 0 || n == 0 || p.knownLength(j) > m || h.cur.place == "" && !(counted && (h.cur.person || len(h.cur.needs) > 0 || h.cur.heads > 0 || h.placeAhead(j+m))) && !alone && !folk || p.is(j+m, word) && (p.knownLength(j+m) > 0 || p.namesDish(j+m, j+m+1)) || isOrder(h.cur.place) && p.among("{uncounted}", j) != m {
		return 0
	}
	l := Limits{}
	l.avoid(a.value)
	x.Allergy, x.Said = strings.Join(l.Avoid, "+"), saidOf([]string{strings.ToLower(p.asSaid(j, m))})+" allergy"
	q.Needs = append(q.Needs, x)
	if folk {
		m += p.among("{mayfolk}", j+m)
	}
	return j + m - i
}

// flush keeps what was heard of one guest or place.
func (h *needEar) flush() {
	c := h.cur
	h.cur = heardNeeds{}
	x := TableTalk{Needs: c.needs, Doubt: c.doubt, More: c.more, Again: c.again, Whose: c.whose}
	counted := !slices.ContainsFunc(c.needs, func(n TableNeed) bool { return n.Count == 0 })
	switch {
	case len(c.needs) == 0 && c.fine:
		return
	case len(c.needs) == 0:
		h.bad = h.bad || c.place != "" || c.again
		return
	case c.less && (len(c.needs) != 1 || c.more || c.again):
		h.bad = true
		return
	case c.less: // of which place is not for the program to guess
		h.list = append(h.list, TableTalk{About: AboutNoneSaid, Needs: c.needs})
		return
	case c.again && (len(c.needs) != 1 || !counted || c.place != ""), c.more && !counted, len(c.were) > 0 && c.place == "":
		h.bad = true
		return
	case c.place != "":
		x.About, x.Place, x.N = AboutNumbered, c.place, c.heads
	case c.named && slices.ContainsFunc(c.needs, func(n TableNeed) bool { return n.Allergy == "" }) && !slices.Contains(h.p.cooks, strings.ToLower(c.guest)):
		h.bad = true
		return
	case c.guest != "":
		x.About, x.Who, x.Name, x.Whose = AboutGuest, []string{c.guest}, !c.named, ""
	case counted && c.heads > 0:
		x.About, x.N = AboutOf, c.heads
	case counted && (c.person || c.more || c.again), c.role && !slices.ContainsFunc(c.needs, func(n TableNeed) bool { return n.Food != "" }):
		x.About = AboutNeeds
		for i := range x.Needs {
			if c.role && x.Needs[i].Count == 0 {
				x.Needs[i].Count = 1
			}
		}
	default: // it is not said of whom
		h.bad = true
		return
	}
	if len(c.were) > 0 {
		h.list = append(h.list, TableTalk{About: AboutOverAt, Place: x.Place, Needs: c.were})
	}
	for _, one := range x.eachPlace() {
		one.seated(h.list)
		h.list = append(h.list, one)
	}
}
