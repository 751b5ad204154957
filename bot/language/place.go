package language

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// placeAt reads where guests are, at i: "table 5", "tbl 5b", "bed no. 3", and behind "in", "at" or "can", or
// where a sentence begins, a mere "2B". A bed and the ward it is in are one place: "bay 3 bed 2".
func (p *parser) placeAt(i int) (place string, n int) {
	place, n = p.numberedAt(i)
	if n == 0 {
		return place, n
	}
	is := func(slot, place string) bool {
		return slices.ContainsFunc(tableForms().words[slot].any, func(w []string) bool {
			number, ok := strings.CutPrefix(place, strings.Join(w, " ")+" ")
			return ok && !strings.ContainsAny(number, " "+placeMark)
		})
	}
	if strings.HasPrefix(place, "table ") && p.word(i+n, "s") && p.is(i+n+1, digit) && p.t[i+n].to == p.t[i+n+1].from && p.t[i+n+1].val.Den == 1 { // "t1 s5"
		return fmt.Sprint(place, " seat ", p.t[i+n+1].val.Num), n + 2
	}
	k := p.skipMark(i+n, ",:-")
	if is("{beds}", place) {
		for _, w := range []string{"in", "on", "of"} {
			k = p.skipWord(k, w)
		}
	}
	other, m := p.numberedAt(k)
	if list, m := p.alike(place, i+n); m > 0 {
		return list, n + m
	}
	switch {
	case m > 0 && isSeat(other) && strings.HasPrefix(place, "table ") && strings.Contains(other, placeMark): // "t9 seats 1 and 3"
		return place + " " + strings.ReplaceAll(other, placeMark, placeMark+place+" "), k + m - i
	case m == 0 || isSeat(place) && !strings.HasPrefix(other, "table ") || isSeat(other) && !strings.HasPrefix(place, "table "):
	case is("{wards}", place) && is("{beds}", other):
		return place + " " + other, k + m - i
	case is("{beds}", place) && is("{wards}", other):
		return other + " " + place, k + m - i
	}
	return place, n
}

// alike goes on with more places behind one that ends before i, each with its kind: "t4 and t5", "t4, t5 & bed 6". Of
// another kind only an "and" adds one: "bay 3, bed 2" is one place.
func (p *parser) alike(place string, i int) (list string, n int) {
	kind, _, ok := strings.Cut(place, " ")
	if !ok || strings.Contains(place, placeMark) {
		return "", 0
	}
	list = place
	for j := i; ; {
		k, joined := j, false
		for p.mark(k, ",&+/") || p.word(k, "and") || p.word(k, "or") {
			joined = joined || !p.mark(k, ",/")
			k++
		}
		if k == j {
			break
		}
		other, m := p.oneAt(k, p.among("{seat}", k))
		if k2, _, _ := strings.Cut(other, " "); m == 0 || k2 != kind && !joined || strings.Count(list, placeMark) >= mostPlaces {
			break
		}
		list, j = list+placeMark+other, k+m
		n = j - i
	}
	return list, n
}

// numberedAt is placeAt of one place: a bed without its ward.
func (p *parser) numberedAt(i int) (place string, n int) {
	m := p.among("{seat}", i)
	if several, n := p.placesAt(i); m == 0 && n > 0 {
		return several, n
	}
	return p.oneAt(i, m)
}

// oneAt is numberedAt of one place that its kind, of m tokens, is said before.
func (p *parser) oneAt(i, m int) (place string, n int) {
	if m == 0 {
		if k := p.lettered(i); k == 2 && (i > 0 && p.among("{on}", i-1) > 0 || i > 0 && p.among("{asks}", i-1) > 0 || i == p.start && (p.mark(i+2, ":-") || p.among("{has}", i+2) > 0)) {
			return strings.ToLower(p.t[i].raw + p.t[i+1].raw), k
		}
		return "", 0
	}
	place = strings.ToLower(p.asSaid(i, m))
	j := i + m
	switch place {
	case "tbl":
		place = "table"
	case "bth":
		place = "booth"
	case "rm":
		place = "room"
	case "y", "yr", "t": // "Y6", "t4", "yr 6"
		if j >= p.end || place != "yr" && p.t[j-1].to != p.t[j].from {
			return "", 0
		}
		place = map[string]string{"y": "year", "yr": "year", "t": "table"}[place]
	}
	if p.word(j, "number") || p.word(j, "no") {
		j++
		j = p.skipMark(j, ".")
	}
	v, k := p.number(j)
	if k == 0 || v.Den != 1 || v.Num <= 0 || v.Num >= 10000 {
		return "", 0
	}
	if p.word(j+k, "pm") || p.word(j+k, "am") || p.word(j+k, "oclock") { // "new booking 7pm"
		return "", 0
	}
	place = fmt.Sprint(place, " ", v.Num)
	if p.lettered(j) == 2 {
		return place + p.t[j+1].w, j + 2 - i
	}
	return place, j + k - i
}

