package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// found is what a phrase may mean.
type found struct {
	lines []*pantry.Line // equally good; one means sure
	near  []*pantry.Line // worth asking about
	food  *food.Food     // what the catalogue says it is; nil where it knows none
	named string         // the catalogue's words for it that fitted
	exact bool           // the phrase is a name to the letter, or its plural
	sound bool           // only by its sound
	slip  bool           // near is only a slip of the keys away
	short bool           // only as the beginning or the bones of a name
	guess bool           // food is what the letters come nearest to
	other bool           // the lines hold the food raw, and cooked food was said
	froze bool           // the lines hold the food, some of it frozen, and it was called so
}

// find listens for a phrase. The catalogue has a say only where the pantry has
// nothing that fits to the letter: a slip of one food must not become another
// that happens to be on the shelf.
func (x *ear) find(phrase string) found {
	f := x.heardOf(phrase)
	if rest, ok := strings.CutPrefix(strings.ToLower(phrase), "frozen "); ok && !f.exact {
		g := x.heardOf(rest)
		g.lines = slices.DeleteFunc(slices.Clone(g.lines), func(l *pantry.Line) bool {
			frozen, _ := l.In(food.Frozen)
			return frozen == 0
		})
		if g.exact && len(g.lines) > 0 { // "frozen prawns" are the prawns that were frozen
			g.froze = true
			return g
		}
	}
	return f
}

// heardOf is find of the name as it is.
func (x *ear) heardOf(phrase string) found {
	if f, ok := x.asked[phrase]; ok {
		return f
	}
	if x.asked == nil || len(x.asked) >= mostAsked {
		x.asked = map[string]found{}
	}
	f := x.listen(phrase)
	x.sameState(&f, phrase)
	x.setApart(&f, phrase)
	x.asked[phrase] = f
	return f
}

// sameState keeps cooked food and raw apart: "cooked rice" is the line of that name,
// and "rice" the raw one where there are both.
func (x *ear) sameState(f *found, phrase string) {
	if rest := planner.BeforeCooking(phrase); f.food == nil && len(f.lines) == 0 && rest != phrase { // "leftover roast potatoes"
		if g := x.listen(rest); g.food != nil && g.exact {
			f.food, f.named, f.exact, f.lines = g.food, g.named, true, g.lines
		}
	}
	if len(f.lines) == 0 {
		return
	}
	said := f.food != nil && planner.IsCooked(f.food, phrase)
	var cooked, raw []*pantry.Line
	for _, l := range f.lines {
		if g := x.foodOf(l); g != nil && planner.IsCooked(g, l.Name) {
			cooked = append(cooked, l)
		} else {
			raw = append(raw, l)
		}
	}
	for _, l := range x.k.Lines { // "roast potatoes" may be the leftover roast potatoes
		if g := x.foodOf(l); said && len(cooked) == 0 && g == f.food && g != nil && planner.IsCooked(g, l.Name) {
			cooked = append(cooked, l)
		}
	}
	switch {
	case said && len(cooked) > 0:
		f.lines = cooked
	case said:
		f.other = true
	case len(raw) > 0:
		f.lines = raw
	}
}

// areCooked says whether all of the lines, one at least, hold cooked food.
func (x *ear) areCooked(lines []*pantry.Line) bool {
	for _, l := range lines {
		if f := x.foodOf(l); f == nil || !planner.IsCooked(f, l.Name) {
			return false
		}
	}
	return len(lines) > 0
}

// mostAsked bounds the phrases whose finding is remembered: a kitchen says the
// same few hundred over and over.
const mostAsked = 4096

// tempWords are no food, whatever they come near to: "temp" is no tempeh.
var tempWords = []string{"temp", "temps", "tmp", "temperature", "temperatures"}

