package language

import "scullion/pantry/measure"

// cans makes catering tins of tins named by their trade size, whose figure is no number of them:
// "A10 tins", "No 10 cans", "#10 tins", "3 A10s". Numbers of cans are common practice, no source.
func cans(t []token) []token {
	for i := 0; i+1 < len(t); i++ {
		from, at := i, i+1
		switch {
		case t[i].w == "#", t[i].sort == word && (t[i].w == "a" || t[i].w == "no" || t[i].w == "nr" || t[i].w == "number" || t[i].w == "size"):
		default:
			continue
		}
		if t[at].w == "." && at+1 < len(t) { // "No.10"
			at++
		}
		glued := t[i].to == t[i+1].from && t[at-1].to == t[at].from
		if t[at].sort != digit || t[at].val.Den != 1 || t[at].val.Num < 2 || t[at].val.Num > 10 {
			continue
		}
		end := at + 1
		if end < len(t) && t[end].w == "-" && end+1 < len(t) {
			end++
		}
		tin := end < len(t) && t[end].sort == word && isTin(t[end].w)
		plural := at+1 < len(t) && t[at+1].w == "s" && t[at+1].from == t[at].to
		counted := i > 0 && (t[i-1].sort == digit || t[i-1].w == "x" || t[i-1].w == "a" || t[i-1].w == "an" || words().is(t[i-1].w, "number"))
		switch {
		case tin && (counted || glued):
		case plural && glued && counted:
			end = at + 1
		case glued && counted && t[at].val.Num == 10 && at+1 < len(t) && t[at+1].sort == word: // "3 A10 chopped tomatoes"
			end = at
		default:
			continue
		}
		size, pack := t[i], t[end]
		size.sort, size.w, size.raw, size.to = word, "catering", "catering", t[at].to
		pack.sort, pack.w, pack.raw = word, "tins", "tins"
		if !tin {
			pack.from = t[end].from
		}
		list := append(append([]token{}, t[:from]...), size, pack)
		t = append(list, t[end+1:]...)
	}
	return t
}

// isTin says whether a word is one for a tin.
func isTin(w string) bool {
	u := measure.DefaultUnits().Find(w, "uk")
	return u != nil && u.Name == "tin"
}
