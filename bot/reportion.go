package bot

import (
	"slices"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// reportioned weighs again what was put by, binned or given away of a dish and told in portions, where a portion is
// another now: for how many the dish was, or what it came to, was told later. It gives the entries that changed, and
// says what they are: "Stew 4 portions: 1.56 kg, it was 3.11 kg." Why is Corrected, or Restored where that was taken back.
func (t *turn) reportioned(dish, why string) (told []string, changed []Entry, err error) {
	l := potLine(t.k, dish)
	if l == nil || l.Made == 0 {
		return nil, nil, nil
	}
	x, list, err := t.wraps()
	if err != nil {
		return nil, nil, err
	}
	w := latestWith(list, dish)
	if w == nil {
		return nil, nil, nil
	}
	s, err := x.Sheet(w, dish)
	if err != nil || s.Portions == 0 {
		return nil, nil, err
	}
	var of []int64
	made := false
	err = t.book.Between(w.period.From, t.said.N, func(p pantry.Placed) error {
		made = made || p.Line == l.ID && p.Act == pantry.Make && p.Dish == dish
		if made && p.Line == l.ID && sayPortions(p.Entry) != "" && !slices.Contains(of, p.N) {
			of = append(of, p.N)
		}
		return nil
	})
	for _, n := range of {
		m, err := t.book.Heard("", &pantry.Message{N: n + 1})
		if err != nil || m == nil {
			return told, changed, err
		}
		text, now, err := t.reportion(m, l, s, why)
		if err != nil {
			return told, changed, err
		}
		told, changed = append(told, text...), append(changed, now...)
	}
	return told, changed, err
}

// latestWith gives the latest account in which a dish was made; nil none.
func latestWith(list []*Wrap, dish string) *Wrap {
	for _, w := range slices.Backward(list) {
		if slices.ContainsFunc(w.Dishes, func(d WrapDish) bool { return d.Name == dish }) {
			return w
		}
	}
	return nil
}

// reportion is reportioned of one message.
func (t *turn) reportion(m *pantry.Message, l *pantry.Line, s *account.Sheet, why string) (told []string, changed []Entry, err error) {
	entries, err := t.book.InForce(m)
	if err != nil {
		return nil, nil, err
	}
	passes := false
	for i := range entries {
		e := &entries[i]
		n, _ := strconv.Atoi(strings.Split(e.Said, " ")[0])
		if e.Line != l.ID || sayPortions(*e) == "" || !saysNumber(m.Text, n) { // of "all the stew" the portions are reckoned
			continue
		}
		a, ok := partOf(s, &language.Question{N: n})
		if !ok || a.Kind != l.Unit || a.Base == e.Amount {
			continue
		}
		was := e.Amount
		if !passes { // what passes the pot at once is told as what became of it
			passes = isPassing(entries, i)
		} else {
			passes = false
		}
		if e.Amount = a.Base; passes {
			continue
		}
		told = append(told, title(l.Name)+" "+e.Said+": "+measure.Say(e.Amount, l.Unit)+", it was "+measure.Say(was, l.Unit)+".")
		changed = append(changed, t.show(*e))
	}
	if len(told) == 0 {
		return nil, nil, nil
	}
	t.unsaid = append(t.unsaid, m.ID)
	t.touch(m)
	_, err = t.book.Revise(m, t.said, why, entries)
	return told, changed, err
}

// saysNumber says whether a text has a number in it, in digits or as a word.
func saysNumber(text string, n int) bool {
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return (r < '0' || r > '9') && (r < 'a' || r > 'z') }), func(w string) bool {
		return w == strconv.Itoa(n) || wordNumbers[w] == n && n > 0
	})
}

// withPortions adds to an answer what of a dish was told in portions and weighs otherwise now.
func (t *turn) withPortions(r Reply, dish, why string) (Reply, error) {
	told, changed, err := t.reportioned(dish, why)
	if len(told) > 0 {
		r.Kind, r.Entries = Log, changed
		r.Text += "\n" + strings.Join(told, "\n")
	}
	return r, err
}
