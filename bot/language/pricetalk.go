package language

import (
	_ "embed"
	"regexp"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

//go:embed pricetalk.csv
var priceTalkCSV []byte

var priceTalk = sync.OnceValue(func() *asking { return embedded("pricetalk.csv", priceTalkCSV) })

// What may be said of what food cost, after it came in. The price is Cost, in the currency's
// smallest unit, of all of it, or of a unit To, or of one Each.
const (
	AboutPrice    About = "price"    // of Food
	AboutItsPrice About = "itsprice" // of what was said last
	AboutCredit   About = "creditof" // so much of what Food cost is given back
	AboutReturned About = "returned" // Amount of Food went back to who sold it
)

// PriceTalk reads a message that says what food cost; nil where it does not.
func (r *Reader) PriceTalk(text string) *Question { return r.talked(pricedRight(text), priceTalk()) }

// priceAt reads a price at i: "£4.20", "80p", "4.20", "£3 a kilo", "50p each". The first of a
// question counts: the other is what it was not.
func (p *parser) priceAt(q *Question, i int) int {
	var it Item
	j := i
	switch n := p.coin(i); {
	case p.is(i, money) && p.t[i].val.Den != 0:
		c, err := p.t[i].val.Of(1)
		if err != nil {
			return 0
		}
		it.Cost, it.Sign, j = int64(c), strings.TrimRight(p.t[i].raw, "0123456789., "), i+1
	case n > 0:
		w, _ := p.class(i+1, "coin")
		v, ok := p.t[i].val.Times(w.ratio)
		if !ok {
			return 0
		}
		c, err := v.Of(1)
		if err != nil {
			return 0
		}
		it.Cost, it.Sign, j = int64(c), signOf(w.words[0]), i+n
	case p.is(i, digit) && pence.MatchString(p.t[i].raw):
		c, err := p.t[i].val.Of(100)
		if err != nil {
			return 0
		}
		it.Cost, j = int64(c), i+1
	default:
		return 0
	}
	if it.Cost <= 0 {
		return 0
	}
	first := q.Cost == 0
	if first {
		q.Cost, q.Sign = it.Cost, it.Sign
	}
	switch {
	case p.word(j, "each") || p.word(j, "apiece"):
		q.Each, j = q.Each || first, j+1
	case (p.word(j, "a") || p.word(j, "an") || p.word(j, "per")) && (p.word(j+1, "piece") || p.saidBefore(i, j+1)): // "20p an egg"
		if j += 2; first {
			q.Each, q.Outer = true, OnePiece
		}
	case p.word(j, "a") || p.word(j, "per") || p.mark(j, "/"):
		if u, m := p.unit(j + 1); m > 0 && IsOuter(u.Name) { // "£32 a case"
			if j += 1 + m; first {
				q.Each, q.Outer = true, u.Name
			}
		} else if _, m := p.longest(j+1, "packed", "holder"); m > 0 { // "£5.20 a bottle"
			q.Each, j = q.Each || first, j+1+m
		} else if u, m := p.unit(j + 1); m > 0 && (u.Sort == measure.Mass || u.Sort == measure.Volume) {
			if j += 1 + m; first {
				q.To = u
			}
		}
	}
	return j - i
}

// OnePiece is the Outer of a price that is of each piece, and of no case.
const OnePiece = "piece"

// saidBefore says whether the word at j was said before i, in the plural or not.
func (p *parser) saidBefore(i, j int) bool {
	return p.is(j, word) && slices.ContainsFunc(p.t[:i], func(o token) bool { return o.sort == word && food.Fold(o.w) == food.Fold(p.t[j].w) })
}

// What stands around a price that is set right: "the salmon cost £128 not £134.40", "invoice says £115 for the
// topside".
var (
	notPrice    = regexp.MustCompile(`(?i),? not [£$€]?\d[\d.,]*\s*$`)
	invoiceSays = regexp.MustCompile(`(?i)^\s*(?:the )?(?:invoice|bill|docket|delivery note|ticket) (?:says|has|was|is) ([£$€]\s?\d[\d.,]*) for (?:the )?(.+?)\s*$`)
)

func pricedRight(text string) string {
	text = notPrice.ReplaceAllString(text, "")
	return invoiceSays.ReplaceAllString(text, "the $2 cost $1")
}
