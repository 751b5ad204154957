package language

import (
	"slices"
	"strings"
)

// coldRead is what a fridge or freezer shows.
type coldRead struct {
	freezer, f, signed bool
	n                  int
	place              string
}

// cold reads what fridges and freezers show, or that one failed.
func (h *hazard) cold() *Question {
	var list []coldRead
	var failed *Question
	for i := 0; i < len(h.t); i++ {
		freezer := h.is("freezer", i)
		e := max(h.at("cold", i), h.at("freezer", i))
		if e == i {
			continue
		}
		begin := h.named(i)
		if n, ok := h.inThere(begin); ok && !h.denied(begin) && !h.asked(begin) {
			place, _ := h.numbered(begin, e)
			list = append(list, coldRead{freezer: freezer, f: h.t[n].w == "f", signed: h.t[n].signed, n: up(h.t[n].v), place: place})
			continue
		}
		if h.any("part", 0, len(h.t)) && !h.ordered(i) && h.partBroke() {
			failed = &Question{About: AboutFridge, Place: strings.ToLower(h.text[h.t[begin].from:h.t[e-1].to])}
			if freezer {
				failed.About = AboutFreezer
			}
		}
		if h.elsewhere(begin, e) {
			continue
		}
		sure := !h.any("unsure cold", i, e) || h.leads(begin) || h.backs("undid", 0, begin) > 0
		place, k := h.numbered(begin, e)
		if k = h.skip("sheet", h.skip("link", k, ":-=("), ":-=("); k < len(h.t) && h.is("link", k) {
			k = h.skip("link", k, ":-=(")
		}
		if reads, end := h.readings(k); len(reads) > 0 {
			if (sure || h.t[k].w != "") && !h.denied(i) && !h.asked(i) {
				for _, x := range reads {
					x.freezer, x.place = freezer, place
					list = append(list, x)
				}
				more, end := h.sheetOn(end)
				list = append(list, more...)
				i = end - 1
			}
			continue
		}
		if failed == nil && sure && !h.ordered(i) && h.broke(begin, e, freezer) {
			failed = &Question{About: AboutFridge, Place: place, N: h.hours(e, len(h.t)), At: h.since(e, len(h.t))}
			if freezer {
				failed.About = AboutFreezer
			}
		}
		if e > i+1 {
			i = e - 1
		}
	}
	if len(list) == 0 {
		return failed
	}
	w := worst(list)
	if failed != nil && w.over(isF(list)) <= 0 {
		return failed
	}
	q := &Question{About: AboutFridgeAt, Place: w.place, N: w.n}
	if w.freezer {
		q.About = AboutFreezerAt
	}
	return q
}

// named gives where the name of a fridge begins whose last words stand at i: "the meat fridge".
func (h *hazard) named(i int) int {
	for i > 0 && h.is("kind", i-1) && !h.t[i-1].mark && h.at("kind", i-1) == i {
		i--
	}
	return i
}

// elsewhere says whether a fridge is only where something is, or what something is done with: "soup in the fridge at 6".
func (h *hazard) elsewhere(i, e int) bool {
	if i == 0 || h.t[i-1].mark || h.t[i-1].num {
		return false
	}
	k := i - 1
	for k > 0 && (h.t[k].w == "our" || h.t[k].w == "my" || h.t[k].w == "a" || h.t[k].w == "that" || h.t[k].w == "this") {
		k--
	}
	w := h.t[k].w
	switch w {
	case "in", "into", "inside", "from", "of", "to", "behind", "near", "by", "for", "with", "on", "outta", "onto":
		return !(w == "in" && k > 0 && (h.t[k-1].w == "got" || h.t[k-1].w == "came" || h.t[k-1].w == "come"))
	case "out", "bit", "much", "getting", "feels", "is", "even", "its", "no", "another", "buy", "need", "someone", "he", "she", "they", "people", "just", "you", "i", "we", "can", "customers", "him", "her", "them", "guests", "to be":
		return h.any("unsure cold", i, e) || w == "out" || w == "no" || w == "another" || w == "buy" || w == "need"
	}
	return false
}

