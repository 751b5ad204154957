package language

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/hbollon/go-edlib"

	"scullion/pantry/food"
)

// needSlips are the mistyped words of table.csv, with what each means; needLead and needTrail find what adds nothing.
var (
	needSlips = sync.OnceValue(func() map[string]string {
		all := map[string]string{}
		for _, row := range tableForms().quick["{slip}"] {
			slip, means, _ := strings.Cut(row, "=")
			all[slip] = means
		}
		return all
	})
	needLead = sync.OnceValue(func() *regexp.Regexp {
		return anyOf(slotted("{lead}"), `(?i)^\s*(?:\d{1,2}(?:[:.]\d\d)? ?[ap]m|`, `)\s*(?:[:,;!.-]+\s*|\s+|$)`)
	})
	needTrail = sync.OnceValue(func() *regexp.Regexp { return anyOf(slotted("{trail}"), `(?i)[ ,;.-]+(?:`, `)\s*[.!]*$`) })
)

// slotted lists the words of a slot of table.csv, the longest first, without what they mean.
func slotted(slot string) (list []string) {
	for _, row := range tableForms().quick[slot] {
		w, _, _ := strings.Cut(row, "=")
		list = append(list, regexp.QuoteMeta(w))
	}
	slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) })
	return list
}

func anyOf(words []string, before, after string) *regexp.Regexp {
	return regexp.MustCompile(before + strings.Join(words, "|") + after)
}

// needMended has ways of writing that are put right wherever needs are told.
var needMended = []struct {
	re *regexp.Regexp
	to string
}{
	{regexp.MustCompile(`(?i)\b(coeliac|celiac) disease\b`), "$1"},
	{regexp.MustCompile(`(?i)\bshell fish\b`), "shellfish"},
	{regexp.MustCompile(`(?i)\ballergic (?:2|too) `), "allergic to "},
	{regexp.MustCompile(`(?i)\bdon['’]?t (forget)`), "dont $1"},
	{regexp.MustCompile(`(?i)\b((?:order|ticket|check|table|tbl|booking) ?)(?:#|no\.? ?)(\d)`), "$1$2"},
	{regexp.MustCompile(`(?i)^(\s*` + OnePlace + `)\s*=\s*`), "$1: "},
	{regexp.MustCompile(`(?i)\b(anaphyla(?:xis|ctic)) (?:with )?(peanuts?|nuts?|sesame|egg|eggs|milk|dairy|fish|shellfish|soya?|mustard|celery|lupin|wheat)\b`), "anaphylactic to $2"},
	{regexp.MustCompile(`(?i)(?:\ballergic to |\bno )?\balliums?\b(?:[ -](?:allergy|intolerance|free))?`), "allergic to onion and garlic and leek and shallot and chive"},
	{regexp.MustCompile(`(?i)\b(no [a-z]+) (no [a-z]+)\b`), "$1, $2"},
	{regexp.MustCompile(`(?i)\banything (?:with|containing) (?:any )?([a-z]+)(?: in(?: it)?)?\b`), "$1"},
	{regexp.MustCompile(`(?i)^\s*(?:the )?(?:wedding|party|function|christening|wake|coach|coach party|conference|sitting|lunch|dinner)\s*[:,-]\s*((?:the )?(?:(?:top|head|high) table|table|tbl|t ?\d))`), "$1"}, // its tables are said by themselves
	{regexp.MustCompile(`(?i)\b(allerg(?:y|ic) to [a-z]+|[a-z]+ (?:allergy|free)|no [a-z]+) n ([a-z]+)`), "$1 and $2"},
	{regexp.MustCompile(`(?i)\b((?:table|tbl|room|rm|bed|booth|seat|class|year) ?\d{1,3})['’]?s (allerg(?:y|ies|ens)|needs|diets?)\b`), "$1 $2"}, // "whats table 11s allergies"
}

// tableSeat is a seat in short behind its table, shortSeat any.
var (
	tableSeat = regexp.MustCompile(`(?i)\b(?:t|tbl ?|table ?)\d{1,3}[ ,-]*s\d{1,2}\b`)
	shortSeat = regexp.MustCompile(`(?i)\bs(\d{1,2})\b`)
)

