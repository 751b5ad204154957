package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// result is what became of a draft: an entry, or a question, or a plain word
// on why nothing was written; none of them where it was not about stock.
type result struct {
	entry *pantry.Entry
	ask   *pending
	tell  string // why nothing was written
	fault bool   // tell is about something the cook should say otherwise
}

// resolve turns a draft into an entry, as far as the kitchen's stock and the
// words allow. A line that is new is made on the way.
func (t *turn) resolve(d *draft) (result, error) {
	if d.Tell != "" {
		return result{tell: d.Tell}, nil
	}
	l, f, r, err := t.line(d)
	if l == nil && d.New == nil || err != nil {
		return r, err
	}
	if tell := t.notThatFood(d, l); tell != "" {
		return result{tell: tell, fault: true}, nil
	}
	unit := measure.Gram
	switch {
	case l != nil:
		unit = l.Unit
		if l, err = t.now(l); err != nil {
			return r, err
		}
	case d.New.Unit == measure.Millilitre.String():
		unit = measure.Millilitre
	}
	return t.measured(d, l, f, unit)
}

// line finds the draft's line, or sets d.New. Where it can do neither, the
// result says what to ask or tell.
func (t *turn) line(d *draft) (*pantry.Line, *food.Food, result, error) {
	if d.Line != 0 {
		l := t.k.Line(d.Line)
		return l, t.ear.foodOf(l), result{}, nil
	}
	if d.New != nil {
		f, _ := t.ear.all.Food(d.New.Food)
		return nil, f, result{}, nil
	}
	if len(d.Among) > 0 { // "1.2kg trim"
		var lines []*pantry.Line
		for _, id := range d.Among {
			lines = append(lines, t.k.Line(id))
		}
		return nil, nil, result{ask: whichOf(d, lines)}, nil
	}
	h := t.ear.find(d.Food)
	if d.Whole != "" {
		if w := t.ear.find(d.Whole); w.exact && len(w.lines) == 1 { // "2 mackerel fillets", with a line of that name
			h = w
		}
	}
	comesIn := d.Act == pantry.Receive || d.Act == pantry.Make
	if h.froze && comesIn {
		h = t.ear.heardOf(d.Food)
	}
	if raw := t.calledRaw(d.Food); !comesIn && len(h.lines) == 0 && len(raw.lines) > 0 {
		h = raw
	}
	if tell := t.notFrozenFirst(d, h); tell != "" {
		return nil, nil, result{fault: true, tell: tell}, nil
	}
	if l := potLine(t.k, strings.ToLower(d.Food)); l != nil && !comesIn && l.Made > 0 && l.OnHand() > 0 && t.k.Named(strings.ToLower(d.Food)) == nil && t.k.Named(singular(strings.ToLower(d.Food))) == nil { // the dal that was put by, not the lentils
		h = found{lines: []*pantry.Line{l}, food: t.ear.foodOf(l), exact: true}
	}
	if rest := planner.BeforeCooking(d.Food); rest != d.Food && !comesIn { // "leftover chicken" is the roast chicken that was put by
		if l := t.madeCalled(rest); l != nil {
			h = found{lines: []*pantry.Line{l}, food: t.ear.foodOf(l), exact: true}
		} else if h.other && d.Act == pantry.Use && strings.HasPrefix(strings.ToLower(d.Food), "left") && d.Amount.How != language.Unsaid {
			say := "made 600g cooked " + strings.ToLower(rest)
			if dish, _, err := t.cooked(rest); err == nil && dish != "" {
				say = dish + " 600g left"
			}
			return nil, nil, result{fault: true, tell: fmt.Sprintf("No %s is put by, and the %s is raw: nothing was written. Put it by first (%q), or say which it was.", strings.ToLower(d.Food), h.lines[0].Name, say)}, nil
		}
	}
	if t.isDishOnly(d, h) {
		return nil, nil, result{}, nil
	}
	dish := d.Act == pantry.Make && (isDishOf(d.Food, h) || ownTexture(d.Food, h) || isPartOf(d.Food, h))
	if dish {
		h = found{lines: t.namedJust(d.Food)}
	}
	if len(h.lines) == 0 && !comesIn && (d.Amount.How == language.Measured || d.Amount.How == language.Share) { // "used 200g of the tart"
		if l := t.madeCalled(d.Food); l != nil {
			h.lines, h.exact = []*pantry.Line{l}, true
		} else if made := t.madeNamed(d.Food); len(made) > 1 { // "binned 200g stew" of two
			h.lines, h.exact = made, true
		} else if l := t.namedMore(d.Food, h); l != nil { // "chicken thighs", all of them boneless
			h.lines, h.exact = []*pantry.Line{l}, true
		}
	}
	bare := d.Amount.How == language.Unsaid || d.Amount.How == language.Share
	if h.sound && (d.Amount.How == language.Unsaid || comesIn && d.Amount.How != language.Measured) || h.short && (bare || d.Amount.How == language.Pieces && d.Amount.Part == "") {
		return nil, nil, result{}, nil
	}
	if d.Act == pantry.Make {
		h.lines = t.madeInto(d.Food, h.lines)
	}
	if !h.exact && !comesIn && slices.Contains(t.k.Dishes, t.dish(strings.ToLower(d.Food))) && !slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.Made > 0 }) { // a tagine that was logged is no slip for tahini
		h.lines, dish = nil, true
	}
	if len(h.lines) == 0 && !dish && d.plain() && d.Act != pantry.Make {
		h.lines = t.guess(d, h, comesIn)
	}
	if len(h.lines) == 0 && d.Act == pantry.Bin && d.Trim && d.Amount.How == language.Measured {
		h.lines = t.ear.endingIn(d.Food)
	}
	if len(h.lines) == 0 && !comesIn && h.food == nil && !dish {
		h.lines = t.slipOf(d)
	}
	t.ear.setApart(&h, d.Food)
	if comesIn && len(h.lines) == 0 && h.food == nil && !dish && d.plain() {
		h.food, h.guess = t.ear.all.Likely(d.Food)
	}
	if h.other && d.Act == pantry.Bin && !d.Trim && d.Amount.How == language.Measured { // "binned 3kg cooked couscous" is not the dry
		name := strings.ToLower(d.Food)
		return nil, nil, result{fault: true, tell: fmt.Sprintf("%s: none on hand, so nothing was written; what was cooked went out as it was used. If it was raw: \"binned %s %s\".", title(name), d.Amount.Said, h.lines[0].Name)}, nil
	}
	if h.other && d.Act == pantry.Count && d.State == "" && d.Amount.How == language.Measured {
		return nil, nil, result{fault: true, tell: notTheRaw(d.Amount.Said, strings.ToLower(d.Food), h.lines[0])}, nil
	}
	if h.other && (comesIn || d.Act == pantry.Count) { // cooked food does not come into the raw line
		h.lines = nil
	}
	if comesIn && h.food != nil && planner.IsCooked(h.food, d.Food) { // mash does not come into the roast potatoes
		name := t.ear.lineName(d.Food, h)
		h.lines = slices.DeleteFunc(slices.Clone(h.lines), func(l *pantry.Line) bool { return l.Name != name })
	}
	if comesIn { // nor what is told to be halal into what is not, nor the other way round
		h.lines = slices.DeleteFunc(slices.Clone(h.lines), func(l *pantry.Line) bool {
			return l.Made == 0 && food.Slaughtered(l.Name) != food.Slaughtered(d.Food)
		})
	}
	if h.food == nil && d.Act == pantry.Receive && food.Slaughtered(d.Food) != "" { // the same food for all that
		if g := t.ear.find(food.WithoutSlaughter(d.Food)); g.exact && g.food != nil {
			h.food, h.named, h.exact = g.food, g.named, true
		}
	}
	if comesIn { // nor raw food into what is cooked
		h.lines = slices.DeleteFunc(slices.Clone(h.lines), func(l *pantry.Line) bool {
			f := t.ear.foodOf(l)
			return f != nil && planner.IsCooked(f, l.Name) && !planner.IsCooked(f, d.Food)
		})
	}
	called := d.Food
	if !h.exact && h.named != "" { // "turky"
		called = h.named
	}
	if comesIn && len(h.lines) > 0 {
		h.lines = t.ear.sameFood(h.lines, called)
	}
	if d.Act == pantry.Receive && len(h.lines) > 0 {
		var usual *food.Food
		if h.lines, usual = t.ear.notCuts(h.lines, called); usual != nil {
			h.food, h.named = usual, usual.Name
		}
	}
	if other := t.ear.inBunches(d, h.lines); comesIn && other != nil { // "6 bunches coriander" is no powder
		h.lines, h.food = nil, other
	}
	if usual := t.ear.wholeOne(d, h.lines); comesIn && usual != nil {
		h.lines, h.food = nil, usual
	}
	lines := h.lines
	if len(lines) > 1 && !comesIn && d.Act != pantry.Count {
		if held := slices.DeleteFunc(slices.Clone(lines), func(l *pantry.Line) bool { return l.OnHand() == 0 }); len(held) > 0 {
			lines = held
		}
	}
	if len(lines) == 1 && (d.Act == pantry.Use || d.Act == pantry.Bin || d.Act == pantry.Claim) {
		lines = t.ear.orCuts(lines[0], d.Food)
	}
	if d.Act == pantry.Count && len(lines) == 1 && isDry(lines[0].Name) && saysLeftOver(t.m.Text) {
		name := lines[0].Name
		return nil, nil, result{fault: true, tell: fmt.Sprintf(`Left over, so it was cooked? "made %s cooked %s" puts it by; "%s is %s" counts the dry. Nothing written.`, d.Amount.Said, name, name, d.Amount.Said)}, nil
	}
	if alike := t.cookedToo(d, lines); len(alike) > 0 {
		lines, h.exact = alike, true
	} else if food.IsDishOf(d.Food) && (d.Act == pantry.Count || d.State == food.Frozen) && len(lines) == 1 && lines[0].Made == 0 && d.Amount.How == language.Measured { // dal that is left was cooked, as a rule
		name := strings.ToLower(d.Food)
		return nil, nil, result{fault: true, tell: fmt.Sprintf(`The %s that was cooked, or the %s as it came in? "made %s %s" puts by what was cooked; "%s is %s" counts the raw. Nothing written.`, name, lines[0].Name, d.Amount.Said, name, lines[0].Name, d.Amount.Said)}, nil
	}
	switch {
	case len(lines) == 1:
		if r, err := t.whichPut(d, lines[0]); err != nil || r.tell != "" {
			return nil, nil, r, err
		}
		if tell := t.cutOfWhole(d, lines[0]); tell != "" {
			return nil, nil, result{fault: true, tell: tell}, nil
		}
		if made := t.cookedBeside(d, lines[0]); len(made) > 0 {
			return nil, nil, result{ask: whichOf(d, append(made, lines[0]))}, nil
		}
		d.Line = lines[0].ID
		return lines[0], t.ear.foodOf(lines[0]), result{}, nil
	case len(lines) > 1:
		if d.Amount.How == language.Unsaid && !h.exact {
			return nil, nil, result{}, nil
		}
		if made := t.cookedBeside(d, lines[0]); len(made) > 0 && !holds(lines, made[0]) {
			lines = append(made, lines...)
		}
		return nil, nil, result{ask: whichOf(d, lines)}, nil
	case comesIn:
		return t.newLine(d, h)
	}
	return nil, nil, t.notHere(d, h), nil
}

