package language

import (
	_ "embed"
	"strings"

	"scullion/pantry/food"
)

// How strictly a list of needs is read.
const (
	anyNeed    = iota
	ofPersons  // only words that are said of people: "coeliac", "a nut allergy"; not "no nuts", "dairy free"
	barredFood // bare foods: what somebody cannot eat
	atNumber   // as anyNeed, but "table 7: no cream" may be an order
	ofIllness  // allergies alone
	ofTexture  // textures alone, with how many or the word for a diet
)

// needList reads "1 nut allergy, 2 vegan and a coeliac" at i into q, and gives how many
// tokens it takes; 0 none.
func (p *parser) needList(i int, q *Question, how int) int {
	j, allergic := i, false
	for len(q.Needs) < mostNeeds {
		k := j
		for k > i && (p.mark(k, ",-&+/") || p.word(k, "and") || p.word(k, "plus") || p.word(k, "also") || p.word(k, "or")) {
			k++
		}
		if _, number := p.number(k); k > i && k == j && number == 0 && !p.word(k-1, "free") && !q.endsInDiet() { // "3 veggie 1 coeliac", "gluten free dairy free", "vegan nut allergy"
			break
		}
		if k > j && p.word(k-1, "and") && (p.word(k, "is") || p.word(k, "are")) { // "can't have milk and is diabetic"
			k++
		}
		for k == i && p.mark(k, "-:") {
			k++
		}
		n := p.jointIllness(k, q, how)
		if n == 0 {
			n = p.need(k, q, how)
		}
		if n == 0 && j > i && allergic { // "allergic to fish and kiwi"
			n = p.alsoAllergic(k, q)
		}
		if n == 0 {
			break
		}
		if _, counted := p.soMany(k, &TableNeed{}); counted || j == i {
			allergic = p.saysTo(k, k+n)
		}
		j = k + n
	}
	return j - i
}

// saysTo says whether "allergic to" stands between i and k.
func (p *parser) saysTo(i, k int) bool {
	for ; i < k; i++ {
		if p.among("{to}", i) > 0 {
			return true
		}
	}
	return false
}

// alsoAllergic reads a food that goes on a list of what somebody is allergic to.
func (p *parser) alsoAllergic(i int, q *Question) int {
	x := TableNeed{}
	n := p.notEaten(i, &x)
	if n == 0 {
		return 0
	}
	x.Said += " allergy"
	q.Needs = append(q.Needs, x)
	return n
}

// mostNeeds is how many needs one sentence may list.
const mostNeeds = 20

// need reads one need at i.
func (p *parser) need(i int, q *Question, how int) int {
	x := TableNeed{}
	j, counted := p.soMany(i, &x)
	if p.among("{fine}", j) > 0 && x.Count != 0 { // "5 eat everything": of them there is nothing to say
		return j + p.among("{fine}", j) - i
	}
	if counted && x.Count > 0 && p.among("{no}", j) > 0 && p.word(j, "no") && p.among("{other}", j) == 0 && (i == 0 || p.among("{seat}", i-1) > 0 || p.among("{risky}", j+1)+p.among("{rarely}", j+1) == 0) { // "table 7 no cream", "2 pies, 1 no cheese"
		return 0
	}
	if n := p.among("{covers}", j); n > 0 && x.Count > 0 && (how == anyNeed || how == atNumber) && (j+n >= p.end || p.mark(j+n, ",-;")) { // "8 guests"
		q.Heads = x.Count
		return j + n - i
	}
	if counted {
		for n := p.among("{of}", j); n > 0; n = p.among("{of}", j) {
			if _, m := p.number(j); m > 0 && x.Count > 1 { // "party of 8 one egg allergy": it is of one
				return 0
			}
			if has := p.word(j, "has") || p.word(j, "have") || p.word(j, "with"); has && x.Count > 1 {
				if _, again := p.soMany(j+1, &TableNeed{}); again { // "15 has a coeliac"
					return 0
				}
			}
			j += n
		}
	}
	n := 0
	for _, read := range []func(int, *TableNeed, int) int{p.allergic, p.hasAllergy, p.hasTexture, p.hasDiet, p.barred} {
		if n = read(j, &x, how); n > 0 {
			break
		}
	}
	if n == 0 {
		return 0
	}
	j += n
	if k := p.skipWord(j, "x"); k > j || p.mark(j, "x") { // "nut allergy x2"
		if p.mark(j, "x") {
			k = j + 1
		}
		if v, m := p.number(k); m > 0 && v.Den == 1 && v.Num > 0 && v.Num < 500 {
			x.Count, j = int(v.Num), k+m
		}
	}
	if n := p.skipMark(j, ","); p.among("{howbad}", n) > 0 && x.Diet == "" { // "shellfish allergy, a bad one"
		if m := n + p.among("{howbad}", n); m >= p.end || p.t[m].sort == mark || p.word(m, "and") {
			j = m
		}
	}
	if k := p.skipWord(j, "for"); k > j && x.Count == 0 { // "gluten free for 2 on table 8"
		if v, m := p.number(k); m > 0 && v.Den == 1 && v.Num > 0 && v.Num < 500 && p.among("{on}", k+m) > 0 {
			x.Count, j = int(v.Num), k+m
		}
	}
	if n := p.among("{covers}", j); n > 0 && counted { // "2 vegan guests"
		j += n
	}
	q.Needs = append(q.Needs, x)
	return j - i
}

