package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// plateWaste is the line of what came back on plates: it is made and thrown in one, so that the account
// has it, and no dish is charged with it.
const plateWaste = "plate waste"

// wholeOneMg is what one of a dish weighs at least that feeds several whole: a cake, a quiche.
const wholeOneMg measure.Amount = 1_000_000

// outOfPot drafts what has to be put by of a dish so that a draft, which bins it or gives it away,
// can draw on it: "binned 500g stew" of a stew that is in no line yet. Nil where no dish is meant; res
// asks, or tells why nothing can be written.
func (t *turn) outOfPot(d *draft) (put *draft, res result, err error) {
	told := func(text string) (*draft, result, error) { return nil, result{tell: text, fault: true}, nil }
	if d.Act == pantry.Bin && d.Food == plateWaste {
		return t.putBy(d, ""), res, nil
	}
	freezes := d.Act == pantry.Count && d.State == food.Frozen
	if d.Line != 0 || d.New != nil || d.Taken || d.Trim || d.State != "" && !freezes || d.Act != pantry.Bin && !freezes && (d.Act != pantry.Use || sayAway(d.Dish) == "") || !t.namesMade(d.Food) {
		return nil, res, nil
	}
	dish, err := d.Food, error(nil)
	if !d.Plate {
		dish, err = t.inPot(d.Food, freezes)
		if err == nil && dish == "" && !freezes {
			dish, err = t.unaccounted(d)
		}
	}
	if err != nil || dish == "" {
		return nil, res, err
	}
	q := language.Question{Amount: d.Amount}
	whole := d.Amount.How == language.Share && d.Amount.N.Num == d.Amount.N.Den
	if d.Amount.How == language.Unsaid || whole && saysRest(d.Amount.Said) { // what was served is known to nobody
		did := map[pantry.Act]string{pantry.Bin: "binned", pantry.Use: "gave", pantry.Count: "froze"}[d.Act]
		return told(askWeight(dish, did))
	}
	if d.Amount.How == language.Pieces && d.Amount.Part == "" && food.Piece(d.Food) >= wholeOneMg { // "binned one pavlova" is no portion of it
		did := map[pantry.Act]string{pantry.Bin: "binned", pantry.Use: "gave", pantry.Count: "froze"}[d.Act]
		return told(askWeight(dish, did))
	}
	if d.Amount.How == language.Pieces && (d.Amount.Part == "portion" || d.Amount.Part == "") && d.Amount.N.Den == 1 { // 6 of a dish are 6 portions
		q.N, q.Amount = int(d.Amount.N.Num), language.Amount{}
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return nil, res, err
	}
	if q.N > 0 && s.Portions == 0 {
		return told(askPortions(dish))
	}
	a, ok := partOf(s, &q)
	if !ok {
		return nil, res, nil
	}
	if whole || q.N > 0 {
		left, heads, err := t.inPotStill(s)
		switch {
		case err != nil:
			return nil, res, err
		case left <= 0:
			return told("Nothing of the " + dish + " is left, as far as anybody said.")
		case q.N > heads:
			return told(fmt.Sprintf(`%s? The %s %s for %d, and %d can be left. Say how many, or mend that first: "the %s %s for %d".`, counted1(q.N, "portion", "portions"), dish, was(dish), s.Portions, heads, dish, was(dish), s.Portions-heads+q.N))
		case whole:
			a.Base, a.Said = left, counted1(heads, "portion", "portions")
			t.note = fmt.Sprintf(`That is all the %s there was, by what went in. Was some eaten? "make that 600g".`, dish)
		}
	}
	asked := d.Amount
	d.Food, d.Amount = dish, a
	if asked.How == language.Measured && !d.Yes && !d.Plate {
		if res.ask, err = t.overPot(d, s, 0); res.ask != nil || err != nil {
			return nil, res, err
		}
	}
	return t.putBy(d, dish), res, nil
}

