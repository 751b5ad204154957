package bot

import (
	"fmt"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// onScales makes of an amount at the scales what they must have shown. A number without a unit is of
// pieces only where those are counted; else of kilograms (litres) or grams (millilitres), whichever is
// nearer to the record. Not ok where none is plausible.
func (t *turn) onScales(a language.Amount, l *pantry.Line) (language.Amount, bool) {
	if a.How != language.Pieces || a.Part != "" {
		return a, true
	}
	have := l.OnHand()
	whole := a.N.Num%a.N.Den == 0
	if one, err := a.N.Of(max(1, l.PieceMg())); l.Pieces() > 0 && whole && err == nil && one <= tooMuch*have {
		return a, true
	}
	best := language.Amount{}
	for _, unit := range []measure.Amount{1000, 1_000_000} {
		base, err := a.N.Of(unit)
		if err != nil || base > tooMuch*have || unit == 1000 && (!whole || base < smallestBare*1000) {
			continue
		}
		best = language.Amount{How: language.Measured, Kind: l.Unit, Base: base, Said: a.Said, Approx: a.Approx} // the larger is the nearer
	}
	if best.How != language.Measured && l.Pieces() == 0 && whole && pieceOf(t.ear.foodOf(l)) > 0 {
		one, err := a.N.Of(pieceOf(t.ear.foodOf(l)))
		return a, err == nil && one <= tooMuch*have
	}
	if best.How != language.Measured && (!whole || a.N.Num >= smallestBare*a.N.Den) { // far above the record: that is asked about
		unit := measure.Amount(1000)
		if !whole {
			unit = 1_000_000
		}
		base, err := a.N.Of(unit)
		return language.Amount{How: language.Measured, Kind: l.Unit, Base: base, Said: a.Said, Approx: a.Approx}, err == nil
	}
	return best, best.How == language.Measured
}

func pieceOf(f *food.Food) measure.Amount {
	if f == nil {
		return 0
	}
	return f.PieceMg
}

// leastDrop is how much less than half of the record has to be missing for it to be asked about. The
// program's own judgement, no source.
const leastDrop = 500_000

// unlikely says whether a weight is so far from the record that it is asked about first: far above
// it, or more than half of a good deal gone.
func unlikely(a, record measure.Amount) bool {
	return a > tooMuch*record || a > 0 && 2*a < record && record-a > leastDrop
}

// unweighed asks again where nobody can tell how much was meant: "2 tubs", "4.5" of what is no 4.5 kg.
func (t *turn) unweighed(q *pending, a language.Amount) Reply {
	text := fmt.Sprintf("%s of %s? Say it with its unit, like \"1.2kg\".", a.Said, q.About)
	if a.Part != "" {
		text = fmt.Sprintf("Nobody has said what a %s of %s holds. Say all that is there in grams or millilitres, like \"1.2kg\".", a.Part, q.About)
	}
	return Reply{Kind: Asking, Text: text, Ask: &Ask{About: q.About, Options: []string{}}}
}
