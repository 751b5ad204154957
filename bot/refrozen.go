package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// cameThawed gives what came in thawed the date of thawed food, unless it has a sooner one.
func (t *turn) cameThawed(lot *pantry.LotTerms, d *draft, l *pantry.Line, f *food.Food) {
	lot.State = food.Thawed
	g, ok := t.ear.guide(l.Name, f, food.Thawed, "", t.country())
	if by := since(d, t).Add(g.Days); ok && (lot.Date == "" || by < lot.Date || !d.Label) {
		lot.Date, lot.Label, lot.Best = by, false, g.Date == "best-before"
	}
}

// frozenNames are the groups of the catalogue in which a frozen food is another thing than the food that was frozen:
// frozen yoghurt is no yoghurt.
var frozenNames = []string{"dairy", "prepared", "dessert", "drink or juice", "frozen vegetable", "baking"}

// cameFrozen makes of a delivery of "frozen chicken thighs" chicken thighs that came in frozen, where no table and no
// line has the food by that name.
func (t *turn) cameFrozen(d *draft) {
	rest, ok := strings.CutPrefix(strings.ToLower(d.Food), "frozen ")
	if !ok || d.Act != pantry.Receive || t.ear.heardOf(d.Food).exact || food.IsDishOf(rest) {
		return
	}
	h := t.ear.find(rest)
	if !h.exact || h.food == nil || slices.Contains(frozenNames, h.food.Group) || planner.IsCooked(h.food, rest) {
		return
	}
	d.Food, d.Frozen = d.Food[len("frozen "):], true
	if whole, ok := strings.CutPrefix(strings.ToLower(d.Whole), "frozen "); ok {
		d.Whole = d.Whole[len(d.Whole)-len(whole):]
	}
}

// saidFrozen makes food come in frozen of which that was said behind its name: "5kg prawns, frozen". Where a table or
// a line has it by that name, it is that food.
func (t *turn) saidFrozen(d *draft, it language.Item) {
	if !it.Frozen || d.Act != pantry.Receive || strings.HasPrefix(strings.ToLower(d.Food), "frozen ") {
		return
	}
	if whole := "frozen " + d.Food; t.ear.heardOf(whole).exact {
		d.Food, d.Whole = whole, ""
		return
	}
	d.Frozen = true
}

// notFrozenFirst says why a use of "frozen prawns" is not written where some of the prawns are not frozen: those
// would be drawn. "" where it may be.
func (t *turn) notFrozenFirst(d *draft, h found) string {
	if !h.froze || len(h.lines) != 1 || d.Act != pantry.Use && d.Act != pantry.Bin && d.Act != pantry.Return || d.Trim {
		return ""
	}
	l := h.lines[0]
	frozen, _ := l.In(food.Frozen)
	rest := l.OnHand() - frozen
	if rest == 0 {
		return ""
	}
	return fmt.Sprintf(`%s: %s is frozen and %s is not, and that goes first. Nothing written: say "thawed" with how much came out of the freezer, or say it again without "frozen".`, title(l.Name), measure.Say(frozen, l.Unit), measure.Say(rest, l.Unit))
}

// datedFrozen gives what came in frozen the date of frozen food, unless its label has one.
func (t *turn) datedFrozen(lot *pantry.LotTerms, d *draft, l *pantry.Line, f *food.Food) {
	lot.State = food.Frozen
	if d.Label {
		return
	}
	lot.Date, lot.Best = "", false
	if g, ok := t.ear.guide(l.Name, f, food.Frozen, "", t.country()); ok {
		lot.Date, lot.Best = since(d, t).Add(g.Days), g.Date == "best-before"
	}
}

// frozenAgain refuses to freeze what was thawed: where the words say that it was, or the rest of it came in frozen
// and needs no freezing. Where some was thawed and some was not it asks which, as nothing tells.
func (t *turn) frozenAgain(d *draft, l *pantry.Line) (res result) {
	thawed, _ := l.In(food.Thawed)
	switch {
	case d.State != food.Frozen || d.Yes:
	case d.Thawed, thawed > 0 && strings.HasPrefix(l.Name, "frozen "):
		res.tell = t.notAgain(l)
	case thawed > 0:
		res.ask = &pending{Kind: askFresh, About: l.Name, Was: measure.Say(thawed, l.Unit), Draft: *d, Options: yes()}
	}
	return res
}

// backInFreezer reads what is put back in the freezer as frozen again, which adds no stock: it refuses what was
// thawed, and freezes what never was frozen. Only of what is all frozen still is it a return of what was taken out.
func (t *turn) backInFreezer(d *draft, l *pantry.Line) (res result) {
	thawed, _ := l.In(food.Thawed)
	frozen, _ := l.In(food.Frozen)
	gone := slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { // it was used up, and some of it was too much
		return o.State == food.Thawed && o.Left == 0 && o.Date >= t.day()
	})
	switch {
	case thawed > 0 || gone:
		d.Thawed = thawed == l.OnHand()-frozen
		if gone || d.Thawed {
			return result{tell: t.notAgain(l)}
		}
	case frozen > 0 && frozen == l.OnHand() || strings.HasPrefix(l.Name, "frozen "):
		return res
	}
	d.Act, d.State = pantry.Count, food.Frozen
	return res
}

// notAgain says why what was thawed is not frozen.
func (t *turn) notAgain(l *pantry.Line) string {
	if l.Made == 0 && isFlesh(t.ear.foodOf(l), l.Name) {
		return "Not frozen: what was thawed is not frozen again unless it is cooked first. Cook the " + l.Name + " by its date, or bin it."
	}
	return "Not frozen: what was thawed is not frozen again. Eat the " + l.Name + " by its date, or bin it."
}

// thawedIn is what a line that was made has in it that was cooked, frozen and thawed before: such food is not
// frozen a second time, whatever dish it went into. It looks so deep into what was made of what was made; ""
// nothing.
func (t *turn) thawedIn(l *pantry.Line, deep int) (string, error) {
	if l.Made == 0 || deep == 0 {
		return "", nil
	}
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	if err != nil {
		return "", err
	}
	dish := l.Name
	for _, e := range append(entries, t.ready...) {
		if e.Line == l.ID && e.Act == pantry.Make {
			dish = cmp.Or(e.Dish, l.Name)
		}
	}
	dish, in, err := t.cooked(dish)
	if err != nil || len(in) == 0 {
		return "", err
	}
	drew, err := limitOf(t.book, t.ear, dish, in, t.said.At.Add(-pantry.LeftOver), t.m.At.Location())
	if err != nil || drew.thawed != "" {
		return drew.thawed, err
	}
	for _, e := range in {
		if e.Line == l.ID {
			continue
		}
		if of, err := t.thawedIn(t.k.Line(e.Line), deep-1); err != nil || of != "" {
			return of, err
		}
	}
	return "", nil
}
