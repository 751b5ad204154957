package bot

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// convert answers what an amount of a food is in another unit: "how much is 2
// cups of flour", "how many grams in a tablespoon of honey". A unit of weight
// is turned into one of volume by what this kitchen or the tables say of the
// food, never by guess.
func (t *turn) convert(q *language.Question, h found) Reply {
	var l *pantry.Line
	f := h.food
	if len(h.lines) == 1 {
		l, f = h.lines[0], t.ear.foodOf(h.lines[0])
	}
	none := Reply{Kind: Answer, Text: "No figure for that of " + strings.ToLower(q.Food) + " yet."}
	if f == nil && l == nil {
		return Reply{Kind: Silent}
	}
	to := q.To
	unit := measure.Gram
	if to != nil {
		unit = to.To
	} else if q.Amount.Kind == measure.Gram && q.Amount.How == language.Measured && f != nil && f.Unit == measure.Millilitre {
		unit = measure.Millilitre
	}
	if !known(f) && (q.Amount.How == language.Measured && q.Amount.Kind != unit || q.Amount.How == language.Pieces && unit == measure.Millilitre) {
		return none
	}
	base, _, approx, err := t.weigh(draft{Act: pantry.Count, Amount: q.Amount}, l, f, measure.Gram)
	if unit == measure.Millilitre && err == nil {
		if q.Amount.How == language.Measured && q.Amount.Kind == measure.Millilitre {
			base, approx = q.Amount.Base, q.Amount.Approx
		} else {
			base, err = across(base, measure.Gram, f)
		}
	}
	if err != nil {
		return none
	}
	approx = approx || q.Amount.How == language.Measured && q.Amount.Kind != unit
	about := ""
	if approx {
		about = "about "
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%s: %s%s%s.", said(q), about, sayIn(base, unit, to), between(q.Amount, l, f))}
}

// known says whether the tables tell a food's weight from its volume.
func known(f *food.Food) bool { return f != nil && (f.CupMg > 0 || f.TbspMg > 0 || f.Density > 0) }

// said is what was asked about: "2 cups of plain flour", "3 onions".
func said(q *language.Question) string {
	of := " "
	if a := q.Amount; a.Part != "" || a.How == language.Measured && !strings.ContainsFunc(a.Said, unicode.IsDigit) || strings.Contains(a.Said, " ") && a.How == language.Measured {
		of = " of "
	}
	return title(q.Amount.Said + of + strings.ToLower(q.Food))
}

// between gives the weights between which so many pieces lie, where no scales
// have told, or the amounts that a vague measure may be: " (240 g to 540 g)".
func between(a language.Amount, l *pantry.Line, f *food.Food) string {
	if _, own := f.PartMg(a.Unit); a.Vague() && !own {
		return fmt.Sprintf(" (%s to %s)", measure.Say(a.Low, a.Kind), measure.Say(a.High, a.Kind))
	}
	if a.How != language.Pieces || a.Part != "" || a.Size != "" || l != nil && l.Weighed() || f == nil {
		return ""
	}
	low, high := f.PieceSpread()
	low, err1 := a.N.Of(low)
	high, err2 := a.N.Of(high)
	if err1 != nil || err2 != nil {
		return ""
	}
	return fmt.Sprintf(" (%s to %s)", measure.Say(low, measure.Gram), measure.Say(high, measure.Gram))
}

// sayIn gives base units in a unit of a cook's choice: "8.8 ounces".
func sayIn(base measure.Amount, k measure.Kind, u *measure.Unit) string {
	if u == nil || u.Factor == measure.Whole(1000) || u.Factor == measure.Whole(1_000_000) { // g, kg, ml, l
		return measure.Say(base, k)
	}
	name := u.Name[strings.LastIndexByte(u.Name, ' ')+1:] // "metric cup"
	n := float64(base) / u.Factor.Float()
	digits := 1
	if n < 1 {
		digits = 2
	}
	p := math.Pow10(digits)
	s := strconv.FormatFloat(math.Round(n*p)/p, 'f', -1, 64)
	if s == "1" {
		return "1 " + name
	}
	return s + " " + plural(name)
}

// convertBare turns weight into weight and volume into volume, of no food in
// particular. From one to the other there is no way without a food.
func convertBare(q *language.Question) Reply {
	if q.To == nil || q.To.To != q.Amount.Kind {
		return Reply{Kind: Answer, Text: "Of what? Weight and volume meet only in a food: \"how many grams in " + q.Amount.Said + " of flour?\""}
	}
	return Reply{Kind: Answer, Text: title(q.Amount.Said) + " is " + sayIn(q.Amount.Base, q.To.To, q.To) + "."}
}
