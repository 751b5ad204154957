package language

import (
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// made reads "made 600 ml stock from the peelings" and "turned 2 onions into
// pickle".
func (p *parser) made(s *Statement, v *phrase, j int) int {
	end := p.end
	if v.words[0] == "turned" {
		from := Statement{Act: "use"}
		p.end = p.find(j, "into")
		j = p.itemsOnly(&from, j)
		p.end = end
		if !p.word(j, "into") || len(from.Items) == 0 {
			return p.nextClause(j - 1)
		}
		for x := range from.Items { // "turned the yoghurt into 300g labneh"
			if a := &from.Items[x].Amount; a.How == Unsaid && !a.Some && !from.Items[x].Trim && p.knownWords(from.Items[x].Words) {
				a.How, a.N, a.Said = Share, measure.Whole(1), "all the"
			}
		}
		if !drawn(from.Items) { // "turned me into a frog"
			return p.nextClause(j - 1)
		}
		s.From = from.Items
		j = p.itemsOnly(s, j+1)
	} else {
		p.end = min(p.find(j, "from"), p.find(j, "with"), p.find(j, "using"))
		j = p.itemsOnly(s, j)
		Loaves(s.Items)
		if n := len(s.Items); n > 1 && IsPieces(s.Items[0]) && s.Items[n-1].Food == "" { // "30 scones, 12 with cheese": of these
			for n > 1 && s.Items[n-1].Food == "" {
				n--
			}
			s.Items = s.Items[:n]
		}
		p.end = end
		_, m := p.class(j, "from")
		if m == 0 && p.word(j, "with") {
			m = 1
		}
		if m > 0 {
			from := Statement{Act: "use"}
			j = p.itemsOnly(&from, j+m)
			for x := range from.Items { // "from the carrot and leek trimmings"
				from.Items[x].Trim = from.Items[x].Trim || unsaid(from.Items[x:x+1]) && from.Items[len(from.Items)-1].Trim
			}
			s.From = from.Items
		} else if len(s.Items) == 0 || s.Items[0].Amount.How != Measured && !IsPieces(s.Items[0]) {
			return p.nextClause(j - 1)
		}
	}
	if len(s.Items) > 1 && len(s.From) == 0 && !slices.ContainsFunc(s.Items, func(it Item) bool { return it.Food == "" || it.Amount.How != Measured && !IsPieces(it) }) { // "made 2l soup and 1kg curry"
		for _, it := range s.Items[:len(s.Items)-1] {
			one := *s
			one.Items = []Item{it}
			p.out.Statements = append(p.out.Statements, one)
		}
		s.Items = s.Items[len(s.Items)-1:]
	}
	if len(s.Items) != 1 || s.Items[0].Amount.How == Share || s.Items[0].Food == "" || s.Items[0].Amount.How == Pieces && !drawn(s.From) && !IsPieces(s.Items[0]) {
		return p.nextClause(j - 1)
	}
	p.out.Statements = append(p.out.Statements, *s)
	p.open = nil
	return p.afterAct(j)
}

// IsPieces says whether something is made by the piece: "20 scones",
// and no "3 mistakes".
func IsPieces(it Item) bool {
	a := it.Amount
	return a.How == Pieces && !a.Article && it.Food != "" && a.Part == "" && food.Piece(it.Food) > 0
}

// Loaves makes loaves of a bread a food that is counted: "20 sourdough loaves", "20 loaves".
func Loaves(items []Item) {
	for i := range items {
		if it := &items[i]; it.Amount.How == Pieces && it.Amount.Part == "loaf" {
			it.Food = strings.TrimSpace(it.Food + " loaf")
			it.Words, it.Amount.Part, it.Amount.Loose = strings.Fields(it.Food), "", false
		}
	}
}

// find is where a word, or with "" a colon, stands after i; else the end of the
// sentence.
func (p *parser) find(i int, w string) int {
	for ; i < p.end; i++ {
		if p.word(i, w) || w == "" && p.mark(i, ":") {
			break
		}
	}
	return i
}

// drawn says whether what a food was made from is said with an amount, or is
// trim: "a deal with the man" was made from nothing of ours.
func drawn(from []Item) bool {
	return slices.ContainsFunc(from, func(it Item) bool { return it.Trim || it.Amount.How != Unsaid })
}
