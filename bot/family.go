package bot

import (
	"fmt"
	"slices"

	"scullion/pantry"
	"scullion/pantry/food"
)

// families are the groups of the catalogue in which what is called by the plain name of its family
// is another thing to cook, to date and to cost than one cut or sort of it: chicken is no chicken thigh.
var families = []string{"poultry", "meat", "offal", "cured meat", "fish", "cheese"}

// isCutOf says whether a line is one cut or sort of what a phrase calls by the name of its family alone.
func (x *ear) isCutOf(l *pantry.Line, phrase string) bool {
	f := x.foodOf(l)
	if usual, ok := x.all.Food(phrase); !ok || isCalled(usual, phrase) {
		return false
	}
	if f == nil || l.Made > 0 || !slices.Contains(families, f.Group) || isCalled(f, phrase) {
		return false
	}
	want := key(phrase)
	same := func(name string) bool { return key(name) == want }
	return !same(l.Name) && slices.ContainsFunc(f.General, same) && !slices.ContainsFunc(taughtFor(x.k, l), same)
}

// notCuts leaves of the lines that a phrase may mean those into which a delivery under that name may
// come, and the food that is usually called so where none is left.
func (x *ear) notCuts(lines []*pantry.Line, phrase string) ([]*pantry.Line, *food.Food) {
	kept := slices.DeleteFunc(slices.Clone(lines), func(l *pantry.Line) bool {
		return x.isCutOf(l, phrase) || l.Made > 0 && l.Received == 0 && isCut(l.Name) && key(l.Name) != key(phrase) // nor into what was cut here
	})
	if len(kept) == len(lines) || len(kept) > 0 {
		return kept, nil
	}
	f, _ := x.all.Food(phrase)
	for _, l := range x.k.Lines { // the chickens that came before have all been cut up
		if l.Received > 0 && f != nil && x.foodOf(l) == f && unwhole(l.Name) == unwhole(phrase) {
			kept = append(kept, l)
		}
	}
	return kept, f
}

// orCuts gives what may be meant by a phrase for a line that has nothing left: the cuts on hand as well
// where they are called so, and those alone where nothing ever came in by the plain name.
func (x *ear) orCuts(l *pantry.Line, phrase string) (list []*pantry.Line) {
	list = append(list, l)
	if l.OnHand() > 0 || key(l.Name) != key(phrase) {
		return list
	}
	for _, o := range x.k.Lines {
		if o.OnHand() > 0 && x.isCutOf(o, phrase) {
			list = append(list, o)
		}
	}
	if len(list) > 1 && l.Received == 0 && l.Made == 0 { // it was said wrongly and taken back
		return list[1:]
	}
	return list
}

// besideCuts says of a delivery under the plain name of a family that it stands beside the cuts on hand.
func (t *turn) besideCuts(e pantry.Entry, l *pantry.Line) string {
	if e.Act != pantry.Receive || e.Pieces != 0 || l.OnHand() != e.Amount || len(l.Lots) > 1 {
		return ""
	}
	var names []string
	for _, o := range t.k.Lines {
		if o != l && o.OnHand() > 0 && t.ear.isCutOf(o, l.Name) {
			names = append(names, o.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf(` A line of its own beside the %s: "I meant %s" if it is that.`, both(names, "and"), names[0])
}
