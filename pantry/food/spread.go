package food

import "scullion/pantry/measure"

// Where no small and large one are known, one of a food weighs up to a quarter
// less or a third more than the usual one: common practice, no source.
var (
	smallOne = measure.Ratio{Num: 3, Den: 4}
	largeOne = measure.Ratio{Num: 4, Den: 3}
)

// Size is how big a piece is.
type Size string

// The sizes that cooks tell apart; "" is none in particular.
const (
	Small  Size = "small"
	Medium Size = "medium"
	Large  Size = "large"
)

// PieceOf is the weight of one piece of that size, as purchased; 0 where the
// food is not counted.
func (f *Food) PieceOf(s Size) measure.Amount {
	switch {
	case s == Small && f.SmallMg > 0:
		return f.SmallMg
	case s == Large && f.LargeMg > 0:
		return f.LargeMg
	}
	return Sized(f.PieceMg, s, nil)
}

// Sized is the weight of a small or large one where a kitchen's usual one
// weighs so much, in the proportion that f, which may be nil, has.
func Sized(piece measure.Amount, s Size, f *Food) measure.Amount {
	r := measure.Whole(1)
	switch {
	case s == Small && f != nil && f.PieceMg > 0 && f.SmallMg > 0:
		r = measure.Ratio{Num: int64(f.SmallMg), Den: int64(f.PieceMg)}
	case s == Large && f != nil && f.PieceMg > 0 && f.LargeMg > 0:
		r = measure.Ratio{Num: int64(f.LargeMg), Den: int64(f.PieceMg)}
	case s == Small:
		r = smallOne
	case s == Large:
		r = largeOne
	}
	mg, err := r.Of(piece)
	if err != nil {
		return piece
	}
	return mg
}

// PieceSpread gives the weights between which one piece usually lies: from a
// small one to a large one.
func (f *Food) PieceSpread() (low, high measure.Amount) {
	return min(f.PieceOf(Small), f.PieceMg), max(f.PieceOf(Large), f.PieceMg)
}

// PartMg is the weight of one part of the food: a clove, a handful. It is not
// ok where the table has none of that name. A nil food has no parts.
func (f *Food) PartMg(name string) (mg measure.Amount, ok bool) {
	if f == nil {
		return 0, false
	}
	for _, p := range f.Parts {
		if p.Name == name {
			return p.Mg, true
		}
	}
	return 0, false
}
