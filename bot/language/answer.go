package language

import "scullion/pantry/measure"

// Answer is a message read as the answer to a question.
type Answer struct {
	Yes, No bool
	N       int      // "2", "the second": the option of that number; 0 none
	Amount  Amount   // How Unsaid: none
	Each    bool     // that much of each: "one of each"
	Words   []string // what else it says: "brown"
	Other   bool     // it says something of its own, and is no answer
	Denies  bool     // it begins with "no", whatever else it says, and has no "yes"
}

// mostAnswerWords is more than an answer has.
const mostAnswerWords = 8

// Answer reads text as an answer.
func (r *Reader) Answer(text string) Answer {
	p := r.parser(text)
	a := p.answer()
	if len(p.t) > 1 && (p.word(0, "no") || p.word(0, "nope") || p.word(0, "nah")) && !p.word(1, "idea") && !p.word(1, "problem") && !p.word(1, "worries") {
		a.Denies = !a.Yes
	}
	return a
}

func (p *parser) answer() Answer {
	var a Answer
	words := 0
	for i := 0; i < p.end; {
		if p.t[i].sort == mark {
			if p.t[i].w == "?" {
				return Answer{Other: true}
			}
			i++
			continue
		}
		if n := p.answerWord(&a, i); n > 0 {
			i += n
			continue
		}
		if words++; words > mostAnswerWords || a.Other {
			return Answer{Other: true}
		}
		i++
	}
	if p.wrong != "" {
		return Answer{Other: true}
	}
	return a
}

// answerWord reads what stands at i into a and says how many tokens it took.
func (p *parser) answerWord(a *Answer, i int) int {
	if _, m := p.class(i, "yes"); m > 0 {
		a.Yes = true
		return m
	}
	if _, m := p.class(i, "no"); m > 0 {
		a.No = true
		return m
	}
	if n := p.slot("{doing}", i); n > 0 { // "go with 2"
		return n
	}
	if n, m := p.class(i, "nth"); m > 0 {
		a.N = int(n.ratio.Num)
		return m
	}
	if u, m := p.class(i, "undo"); m > 0 && u.value != "" {
		a.Other = true
		return m
	}
	if p.word(i, "half") && p.word(i+1, "and") && p.word(i+2, "half") { // of each
		a.Each, a.Amount = true, Amount{How: Share, N: measure.Ratio{Num: 1, Den: 2}, Said: "half"}
		return 3
	}
	if p.word(i, "each") && (a.Amount.How == Pieces || a.Amount.How == Measured) {
		a.Each = true
		return 1
	}
	if p.word(i, "in") && (p.word(i+1, "all") || p.word(i+1, "total")) && (a.Amount.How == Measured || p.startsAmount(i+2)) { // "9kg in all"
		return 2
	}
	if (p.word(i, "altogether") || p.word(i, "total")) && a.Amount.How == Measured {
		return 1
	}
	if (p.word(i, "maybe") || p.word(i, "probably") || p.word(i, "perhaps")) && p.startsAmount(i+1) { // "maybe 40 g"
		return 1
	}
	if p.is(i, digit) && p.t[i].val.Den == 1 && p.bare(i+1) && a.Amount.How == Unsaid {
		if n := p.t[i].val.Num; n >= 1 && n <= 9 {
			a.N = int(n)
		}
	}
	if amount, m := p.amount(i); m > 0 && amount.How != Unsaid {
		if _, other := p.class(i+m, "notfood"); other > 0 { // "2 minutes"
			a.Other = true
		}
		a.Amount = amount
		return m
	}
	if p.is(i, digit) && (p.t[i].less || p.t[i].val.Den == 0) {
		a.Other = true
		return 1
	}
	if v, m := p.longest(i, "did", "claim"); m > 0 && !p.mend[i] && !p.foodAt(i) && v.words[0] != "done" { // "used 150g"
		return m
	}
	if _, m := p.longest(i, "release", "unused", "none", "going", "notfood"); m > 0 && !p.mend[i] && !p.foodAt(i) {
		a.Other = true
		return m
	}
	if _, m := p.longest(i, "pause", "det", "of", "ref", "join", "i", "amend"); m > 0 && !p.foodAt(i) {
		return m
	}
	if p.t[i].sort == word {
		a.Words = append(a.Words, p.t[i].raw)
	}
	return 1
}

// bare says whether nothing that could be a unit follows.
func (p *parser) bare(i int) bool { u, _ := p.unit(i); return u == nil }
