package bot

import (
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
)

// Which dish, or line of one, words mean.

// cooked gives the dish that words name and what went into it, if that was made lately; "" where
// none was.
func (t *turn) cooked(said string) (dish string, in []pantry.Entry, err error) {
	if said == "" || len(t.k.Dishes) == 0 {
		return "", nil, nil
	}
	dish = t.dishNow(strings.ToLower(said))
	if !slices.Contains(t.k.Dishes, dish) { // of yesterday
		dish = t.dish(strings.ToLower(said))
	}
	if !slices.Contains(t.k.Dishes, dish) {
		if dish, err = t.dishBegins(strings.ToLower(said)); err != nil || dish == "" {
			return "", nil, err
		}
	}
	all, err := t.book.IntoDish(dish, t.said.At.Add(-pantry.LeftOver))
	for _, e := range all {
		if e.Act == pantry.Use {
			in = append(in, e)
		}
	}
	if len(in) == 0 {
		dish = ""
	}
	return dish, in, err
}

// cookedSince says whether a dish was cooked again since what was left of it was put by last.
func (t *turn) cookedSince(l *pantry.Line, dish string) (bool, error) {
	_, in, err := t.cooked(dish)
	if err != nil || len(in) == 0 {
		return false, err
	}
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	for _, e := range slices.Backward(entries) {
		if e.Act == pantry.Make {
			return slices.ContainsFunc(in, func(u pantry.Entry) bool { return u.At.After(e.At) && u.Line != l.ID }), err
		}
	}
	return true, err
}

// fromPot gives the dish that words mean which was cooked lately and is not put by; "" none.
func (t *turn) fromPot(said string) (string, error) {
	dish, _, err := t.cooked(said)
	if err != nil || dish == "" {
		return "", err
	}
	if h := t.ear.find(said); h.exact && potLine(t.k, dish) == nil && len(h.lines) > 0 {
		return "", nil // the food of that name
	}
	l := potLine(t.k, dish)
	if l == nil || l.OnHand() == 0 {
		return dish, nil
	}
	anew, err := t.cookedSince(l, dish)
	if !anew {
		dish = ""
	}
	return dish, err
}

// sheetOf gives the latest sheet of a dish; nil where it was not made.
func (t *turn) sheetOf(dish string) (*account.Sheet, error) {
	x, list, err := t.wraps()
	if err != nil {
		return nil, err
	}
	for back := 0; ; back++ {
		w := WithDishes(list, back)
		if w == nil {
			return nil, nil
		}
		for _, d := range w.Dishes {
			if d.Name == dish {
				return x.Sheet(w, dish)
			}
		}
	}
}

// isStock says whether a dish of a period is a line that was made, as stock and pastry are: it is
// for nobody in particular.
func (x *Records) isStock(p *account.Period, dish string) bool {
	l := potLine(x.Kitchen, dish)
	return l != nil && slices.ContainsFunc(p.Lines, func(a account.Line) bool { return a.ID == l.ID && a.Stock })
}

// madeCalled gives the one line of what was made here, or of what no table knows, that is on hand
// and is called so for short: "the tart" for the leek tart; nil none, or several.
func (t *turn) madeCalled(said string) (found *pantry.Line) {
	said = strings.ToLower(said)
	for _, l := range t.k.Lines {
		if l.Made == 0 && t.ear.foodOf(l) != nil || l.OnHand() == 0 || !strings.HasSuffix(l.Name, " "+said) && !strings.HasSuffix(l.Name, " "+singular(said)) || !slices.Equal(food.SetApart(l.Name), food.SetApart(said)) {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}

// namesMade is a quick look for the first or the last word of a dish.
func (t *turn) namesMade(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(t.k.Dishes, func(dish string) bool {
		first, _, _ := strings.Cut(dish, " ")
		last := lastWord(dish)
		return strings.Contains(text, last) || strings.Contains(text, singular(last)) || strings.Contains(text, first) || last == "meal" // that is called by other words as well
	})
}

// standsByPiece says whether a line that was made is on hand by the piece.
func (t *turn) standsByPiece(said string) bool {
	l := t.k.Named(singular(strings.ToLower(said)))
	if l == nil {
		l = t.madeCalled(said)
	}
	return l != nil && l.OnHand() > 0 && l.Made > 0 && l.PieceMg() > 0
}

// namesPieces is a quick look for the last word of food that stands by the piece, or was made.
func (t *turn) namesPieces(text string) bool {
	return slices.ContainsFunc(t.k.Lines, func(l *pantry.Line) bool {
		if l.OnHand() == 0 || l.Made == 0 && l.PieceMg() == 0 {
			return false
		}
		last := lastWord(l.Name)
		return strings.Contains(text, last) || strings.Contains(text, plural(last))
	})
}