// saysLeftOver says whether a text speaks of what was left over, of something that was made: not of what
// is left.
func saysLeftOver(text string) bool {
	text = strings.ToLower(text)
	return strings.Contains(text, "left over") || strings.Contains(text, "leftover")
}

// slipOf gives the one line that a phrase which is no English is a slip of,
// whatever was done with it: "2 paers left", "binned half the cheder".
func (t *turn) slipOf(d *draft) []*pantry.Line {
	if d.Food == "" || d.Amount.Article || d.Amount.How == language.Unsaid || d.Mended && d.Dish == "" || d.Bare || food.IsPlain(d.Food) {
		return nil
	}
	var list []*pantry.Line
	for _, l := range t.ear.likely(d.Food, true) {
		if food.IsSlipOf(d.Food, l.Name) || t.ear.foodOf(l) != nil && slices.ContainsFunc(t.ear.foodOf(l).Called(), func(n string) bool { return food.IsSlipOf(d.Food, n) }) {
			list = append(list, l)
		}
	}
	return list
}

// guess gives the lines that a phrase must mean which is no line's name, where
// all else that was said is plain: the reply says what was read, and it can be
// taken back.
func (t *turn) guess(d *draft, h found, comesIn bool) []*pantry.Line {
	switch {
	case h.food == nil || !h.exact:
		return t.ear.likely(d.Food, comesIn)
	case comesIn:
		return nil
	}
	list := t.ear.generally(h.food)
	if len(list) == 0 && d.Amount.How == language.Measured {
		list = t.ear.only(d.Food, h.food, d.Amount.Base)
	}
	return list
}

