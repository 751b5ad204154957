package language

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
)

//go:embed thatdish.csv
var thatDishCSV []byte

// thatDish are the words of thatdish.csv by their kind.
var thatDish = sync.OnceValue(func() map[string][]string {
	r := csv.NewReader(bytes.NewReader(thatDishCSV))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic(err) // the table is embedded; a test reads it
	}
	kinds := map[string][]string{}
	for _, row := range rows[1:] {
		kinds[row[0]] = strings.Split(row[1], ";")
	}
	return kinds
})

// smallWords gives the words of a text in small letters.
func smallWords(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' && r != '-' })
}

// doneWith finds what was done to what was spoken of, with something: "thickened it with", "bulked it out with".
var doneWith = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\b(` + strings.Join(thatDish()["with"], "|") + `) (it|that|them|this|those) ((off|up|out|down|all|over) )?with `)
})

// goesInto makes uses of what was done with food to what was spoken of, for which see SaysIntoIt.
func goesInto(text string) string { return doneWith().ReplaceAllString(text, "used ") }

// SaysIntoIt says whether a text tells that food went into what was spoken of just before: "put 200g
// walnuts in it", "threw the rest in".
func SaysIntoIt(text string) bool {
	list, kinds := smallWords(text), thatDish()
	said := " " + strings.Join(list, " ") + " "
	if slices.ContainsFunc(kinds["it"], func(w string) bool { return strings.Contains(said, " "+w+" ") }) {
		return true
	}
	for i := 2; i < len(list); i++ { // "to thicken it"
		if list[i] == "it" && list[i-2] == "to" && slices.Contains(kinds["to"], list[i-1]) {
			return true
		}
	}
	last := len(list) - 1
	return doneWith().MatchString(text) || last > 0 && list[last] == "in" && slices.ContainsFunc(list[:last], func(w string) bool { return slices.Contains(kinds["put"], w) })
}

// added begins a message that adds food to what is being cooked, without naming it: "chucked in 30ml worcester
// sauce as well", "added 60g flour".
var added = regexp.MustCompile(`(?i)^\s*(?:oh |and |also |then |just |i |we |ive |i've )*(?:added|adding|(?:chucked|threw|stirred|bunged|tipped|whisked|folded|slung|popped|put|sprinkled|mixed|poured|dropped|squeezed|grated|crumbled) in) (?:another |a further |some |a )?\d`)

// SaysAdded says whether a text adds food to what its cook spoke of last.
func SaysAdded(text string) bool { return added.MatchString(text) }

// NotInto gives the dish that a text says it was not, at its end: "the walnuts went in the korma not the
// salad"; "" none.
func NotInto(text string) string {
	list := smallWords(text)
	at := slices.Index(list, "not")
	if at <= 0 {
		return ""
	}
	rest := list[at+1:]
	for len(rest) > 0 && slices.Contains(thatDish()["lead"], rest[0]) {
		rest = rest[1:]
	}
	return strings.Join(rest, " ")
}
