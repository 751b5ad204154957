package language

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"scullion/pantry/measure"
)

// sort of token
type sort byte

const (
	word  sort = iota // letters; apostrophes and hyphens inside stay in raw
	digit             // a number in figures, val says which
	money             // a price, val in the smallest unit
	mark              // punctuation; its rune is the word: , . ? ! ; : - ( ) " x
)

type token struct {
	sort     sort
	raw      string // as typed
	w        string // lower case, apostrophes dropped, slips mended
	val      measure.Ratio
	less     bool // a number with a minus before it
	paid     bool // a price that some food was given
	read     bool // part of an item that came in
	from, to int  // bytes in the text
}

// shown is the word as a dish's name has it: in lower case, with its apostrophe.
func (t token) shown() string {
	if low := strings.ToLower(strings.ReplaceAll(t.raw, "’", "'")); plain(low) == t.w && !strings.HasPrefix(low, "t'") {
		return low
	}
	return t.w
}

// mostTokens bounds the work on one message. A chat message is far shorter.
const mostTokens = 2000

// fractions that stand as one character.
var vulgar = map[rune]measure.Ratio{
	'½': {Num: 1, Den: 2}, '⅓': {Num: 1, Den: 3}, '⅔': {Num: 2, Den: 3}, '¼': {Num: 1, Den: 4}, '¾': {Num: 3, Den: 4},
	'⅕': {Num: 1, Den: 5}, '⅖': {Num: 2, Den: 5}, '⅗': {Num: 3, Den: 5}, '⅘': {Num: 4, Den: 5}, '⅙': {Num: 1, Den: 6}, '⅚': {Num: 5, Den: 6},
	'⅛': {Num: 1, Den: 8}, '⅜': {Num: 3, Den: 8}, '⅝': {Num: 5, Den: 8}, '⅞': {Num: 7, Den: 8},
}

// tokens cuts the text. A number that has
// too many digits, is negative, or runs into letters that are not a unit
// comes back with val.Den == 0, which no rule accepts.
func tokens(text string) []token {
	var list []token
	for i := 0; i < len(text) && len(list) < mostTokens; {
		r, n := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == '\n':
			list = append(list, token{sort: mark, raw: "\n", w: ";", from: i, to: i + 1})
			i++
		case unicode.IsSpace(r) || unicode.Is(unicode.Sk, r):
			i += n
		case unicode.Is(unicode.So, r): // a picture
			list = append(list, token{sort: mark, raw: text[i : i+n], w: picture, from: i, to: i + n})
			i += n
		case r >= '0' && r <= '9', r == '.' && leads(text, i):
			t := figure(text, i)
			i = t.to
			list = append(list, t)
		case vulgar[r].Den != 0:
			list = append(list, token{sort: digit, raw: text[i : i+n], val: vulgar[r], from: i, to: i + n})
			i += n
		case strings.ContainsRune("£$€", r):
			t := price(text, i, n)
			i = t.to
			list = append(list, t)
		case unicode.IsLetter(r):
			j := i
			for j < len(text) {
				c, m := utf8.DecodeRuneInString(text[j:])
				if !unicode.IsLetter(c) && !unicode.IsMark(c) && !(inWord(c) && j+m < len(text) && letterAt(text, j+m)) {
					break
				}
				j += m
			}
			list = appendWord(list, text, i, j)
			i = j
		case (r == '\'' || r == '’') && i > 0 && (!letterAt(text, i+n) || isDigit(text[i-1])): // "the kids' soup", "86'd"
			i += n
		default:
			w := string(r)
			switch r {
			case '×':
				w = "x"
			case '–', '—', '−':
				w = "-"
			case '“', '”', '«', '»', '„':
				w = `"`
			case '…', '!':
				w = "."
			case '|', '•':
				w = ";"
			case '~', '≈':
				list = append(list, token{sort: word, raw: text[i : i+n], w: "about", from: i, to: i + n})
				i += n
				continue
			}
			list = append(list, token{sort: mark, raw: text[i : i+n], w: w, from: i, to: i + n})
			i += n
		}
	}
	return list
}

// picture is the word of a token that is a pictograph.
const picture = "☺"

// leads says whether the point at i is the start of a number: ".5 kg".
func leads(text string, i int) bool {
	return i+1 < len(text) && isDigit(text[i+1]) && (i == 0 || text[i-1] == ' ' || text[i-1] == '\n')
}

// appendWord adds the word text[i:j], a hyphenated number in its parts:
// "three-quarters", "twenty-five".
func appendWord(list []token, text string, i, j int) []token {
	if cut := strings.IndexByte(text[i:j], '-'); cut > 0 && isNumber(text[i:i+cut]) {
		list = append(list, token{sort: word, raw: text[i : i+cut], w: plain(text[i : i+cut]), from: i, to: i + cut})
		return appendWord(list, text, i+cut+1, j)
	}
	return append(list, token{sort: word, raw: text[i:j], w: plain(text[i:j]), from: i, to: j})
}

func isNumber(s string) bool {
	for _, p := range words().first[plain(s)] {
		if len(p.words) == 1 && (p.class == "number" || p.class == "fraction") {
			return true
		}
	}
	return false
}

func inWord(r rune) bool { return r == '\'' || r == '’' || r == '‘' || r == '-' || r == '`' }