// MendNeeds puts right how the words for needs are mistyped: "allegry", "glutenfree". What says nothing of needs stays as
// it is.
func MendNeeds(text string) string {
	if len(text) > mostTable {
		return text
	}
	var b strings.Builder
	from := 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && isLetter(text[i]) {
			continue
		}
		w := text[from:i]
		if means := needSlips()[strings.ToLower(w)]; means != "" {
			w = means
		} else if means := nearNeed(w); means != "" {
			w = means
		}
		b.WriteString(w)
		if i < len(text) {
			b.WriteByte(text[i])
		}
		from = i + 1
	}
	text = b.String()
	if !saysNeedAtAll(text) {
		return text
	}
	for _, m := range needMended {
		text = m.re.ReplaceAllString(text, m.to)
	}
	if tableSeat.MatchString(text) { // "t5 s2 gf, s3 vegan"
		text = shortSeat.ReplaceAllString(text, "seat $1")
	}
	return text
}

// nearWords are long words of needs, and how many letters off each is still meant by what is no word of its own.
var nearWords = []struct {
	word string
	off  int
}{{"allergy", 2}, {"allergic", 2}, {"allergies", 2}, {"coeliac", 1}, {"coeliacs", 1}, {"vegetarian", 2}, {"vegetarians", 2}, {"intolerant", 1}, {"intolerance", 1}, {"anaphylaxis", 3}, {"anaphylactic", 3}}

// nearNeed is the word of a need that a mistyped one is meant for: "allegry", "anaphalaxis"; "" none.
func nearNeed(w string) string {
	if len(w) < 6 || len(w) > 14 {
		return ""
	}
	w = strings.ToLower(w)
	if c := w[0]; c != 'a' && c != 'c' && c != 'v' && c != 'i' && c != 's' {
		return ""
	}
	best, means := 4, ""
	for _, n := range nearWords {
		if n.word == w {
			return ""
		}
		if (n.word[0] == w[0] || n.word[0] == 'c' && w[0] == 's') && max(len(w)-len(n.word), len(n.word)-len(w)) <= n.off {
			if d := edlib.LevenshteinDistance(w, n.word); d <= n.off && d < best {
				best, means = d, n.word
			}
		}
	}
	if means == "" || strings.HasPrefix(w, "allergen") || strings.HasPrefix(w, "celiac") || food.IsPlain(w) {
		return ""
	}
	return means
}

// isLetter says whether a byte is a letter of a word here.
func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

// saysNeedAtAll is a quick look for a place or an illness.
func saysNeedAtAll(text string) bool {
	return saysTable(text) || saysPlace.MatchString(text)
}