// soMany reads how many have a need: "2", "a", "all".
func (p *parser) soMany(i int, x *TableNeed) (j int, counted bool) {
	if n := p.among("{all}", i); n > 0 {
		x.Count = Everyone
		return i + n, true
	}
	if v, m := p.number(i); m > 0 && v.Den == 1 && v.Num > 0 && v.Num <= 500 {
		if p.is(i, digit) && i > 0 && p.among("{seat}", i-1) > 0 && p.among("{of}", i+m) > 0 && p.among("{heads}", i+m) == 0 { // "table 4 kid allergic to egg"
			return i, false
		}
		x.Count = int(v.Num)
		j = i + m
		if p.word(j, "x") || p.mark(j, "x") {
			j++
		}
		return j, true
	}
	if p.word(i, "a") || p.word(i, "an") {
		x.Count = 1
		return i + 1, true
	}
	return i, false
}

// among gives how many tokens the words of a slot of table.csv take at i.
func (p *parser) among(name string, i int) int { return p.spelt(tableForms().words[name], i) }

// allergic reads "allergic to nuts and fish".
func (p *parser) allergic(i int, x *TableNeed, how int) int {
	if how == ofTexture {
		return 0
	}
	j := i + p.among("{bad}", i)
	n := p.among("{to}", j)
	if n == 0 {
		return 0
	}
	k := p.notEaten(j+n, x)
	if k == 0 {
		return 0
	}
	x.Said += " allergy"
	return j + n + k - i
}

// hasAllergy reads "nut allergy", "dairy intolerant", "severe peanut allergy".
func (p *parser) hasAllergy(i int, x *TableNeed, how int) int {
	if how == ofTexture {
		return 0
	}
	j := i
	for n := p.among("{bad}", j); n > 0; n = p.among("{bad}", j) {
		j += n
	}
	k := p.notEaten(j, x)
	if k == 0 {
		return 0
	}
	e := p.hyphen(j + k)
	n := p.among("{ill}", e)
	if n == 0 {
		*x = TableNeed{Count: x.Count}
		return 0
	}
	switch w := p.t[e].w; {
	case strings.HasPrefix(w, "intol"):
		x.Said += " intolerance"
	case strings.HasPrefix(w, "sens"):
		x.Said += " sensitivity"
	default:
		x.Said += " allergy"
	}
	return e + n - i
}

// hasDiet reads "vegan", "coeliac", "halal".
func (p *parser) hasDiet(i int, x *TableNeed, how int) int {
	if how == barredFood || how == ofTexture {
		return 0
	}
	j := i + p.among("{bad}", i)
	if d, m := p.class(j, "diet"); how == ofIllness && (m == 0 || d.value != "coeliac") {
		return 0
	}
	if n := p.among("{other}", j); n > 0 && (how == anyNeed || how == atNumber || p.t[j].w != "no") {
		x.Diet = strings.ToLower(p.asSaid(j, n))
		x.Diet = strings.TrimSuffix(strings.TrimSuffix(x.Diet, " only"), "s")
		x.Said = x.Diet
		return j + n - i
	}
	if n := p.among("{milkill}", j); n > 0 {
		x.Allergy, x.Said = "milk", "cow's milk protein allergy"
		return j + n - i
	}
	d, m := p.class(j, "diet")
	switch {
	case m == 0:
		return 0
	case d.value == "coeliac":
		x.Allergy, x.Said = "gluten cereals", "coeliac"
	default:
		x.Diet, x.Said = d.value, d.value
	}
	return j + m - i
}

