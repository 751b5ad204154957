package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// isBone says whether a word is one for bones.
func isBone(word string) bool {
	_, ok := cutWords()["bone"][food.Fold(strings.ToLower(word))]
	return ok
}

// boneUsed makes a use of bones one of what came off: a joint that is on hand is not drawn for them. Bones that came
// in or were kept are a line of their own, and else it is told that nothing was drawn.
func (t *turn) boneUsed(d *draft) {
	off, name := food.Fold(strings.ToLower(d.Off)), strings.ToLower(d.Food)
	var kept, cameOff []*pantry.Line
	for _, l := range t.k.Lines {
		if lastWord(l.Name) == off && l.OnHand() > 0 && (name == "" || fitsName(l.Name, name)) {
			kept = append(kept, l)
		}
		if name == "" && l.Trimmed >= d.Amount.Base && l.Trimmed > 0 && t.isRaw(l) {
			if _, ok := trimming(t.ear.foodOf(l), off); ok {
				cameOff = append(cameOff, l)
			}
		}
	}
	if name != "" {
		for _, l := range t.ear.find(d.Food).lines {
			if t.isRaw(l) {
				cameOff = append(cameOff, l)
			}
		}
	}
	switch {
	case len(kept) == 1:
		d.Food, d.Line, d.Off = kept[0].Name, kept[0].ID, ""
	case len(kept) > 1:
		d.Food, d.Off = off, ""
		for _, l := range kept {
			d.Among = append(d.Among, l.ID)
		}
	case len(cameOff) == 1 && d.Amount.How == language.Measured:
		d.Line, d.Trim, d.Food = cameOff[0].ID, true, cameOff[0].Name
	default:
		what := strings.Join(strings.Fields(strings.ToLower(d.Amount.Said+" "+name+" "+d.Off)), " ")
		d.Tell = fmt.Sprintf("Nothing drawn for the %s: what comes off a joint is drawn with it. Bones that are bought come in first, like \"got 3kg chicken bones\".", what)
	}
}

// keptForStock says whether what came off is said to be for stock: "3kg bones for stock".
func keptForStock(said, off string) bool {
	i := strings.Index(strings.ToLower(said), strings.ToLower(off))
	if i < 0 {
		return false
	}
	rest := strings.ToLower(strings.TrimLeft(said[i+len(off):], " "))
	for _, w := range []string{"for stock", "for the stock", "for a stock", "for stocks", "for the stockpot"} {
		if strings.HasPrefix(rest, w) {
			return true
		}
	}
	return false
}
