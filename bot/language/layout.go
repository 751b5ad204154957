package language

import (
	"strings"

	"scullion/pantry/measure"
)

// layout takes away what only lays the text out: bullets and numbers before
// the lines of a list, pictures at the ends, remarks in brackets (but not an
// amount: "leeks (2kg)"). A minus before a number makes it one that no rule
// accepts.
func layout(t []token) []token {
	gone := make([]bool, len(t))
	for i := range t {
		first := i == 0 || t[i-1].raw == "\n"
		switch {
		case gone[i]:
		case first && t[i].sort == digit && i+2 < len(t) && t[i].to == t[i+1].from && (t[i+1].w == "." || t[i+1].w == ")") && t[i+1].to < t[i+2].from:
			gone[i], gone[i+1] = true, true
		case first && i > 0 && t[i].sort == mark && t[i].w != "" && strings.Contains("-*+>", t[i].w):
			gone[i] = true
		case t[i].w == "-" && i+1 < len(t) && t[i+1].sort == digit && t[i].to == t[i+1].from && (i == 0 || t[i-1].to < t[i].from):
			t[i+1].val, t[i+1].less = measure.Ratio{}, true
			gone[i] = true
		case t[i].w == picture && first && strings.Contains("❌✗✘🚫", t[i].raw): // what did not come
			for k := i; k < len(t) && t[k].raw != "\n"; k++ {
				gone[k] = true
			}
		case t[i].w == picture && i > 0 && t[i-1].sort != digit && !unitWord(t[i-1]):
			gone[i] = true
		case t[i].w == picture && (first || i+1 == len(t)) && (i == 0 || t[i-1].sort != digit && !unitWord(t[i-1])):
			gone[i] = true
		case t[i].w == "(" || t[i].w == "[":
			brackets(t, gone, i)
		}
	}
	kept := t[:0]
	for i := range t {
		if !gone[i] {
			kept = append(kept, t[i])
		}
	}
	return kept
}

// isDishOf says whether what stands in brackets behind a line is its dish: a name
// of one or two words, where the line has none.
func isDishOf(line, in []token) bool {
	if len(line) == 0 || len(in) == 0 || len(in) > 2 {
		return false
	}
	for _, t := range in {
		if t.sort != word {
			return false
		}
	}
	for i := len(line) - 1; i >= 0 && line[i].raw != "\n"; i-- {
		if line[i].sort == word && words().is(line[i].w, "prep") {
			return false
		}
	}
	return words().is(in[len(in)-1].w, "dish")
}

func unitWord(t token) bool { return measure.DefaultUnits().Find(t.w, "uk") != nil }

// brackets takes away the brackets that open at i, and what is in them unless
// that begins with a number or a price.
func brackets(t []token, gone []bool, i int) {
	gone[i] = true
	for j := i + 1; j < len(t) && t[j].raw != "\n"; j++ {
		if t[j].w != ")" && t[j].w != "]" {
			continue
		}
		gone[j] = true
		if isDishOf(t[:i], t[i+1:j]) { // "used 200g leek (tart)"
			t[i].sort, t[i].w, gone[i] = word, "in", false
			return
		}
		remark := t[i+1].sort == word && t[i+1].w != "about" || t[i+1].sort == mark
		for k := i + 1; k < j && remark; k++ {
			gone[k] = true
		}
		return
	}
}
