package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// catering is the size of a tin as caterers buy them: an A10.
const catering food.Size = "catering"

// packCame is what one pack of a line holds, by how what is still here came in: the tin of "6 x 2.5kg
// tins". Of several sizes, "big" is the largest and "small" the smallest. 0 where it came in no such
// packs; errNoWeight where nobody can tell which size is meant.
func (t *turn) packCame(a language.Amount, l *pantry.Line) (one measure.Amount, err error) {
	if l == nil || !language.IsPack(a.Part) {
		return 0, nil
	}
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	if err != nil {
		return 0, err
	}
	var came measure.Amount
	var sizes []measure.Amount
	for n, e := range slices.Backward(entries) {
		if e.Act == pantry.Make && e.Pieces > 0 && e.Piece == a.Part && len(sizes) == 0 { // of "made 4 trays of cottage pie", each the same
			return measure.Ratio{Num: 1000, Den: e.Pieces}.Of(e.Amount)
		}
		if e.Act != pantry.Receive || e.Amount == 0 {
			continue
		}
		together := n+1 < len(entries) && entries[n+1].At.Equal(e.At) && entries[n+1].Act == e.Act // of one delivery none goes first
		if came > 0 && came >= l.OnHand() && a.Size == "" && !together {
			break
		}
		came += e.Amount
		if size := t.packSize(e, a.Part, l.Unit); size > 0 && !slices.Contains(sizes, size) {
			sizes = append(sizes, size)
		}
	}
	size := food.Size(a.Size)
	switch {
	case len(sizes) == 0:
		return 0, nil
	case size == food.Large || size == catering:
		one = slices.Max(sizes)
	case size == food.Small || len(sizes) == 1:
		one = slices.Min(sizes)
	default:
		return 0, errNoWeight
	}
	return one, nil
}

// packSize is what one pack of a delivery held, by what was said of it; 0 where that was of no such packs.
func (t *turn) packSize(e pantry.Entry, pack string, unit measure.Kind) measure.Amount {
	if e.Piece == pack && e.Pieces > 0 {
		return e.Lot.PieceMg
	}
	said := t.reader().Answer(e.Said).Amount
	if said.Pack != pack || said.How != language.Measured || said.Kind != unit || said.Count.Num == 0 {
		return 0
	}
	one, err := measure.Ratio{Num: said.Count.Den, Den: said.Count.Num}.Of(said.Base)
	if err != nil {
		return 0
	}
	return one
}

// kindsOf gives the lines on hand whose names end in that of a food: of tomatoes, the tinned and the
// chopped ones.
func (t *turn) kindsOf(phrase string) (list []*pantry.Line) {
	for _, l := range t.k.Lines {
		if l.OnHand() > 0 && strings.HasSuffix(key(l.Name), " "+key(phrase)) {
			list = append(list, l)
		}
	}
	return list
}
