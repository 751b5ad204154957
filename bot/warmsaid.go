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

// warm is what somebody told of food on some lines: it stood warm, came warm or smelt, or a fridge or freezer failed
// which it may have been in.
type warm struct {
	said  *pantry.Message    // by which it was told
	by    *pantry.Message    // which used such food or made something of it; said itself where it is the food
	why   *language.Question // nil where it was told by the way
	over  bool               // by several readings
	cold  *pantry.Message    // that told it to be cold, late; nil none
	hot   *pantry.Message    // that told it to be hot, late; nil none
	lines []*pantry.Line
	of    []*pantry.Line // that were told of, where these were made of them; nil they are the same
	cools string         // what its cooling comes to; "" it was not told to cool
	came  measure.Amount // what came in or was made since, of which it was not told
}

// warmSaid tells that somebody said of food on these lines that it stood warm, or smelt, since it came in or
// was made: no date knows of that. "" nobody did.
func (t *turn) warmSaid(lines []*pantry.Line) (string, error) {
	list, err := t.warmOf(lines)
	var says []string
	for _, w := range list {
		says = append(says, t.sayWarm(w))
	}
	return strings.Join(says, "\n"), err
}

// judged gives how much came in since of lines that are binned by what was told, and the names of those of which it is in
// doubt, and tells what that was.
func (t *turn) judged(told []warm) (over map[string]measure.Amount, doubt []string, says string) {
	var list []string
	over = map[string]measure.Amount{}
	for _, w := range told {
		list = append(list, t.sayWarm(w))
		for _, l := range w.lines {
			if t.isOver(w) {
				over[l.Name] = w.came
			} else {
				doubt = append(doubt, l.Name)
			}
		}
	}
	return over, doubt, strings.Join(list, "\n")
}

// longWarm gives the messages that told so.
func (t *turn) longWarm(lines []*pantry.Line) ([]warm, error) {
	list, err := t.warmOf(lines)
	return slices.DeleteFunc(list, func(w warm) bool { return !t.isOver(w) }), err
}

// isOver says whether what was told means that the food is binned, whatever its date.
func (t *turn) isOver(w warm) bool {
	if w.over {
		return true
	}
	if w.why == nil {
		return false
	}
	switch w.why.About {
	case language.AboutStood, language.AboutSmells:
		return true
	case language.AboutStoodHours:
		if len(w.of) > 0 {
			return w.why.N > t.mostOut(w.of)
		}
		return w.why.N > t.mostOut(w.lines)
	case language.AboutCooled:
		return w.why.N > mostHoursHot
	case language.AboutHeldAt:
		return hoursIn(w.said.Text) > mostHoursHot*60
	case language.AboutCameWarm: // what came soft is used within a day
		return w.why.State == "" && w.why.N > t.limits().cold || w.why.State == "soft" && eatenFrozen.MatchString(w.why.Food)
	}
	return false
}

// warnOver notes that what is used next was told to be unsafe, or may be.
func (t *turn) warnOver(l *pantry.Line) error {
	if l = t.k.Line(l.ID); l == nil || t.needsNoFridge(l) {
		return nil
	}
	list, err := t.warmOf([]*pantry.Line{l})
	for _, w := range list {
		says := t.sayWarm(w)
		switch {
		case t.isOver(w):
			says = "Do not serve it: " + says
		case !t.followsOn(w, t.m.At):
			continue
		default:
			was, err := t.usedSince(l, w)
			if err != nil {
				return err
			}
			if was { // who used it first was told
				continue
			}
		}
		if strings.Contains(t.note, says) {
			continue
		}
		if t.note != "" {
			says = t.note + "\n" + says
		}
		t.note = says
	}
	return err
}

// usedSince says whether some of a line was used before, since it was told of that.
func (t *turn) usedSince(l *pantry.Line, w warm) (bool, error) {
	told, err := t.doubts()
	if err != nil {
		return false, err
	}
	for _, d := range told {
		if d.Told.N != w.said.N || d.Message.N <= d.Told.N {
			continue
		}
		if lines, err := t.linesOf(d.Message, pantry.Use); err != nil || slices.Contains(lines, l) {
			return err == nil, err
		}
	}
	return false, nil
}

