package planner

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// write puts the picked candidates into words. Two lines may have one name; the
// same title is given once.
func (k *kitchen) write(picked []candidate) []Idea {
	var ideas []Idea
	for i := range picked {
		idea := k.idea(&picked[i])
		if !slices.ContainsFunc(ideas, func(o Idea) bool { return o.Title == idea.Title }) {
			ideas = append(ideas, idea)
		}
	}
	return ideas
}

func (k *kitchen) idea(c *candidate) Idea {
	if c.dish != nil {
		return k.dishIdea(c)
	}
	l, f := &k.lines[c.line], c.fit
	idea := Idea{
		Title: l.named(f.Title, c), Technique: f.ID, Role: f.Role,
		How: l.how(c), Kit: kitWords(f.page.kit),
		Uses: []Use{l.use(c.amount)}, Steps: stepsOf(f.Steps, func(int) float64 { return c.amount.Units() * l.share }),
		Minutes: max(1, int(math.Ceil(c.minutes))), HandsOn: max(1, int(math.Ceil(c.hands))),
		Portions: c.portions, Allergens: k.allergens(c), Why: k.why(c), Score: c.score,
	}
	idea.Uses[0].Cut = f.Cut
	for _, s := range f.Says {
		if !said(s, idea.Allergens) {
			idea.Cautions = append(idea.Cautions, s)
		}
	}
	for i, s := range f.Staples {
		for _, says := range k.stapleSays(c, i, s) {
			if !said(says, idea.Allergens) && !slices.Contains(idea.Cautions, says) {
				idea.Cautions = append(idea.Cautions, says)
			}
		}
	}
	if l.Food.Unasked {
		idea.Cautions = append(idea.Cautions, "nobody has said what allergens "+l.Item+" holds: check the label")
	}
	if l.pastBest() {
		idea.Cautions = append(idea.Cautions, "past its best-before: look, smell, and leave it if in doubt")
	}
	idea.Cautions = saidOnce(idea.Cautions)
	for i, s := range f.Staples {
		k.addStaple(&idea, c, i, s)
	}
	return idea
}

// stapleSays gives what the safety rules have said of a staple that makes the dish: no
// green potatoes, rice cooled fast. What is in it by the spoon the technique's own
// cautions are about, and flour that is cooked and beans from a tin need none.
func (k *kitchen) stapleSays(c *candidate, i int, s technique.Staple) []string {
	f := k.staple(s)
	if h := k.holder(c, i); h >= 0 {
		f = k.lines[h].Food
	}
	if f == nil || s.Amount < much || isOf(f, "flour", "tinned pulse") || k.lines[c.line].is(c.fit.page.staples[i]) {
		return nil
	}
	_, _, says := technique.Need(technique.Of(f, false))
	return says
}

// how fills in the technique's line: the food, and the minutes that this food
// takes.
func (l *line) how(c *candidate) string {
	minutes := strconv.Itoa(int(c.fit.MainMinutes(c.amount.Units() * l.share)))
	s := l.named(strings.ReplaceAll(c.fit.How, "{min}", minutes), c)
	return upper(s)
}

func upper(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// named puts the line's name into a sentence.
func (l *line) named(s string, c *candidate) string {
	name := l.Item
	if l.several(c.amount) {
		name = plural(name)
	}
	s = strings.ReplaceAll(strings.ReplaceAll(s, "{foods}", name), "{food}", l.Item)
	return strings.ReplaceAll(s, "green green ", "green ") // soup of a green leaf
}

// addStaple puts a staple under Uses where it is crate food, else under
// Cupboard. What the idea's own line answers to is there already.
func (k *kitchen) addStaple(idea *Idea, c *candidate, i int, s technique.Staple) {
	l := &k.lines[c.line]
	if kin(s.Names[0]) == "salt" && s.Amount <= pinch && isOf(l.Food, brined...) && c.fit.Family != "keep" {
		return // it brings its own
	}
	if !l.is(c.fit.page.staples[i]) {
		k.addHeld(idea, s, k.holder(c, i), c.portions, asItIs)
	}
}

// brined are the kinds that are salt already, and pinch the most salt a portion that
// seasons: more is for boiling water or for keeping. Common practice, no source.
var brined = []string{"cured meat", "salty cheese", "blue-veined cheese", "smoked fish", "salty pickle"}

const pinch = 2_000

// addHeld puts a staple on the list it belongs to, from the line that has it; -1 none
// has. Water is left out.
func (k *kitchen) addHeld(idea *Idea, s technique.Staple, h, portions int, round rounding) {
	amount := s.Amount * measure.Amount(portions)
	if s.Names[0] == "water" {
		return
	}
	if h >= 0 {
		l := &k.lines[h]
		if a, ok := l.measured(amount, s.Unit); ok {
			list := &idea.Cupboard
			if l.Crate {
				list = &idea.Uses
			}
			add(list, l.use(round(l.Food, a)), l.Free)
			return
		}
	}
	add(&idea.Cupboard, Use{Item: k.notHeld(s), Amount: round(k.staple(s), amount), Unit: s.Unit}, measure.Most)
}

// use is an amount of the line.
func (l *line) use(a measure.Amount) Use {
	u := Use{Item: l.Item, Amount: a, Unit: l.Unit}
	if l.Food.Piece == "" && l.Unit == l.Food.Unit && !l.cooked {
		if u.Each = l.Each; u.Each == 0 {
			u.Each = l.Food.PieceMg
		}
	}
	return u
}

// add puts a use on the list, with what is there of the item already, up to
// what is free.
func add(list *[]Use, u Use, free measure.Amount) {
	for i := range *list {
		if o := &(*list)[i]; o.Item == u.Item && o.Unit == u.Unit {
			o.Amount = min(o.Amount+u.Amount, free)
			return
		}
	}
	u.Amount = min(u.Amount, free)
	*list = append(*list, u)
}

// notHeld names a staple that no line holds: what is always there before what is
// usual, and of that the first that the table's needs allow.
func (k *kitchen) notHeld(s technique.Staple) string {
	if i := slices.IndexFunc(s.Names, alwaysThere); i >= 0 {
		return s.Names[i]
	}
	if !k.needs.none() {
		for _, name := range s.Names {
			if f, _ := food.Default().Food(name); f != nil && k.needs.allow(f) {
				return name
			}
		}
	}
	return s.Names[0]
}

// rounding makes an amount of a food one that is weighed out.
type rounding func(*food.Food, measure.Amount) measure.Amount

func asItIs(_ *food.Food, a measure.Amount) measure.Amount { return a }

// inWhole rounds eggs to whole ones, one at least: nobody cracks a third of an egg.
func inWhole(f *food.Food, a measure.Amount) measure.Amount {
	if f == nil || !isOf(f, "egg") || f.PieceMg <= 0 {
		return a
	}
	return max(1, (a+f.PieceMg/2)/f.PieceMg) * f.PieceMg
}

// measured turns an amount into the line's unit, where the food's density allows.
func (l *line) measured(a measure.Amount, unit measure.Kind) (measure.Amount, bool) {
	d := measure.Amount(l.Food.Density)
	switch {
	case unit == l.Unit:
		return a, true
	case d == 0:
		return 0, false
	case l.Unit == measure.Gram:
		return max(1, a*d/1000), true
	}
	return max(1, a*1000/d), true
}
