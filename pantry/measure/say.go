package measure

import (
	"math"
	"strconv"
)

// Say gives an amount as a cook would say it: "300 g", "1.2 kg", "45 ml",
// "1.5 l", "2.5 g". Three figures are enough for a kitchen.
func Say(a Amount, k Kind) string {
	small, large := " g", " kg"
	if k == Millilitre {
		small, large = " ml", " l"
	}
	sign := ""
	if a < 0 {
		sign, a = "-", -a
	}
	u := a.Units()
	switch {
	case u >= 999.5:
		return sign + figures(u/1000, 3) + large
	case u >= 9.95 || u == math.Trunc(u):
		return sign + strconv.FormatFloat(math.Round(u), 'f', 0, 64) + small
	case u >= 0.05:
		return sign + strconv.FormatFloat(math.Round(u*10)/10, 'f', -1, 64) + small
	}
	return sign + strconv.FormatFloat(u, 'f', -1, 64) + small
}

// figures formats f to n significant figures without trailing noughts, whole
// numbers in full.
func figures(f float64, n int) string {
	digits := max(0, n-1-int(math.Floor(math.Log10(f))))
	p := math.Pow10(digits)
	return strconv.FormatFloat(math.Round(f*p)/p, 'f', -1, 64)
}

// SayPieces gives thousandths of a piece as a cook would say them: "2", "½",
// "1½", "2.7".
func SayPieces(milli int64) string {
	whole, rest := milli/1000, milli%1000
	for part, sign := range map[int64]string{250: "¼", 333: "⅓", 500: "½", 667: "⅔", 750: "¾"} {
		if rest-part >= -4 && rest-part <= 4 {
			if whole == 0 {
				return sign
			}
			return strconv.FormatInt(whole, 10) + sign
		}
	}
	return strconv.FormatFloat(math.Round(float64(milli)/100)/10, 'f', -1, 64)
}
