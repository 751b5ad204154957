package language

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

// atPlace is the short way to write a numbered place, which a message about needs may have alone: "t8 dairy".
var atPlace = regexp.MustCompile(`(?i)\b(?:t|tbl|yr|y) ?\d{1,3}\b`)

// shortNeed finds the short forms of table.csv ("gf") where one of a list stands: behind a place, a count or
// another, and before the next. "gf flour" is food.
var shortNeed = sync.OnceValue(func() *regexp.Regexp {
	list := shortsQuoted()
	return regexp.MustCompile(`(?i)(^|[\s,+&/:(-])(` + strings.Join(list, "|") + `)(\s*(?:$|[\n,+&/;.)?!]|x ?\d|and\b|plus\b|on\b|at\b|in\b|for\b|please\b|pls\b|guests?\b|covers?\b|pax\b|allergy\b|\d|(?:` + strings.Join(list, "|") + `)\b))`)
})

// shortsQuoted lists the short forms for a pattern, in order.
func shortsQuoted() (list []string) {
	for short := range needShorts() {
		list = append(list, regexp.QuoteMeta(short))
	}
	slices.Sort(list)
	return list
}

// needShorts gives what each short form of table.csv means: "gf" is "gluten free".
var needShorts = sync.OnceValue(func() map[string]string {
	all := map[string]string{}
	for _, row := range tableForms().quick["{short}"] {
		short, means, _ := strings.Cut(row, "=")
		all[short] = means
	}
	return all
})

// saysPlace is a quick look for a place, or a word for the table, that a list of needs may be of.
var saysPlace = regexp.MustCompile(`(?i)\b(?:tables?|tbls?|beds?|wards?|rooms?|rm|seats?|bays?|years?|yr|class|classes|covers?|bookings?|cubicles?|booths?|orders?|tickets?|checks?|party of|guests?|customers?|t ?\d{1,3}|y\d{1,2})\b|^\s*\d{1,3}[a-z]?\s*[:-]`)

// numberFirst is a bare number that a place may be called by, with what is said of it behind: "12: gf".
var numberFirst = regexp.MustCompile(`^\s*\d{1,3}[a-z]?\s*[:-]`)

// tableNumber is a table by its number alone before what is said of it: "12: gf". "12 - gf" may be twelve of them.
var tableNumber = regexp.MustCompile(`(?i)^\s*\d{1,3}:(?:\s|[a-z])`)

// placeInBrackets is a place behind a name: "ruby (year 3) coeliac".
var placeInBrackets = regexp.MustCompile(`(?i)\(((?:table|tbl|bed|ward|room|rm|seat|year|yr|class|cover|t|y) ?\d{1,3}[a-z]?)\)`)

// writtenOut has short forms in words where they are needs of a place: "table 9: gf".
func writtenOut(text string) string {
	text = plainNeeds(text)
	if !saysPlace.MatchString(text) {
		return text
	}
	return shortWritten(placeInBrackets.ReplaceAllString(text, "in $1"))
}

// shortWritten has the short forms of needs in words.
func shortWritten(text string) string {
	for range strings.Count(text, " ") + 1 { // the end of one match begins the next
		m := shortNeed().FindStringSubmatchIndex(text)
		if m == nil {
			break
		}
		text = text[:m[4]] + needShorts()[strings.ToLower(text[m[4]:m[5]])] + text[m[5]:]
	}
	return text
}

// bareNeeds reads all of a text as a place and a list in which some allergens are said by their bare words:
// "t5 - nuts", "table 10: coeliac and nut". Sure says that these are what guests are told of and nobody
// orders; told is the list with "allergy" behind each.
func (p *parser) bareNeeds() (place, told string, sure bool) {
	p.end = len(p.t)
	for p.end > 0 && p.t[p.end-1].sort == mark {
		p.end--
	}
	i := p.skipWord(0, "the")
	place, n := p.placeAt(i)
	spot := ""
	if place == "" {
		if spot, n = p.spotAt(i); spot == "" {
			return "", "", false
		}
	}
	at := p.asSaid(i, n)
	var list []string
	bare, full := 0, 0
	for i += n; i < p.end; {
		k := i
		for p.mark(k, ":,-+&/;") || p.word(k, "and") || p.word(k, "plus") {
			k++
		}
		if k == i && len(list) > 0 && !p.is(k, digit) && !p.word(k-1, "free") || k == p.end {
			return "", "", false
		}
		q := Question{}
		if m := p.need(k, &q, anyNeed); m > 0 {
			list, i, full = append(list, p.asSaid(k, m)), k+m, full+1
			continue
		}
		j, counted := p.soMany(k, &TableNeed{})
		_, m := p.class(j, "allergen")
		if m == 0 || p.knownLength(j) > m {
			return "", "", false
		}
		bare++
		if isOrder(place) && p.among("{uncounted}", j) != m { // "order 5 eggs" buys some
			if !strings.Contains(p.text, ":") && p.among("{risky}", j) == 0 {
				return "", "", false
			}
			list, i = append(list, p.asSaid(k, j+m-k)+" allergy"), j+m
			continue
		}
		sure = sure || (!counted || full > 0) && p.among("{risky}", j) == m && spot == ""
		list, i = append(list, p.asSaid(k, j+m-k)+" allergy"), j+m
	}
	if bare == 0 {
		return "", "", false
	}
	return at, at + ": " + strings.Join(list, ", "), sure
}

// isOrder says whether a place is an order by its number, which may as well be what is to be bought.
func isOrder(place string) bool {
	return strings.HasPrefix(place, "order ") || strings.HasPrefix(place, "check ")
}

// BareNeed says whether all of a text is a place and words for allergens which may be what it orders, and gives how the
// needs would be said: "table 4: fish".
func (r *Reader) BareNeed(text string) (told string, ok bool) {
	text = writtenOut(text)
	if len(text) > mostTable {
		return "", false
	}
	_, told, _ = r.asTyped(text).bareNeeds()
	return told, told != ""
}

// HasNeedWord says whether a text begins with a place and has a word of what guests are often allergic to, or a short form
// of a need, that is no part of a food's or a dish's name.
func (r *Reader) HasNeedWord(text string) bool {
	if !saysPlace.MatchString(text) || len(text) > mostTable {
		return false
	}
	p := r.asTyped(apartHyphens.Replace(writtenOut(text)))
	p.end = len(p.t)
	i := p.skipWord(0, "the")
	if place, n := p.placeAt(i); n == 0 && !numberFirst.MatchString(text) || isOrder(place) && !strings.Contains(text, ":") {
		return false
	}
	for ; i < p.end; i++ {
		m := p.among("{risky}", i)
		if m == 0 || p.knownLength(i) > m || p.is(i+m, word) && (p.knownLength(i+m) > 0 || p.namesDish(i+m, i+m+1)) {
			continue
		}
		return true
	}
	return false
}