// leads says whether nothing stands before i in its clause but what leads up to a message.
func (h *hazard) leads(i int) bool {
	from := h.starts(i)
	for from < i {
		k := max(h.at("lead", from), h.at("sheet", from), h.at("long", from))
		if k == from {
			if h.t[from].w == "am" || h.t[from].w == "pm" || h.t[from].num || h.t[from].w == "why" || h.t[from].w == "when" {
				from++
				continue
			}
			return h.t[i-1].num || h.t[i-1].w == "in"
		}
		from = k
	}
	return true
}

// numbered gives the name of a fridge with its number, and where it ends: "fridge 2 8.5" has one.
func (h *hazard) numbered(begin, e int) (string, int) {
	whole := func(k int) bool {
		return k < len(h.t) && h.t[k].num && h.t[k].w == "" && !h.t[k].signed && h.t[k].v >= 1 && h.t[k].v < 9 && h.t[k].v == float64(int(h.t[k].v))
	}
	k := e
	if k < len(h.t) && (h.t[k].w == "number" || h.t[k].w == "no") && whole(k+1) {
		k++
	}
	if whole(k) {
		next := h.skip("sheet", h.skip("link", k+1, ":-="), ":-=")
		if _, ok := h.degrees(next); ok && !(next == k+2 && h.t[k+1].w == "and") || h.is("failed", next) && next > k {
			e = k + 1
		}
	} else if k < len(h.t) && !h.t[k].num && hazardNumbers[h.t[k].w] > 0 && h.t[k].w != "an" && h.t[k].w != "couple" {
		e = k + 1
	}
	return strings.ToLower(h.text[h.t[begin].from:h.t[e-1].to]), e
}

// readings are the degrees that stand at i, one behind the other: "3, 4, 11".
func (h *hazard) readings(i int) (list []coldRead, end int) {
	for {
		n, ok := h.degrees(i)
		if !ok {
			return list, i
		}
		list = append(list, coldRead{n: n, f: h.t[i].w == "f", signed: h.t[i].signed})
		k := i + 1
		for k < len(h.t) && (h.t[k].mark && strings.Contains(",/-;", h.t[k].w) || h.t[k].w == "and" || h.t[k].w == "n" || h.t[k].w == "then" || h.t[k].w == "now") {
			k++
		}
		if i = k; i >= len(h.t) {
			return list, i
		}
	}
}

// sheetOn are the readings of a sheet that goes on without the word fridge: "walk in 4, prep 5, display 9.7".
func (h *hazard) sheetOn(i int) (list []coldRead, end int) {
	for end = i; ; {
		k := end
		for k < len(h.t) && (h.t[k].mark && strings.Contains(",/-;:", h.t[k].w) || h.is("kind", k)) {
			k = max(k+1, h.at("kind", k))
		}
		if k >= len(h.t) || k == end || h.t[k-1].mark || !h.is("kind", k-1) {
			return list, end
		}
		n, ok := h.degrees(k)
		if !ok {
			return list, end
		}
		list = append(list, coldRead{n: n, f: h.t[k].w == "f", signed: h.t[k].signed, place: strings.ToLower(h.text[h.t[k-1].from:h.t[k-1].to])})
		end = k + 1
	}
}

// inThere finds the degrees of "its 12 in the walk in", before the name of a fridge at i.
func (h *hazard) inThere(i int) (n int, ok bool) {
	if n = i - 2; n < 0 || h.t[i-1].mark || h.t[i-1].num || h.t[i-1].w != "in" && h.t[i-1].w != "inside" || !h.t[n].num || h.t[n].v > 230 {
		return 0, false
	}
	switch h.t[n].w {
	case "c", "f", "deg":
		return n, true
	case "":
		return n, n > 0 && slices.Contains([]string{"its", "was", "reading", "reads", "says", "showing", "temp", "still"}, h.t[n-1].w)
	}
	return 0, false
}

// partBroke says whether what drives a fridge is said to have failed.
func (h *hazard) partBroke() bool {
	for i := range h.t {
		if h.is("part", i) {
			k := h.skip("link", h.at("part", i), "")
			if h.is("failed", k) || h.is("gone", k) || h.is("failed", h.at("part", i)) || h.is("gone", h.at("part", i)) || h.backs("deadfirst", 0, i) > 0 {
				return true
			}
		}
	}
	return false
}

// isF says whether a sheet is in F: a fridge of 30 is.
func isF(list []coldRead) bool {
	for _, x := range list {
		if x.f || !x.freezer && x.n >= 30 {
			return true
		}
	}
	return false
}

