package language

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

//go:embed hazard.csv
var hazardCSV string

// hazardPhrase is one of the phrases of hazard.csv, in words.
type hazardPhrase struct {
	class string
	words []string
}

// hazardWords are the phrases of hazard.csv by their first word, the longest first.
var hazardWords = sync.OnceValue(func() map[string][]hazardPhrase {
	c := csv.NewReader(strings.NewReader(hazardCSV))
	c.Comment, c.FieldsPerRecord = '#', 2
	rows, err := c.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("hazard.csv: %v", err))
	}
	all := map[string][]hazardPhrase{}
	for _, row := range rows[1:] {
		for _, said := range strings.Split(row[1], ";") {
			words := strings.Fields(said)
			if len(words) == 0 {
				panic("hazard.csv: " + row[0] + " has an empty phrase")
			}
			all[words[0]] = append(all[words[0]], hazardPhrase{row[0], words})
		}
	}
	for _, list := range all {
		slices.SortStableFunc(list, func(a, b hazardPhrase) int { return len(b.words) - len(a.words) })
	}
	return all
})

// hazardKeys are the classes of which a message that tells of a hazard has a word.
var hazardKeys = []string{"cold", "freezer", "nopower", "power", "where", "place", "neverin", "hotplace", "came", "spoilt", "mould", "blown", "shut", "gaping", "dropped", "cooling", "pink", "rawof", "drips"}

// hazardTok is a word, a number with its unit, or a mark of a text.
type hazardTok struct {
	w        string // in lower case, without apostrophes; of a number its unit: "", "c", "f", "deg", "hour", "min", "clock", "amount", "?"
	num      bool
	v        float64
	signed   bool
	mark     bool
	from, to int // in the text
}

// hazardUnits are the units that stand behind a number, glued to it or not.
var hazardUnits = map[string]string{
	"c": "c", "degc": "c", "celsius": "c", "cel": "c", "f": "f", "degf": "f", "fahrenheit": "f", "°": "deg", "º": "deg", "deg": "deg", "degs": "deg", "degree": "deg", "degrees": "deg",
	"h": "hour", "hr": "hour", "hrs": "hour", "hour": "hour", "hours": "hour", "hrs+": "hour", "min": "min", "mins": "min", "minute": "min", "minutes": "min",
	"am": "clock", "pm": "clock", "oclock": "clock",
	"kg": "amount", "kgs": "amount", "kilo": "amount", "kilos": "amount", "g": "amount", "grams": "amount", "gram": "amount", "l": "amount", "ltr": "amount", "litre": "amount", "litres": "amount", "liter": "amount", "liters": "amount", "ml": "amount", "lb": "amount", "lbs": "amount", "oz": "amount", "pound": "amount", "pounds": "amount", "gal": "amount", "gallon": "amount", "gallons": "amount", "qt": "amount", "qts": "amount", "quarts": "amount", "portions": "amount", "portion": "amount", "servings": "amount", "covers": "amount", "%": "amount", "pc": "amount", "pax": "amount", "quid": "amount", "p": "amount",
}

// hazardNumbers are the numbers that hours and fridges are told in words.
var hazardNumbers = map[string]float64{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12, "an": 1, "couple": 2}

// hazard is a text in tokens.
type hazard struct {
	r    *Reader
	text string
	t    []hazardTok
}

// mostHazard is how many tokens a text that is looked through has.
const mostHazard = 60

// hazardOf cuts a text up; nil where no word of it speaks of a hazard.
func (r *Reader) hazardOf(text string) *hazard {
	h := &hazard{r: r, text: text}
	looks, words := false, hazardWords()
	for i := 0; i < len(text) && len(h.t) < mostHazard; {
		c, n := utf8.DecodeRuneInString(text[i:])
		e := i + n
		switch {
		case c == '-' || c == '−' || c == '–' || c == '+':
			if digitAt(text, e) && (i == 0 || strings.ContainsRune(" :(=", rune(text[i-1]))) { // "-6", not "walk-in" and not "3-4 hrs"
				i = h.number(i, e)
				h.t[len(h.t)-1].signed = true
				if c != '+' {
					h.t[len(h.t)-1].v *= -1
				}
				continue
			}
			if c == '+' || i > 0 && text[i-1] != ' ' && e < len(text) && text[e] != ' ' {
				break
			}
			h.t = append(h.t, hazardTok{w: "-", mark: true, from: i, to: e})
		case c >= '0' && c <= '9':
			i = h.number(i, i)
			looks = looks || h.t[len(h.t)-1].w == "f"
			continue
		case unicode.IsLetter(c):
			for e < len(text) {
				c, n := utf8.DecodeRuneInString(text[e:])
				if !unicode.IsLetter(c) && !(strings.ContainsRune("'’", c) && e+n < len(text) && unicode.IsLetter(rune(text[e+n]))) {
					break
				}
				e += n
			}
			t := hazardTok{w: strings.ToLower(text[i:e]), from: i, to: e}
			t.w = strings.ReplaceAll(t.w, "’", "'")
			if w, ok := strings.CutSuffix(t.w, "'s"); ok && !slices.Contains([]string{"it", "that", "what", "there", "he", "she", "who", "where", "let"}, w) {
				t.w, t.to = w, i+len(w)
			}
			t.w = strings.ReplaceAll(t.w, "'", "")
			if t.w != "the" { // stands nowhere in the phrases
				h.t = append(h.t, t)
			}
			for _, p := range words[t.w] {
				looks = looks || slices.Contains(hazardKeys, p.class)
			}
		case strings.ContainsRune(",.;:!?()\n=/&", c):
			h.t = append(h.t, hazardTok{w: string(c), mark: true, from: i, to: e})
		}
		i = e
	}
	if !looks {
		return nil
	}
	h.units()
	return h
}

