package bot

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// Where food went of which something was told. It is read from the entries in force, by whatever message and answer they
// were written, and whether it was told before the food was used or after.

// heardOf is what was told of food on a line.
type heardOf struct {
	told *pantry.Message
	by   *pantry.Message // by which it is on the line: told itself, or what made the line of such food
	why  *language.Question
	of   []*pantry.Line // that were told of, where the line was made of them
	came measure.Amount // what came in or was made since
}

// trail is where such food went, by the message that wrote it and the one that told.
type trail map[[2]int64]*wentTo

// wentTo are the entries by which food went into a dish, or something was made of it, and what was told of it.
type wentTo struct {
	why     *language.Question
	of      []*pantry.Line // that were told of
	entries []pantry.Entry
}

// add keeps one more entry; false where it is there already.
func (x trail) add(key [2]int64, h heardOf, e pantry.Entry) bool {
	if x[key] == nil {
		x[key] = &wentTo{why: h.why}
	}
	for _, l := range h.of {
		x[key].of = appendLine(x[key].of, l)
	}
	if slices.Contains(x[key].entries, e) {
		return false
	}
	x[key].entries = append(x[key].entries, e)
	return true
}

// trailing is what is being found out of the trail.
type trailing struct {
	t       *turn
	tells   []pantry.Doubt
	stories map[int64][]pantry.Placed
	heard   map[int64][]heardOf
	into    trail
	open    []int64 // lines whose entries are to be looked at
}

// withTrail adds to what was told the messages that used or made something of such food. Stored are those that were found
// before: they count for what is older than the ledger is searched.
func (t *turn) withTrail(stored []pantry.Doubt) ([]pantry.Doubt, error) {
	x := trailing{t: t, stories: map[int64][]pantry.Placed{}, heard: map[int64][]heardOf{}, into: trail{}}
	for _, d := range stored {
		if d.Message.N == d.Told.N {
			x.tells = append(x.tells, d)
		}
	}
	if len(x.tells) == 0 {
		return stored, nil
	}
	was := t.told
	t.told = &x.tells
	err := x.find()
	if t.told = was; err != nil {
		return nil, err
	}
	t.into, t.unsaved = x.into, nil
	var numbers []int64
	for p := range x.into {
		numbers = append(numbers, p[0])
	}
	list, messages, told := slices.Clone(x.tells), map[int64]*pantry.Message{}, map[int64]*pantry.Message{}
	for _, d := range x.tells {
		told[d.Told.N] = d.Told
	}
	found, err := t.book.Numbered(numbers)
	if err != nil {
		return nil, err
	}
	for _, m := range found {
		messages[m.N] = m
	}
	for p := range x.into {
		if m := messages[p[0]]; m != nil && m.N < t.said.N && m.N != p[1] {
			d := pantry.Doubt{Message: m, Told: told[p[1]]}
			if list = append(list, d); !slices.ContainsFunc(stored, func(o pantry.Doubt) bool { return o.Message.N == m.N && o.Told.N == p[1] }) {
				t.unsaved = append(t.unsaved, d)
			}
		}
	}
	for _, d := range stored {
		if d.Message.N != d.Told.N && d.Message.N < t.said.N-pantry.LookBack {
			list = append(list, d)
		}
	}
	slices.SortStableFunc(list, func(a, b pantry.Doubt) int {
		return cmp.Or(cmp.Compare(b.Message.N, a.Message.N), cmp.Compare(b.Told.N, a.Told.N))
	})
	return list, nil
}

// find looks for all uses of food of which something was told.
func (x *trailing) find() error {
	had, err := x.t.usedUp(x.tells[len(x.tells)-1].Told.At.Add(-longestBefore))
	if err != nil {
		return err
	}
	return x.t.asBefore(had, func() error {
		for _, d := range x.tells {
			lines, why, err := x.t.warmIn(d)
			if err != nil {
				return err
			}
			for _, l := range lines {
				x.hear(l.ID, heardOf{told: d.Told, by: d.Told, why: why})
			}
		}
		for len(x.open) > 0 {
			id := x.open[0]
			x.open = x.open[1:]
			if err := x.follow(x.t.k.Line(id)); err != nil {
				return err
			}
		}
		return nil
	})
}

