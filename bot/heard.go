package bot

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"

	"scullion/pantry"
)

// Degrees told of hot or cooling food are heard by their evidence, in any order of words: a food or several, a figure, what says
// that it is of degrees (a unit, a hot place, that it cools, a probe), and when that was. Every word must be one of those; what has
// the evidence and more words is answered as not read.

//go:embed heatwords.csv
var heatWordsCSV string

// heatWords gives the class of a phrase of heatwords.csv; those of the class count stand behind "#".
var heatWords = sync.OnceValue(func() map[string]string {
	c := csv.NewReader(strings.NewReader(heatWordsCSV))
	c.Comment, c.FieldsPerRecord = '#', 2
	rows, err := c.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("heatwords.csv: %v", err))
	}
	all := map[string]string{}
	for _, row := range rows[1:] {
		for _, said := range strings.Split(row[1], ";") {
			if row[0] == "count" { // what stands behind a figure that is none of degrees may be another thing elsewhere
				said = "#" + said
			}
			if _, is := all[said]; !is {
				all[said] = row[0]
			}
		}
	}
	return all
})

// heatTold is what was heard of one food.
type heatTold struct {
	food    string // as it is called here; of none that is known, its words
	unknown bool
	said, n int // degrees as told, and C
	f       bool
	unit    bool   // with a unit
	core    bool   // by a probe in the middle
	cools   bool   // it was told to cool
	since   int    // for how many minutes it has cooled, as told
	began   string // when it began to, a clock time; "" not told
	at      string // when it was read, a clock time
	place   string // the hot place where it stands
	counted bool   // an amount is told beside it
}

// heatTok is a part of a text.
type heatTok struct {
	class string // of heatwords.csv, or "food", "words", "deg", "time", "clock", "amount", "mark"
	said  string
	n     float64
	unit  string
}

var (
	heatCut  = regexp.MustCompile(`[-−]?\d+(?:[.:]\d+)?|[a-z][a-z'’]*(?:-[a-z]+)*|[^\s\w]`)
	heatOven = regexp.MustCompile(`(?i),? ?\b(?:out of|out|off|from) (?:of )?(?:the |our )?(?:oven|grill|bbq|smoker|combi)s?\b(?: (?:at|@) \d{1,2}(?:[:.]\d\d)? ?(?:am|pm)?)?`)
	heatAsks = regexp.MustCompile(`(?i)[, ]+(?:is (?:it|that|this) |are they |still |that )?(?:ok|okay|safe|fine|alright|all right)\s*\?*\s*$`)
	heatNone = regexp.MustCompile(`(?i)\b(?:used|binned|made|froze|frozen|sold|served|ordered|order|need|needs|buy|oven|ovens|fryer|oil|preheat\w*|water ?bath|sous ?vide|set to|set at|turn|turned|dish ?washer|rinse|kitchen|outside|weather|gas mark|tables? \d+|room|rm|bed|seat|class|year|plan|timer|alarm|remind|wine|beer|cellar|my|mine|he|she|they|you|your|i|i'm|we|if)\b|^\s*(?:roast|bake|braise|cook|confit|poach|simmer|smoke|heat|reheat|cool|chill|hold|keep)\b (?:the |it|them|at|for|to|till|until|in|on)|[£$€%]`)
	heatGot  = regexp.MustCompile(`(?i)^\s*(?:we |just |i |ive |weve )*(?:got|received|had|took in|taken in|delivery|deliveries|delivered)\b|\b(?:delivery|deliveries|delivered|arrived|landed|on arrival|at the door)\b`)
	heatSkip = []string{"the", "a", "an", "our", "that", "this", "those", "these"}
	heatUnit = map[string]string{"c": "c", "celsius": "c", "degc": "c", "f": "f", "fahrenheit": "f", "degf": "f", "°": "deg", "º": "deg", "deg": "deg", "degs": "deg", "degree": "deg", "degrees": "deg"}
	heatTime = map[string]int{"h": 60, "hr": 60, "hrs": 60, "hour": 60, "hours": 60, "m": 1, "min": 1, "mins": 1, "minute": 1, "minutes": 1}
	heatMass = regexp.MustCompile(`^(?:kgs?|kilos?|g|grams?|l|ltrs?|litres?|liters?|ml|lbs?|pounds?|oz|gals?|gallons?|qts?|quarts?|pints?|pts?)$`)
)

// The degrees that a number without a unit may be of hot food, C and F. The program's own choice.
const (
	leastHeard, mostHeard   = 13, 100
	leastHeardF, mostHeardF = 56, 212
)

// mostHeatFood is of how many words a food's name is.
const mostHeatFood = 4

