package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// state writes what the statements say, asks about what is not clear, and is
// silent where none was about stock.
func (t *turn) state(reading language.Reading, why string) (Reply, error) {
	drafts, err := t.drafts(reading)
	if err != nil {
		return Reply{}, err
	}
	t.shareDate(drafts)
	if err := t.intoLast(drafts); err != nil {
		return Reply{}, err
	}
	if len(reading.Questions) == 0 {
		drafts = t.alsoSaid(t.notIntoCoat(drafts))
	}
	if reading.Unread != "" && t.note == "" {
		t.note = fmt.Sprintf(`Not read, and not in: "%s". Say it again by its plain name, like "got 2kg prawns".`, reading.Unread)
	}
	if reading.Unpriced != "" && t.note == "" {
		t.note = reading.Unpriced + ` is not put down. Say what each cost, like "the leeks cost £4".`
	}
	if reading.Unclear != "" && t.note == "" {
		n, of, _ := strings.Cut(reading.Unclear, " behind ")
		t.note = fmt.Sprintf(`The %s is not put down, as it may be a price or a count: "%s cost £%s" is the price.`, reading.Unclear, of, n)
	}
	drafts, ready, err := t.ofPrepared(drafts)
	if err != nil {
		return ready, err
	}
	if len(drafts) == 0 && ready.Kind == Log {
		return t.forHowMany(ready, reading.Statements)
	}
	r, err := t.write(drafts, why)
	if err != nil {
		return r, err
	}
	if ready.Kind == Log {
		r.Text, r.Entries = strings.TrimSpace(ready.Text+"\n"+r.Text), append(ready.Entries, r.Entries...)
		if r.Kind == Silent {
			r.Kind = Log
		}
	}
	return t.forHowMany(r, reading.Statements)
}

// write writes what drafts say, as far as they are clear.
func (t *turn) write(drafts []draft, why string) (Reply, error) {
	var asks []pending
	var tells []string
	fault := false
	if r, done, err := t.weighedLater(drafts); done || err != nil {
		return r, err
	}
	delivery := t.amongFoods(drafts)
	for i := range drafts {
		drafts[i].Yes = drafts[i].Act == pantry.Receive && delivery
		put, odd, err := t.outOfPot(&drafts[i])
		if err != nil {
			return Reply{}, err
		}
		if odd.ask != nil {
			asks = append(asks, *odd.ask)
			continue
		}
		if odd.tell != "" {
			tells, fault = append(tells, odd.tell), true
			continue
		}
		if put != nil {
			res, err := t.resolve(put)
			if err != nil {
				return Reply{}, err
			}
			if res.entry != nil {
				t.ready = append(t.ready, *res.entry)
				drafts[i].Line = res.entry.Line
			}
		}
		if drafts[i].Taken && len(t.ready) > 0 {
			drafts[i].Line = t.ready[len(t.ready)-1].Line
		}
		res, err := t.resolve(&drafts[i])
		if err != nil {
			return Reply{}, err
		}
		switch {
		case res.entry != nil:
			t.ready = append(t.ready, *res.entry)
		case res.ask != nil:
			asks = append(asks, *res.ask)
			t.drewNext(&drafts[i])
		case res.tell != "":
			tells = append(tells, res.tell)
			fault = fault || res.fault
		}
	}
	r := Reply{Kind: Silent}
	if len(t.ready) > 0 {
		effects, err := t.book.Revise(t.said, t.said, why, t.ready)
		if err != nil {
			return r, err
		}
		if err := t.dishes(t.ready); err != nil {
			return r, err
		}
		if err := t.close(t.ready); err != nil {
			return r, err
		}
		r = t.logged(t.ready, effects)
		r.Text += t.sayLabels(t.ready)
		if len(asks) == 0 {
			if r, err = t.counts(r, t.ready); err != nil {
				return r, err
			}
			if r, err = t.askCameIn(r, t.ready); err != nil {
				return r, err
			}
		}
		t.plain = len(asks) == 0 && r.Ask == nil && len(tells) == 0 && t.note == "" && t.isPlain(t.ready, effects)
	}
	if t.note != "" && r.Kind == Log {
		tells = append(tells, t.note)
	}
	if len(tells) > 0 && r.Kind == Silent {
		r.Kind = Answer
		if fault {
			r.Kind = Error
		}
	}
	r.Text = strings.TrimSpace(r.Text + "\n" + strings.Join(tells, "\n"))
	if len(asks) == 0 {
		return r, nil
	}
	q, err := t.ask(asks, t.said)
	q.Text = strings.TrimSpace(r.Text + "\n" + q.Text)
	q.Entries = r.Entries
	return q, err
}