func (x *ear) listen(phrase string) found {
	var f found
	if slices.Contains(tempWords, food.Fold(phrase)) {
		return f
	}
	mine := x.lines.Find(phrase)
	if len(mine) > 0 && mine[0].Score == 1 {
		f.lines, f.exact = x.close(mine, 1), true
		f.food = x.foodOf(f.lines[0])
		f.preferNamed(phrase)
		return f
	}
	known := x.all.Find(phrase)
	if food.Fold(phrase) == "meat" { // of any animal: by the end of its name alone it would be crab meat
		if len(mine) > 0 {
			f.near = x.close(mine, mine[0].Score)
		}
		return f
	}
	if len(known) > 0 && known[0].Score >= food.Sure && !sidePart(known[0]) {
		f.food, f.named = x.all.Foods()[known[0].ID], known[0].Name
		f.exact, f.sound, f.short = known[0].Score >= 0.96, known[0].How == "sound", known[0].How == "short"
	}
	if len(mine) == 0 {
		return f
	}
	top := mine[0].Score
	better := len(known) > 0 && known[0].Score > top+food.Close
	switch {
	case top >= food.Sure && !better && !sidePart(mine[0]):
		f.lines, f.exact, f.sound = x.close(mine, top), top >= 0.96, mine[0].How == "sound"
		f.short = mine[0].How == "short"
	case !better || known[0].Score < 0.96:
		f.near, f.slip = x.close(mine, top), mine[0].How == "slip"
	}
	return f
}

// likely gives the lines that a phrase comes nearest to where it is no food's
// name to the letter: a pantry is small, and so "leke" is its leek. Of what
// comes in, the catalogue must know nothing that is as near: more comes in than
// is there already, and only a plain slip of the keys is no food of its own.
func (x *ear) likely(phrase string, comesIn bool) (list []*pantry.Line) {
	another := food.IsAnother(phrase)
	for _, id := range x.lines.Likely(phrase, comesIn) {
		l := x.k.Line(int64(id))
		if l == nil {
			continue
		}
		own := append(strings.Fields(l.Name), l.Name)
		var others []string
		if f := x.foodOf(l); f != nil {
			own, others = append(own, append(strings.Fields(f.Name), f.Name)...), f.Called()
		}
		near := func(name string, own bool) bool {
			switch {
			case comesIn:
				return food.IsTypo(phrase, name)
			case another: // "mush" is short for mushrooms
				return own && len(phrase) > 3 && strings.HasPrefix(name, strings.ToLower(phrase))
			}
			return food.IsNear(phrase, name, own)
		}
		if slices.ContainsFunc(own, func(n string) bool { return near(n, true) }) || slices.ContainsFunc(others, func(n string) bool { return near(n, false) }) {
			list = append(list, l)
		}
	}
	return list
}

// generally gives the lines that are called by a word for f and its like alone,
// if it is not here by its own name: the butter is what there is of unsalted
// butter, and the olive oil what there is of extra virgin.
func (x *ear) generally(f *food.Food) (list []*pantry.Line) {
	for _, l := range x.k.Lines {
		if g := x.foodOf(l); g != nil && g.Group != f.Group { // black pepper is no red pepper
			continue
		}
		if slices.ContainsFunc(f.General, func(g string) bool { return key(g) == key(l.Name) }) {
			list = append(list, l)
		}
	}
	return list
}

// only gives the one line of the cupboard of the same sort as f that ends in the word which was said,
// where there is as much of it: "flour" is the strong flour, if that is all the flour there is. Of the
// crate it is asked: cream is no soured cream.
func (x *ear) only(said string, f *food.Food, base measure.Amount) (list []*pantry.Line) {
	if said = food.Fold(said); strings.Contains(said, " ") {
		return nil
	}
	for _, l := range x.k.Lines {
		if g := x.foodOf(l); g == nil || g.Group != f.Group || g.Shelf != food.Cupboard || l.OnHand() == 0 || food.Fold(lastWord(l.Name)) != said || planner.IsCooked(g, l.Name) {
			continue
		}
		list = append(list, l)
	}
	if len(list) != 1 || list[0].OnHand() < base {
		return nil
	}
	return list
}

// sidePart says whether only a word at the side of a name fits, such as "new"
// for new potato: worth asking about, no more.
func sidePart(m food.Match) bool { return m.How == "part" && m.Score < 0.9 }

// preferNamed drops lines that share a general word where one line is called
// just so: "onion" is the line onion, even beside red onion.
func (f *found) preferNamed(phrase string) {
	for _, l := range f.lines {
		if food.Fold(l.Name) == food.Fold(strings.ToLower(phrase)) || l.Name == singular(strings.ToLower(phrase)) {
			f.lines = []*pantry.Line{l}
			return
		}
	}
	f.lines = madeApart(f.lines, phrase)
}