// ofCold are those that are told of what keeps food cold, not of the food.
var ofCold = []language.About{language.AboutFridge, language.AboutFridgeAt, language.AboutFreezer, language.AboutFreezerAt, language.AboutPower}

// ofFridge says whether it was told of a fridge or freezer, not of the food.
func (w warm) ofFridge() bool {
	return w.why != nil && slices.Contains(ofCold, w.why.About)
}

// warmOf gives the messages that told so of food on some lines, the latest of each; of a fridge only where nobody told
// it of the food.
func (t *turn) warmOf(lines []*pantry.Line) ([]warm, error) {
	list, err := t.warmLately(lines)
	if err != nil {
		return nil, err
	}
	pots, err := t.warmPots(lines)
	for _, p := range pots {
		l := p.lines[0]
		hides := func(w warm) bool {
			return slices.Contains(w.lines, l) && (w.said.N == p.said.N || t.isOver(w) || w.isLike(p) && t.howBad(w) >= t.howBad(p))
		}
		if slices.ContainsFunc(list, hides) {
			continue
		}
		if t.isOver(p) { // what is in doubt besides is not told
			for i := range list {
				list[i].lines = slices.DeleteFunc(slices.Clone(list[i].lines), func(o *pantry.Line) bool { return o == l })
			}
			list = slices.DeleteFunc(list, func(w warm) bool { return len(w.lines) == 0 })
		}
		list = append(list, p)
	}
	return list, err
}

// isLike says whether another is of the same kind, so that the later of them may stand for both: of a fridge, by a probe, or
// of the food.
func (w warm) isLike(o warm) bool {
	probed := func(w warm) bool { return w.why != nil && w.why.About == aboutReading }
	return w.ofFridge() == o.ofFridge() && probed(w) == probed(o)
}

// worstOf judges what was told of a line, the newest first: the worst of each kind. What is in doubt besides is not told of
// what is binned.
func (t *turn) worstOf(l *pantry.Line, told []heardOf) (list []warm) {
	var read []reading
	of := func(w warm) warm {
		w.lines = []*pantry.Line{l}
		return w
	}
	keep := func(w warm) {
		if !slices.ContainsFunc(list, func(o warm) bool { return o.isLike(w) && t.howBad(o) >= t.howBad(w) }) {
			list = append(list, w)
		}
	}
	reads := -1 // where in list the latest reading belongs
	for _, h := range told {
		w := of(warm{said: h.told, by: h.by, why: h.why, of: h.of, came: h.came})
		switch {
		case h.came > 0 && l.OnHand() <= h.came: // the oldest goes first
		case t.cookedOn(h.why, read):
		case h.why != nil && h.why.About == aboutReading && h.by.N == h.told.N:
			if read = append(read, reading{h.told, h.why}); reads < 0 {
				reads = len(list)
			}
		default:
			keep(w)
		}
	}
	if w := t.ofReadings(read, isRaw(l)); w != nil {
		older := list[reads:]
		list = slices.Clone(list[:reads])
		for _, o := range append([]warm{of(*w)}, older...) {
			keep(o)
		}
	}
	if i := slices.IndexFunc(list, t.isOver); i >= 0 {
		return list[i : i+1]
	}
	return list
}

