package bot

import (
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// packCame is what one pack of a line holds, by how what is still here came in: the tin of "6 x 2.5kg
// tins". 0 where it came in no such packs; errNoWeight where packs of several sizes are here.
func (t *turn) packCame(a language.Amount, l *pantry.Line) (one measure.Amount, err error) {
	if l == nil || !language.IsPack(a.Part) {
		return 0, nil
	}
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	if err != nil {
		return 0, err
	}
	var came measure.Amount
	for _, e := range slices.Backward(entries) {
		if e.Act != pantry.Receive || e.Amount == 0 {
			continue
		}
		if came > 0 && came >= l.OnHand() {
			break
		}
		came += e.Amount
		switch size := t.packSize(e, a.Part, l.Unit); {
		case size == 0:
		case one == 0:
			one = size
		case one != size:
			return 0, errNoWeight
		}
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
