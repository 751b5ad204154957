package paper

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// plain makes one line of what somebody typed, without characters that do not print or that
// turn the line round.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == utf8.RuneError || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Cs):
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

func num(n int) string { return strconv.Itoa(n) }

func portions(n int) string {
	if n == 1 {
		return "1 portion"
	}
	return num(n) + " portions"
}

// both joins words as a list is said: "a", "a and b", "a, b and c".
func both(list []string) string {
	n := len(list) - 1
	if n < 1 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:n], ", ") + " and " + list[n]
}

func plainAll(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = name(s)
	}
	return out
}

// name is what an item is called on paper, never nothing.
func name(s string) string { return cmp.Or(plain(s), "something without a name") }

// money says what something costs. A sign of letters stands apart: "EUR 2.40".
func money(cost int64, sign string) string {
	if r, _ := utf8.DecodeLastRuneInString(sign); unicode.IsLetter(r) {
		sign += " "
	}
	minus := ""
	if cost < 0 {
		minus, cost = "-", -cost
	}
	return fmt.Sprintf("%s%s%d.%02d", minus, sign, cost/100, cost%100)
}

// grams says a weight that is known in grams.
func grams(g float64) string { return measure.Say(amount(g), measure.Gram) }

// amount gives the mg of grams.
func amount(g float64) measure.Amount { return measure.Amount(math.Round(g * 1000)) }

// place gives the place whose clock a sheet shows.
func place(o Options) *time.Location {
	if o.Place == nil {
		return time.UTC
	}
	return o.Place
}

const dayForm = "Monday 2 January 2006"

// made says when and by whom a dish was cooked.
func made(s *account.Sheet, o Options) string {
	var names []string
	for _, c := range s.Cooks {
		names = append(names, cmp.Or(plain(o.Names[c]), name(c)))
	}
	by := ""
	if len(names) > 0 {
		by = ", by " + both(names)
	}
	switch {
	case !s.Cooked.IsZero():
		return "Cooked " + s.Cooked.In(place(o)).Format(dayForm+", 15:04") + by + "."
	case by != "":
		return "Cooked" + strings.TrimPrefix(by, ",") + "."
	}
	return "Planned, and nothing of it logged yet."
}

// steps says what was done when. A day is named where it is another than the one before.
func (v *view) steps(s *account.Sheet, o Options) {
	day := ""
	if !s.Cooked.IsZero() {
		day = s.Cooked.In(place(o)).Format(dayForm)
	}
	for _, x := range s.Steps {
		t := step{Do: name(x.Do), Planned: !x.Logged}
		if x.Minutes > 0 {
			t.Do += ", " + num(x.Minutes) + " min"
		}
		if at := x.At.In(place(o)); !x.At.IsZero() {
			t.At = at.Format("15:04")
			if d := at.Format(dayForm); d != day {
				day, t.At = d, at.Format("2 Jan 15:04")
			}
		}
		v.Steps = append(v.Steps, t)
	}
}

// money says what the dish costs, and what has no cost.
func (v *view) money(s *account.Sheet, o Options) {
	left := ""
	if len(s.Unpriced) > 0 {
		left = "no cost known for " + both(plainAll(s.Unpriced)) + "."
	}
	if s.Cost == 0 && len(s.Apart) == 0 {
		v.Cost = "No cost known."
		if left != "" {
			v.Cost = capital(left)
		}
		return
	}
	v.Cost = prices(s, o, 1)
	if s.Portions > 0 {
		v.Cost += ", " + prices(s, o, s.Portions) + " a portion"
	}
	if left == "" {
		v.Cost += "."
		return
	}
	v.Cost = "At least " + v.Cost + ": " + left
}

// prices says what one of so many parts of a dish costs: "£2.40", "£1.20 and $0.80".
func prices(s *account.Sheet, o Options, parts int) string {
	sign := o.Currency
	for i := range s.Parts {
		sign = cmp.Or(s.Parts[i].Sign, sign)
	}
	return eachPrice(s.Cost, s.Apart, sign, parts)
}

// eachPrice says what one of so many parts costs of what has a cost, or several in their currencies.
func eachPrice(cost int64, apart []account.Price, sign string, parts int) string {
	if len(apart) == 0 {
		return money(each(cost, parts), sign)
	}
	var list []string
	for _, p := range apart {
		list = append(list, money(each(p.Cost, parts), p.Sign))
	}
	return both(list)
}

// each gives a portion's share, rounded half up.
func each(n int64, portions int) int64 { return int64(math.Round(float64(n) / float64(portions))) }

// diet says whether a dish is fit, and why not.
func diet(name string, d account.Diet, parts int) string {
	switch {
	case parts == 0:
		return name + ": nothing is in it yet."
	case d.Fit == "yes":
		return name + ": yes, by what is logged; check labels."
	case len(d.Why) == 0:
		return name + ": " + cmp.Or(plain(d.Fit), "check label") + "."
	}
	return name + ": " + cmp.Or(plain(d.Fit), "check label") + " (" + both(plainAll(d.Why)) + ")."
}
