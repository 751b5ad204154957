package language

import "strings"

// cameWarm reads a delivery that came warm, soft, or with degrees.
func (h *hazard) cameWarm() *Question {
	i := 0
	for i < len(h.t) && !h.is("came", i) {
		i++
	}
	if i == len(h.t) {
		i = h.vanWarm()
	}
	if i == len(h.t) || h.asked(i) || h.denied(i) || h.any("who", 0, i) && !h.t[i].mark || h.any("cold", 0, len(h.t)) || h.any("heating", 0, len(h.t)) {
		return nil
	}
	if e := h.at("came", i); e < len(h.t) && h.t[e].w == "back" {
		return nil
	}
	q := &Question{About: AboutCameWarm}
	for k := range h.t {
		if !h.t[k].num || h.t[k].w == "clock" {
			continue
		}
		n, ok := h.degrees(k)
		unit := h.t[k].w == "c" || h.t[k].w == "f" || h.t[k].w == "deg" || h.t[k].signed
		if !ok && (k+1 == len(h.t) || !h.is("came", k+1) && h.t[k+1].w != "on") || !ok && h.t[k].w != "" || !unit && (h.backs("probing", 0, k) == 0 || h.backs("probing", 0, k) == 1 && h.t[k-1].w == "at" && h.backs("probing", 0, k-1) == 0) {
			continue
		}
		if !ok {
			n = up(h.t[k].v)
		}
		if q.Food, q.Also = h.leftWords(); q.Food == "" {
			q.Food = "delivery"
		}
		q.N = n
		if h.any("frozen", 0, len(h.t)) {
			q.State = "frozen"
		}
		return q
	}
	e := h.skip("link", h.at("came", i), "")
	for e < len(h.t) && (h.t[e].w == "quite" || h.t[e].w == "very" || h.t[e].w == "bit" || h.t[e].w == "all" || h.t[e].w == "a") {
		e++
	}
	x := h.at("warmcame", e)
	if x == e {
		return nil
	}
	if !h.loose(x) && !h.is("tail", x) {
		return nil
	}
	if q.State = "warm"; h.is("softcame", e) {
		q.State = "soft"
	}
	if q.Food, q.Also = h.subject(h.starts(i), i); q.Food == "" {
		if q.Food = "delivery"; h.t[i].w != "delivery" {
			return nil
		}
	}
	return q
}

// vanWarm finds a van that was warm.
func (h *hazard) vanWarm() int {
	for i, t := range h.t {
		if !t.num && (t.w == "van" || t.w == "truck" || t.w == "lorry") && i > 0 || !t.num && t.w == "van" {
			if k := h.skip("link", i+1, ""); k < len(h.t) && h.is("warmcame", k) {
				return i
			}
		}
	}
	return len(h.t)
}

// besideFood are classes of words that are none of a food's.
var besideFood = []string{"came", "probing", "link", "lead", "tail", "hotplace", "dropped", "warmcame", "sheet", "stood", "place", "shut", "gaping", "failed", "vessel", "isok"}

// leftWords gives the first run of words that say nothing of the hazard itself: the food.
func (h *hazard) leftWords() (food string, also []string) {
	begin := -1
	for i := 0; i <= len(h.t); {
		e := i
		if i < len(h.t) {
			for _, c := range besideFood {
				if (c == "lead" || c == "tail" || c == "link") && begin >= 0 && (h.t[i].w == "and" || h.t[i].w == "n") {
					continue
				}
				e = max(e, h.at(c, i))
			}
			if t := h.t[i]; t.num || t.mark && t.w != "&" || t.w == "in" || t.w == "van" || t.w == "truck" || t.w == "lorry" {
				e = max(e, i+1)
			}
		}
		if i == len(h.t) || e > i {
			if begin >= 0 {
				if food, also = h.foods(begin, i); food != "" && food != "frozen" && food != "chilled" {
					return food, also
				}
			}
			if begin = -1; i == len(h.t) {
				break
			}
			i = e
			continue
		}
		if begin < 0 {
			begin = i
		}
		i++
	}
	return "", nil
}

// What hot food may be told to be at that is not hot enough, C and F: below is warm food, above is hot.
const (
	leastHotC, mostHotC = 25, 62
	leastHotF, mostHotF = 80, 139
)

// heldHot reads what is kept hot, with degrees: "bain marie 58", "gravy dropped to 55 for 3 hours".
func (h *hazard) heldHot() *Question {
	if h.any("heating", 0, len(h.t)) || h.any("cold", 0, len(h.t)) || h.any("freezer", 0, len(h.t)) {
		return nil
	}
	at, place := -1, ""
	for i := range h.t {
		if e := h.at("hotplace", i); e > i {
			at, place = i, strings.ToLower(h.text[h.t[i].from:h.t[e-1].to])
			break
		}
	}
	for k := range h.t {
		n, ok := h.degrees(k)
		if !ok && h.t[k].num && h.t[k].w == "" && k+1 < len(h.t) && (h.t[k+1].w == "in" || h.t[k+1].w == "on" || h.t[k+1].w == "hot") {
			n, ok = up(h.t[k].v), true
		}
		if !ok || h.t[k].w == "" && k > 0 && h.t[k-1].w == "in" {
			continue
		}
		unit := h.t[k].w != ""
		warm := n >= leastHotC && n <= mostHotC && h.t[k].w != "f" || n >= leastHotF && n <= mostHotF && h.t[k].w != "c"
		dropped := false
		for b := k - 1; b >= 0 && b >= k-4; b-- {
			dropped = dropped || h.at("dropped", b) == k
		}
		hours := h.hours(k+1, len(h.t))
		food, also := h.leftWords()
		q := &Question{About: AboutHeldAt, Food: food, Also: also, Place: place, N: n, Hours: hours}
		switch {
		case h.denied(k) || h.asked(k):
			return nil
		case at >= 0 && (h.any("hotsure", at, len(h.t)) && n >= leastHotC || unit && warm):
			if food == "" && !h.any("hotsure", at, len(h.t)) {
				return nil
			}
			return q
		case food != "" && warm && (dropped && h.firmDrop(k) || dropped && hours > 0 || h.t[k].w == "f" && k+1 == len(h.t)):
			return q
		}
	}
	if at >= 0 && h.is("hotsure", at) && !h.denied(at) && !h.asked(at) {
		e := h.at("hotsure", at)
		for k := e; k < len(h.t); k = h.at("link", k) {
			if x := h.at("chilly", k); x > k && h.afterFailed(x) {
				return &Question{About: AboutHeldAt, Place: place, State: "off", At: h.since(x, len(h.t)), Hours: h.hours(x, len(h.t))}
			}
			if !h.is("link", k) {
				break
			}
		}
	}
	return nil
}

