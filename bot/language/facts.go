package language

import (
	"math/big"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry/measure"
)

// amountFact: "100 g a handful", "30g each", "15 g per tablespoon", "80 kcal".
func (p *parser) amountFact(c *Teaching, i int) bool {
	if v, n := p.number(i); n > 0 && v.Den > 0 && (p.word(i+n, "kcal") || p.word(i+n, "calories")) {
		c.Cells["kcal"] = decimals(v)
		rest := i + n + 1
		return rest == p.end || p.word(rest, "per") || p.word(rest, "in") || p.word(rest, "a")
	}
	a, n := p.plain(p.skip(i, "about"))
	if n == 0 {
		return false
	}
	j := p.skip(i, "about") + n
	for p.word(j, "a") || p.word(j, "an") || p.word(j, "per") || p.word(j, "to") || p.word(j, "the") || p.mark(j, "/") || p.word(j, "for") || p.word(j, "in") {
		j++
	}
	return p.setWeight(c, a, j)
}

// weighsFact: "a handful is 100 g", "one weighs 30g".
func (p *parser) weighsFact(c *Teaching, i int) bool {
	j := p.skip(i, "det")
	for p.word(j, "a") || p.word(j, "an") || p.word(j, "one") && !p.isWeigh(j+1) {
		j++
	}
	k := j
	for k < p.end && !p.isWeigh(k) {
		k++
	}
	if k == p.end || k-j > 2 {
		return false
	}
	a, n := p.plain(p.skip(k+1, "about"))
	if n == 0 || p.skip(k+1, "about")+n != p.end {
		return false
	}
	p.end = k
	return p.setWeight(c, a, j)
}

func (p *parser) isWeigh(i int) bool {
	_, m := p.class(i, "weigh")
	return m == 1 || p.word(i, "is") || p.mark(i, "=:")
}

// setWeight puts the weight of what the words from j to the end count: a piece,
// a unit that is the food's own, or a volume, which makes a density.
func (p *parser) setWeight(c *Teaching, a Amount, j int) bool {
	if a.Kind != measure.Gram {
		return false
	}
	if j == p.end || p.end == j+1 && (p.word(j, "each") || p.word(j, "piece") || p.word(j, "one") || p.word(j, "apiece") || strings.EqualFold(p.t[j].raw, c.Name)) {
		if j == p.end && p.t[j-1].sort == word && p.unitAt(j-1) { // a bare weight says nothing
			return false
		}
		c.Cells["piece_g"] = grams(a.Base)
		return true
	}
	u, n := p.unit(j)
	if n == 0 || j+n != p.end {
		return false
	}
	switch u.Sort {
	case measure.Volume:
		if u.Factor.Num == 0 {
			return false
		}
		d, ok := (measure.Ratio{Num: int64(a.Base), Den: 1}).Times(measure.Ratio{Num: u.Factor.Den, Den: u.Factor.Num})
		c.Cells["density"] = strconv.FormatFloat(d.Float(), 'f', 4, 64)
		return ok
	case measure.Vague, measure.Parts:
		if parts := c.Cells["parts"]; parts != "" {
			c.Cells["parts"] = parts + ";" + u.Name + "=" + grams(a.Base)
		} else {
			c.Cells["parts"] = u.Name + "=" + grams(a.Base)
		}
		return true
	}
	return false
}

func (p *parser) unitAt(i int) bool { u, _ := p.unit(i); return u != nil }

func grams(a measure.Amount) string { return strconv.FormatFloat(a.Units(), 'f', -1, 64) }

func decimals(r measure.Ratio) string {
	return strings.TrimRight(strings.TrimRight(big.NewRat(r.Num, r.Den).FloatString(3), "0"), ".")
}

// keepsFact: "keeps 3 days in the fridge", "lasts a week", "3 days".
func (p *parser) keepsFact(c *Teaching, i int) bool {
	j := i
	if p.word(j, "keeps") || p.word(j, "lasts") || p.word(j, "keep") || p.word(j, "for") {
		j++
	}
	j = p.skipWord(j, "for")
	v, n := p.number(j)
	if n == 0 && (p.word(j, "a") || p.word(j, "one")) {
		v, n = measure.Whole(1), 1
	}
	if n == 0 || v.Den != 1 {
		return false
	}
	j += n
	days := v.Num
	switch {
	case p.word(j, "day") || p.word(j, "days"):
	case p.word(j, "week") || p.word(j, "weeks"):
		days *= 7
	case p.word(j, "fortnight"):
		days *= 14
	case p.word(j, "month") || p.word(j, "months"):
		days *= 30
	case p.word(j, "year") || p.word(j, "years"):
		days *= 365
	default:
		return false
	}
	place := "fridge"
	for j++; j < p.end; j++ {
		switch {
		case p.word(j, "in") || p.word(j, "the") || p.word(j, "a") || p.word(j, "dry"):
		case p.word(j, "fridge") || p.word(j, "freezer") || p.word(j, "cupboard"):
			place = p.t[j].w
		case p.word(j, "store") || p.word(j, "larder"):
			place = "cupboard"
		default:
			return false
		}
	}
	c.Cells[place+"_days"] = strconv.FormatInt(days, 10)
	if c.Cells["place"] == "" || place == "fridge" {
		c.Cells["place"] = place
	}
	return true
}