// over is by how many degrees a reading is over what it ought to be: 8 C or 41 F, a freezer -15 C or 5 F. A freezer of 18
// with no sign is one of -18, as sheets are written.
func (x coldRead) over(f bool) int {
	switch {
	case x.freezer && f:
		return x.n - 5
	case x.freezer && !x.signed && x.n >= 15 && x.n <= 30:
		return -x.n + 15
	case x.freezer:
		return x.n + 15
	case f:
		return x.n - 41
	}
	return x.n - 8
}

func worst(list []coldRead) coldRead {
	f, w := isF(list), list[0]
	for _, x := range list[1:] {
		if x.over(f) > w.over(f) {
			w = x
		}
	}
	return w
}

// ordered says whether a clause up to i asks, orders or denies: "why is the fridge off" tells it all the same.
func (h *hazard) ordered(i int) bool {
	from := h.skip("lead", h.starts(i), "")
	if from < i && h.t[from].w == "why" {
		return false
	}
	return h.asked(i) || h.denied(i)
}

// broke says whether words say of a fridge from one token to another that it failed.
func (h *hazard) broke(begin, e int, freezer bool) bool {
	if h.any("purpose", 0, len(h.t)) {
		return false
	}
	if h.backs("deadfirst", 0, begin) > 0 && h.loose(e) && h.t[begin-1].w != "warm" {
		return true
	}
	long := h.long(0, len(h.t)) || h.hours(e, len(h.t)) > 0 || h.since(e, len(h.t)) != ""
	from := h.starts(begin)
	left := h.any("did", from, begin) && h.t[from].w != "who"
	if n := h.backs("undid", from, begin); n > 0 {
		return h.t[begin-n].w != "turn"
	}
	k := e
	if k < len(h.t) && h.t[k].num && h.t[k].w == "" { // "fridge 2 dead"
		k++
	}
	for steps := 0; k < len(h.t) && steps < 6; steps++ {
		if x := h.at("failed", k); x > k && h.afterFailed(x) && !(x == k+1 && h.t[k].w == "hot") {
			return true
		}
		if x := h.at("ajar", k); x > k && (left || long) && h.afterFailed(x) {
			return true
		}
		if x := h.at("again", k); x > k && freezer && h.any("thawed", x, len(h.t)) {
			return true
		}
		x := h.at("link", k)
		if x == k {
			if h.t[k].mark && strings.Contains(":-", h.t[k].w) {
				x = k + 1
			} else {
				return false
			}
		}
		k = x
	}
	return false
}

// afterFailed says whether what stands behind a word for failing leaves it that: not "off the street".
func (h *hazard) afterFailed(i int) bool {
	return i >= len(h.t) || h.t[i].mark || h.t[i].num || h.is("tail", i) || h.is("failed", i) || h.is("thawed", i) || h.is("long", i) || h.is("since", i) || h.is("link", i)
}

// powerGone reads that there is no power.
func (h *hazard) powerGone() *Question {
	for i := range h.t {
		e := h.at("nopower", i)
		if e == i {
			if e = h.at("power", i); e == i || !h.leads(i) && !h.t[max(i-1, 0)].mark {
				continue
			}
			k := e
			if k = h.skip("link", k, ""); h.is("gone", e) {
				k = e
			}
			x := h.at("gone", k)
			if b := h.at("again", e); b > e && h.any("gone", b, len(h.t)) { // "power back on, was off 4 hrs"
				x = b
			}
			if x == k || !h.afterFailed(x) {
				continue
			}
			e = x
		} else if !h.leads(i) && !h.is("who", i-1) && h.t[i-1].w != "have" && h.t[i-1].w != "has" && h.t[i-1].w != "got" && !h.t[i-1].mark && h.t[i-1].w != "had" && h.t[i-1].w != "another" || !h.afterFailed(e) || e < len(h.t) && h.t[e].w == "over" {
			continue
		}
		if h.asked(i) || h.denied(i) {
			continue
		}
		q := &Question{About: AboutPower, N: h.hours(0, len(h.t)), At: h.since(e, len(h.t))}
		if q.At == "" && e+1 < len(h.t) && h.t[e].w == "at" {
			q.At = h.clock(e + 1)
		}
		return q
	}
	return nil
}
