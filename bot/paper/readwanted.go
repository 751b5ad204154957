package paper

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"scullion/pantry/measure"
)

// amountAt finds an amount at the beginning of a text: "300 g leek", "1½ kg", "2 lemons",
// "1 1/2 cups", "2-3 carrots" (the first number counts).
var amountAt = regexp.MustCompile(`^(?:about )?(?:(?:(\d{1,4}) )?(\d{1,2})/(\d{1,2})|(\d{1,9}(?:\.\d{1,3}|,\d{1,3})?)? ?([½⅓⅔¼¾])?)(?: ?[-–] ?\d{1,4}\b)? ?(\p{L}+\.?)?`)

var fractions = map[string]measure.Ratio{"½": {Num: 1, Den: 2}, "⅓": {Num: 1, Den: 3}, "⅔": {Num: 2, Den: 3}, "¼": {Num: 1, Den: 4}, "¾": {Num: 3, Den: 4}}

// readWanted reads one ingredient's text. Where no amount stands first, all of it is the name.
func readWanted(text string) Wanted {
	w := Wanted{Text: text, Name: text}
	m := amountAt.FindStringSubmatch(text)
	n, ok := readNumber(m[1:6])
	if !ok {
		return w
	}
	rest := text[len(m[0]):]
	if m[6] == "" && rest != "" && strings.ContainsRune("0123456789.,/", rune(rest[0])) { // "1.2345"
		return w
	}
	if u := measure.DefaultUnits().Find(strings.TrimSuffix(m[6], "."), ""); u != nil && (u.Sort == measure.Mass || u.Sort == measure.Volume) {
		a, err := u.Base(n)
		if err != nil {
			return w
		}
		w.Amount, w.Unit = a, u.To
	} else {
		pieces, err := n.Of(1000)
		if err != nil {
			return w
		}
		w.Pieces = int64(pieces)
		rest = m[6] + rest
	}
	rest, _, _ = strings.Cut(rest, "(")
	if rest = strings.TrimPrefix(strings.TrimSpace(rest), "of "); rest != "" {
		w.Name = rest
	}
	return w
}

// readNumber adds what amountAt has found: whole and fraction ("1", "1", "2"), or digits and a
// sign ("1.5", "½"). Ok is false where there is none, or none that can be.
func readNumber(found []string) (sum measure.Ratio, ok bool) {
	add := func(r measure.Ratio) { sum, ok = sum.Plus(r) }
	sum, ok = measure.Whole(0), true
	if found[1] != "" {
		whole, _ := strconv.ParseInt("0"+found[0], 10, 64)
		num, _ := strconv.ParseInt(found[1], 10, 64)
		den, _ := strconv.ParseInt(found[2], 10, 64)
		if den == 0 {
			return sum, false
		}
		add(measure.Whole(whole))
		add(measure.Ratio{Num: num, Den: den})
	}
	if found[3] != "" {
		whole, part, _ := strings.Cut(found[3], ".")
		if a, b, comma := strings.Cut(found[3], ","); comma && len(b) == 3 { // "1,500"
			whole = a + b
		} else if comma { // "1,5"
			whole, part = a, b
		}
		digits, _ := strconv.ParseInt(whole+part, 10, 64)
		add(measure.Ratio{Num: digits, Den: int64(math.Pow10(len(part)))})
	}
	if f, known := fractions[found[4]]; known {
		add(f)
	}
	return sum, ok && !sum.Zero()
}
