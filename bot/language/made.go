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
		list := p.listAt(j)
		p.end = min(p.find(j, "from"), p.find(j, "with"), p.find(j, "using"), list)
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
		listed := m == 0 && j == list && list < end && len(s.Items) == 1
		if listed {
			m = p.skipMark(j, ":-") - j // brackets leave no mark
		}
		if m > 0 || listed {
			from := Statement{Act: "use"}
			j = p.itemsOnly(&from, j+m)
			if listed && !slices.ContainsFunc(from.Items, func(it Item) bool { return it.Food != "" }) { // "6l soup (2 trays)"
				from.Items = nil
			}
			for x := range from.Items { // "from the carrot and leek trimmings"
				from.Items[x].Trim = from.Items[x].Trim || unsaid(from.Items[x:x+1]) && from.Items[len(from.Items)-1].Trim
			}
			s.From = from.Items
		} else if k := p.wentIn(s.Items); k > 0 {
			s.From, s.Items = s.Items[k:], s.Items[:k]
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

// listAt is where behind i the list of what went into something begins, which a colon, a dash or a bracket parts from what
// was made: "6l gratin: 5kg potatoes", "6l gratin (5kg potatoes)". The layout leaves no brackets. It is p.end where none does.
func (p *parser) listAt(i int) int {
	for k := i + 1; k < p.end; k++ {
		switch apart := strings.TrimSpace(p.text[p.t[k-1].to:p.t[k].from]); {
		case p.mark(k, ":"), p.mark(k, "-") && p.t[k].from > p.t[k-1].to && k+1 < p.end && p.t[k+1].from > p.t[k].to:
			if p.startsAmount(k+1) || p.foodAt(k+1) {
				return k
			}
		case apart == "(" || apart == "[":
			return k
		}
	}
	return p.end
}

// wentIn is from which of some items on they went into the first, as nobody makes them: "made 6l potato soup, 5kg potatoes
// 2l cream"; 0 where they were made as well.
func (p *parser) wentIn(items []Item) int {
	raw := func(it Item) bool { return p.knownWords(it.Words) && !isMadeUp(it.Food) }
	if len(items) < 2 || items[0].Food == "" || raw(items[0]) || !slices.ContainsFunc(items[1:], raw) {
		return 0
	}
	return 1
}

// isMadeUp says whether food is of those that kitchens make.
func isMadeUp(name string) bool { return food.IsMade(name) || food.IsDishOf(name) || NamesDish(name) }

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
