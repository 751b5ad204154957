package bot

import (
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
	list = slices.Clone(list)
	for i, r := range list {
		list[i] = t.byProbe(r)
	}
	if w, ok := t.ofCooling(list); ok {
		return w
	}
	var from time.Time // since when it was warm
	var last *warm
	for _, r := range slices.Backward(list) {
		long := !from.IsZero() && r.said.At.Sub(from) > mostHoursHot*time.Hour
		if t.isUnproven(r, raw) && !(long && !raw) { // hot, and not through
			from, last = time.Time{}, &warm{said: r.said, by: r.said, why: r.why}
			continue
		}
		if !t.isWarm(r.why.N) {
			if long && !(raw && r.why.N >= t.limits().hot) { // it was cold or hot at last, and nobody knows since when; what is raw is cooked
				if last.cold = r.said; r.why.N >= t.limits().hot {
					last.cold, last.hot, last.over = nil, r.said, true
				}
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
	return r.why.N >= t.limits().hot && r.why.N < t.limits().through && (raw || r.why.State == "probed") && !t.heldThrough(r.why.N, r.said.Text) && !t.heldFish(r.why.Food, r.why.N, r.said.Text)
}

// isRaw says whether all of a line is as it came, and no food that is eaten so.
func isRaw(l *pantry.Line) bool {
	return l.Made == 0 && !slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && isOld(o.State) })
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

// comesIn says that food comes in.
var comesIn = regexp.MustCompile(`(?i)\b(?:got|delivery|deliveries|delivered|arrived|came|received|landed|in from|took in|taken in)\b`)