// likeFact: "like spinach".
func (p *parser) likeFact(c *Teaching, i int) bool {
	j := i
	if p.word(j, "a") && p.word(j+1, "bit") || p.word(j, "just") || p.word(j, "much") {
		j++
	}
	j = p.skipWord(j, "bit")
	if !p.word(j, "like") {
		return false
	}
	it := Item{}
	e := p.food(&it, p.skip(j+1, "det"))
	if e != p.end || it.Food == "" {
		return false
	}
	c.Cells["like"] = strings.ToLower(it.Food)
	return true
}

// allergenFact: "contains milk and nuts", "no allergens".
func (p *parser) allergenFact(c *Teaching, i int) bool {
	if (p.word(i, "no") || p.word(i, "none")) && p.word(i+1, "allergens") && i+2 == p.end ||
		p.word(i, "allergens") && (p.word(p.end-1, "none") || p.word(p.end-1, "no")) {
		c.Cells["allergens"] = "none"
		return true
	}
	j, column := i, "allergens"
	switch {
	case p.word(j, "may") || p.word(j, "might"): // "may contain nuts"
		column = "check_label"
		j += 2
	case p.word(j, "contains") || p.word(j, "has") || p.word(j, "holds") || p.word(j, "with") || p.word(j, "allergens") || p.word(j, "allergen"):
		j++
	}
	if p.word(p.end-1, "it") && p.word(p.end-2, "in") { // "has peanuts in it"
		p.end -= 2
	}
	var list []string
	for ; j < p.end; j++ { // a mere "peanuts" goes on with a list, or is one
		if _, m := p.longest(j, "join", "pause", "det"); m > 0 || p.mark(j, ":&/") || p.word(j, "traces") || p.word(j, "of") {
			continue
		}
		w, m := p.class(j, "allergen")
		if m == 0 {
			return false
		}
		for _, a := range strings.Split(w.value, "+") {
			if !slices.Contains(list, a) {
				list = append(list, a)
			}
		}
		j += m - 1
	}
	if len(list) == 0 {
		return false
	}
	if had := c.Cells[column]; had != "" && had != "none" {
		for _, a := range strings.Split(had, ";") {
			if !slices.Contains(list, a) {
				list = append(list, a)
			}
		}
	}
	c.Cells[column] = strings.Join(list, ";")
	return true
}

// dietFact: "vegan", "not vegetarian".
func (p *parser) dietFact(c *Teaching, i int) bool {
	answer := "yes"
	if p.word(i, "not") {
		answer, i = "no", i+1
	}
	if i+1 != p.end {
		return false
	}
	switch {
	case p.word(i, "vegan"):
		c.Cells["vegan"] = answer
		if answer == "yes" {
			c.Cells["vegetarian"] = answer
		}
	case p.word(i, "vegetarian"), p.word(i, "veggie"):
		c.Cells["vegetarian"] = answer
		if answer == "no" {
			c.Cells["vegan"] = answer
		}
	default:
		return false
	}
	return true
}

// shelfFact: "cupboard", "a staple", "liquid".
func (p *parser) shelfFact(c *Teaching, i int) bool {
	i = p.skipWord(p.skip(i, "det"), "a")
	if i+1 != p.end {
		return false
	}
	switch p.t[i].w {
	case "cupboard", "staple":
		c.Cells["shelf"], c.Cells["keeper"] = "cupboard", "yes"
	case "crate":
		c.Cells["shelf"] = "crate"
	case "keeper":
		c.Cells["keeper"] = "yes"
	case "liquid", "poured":
		c.Cells["unit"] = "ml"
		if c.Cells["density"] == "" {
			c.Cells["density"] = "1"
		}
	default:
		return false
	}
	return true
}

// percentFact: "20% trim".
func (p *parser) percentFact(c *Teaching, i int) bool {
	v, n := p.number(i)
	if n == 0 || v.Den == 0 || !p.mark(i+n, "%") && !p.word(i+n, "percent") {
		return false
	}
	switch p.t[min(i+n+1, len(p.t)-1)].w {
	case "trim", "waste", "refuse", "lost":
		c.Cells["refuse_pct"], c.Cells["refuse_what"] = decimals(v), "trim"
		return i+n+2 == p.end
	}
	return false
}

// namesFact: "also called sea beans".
func (p *parser) namesFact(c *Teaching, i int) bool {
	switch {
	case p.word(i, "also") && (p.word(i+1, "called") || p.word(i+1, "known")):
		i = p.skipWord(i+2, "as")
	case p.word(i, "aka"):
		i++
	default:
		return false
	}
	name, j := p.phrase(i, mostNameWords)
	if name == "" || j != p.end {
		return false
	}
	if had := c.Cells["names"]; had != "" {
		name = had + ";" + name
	}
	c.Cells["names"] = strings.ToLower(name)
	return true
}