func letterAt(s string, i int) bool {
	r, _ := utf8.DecodeRuneInString(s[i:])
	return unicode.IsLetter(r)
}

// visible drops characters that take no room, zero-width and direction marks:
// what a cook cannot see, a cook did not say.
func visible(text string) string {
	for { // what is struck through is not said
		open, rest, ok := strings.Cut(text, "~~")
		_, end, closed := strings.Cut(rest, "~~")
		if !ok || !closed {
			break
		}
		text = open + " " + end
	}
	for i := range len(text) {
		if text[i] >= 0x80 {
			return strings.Map(func(r rune) rune {
				if unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Me, r) || unicode.Is(unicode.Variation_Selector, r) {
					return -1
				}
				return r
			}, text)
		}
	}
	return text
}

// plain is how words.csv spells a word.
func plain(s string) string {
	if len(s) > 4 && (s[0] == 't' || s[0] == 'T') && s[1] == '\'' { // "in t'soup"
		s = s[2:]
	}
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < 'a' || c > 'z' {
			return strings.Map(func(r rune) rune {
				switch {
				case r == '\'' || r == '’' || r == '‘' || r == '`':
					return -1
				}
				return unicode.ToLower(r)
			}, s)
		}
	}
	return s
}

// figure reads a number in figures at i: 300, 1.2, 1,5 (a decimal comma),
// 1,500 (a thousands comma), 1/2, and a vulgar fraction behind it (1½).
func figure(text string, i int) token {
	j := i
	digits := func() string {
		k := j
		for j < len(text) {
			if text[j] >= '0' && text[j] <= '9' {
				j++
			} else if n := zeros(text[j:]); n > 0 && j > k {
				j += n
			} else {
				break
			}
		}
		if strings.ContainsAny(text[k:j], "oO") {
			return strings.Map(func(r rune) rune {
				if r == 'o' || r == 'O' {
					return '0'
				}
				return r
			}, text[k:j])
		}
		return text[k:j]
	}
	num, frac := digits(), ""
	if num == "" { // ".5"
		num = "0"
	}
	val := measure.Ratio{}
	for j+3 < len(text) && text[j] == ',' && isDigits(text[j+1:j+4]) && (j+4 == len(text) || !isDigit(text[j+4])) && len(num) <= 3 && num != "0" {
		j++
		num += digits()
	}
	switch {
	case j+1 < len(text) && (text[j] == '.' || text[j] == ',') && isDigit(text[j+1]):
		j++
		frac = digits()
		val = decimal(num, frac)
	case j+1 < len(text) && (text[j] == '/' || strings.HasPrefix(text[j:], "⁄")) && isDigit(text[j+1]):
		j++
		den := digits()
		n, d := whole(num), whole(den)
		if n >= 0 && d > 0 {
			val = measure.Ratio{Num: n, Den: d}
		}
	default:
		if n := whole(num); n >= 0 {
			val = measure.Whole(n)
		}
		if r, m := utf8.DecodeRuneInString(text[j:]); vulgar[r].Den != 0 && val.Den != 0 {
			val, _ = val.Plus(vulgar[r])
			j += m
		}
	}
	for j+1 < len(text) && (text[j] == '.' || text[j] == ',') && (isDigit(text[j+1]) || text[j+1] == '.') { // 1.2.3, 1..2
		val = measure.Ratio{}
		for j < len(text) && (isDigit(text[j]) || text[j] == '.' || text[j] == ',') {
			j++
		}
	}
	return token{sort: digit, raw: text[i:j], val: val, from: i, to: j}
}

// zeros is how many letters o that stand for zeros s begins with: "2oog", "1o0".
func zeros(s string) int {
	rest := strings.TrimLeft(s, "oO")
	n := len(s) - len(rest)
	if n > 0 && rest != "" && (isDigit(rest[0]) || n > 1 && (rest[0] == 'g' || rest[0] == 'm')) {
		return n
	}
	return 0
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

func isDigits(s string) bool {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return false
		}
	}
	return true
}

// whole reads up to nine digits; -1 for more.
func whole(s string) (n int64) {
	if len(s) > 9 || s == "" {
		return -1
	}
	for i := range len(s) {
		n = n*10 + int64(s[i]-'0')
	}
	return n
}

func decimal(num, frac string) measure.Ratio {
	frac = strings.TrimRight(frac, "0")
	if len(num) > 9 || len(frac) > 6 {
		return measure.Ratio{}
	}
	n, den := whole(num), int64(1)
	for i := range len(frac) {
		n = n*10 + int64(frac[i]-'0')
		den *= 10
	}
	return measure.Ratio{Num: n, Den: den}
}

// price reads a sum of money at i, whose sign is n bytes long.
func price(text string, i, n int) token {
	j := i + n
	for j < len(text) && text[j] == ' ' {
		j++
	}
	if j >= len(text) || !isDigit(text[j]) {
		return token{sort: mark, raw: text[i : i+n], w: text[i : i+n], from: i, to: i + n}
	}
	t := figure(text, j)
	if t.to < len(text) && (text[t.to] == 'e' || text[t.to] == 'E') { // £1e309
		t.val = measure.Ratio{}
	}
	t.sort, t.raw, t.from = money, text[i:t.to], i
	if p, ok := t.val.Times(measure.Whole(100)); ok && t.val.Den != 0 {
		t.val = p
	}
	return t
}