// heard reads the degrees that a text tells of hot or cooling food; nil where it tells none, or there is more to it. Doubt names a
// food with a figure that has the evidence, in a text of which not all is read.
func (t *turn) heard(text string) (list []heatTold, doubt string) {
	key := hazardKey{text, len(t.k.Lines)}
	if h, known := t.heats[key]; known {
		return h.list, h.doubt
	}
	list, doubt = t.heardRead(text)
	if t.heats == nil {
		t.heats = map[hazardKey]heatHeard{}
	}
	t.heats[key] = heatHeard{list, doubt}
	return list, doubt
}

type heatHeard struct {
	list  []heatTold
	doubt string
}

func (t *turn) heardRead(text string) (list []heatTold, doubt string) {
	if len(text) > longest/20 || !strings.ContainsAny(text, digits) {
		return nil, ""
	}
	low := strings.ToLower(opensWarm.ReplaceAllString(text, ""))
	low = heatOven.ReplaceAllString(heatAsks.ReplaceAllString(strings.TrimRight(low, " .!?"), ""), "")
	low = strings.ReplaceAll(low, "&", " and ")
	if heatNone.MatchString(low) || heatGot.MatchString(low) || coldTold.MatchString(strings.ReplaceAll(low, "blast chiller", "blast")) || asksThis.MatchString(low) || strings.Contains(low, "?") {
		return nil, ""
	}
	toks := t.heatToks(low)
	if toks == nil {
		return nil, ""
	}
	return t.heatsOf(toks)
}

// heatsOf puts the parts together.
func (t *turn) heatsOf(toks []heatTok) (list []heatTold, doubt string) {
	var all heatTold // what is told of all of it
	var has = map[string]bool{}
	us, loose, since, last := t.country() == "US", 0, 0, -1
	cooled := slices.ContainsFunc(toks, func(k heatTok) bool { return k.class == "cool" })
	var name *heatTok    // whose the next figure is
	var names []*heatTok // foods joined before it
	var front []heatTold // figures before any food
	for i := range toks {
		k := &toks[i]
		has[k.class] = true
		switch k.class {
		case "food":
			if name == nil || !joinsFoods(toks, i) {
				names = nil
			}
			names = append(names, k)
			if name = k; len(front) > 0 {
				for _, h := range front {
					if !h.unit && (i == 0 || toks[i-1].class != "at") { // "20 mash" are so many
						return nil, ""
					}
					h.food = t.heatFood(k.said)
					list = append(list, h)
				}
				front = nil
			}
		case "words":
			if i+1 < len(toks) && (toks[i+1].class == "deg" || toks[i+1].class == "link" && i+2 < len(toks) && toks[i+2].class == "deg") && (i == 0 || toks[i-1].class != "food" && toks[i-1].class != "words") {
				name, names = k, nil // of no food that is known
				continue
			}
			loose++
		case "hot":
			all.place = k.said
		case "cool":
			all.cools = true
		case "core":
			all.core = true
		case "time":
			since = int(k.n)
		case "clock":
			at := clockSaid(k.said)
			switch {
			case at == "":
				return nil, ""
			case last >= 0 && len(list) > last && i > 0 && (toks[i-1].said == "at" || toks[i-1].said == "@"):
				list[last].at = at
			default:
				all.began = at
			}
		case "deg":
			h := heatTold{said: int(k.n), unit: k.unit != "", f: k.unit == "f" || us && k.unit != "c"}
			if v := k.n; h.f {
				h.n = int(math.Floor((v-32)/1.8 + 0.5))
			} else if h.n = int(math.Floor(v)); v < leastEach {
				h.n = int(math.Ceil(v))
			}
			if !h.unit && !(cooled && h.n >= 0 && h.n <= mostHeard) && (h.f && (k.n < leastHeardF || k.n > mostHeardF) || !h.f && (k.n < leastHeard || k.n > mostHeard)) || h.n > mostProbed || h.n < leastDoor {
				return nil, ""
			}
			if name == nil {
				front = append(front, h)
				continue
			}
			if h.food = t.heatFood(name.said); h.food == "" || name.class == "words" {
				h.food, h.unknown = name.said, true
			}
			for _, also := range names[:max(0, len(names)-1)] { // "stew and mash both 55"
				one := h
				one.food = t.heatFood(also.said)
				list = append(list, one)
			}
			last, list = len(list), append(list, h)
			names = nil
		}
	}
	if len(front) > 0 {
		return nil, ""
	}
	known := slices.ContainsFunc(list, func(h heatTold) bool { return !h.unknown })
	if !known && !(all.cools && all.began != "" && name != nil && name.class == "food") {
		return nil, ""
	}
	if len(list) == 0 { // "curry cooling since 1.15"
		all.food, all.n = t.heatFood(name.said), noDegrees
		if loose > 0 {
			return nil, ""
		}
		return []heatTold{all}, ""
	}
	list = t.heatLast(list, has["was"], has["now"] || has["time"] || all.cools, &all)
	several := len(list) > 1
	unit := slices.ContainsFunc(list, func(h heatTold) bool { return h.unit })
	sure := unit || slices.ContainsFunc(list, func(h heatTold) bool { return h.cools }) || has["time"] && has["at"] && (has["out"] || has["hot"]) || has["hot"] || all.cools || has["head"] || has["core"] || has["out"] && has["at"]
	if !sure && !t.heatPlain(list, several, has["link"] || has["now"] || has["was"]) {
		return nil, ""
	}
	if loose > 0 || !has["head"] && slices.ContainsFunc(list, func(h heatTold) bool { return h.unknown }) && !several {
		if i := slices.IndexFunc(list, func(h heatTold) bool { return !h.unknown && t.isWarm(h.n) }); sure && i >= 0 && (unit || has["hot"] || all.cools) && len(toks) < mostHeatToks {
			return nil, fmt.Sprintf("%s at %d", list[i].food, list[i].said)
		}
		return nil, ""
	}
	for i := range list {
		h := &list[i]
		h.core, h.place, h.counted = h.core || all.core, all.place, has["amount"]
		h.since = since
		if h.cools = h.cools || all.cools; h.cools {
			if h.began == "" {
				h.began = all.began
			}
		}
	}
	return list, ""
}