// plain says whether an act and an amount are so clear that the food is sure to
// be one, whatever its letters are. What is only counted may be anything ("put
// 2 bears in the play"), so there the word for the act has to say no more than
// that it was used, and a dish be named.
func (d *draft) plain() bool {
	switch d.Amount.How {
	case language.Measured:
		return !d.Mended && !d.Amount.Vague() || d.Dish != ""
	case language.Pieces, language.Share:
		return d.Plainly && !d.Amount.Article && d.Act == pantry.Use && d.Dish != ""
	}
	return false
}

// newLine sets d.New for a food that the kitchen has not had before.
func (t *turn) newLine(d *draft, h found) (*pantry.Line, *food.Food, result, error) {
	if h.food == nil && h.slip && d.Act == pantry.Receive && !d.Yes && d.Amount.How == language.Measured && !d.Amount.Vague() { // "got 2kg pototoes"
		return nil, nil, result{ask: &pending{Kind: askInstead, About: strings.ToLower(d.Food), Draft: *d,
			Options: append(lineOptions(h.near[:min(len(h.near), mostOptions-1)]), option{Label: "a new food", Yes: true})}}, nil
	}
	if h.food == nil && d.Amount.Vague() && d.Act == pantry.Receive && !d.Yes { // "a handful of responses were received"
		return nil, nil, result{}, nil
	}
	if d.Amount.How == language.Pieces && d.Amount.Part == "portion" && h.food == nil && food.EndsInFood(d.Food) { // how much one is will be asked
		d.New = &newLine{Name: t.ear.lineName(d.Food, h), Unit: measure.Gram.String()}
		return nil, nil, result{}, nil
	}
	if own := food.Piece(d.Food) > 0; own && h.food != nil && !h.exact && d.Amount.How == language.Pieces { // "muffins" are no English ones
		h.food = nil
	}
	if counted := d.Amount.How == language.Pieces && d.Amount.Part == "" && d.Act == pantry.Receive; counted && (!h.exact || h.food == nil) && d.Amount.Article {
		return nil, nil, result{}, nil // "bought a car" is no carrot, and "a ticket" no food
	} else if counted && h.food != nil && !h.exact && !d.Yes {
		return nil, nil, result{ask: &pending{Kind: askNew, About: h.named, Draft: *d, Options: []option{{Label: "yes", Yes: true}}}}, nil
	}
	if h.food == nil && d.Amount.How != language.Measured && d.Act != pantry.Make {
		if d.Amount.How == language.Pieces && (d.Yes || d.Amount.Part == "" && food.Piece(d.Food) > 0) {
			d.New = &newLine{Name: t.ear.lineName(d.Food, h), Unit: measure.Gram.String()}
			return nil, nil, result{}, nil
		}
		if d.Amount.How == language.Pieces && d.Plainly && len(strings.Fields(d.Food)) <= 2 {
			return nil, nil, result{ask: &pending{Kind: askNew, About: singular(strings.ToLower(d.Food)), Draft: *d, Options: []option{{Label: "yes", Yes: true}}}}, nil
		}
		return nil, nil, result{}, nil
	}
	if d.Amount.How == language.Unsaid && !h.exact && d.Act != pantry.Make {
		return nil, nil, result{}, nil
	}
	n := &newLine{Name: t.ear.lineName(cmp.Or(d.Whole, d.Food), h), Unit: measure.Gram.String()}
	if how := food.Slaughtered(d.Food); how != "" && food.Slaughtered(n.Name) == "" {
		n.Name = how + " " + n.Name
	}
	switch {
	case h.food != nil:
		n.Food, n.Unit = h.food.Name, h.food.Unit.String()
	case d.Amount.Kind == measure.Millilitre:
		n.Unit = measure.Millilitre.String()
	}
	if l := t.k.Named(n.Name); l != nil {
		d.Line = l.ID
		return l, t.ear.foodOf(l), result{}, nil
	}
	d.New = n
	return nil, h.food, result{}, nil
}