// seatedAt is where somebody is of whom two places were said: at the table of the cover, and in the bed of the ward.
func seatedAt(first, second string) string {
	if isSeat(first) {
		return second
	}
	return first
}

// isSeat says whether a place is one at a table: "seat 2".
func isSeat(place string) bool {
	return slices.ContainsFunc([]string{"cover ", "seat ", "chair ", "stool ", "position ", "pos "}, func(kind string) bool { return strings.HasPrefix(place, kind) })
}

// tableOf is the table of a place at one: "table 11" of "table 11 seat 2"; "" of none.
func tableOf(place string) string {
	if !strings.HasPrefix(place, "table ") {
		return ""
	}
	return strings.Join(strings.Fields(place)[:2], " ")
}

// seated has a seat that is said behind a table, or behind another seat of it, be one of that table: "table 11 seat 2
// coeliac, seat 4 nut allergy".
func (x *TableTalk) seated(before []TableTalk) {
	if !isSeat(x.Place) {
		return
	}
	for _, o := range slices.Backward(before) {
		if table := tableOf(o.Place); table != "" {
			x.Place = table + " " + x.Place
		}
		if o.Place != "" {
			return
		}
	}
}

// placesAt reads several places of one kind at i, "tables 3, 4 and 7", with placeMark between them.
func (p *parser) placesAt(i int) (places string, n int) {
	m := p.among("{seats}", i)
	if m == 0 {
		return "", 0
	}
	kind := strings.TrimSuffix(strings.TrimSuffix(strings.ToLower(p.asSaid(i, m)), "s"), "sse")
	switch kind {
	case "tbl":
		kind = "table"
	case "cla":
		kind = "class"
	}
	var list []string
	for j := i + m; len(list) < mostPlaces; {
		k := j
		if len(list) > 0 {
			for p.mark(k, ",&+/") || p.word(k, "and") {
				k++
			}
			if k == j {
				break
			}
		}
		v, taken := p.number(k)
		if taken == 0 || v.Den != 1 || v.Num <= 0 || v.Num >= 10000 {
			break
		}
		place := fmt.Sprint(kind, " ", v.Num)
		if p.lettered(k) == 2 {
			place, taken = place+p.t[k+1].w, 2
		}
		list = append(list, place)
		j = k + taken
		n = j - i
	}
	return strings.Join(list, placeMark), n
}

// placeMark stands between places that are said together, of which there are mostPlaces at most.
const (
	placeMark  = ";"
	mostPlaces = 20
)

// eachPlace gives what is said of several places once for each.
func (x *TableTalk) eachPlace() (list []TableTalk) {
	for place := range strings.SplitSeq(x.Place, placeMark) {
		one := *x
		one.Place = place
		list = append(list, one)
	}
	return list
}

// lettered gives 2 where "2B" stands at i, written as one: a number and a letter. 2x is an amount.
func (p *parser) lettered(i int) int {
	if p.is(i, digit) && p.is(i+1, word) && p.t[i].to == p.t[i+1].from && p.t[i].val.Den == 1 && len(p.t[i+1].w) == 1 && p.t[i+1].w != "x" {
		return 2
	}
	return 0
}

// spotAt reads a place with a name, at i: "the bar", "top table".
func (p *parser) spotAt(i int) (place string, n int) {
	n = p.among("{spot}", i)
	if n == 0 {
		return "", 0
	}
	return strings.TrimPrefix(strings.ToLower(p.asSaid(i, n)), "the "), n
}

// IsSpot says whether a place is one with a name.
func IsSpot(place string) bool {
	for _, w := range tableForms().words["{spot}"].any {
		if said := strings.Join(w, " "); said == place || said == "the "+place {
			return true
		}
	}
	return false
}

