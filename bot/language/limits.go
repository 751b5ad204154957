package language

import (
	"slices"
	"strings"
)

// Limits is what ideas are held to, as far as it was said.
type Limits struct {
	Minutes  int
	Without  []string // kit that is not there: "oven", "ring"
	Only     []string // kit that alone is to be used; nil not said
	Portions int      // 0 not said
	Serve    string   // "hot", "cold"; "" not said
	Avoid    []string // allergens, of the EU/UK 14 by the names of the food table
	Diet     string   // "vegan", "vegetarian"; "" not said
}

// Said says whether any was.
func (l Limits) Said() bool {
	return l.Minutes > 0 || len(l.Without)+len(l.Only)+len(l.Avoid) > 0 || l.Portions > 0 || l.Serve != "" || l.Diet != ""
}

// Over gives these limits, and those before where these say nothing.
func (l Limits) Over(before Limits) Limits {
	if l.Minutes == 0 {
		l.Minutes = before.Minutes
	}
	if l.Portions == 0 {
		l.Portions = before.Portions
	}
	if l.Serve == "" {
		l.Serve = before.Serve
	}
	if l.Diet == "" {
		l.Diet = before.Diet
	}
	if l.Only == nil {
		l.Only = before.Only
	}
	for _, k := range before.Without {
		if !slices.Contains(l.Without, k) {
			l.Without = append(l.Without, k)
		}
	}
	for _, a := range before.Avoid {
		l.avoid(a)
	}
	return l
}

func (l *Limits) avoid(names string) {
	for name := range strings.SplitSeq(names, "+") {
		if !slices.Contains(l.Avoid, name) {
			l.Avoid = append(l.Avoid, name)
		}
		if name == "tree nuts" && !slices.Contains(l.Avoid, "peanuts") { // who says "nuts" may mean both
			l.Avoid = append(l.Avoid, "peanuts")
		}
	}
}

// limits finds what is said of them anywhere in the message.
func (p *parser) limits() (l Limits) {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	l.Minutes, l.Without = p.minutes(), p.without()
	for i := 0; i < p.end; {
		i += max(1, p.limit(i, &l))
	}
	return l
}

// Limits reads a message that says nothing but limits: "something cold", "for 6, no
// oven". Ok says that it does.
func (r *Reader) Limits(text string) (l Limits, ok bool) {
	p := r.parser(text)
	if p == nil || len(p.t) == 0 {
		return l, false
	}
	p.end = len(p.t)
	p.classesOf(0, p.end)
	if p.word(0, "its") || p.word(0, "it's") || p.word(0, "it") { // "it's cold out here"
		return l, false
	}
	l = p.limits()
	return l, l.Said() && p.trails(p.idle(0), &Question{About: AboutIdeas, Plain: true}) == p.end
}

// limit reads one limit at i, but for time and missing kit, into l, and gives how
// many tokens it takes; 0 where none stands there.
func (p *parser) limit(i int, l *Limits) int {
	if l == nil {
		l = &Limits{}
	}
	for _, read := range []func(int, *Limits) int{p.forSoMany, p.served, p.dieted, p.avoided, p.kitAlone, p.kitMissing, p.inHaste} {
		if n := read(i, l); n > 0 {
			return n
		}
	}
	return 0
}

// forSoMany reads "for 6", "for six people", "4 portions", "serves 4".
func (p *parser) forSoMany(i int, l *Limits) int {
	j := i
	if (p.word(j, "table") || p.word(j, "party")) && (p.word(j+1, "of") || p.word(j+1, "for")) {
		j++
	}
	asks := j > i || p.word(j, "for") || p.word(j, "serves") || p.word(j, "serving") || p.word(j, "feeds") || p.word(j, "feed") || p.word(j, "feeding")
	if asks {
		j = p.skip(j+1, "about")
		if (p.word(j, "table") || p.word(j, "party")) && p.word(j+1, "of") { // "for a table of 8"
			j += 2
		}
	}
	v, m := p.number(j)
	if m == 0 || v.Den != 1 || v.Num < 1 || v.Num > 500 {
		return 0
	}
	k := j + m
	_, heads := p.class(k, "heads")
	last := k >= len(p.t) || p.t[k].sort == mark || p.slot("{tail}", k) > 0 || p.word(k, "in") || p.word(k, "and") || p.word(k, "with") || p.word(k, "no") || p.word(k, "without")
	if heads == 0 && !(asks && last) {
		return 0
	}
	l.Portions = int(v.Num)
	return k + heads - i
}