// askWeight asks how much of a dish was binned, given away or frozen.
func askWeight(dish, did string) string {
	return fmt.Sprintf(`How much %s was that? Weigh it, or tell the portions: "%s 600g %s", "%s 2 portions of %s".`, dish, did, dish, did, dish)
}

// askPortions asks what portions of a dish weigh.
func askPortions(dish string) string {
	return fmt.Sprintf(`How much is that? Weigh it, or say first for how many it was: "the %s %s for 6".`, dish, was(dish))
}

// putBy drafts that as much as a draft is of is made first: of a dish, or of nothing that is known.
func (t *turn) putBy(d *draft, dish string) *draft {
	put := &draft{Act: pantry.Make, Food: d.Food, Amount: d.Amount, Dish: dish, Day: t.day(), Who: d.Who}
	if l := potLine(t.k, d.Food); l != nil {
		put.Line = l.ID
	} else {
		put.New = &newLine{Name: potName(d.Food), Unit: d.Amount.Kind.String()}
	}
	return put
}

// turnedDish writes that something of a dish was frozen or thawed, or what was made up raw cooked. Done is false where none is meant that
// was put by, or of which there is some in the pot.
func (t *turn) turnedDish(q *language.Question, state food.State, thawed bool, why string) (r Reply, done bool, err error) {
	d := draft{Act: pantry.Count, Food: q.Food, State: state, Amount: q.Amount, Day: t.day(), Thawed: thawed}
	l := t.madeCalled(q.Food)
	for _, name := range []string{strings.ToLower(q.Food), singular(strings.ToLower(q.Food))} {
		if named := t.k.Named(name); named != nil {
			l = named
			break
		}
	}
	if state == food.Cooked {
		if l == nil {
			l = potLine(t.k, strings.ToLower(q.Food))
		}
		if l == nil || !isMadeRaw(l) {
			return r, false, nil
		}
		d.Food, d.Line = l.Name, l.ID
		r, err = t.write([]draft{d}, why)
		return r, r.Kind != Silent, err
	}
	dish, err := t.inPot(q.Food, state == food.Frozen)
	switch {
	case err != nil:
		return r, false, err
	case l != nil && (hasThawed(l) || thawed && l.Made > 0) && state == food.Frozen: // it is not frozen again
		d.Food, d.Line = l.Name, l.ID
	case dish != "" && state == food.Frozen:
		if d.Food = dish; q.N > 0 {
			d.Amount = portions(q.N)
		}
	case l == nil || q.N > 0 || t.ear.find(q.Food).exact: // that is read as of any food
		return r, false, nil
	default:
		d.Food, d.Line = l.Name, l.ID
	}
	r, err = t.write([]draft{d}, why)
	return r, r.Kind != Silent, err
}

// hasThawed says whether some of a line was thawed.
func hasThawed(l *pantry.Line) bool {
	thawed, _ := l.In(food.Thawed)
	return thawed > 0
}

// isMadeRaw says whether some of a line is on hand that was made up raw.
func isMadeRaw(l *pantry.Line) bool {
	raw, _ := l.In(food.Uncooked)
	return l.Made > 0 && raw > 0
}

// portions is an amount of a dish that is counted.
func portions(n int) language.Amount {
	return language.Amount{How: language.Pieces, N: measure.Whole(int64(n)), Part: "portion", Said: counted1(n, "portion", "portions")}
}

// taken drafts what was taken out of a pot to make something else of: so much is put by, and used. As
// much as came of it where nobody said; none where that is not known either.
func (t *turn) taken(dish string, it, product language.Item, into, who string) []draft {
	a := it.Amount
	if a.How != language.Measured || a.Vague() {
		a = product.Amount
		a.Approx = true
	}
	if a.How != language.Measured {
		return nil
	}
	put := t.putBy(&draft{Food: dish, Amount: a, Who: t.ear.cook(who)}, dish)
	return []draft{*put, {Act: pantry.Use, Food: dish, Amount: a, Who: t.ear.cook(who), Dish: into, Taken: true}}
}