// isPlain says whether the entries are just what the cook said, with nothing odd
// about what that leaves.
func (t *turn) isPlain(entries []pantry.Entry, effects []pantry.Effect) bool {
	for i, e := range entries {
		l, f := t.k.Line(e.Line), effects[i]
		if e.Lot.State != "" || f.Over != 0 || f.Lost != 0 || l.Short() > 0 || l.OnHand() == 0 || t.ear.foodOf(l) == nil || e.Trim || e.Act == pantry.Make || t.besideCuts(e, l) != "" {
			return false
		}
	}
	return true
}

// dishes remembers dishes named for the first time.
func (t *turn) dishes(entries []pantry.Entry) error {
	for _, e := range entries {
		if _, away := pantry.Away(e.Dish); e.Dish != "" && !away {
			if err := t.book.AddDish(e.Dish); err != nil {
				return err
			}
		}
	}
	return nil
}

// logged is the reply to entries just written: what was understood, what is
// left, and an idea for it.
func (t *turn) logged(entries []pantry.Entry, effects []pantry.Effect) Reply {
	r := t.noted(entries, effects)
	if l := t.forIdea(entries); l != nil && !t.asks {
		for _, i := range t.aside(l) {
			r.Ideas = append(r.Ideas, i.Idea)
			r.Text += "\nFree " + l.Name + ": " + r.Ideas[0].say() + ` "more" for others.`
		}
	}
	return r
}

// noted is logged without the idea.
func (t *turn) noted(entries []pantry.Entry, effects []pantry.Effect) Reply {
	r := Reply{Kind: Log}
	for _, e := range entries {
		r.Entries = append(r.Entries, t.show(e))
	}
	var told []pantry.Entry
	var did []pantry.Effect
	for i := range entries {
		if !isPassing(entries, i) {
			told, did = append(told, entries[i]), append(did, effects[i])
		}
	}
	if len(told) == 1 {
		if r.Text = t.sayOne(told[0], did[0]); len(entries) > 1 { // nobody knows what is left in the pot
			r.Text = strings.TrimSuffix(r.Text, " None left.")
		}
	} else {
		r.Text = t.sayMany(told, did)
	}
	return r
}

// show gives an entry as the JSON has it.
func (t *turn) show(e pantry.Entry) Entry {
	l := t.k.Line(e.Line)
	s := Entry{Kind: string(e.Act), Item: l.Name, Amount: e.Amount.Units(), Unit: l.Unit.String(), Piece: e.Piece, Dish: e.Dish,
		Approx: e.Approx, Trim: e.Trim, Cook: t.k.CookName(e.Cook)}
	if e.Pieces != 0 {
		n := float64(e.Pieces) / 1000
		s.Pieces = &n
	}
	if e.Lot.Label || e.Lot.State != "" {
		s.UseBy, s.State = string(e.Lot.Date), string(e.Lot.State)
	}
	if e.Lot.Cost != 0 {
		c := float64(e.Lot.Cost) / 100
		s.Cost, s.Sign = &c, e.Sign
	}
	return s
}

