package language

// Some dishes and foods are called by a name that holds an "and": "fish and chips". Those
// that kitchens have stand in words.csv as kinds of dish; the kitchen's own are asked of
// its foods.

// Named is what the Foods of a kitchen may also know: names with an "and" in them that it
// has used, as their words.
type Named interface {
	Together() [][]string
}

// together is how many tokens from i a name takes that holds an "and"; 0 where none stands
// there.
func (p *parser) together(i int) (most int) {
	if !p.is(i, word) {
		return 0
	}
	for _, ph := range words().first[p.t[i].w] {
		if ph.class == "dish" && p.spellsTogether(i, ph.words) {
			most = max(most, len(ph.words))
		}
	}
	if own, ok := p.foods.(Named); ok {
		for _, name := range own.Together() {
			if p.spellsTogether(i, name) {
				most = max(most, len(name))
			}
		}
	}
	return most
}

// spellsTogether says whether the tokens from i are a name that holds an "and".
func (p *parser) spellsTogether(i int, name []string) bool {
	if i+len(name) > p.end {
		return false
	}
	and := false
	for k, w := range name {
		t := p.t[i+k]
		switch {
		case w == "and" && (t.w == "and" || t.w == "n" || t.w == "&"):
			and = k > 0
		case t.sort != word || t.w != plain(w) && !(k == len(name)-1 && t.w == plain(w)+"s"):
			return false
		}
	}
	return and
}

// namedTogether gives the words of a name from i as they are shown.
func (p *parser) namedTogether(i, n int) (list []string) {
	for _, t := range p.t[i : i+n] {
		switch t.w {
		case "n", "&":
			list = append(list, "and")
		default:
			list = append(list, t.shown())
		}
	}
	return list
}

// ownWord says whether a word that elsewhere ends a food is of its name: "fried" before what
// was ("egg fried rice"), "free" behind what is not in it ("gluten free pasta").
func (p *parser) ownWord(j int) bool {
	switch {
	case p.word(j, "free"):
		_, m := p.longest(j-1, "allergen", "lesser")
		more := !p.endsItem(j+1) || p.lexHas(j+1, j+2, "did") && p.endsItem(j+2) // "dairy free spread"
		return m > 0 && p.is(j+1, word) && more
	case p.word(j, "from"): // "free from bread"
		return p.word(j-1, "free") && p.is(j+1, word) && !p.endsItem(j+1)
	case p.word(j-1, "free") && p.lexHas(j, j+1, "did"):
		return p.endsItem(j+1) && p.ownWord(j-1)
	case p.lexHas(j, j+1, "cooked"):
		return p.foodAt(j + 1)
	}
	return false
}