// warmLately is warmOf of what was on hand when it was told, without what was told of the dish that it is left of.
func (t *turn) warmLately(lines []*pantry.Line) (list []warm, err error) {
	told, err := t.doubts()
	if err != nil || len(told) == 0 {
		return nil, err
	}
	heard := map[*pantry.Line][]heardOf{}
	for _, d := range told {
		about, why, err := t.warmIn(d)
		if err != nil {
			return nil, err
		}
		for _, l := range about {
			if !slices.Contains(lines, l) {
				continue
			}
			h := heardOf{told: d.Told, by: d.Message, why: why, of: t.into[[2]int64{d.Message.N, d.Told.N}].told()}
			if h.came, err = t.cameSince(l, d.Message, why); err != nil {
				return nil, err
			}
			if l.OnHand() > 0 {
				heard[l] = append(heard[l], h)
			}
		}
	}
	for _, l := range lines {
		for _, w := range t.worstOf(l, heard[l]) {
			if at := slices.IndexFunc(list, func(o warm) bool { return o.isSame(w) }); at < 0 {
				list = append(list, w)
			} else {
				list[at].lines = append(list[at].lines, l)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b warm) int { return t.howBad(b) - t.howBad(a) })
	return list, nil
}

// howBad orders what was told: it is binned, it is in doubt, or a fridge is which it may have been in.
func (t *turn) howBad(w warm) int {
	switch {
	case t.isOver(w):
		return 2
	case w.ofFridge():
		return 0
	}
	return 1
}

// isSame says whether the same was told of the lines of another, and nothing came in since of either.
func (w warm) isSame(o warm) bool {
	return w.said == o.said && w.by == o.by && w.over == o.over && w.came == 0 && o.came == 0
}

// cookedOn says whether food that was told to be pink was probed as cooked through since.
func (t *turn) cookedOn(why *language.Question, since []reading) bool {
	return why != nil && (why.About == language.AboutUndercooked || why.About == aboutMishandled && why.State != illTold) && slices.ContainsFunc(since, func(r reading) bool { return r.why.N >= t.limits().through })
}

// atTheDoor is how long after it was told how warm food came it may be written in.
const atTheDoor = time.Hour

// cameSince is how much of a line came in or was made since a message told of it.
func (t *turn) cameSince(l *pantry.Line, m *pantry.Message, why *language.Question) (new measure.Amount, err error) {
	later, err := t.book.Since(l.ID, m)
	since := m.At
	if why != nil && why.About == language.AboutCameWarm {
		since = since.Add(atTheDoor)
	}
	for _, e := range later {
		if e.At.After(since) && (e.Act == pantry.Make || e.Act == pantry.Receive) {
			new += e.Amount
		}
	}
	return new, err
}

// warmIn gives the lines of which it was told that they stood warm, came warm or smelt, or may have been in a fridge
// that failed, and what was made of such food.
func (t *turn) warmIn(d pantry.Doubt) (list []*pantry.Line, why *language.Question, err error) {
	m := d.Told
	if m.Gone || d.Message.Gone || m.Text == "" {
		return nil, nil, nil
	}
	if to := t.into[[2]int64{d.Message.N, m.N}]; to != nil && d.Message.N != m.N {
		for _, e := range to.entries {
			if e.Act == pantry.Make {
				list = append(list, t.k.Line(e.Line))
			}
		}
		return list, to.why, nil
	}
	q, lines, at := t.toldBy(m)
	t.outSince(q, at.Text, at.At)
	if err = t.pointed(q, m); err != nil {
		return nil, nil, err
	}
	if d.Message.N != m.N {
		list, err = t.linesOf(d.Message, pantry.Make)
		return list, q, err
	}
	var came []*pantry.Line
	if len(t.doorTemps(m.Text)) > 0 {
		if came, err = t.linesOf(m, pantry.Receive); err != nil {
			return nil, nil, err
		}
	}
	switch {
	case q == nil && len(t.doorTemps(m.Text)) > 0, len(came) > 0 && q.About == aboutReading && q.State == "": // read before it had come in
		list, at := t.cameBadOf(m.Text, came)
		why = &language.Question{About: language.AboutCameWarm, State: "frozen", N: freezerMark}
		for i, d := range at {
			if why.N = max(why.N, d.n); !isFrozen(list[i]) && !t.keptFrozen(list[i].Name) && d.n > freezingDoor {
				why.State = ""
			}
		}
		return list, why, nil
	case q == nil && language.SaysStoodOut(m.Text):
		list, err = t.linesOf(m, pantry.Make, pantry.Count, pantry.Receive, pantry.Use)
		return list, nil, err
	case q == nil || q.About != aboutReading && !t.isHazard(q):
		return nil, nil, nil
	case q.About == language.AboutFreezer, q.About == language.AboutFreezerAt:
		return t.linesWhere(func(l *pantry.Line) bool { return isFrozen(l) || t.keptFrozen(l.Name) }), q, nil
	case q.About == language.AboutPower:
		return t.linesWhere(func(l *pantry.Line) bool { return isFrozen(l) || t.keptFrozen(l.Name) || t.inFridge(l) }), q, nil
	case isDelivery(q.Food):
		list, err = t.cameAround(m, q.State == "frozen" || q.N < 0)
		return list, q, err
	case q.About == language.AboutFridge, q.About == language.AboutFridgeAt:
		in, other := t.toldIn(q.Place)
		return t.linesWhere(func(l *pantry.Line) bool {
			return t.inFridge(l) && (slices.Contains(in, l) || !slices.Contains(other, l))
		}), q, nil
	}
	for _, name := range append([]string{q.Food}, q.Also...) {
		if one := *q; lines == nil || name != q.Food {
			one.Food = name
			more, _ := t.warmLines(&one)
			lines = append(lines, more...)
		}
	}
	if t.sayCooked(q) != "" { // no line of it is meant
		lines = nil
	}
	if q.About == language.AboutCameWarm {
		lines = slices.DeleteFunc(lines, func(l *pantry.Line) bool {
			return q.State == "" && !t.inFridge(l) && !isFrozen(l) && !t.keptFrozen(l.Name)
		})
	}
	return lines, q, nil
}

// cameAround gives what must be kept cold of what came in with the delivery that a message tells of, frozen food alone
// where it was that.
func (t *turn) cameAround(m *pantry.Message, frozen bool) (list []*pantry.Line, err error) {
	for _, l := range t.k.Lines {
		if l.Made > 0 || l.OnHand() == 0 || !isFrozen(l) && !t.keptFrozen(l.Name) && (frozen || !t.inFridge(l)) {
			continue
		}
		by, err := t.book.CameWith(l.ID)
		if err != nil {
			return nil, err
		}
		if by != nil && m.At.Sub(by.At).Abs() <= 2*atTheDoor {
			list = append(list, l)
		}
	}
	return list, nil
}

// linesOf gives the lines of what a message wrote by some acts.
func (t *turn) linesOf(m *pantry.Message, acts ...pantry.Act) (list []*pantry.Line, err error) {
	entries, err := t.book.InForce(m)
	for _, e := range entries {
		if slices.Contains(acts, e.Act) {
			list = append(list, t.k.Line(e.Line))
		}
	}
	return list, err
}

func (t *turn) linesWhere(is func(*pantry.Line) bool) []*pantry.Line {
	return slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return !is(l) })
}

// inFridge says whether some of a line must be chilled, and is not frozen.
func (t *turn) inFridge(l *pantry.Line) bool {
	return slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool {
		return o.Left > 0 && o.State != food.Frozen && (isUseBy(o, l, t.ear.foodOf(l), t.country()) || t.mustChill(l.Name))
	})
}

// stoodWarm refuses to freeze what stood warm for too long, as somebody said: freezing makes it no safer. Of what may
// have been warm it only tells.
func (t *turn) stoodWarm(d *draft, l *pantry.Line) (result, error) {
	if d.State != food.Frozen || d.Yes {
		return result{}, nil
	}
	list, err := t.warmOf([]*pantry.Line{t.k.Line(l.ID)})
	if err != nil || len(list) == 0 {
		return result{}, err
	}
	w := list[0]
	if !t.isOver(w) {
		t.note = cmp.Or(t.note, t.sayWarm(w))
		return result{}, nil
	}
	return result{tell: "Not frozen: freezing makes it no safer. " + t.sayWarm(w), fault: true}, nil
}
