package bot

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// binnedIn tells what was thrown away: in this service, or in the one that was wrapped up last; in
// those of today, of the last seven days, or of yesterday, as far as they were wrapped up by themselves.
func (t *turn) binnedIn(q *language.Question) (Reply, error) {
	x, list, err := t.wraps()
	if err != nil {
		return Reply{}, err
	}
	place := t.m.At.Location()
	day := time.Date(t.m.At.Year(), t.m.At.Month(), t.m.At.Day(), 0, 0, 0, 0, place)
	var at []int // of the accounts that are meant
	when := "in this service"
	switch q.About {
	case language.AboutBin:
		if w := Latest(list); w != nil {
			at = append(at, slices.Index(list, w))
		}
	case language.AboutBinYesterday:
		at, when = accountsOf(list, day.AddDate(0, 0, -1), day), "yesterday"
		if last := len(at) - 1; last > 0 && list[at[last]].Until == nil { // today is in that too
			at = at[:last]
		}
	case language.AboutBinWeek:
		at, when = accountsOf(list, day.AddDate(0, 0, -6), time.Time{}), "in the last 7 days"
	default:
		at, when = accountsOf(list, day, time.Time{}), "today"
	}
	text := sayBinnedIn(apart(x, list), at)
	if text == "" {
		return Reply{Kind: Answer, Text: "Nothing was binned " + when + ", as far as anybody said."}, nil
	}
	if open := at[len(at)-1]; q.About == language.AboutBinYesterday && list[open].Until == nil {
		text = "Since the last wrap-up, today with it: " + text
	}
	if len(at) > 1 {
		text = title(when) + ", " + counted1(len(at), "service", "services") + ":\n" + text
	}
	return Reply{Kind: Answer, Text: text}, nil
}

// accountsOf gives the places of the accounts in which something happened from a day on, which had
// begun before another; the zero time sets no end.
func accountsOf(list []*Wrap, from, before time.Time) (at []int) {
	for i, w := range list {
		p := w.period
		begun := before.IsZero() || p.Since.IsZero() || p.Since.Before(before)
		if w.happened() && begun && (p.Until.IsZero() || !p.Until.Before(from)) {
			at = append(at, i)
		}
	}
	return at
}

// sayBinnedIn tells what was binned in some accounts, the heaviest first: "Soup 750 g, £1.25." It is ""
// where nothing was.
func sayBinnedIn(m *money, at []int) string {
	type binned struct {
		line *pantry.Line
		sum  measure.Amount
	}
	var all []binned
	trim := int64(0)
	for _, i := range at {
		trim += m.list[i].total.Trim.AP
		for _, a := range m.list[i].binned(m.x) {
			n := slices.IndexFunc(all, func(o binned) bool { return o.line.ID == a.ID })
			if n < 0 {
				n, all = len(all), append(all, binned{line: m.x.Kitchen.Line(a.ID)})
			}
			all[n].sum += a.Binned.Amount
		}
	}
	slices.SortStableFunc(all, func(a, b binned) int { return cmp.Compare(b.sum, a.sum) })
	cost := func(want func(*pantry.Line) bool) string {
		var signs []string
		for _, p := range m.purses {
			sum := int64(0)
			for _, i := range at {
				for _, a := range p.list[i].period.Lines {
					if l := m.x.Kitchen.Line(a.ID); want(l) && l.Shelf != food.Cupboard {
						sum += a.Binned.Cost
					}
				}
			}
			if sum != 0 {
				signs = append(signs, sayPrice(p.sign, sum))
			}
		}
		return both(signs, "and")
	}
	var lines []string
	for _, o := range all[:min(len(all), mostPast)] {
		text := title(o.line.Name) + " " + measure.Say(o.sum, o.line.Unit)
		if s := cost(func(l *pantry.Line) bool { return l == o.line }); s != "" {
			text += ", " + s
		}
		lines = append(lines, text+".")
	}
	if more := len(all) - len(lines); more > 0 {
		lines = append(lines, counted1(more, "food", "foods")+" more.")
	}
	if s := cost(func(*pantry.Line) bool { return true }); s != "" && len(all) > 1 {
		lines = append(lines, "In all "+s+".")
	}
	if trim > 0 {
		lines = append(lines, "Trim besides: "+sayMg(trim)+".")
	}
	return strings.Join(lines, "\n")
}
