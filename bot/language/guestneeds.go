package language

import (
	"regexp"
	"strings"
)

// GuestNeed is a need of a guest who is called by who they are, in the words that the tables read.
type GuestNeed struct {
	Read  string // "christening: 1 dairy free"
	Whose string // as said: "mum"
}

const (
	feast  = `(christening|wedding|party|funeral|wake|birthday|baptism)`
	family = `((?:(?:bride|groom)['’]?s )?(?:mum|mother|dad|father|nan|gran|granny|grandad|aunt|uncle|sister|brother|cousin|kid|child|baby|boy|girl|lady|gent|man|woman|guest|one|bride|groom|vicar|best man)s?)`
	feels  = `(?:['’]?s|is|are|has|have|needs|with|says|cant have|can['’]t have)`
)

var (
	familyAt  = regexp.MustCompile(`(?i)^\s*(?:the |an? )?` + feast + ` ` + family + ` ` + feels + ` (.+?)\s*[.!]*$`)
	atFeast   = regexp.MustCompile(`(?i)^\s*(?:the |an? )?` + family + ` (?:at|from|of|in) the ` + feast + `(?: party| lot| tea)? ` + feels + ` (.+?)\s*[.!]*$`)
	coupleKin = regexp.MustCompile(`(?i)^\s*(?:the )?((?:bride|groom)['’]?s [a-z]+)(?: ` + feels + `)? ((?:no|allergic to|coeliac|vegan|veggie|vegetarian|[a-z]+[ -]free)\b.*?)\s*[.!]*$`)
	someOf    = regexp.MustCompile(`(?i)^\s*(\d{1,2}|one|two|three) of the ([a-z]+) ` + feels + ` (.+?)\s*[.!]*$`)
	feastHas  = regexp.MustCompile(`(?i)^\s*(?:the )?` + feast + `(?: tea| party| lot)?(?: has| have|:| -) ?(.+?)\s*[.!]*$`)
	needOfOne = regexp.MustCompile(`(?i)^(an? |\d{1,2} |one |two |three )?(.+?)(?: \(?` + family + `\)?)?$`)
	barsOne   = regexp.MustCompile(`(?i)^no ([a-z]+)$`)
	eachGuest = regexp.MustCompile(`\s*(?:,|&|\band\b)\s*`)
)

// GuestNeeds parts what is said of guests who are called by who they are ("the mum at the christening is dairy free",
// "christening: dairy free mum, egg allergy child") into a need each; none where nothing is said so.
func GuestNeeds(text string) []GuestNeed {
	if len(text) > mostTable {
		return nil
	}
	if m := familyAt.FindStringSubmatch(text); m != nil {
		return oneGuest(m[1], "1", m[3], m[2])
	}
	if m := atFeast.FindStringSubmatch(text); m != nil {
		return oneGuest(m[2], "1", m[3], m[1])
	}
	if m := coupleKin.FindStringSubmatch(text); m != nil {
		return oneGuest("table", "1", m[2], m[1])
	}
	if m := someOf.FindStringSubmatch(text); m != nil {
		return oneGuest("table", m[1], m[3], m[1]+" of the "+m[2])
	}
	m := feastHas.FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	var list []GuestNeed
	for _, one := range eachGuest.Split(m[2], -1) {
		if one == "" {
			continue
		}
		n := needOfOne.FindStringSubmatch(one)
		count := strings.TrimSpace(n[1])
		if count == "" || strings.HasPrefix(strings.ToLower(count), "a") {
			count = "1"
		}
		list = append(list, oneGuest(m[1], count, n[2], n[3])...)
	}
	return list
}

// oneGuest is a need of one place, with what it bars said as what it is free of.
func oneGuest(place, count, need, whose string) []GuestNeed {
	need = strings.TrimPrefix(strings.TrimPrefix(strings.TrimSpace(need), "an "), "a ")
	need = barsOne.ReplaceAllString(need, "$1 free")
	return []GuestNeed{{Read: strings.ToLower(place) + ": " + count + " " + need, Whose: strings.ToLower(whose)}}
}