// sayOne: "Leek 300 g into the tart. 600 g left, 400 g free."
func (t *turn) sayOne(e pantry.Entry, f pantry.Effect) string {
	l := t.k.Line(e.Line)
	by := ""
	if e.Cook != t.cook && e.Act != pantry.Claim && e.Act != pantry.Release {
		by = " (" + t.k.CookName(e.Cook) + ")"
	}
	switch e.Act {
	case pantry.Count:
		if e.Lot.State != "" {
			return t.sayTurned(e, f, l) + by
		}
		return title(l.Name) + " is " + counted(e, l) + lost(f, l) + "." + onePiece(e, l)
	case pantry.Release:
		return title(l.Name) + " " + measure.Say(f.Gave, l.Unit) + " released. " + t.stands(l)
	case pantry.Use:
		if e.Trim {
			return title(thing(l, e)) + t.verbal(e) + by + "; stock is as it was."
		}
	case pantry.Bin:
		if e.Trim {
			return title(thing(l, e)) + " of trim noted" + by + "; stock is as it was." + t.trimmed
		}
	case pantry.Receive:
		note := t.noFigures(l)
		if l.OnHand() == 0 && l.Variance < 0 { // an edit made it less than what was drawn since
			note += " More has been used since than came in."
		}
		return title(thing(l, e)) + t.verbal(e) + by + lotNote(e) + ". " + t.stands(l) + onePiece(e, l) + note + t.besideCuts(e, l) + t.keepNote(e, l) + t.cameLate(e, l)
	case pantry.Make:
		s := title(thing(l, e)) + t.verbal(e) + by + lotNote(e) + "."
		if l.OnHand() != e.Amount || l.Claimed() > 0 {
			s += " " + t.stands(l)
		}
		return s + t.keepNote(e, l)
	}
	return title(thing(l, e)) + t.verbal(e) + by + ". " + t.stands(l) + t.over(e, f, l)
}

// onePiece says what was learned of the weight of one, or given with a
// delivery: "One is 220 g."
func onePiece(e pantry.Entry, l *pantry.Line) string {
	if !e.Lot.Weighed || e.Pieces == 0 && e.Act != pantry.Count || e.Pieces == 1000 || e.Approx {
		return ""
	}
	return " One is " + measure.Say(e.Lot.PieceMg, l.Unit) + "."
}

func counted(e pantry.Entry, l *pantry.Line) string {
	switch {
	case e.Amount == 0:
		return "at none"
	case e.Approx && e.Lot.Weighed && e.Pieces > 0: // some were weighed, and all reckoned from them
		return fmt.Sprintf("%s (%s at %s)", amountOf(e, l.Unit), measure.SayPieces(e.Pieces), measure.Say(e.Lot.PieceMg, l.Unit))
	}
	return amountOf(e, l.Unit)
}

// lost says what a count found against the record.
func lost(f pantry.Effect, l *pantry.Line) string {
	switch {
	case f.Lost > 0:
		return ", " + measure.Say(f.Lost, l.Unit) + " less than the record"
	case f.Lost < 0:
		return ", " + measure.Say(-f.Lost, l.Unit) + " more than the record"
	}
	return ", as the record has it"
}

func lotNote(e pantry.Entry) string {
	var s string
	if e.Lot.Label {
		if s = ", use by " + string(e.Lot.Date); e.Lot.Best {
			s = ", best before " + string(e.Lot.Date)
		}
	}
	if e.Lot.Cost != 0 {
		s += ", cost " + e.Sign + sayCost(e.Lot.Cost)
	}
	return s
}

func (t *turn) noFigures(l *pantry.Line) string {
	if f := t.ear.foodOf(l); f != nil {
		note := t.checkLabel(l, f)
		if one := sayGuessed(l, f); one != "" {
			note += one + fmt.Sprintf(" If not: \"one %s is 80g\".", singular(l.Name))
		}
		return note
	}
	note := " No figures for " + l.Name + " yet: no ideas, and check labels for allergens."
	if by := food.Named(l.Name); len(by.Allergen) > 0 {
		note = " No figures for " + l.Name + " yet: no ideas. By its name it holds " + both(by.Allergen, "and") + "; check labels."
	}
	return note + sayGuessed(l, nil) + fmt.Sprintf(" Tell me: \"new food: %s, 80 g each, keeps 3 days\".", l.Name)
}

// sayGuessed: " One is taken as 100 g." of food that was counted and that nobody has weighed.
func sayGuessed(l *pantry.Line, f *food.Food) string {
	mg := l.PieceMg()
	if mg == 0 || l.Weighed() || mg != guessedPiece(l.Name, nil, f) {
		return ""
	}
	return " One is taken as " + measure.Say(mg, measure.Gram) + "."
}

// checkLabel reminds of the label of food that is made up by whoever made it: " Holds eggs,
// and perhaps more: check the label."
func (t *turn) checkLabel(l *pantry.Line, f *food.Food) string {
	switch {
	case !f.Unasked || f.Group != "prepared":
		return ""
	case len(f.Allergen) == 0:
		return " What it holds is by its label: check it for allergens."
	}
	return " Holds " + both(f.Allergen, "and") + ", and perhaps more: check the label."
}

