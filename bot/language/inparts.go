package language

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry/measure"
)

// partsForm is food of which it is said behind the whole how so much of it was cooked each: "90 eggs, 30 fried
// 60 scrambled", "12 eggs: 6 poached, 6 boiled for the brunch".
var partsForm = regexp.MustCompile(`(?i)^\s*(?:i |we )?(?:used |did |cooked )?(\d{1,5}(?:\.\d{1,3})?) ?(kg|g|l|ml)? ?(?:of )?([a-z][a-z' -]*?)\s*[,:;-]\s*((?:\d{1,5}(?:\.\d{1,3})? ?(?:kg|g|l|ml)? ?(?:hard |soft |deep )?[a-z]+(?:,? and |\s*[,+&]\s*|\s+)?){1,})((?:for|in|into) [a-z' -]+?)?\s*[.!]?$`)

var onePart = regexp.MustCompile(`(?i)(\d{1,5}(?:\.\d{1,3})?) ?(kg|g|l|ml)? ?((?:hard |soft |deep )?[a-z]+)`)

// parts is what partsForm finds in a text.
type parts struct {
	food    string
	amounts []string // as said: "30", "1.5kg"
	into    string   // "for the brunch"; "" not said
	sum     bool     // the parts are the whole
	whole   string
}

// partsOf reads food with how it was cooked in parts.
func (r *Reader) partsOf(text string) (x parts, ok bool) {
	m := partsForm.FindStringSubmatch(text)
	if m == nil || r.Foods == nil || len(r.Foods.Exact(strings.Fields(strings.ToLower(m[3])))) == 0 {
		return x, false
	}
	x = parts{food: m[3], into: m[5], whole: m[1] + m[2]}
	sum := measure.Whole(0)
	all, small := inSmall(m[1], m[2])
	for _, o := range onePart.FindAllStringSubmatch(m[4], -1) {
		n, unit := inSmall(o[1], o[2])
		if sum, _ = sum.Plus(n); unit != small || !isSaid(o[3], "cooked") { // figures are short
			return x, false
		}
		x.amounts = append(x.amounts, o[1]+o[2])
	}
	x.sum = sum.Num*all.Den == all.Num*sum.Den
	return x, true
}

// inSmall gives a number in digits in grams or millilitres; with "" for a unit it is of pieces.
func inSmall(digits, unit string) (measure.Ratio, string) {
	whole, frac, _ := strings.Cut(digits, ".")
	n := decimal(whole, frac)
	switch unit = strings.ToLower(unit); unit {
	case "kg":
		n.Num, unit = n.Num*1000, "g"
	case "l":
		n.Num, unit = n.Num*1000, "ml"
	}
	return n, unit
}

// inParts makes uses of the parts alone where they are the whole: they were counted twice else.
func (r *Reader) inParts(text string) string {
	x, ok := r.partsOf(text)
	if !ok || !x.sum {
		return text
	}
	var list []string
	for _, a := range x.amounts {
		list = append(list, a+" "+x.food)
	}
	return strings.TrimSpace(fmt.Sprintf("used %s %s", strings.Join(list, ", "), x.into))
}

// PartsAmiss gives the whole and the parts of food that was cooked in parts, where they do not come to the
// whole: "90", "30 and 50"; "" where they do, or none are said.
func (r *Reader) PartsAmiss(text string) (food, whole string, list []string) {
	if x, ok := r.partsOf(text); ok && !x.sum {
		return x.food, x.whole, x.amounts
	}
	return "", "", nil
}
