package language

import "strings"

// endsInDiet says whether the last of some needs is a diet, behind which the next may stand without a comma.
func (q *Question) endsInDiet() bool {
	n := len(q.Needs)
	return n > 0 && (q.Needs[n-1].Diet != "" || q.Needs[n-1].Said == "coeliac")
}

// jointIllness reads several things with one word for the illness behind them at i, of which one at least is no word for
// an allergen: "kiwi and banana allergy", "egg, kiwi and nut allergies".
func (p *parser) jointIllness(i int, q *Question, how int) int {
	if how == barredFood || how == ofTexture {
		return 0
	}
	of := TableNeed{}
	j, _ := p.soMany(i, &of)
	for n := p.among("{bad}", j); n > 0; n = p.among("{bad}", j) {
		j += n
	}
	var list []TableNeed
	for len(list) < mostNeeds {
		k := j
		for len(list) > 0 && (p.mark(k, ",&+/") || p.word(k, "and") || p.word(k, "n")) {
			k++
		}
		if len(list) > 0 && k == j {
			break
		}
		x := TableNeed{Count: of.Count}
		n := p.notEaten(k, &x)
		if n == 0 {
			return 0
		}
		list, j = append(list, x), k+n
	}
	e := p.hyphen(j)
	n := p.among("{ill}", e)
	if n == 0 || len(list) < 2 {
		return 0
	}
	ill := "allergy"
	if w := p.t[e].w; strings.HasPrefix(w, "intol") {
		ill = "intolerance"
	} else if strings.HasPrefix(w, "sens") {
		ill = "sensitivity"
	}
	for _, x := range list {
		x.Said += " " + ill
		q.Needs = append(q.Needs, x)
	}
	return e + n - i
}