// calledMore gives the lines on hand that have a word among their names: fish fillet for "fish".
func (t *turn) calledMore(phrase string) (list []*pantry.Line) {
	word := singular(strings.ToLower(phrase))
	for _, l := range t.k.Lines {
		if l.OnHand() > 0 && len(list) < 3 && slices.Contains(strings.Fields(strings.ToLower(l.Name)), word) {
			list = append(list, l)
		}
	}
	return list
}

// notHere says what to do about a food that is not in the pantry.
func (t *turn) notHere(d *draft, h found) result {
	if d.State != "" {
		if d.Amount.How != language.Measured || d.Amount.Vague() || d.Doubt { // "opened a beer"
			return result{}
		}
		name := strings.ToLower(d.Food)
		return result{fault: true, tell: fmt.Sprintf(`No %s in the pantry. Nothing written: say what it was, or take it in first ("got %s %s").`, name, d.Amount.Said, name)}
	}
	if t.notPutBy(d) && h.food == nil { // never the raw food that is called a little like it
		return result{ask: &pending{Kind: askInstead, About: strings.ToLower(d.Food), Draft: *d}}
	}
	near := h.near
	if d.Mended && h.food == nil { // neither word is sure
		return result{}
	}
	if sayAway(d.Dish) != "" && d.Amount.How != language.Measured { // "gave the driver a coffee"
		return result{}
	}
	if d.Bare && d.Amount.How != language.Measured && !language.IsPack(d.Amount.Part) && !d.Listed && !(h.food != nil && h.exact && d.Amount.How == language.Pieces && !d.Amount.Article && t.reader().NamesDish(d.Dish)) { // "a roll in the hay"
		return result{}
	}
	if d.Act == pantry.Count && (h.food == nil || d.Amount.How == language.Share) { // "the mixer weighs 20kg", "we have no bananas"
		return result{}
	}
	sure := h.food != nil && h.exact
	said := d.Amount.How == language.Measured && !d.Amount.Vague()
	if d.Amount.How == language.Pieces && !d.Amount.Article && d.Act == pantry.Use && d.Dish != "" && (d.Listed || language.IsPack(d.Amount.Part)) && (sure || len(near) > 0) { // "korma: 2kg chicken, 1 tin coco milk"
		said = true
	}
	if !sure && !said && (len(near) == 0 || d.Amount.How != language.Pieces || h.food == nil) {
		return result{} // not about food, as far as can be told
	}
	if hard, _ := t.brokenBy(h.food); len(hard) > 0 && sure && d.Act == pantry.Use && d.Amount.How == language.Unsaid && (d.Dish != "" || d.Amount.Some) && sayAway(d.Dish) == "" {
		return result{ask: &pending{Kind: askInstead, About: strings.ToLower(d.Food), Draft: *d}} // "put butter in the mash"
	}
	if d.Listed && sure && !d.Amount.Article && (d.Amount.How != language.Unsaid || len(h.food.Allergen)+len(h.food.MayCarry) > 0) { // "pie: 500g leeks, some mayo": what is silent here stands on no label
		return result{ask: &pending{Kind: askInstead, About: strings.ToLower(d.Food), Options: lineOptions(near), Draft: *d}}
	}
	if d.Amount.How == language.Unsaid && d.Act != pantry.Release || d.Act == pantry.Claim && d.Amount.How != language.Measured {
		return result{}
	}
	if len(near) == 0 {
		near = t.ear.nearest(d.Food, h.food, 3)
	}
	if len(near) == 0 {
		near = t.calledMore(d.Food)
	}
	return result{ask: &pending{Kind: askInstead, About: strings.ToLower(d.Food), Options: lineOptions(near), Draft: *d}}
}