var (
	// unreadTail is what somebody adds to a need that is not kept with it: "but coconut ok", "except almonds".
	unreadTail = regexp.MustCompile(`(?i)[,;. -]+(?:but|except|apart from|though|unless|however|only if|just not|not sure|because|cos|coz|cuz|due to|on account|so that|they carry|she carries|he carries|carries|carrying|knows|will|wants?|would|is bringing|bringing|traces|trace|can have|can do|is ok with|ok with|fine with|ok if)\b.*$`)
	// looseWord is what such a text has one of.
	looseWord = regexp.MustCompile(`(?i)all?erg|c[oe]+liac|celiac|siliac|intol|vegan|vegen|veg[aei]t|veggie|halal|kosh|anaph|free|fodmap|reaction to|soft diet|can['’]?t (?:have|eat)|cannot (?:have|eat)|\bno [a-z]|\b(?:gf|df|nf|ef|vg|vgn|pb|preg|nuts?|peanuts?|dairy|lactose|gluten|milk|eggs?|sesame|celery|mustard|soya?|shellfish|fish|lupin|wheat|alliums?|pregnant|diabetic|pescatarian|pureed?|level|soft|minced|mashed|mashable|liquidi[sz]ed|thickened|thick|chew|sulphites?|halal)\b`)
	// betweenNeeds are words in the middle that add nothing.
	betweenNeeds = regexp.MustCompile(`(?i)\b(?:always|strictly|strict|definitely|def|also|please|pls|really|that has|who has|whos|who is)\b[ ,]*`)
	// mealsFree counts meals by what is not in them: "we need 3 nut free meals", "3 gf tonight".
	mealsFree = regexp.MustCompile(`(?i)^\s*(?:we need |need |we have |weve got |we've got |theres |there's |there are |also )?((?:\d{1,3}|one|two|three|four|five|six)\s*(?:x\s*)?[a-z]+(?:[ -]free)?)(?: meals?| mains?| plates?| dinners?| lunch(?:es)?| portions?| covers?| ppl| people)?(?: needed)?(?: (?:tonight|today|for (?:tonight|lunch|dinner|service)))?\s*[.!]*$`)
	// nameIs is a name that runs into what is so of it, or stands before a colon: "mikes allergic to sesame", "amir: halal".
	nameIs = regexp.MustCompile(`(?i)^\s*([a-z]{2,}?)(?:s|\s*[:-])\s+(.+)$`)
	// placeLast is a place behind what is said of it: "lactose t31".
	placeLast = regexp.MustCompile(`(?i)^\s*([a-z][a-z ,&+]*?)\s+(?:on |at |for )?(` + OnePlace + `)\s*[.!]*$`)
)

// LooseNeed gives a text about needs that Table does not read in words that it does: without what stands before and behind
// them and adds nothing, and with left as what was cut off behind. Ok is false where that is not read either, to the end,
// as a need of somebody.
func (r *Reader) LooseNeed(text string) (plain, left string, ok bool) {
	if len(text) > mostHeld || !looseWord.MatchString(text) || strings.Contains(text, "?") || strings.Contains(text, "://") {
		return "", "", false
	}
	tried := []string{}
	is := func(s string) bool {
		if s = strings.TrimSpace(s); s == "" || slices.Contains(tried, s) {
			return false
		}
		tried = append(tried, s)
		for _, as := range []string{s, betweenNeeds.ReplaceAllString(s, "")} {
			if r.tells(as) {
				plain = as
				return true
			}
		}
		if told, sure := r.bare(s); sure && r.tells(told) {
			plain = told
			return true
		}
		return false
	}
	s := MendNeeds(text)
	if is(s) {
		return plain, "", true
	}
	for range 3 {
		if less := needLead().ReplaceAllString(s, ""); less != s {
			if s = less; is(s) {
				return plain, "", true
			}
		}
	}
	whole := s
	for range 3 {
		if less := needTrail().ReplaceAllString(s, ""); less != s {
			if s = less; is(s) {
				return plain, "", true
			}
		}
	}
	if m := placeLast.FindStringSubmatch(s); m != nil && is(m[2]+" "+m[1]) {
		return plain, "", true
	}
	if m := mealsFree.FindStringSubmatch(s); m != nil && is("table: "+m[1]) {
		return plain, "", true
	}
	if m := nameIs.FindStringSubmatch(s); m != nil && (is(m[1]+" is "+m[2]) || is(m[1]+" has "+m[2])) {
		return plain, "", true
	}
	if m := unreadTail.FindStringIndex(whole); m != nil && m[0] > 0 && is(whole[:m[0]]) {
		return plain, strings.Trim(whole[m[0]:], " ,;.-"), true
	}
	return "", "", false
}

// tells says whether all of a text tells needs of somebody.
func (r *Reader) tells(text string) bool {
	list, rest := r.Table(text)
	return len(list) > 0 && rest == "" && !slices.ContainsFunc(list, func(x TableTalk) bool {
		return len(x.Needs) == 0 || !slices.Contains([]About{AboutNumbered, AboutGuest, AboutNeeds, AboutMe, AboutOf}, x.About)
	})
}

// bare is a place with words for allergens alone, as needs of it.
func (r *Reader) bare(text string) (told string, sure bool) {
	_, told, sure = r.asTyped(writtenOut(text)).bareNeeds()
	return told, sure
}
