package language

import "strings"

// stoodOut reads that food was out of chill: "left the soup out overnight", "ham on the side since 6am".
func (h *hazard) stoodOut() *Question {
	if h.any("purpose", 0, len(h.t)) && !h.any("cooling", 0, len(h.t)) && !h.thawsWarm() {
		return nil
	}
	for i := range h.t {
		e := h.at("neverin", i)
		if e > i {
			if food, also := h.subject(h.starts(i), i); food != "" && !h.asked(i) {
				return h.stoodFor(food, also, i, e)
			}
			if food, also := h.foods(e, h.ends(e)); food != "" { // "never put in the fridge the soup" is rare; "wasnt put away, the soup"
				return h.stoodFor(food, also, i, e)
			}
		}
		if q := h.leftThere(i); q != nil {
			return q
		}
		if q := h.wasThere(i); q != nil {
			return q
		}
	}
	return nil
}

// thawsWarm says whether food is thawed in the warm, for long: "left defrosting on the side overnight".
func (h *hazard) thawsWarm() bool {
	thaws := strings.Contains(strings.ToLower(h.text), "defrost") || strings.Contains(strings.ToLower(h.text), "thaw")
	return thaws && h.any("place", 0, len(h.t)) && (h.long(0, len(h.t)) || h.hours(0, len(h.t)) > 0 || h.since(0, len(h.t)) != "")
}

// out gives where a phrase ends that stands at i and says where food was that must be chilled. Place says that food may be
// there on purpose; i none.
func (h *hazard) out(i int) (e int, place bool) {
	if h.is("notout", i) {
		return i, false
	}
	if e = h.at("where", i); e > i {
		if e < len(h.t) && h.t[e-1].w == "table" && h.t[e].num { // "out on table 4"
			return i, false
		}
		if k := h.at("place", e); k > e {
			e = k
		}
		return e, false
	}
	e = h.at("place", i)
	if e > i && e < len(h.t) && h.t[e-1].w == "table" && h.t[e].num {
		return i, false
	}
	return e, e > i && !h.is("offplace", i)
}

// leftThere reads the active voice: "someone left the rice out overnite", "forgot the soup on the stove last night".
func (h *hazard) leftThere(i int) *Question {
	e := h.at("did", i)
	if e == i {
		return nil
	}
	if h.is("firm", e) || h.is("purpose", e) { // "left sitting out"
		return nil
	}
	forgot := e > i+1 && h.t[e-1].w == "put"
	long := h.long(i, len(h.t)) || h.hours(i, len(h.t)) > 0 || h.since(i, len(h.t)) != ""
	if h.denied(i) && !forgot || h.asked(i) && !(long && h.t[h.skip("lead", h.starts(i), "")].w == "who") && h.starts(i) < i && !h.is("who", h.starts(i)+1) {
		return nil
	}
	if k := h.at("where", e); k > e && k < len(h.t) && h.t[e].w == "out" && k == e+1 { // "left out the soup overnight"
		if end := h.foodEnd(k); end > k {
			if food, also := h.foods(k, end); food != "" && long {
				return h.stoodFor(food, also, i, end)
			}
		}
		return nil
	}
	for k := e + 1; k < len(h.t) && k < e+8; k++ {
		if h.t[k].mark && h.t[k].w != "&" && h.t[k].w != "," {
			return nil
		}
		if h.t[k].num && h.t[k].w == "min" {
			return nil
		}
		x, place := h.out(k)
		cools := h.at("cooling", k)
		if a := h.at("away", k); forgot && a > k {
			if food, also := h.foods(e, k); food != "" {
				return h.stoodFor(food, also, i, a)
			}
			return nil
		}
		if forgot {
			continue
		}
		switch {
		case x > k && (long || !place && h.t[k].w != "out" || !place && h.loose(x)), cools > k && long:
			food, also := h.foods(e, k)
			if food == "" {
				return nil
			}
			return h.stoodFor(food, also, i, max(x, cools))
		case x > k || h.is("notout", k):
			return nil
		}
	}
	return nil
}

// loose says whether nothing stands behind a bare "out" that gives it another meaning: "left the chicken out", not "left
// the onion out of it", "left the cake out for mum".
func (h *hazard) loose(i int) bool {
	return i >= len(h.t) || h.t[i].mark || h.is("tail", i) && h.t[i].w != "for" && h.t[i].w != "on" && h.t[i].w != "in" && h.t[i].w != "because" && h.t[i].w != "cos"
}