// barred reads "no nuts or dairy", "dairy free", and of what somebody cannot eat the bare
// foods.
func (p *parser) barred(i int, x *TableNeed, how int) int {
	j := i
	if how == ofPersons || how == ofIllness || how == ofTexture {
		return 0
	}
	no := p.among("{no}", j)
	if no > 0 {
		j += no
		j = p.skipWord(j, "any")
	} else if how == barredFood {
		j = p.skip(p.skipWord(j, "any"), "det")
	}
	if n := p.among("{animal}", j); n > 0 && (no > 0 || how == barredFood) {
		x.Diet, x.Said = "vegan", "vegan"
		return j + n - i
	}
	if n := p.among("{meat}", j); n > 0 && (no > 0 || how == barredFood) {
		x.Diet, x.Said = "vegetarian", "vegetarian"
		return j + n - i
	}
	k := p.notEaten(j, x)
	if k == 0 {
		return 0
	}
	e := p.hyphen(j + k)
	switch {
	case no > 0 && how == atNumber && !p.abed(i) && (x.Allergy == "" || p.foodAt(j) && p.among("{risky}", j) == 0 && p.among("{rarely}", j) == 0):
	case no > 0 || how == barredFood:
		x.Said = "no " + p.asNamed(j, k)
		return j + k - i
	case p.word(e, "free"):
		x.Said = "no " + p.asNamed(j, k)
		return e + 1 - i
	}
	*x = TableNeed{Count: x.Count}
	return 0
}

// abed says whether what stands before i is of a bed or a ward, where nobody orders for taste.
func (p *parser) abed(i int) bool {
	for ; i > p.start; i-- {
		if p.word(i-1, "bed") || p.word(i-1, "ward") || p.word(i-1, "bay") || p.word(i-1, "room") || p.word(i-1, "cubicle") || p.word(i-1, "patient") || p.word(i-1, "resident") {
			return true
		}
	}
	return false
}

// notEaten reads what somebody cannot eat, at i: words for allergens, "nuts and dairy", else one
// food.
func (p *parser) notEaten(i int, x *TableNeed) int {
	l, said := Limits{}, []string{}
	j := i
	for {
		k := j
		if j > i {
			k = p.skipMark(j, ",/&")
			if p.word(k, "and") || p.word(k, "or") {
				k++
			}
			if k == j {
				break
			}
		}
		k = p.skip(p.skipWord(k, "any"), "det")
		a, m := p.class(k, "allergen")
		if n := p.knownLength(k); m == 0 || n > m && !p.allergenEnds(k, m) { // "soy sauce", "cream of tartar"
			break
		}
		l.avoid(a.value)
		said = append(said, strings.ToLower(p.asSaid(k, m)))
		j = k + m
	}
	if j > i {
		x.Allergy, x.Said = strings.Join(l.Avoid, "+"), saidOf(said)
		return j - i
	}
	k := p.skip(p.skipWord(i, "any"), "det")
	n := p.knownLength(k)
	if n == 0 {
		n = p.among("{notfood}", k)
	}
	if n == 0 || p.lexHas(k, k+n, "diet") {
		return 0
	}
	x.Food = strings.ToLower(p.asSaid(k, n))
	x.Said = saidOf([]string{x.Food})
	return k + n - i
}

// asNamed gives the m tokens at i as they were said, without "any" and "the".
func (p *parser) asNamed(i, m int) string {
	k := min(p.skip(p.skipWord(i, "any"), "det"), i+m-1)
	return strings.ToLower(p.asSaid(k, i+m-k))
}

// allergenEnds says whether behind the words for an allergen stands one that only says how
// it is meant.
func (p *parser) allergenEnds(i, m int) bool {
	return p.among("{ill}", p.hyphen(i+m)) > 0 || p.word(p.hyphen(i+m), "free")
}

// saidOf puts words for allergens together: "nut and dairy"; one in the plural is said in
// the singular, as in "nut allergy".
func saidOf(words []string) string {
	for i, w := range words {
		if _, plural := strings.CutSuffix(w, "s"); plural && !strings.HasSuffix(w, "ss") {
			words[i] = food.Fold(w)
		}
	}
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
