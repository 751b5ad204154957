package paper

import (
	"cmp"
	"encoding/csv"
	"strconv"
	"strings"

	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// csvHead names the columns of CSV. Amounts are in the row's unit ("g" or "ml"), _g in grams,
// _portion a portion's, cost in whole units of the currency; a cell of what is not known is empty.
var csvHead = []string{"row", "ingredient", "food", "unit", "ap", "ep", "ap_g", "ep_g", "ap_g_portion", "ep_g_portion", "pieces", "cost", "cost_portion", "cost_known", "logged", "ep_by", "currency"}

// CSV prints a sheet as RFC 4180 has it, with a header: a row "ingredient" for each, heaviest
// first, a row "total", and a row "cooked" where somebody said what it came to, with that as ep.
// What was paid in several currencies has no cost there, "apart" as cost_known, and a row "cost" behind
// it for each of them. What ep_by says: "trim" that was logged came off, "books" have the usual trim of it. Text that a spreadsheet would take for a formula has an apostrophe
// before it.
func CSV(s *account.Sheet, o Options) string {
	if o.Portions > 0 {
		s, _ = Scale(s, o.Portions)
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	rows := [][]string{csvHead}
	var ap, ep float64
	allLogged := true
	for i := range s.Parts {
		p := &s.Parts[i]
		known, cost := "yes", p.Cost
		if p.Unpriced {
			known = "no"
			if cost > 0 {
				known = "part"
			}
		}
		r := []string{"ingredient", cell(name(p.Item)), cell(plain(p.Food)), p.Unit.String(), number(p.AP.Units()), number(p.EP.Units())}
		r = append(r, weights(apGrams(p), p.Grams, s.Portions)...)
		pieces := ""
		if c := counted(p); c > 0 {
			pieces = number(c)
		}
		r = append(r, pieces)
		if len(p.Apart) > 0 {
			known = "apart"
		}
		r = append(r, costs(cost, s.Portions, known)...)
		by := ""
		switch {
		case p.Usual:
			by = "books"
		case p.EP < p.AP:
			by = "trim"
		}
		rows = append(rows, append(r, yes(!p.Unlogged), by, signed(cost, known, cmp.Or(p.Sign, o.Currency))))
		rows = append(rows, pricesApart(cell(name(p.Item)), p.Apart, s.Portions)...)
		ap, ep = ap+apGrams(p), ep+p.Grams
		allLogged = allLogged && !p.Unlogged
	}
	known := "yes"
	if len(s.Unpriced) > 0 {
		known = "no"
		if s.Cost > 0 {
			known = "part"
		}
	}
	if len(s.Apart) > 0 {
		known = "apart"
	}
	sign := o.Currency
	for i := range s.Parts {
		sign = cmp.Or(s.Parts[i].Sign, sign)
	}
	r := append([]string{"total", "", "", "", "", ""}, weights(ap, ep, s.Portions)...)
	r = append(append(r, ""), costs(s.Cost, s.Portions, known)...)
	rows = append(rows, append(r, yes(allLogged), "", signed(s.Cost, known, sign)))
	rows = append(rows, pricesApart("", s.Apart, s.Portions)...)
	if s.Yield > 0 {
		r := []string{"cooked", "", "", s.YieldUnit.String(), "", number(s.Yield.Units()), "", ""}
		if s.YieldUnit == measure.Gram {
			g := weights(0, s.Yield.Units(), s.Portions)
			r = append(r[:6], "", g[1], "", g[3])
		} else {
			r = append(r, "", "")
		}
		rows = append(rows, append(r, "", "", "", "", "", "", ""))
	}
	w.WriteAll(rows) // to memory: no error
	return b.String()
}

func weights(ap, ep float64, portions int) []string {
	if portions < 1 {
		return []string{number(ap), number(ep), "", ""}
	}
	n := float64(portions)
	return []string{number(ap), number(ep), number(ap / n), number(ep / n)}
}

func costs(cost int64, portions int, known string) []string {
	switch {
	case known == "no" || known == "apart":
		return []string{"", "", known}
	case portions < 1:
		return []string{money(cost, ""), "", known}
	}
	return []string{money(cost, ""), money(each(cost, portions), ""), known}
}

// signed is the sign of a cost; "" where there is none.
func signed(cost int64, known, sign string) string {
	if cost == 0 || known == "no" || known == "apart" {
		return ""
	}
	return cell(plain(sign))
}

// pricesApart is a row for what something cost in each currency.
func pricesApart(item string, list []account.Price, portions int) (rows [][]string) {
	for _, p := range list {
		r := []string{"cost", item, "", "", "", "", "", "", "", "", ""}
		r = append(r, costs(p.Cost, portions, "yes")...)
		rows = append(rows, append(r, "", "", cell(plain(p.Sign))))
	}
	return rows
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// number prints to the thousandth, which for grams is what the ledger holds.
func number(f float64) string {
	s := strings.TrimRight(strconv.FormatFloat(f, 'f', 3, 64), "0")
	return strings.TrimSuffix(s, ".")
}

// cell keeps text from being a formula.
func cell(s string) string {
	if s != "" && strings.IndexByte("=+-@", s[0]) >= 0 {
		return "'" + s
	}
	return s
}
