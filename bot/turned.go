package bot

import (
	"errors"
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// turned drafts that food was opened, frozen or thawed: a count that tells no balance
// and gives so much of it another date. What was opened keeps its pack's date where
// that is the sooner.
func (t *turn) turned(d *draft, l *pantry.Line, f *food.Food, cook string) (result, error) {
	if l == nil {
		return result{}, nil
	}
	if n := t.thawedBefore(d, l); n > 0 {
		return result{tell: fmt.Sprintf(`%s: %s is thawed, as you said. If more is, say how much: "defrosted %s %s".`, title(l.Name), measure.Say(n, l.Unit), strings.ReplaceAll(measure.Say(n, l.Unit), " ", ""), l.Name)}, nil
	}
	lot, ok := l.Next(d.State)
	if !ok && !d.Yes && !d.Thawed {
		return result{tell: t.whyStays(d.State, l)}, nil
	}
	today := since(d, t)
	if (d.State == food.Frozen || d.State == food.Cooked) && !d.Yes && pastUseBy(lot, l, f, today) {
		does := map[food.State]string{food.Frozen: "freeze", food.Cooked: "cook"}[d.State]
		return result{tell: title(l.Name) + " is past its use-by (" + sayDay(lot.Date) + "): neither " + does + " nor eat it. Bin it."}, nil
	}
	if d.State == food.Frozen && !d.Yes {
		again, err := t.thawedIn(l, mostMade)
		if err != nil || again != "" {
			return result{tell: "Not frozen: the " + again + " in the " + l.Name + " was frozen and thawed before, and what was reheated once is not reheated again. Eat it by its date, or bin it."}, err
		}
	}
	if res, err := t.stoodWarm(d, l); res.tell != "" || err != nil {
		return res, err
	}
	if res := t.frozenAgain(d, l); res.tell != "" || res.ask != nil {
		return res, nil
	}
	base, pieces, approx, err := t.turning(d, l, f, lot)
	if err != nil {
		return result{}, err
	}
	if base == 0 {
		return result{tell: "Not written: " + d.Amount.Said + " of " + l.Name + " is nothing.", fault: true}, nil
	}
	e := pantry.Entry{Act: pantry.Count, Line: l.ID, Amount: base, Pieces: pieces, Approx: approx, Cook: cook, At: t.when(d), Said: d.Amount.Said,
		Lot: pantry.LotTerms{State: d.State, Date: d.Date, Label: d.Label, Best: d.Best}}
	if d.Amount.Part != "" && pieces != 0 {
		e.Piece = d.Amount.Part
	}
	if g, ok := t.guide(d.State, lot, l, f); ok && !d.Label {
		e.Lot.Date, e.Lot.Best = today.Add(g.Days), g.Date == "best-before"
	}
	if d.State == food.Opened && lot.Date != "" && (e.Lot.Date == "" || lot.Date < e.Lot.Date) {
		e.Lot.Date, e.Lot.Label, e.Lot.Best = lot.Date, lot.Label, lot.Best
	}
	if d.State == food.Thawed && lot.State != food.Frozen && !d.Label && lot.Date != "" && lot.Date < e.Lot.Date { // nobody said that it was frozen
		e.Lot.Date, e.Lot.Label, e.Lot.Best = lot.Date, lot.Label, lot.Best
	}
	_, err = l.Apply(e)
	return result{entry: &e}, err
}

// guide is what guidance says of food that comes into a state, out of the lot.
func (t *turn) guide(to food.State, lot pantry.Lot, l *pantry.Line, f *food.Food) (food.Guidance, bool) {
	if to == food.Frozen && lot.State == food.Uncooked && f == nil { // what is made up raw has no row of its own
		lot.State = food.MadeUp
	}
	if to == food.Frozen && (lot.State == food.Cooked || lot.State == food.MadeUp) {
		return t.ear.guide(l.Name, f, lot.State, "freezer", t.country())
	}
	return t.ear.guide(l.Name, f, to, "", t.country())
}

// turning is how much is opened, frozen or thawed: what was said, up to what there is;
// without an amount one pack where it came in packs, else the lot that is opened, and
// all that may be frozen or thawed.
func (t *turn) turning(d *draft, l *pantry.Line, f *food.Food, lot pantry.Lot) (base measure.Amount, pieces int64, approx bool, err error) {
	can := l.Turnable(d.State)
	switch {
	case d.Amount.How == language.Share:
		base, err = d.Amount.N.Of(can)
	case d.Amount.How != language.Unsaid:
		base, pieces, approx, err = t.weigh(*d, l, f, l.Unit)
	}
	if d.Amount.How == language.Unsaid || errors.Is(err, errNoWeight) { // "a carton of milk"
		packed := f != nil && (f.Piece != "" || f.Unit == measure.Millilitre) && lot.PieceMg > 0
		switch err = nil; {
		case d.State != food.Opened:
			base = can
		case packed:
			base = min(lot.PieceMg, lot.Left)
		default:
			base = lot.Left
		}
	}
	if !d.Yes && base > can {
		if d.Amount.How == language.Measured {
			t.note = strings.TrimSpace(t.note + "\n" + fmt.Sprintf(`Not %s: the record has only %s of %s that was not %s. Was it other food? "undo" takes it back.`, d.Amount.Said, measure.Say(can, l.Unit), l.Name, d.State))
		}
		base, pieces = can, 0
	}
	return base, pieces, approx, err
}

// whyStays says why nothing of a line can be opened, frozen or thawed.
func (t *turn) whyStays(to food.State, l *pantry.Line) string {
	name := title(l.Name)
	if l.OnHand() == 0 {
		return "No " + l.Name + " is on hand, so nothing was written."
	}
	if thawed, _ := l.In(food.Thawed); to == food.Frozen && thawed > 0 {
		return name + " was thawed: cook it before it is frozen again."
	}
	_, lot := l.In(to)
	if lot.Date == "" {
		return name + " is " + string(to) + " already."
	}
	return name + " is " + string(to) + " already: " + sayBy(map[bool]string{true: "best-before"}[lot.Best]) + " " + t.sayDate(lot.Date) + "."
}

// sayTurned: "Double cream 600 ml opened. Use by Thu 5 Mar (UK common practice, no
// source: opened cream 2 days)."
func (t *turn) sayTurned(e pantry.Entry, f pantry.Effect, l *pantry.Line) string {
	s := title(thing(l, e)) + " " + string(e.Lot.State) + "."
	if f.Turned < e.Amount {
		s += " The record has " + measure.Say(f.Turned, l.Unit) + " of it."
	}
	return s + t.turnedNote(e, l)
}

// turnedNote is what date that gives it, who says so, and the caution.
func (t *turn) turnedNote(e pantry.Entry, l *pantry.Line) (s string) {
	was := pantry.Lot{}
	switch made := stateOf(pantry.Make, l.Name, t.ear.foodOf(l)); {
	case made == food.Cooked, l.Received == 0:
		was.State = made
	}
	g, ok := t.guide(e.Lot.State, was, l, t.ear.foodOf(l))
	by := sayBy("use-by")
	if e.Lot.Best {
		by = sayBy("best-before")
	}
	switch by = title(by) + " " + t.sayDate(e.Lot.Date); {
	case e.Lot.Date == "":
		s += " No figure here for that: go by the label."
	case ok && !e.Lot.Label && (e.Lot.Date == pantry.DateOf(e.At).Add(g.Days) || e.Lot.Date == t.day().Add(g.Days)):
		s += " " + by + " (" + sayGuide(g) + ")."
	case e.Lot.Label:
		s += " " + by + ", by its label."
	default:
		s += " " + by + "."
	}
	if e.Lot.State == food.Frozen && mayBeRaw(l.Name) && g.Caution != "" { // it is no leftover, and its days are those of what is in it
		g.Caution = "quality only"
	}
	if e.Lot.State == food.Thawed && isOld(was.State) && !tellsWork(l.Name, "base") && !mayBeRaw(l.Name) && g.Caution != "" { // it was cooked before
		g.Caution = "thaw it in the fridge; reheat it once, steaming hot; not frozen again"
	}
	if g.Caution != "" && !e.Lot.Label {
		s += " " + title(g.Caution) + "."
	}
	return s
}

// fitToUse is how much of a line may be cooked with today, and the soonest date of that:
// not what is frozen, nor what is past its use-by.
func fitToUse(l *pantry.Line, f *food.Food, today pantry.Date) (fit measure.Amount, soonest pantry.Date) {
	for _, o := range l.Lots {
		if o.Left == 0 || o.State == food.Frozen || pastUseBy(o, l, f, today) {
			continue
		}
		if fit += o.Left; o.Date != "" && (soonest == "" || o.Date < soonest) {
			soonest = o.Date
		}
	}
	return fit, soonest
}

// pastUseBy says whether a lot is past a date of safety.
func pastUseBy(o pantry.Lot, l *pantry.Line, f *food.Food, today pantry.Date) bool {
	return o.Date != "" && o.Date < today && isUseBy(o, l, f, "UK") // of every country's guidance it is the same kind of date
}

// warnPast notes that what is used next is past its use-by.
func (t *turn) warnPast(l *pantry.Line, f *food.Food) {
	o, ok := l.First()
	if !ok || t.note != "" || o.State == food.Frozen || !pastUseBy(o, l, f, t.day()) {
		return
	}
	if t.note = title(l.Name) + " was past its use-by (" + sayDay(o.Date) + "): do not serve it."; !o.Label && o.State == "" {
		t.note = title(l.Name) + " was past its use-by by the usual keeping (" + sayDay(o.Date) + "): go by its label (\"the " + l.Name + " is use by Friday\" tells it), and do not serve it without one."
	}
}

// isUseBy says whether a lot's date is one of safety. What a label calls a best-before
// is taken for a use-by where the food's guidance is about safety.
func isUseBy(lot pantry.Lot, l *pantry.Line, f *food.Food, country string) bool {
	if lot.Label && !lot.Best {
		return true
	}
	state := lot.State
	if state == food.Uncooked { // it has the date of what is raw in it
		return true
	}
	if state == "" {
		state = food.Raw
	}
	g, ok := food.Guide(l.Name, f, state, "", country)
	if !ok && f == nil {
		return !lot.Best
	}
	return g.Date == "use-by"
}

// thawedBefore is how much of a line the cook's message before this one thawed, where this one names no amount: it
// says the same of that. 0 none.
func (t *turn) thawedBefore(d *draft, l *pantry.Line) measure.Amount {
	if d.State != food.Thawed || d.Amount.How != language.Unsaid || d.Yes {
		return 0
	}
	_, entries, err := t.justWritten()
	if err != nil {
		return 0
	}
	for _, e := range entries {
		if frozen, _ := l.In(food.Frozen); e.Line == l.ID && e.Act == pantry.Count && e.Lot.State == food.Thawed && frozen > 0 {
			return e.Amount
		}
	}
	return 0
}