// firmDrop says whether words before degrees say that food was hotter before, or is still so warm: "dropped to 55", "still
// 58".
func (h *hazard) firmDrop(k int) bool {
	for b := max(0, k-4); b < k; b++ {
		if h.at("dropped", b) == k && (h.t[b].w == "dropped" || h.t[b].w == "down" || h.t[b].w == "gone" || h.t[b].w == "fallen" || h.t[b].w == "fell" || h.t[b].w == "still" || h.t[b].w == "only" && h.t[k].w != "") {
			return true
		}
	}
	return false
}

// spoilt reads of food that smells, is slimy or mouldy, of tins that bulge and of shells that stay shut.
func (h *hazard) spoilt() *Question {
	if h.any("cold", 0, len(h.t)) || h.any("freezer", 0, len(h.t)) {
		return nil
	}
	for i := range h.t {
		switch {
		case h.is("spoilt", i) && !h.denied(i) && !h.asked(i):
			if food, also := h.subject(h.starts(i), i); food != "" && h.spoiltSo(i) {
				return &Question{About: AboutSmells, Food: food, Also: also}
			}
		case (h.t[i].w == "smells" || h.t[i].w == "smell") && !h.t[i].num && i > 0 && (i+1 == len(h.t) || h.t[i+1].mark) && !h.denied(i) && !h.asked(i):
			if food, also := h.subject(h.starts(i), i); food != "" {
				return &Question{About: AboutSmells, Food: food, Also: also}
			}
		case h.is("mould", i) && !h.denied(i) && !h.asked(i):
			if food, also := h.subject(h.starts(i), i); food != "" {
				return &Question{About: AboutMould, Food: food, Also: also}
			}
			e := h.at("mould", i)
			if last := h.t[e-1].w; last == "on" || last == "in" {
				if food, also := h.foods(e, h.foodStop(e)); food != "" {
					return &Question{About: AboutMould, Food: food, Also: also}
				}
			}
		case h.is("blown", i) && !h.denied(i) && !h.asked(i) && h.any("tin", 0, len(h.t)):
			if food, also := h.tinned(i); food != "" {
				return &Question{About: AboutBlown, Food: food, Also: also}
			}
		case h.is("shell", i):
			for k := range h.t {
				e := h.at("shut", k)
				if e > k && !h.asked(k) && h.afterFailed(e) {
					return &Question{About: AboutShut, Food: h.text[h.t[i].from:h.t[i].to]}
				}
				if e = h.at("gaping", k); e > k && k > i && !h.asked(k) && h.afterFailed(e) {
					return &Question{About: AboutShut, Food: h.text[h.t[i].from:h.t[i].to], State: "open"}
				}
			}
		}
	}
	return nil
}

// spoiltSo says whether nothing stands behind a word for spoilt food that turns it: not "stinking rich".
func (h *hazard) spoiltSo(i int) bool {
	e := h.at("spoilt", i)
	return e >= len(h.t) || h.t[e].mark || h.is("tail", e) || h.is("spoilt", e) || h.t[e].w == "n" || h.t[e].w == "to" || h.t[e].w == "today" || h.t[e].w == "ok" || h.is("lead", e)
}

// foodStop gives where the words of a food end that begin at i, before what is asked of it.
func (h *hazard) foodStop(i int) int {
	begin := i
	for i < len(h.t) && !h.t[i].mark && !h.t[i].num && (i == begin || !h.is("tail", i) && !h.is("order", i) && !h.is("asks", i)) {
		i++
	}
	return i
}

// tinned gives the food of a tin that bulges: "tin of tomatoes is bulging", "tomato tin blown".
func (h *hazard) tinned(i int) (food string, also []string) {
	from := h.starts(i)
	for k := from; k < i; k++ {
		if !h.is("tin", k) {
			continue
		}
		if k+1 < i && h.t[k+1].w == "of" {
			return h.subject(k+2, i)
		}
		if food, also = h.foods(from, k); food != "" {
			return food, also
		}
		return h.subject(k+1, i)
	}
	for k := i + 1; k < len(h.t); k++ { // "bulging tin of beans"
		if h.is("tin", k) {
			if k+1 < len(h.t) && h.t[k+1].w == "of" {
				return h.foods(k+2, h.foodStop(k+2))
			}
			return h.foods(h.at("blown", i), k)
		}
	}
	return "", nil
}