// stands says what is left of a line: "600 g left, 400 g free."
func (t *turn) stands(l *pantry.Line) string {
	on, free := l.OnHand(), l.Free()
	left := measure.Say(on, l.Unit) + " left"
	if on == 0 {
		left = "None left"
	}
	switch {
	case l.Short() > 0:
		return left + ", " + measure.Say(l.Short(), l.Unit) + " short of what is claimed (" + holders(t.k, l) + ")."
	case free != on:
		return left + ", " + measure.Say(free, l.Unit) + " free."
	}
	return left + "."
}

// holders says who has claimed how much: "dee 200 g for the gratin".
func holders(k *pantry.Kitchen, l *pantry.Line) string {
	var list []string
	for _, h := range l.Holds {
		s := k.CookName(h.Cook) + " " + measure.Say(h.Amount, l.Unit)
		if h.Dish != "" {
			s += " for the " + h.Dish
		}
		list = append(list, s)
	}
	return strings.Join(list, ", ")
}

// over says that more was used than there was.
func (t *turn) over(e pantry.Entry, f pantry.Effect, l *pantry.Line) string {
	if f.Over == 0 {
		return ""
	}
	return " That is " + measure.Say(f.Over, l.Unit) + " more than the record had."
}

// sayMany: one line for all, then what is left of each.
func (t *turn) sayMany(entries []pantry.Entry, effects []pantry.Effect) string {
	var left, odd, unknown, parts []string
	same, alike := "", 0 // the note before, and where in odd it stands; parts are those that it is of
	for i, e := range entries {
		l := t.k.Line(e.Line)
		if e.Act != pantry.Receive || l.OnHand() != e.Amount { // what just came in, all can see
			left = appendOnce(left, l.Name+" "+measure.Say(l.OnHand(), l.Unit))
		}
		if o := t.over(e, effects[i], l); o != "" {
			odd = append(odd, title(l.Name)+":"+o)
		}
		if l.Short() > 0 {
			odd = append(odd, title(l.Name)+": "+t.stands(l))
		}
		if e.Act == pantry.Count && e.Lot.State != "" {
			odd = append(odd, title(l.Name)+":"+lower(t.turnedNote(e, l)))
		}
		if n := t.besideCuts(e, l); n != "" {
			odd = append(odd, title(l.Name)+":"+lower(n))
		}
		if n := t.cameLate(e, l); n != "" {
			odd = append(odd, title(l.Name)+":"+lower(n))
		}
		if n := t.keepNote(e, l); n != "" && t.cutting && n == same { // of all parts alike
			odd[alike] = title(both(append(parts, l.Name), "and")) + ":" + lower(n)
			parts = append(parts, l.Name)
		} else if n != "" {
			same, alike, parts = n, len(odd), []string{l.Name}
			odd = append(odd, title(l.Name)+":"+lower(n))
		}
		if e.Act == pantry.Receive && t.ear.foodOf(l) == nil {
			unknown = append(unknown, l.Name)
		}
	}
	text := title(t.together(entries)) + "."
	if len(left) > 0 {
		text += "\nLeft: " + strings.Join(left, ", ") + "."
	}
	if len(unknown) > 0 {
		odd = append(odd, fmt.Sprintf("No figures yet for %s: no ideas, and check labels for allergens. Tell me: \"new food: %s, like ..., 80 g each, keeps 3 days\".", both(unknown, "and"), unknown[0]))
	}
	if len(odd) > 0 {
		text += "\n" + strings.Join(odd, " ")
	}
	return text
}

// together says entries, naming an act and a dish that those in a row share once.
func (t *turn) together(entries []pantry.Entry) string {
	var runs []string
	for len(entries) > 0 {
		tail, n := t.verbal(entries[0]), 1
		for n < len(entries) && t.verbal(entries[n]) == tail {
			n++
		}
		var parts []string
		for _, e := range entries[:n] {
			parts = append(parts, thing(t.k.Line(e.Line), e))
		}
		runs, entries = append(runs, both(parts, "and")+tail), entries[n:]
	}
	return strings.Join(runs, "; ")
}