// notPutBy says whether a draft uses of a dish that was logged, and of which nobody has said that any is left.
func (t *turn) notPutBy(d *draft) bool {
	return d.Act == pantry.Use && d.Amount.How == language.Measured && slices.Contains(t.k.Dishes, t.dish(strings.ToLower(d.Food)))
}

// listsFood says whether items are a list with food in it that was measured.
func (t *turn) listsFood(items []language.Item) bool {
	return len(items) > 1 && slices.ContainsFunc(items, func(it language.Item) bool {
		return it.Amount.How == language.Measured && !it.Amount.Vague() && it.Food != "" && t.ear.find(it.Food).exact
	})
}

// now gives the line as it will stand with what this message has so far; for a
// message that was edited, as it stood when the message was first said.
func (t *turn) now(l *pantry.Line) (*pantry.Line, error) {
	if s := t.sim[l.ID]; s != nil {
		return s, nil
	}
	s := *l
	s.Lots, s.Holds = slices.Clone(l.Lots), slices.Clone(l.Holds)
	if t.then != nil {
		var err error
		if s, err = t.book.LineBefore(l.ID, t.then); err != nil {
			return nil, err
		}
	}
	if t.sim == nil {
		t.sim = map[int64]*pantry.Line{}
	}
	t.sim[l.ID] = &s
	return &s, nil
}

