package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// reading is what a probe showed of food, as a message told it.
type reading struct {
	said *pantry.Message
	why  *language.Question
}

// ofReadings judges what was read of the same food, the newest first: nil where the last reading was good, and came in
// time. Food that is cooled or heated passes through what it must not stay at: only what was read to be so twice, too
// long apart, was so all that time.
func (t *turn) ofReadings(list []reading, raw bool) *warm {
	var from time.Time // since when it was warm
	var last *warm
	for _, r := range slices.Backward(list) {
		long := !from.IsZero() && r.said.At.Sub(from) > mostHoursHot*time.Hour
		if t.isUnproven(r, raw) { // hot, and not through
			from, last = time.Time{}, &warm{said: r.said, by: r.said, why: r.why}
			continue
		}
		if !t.isWarm(r.why.N) {
			if long && r.why.N < t.limits().hot { // it was cold at last, and nobody knows since when
				last.cold = r.said
				return last
			}
			from, last = time.Time{}, nil
			continue
		}
		if last = (&warm{said: r.said, by: r.said, why: r.why, over: long}); from.IsZero() {
			from = r.said.At
		}
		if long {
			return last
		}
	}
	return last
}

// isUnproven says whether a reading is of food that is hot, and by that not cooked or reheated through: of what came raw,
// or was probed.
func (t *turn) isUnproven(r reading, raw bool) bool {
	return r.why.N >= t.limits().hot && r.why.N < t.limits().through && (raw || r.why.State == "probed") && !t.heldThrough(r.why.N, r.said.Text)
}

// isRaw says whether all of a line is as it came, and no food that is eaten so.
func isRaw(l *pantry.Line) bool {
	return l.Made == 0 && !slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && isOld(o.State) })
}

// isJust says whether a reading was told so lately that nothing is wrong yet: food that is heated or cooled passes through.
func (t *turn) isJust(w warm) bool {
	return w.why != nil && w.why.About == aboutReading && !w.over && t.m.At.Sub(w.said.At) <= mostHoursHot*time.Hour
}

// warmSince gives the earliest reading since which food on some lines was told to be warm, and nothing better; nil none.
func (t *turn) warmSince(lines []*pantry.Line, food string) (*pantry.Message, error) {
	told, err := t.doubts()
	if err != nil {
		return nil, err
	}
	var first *pantry.Message
	for _, d := range told {
		if d.Message.At.Before(t.m.At.Add(-serviceLong)) {
			break
		}
		of, why, err := t.warmIn(d)
		if err != nil {
			return nil, err
		}
		if why == nil || why.About != aboutReading {
			continue
		}
		here := len(of) == 0 && strings.EqualFold(why.Food, food)
		for _, l := range of {
			came, err := t.cameSince(l, d.Message, why)
			if err != nil {
				return nil, err
			}
			here = here || slices.Contains(lines, l) && l.OnHand() > came
		}
		if !here {
			continue
		}
		if !t.isWarm(why.N) {
			break
		}
		first = d.Told
	}
	return first, nil
}

var hoursSaid = regexp.MustCompile(`(?i)\b(\d{1,2}(?:\.\d)?) ?(hours?|hrs?|h|mins?|minutes)\b`)

// hoursIn is for how many minutes a text says that something was so; 0 it does not.
func hoursIn(text string) int {
	m := hoursSaid.FindStringSubmatch(text)
	if m == nil {
		return 0
	}
	n, _ := strconv.ParseFloat(m[1], 64)
	if strings.HasPrefix(strings.ToLower(m[2]), "m") {
		return int(n)
	}
	return int(n * 60)
}

// cameAt is at how many degrees C food came in, where the message that takes it in tells that: "got 5kg chicken at
// 12c"; 0 nobody said.
func (t *turn) cameAt(text string) int {
	low := strings.ToLower(text)
	if !comesIn.MatchString(low) || kitTold.MatchString(low) {
		return 0
	}
	worst := 0
	for _, part := range eachCame.Split(low, -1) {
		worst = max(worst, t.degreesAt(part))
	}
	return worst
}

// eachCame parts what came in with its degrees from what else did.
var eachCame = regexp.MustCompile(`[,;\n]| and | & `)

// cameOf is cameAt of one line: by the part of the message that names it.
func (t *turn) cameOf(text string, l *pantry.Line) int {
	parts := eachCame.Split(strings.ToLower(text), -1)
	for _, part := range parts {
		if strings.Contains(part, singular(lastWord(strings.ToLower(l.Name)))) {
			if n := t.degreesAt(part); n != 0 || len(parts) > 1 && saysDegrees.MatchString(part) {
				return n
			}
			break
		}
	}
	if len(saysDegrees.FindAllString(strings.ToLower(text), 2)) > 1 { // each has its own
		return 0
	}
	return t.cameAt(text)
}

// degreesAt is the degrees C that a text tells; 0 none.
func (t *turn) degreesAt(low string) int {
	m := saysDegrees.FindStringSubmatch(low)
	if m == nil {
		return 0
	}
	n, _ := strconv.Atoi(m[1])
	if strings.Contains(m[2], "f") || t.country() == "US" && !strings.Contains(m[2], "c") {
		n = inCelsius(n)
	}
	return n
}

// comesIn says that food comes in.
var comesIn = regexp.MustCompile(`(?i)\b(?:got|delivery|delivered|arrived|came|received|in from|took in|taken in)\b`)

// mindCameWarm adds to what came in, too warm as its message tells, that it is sent back.
func (t *turn) mindCameWarm(r Reply) Reply {
	if t.cameAt(t.m.Text) <= t.limits().cold {
		return r
	}
	for _, e := range r.Entries {
		if l := t.k.Named(e.Item); l != nil && e.Kind == string(pantry.Receive) && t.inFridge(l) && t.cameOf(t.m.Text, l) > t.limits().cold {
			r.Text += fmt.Sprintf("\n%s at %d C at the door: what must be chilled and comes above %d C is sent back, or binned; probe between packs, and write it down. No date allows for that.", title(l.Name), t.cameOf(t.m.Text, l), t.limits().cold)
			break
		}
	}
	return r
}
