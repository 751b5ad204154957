package bot

import (
	"cmp"
	"regexp"
	"slices"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// Of which uses of food what was told of it holds: what was told before, of what was drawn then, and what was so already
// when it was told.

// toldBefore gives what was told of a line as it stood when some of it was used, of which it was drawn.
func (x *trailing) toldBefore(l *pantry.Line, before []pantry.Placed, use pantry.Placed, heard []heardOf) (list []heardOf) {
	var told []heardOf
	for _, h := range heard {
		if h.by.N > use.N || h.by.N == use.N && h.told.N != use.N { // what is made is not what it is made of
			continue
		}
		since := h.by.At
		if h.why != nil && h.why.About == language.AboutCameWarm {
			since = since.Add(atTheDoor)
		}
		after, _ := slices.BinarySearchFunc(before, h.by.N+1, func(p pantry.Placed, n int64) int { return cmp.Compare(p.N, n) })
		for _, p := range before[after:] {
			if p.At.After(since) && (p.Act == pantry.Make || p.Act == pantry.Receive) {
				h.came += p.Amount
			}
		}
		told = append(told, h)
	}
	slices.SortStableFunc(told, func(a, b heardOf) int { return cmp.Compare(b.by.N, a.by.N) })
	for _, w := range x.t.worstOf(l, told) {
		if x.t.followsOn(w, use.At) {
			i := slices.IndexFunc(told, func(h heardOf) bool { return h.told.N == w.said.N })
			list = append(list, told[i])
		}
	}
	return list
}

// followsOn says whether what was told of food is told of what it goes into as well.
func (t *turn) followsOn(w warm, used time.Time) bool {
	switch {
	case t.isOver(w), w.ofFridge(), w.why == nil:
		return true
	case w.why.About == aboutReading: // food that is heated or cooled passes through
		return used.Sub(w.said.At) > mostHoursHot*time.Hour
	case w.why.About == language.AboutStoodHours: // not for too long
		return w.why.N > mostHoursHot
	case w.why.About == language.AboutCameWarm: // what came soft is used within a day
		return used.Sub(w.said.At) > 24*time.Hour
	}
	return true
}

// leastUnproven is from how many degrees C on food that was probed was being cooked. The program's own choice.
const leastUnproven = 30

// For how long before it was told food may have been so already; longestBefore is the most of these. The program's own choice.
const (
	longestBefore = 24 * time.Hour
	nightBefore   = 16 * time.Hour // "overnight", "since last night"
)

// saysNight tells of a time that began the evening before.
var saysNight = regexp.MustCompile(`(?i)\b(?:over ?night|all night|last night|yesterday|since (?:this )?morning|since breakfast)\b`)

// wasSoBefore says whether what was told of a line after some of it was used was so of that already.
func (t *turn) wasSoBefore(l *pantry.Line, h heardOf, use pantry.Placed, story []pantry.Placed, heard []heardOf) bool {
	if h.by.N != h.told.N || h.told.N <= use.N || h.why == nil || use.At.After(h.told.At) {
		return false
	}
	ago := h.told.At.Sub(use.At)
	if ago > longestBefore || cameAnew(l, use, h.told, story) {
		return false
	}
	switch h.why.About {
	case language.AboutStoodHours:
		return h.why.N > mostHoursHot && ago <= time.Duration(h.why.N)*time.Hour
	case language.AboutFridgeAt, language.AboutFridge, language.AboutFreezer, language.AboutFreezerAt, language.AboutPower:
		if !t.isHazard(h.why) {
			return false
		}
		long := time.Duration(t.limits().out) * time.Hour
		switch n := hoursIn(h.told.Text); {
		case n > 0:
			long = time.Duration(n) * time.Minute
		case saysNight.MatchString(h.told.Text):
			long = nightBefore
		}
		return ago <= long
	case language.AboutStood, language.AboutSmells, aboutMishandled:
		return ago <= longestBefore
	case language.AboutCameWarm: // all that was used of that delivery
		if !t.cameBad(h.why) {
			return false
		}
		for _, p := range slices.Backward(story) {
			if p.Act == pantry.Receive && p.N < h.told.N {
				return p.N < use.N && h.told.At.Sub(p.At) <= longestBefore
			}
		}
		return false
	case language.AboutUndercooked, aboutReading: // it is probed in what it went into
		if h.why.About == aboutReading && (h.why.State != "probed" || h.why.N < leastUnproven || h.why.N >= t.limits().through || t.heldThrough(h.why.N, h.told.Text) || leftThen(l, h.told, story)) {
			return false
		}
		return ago <= serviceLong && !slices.ContainsFunc(heard, func(o heardOf) bool {
			return o.told.N > h.told.N && o.why != nil && o.why.About == aboutReading && o.why.N >= t.limits().through
		})
	}
	return false
}

// cameAnew says whether all of a line was used up after a use of it, and more came in before a message was said, which tells of that.
func cameAnew(l *pantry.Line, use pantry.Placed, m *pantry.Message, story []pantry.Placed) bool {
	at, err := pantry.Fold(*l, nil)
	for _, p := range story {
		if p.N >= m.N || err != nil {
			break
		}
		if p.N > use.N && at.OnHand() == 0 && (p.Act == pantry.Receive || p.Act == pantry.Make) {
			return true
		}
		_, err = at.Apply(p.Entry)
	}
	return false
}

// leftThen says whether some of a line was left when a message was said: a probe is of that.
func leftThen(l *pantry.Line, m *pantry.Message, story []pantry.Placed) bool {
	at, err := pantry.Fold(*l, nil)
	for _, p := range story {
		if p.N < m.N && err == nil {
			_, err = at.Apply(p.Entry)
		}
	}
	return err != nil || at.OnHand() > 0
}
