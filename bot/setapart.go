package bot

import (
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// setApart leaves of the lines that a phrase may mean those of which the same is said to be not
// in them, and whose diet they are for: the soy sauce is no gf soy sauce, nor the other way round.
// Of what was made here the same holds for its texture. The others are worth asking about.
func (x *ear) setApart(f *found, phrase string) {
	stock, all := food.ApartInStock(phrase), food.SetApart(phrase)
	var same, others []*pantry.Line
	for _, l := range f.lines {
		is := slices.Equal(stock, food.ApartInStock(l.Name)) || l.Made == 0 && slices.Equal(stock, food.ApartInStock(food.WithoutSlaughter(l.Name)))
		if l.Made != 0 {
			is = slices.Equal(all, food.SetApart(l.Name))
		}
		if g := x.foodOf(l); is || g != nil && l.Made == 0 && isCalled(g, phrase) && slices.Equal(stock, food.ApartInStock(g.Name)) {
			same = append(same, l)
		} else {
			others = append(others, l)
		}
	}
	if len(others) == 0 {
		return
	}
	if f.lines = same; len(same) == 0 {
		f.near = others
	}
}

// ownTexture says whether what was made is a line of its own by its texture, and no food that is
// called so as it is bought: "pureed chicken", but not "minced beef" or "mashed potato".
func ownTexture(phrase string, h found) bool {
	if !food.HasTexture(phrase) {
		return false
	}
	return h.food == nil || !isCalled(h.food, phrase) && !planner.IsCooked(h.food, phrase)
}

// isPartOf says whether a phrase is no more than some words of the name that was found for it: what was
// made and is called sauce is no Worcestershire sauce.
func isPartOf(phrase string, h found) bool {
	if h.exact || h.named == "" {
		return false
	}
	whole, said := strings.Fields(key(strings.ToLower(h.named))), strings.Fields(key(strings.ToLower(phrase)))
	return len(said) < len(whole) && !slices.ContainsFunc(said, func(w string) bool { return !slices.Contains(whole, w) })
}

// intoMade is the name under which what is made stands.
func (t *turn) intoMade(phrase string) string {
	h := t.ear.find(phrase)
	if ownTexture(phrase, h) || isPartOf(phrase, h) {
		return singular(strings.ToLower(phrase))
	}
	return t.ear.lineName(phrase, h)
}

// madeInto leaves of the lines that a name may mean those into which what was made by that name
// may come: custard that was made is not the instant custard that went in.
func (t *turn) madeInto(phrase string, lines []*pantry.Line) (list []*pantry.Line) {
	name := t.intoMade(phrase)
	for _, l := range lines {
		f := t.ear.foodOf(l)
		own := key(l.Name) == key(phrase) || l.Name == name
		if !own && l.Made == 0 && (isFlesh(f, l.Name) || t.drawsOn(l)) { // keema is no mince, though mince is called so as well
			continue
		}
		if own || f != nil && isCalled(f, phrase) {
			list = append(list, l)
		}
	}
	return list
}

// drawsOn says whether the message has drawn on a line so far.
func (t *turn) drawsOn(l *pantry.Line) bool {
	return slices.ContainsFunc(t.ready, func(e pantry.Entry) bool { return e.Line == l.ID && e.Act == pantry.Use })
}
