package bot

import (
	"slices"
	"strconv"
	"strings"

	"scullion/pantry/food"
)

// The parts of a text that tells of heat: foods, figures, places, times.

// heatToks cuts a text up; nil where a number of it is none of degrees and of no time.
func (t *turn) heatToks(low string) (list []heatTok) {
	var words []string
	for _, w := range heatCut.FindAllString(low, 60) {
		w = strings.ReplaceAll(w, "’", "'")
		if s, ok := strings.CutSuffix(w, "'s"); ok {
			words = append(words, s, "is")
			continue
		}
		if w = strings.ReplaceAll(w, "'", ""); w != "" && !slices.Contains(heatSkip, w) {
			words = append(words, w)
		}
	}
	word := func(i int) string {
		if i < 0 || i >= len(words) {
			return ""
		}
		return words[i]
	}
	classes, degrees := heatWords(), 0
	for i := 0; i < len(words); {
		w := words[i]
		if strings.ContainsAny(w[len(w)-1:], digits) {
			tok, n := heatNumber(word(i-1), w, word(i+1), word(i+2), len(list) > 0)
			if len(list) > 0 && list[len(list)-1].class == "hot" && tok.class == "deg" && tok.unit == "" && tok.n < 10 { // "cambro 2"
				i += n
				continue
			}
			if tok.class == "" {
				return nil
			}
			if classes["#"+word(i+n)] == "count" && tok.class == "deg" && tok.unit == "" && !t.isKnownFood(word(i+n)+" "+word(i+n+1)) { // "4 portions"
				tok.class, n = "amount", n+1
			}
			if tok.class == "deg" {
				degrees++
			}
			list = append(list, tok)
			i += n
			continue
		}
		if (w == "half" || w == "an" || w == "hour") && (word(i+1) == "hour" || w == "hour") {
			list = append(list, heatTok{class: "time", n: map[bool]float64{true: 30, false: 60}[w == "half"]})
			if i++; w != "hour" {
				i++
			}
			continue
		}
		if w[0] < 'a' || w[0] > 'z' {
			list = append(list, heatTok{class: "mark", said: w})
			i++
			continue
		}
		class, n := "", 0
		for k := min(mostHeatFood, len(words)-i); k > 0 && n == 0; k-- {
			if c := classes[strings.Join(words[i:i+k], " ")]; c != "" {
				class, n = c, k
			}
		}
		if k := t.heatFoodAt(words, i); k > n || k > 0 && k == n && class == "link" {
			class, n = "food", k
		}
		if n == 0 {
			class, n = "words", 1
		}
		list = append(list, heatTok{class: class, said: strings.Join(words[i:i+n], " ")})
		i += n
	}
	if degrees == 0 && !slices.ContainsFunc(list, func(k heatTok) bool { return k.class == "clock" }) {
		return nil
	}
	return list
}

// heatFoodAt gives how many words from i are a food's name, or a dish's that is known here; 0 none.
func (t *turn) heatFoodAt(words []string, i int) int {
	for k := min(mostHeatFood, len(words)-i); k > 0; k-- {
		said := strings.Join(words[i:i+k], " ")
		if strings.ContainsAny(said, digits+",;:/&()+=") || k == 1 && slices.Contains(wordsOfKit, said) {
			continue
		}
		if t.heatFood(said) != "" {
			return k
		}
	}
	return 0
}

// heatFood gives what a food or a dish that is told of is called here, with a slip of the keys as well; "" none.
func (t *turn) heatFood(said string) string {
	first, _, _ := strings.Cut(said, " ")
	if slices.Contains(noName, first) || first == "half" || first == "both" {
		return ""
	}
	h := t.ear.find(said)
	exact := h.exact && !h.sound && (h.food != nil || len(h.lines) > 0)
	dish, _, err := t.cooked(said)
	if exact = exact || err == nil && dish != ""; !exact && len(said) > 4 && !food.IsPlain(said) {
		if name := t.heatSlip(said); name != "" {
			return name
		}
	}
	if heatWords()[first] != "" && !exact { // "cooling curry" is the curry
		return ""
	}
	return t.eachFood(said)
}

// heatSlip gives the food on hand, or the dish, of which words are a slip; "" none, or several.
func (t *turn) heatSlip(said string) (name string) {
	last := lastWord(said)
	near := func(n string) bool {
		return food.IsTypo(said, n) || lastWord(n) == last && len(n) > len(last)+leastSlip && food.IsNear(said, n, true)
	}
	for _, l := range t.k.Lines {
		if l.OnHand() > 0 && near(strings.ToLower(l.Name)) {
			if name != "" {
				return ""
			}
			name = l.Name
		}
	}
	if name != "" {
		return name
	}
	for _, d := range t.k.Dishes {
		if near(strings.ToLower(d)) {
			if dish, _, err := t.cooked(d); err == nil && dish != "" {
				return dish
			}
		}
	}
	return ""
}

// leastSlip is how many letters a word before "pie" has that may be a slip of another.
const leastSlip = 5

// notDegrees are words before a number that is of no degrees.
var notDegrees = []string{"table", "for", "class", "year", "room", "x", "serves", "bed", "seat", "gate", "page", "no", "number", "of", "by", "party", "table's", "t", "wing", "ward", "bay"}

// heatNumber reads a number between the words around it; its class is "" where it is none of those that are told of heat. N is how
// many words it takes.
func heatNumber(before, w, next, after string, behind bool) (tok heatTok, n int) {
	if strings.Contains(w, ":") {
		return heatTok{class: "clock", said: w + heatHalf(next)}, 1 + len(heatHalf(next))/2
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(w, "−", "-"), 64)
	if err != nil {
		return tok, 0
	}
	_, cents, _ := strings.Cut(w, ".")
	switch {
	case heatTime[next] > 0:
		return heatTok{class: "time", n: v * float64(heatTime[next])}, 2
	case next == "past" || next == "oclock":
		return tok, 0
	case heatHalf(next) != "":
		return heatTok{class: "clock", said: w + next}, 2
	case (before == "since" || before == "from") && v < 24, len(cents) == 2 && v < 24,
		(before == "at" || before == "@") && v >= 1 && v <= 12 && cents == "" && heatUnit[next] == "" && behind:
		return heatTok{class: "clock", said: w}, 1
	case heatMass.MatchString(next):
		return heatTok{class: "amount"}, 2
	case heatUnit[next] != "":
		if n = 2; heatUnit[next] == "deg" && heatUnit[after] != "" && heatUnit[after] != "deg" {
			return heatTok{class: "deg", said: w, n: v, unit: heatUnit[after]}, 3
		}
		if next == "c" && v <= mostClass && !slices.Contains([]string{"at", "is", "its", "only", "still", "now", "to"}, before) {
			return tok, 0
		}
		return heatTok{class: "deg", said: w, n: v, unit: heatUnit[next]}, 2
	case slices.Contains(notDegrees, before):
		return tok, 0
	}
	return heatTok{class: "deg", said: w, n: v}, 1
}

func heatHalf(s string) string {
	if s == "am" || s == "pm" {
		return s
	}
	return ""
}
