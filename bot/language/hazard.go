package language

import (
	"slices"
	"strings"
)

// What may be told of a hazard besides what abusetalk.go has.
const (
	// AboutFreezerAt is a freezer at N degrees, as said.
	AboutFreezerAt About = "freezerat"
	// AboutPower is power that is gone: N hours, or since At, where that was said.
	AboutPower About = "power"
	// AboutMould is food that is mouldy.
	AboutMould About = "mould"
	// AboutBlown is a tin, jar or pack that bulges.
	AboutBlown About = "blown"
	// AboutShut are shells that stayed shut in cooking, or with State "open" stand open before.
	AboutShut About = "shut"
)

// Hazard reads by its words, in whatever order, a message that tells of food that was too warm or is spoilt, or of a
// fridge, freezer or power that failed; nil where none does. It is for what AbuseTalk has no form for.
//
// N is the hours, begun ones whole, or the degrees as said, decimals rounded up: C or F is for the caller to know. At is
// the clock time of "since 3". Food are the words of the food as they stand, Also the others of "stew and mash"; "" where
// nothing but a fridge, a hot cupboard or a delivery was named. Place is the fridge, "under counter fridge 2", or the hot
// cupboard. Besides:
//   - AboutStoodHours with N 0: it stood out, and nobody said for how long
//   - AboutCameWarm with State "warm" or "soft" and N 0: no degrees were said; State "frozen": it came so, at N degrees
//   - AboutHeldAt with Hours: for how long it was so; with State "off" and N 0: the hot cupboard failed
//   - AboutStoodHours with State "still": it still stands where it was, since nobody said when
//   - of several readings the question is of the worst
func (r *Reader) Hazard(text string) *Question {
	if len(text) > mostHeld {
		return nil
	}
	h := r.hazardOf(text)
	if h == nil || h.counted() {
		return nil
	}
	for _, read := range []func() *Question{h.stoodOut, h.cold, h.powerGone, h.cameWarm, h.heldHot, h.spoilt, h.pink, h.dripped} {
		if q := read(); q != nil {
			return q
		}
	}
	return nil
}

// counted says whether a text tells of an amount, or of what was used, made or thrown away: others read that.
func (h *hazard) counted() bool {
	for i, t := range h.t {
		switch {
		case t.num && t.w == "amount" && !(i > 0 && h.is("did", i-1) && h.any("where", i, len(h.t))): // "left 6l soup out"
			return true
		case !t.num && !t.mark && len(t.w) > 1 && hazardUnits[t.w] == "amount" && !h.is("did", i-1): // "ninety grams of spinach"
			return true
		case h.is("thrown", i) && !h.is("who", i+1):
			return true
		case h.is("logged", i) && !h.is("cold", i) && !h.is("hotplace", i) && !(h.is("kind", i) && i+1 < len(h.t) && h.t[i+1].num && h.t[i+1].w != "amount"):
			from := h.skip("lead", h.starts(i), "")
			if from > i {
				from = i
			}
			if from < i && h.is("who", from) && from+1 == i {
				from = i
			}
			e := h.at("logged", i)
			if from == i && e < len(h.t) && !h.is("came", e) && !h.is("place", e) && h.t[e].w != "in" && h.t[e].w != "up" && h.t[e].w != "here" && h.t[e].w != "to" && !h.is("shell", e) && !h.leftOver(i) {
				return true
			}
		}
	}
	return false
}

// leftOver says whether a word of the class logged only says how food is: "cooked mussels", "roast beef out 5 hrs".
func (h *hazard) leftOver(i int) bool {
	return slices.Contains([]string{"cooked", "baked", "roasted", "roast", "braised", "confit", "smoked", "reheated", "opened", "braise", "frozen"}, h.t[i].w)
}

// subject gives the words of the food that end before i, from the token of on; "" where there are none, or they are of
// no food: somebody, a light. Also are more foods of it.
func (h *hazard) subject(from, i int) (food string, also []string) {
	for i > from {
		t := h.t[i-1]
		if t.mark || h.backs("link", from, i) > 0 || h.backs("tail", from, i) > 0 && !t.num || h.backs("stood", from, i) > 0 || h.backs("purpose", from, i) > 0 {
			i -= max(1, h.backs("link", from, i), h.backs("stood", from, i), h.backs("purpose", from, i))
			continue
		}
		break
	}
	return h.foods(from, i)
}

// backs gives how many tokens a phrase of a class has that ends before i; 0 none.
func (h *hazard) backs(class string, from, i int) int {
	for n := 4; n > 0; n-- {
		if i-n >= from && h.at(class, i-n) == i {
			return n
		}
	}
	return 0
}

// foods splits the words from one token to another into foods.
func (h *hazard) foods(from, to int) (food string, also []string) {
	var list []string
	begin := from
	for i := from; i <= to; i++ {
		if i < to && !(h.t[i].w == "and" || h.t[i].w == "n" || h.t[i].w == "plus" || h.t[i].mark && strings.Contains("&,/", h.t[i].w)) {
			continue
		}
		if i > begin {
			if one := h.oneFood(begin, i); one != "" {
				list = append(list, one)
			}
		}
		begin = i + 1
	}
	if len(list) == 0 {
		return "", nil
	}
	whole := h.oneFood(from, to)
	for _, one := range list {
		if len(list) > 1 && (h.r.knows(whole) || !h.r.knows(one) && !h.r.NamesDish(one)) { // "mac n cheese"
			return whole, nil
		}
	}
	return list[0], list[1:]
}

// oneFood gives the words from one token to another without what leads up to them; "" where somebody is meant.
func (h *hazard) oneFood(from, to int) string {
	for from < to {
		switch {
		case h.is("vessel", from) && h.at("vessel", from) < to:
			from = h.at("vessel", from)
		case h.is("lead", from) && h.at("lead", from) <= to:
			from = h.at("lead", from)
		case h.t[from].num, h.t[from].mark:
			from++
		default:
			for to > from && (h.t[to-1].num || h.t[to-1].mark || h.t[to-1].w == "of" || h.t[to-1].w == "all" || h.t[to-1].w == "just") {
				to--
			}
			if to == from || to-from > mostFoodWords || h.any("who", from, to) || h.any("power", from, to) || h.any("cold", from, to) || h.any("freezer", from, to) || h.t[from].w == "not" {
				return ""
			}
			return h.text[h.t[from].from:h.t[to-1].to]
		}
	}
	return ""
}

// mostFoodWords is of how many words a food is that is told of in other words.
const mostFoodWords = 6

// knows says whether the food tables have a name.
func (r *Reader) knows(name string) bool {
	return r.Foods != nil && len(r.Foods.Exact(strings.Fields(strings.ToLower(name)))) > 0
}