// hear notes what was told of a line.
func (x *trailing) hear(line int64, h heardOf) {
	if slices.ContainsFunc(x.heard[line], func(o heardOf) bool { return o.told.N == h.told.N && o.by.N == h.by.N }) {
		return
	}
	if x.heard[line] = append(x.heard[line], h); !slices.Contains(x.open, line) {
		x.open = append(x.open, line)
	}
}

// story gives the entries in force of a line.
func (x *trailing) story(line int64) ([]pantry.Placed, error) {
	if s, known := x.stories[line]; known {
		return s, nil
	}
	err := x.t.book.Story(line, func(e pantry.Placed) error {
		x.stories[line] = append(x.stories[line], e)
		return nil
	})
	return x.stories[line], err
}

// told gives the lines that were told of.
func (w *wentTo) told() []*pantry.Line {
	if w == nil {
		return nil
	}
	return w.of
}

func appendLine(list []*pantry.Line, l *pantry.Line) []*pantry.Line {
	if slices.Contains(list, l) {
		return list
	}
	return append(list, l)
}

// usedUp gives, of lines that were used up for dishes since a time, what they had before it.
func (t *turn) usedUp(since time.Time) (map[*pantry.Line][]pantry.Lot, error) {
	uses, err := t.book.IntoDish("", since)
	had := map[*pantry.Line][]pantry.Lot{}
	for _, e := range uses {
		l := t.k.Line(e.Line)
		if err != nil {
			return nil, err
		}
		if l == nil || had[l] != nil || l.OnHand() > 0 || e.Act != pantry.Use {
			continue
		}
		var at pantry.Line
		if at, err = pantry.Fold(*l, nil); err != nil {
			return nil, err
		}
		err = t.book.Story(l.ID, func(p pantry.Placed) error {
			if at.OnHand() > 0 {
				had[l] = slices.Clone(at.Lots)
			}
			_, err := at.Apply(p.Entry)
			return err
		})
	}
	return had, err
}

// asBefore has the lines that were used up stand as they did before while do looks at them.
func (t *turn) asBefore(had map[*pantry.Line][]pantry.Lot, do func() error) error {
	if len(had) == 0 {
		before := t.stoodFull
		t.stoodFull = true
		defer func() { t.stoodFull = before }()
		return do()
	}
	now, hazards, heats, hot, before := map[*pantry.Line][]pantry.Lot{}, t.hazards, t.heats, t.hot, t.stoodFull
	for l, lots := range had {
		now[l], l.Lots = l.Lots, lots
	}
	t.hazards, t.heats, t.hot, t.stoodFull = nil, nil, nil, true
	defer func() {
		for l, lots := range now {
			l.Lots = lots
		}
		t.hazards, t.heats, t.hot, t.stoodFull = hazards, heats, hot, before
	}()
	return do()
}

// follow looks at all uses of a line for what was told of it by then, and since.
func (x *trailing) follow(l *pantry.Line) error {
	if x.t.needsNoFridge(l) && !slices.ContainsFunc(x.heard[l.ID], func(h heardOf) bool { return h.why != nil && h.why.About == aboutMishandled }) {
		return nil
	}
	s, err := x.story(l.ID)
	if err != nil {
		return err
	}
	at, err := pantry.Fold(*l, nil)
	if err != nil {
		return err
	}
	first := slices.MinFunc(x.heard[l.ID], func(a, b heardOf) int { return a.told.At.Compare(b.told.At) }).told.At.Add(-longestBefore)
	for i, p := range s {
		if p.Act == pantry.Use && !p.Trim && !p.At.Before(first) {
			for _, told := range x.toldBefore(&at, s[:i], p, x.heard[l.ID]) {
				if err := x.went(p, told); err != nil {
					return err
				}
			}
			for _, h := range x.heard[l.ID] {
				if x.t.wasSoBefore(l, h, p, s, x.heard[l.ID]) {
					if err := x.went(p, h); err != nil {
						return err
					}
				}
			}
		}
		if _, err := at.Apply(p.Entry); err != nil {
			return err
		}
	}
	return nil
}