// served reads "cold", "something hot".
func (p *parser) served(i int, l *Limits) int {
	s, m := p.class(i, "serve")
	if m > 0 {
		l.Serve = s.value
	}
	return m
}

// dieted reads "vegan", "for a vegetarian".
func (p *parser) dieted(i int, l *Limits) int {
	j := p.skip(p.skipWord(i, "for"), "det")
	d, m := p.class(j, "diet")
	if m == 0 {
		return 0
	}
	if d.value == "coeliac" {
		l.avoid("gluten cereals")
	} else if l.Diet != "vegan" {
		l.Diet = d.value
	}
	return j + m - i
}

// avoided reads "no nuts", "dairy free", "allergic to fish", "a nut allergy".
func (p *parser) avoided(i int, l *Limits) int {
	j := i
	barred := false
	switch {
	case p.word(j, "no"), p.word(j, "without"), p.word(j, "avoiding"), p.word(j, "avoid"):
		barred, j = true, p.skip(p.skipWord(j+1, "any"), "det")
	case p.word(j, "allergic") && p.word(j+1, "to"), p.word(j, "nothing") && p.word(j+1, "with"):
		barred, j = true, p.skipWord(p.skip(j+2, "det"), "any")
	default:
		j = p.skip(j, "det")
	}
	a, m := p.class(j, "allergen")
	if m == 0 {
		return 0
	}
	k := p.hyphen(j + m)
	free := p.word(k, "free")
	for _, w := range []string{"free", "allergy", "allergies", "intolerant", "intolerance"} {
		if p.word(k, w) {
			free, k = true, k+1
			break
		}
	}
	if !barred && !free {
		return 0
	}
	l.avoid(a.value)
	for barred { // "no nuts or dairy"
		x := p.skipMark(k, ",")
		if p.word(x, "or") || p.word(x, "and") {
			x++
		}
		b, m := p.class(x, "allergen")
		if m == 0 || x == k {
			break
		}
		l.avoid(b.value)
		k = x + m
	}
	return k - i
}

// kitAlone reads "microwave only", "just the microwave", "and the microwave".
func (p *parser) kitAlone(i int, l *Limits) int {
	j := i
	for p.word(j, "and") || p.word(j, "with") || p.word(j, "only") || p.word(j, "just") || p.word(j, "on") || p.word(j, "using") {
		j++
	}
	if p.isDet(j) && j > i {
		j++
	}
	k := p.kit(j)
	if k == "" {
		return 0
	}
	n := j + 1
	if j == i && !p.word(n, "only") || p.word(i-1, "no") || p.word(i-1, "without") {
		return 0
	}
	n = p.skipWord(n, "only")
	if !slices.Contains(l.Only, k) {
		l.Only = append(l.Only, k)
	}
	return n - i
}

// kitMissing passes "no oven", "with no oven", "without the oven"; the function
// without has found it.
func (p *parser) kitMissing(i int, _ *Limits) int {
	j := p.skipWord(i, "with")
	if !p.word(j, "no") && !p.word(j, "without") {
		return 0
	}
	if j = p.skip(j+1, "det"); p.kit(j) == "" {
		return 0
	}
	return j + 1 - i
}

// quick is what "something quick" may take, in minutes: common practice, no source.
const quick = 15

// inHaste reads "quick".
func (p *parser) inHaste(i int, l *Limits) int {
	_, m := p.class(i, "haste")
	if p.word(i+m, "one") || p.word(i+m, "question") || p.word(i+m, "q") { // "quick one: ..."
		return 0
	}
	if m > 0 && l.Minutes == 0 {
		l.Minutes = quick
	}
	return m
}

// kitSaid is kit where "the oven's" will do.
func (p *parser) kitSaid(i int) string {
	if k := p.kit(i); k != "" || !p.is(i, word) {
		return k
	}
	for _, k := range []string{"oven", "grill", "microwave", "kettle", "blender"} {
		if p.t[i].w == k+"s" {
			return k
		}
	}
	return ""
}

// kit gives the kit that the word at i names, as the planner calls it; "" none.
func (p *parser) kit(i int) string {
	for _, k := range []string{"oven", "grill", "microwave", "kettle", "blender"} {
		if p.word(i, k) {
			return k
		}
	}
	for _, k := range []string{"hob", "hobs", "ring", "rings", "stove"} {
		if p.word(i, k) {
			return "ring"
		}
	}
	return ""
}