// wasThere reads the passive: "soup been on the side since lunch", "stew out 3 hrs n still warm".
func (h *hazard) wasThere(i int) *Question {
	x, place := h.out(i)
	if x == i {
		if x = h.at("cooling", i); x == i || h.backs("firm", 0, i) == 0 {
			return nil
		}
		place = true
	}
	begin := h.starts(i)
	if n := h.backs("did", begin, i); n > 0 && i-n == begin { // "left on the side, the ham"
		begin = i - n
	}
	hours, since, long := h.hours(x, len(h.t)), h.since(x, len(h.t)), h.long(x, len(h.t))
	if hours == 0 && since == "" && !long {
		hours, long = h.hours(begin, i), h.long(begin, i)
	}
	told := hours > 0 || since != "" || long
	firm, verb := h.backs("firm", begin, i) > 0 || h.at("firm", i) > i, h.backs("stood", begin, i) > 0
	if h.t[i].w == "left" {
		firm = true
	}
	if !told && !h.denied(i) && !h.asked(i) && h.anyWord("still", begin, i) && h.loose(x) {
		if food, also := h.subject(begin, i); food != "" {
			return &Question{About: AboutStoodHours, Food: food, Also: also, State: "still"}
		}
	}
	switch {
	case h.denied(i), !told && (!firm || place || !h.loose(x)):
		return nil
	case h.asked(i) && !(told && verb):
		return nil
	case place && h.t[i].w == "in" && !verb && !firm:
		return nil
	case !firm && h.anyAt("heatplace", i) && !h.any("night", 0, len(h.t)): // it cooks
		return nil
	case h.t[i].w == "out" && !verb && !firm && !h.directly(x, since, hours, long):
		return nil
	}
	food, also := h.subject(begin, i)
	if food == "" && begin > 0 && h.t[begin-1].mark { // "custard, been out since 3"
		food, also = h.subject(h.starts(begin-1), begin-1)
	}
	if food == "" {
		return nil
	}
	return h.stoodFor(food, also, begin, x)
}

// anyAt says whether a phrase of a class stands at i, or behind a word of it: "out on the stove".
func (h *hazard) anyAt(class string, i int) bool { return h.is(class, i) || h.is(class, i+1) }

// directly says whether how long it was stands right behind a bare "out": "custard out 5 hrs", not "chicken out of the
// oven, done in 2 hours".
func (h *hazard) directly(x int, since string, hours int, long bool) bool {
	for k := x; k < len(h.t) && k < x+4; k++ {
		if h.t[k].mark && h.t[k].w != "," {
			return false
		}
		if h.t[k].num && h.t[k].w == "hour" && h.hours(k, k+1) > 0 || h.t[k].num && h.t[k].w == "min" && h.hours(k, k+1) > 0 || h.is("long", k) || h.is("since", k) && since != "" {
			return true
		}
	}
	return false
}

// foodEnd gives where the words of a food end that begin at i: before how long, or the next mark.
func (h *hazard) foodEnd(i int) int {
	for i < len(h.t) && !h.t[i].mark && !h.t[i].num && !h.is("long", i) && !h.is("since", i) && !(h.t[i].w == "for") && !h.is("place", i) {
		i++
	}
	return i
}

func (h *hazard) long(from, to int) bool { return h.any("long", from, to) }

// stoodFor is the question of food that was out, for as long as the text tells.
func (h *hazard) stoodFor(food string, also []string, from, to int) *Question {
	q := &Question{About: AboutStoodHours, Food: food, Also: also}
	if q.N = h.hours(to, len(h.t)); q.N == 0 {
		q.N = h.hours(from, to)
	}
	if q.N > 0 {
		return q
	}
	if q.At = h.since(from, len(h.t)); q.At == "" && !h.long(from, len(h.t)) && to+1 < len(h.t) && h.t[to].w == "at" && h.t[to+1].num && (h.t[to+1].w == "clock" || h.t[to+1].w == "") { // "left on the step at 5"
		q.At = h.clock(to + 1)
	}
	if q.At != "" || h.long(from, len(h.t)) {
		q.About = AboutStood
	}
	return q
}

// anyWord says whether a word stands between two tokens.
func (h *hazard) anyWord(w string, from, to int) bool {
	for i := from; i < to; i++ {
		if !h.t[i].num && h.t[i].w == w {
			return true
		}
	}
	return false
}