func digitAt(s string, i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }

// number reads "8.5", "10:30", "50F", "5hrs" whose digits begin at i, and gives where it ends.
func (h *hazard) number(from, i int) int {
	e := i
	for digitAt(h.text, e) || e > i && e < len(h.text) && (h.text[e] == '.' || h.text[e] == ':') && digitAt(h.text, e+1) {
		e++
	}
	t := hazardTok{num: true, from: from, to: e}
	if strings.Contains(h.text[i:e], ":") {
		t.w = "clock"
	} else {
		var err error
		if t.v, err = strconv.ParseFloat(h.text[i:e], 64); err != nil {
			t.w = "?"
		}
	}
	k := e
	for k < len(h.text) && (h.text[k] >= 'a' && h.text[k] <= 'z' || h.text[k] >= 'A' && h.text[k] <= 'Z' || h.text[k] == '%') {
		k++
	}
	if k > e && t.w == "" {
		t.w = "?"
		if u, ok := hazardUnits[strings.ToLower(h.text[e:k])]; ok {
			t.w = u
		}
	}
	if t.v > 230 && t.w != "amount" { // no degrees, and no hours
		t.w = "?"
	}
	t.to = k
	h.t = append(h.t, t)
	return k
}

// units puts units that stand apart to their numbers, "minus" to what is below 0, and reads hours in words.
func (h *hazard) units() {
	var list []hazardTok
	for i := 0; i < len(h.t); i++ {
		t := h.t[i]
		if v, ok := hazardNumbers[t.w]; ok && !t.num {
			k := i + 1
			for k < len(h.t) && (h.t[k].w == "of" || h.t[k].w == "couple" || h.t[k].w == "few" || h.t[k].w == "and" && k+2 < len(h.t) && h.t[k+1].w == "a" && h.t[k+2].w == "half" || h.t[k].w == "a" || h.t[k].w == "half") {
				if w := h.t[k].w; w == "half" {
					v += 0.5
				}
				k++
			}
			if k < len(h.t) && !h.t[k].num && (hazardUnits[h.t[k].w] == "hour" || hazardUnits[h.t[k].w] == "min") && len(h.t[k].w) > 1 {
				list = append(list, hazardTok{num: true, v: v, w: hazardUnits[h.t[k].w], from: t.from, to: h.t[k].to})
				i = k
				continue
			}
		}
		if t.w == "minus" && i+1 < len(h.t) && h.t[i+1].num {
			i++
			n := h.t[i]
			n.v, n.signed, n.from = -n.v, true, t.from
			t = n
		}
		for t.num && i+1 < len(h.t) {
			u, ok := hazardUnits[h.t[i+1].w]
			if !ok || h.t[i+1].num || t.w != "" && !(t.w == "deg" && (u == "c" || u == "f" || u == "deg")) {
				break
			}
			t.w, t.to = u, h.t[i+1].to
			i++
		}
		if t.num && t.w == "" && i+4 < len(h.t) && h.t[i+1].w == "and" && h.t[i+2].w == "a" && h.t[i+3].w == "half" && hazardUnits[h.t[i+4].w] == "hour" { // "3 and a half hours"
			t.v, t.w, t.to = t.v+0.5, "hour", h.t[i+4].to
			i += 4
		}
		list = append(list, t)
	}
	h.t = list
}

// at gives where the longest phrase of a class ends that stands at i; i where none does.
func (h *hazard) at(class string, i int) int {
	if i < 0 || i >= len(h.t) || h.t[i].num || h.t[i].mark {
		return i
	}
	for _, p := range hazardWords()[h.t[i].w] {
		if p.class != class || i+len(p.words) > len(h.t) {
			continue
		}
		k := i
		for n, w := range p.words {
			if class == "spoilt" && n > 0 {
				for k < len(h.t) && h.t[k].w != w && slices.Contains([]string{"a", "bit", "really", "quite", "very", "so", "proper", "kinda", "well", "like", "slightly"}, h.t[k].w) { // "smells a bit funny"
					k++
				}
			}
			if n > 1 && k < len(h.t) && slices.Contains([]string{"our", "my", "a", "your"}, h.t[k].w) && w != h.t[k].w { // "on our side"
				k++
			}
			if k >= len(h.t) || h.t[k].w != w && !(h.t[k].num && w == strconv.FormatFloat(h.t[k].v, 'f', -1, 64) && h.t[k].w == "") {
				k = -1
				break
			}
			k++
		}
		if k > 0 {
			return k
		}
	}
	return i
}