// went notes that food went into a dish, and is in what was made of it.
func (x *trailing) went(use pantry.Placed, h heardOf) error {
	if _, away := pantry.Away(use.Dish); away {
		return nil
	}
	key := [2]int64{use.N, h.told.N}
	by, err := x.t.book.Numbered([]int64{use.N})
	if err != nil || len(by) == 0 {
		return err
	}
	entries, err := x.t.book.InForce(by[0])
	if err != nil || use.Dish == "" && !slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Act == pantry.Make }) {
		return err
	}
	if len(h.of) == 0 {
		h.of = []*pantry.Line{x.t.k.Line(use.Line)}
	}
	if !x.into.add(key, h, use.Entry) {
		return nil
	}
	for _, e := range entries {
		if e.Act == pantry.Make && (use.Dish == "" || e.Dish == "" || e.Dish == use.Dish) {
			x.made(key, e, heardOf{told: h.told, by: by[0], why: h.why, of: h.of})
		}
	}
	return x.putBy(use, h)
}

// made notes that a line was made of such food.
func (x *trailing) made(key [2]int64, e pantry.Entry, h heardOf) {
	x.into.add(key, h, e)
	x.hear(e.Line, h)
}

// putBy looks for what was put by of a dish that food went into.
func (x *trailing) putBy(use pantry.Placed, h heardOf) error {
	if use.Dish == "" {
		return nil
	}
	for _, l := range x.t.k.Lines {
		if l.Made == 0 {
			continue
		}
		s, err := x.story(l.ID)
		if err != nil {
			return err
		}
		for _, p := range s {
			if p.Act != pantry.Make || p.N == use.N || p.At.Sub(use.At).Abs() > pantry.LeftOver || p.Dish != use.Dish && !isPotOf(l.Name, use.Dish) {
				continue
			}
			by, err := x.t.book.Numbered([]int64{p.N})
			if err != nil || len(by) == 0 {
				return err
			}
			x.made([2]int64{p.N, h.told.N}, p.Entry, heardOf{told: h.told, by: by[0], why: h.why, of: h.of})
		}
	}
	return nil
}

// dishesInDoubt gives the dishes that such food went into lately.
func (t *turn) dishesInDoubt() (names []string, err error) {
	if _, err := t.doubts(); err != nil {
		return nil, err
	}
	for _, to := range t.into {
		for _, e := range to.entries {
			if e.Act == pantry.Use && e.Dish != "" && t.m.At.Sub(e.At) <= pantry.LeftOver {
				names = appendOnce(names, e.Dish)
			}
		}
	}
	slices.Sort(names)
	return names, nil
}

// mindFollowed tells of what is told now where such food is already: it went into a dish, or something was made of it.
func (t *turn) mindFollowed(r Reply) (Reply, error) {
	if t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 {
		return r, nil
	}
	q, _ := t.hazardIn(t.m.Text)
	if !t.isHazard(q) {
		return r, nil
	}
	told, err := t.doubts()
	if err != nil {
		return r, err
	}
	said := *t.said
	said.Text = t.m.Text
	now := *t
	now.told, now.hazards, now.heats, now.hot, now.said = nil, nil, nil, nil, &said
	if _, err := now.withTrail(append([]pantry.Doubt{{Message: &said, Told: &said}}, told...)); err != nil {
		return r, err
	}
	var names []string
	for key, to := range now.into {
		if key[1] != said.N || key[0] == said.N {
			continue
		}
		for _, e := range to.entries {
			if e.Act == pantry.Make {
				names = appendOnce(names, t.k.Line(e.Line).Name)
			} else if e.Dish != "" {
				names = appendOnce(names, e.Dish)
			}
		}
	}
	if len(names) == 0 {
		return r, nil
	}
	slices.Sort(names)
	says := "Such food went into the " + both(names, "and") + " already: hold that back as well, it goes by the same."
	if slices.Contains(ofCold, q.About) {
		says = "Food that may have been in it went into the " + both(names, "and") + " already: that goes by the same."
	}
	switch r.Kind {
	case Silent:
		w := warm{said: &said, by: &said, why: q}
		r.Kind, r.Text = Answer, t.sayWarm(w)+"\n"+says
	default:
		text, rules := strings.CutSuffix(r.Text, ownRules)
		if r.Text = strings.TrimSpace(text + "\n" + says); rules {
			r.Text += ownRules
		}
	}
	return r, nil
}