// saysRest says whether an amount is what was left when the others had theirs, and not all there was.
func saysRest(said string) bool {
	return slices.ContainsFunc([]string{"rest", "last", "remain", "left"}, func(w string) bool { return strings.Contains(strings.ToLower(said), w) })
}

// inPotStill is what is in the pot of all that a dish came to, less what was put by, binned or given
// away of it before, and how many portions that is.
func (t *turn) inPotStill(s *account.Sheet) (left measure.Amount, heads int, err error) {
	all, _ := partOf(s, &language.Question{Amount: language.Amount{How: language.Share, N: measure.Whole(1)}})
	left = all.Base
	l := potLine(t.k, s.Dish)
	_, in, err := t.cooked(s.Dish)
	if err == nil && l != nil && l.Unit == all.Kind && len(in) > 0 {
		var entries []pantry.Entry
		entries, err = t.book.Since(l.ID, &pantry.Message{})
		for _, e := range entries {
			if e.Act == pantry.Make && e.Dish == s.Dish && !e.At.Before(in[0].At) {
				left -= e.Amount
			}
		}
	}
	if all.Base > 0 {
		heads = int((int64(left)*int64(s.Portions) + int64(all.Base)/2) / int64(all.Base))
	}
	return left, heads, err
}

// allGone writes that all of a dish was thrown away: the whole pot was dropped.
func (t *turn) allGone(q *language.Question, why string) (r Reply, done bool, err error) {
	dish, err := t.inPot(q.Food, false)
	if err != nil || dish == "" {
		return r, false, err
	}
	all := language.Amount{How: language.Share, N: measure.Whole(1), Said: "all"}
	r, err = t.write([]draft{{Act: pantry.Bin, Food: dish, Day: t.day(), Amount: all}}, why)
	return r, r.Kind != Silent, err
}

// portionsGone writes that portions of a dish were thrown or given away.
func (t *turn) portionsGone(q *language.Question, why string) (r Reply, done bool, err error) {
	d := draft{Act: pantry.Bin, Food: q.Food, Day: t.day(), Amount: q.Amount}
	if q.Amount.How != language.Measured {
		d.Amount = portions(cmp.Or(q.N, 1)) // "a portion"
	}
	if q.About == language.AboutGiven {
		dish, to := q.Food, q.Place
		if to == "" {
			if dish, to, _ = strings.Cut(q.Food, " to "); language.IsPlace(to) { // "to table 4"
				return r, false, nil
			}
		}
		d.Act, d.Food, d.Dish = pantry.Use, dish, pantry.AwayTo(to)
	}
	served := q.About == language.AboutUsed || q.About == language.AboutUsedOne
	if served {
		d.Act = pantry.Use
	}
	dish, _, err := t.cooked(d.Food)
	if err != nil {
		return r, false, err
	}
	if dish == "" { // of what was made or came in portions
		l := t.k.Named(singular(strings.ToLower(d.Food)))
		if l == nil {
			l = t.madeCalled(d.Food)
		}
		if l == nil || l.PieceMg() == 0 || d.Amount.How != language.Pieces {
			return r, false, nil
		}
		if q.About == language.AboutUsedOne && l.Made == 0 && !soldByPiece(l, t.ear.foodOf(l)) { // "sold 2 lambs" are plates of it
			return r, false, nil
		}
		d.Food, d.Line, d.Amount.Part = l.Name, l.ID, ""
		if l.Made == 0 && served && isPlateful(l, t.ear.foodOf(l)) {
			name, n := plural(l.Name), int64(cmp.Or(q.N, 1))
			if measure.Amount(n)*l.PieceMg() > l.OnHand() {
				return Reply{Kind: Error, Text: fmt.Sprintf(`Not written: %d %s sold, and %s of it on hand. "used 2 %s" writes what went out of stock.`, n, name, measure.Say(l.OnHand(), l.Unit), name)}, true, nil
			}
			t.note = fmt.Sprintf(`If the %s went into a dish that was logged, this counts them twice: "undo".`, name)
		}
		r, err = t.write([]draft{d}, why)
		return r, r.Kind != Silent, err
	}
	if pot, err := t.inPot(dish, false); pot != "" && served {
		return Reply{Kind: Answer, Text: sayServed(dish)}, true, err
	}
	if l := potLine(t.k, dish); l != nil && d.Amount.Part == "portion" { // of what was put by, by what a portion came to
		pot, err := t.inPot(dish, false)
		if err == nil && pot == "" {
			pot, err = t.unaccounted(&d)
		}
		s, err2 := t.sheetOf(dish)
		if err = cmp.Or(err, err2); err != nil {
			return r, false, err
		}
		if pot == "" && l.PieceMg() > 0 { // it stands by the piece
			d.Food, d.Line, d.Amount.Part = dish, l.ID, ""
		} else if a, ok := (language.Amount{}), false; pot == "" && s != nil && s.Portions > 0 {
			if a, ok = partOf(s, &language.Question{N: cmp.Or(q.N, 1)}); ok && a.Kind == l.Unit {
				d.Food, d.Line, d.Amount = dish, l.ID, a
			}
		}
	}
	r, err = t.write([]draft{d}, why)
	return r, r.Kind != Silent, err
}