func (h *hazard) is(class string, i int) bool { return h.at(class, i) > i }

// any says whether a phrase of a class stands anywhere between two tokens.
func (h *hazard) any(class string, from, to int) bool {
	for i := max(from, 0); i < min(to, len(h.t)); i++ {
		if h.is(class, i) {
			return true
		}
	}
	return false
}

// skip gives where a run of phrases of a class, and of the marks in also, ends.
func (h *hazard) skip(class string, i int, also string) int {
	for i < len(h.t) {
		switch {
		case h.is(class, i):
			i = h.at(class, i)
		case h.t[i].mark && strings.Contains(also, h.t[i].w):
			i++
		default:
			return i
		}
	}
	return i
}

// starts gives where the clause begins that i stands in.
func (h *hazard) starts(i int) int {
	for ; i > 0; i-- {
		t := h.t[i-1]
		if t.mark && t.w != "&" && t.w != "/" || slices.Contains([]string{"but", "because", "cos", "cause", "then", "while", "though", "so"}, t.w) && !t.num {
			return i
		}
	}
	return 0
}

// ends gives where the clause ends that i stands in.
func (h *hazard) ends(i int) int {
	for ; i < len(h.t); i++ {
		if h.t[i].mark && h.t[i].w != "&" && h.t[i].w != "/" {
			return i
		}
	}
	return len(h.t)
}

// denied says whether what stands in a clause up to i says that it is not so, asks it, orders it or only thinks of it.
func (h *hazard) denied(i int) bool {
	from := h.starts(i)
	for k := from; k < i; {
		switch e := h.at("unsure", k); {
		case e > k && h.is("not", k) || e > k:
			k = e
		case h.is("hotplace", k), h.is("cold", k):
			k = max(h.at("hotplace", k), h.at("cold", k))
		case h.is("not", k), h.is("order", k):
			return true
		case !h.t[k].num && h.t[k].w == "if" && k > 0 && !slices.Contains([]string{"know", "dunno", "sure", "see", "check", "ask", "wonder", "wondering"}, h.t[k-1].w):
			return true
		case !h.t[k].num && h.t[k].w == "if" && k == 0:
			return true
		default:
			k++
		}
	}
	return false
}

// asked says whether the clause that i stands in begins as a question does.
func (h *hazard) asked(i int) bool {
	from := h.starts(i)
	for from < i && h.is("lead", from) && !h.is("asks", from) {
		from = h.at("lead", from)
	}
	return h.is("asks", from) && !h.is("long", from) && from < i // "when we came in the fridge was off"
}

// up rounds up.
func up(v float64) int { return int(math.Ceil(v - 1e-9)) }

// degrees gives the number at i as one that a probe or a fridge shows. Plain says that what stands behind it must not
// make it a count.
func (h *hazard) degrees(i int) (n int, ok bool) {
	if i >= len(h.t) || !h.t[i].num || h.t[i].v > 230 {
		return 0, false
	}
	switch t := h.t[i]; t.w {
	case "c", "f", "deg":
		return up(t.v), true
	case "":
		if i+1 == len(h.t) || h.t[i+1].mark && h.t[i+1].w != "/" || h.is("tail", i+1) || h.is("again", i+1) || h.t[i+1].num && h.t[i+1].w == "" || h.is("cold", i+1) || h.is("freezer", i+1) {
			return up(t.v), true
		}
	}
	return 0, false
}

// hours gives the hours that are told from one token to another, begun ones whole; 0 none.
func (h *hazard) hours(from, to int) int {
	for i := max(from, 0); i < min(to, len(h.t)); i++ {
		if !h.t[i].num || i > 0 && slices.Contains([]string{"in", "by", "every", "within", "after", "next", "another", "under", "per", "half", "each"}, h.t[i-1].w) {
			continue
		}
		switch t := h.t[i]; {
		case t.w == "hour" && t.v < 100:
			return up(t.v)
		case t.w == "min" && t.v >= 60:
			return up(t.v / 60)
		}
	}
	return 0
}

// since gives the clock time that is told from one token to another as that since when something is so; "" none.
func (h *hazard) since(from, to int) string {
	for i := max(from, 0); i < min(to, len(h.t)); i++ {
		e := h.at("since", i)
		if e == i || e >= len(h.t) || !h.t[e].num && h.t[e].w == "" {
			continue
		}
		if h.t[i].w == "from" && !(h.t[e].num && h.t[e].w == "clock") {
			continue
		}
		if at := h.clock(e); at != "" && (h.t[e].num || h.t[i].w == "since") {
			return at
		}
	}
	return ""
}

// clock gives the time of day at i; "" none.
func (h *hazard) clock(i int) string {
	p := h.r.asTyped(h.text[h.t[i].from:])
	p.end = len(p.t)
	p.classesOf(0, p.end)
	if c, n := p.clock(0, true); n > 0 {
		return c.at
	}
	return ""
}