// joinsFoods says whether nothing but "and" stands between the food at i and the one before it.
func joinsFoods(toks []heatTok, i int) bool {
	joined := false
	for i--; i >= 0 && toks[i].class != "food"; i-- {
		if !slices.Contains([]string{"and", "n", "plus", "+", "/"}, toks[i].said) {
			return false
		}
		joined = true
	}
	return joined && i >= 0
}

// noDegrees stands for what nobody told.
const noDegrees = -1000

// mostHeatToks is how long a message is that tells of heat alone.
const mostHeatToks = 16

// heatLast leaves of several figures of one food the latest where they were told one after the other, else the worst. One that was
// hot and is not any more cools.
func (t *turn) heatLast(list []heatTold, was, now bool, all *heatTold) (out []heatTold) {
	for _, h := range list {
		i := slices.IndexFunc(out, func(o heatTold) bool { return o.food == h.food })
		if i < 0 {
			out = append(out, h)
			continue
		}
		o := out[i]
		switch {
		case was || now:
			if h.n < o.n && o.n >= t.limits().hot {
				h.cools, h.began = true, o.at
			}
			if h.unit = h.unit || o.unit; !h.cools || all.cools && h.began == "" {
				h.began = o.at
			}
			out[i] = h
		case h.n < o.n:
			out[i] = h
		}
	}
	return out
}

// heatPlain says whether figures of food without any sign may be of degrees alone: of hot food that is kept by weight, or that is
// told to be "at" so much.
func (t *turn) heatPlain(list []heatTold, several, marked bool) bool {
	warmest := 0
	for _, h := range list {
		lines, _ := t.heldLines(strings.ToLower(h.food))
		byPiece := slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.PieceMg() > 0 })
		pot := len(lines) > 0 && !byPiece && !slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.Made == 0 })
		switch {
		case h.n < leastEach, byPiece, lastWord(h.food) != singular(lastWord(h.food)) && !pot:
			return false
		case !several && !pot:
			return false
		}
		warmest = max(warmest, h.n)
	}
	return !several || marked || warmest >= leastBare
}

// mindHeard adds to what was counted, or to silence, what is told of the degrees of food of which an amount stands beside them.
func (t *turn) mindHeard(r Reply) (Reply, error) {
	if r.Kind != Log && r.Kind != Silent || t.m.Delete || t.m.Press != nil || r.Kind == Log && !slices.ContainsFunc(r.Entries, func(e Entry) bool { return e.Kind == string(pantry.Count) || e.Kind == string(pantry.Make) }) {
		return r, nil
	}
	heats, doubt := t.heard(t.m.Text)
	switch {
	case doubt != "" && r.Kind == Silent && !t.waiting():
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not read: %[1]s. If that is a temperature, say it by itself, like \"%[1]s%[5]s\"; if it is so many, with its word. Food between %[2]d and %[3]d C for over %[4]d hours is binned.%[6]s", doubt, t.limits().cold, t.limits().hot, mostHoursHot, map[bool]string{true: "f", false: "c"}[t.country() == "US"], ownRules)}, nil
	case len(heats) == 0 || !heats[0].counted:
		return r, nil
	}
	var says Reply
	var done bool
	var err error
	if list := t.heardEach(t.m.Text, 1); len(list) > 0 {
		says, done, err = t.sayEach(list, false)
	} else {
		t.minding = true
		says, done, err = t.coolTalk()
	}
	if err != nil || !done || says.Kind == Silent {
		return r, err
	}
	if r.Kind == Silent {
		return says, nil
	}
	r.Text += "\n" + says.Text
	return r, nil
}
