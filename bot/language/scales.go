package language

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed scales.csv
var scalesCSV []byte

var scales = sync.OnceValue(func() *asking { return formsOf("scales.csv", scalesCSV) })

// What may be answered at the scales besides an amount.
const (
	ScalesSame   About = "same"   // it is as the record has it, or nobody knows
	ScalesNod    About = "nod"    // the same, by a word that says much else in a room
	ScalesEnough About = "enough" // that is all
	ScalesStop   About = "stop"   // the same, by a word that says much else in a room
	ScalesNone   About = "none"   // nothing is left
	ScalesAmount About = "amount" // so much is there, or such a share of what the record has
)

// Scales reads a message that is nothing but an answer at the scales: "350g", "about half",
// "2 left", "same". What is "" where it is not.
func (r *Reader) Scales(text string) (what About, a Amount) {
	p := r.parser(text)
	p.end = len(p.t)
	for p.end > 0 && p.mark(p.end-1, ".!") {
		p.end--
	}
	p.classesOf(0, p.end)
	for _, at := range []int{0, p.idle(0)} { // "ok" says something here
		if q := p.form(scales(), at); q != nil && at < p.end {
			return q.About, a
		}
	}
	for i := range p.end {
		if p.word(i, "another") || p.word(i, "more") && !p.word(i+1, "like") { // of what goes on
			return "", a
		}
	}
	if p.has.has("bid") { // "2 please" is a wish
		return "", a
	}
	i := p.spelt(scales().words["{its}"], 0)
	for n := i; n > 0; i += n {
		n = p.spelt(scales().words["{its}"], i)
	}
	a, n := p.amount(i)
	if n == 0 || a.How == Unsaid || a.Article && a.Part == "" || p.wrong != "" {
		return "", Amount{}
	}
	if i += n; a.How == Pieces && a.Part == "" && a.N.Num > 0 && a.N.Num < a.N.Den && !strings.ContainsAny(a.Said, ".,") { // "a quarter", but "0.5" is what they show
		a.How = Share
	}
	if a.How == Share {
		i += p.spelt(scales().words["{whole}"], i)
	}
	if i += p.spelt(scales().words["{left}"], i); i < p.end || a.How == Share && a.N.Num > a.N.Den {
		return "", Amount{}
	}
	if a.How == Pieces && a.N.Num == 0 {
		return ScalesNone, a
	}
	return ScalesAmount, a
}