// madeApart leaves of some lines those whose names end in what is said, where that is a word for cooked food and one of
// them was made ("keema" is the lamb keema, not the mince that is called so as well), or where only what was made is not
// called so ("mince" is not the keema).
func madeApart(lines []*pantry.Line, said string) []*pantry.Line {
	var named []*pantry.Line
	cooked, made := tellsWork(said, "cooked"), true
	for _, l := range lines {
		switch {
		case isCalledShort(l.Name, said):
			named = append(named, l)
		case l.Made == 0:
			made = false
		}
	}
	if len(named) == 0 || !made && !(cooked && slices.ContainsFunc(named, func(l *pantry.Line) bool { return l.Made > 0 })) {
		return lines
	}
	return named
}

func (x *ear) close(matches []food.Match, top float64) (list []*pantry.Line) {
	for _, m := range matches {
		if l := x.k.Line(int64(m.ID)); l != nil && m.Score > top-food.Close {
			list = append(list, l)
		}
	}
	return list
}

// sameFood leaves of the lines that a phrase may mean those that it may come
// into: not smoked mackerel where fresh mackerel comes, not cavolo nero where
// kale does. A food's own name keeps it apart from others that share a general
// word with it.
func (x *ear) sameFood(lines []*pantry.Line, phrase string) (list []*pantry.Line) {
	ids := x.all.Index().Exact(strings.Fields(strings.ToLower(phrase)))
	var own *food.Food
	for _, id := range ids {
		if f := x.all.Foods()[id]; isCalled(f, phrase) {
			own = f
			break
		}
	}
	for _, l := range lines {
		f := x.foodOf(l)
		if own == nil || f == nil || f == own || food.Fold(l.Name) == food.Fold(phrase) || singular(strings.ToLower(phrase)) == l.Name {
			list = append(list, l)
		}
	}
	return list
}

// inBunches is the food that a name means where it comes in a part which the food on hand has not, and the food
// usually called so has; nil where that says nothing.
func (x *ear) inBunches(d *draft, lines []*pantry.Line) *food.Food {
	if len(lines) != 1 || d.Amount.How != language.Pieces || d.Amount.Part == "" {
		return nil
	}
	has := func(f *food.Food) bool {
		return f != nil && slices.ContainsFunc(f.Parts, func(p food.Part) bool { return p.Name == d.Amount.Part })
	}
	usual, ok := x.all.Food(d.Food)
	if f := x.foodOf(lines[0]); !ok || f == usual || f == nil || has(f) || !has(usual) {
		return nil
	}
	return usual
}

// wholeOne is the food of "a chicken" where the pantry has thighs: what a general
// word means that is counted, if that is far bigger than what is held; else nil.
func (x *ear) wholeOne(d *draft, lines []*pantry.Line) *food.Food {
	if len(lines) != 1 || d.Amount.Part != "" || d.Amount.How != language.Pieces && !d.Amount.Both {
		return nil
	}
	usual, ok := x.all.Food(d.Food)
	f := x.foodOf(lines[0])
	if !ok || f == nil || usual == f || isCalled(f, d.Food) || key(lines[0].Name) == key(d.Food) || f.PieceMg == 0 || usual.PieceMg < 4*f.PieceMg {
		return nil
	}
	return usual
}

// isCalled says whether the phrase is one of the food's own names, not a
// general word.
func isCalled(f *food.Food, phrase string) bool {
	want := key(phrase)
	for _, n := range append([]string{f.Name}, f.Names...) {
		if key(n) == want {
			return true
		}
	}
	return false
}

// key is a name with its words folded.
func key(name string) string {
	words := strings.Fields(name)
	for i, w := range words {
		words[i] = food.Fold(w)
	}
	return strings.Join(words, " ")
}

// nearest lists lines that come closest to a phrase, for an offer.
func (x *ear) nearest(phrase string, f *food.Food, most int) (list []*pantry.Line) {
	for _, m := range x.lines.Find(phrase) {
		if l := x.k.Line(int64(m.ID)); l != nil && l.OnHand() > 0 && len(list) < most {
			list = append(list, l)
		}
	}
	if f == nil {
		return list
	}
	for _, l := range x.k.Lines { // the same kind of thing
		if g := x.foodOf(l); g != nil && g.Group == f.Group && slices.ContainsFunc(g.Kinds, func(k string) bool { return slices.Contains(f.Kinds, k) }) && l.OnHand() > 0 && len(list) < most && !holds(list, l) {
			list = append(list, l)
		}
	}
	return list
}

func holds(list []*pantry.Line, l *pantry.Line) bool {
	for _, x := range list {
		if x == l {
			return true
		}
	}
	return false
}