func (t *turn) makeLine(d *draft) (*pantry.Line, error) {
	if l := t.k.Named(d.New.Name); l != nil { // the draft before has made it: "1kg stew left, 2kg stew left"
		d.Line, d.New = l.ID, nil
		return l, nil
	}
	unit, err := measure.ParseKind(d.New.Unit)
	if err != nil {
		return nil, err
	}
	shelf := d.Shelf
	if shelf == "" {
		shelf = food.Crate
		if f, ok := t.ear.all.Food(d.New.Food); ok && !planner.IsCooked(f, d.New.Name) { // cooked rice is for no cupboard
			shelf = f.Shelf
		}
	}
	l, err := t.book.AddLine(d.New.Name, d.New.Food, unit, shelf)
	if err != nil {
		return nil, err
	}
	t.ear.learn()
	d.Line, d.New = l.ID, nil
	return l, nil
}

// when gives when the thing was done: what is edited or corrected was done when it was said
// first.
func (t *turn) when(d *draft) time.Time {
	at := t.m.At
	switch {
	case !d.When.IsZero():
		return d.When
	case t.m.Edit:
		at = t.said.At
	}
	if d.Act == pantry.Make || d.State != "" { // "made 2kg chilli yesterday"
		at = at.AddDate(0, 0, since(d, t).Days(pantry.DateOf(at.In(t.m.At.Location()))))
	}
	return at
}

// terms are what is known of a lot: its date (the label's, else the food's
// usual keeping), cost and the weight of a piece.
func (t *turn) terms(d *draft, l *pantry.Line, f *food.Food, base measure.Amount, pieces int64) pantry.LotTerms {
	lot := pantry.LotTerms{Date: d.Date, Label: d.Label, Best: d.Best, Cost: d.cost(base)}
	if lot.Date == "" && f != nil && f.Keeps.Days > 0 && d.Act == pantry.Receive {
		lot.Date, lot.Best = pantry.DateOf(t.m.At.AddDate(0, 0, f.Keeps.Days)), f.Keeps.Date == "best-before"
	}
	t.guided(&lot, d, l, f)
	t.houseRuled(&lot, d, l, f)
	switch {
	case d.Amount.Count.Num > 0: // 2 x 400g tins; 5 leeks, 1.1 kg
		if one, err := (measure.Ratio{Num: d.Amount.Count.Den, Den: d.Amount.Count.Num}).Of(base); err == nil && isPiece(d.Amount, f, one) {
			lot.PieceMg, lot.Weighed = one, true
		}
	case pieces > 0 && d.Amount.Part == "" || pieces > 0 && f != nil && d.Amount.Part == f.Piece:
		lot.PieceMg, _ = measure.Ratio{Num: 1000, Den: pieces}.Of(base)
	}
	return lot
}