// countedNeeds reads "14 halal, 22 veggie, 3 vegan" at i: two or more that are said of people, each
// with how many.
func (p *parser) countedNeeds(i int, q *Question) int {
	was := len(q.Needs)
	n := p.needList(i, q, ofPersons)
	list := q.Needs[was:]
	for _, x := range list {
		if x.Count == 0 || x.Count == Everyone {
			return 0
		}
	}
	if len(list) < 2 {
		return 0
	}
	return n
}

// isTableNumber says whether the number behind "table" is the table's own, and not of how many a need
// is: "table 4 halal", "table 1 soy allergy". "table 2 vegans" is a count.
func (p *parser) isTableNumber(i int, q *Question) bool {
	i = p.skipWord(i, "the")
	if !p.word(i, "table") || len(q.Needs) == 0 || q.Needs[0].Count == 0 || q.Needs[0].Count == Everyone {
		return false
	}
	_, n := p.number(i + 1)
	if n == 0 {
		return false
	}
	if _, counted := p.number(i + 1 + n); counted > 0 || p.among("{to}", i+1+n) > 0 { // "table 9 one coeliac", "table 14 allergic to nuts"
		return true
	}
	if p.among("{of}", i+1+n) > 0 {
		return false
	}
	k := i + 1 + n
	for k < p.end && p.t[k].sort == word && !p.word(k, "and") {
		k++
	}
	w := p.t[k-1].w
	return k > i+1+n && (!strings.HasSuffix(w, "s") || strings.HasSuffix(w, "ss"))
}

// placeBefore says whether a place stands between i and k.
func (p *parser) placeBefore(i, k int) bool {
	for ; i < k; i++ {
		if _, n := p.placeAt(i); n > 0 {
			return true
		}
	}
	return false
}

// noneOf has words that end all needs, from at to before to, end those of the one place that stands between i and them:
// "new table 6, no allergies". Where none stands there they end nothing, unless they name the table: "late booking, no
// allergies" is of nobody who was spoken of before.
func (p *parser) noneOf(x *TableTalk, i, at, to int) {
	var places []string
	for k := i; k < at; k++ {
		if place, n := p.placeAt(k); n > 0 {
			places, k = append(places, strings.Split(place, placeMark)...), k+n-1
		}
	}
	switch {
	case len(places) == 1:
		x.About, x.Place = AboutOverAt, places[0]
	case len(places) > 1 || at > p.idle(i) && !p.saysTheTable(at, to):
		x.About = AboutNoneSaid
	}
}

// ofAll says whether needs are said of the whole table, and nothing says so.
func (x *TableTalk) ofAll() bool {
	return x.About == AboutNeeds && x.Place == ""
}

// ofOne says whether needs may be of one person.
func (x *TableTalk) ofOne() bool {
	return len(x.Needs) > 0 && !slices.ContainsFunc(x.Needs, func(n TableNeed) bool { return n.Count > 1 })
}

// saysTheTable says whether a word for the table stands between i and k.
func (p *parser) saysTheTable(i, k int) bool {
	for i = max(i, 0); i < k; i++ {
		if p.word(i, "table") || p.word(i, "everyone") || p.word(i, "everybody") || p.word(i, "all") {
			return true
		}
	}
	return false
}

// MeansNeed says whether a text speaks of what a guest cannot eat by its words alone, so that silence
// would be taken for having heard: an allergy and somebody who is served, or a diet of a ward's and a bed.
func MeansNeed(text string) bool {
	text = " " + strings.ToLower(text) + " "
	has := func(slot string) bool {
		for _, w := range tableForms().quick[slot] {
			if strings.Contains(text, w) {
				return true
			}
		}
		return false
	}
	return !has("{own}") && (has("{alarm}") && (has("{seated}") || saysPlace.MatchString(text) || countOrPlace.MatchString(strings.TrimSpace(text))) || has("{wardly}") && has("{abed}"))
}

// countOrPlace is how many have an allergy, or a heading or a short word for where: "2 nut allergies", "1x coeliac",
// "icu: nut allergy", "b12 allergic to soya".
var countOrPlace = regexp.MustCompile(`\b\d{1,3} ?(?:x )?(?:[a-z]+ ){0,3}(?:allerg|alerg|coeliac|celiac|intoleran)|^[a-z][a-z' ]{1,25}(?::| - )|^[a-z]{1,2} ?\d{1,3}\b`)