func sayServed(dish string) string {
	return fmt.Sprintf("What is served of the %s needs no word: say what is left of it, or binned.", dish)
}

// soldByPiece says whether food that came in is sold as it came: bread and pastry, and what no table knows.
func soldByPiece(l *pantry.Line, f *food.Food) bool {
	return f == nil || food.Piece(l.Name) > 0 || slices.Contains([]string{"bread", "pastry", "prepared"}, f.Group) || isPlateful(l, f)
}

// A piece of meat or fish between these is a plate by itself. Common practice, no source.
const (
	leastPlate measure.Amount = 150_000
	mostPlate  measure.Amount = 1_000_000
)

// isPlateful says whether one of what came in by the piece is served as it is: a lobster, a steak, and no lamb.
func isPlateful(l *pantry.Line, f *food.Food) bool {
	return f != nil && slices.Contains(fleshGroups, f.Group) && l.PieceMg() >= leastPlate && l.PieceMg() <= mostPlate
}

// portionsMade notes for how many a dish is of which so many portions were made; of what nothing went
// into as far as anybody said, it asks what one weighs, and writes that it was made.
func (t *turn) portionsMade(q *language.Question, why string) (r Reply, done bool, err error) {
	dish, _, err := t.cooked(q.Food)
	if err != nil {
		return r, false, err
	}
	if dish != "" {
		q.Food = dish
		return t.served(q)
	}
	if !food.EndsInFood(q.Food) {
		return r, false, nil
	}
	r, err = t.write([]draft{*t.putBy(&draft{Food: singular(strings.ToLower(q.Food)), Amount: portions(q.N)}, "")}, why)
	return r, r.Kind != Silent, err
}

// inPot gives the dish that words mean which was cooked lately and is in no line since; "" none. Where it is
// to be frozen, what is frozen already is not meant.
func (t *turn) inPot(said string, freezes bool) (string, error) {
	said = strings.ToLower(said)
	dish, _, err := t.cooked(said)
	if err != nil || dish == "" {
		return "", err
	}
	if dish != said && dish != plural(said) && plural(dish) != said { // "chicken" is the raw one, as long as there is some
		if h := t.ear.find(said); h.exact && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 && fitsName(l.Name, said) }) {
			return "", nil
		}
	}
	if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 && (!freezes || l.Turnable(food.Frozen) > 0) {
		if anew, err := t.cookedSince(l, dish); err != nil || !anew {
			return "", err
		}
	}
	return dish, nil
}

// sayPortions: " (6 portions)" of what was counted so; "" of what was weighed.
func sayPortions(e pantry.Entry) string {
	if n := lastWord(e.Said); n != "portion" && n != "portions" || strings.HasPrefix(e.Said, "0 ") {
		return ""
	}
	return " (" + e.Said + ")"
}
