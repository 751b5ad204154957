package bot

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
)

// Degrees told of what came in, each food with its own, with a unit or without: "got 5kg mince at 12, 4kg chicken at 3".

// atDoor is what a delivery's food was at.
type atDoor struct {
	food     string // the words that name it; "" all that came
	n        int    // degrees C
	from, to int    // where that stands in the text
	bare     bool   // a number behind a mere "at": it may be a price, or a time
	soft     bool   // frozen food that got soft
	behind   bool   // it stands by itself, behind the food
	said     string // the number
}

const (
	doorMarks = `came (?:in )?at|come in at|arrived at|turned up at|delivered at|at|@|(?:temp(?:s|ed|eratures?)?|tmp):?(?: at| is| was| says| reads)?|core(?: temp)?:?(?: at| is| was)?|prob(?:ed|e|es|ing):?(?: at| says| reads)?|reading|reads|was|were|is`
	doorUnits = `°? ?c(?:elsius)?|°? ?f(?:ahrenheit)?|°|deg(?:ree)?s?(?: ?[cf])?`
	doorSoft  = `soft|half thawed|part thawed|thawed|half defrosted|defrosted|melted|melting|mushy`
	doorEnds  = `(?:[ ,]+(?:(` + doorSoft + `)|on arrival|at the door|on delivery|when (?:it|they) came|off the (?:van|truck|lorry)|(?:and )?(?:a bit|all|still)|from (?:the )?[a-z]+|in (?:the )?(?:middle|centre|center)|on top|inside|core|surface|between packs?))*[\s!.)\]]*(?:$|[\s/]` + doorDate + `|\s(?:for )?[£$€])`
	// doorDate is a label's date, which may stand behind degrees.
	doorDate = `(?:u/?b\b|b/?b\b|use[- ]?by\b|used by\b|bbe?\b|best\b|exp\w*\b|dated?\b|good (?:till|until)\b)`
)

var (
	doorPart   = regexp.MustCompile(`[,;\n:(\[]+\s*|\.\s+|\s+(?:and|&|plus|then|but|[-–])\s+`)
	doorTemp   = regexp.MustCompile(`(?i)(?:^|\s)(` + doorMarks + `)\s*([-−+]?\d{1,3}(?:\.\d)?) ?(` + doorUnits + `)?` + doorEnds)
	doorUnit   = regexp.MustCompile(`(?i)(?:^|\s)()(?:[-−]?\d{1,2}(?:\.\d)? ?(?:[cf]|°[cf]?)?(?: (?:in (?:the )?middle|core))?(?: ?[-–/&] ?| (?:to|and) | ))*([-−+]?\d{1,3}(?:\.\d)?) ?(` + doorUnits + `)` + doorEnds) // with no word before it
	doorSigned = regexp.MustCompile(`(?i)(?:^|\s)()([-−]\d{1,2}(?:\.\d)?)()` + doorEnds)
	doorDated  = regexp.MustCompile(`(?i)[a-z]()\s+(\d{1,2}(?:\.\d)?)()\s+` + doorDate) // a bare number before a label's date
	doorColon  = regexp.MustCompile(`(?i)\b(?:temps?|temperature|core|probe|` + doorDate + `)\s*:`)
	doorLabel  = regexp.MustCompile(`(?i)(?:^|[\s/])(?:` + doorDate + `|(?:for )?[£$€]).*$`)
	doorClass  = regexp.MustCompile(`(?i)\b(?:for|class|year|yr|table|room|bed)\s*$`) // "for 2c" is a class
	doorAll    = regexp.MustCompile(`^\s*(?:all|everything|both|the lot)\b`)
	doorDay    = regexp.MustCompile(`\d{1,2}/\d{1,2}(?:/\d{2,4})?|\b[ub]/b\b`)
	doorBare   = regexp.MustCompile(`(?i)^\s*(?:the |some )?([a-z][a-z' -]*?) ([-−+]?\d{1,3}(?:\.\d)?)` + doorEnds)
	doorWord   = regexp.MustCompile(`(?i)\b(?:just|we|i|ive|weve|got|had|have|the|a|an|delivery|deliveries|delivered|arrived|landed|came|come|in|it|they|them|that|those|which|received|took|taken|from|off|van|of|x|dropped|here|temps?|some|all|its|theyre|todays)\b`)
	doorHad    = regexp.MustCompile(`(?i)[ ,]+\d[\d.,/]* ?(?:x ?)?(?:kgs?|kilos?|g|grams?|l|ltrs?|litres?|liters?|ml|lbs?|pounds?|oz|gals?|gallons?|qts?|quarts?|doz(?:en)?|cases?|boxe?s?|packs?|trays?|bags?|tubs?|pc)?[\s.]*$`)
	doorHas    = regexp.MustCompile(`(?i)^\s*(?:and )?\d[\d.,/]* ?(?:x ?)?(?:kgs?|kilos?|g|grams?|l|ltrs?|litres?|liters?|ml|lbs?|pounds?|oz|gals?|gallons?|qts?|quarts?|doz(?:en)?|cases?|boxe?s?|packs?|trays?|bags?|tubs?|pc)?\b(?: of)?`)
	saysPriced = regexp.MustCompile(`(?i)[£$€]|\b(?:quid|each|per|euros?|dollars?|bucks|a kilo|a lb|a pound|cost)\b|/`)
	onlyDoor   = regexp.MustCompile(`(?i)\b(?:delivery|deliveries|delivered|landed|arrived|came in|on arrival|at the door)\b`)
)

// The degrees C that a number without a unit may be of, behind chilled food that comes in. The program's own choice.
const (
	leastDoor = -30
	mostDoor  = 30
)

// doorTemps reads the degrees that a text tells of what came in; nil where none are told.
func (t *turn) doorTemps(text string) (list []atDoor) {
	text = cameAs(text)
	low := strings.ToLower(text)
	if !comesIn.MatchString(low) || kitTold.MatchString(low) || coldTold.MatchString(low) || len(text) > longest/2 || !strings.ContainsAny(low, digits) {
		return nil
	}
	low = doorColon.ReplaceAllStringFunc(low, func(s string) string { return s[:len(s)-1] + " " })
	price, begin, before, foods := saysPriced.MatchString(doorDay.ReplaceAllString(low, "")), 0, "", 0
	cuts := append(doorPart.FindAllStringIndex(low, -1), []int{len(low), len(low)})
	var pending []atDoor // a bare number behind a mere name is one of degrees where another is
	for _, c := range cuts {
		part := low[begin:c[0]]
		m, dated := doorTemp.FindStringSubmatchIndex(part), false
		if m == nil {
			if m = doorUnit.FindStringSubmatchIndex(part); m == nil {
				m = doorSigned.FindStringSubmatchIndex(part)
			}
			if m == nil {
				if m = doorDated.FindStringSubmatchIndex(part); m != nil {
					m, dated = append(m, -1, -1), true
				}
			}
			if m != nil && (doorClass.MatchString(low[:begin+m[4]]) || dated && t.doorImplausible(part[m[4]:m[5]])) {
				m = nil
			}
		}
		at := begin
		begin = c[1]
		label := doorLabel.FindStringIndex(part)
		if label == nil {
			label = []int{len(part), len(part)}
		}
		if name := doorName(part[:label[0]]); name != "" && m == nil {
			foods++
		}
		if m == nil {
			if b := doorBare.FindStringSubmatchIndex(part); b != nil && !comesIn.MatchString(part[b[2]:b[3]]) {
				if d, ok := t.doorAt(part, b[4], b[5], "", b[6] > 0); ok && t.coldFood(part[b[2]:b[3]], d.n) {
					d.food, d.from, d.to, d.bare = part[b[2]:b[3]], at+b[3], at+len(part), false
					pending = append(pending, d)
				}
			}
			if doorName(part[:label[0]]) != "" { // a label's date is no food
				before = part[:label[0]]
			}
			continue
		}
		unit := ""
		if m[6] >= 0 {
			unit = part[m[6]:m[7]]
		}
		if dated { // the letter before it is of the food
			m[0] = m[2]
		}
		if all := doorNumber.FindAllStringIndex(part[m[0]:m[5]], 6); len(all) > 1 { // of several readings the worst
			for _, at := range all {
				if worstOf(part[m[0]+at[0]:m[0]+at[1]], part[m[4]:m[5]]) {
					m[4], m[5] = m[0]+at[0], m[0]+at[1]
				}
			}
		}
		d, ok := t.doorAt(part, m[4], m[5], unit, m[8] > 0)
		mark := part[m[2]:m[3]]
		d.bare = unit == "" && (mark == "at" || mark == "@" || dated) && d.n >= 0
		to := len(part)
		if label[0] >= m[5] {
			to = label[0]
		}
		own := part[:min(m[0], label[0])]
		d.food, d.from, d.to = doorName(own), at+m[0], at+to
		if doorAll.MatchString(own) {
			d.food, d.from = "", at
		} else if d.food == "" && !strings.ContainsAny(own, digits) {
			d.food, d.behind = doorName(before), true
		} else {
			foods++
		}
		noSign := d.n <= freezingDoor && !strings.HasPrefix(d.said, "-") && (mark == "at" || mark == "@") && unit == "" // a US price or time: "beef at 4"
		if d.food != "" {
			before = d.food
		}
		if !ok || noSign && !t.keptFrozen(d.food) || d.bare && price || (mark == "is" || mark == "was" || mark == "were") && unit == "" && d.n >= 0 && !onlyDoor.MatchString(low) || unit == "" && d.food != "" && !t.coldFood(d.food, d.n) {
			continue
		}
		list = append(list, d)
	}
	if slices.ContainsFunc(list, func(d atDoor) bool { return d.food != "" }) && !price {
		list = append(list, pending...)
		slices.SortFunc(list, func(a, b atDoor) int { return a.from - b.from })
	}
	if len(list) == 1 && list[0].behind && foods > 1 { // one reading behind several foods is of all
		list[0].food = ""
	}
	return list
}

// The degrees that a bare number before a label's date may be of, C and F. The program's own choice.
const (
	mostBareDoor                  = 20
	leastBareDoorF, mostBareDoorF = 28, 60
)

var doorNumber = regexp.MustCompile(`\d{1,3}(?:\.\d)?`)

// worstOf says whether a number is higher than another.
func worstOf(a, b string) bool {
	v, err := strconv.ParseFloat(a, 64)
	o, bad := strconv.ParseFloat(b, 64)
	return err == nil && bad == nil && v > o
}

// doorImplausible says whether a bare number is of no degrees that chilled food comes in at.
func (t *turn) doorImplausible(said string) bool {
	v, err := strconv.ParseFloat(said, 64)
	if t.country() == "US" {
		return err != nil || v < leastBareDoorF || v > mostBareDoorF
	}
	return err != nil || v > mostBareDoor
}

// doorAt reads a number as degrees C, tenths rounded up.
func (t *turn) doorAt(part string, from, to int, unit string, soft bool) (d atDoor, ok bool) {
	d = atDoor{said: part[from:to], soft: soft}
	v, err := strconv.ParseFloat(strings.ReplaceAll(d.said, "−", "-"), 64)
	if err != nil {
		return d, false
	}
	if strings.Contains(unit, "f") || t.country() == "US" && !strings.Contains(unit, "c") {
		v = (v - 32) / 1.8
		d.n = int(math.Round(v))
	} else {
		d.n = int(math.Ceil(v - 1e-9))
	}
	return d, d.n >= leastDoor && (d.n <= mostDoor || unit != "" && d.n <= mostProbed)
}

// doorName is the food of a part of what came in: "got 5kg mince" is mince.
func doorName(part string) string {
	for was := ""; was != part; {
		was = part
		part = strings.TrimSpace(doorHas.ReplaceAllString(part, ""))
		if m := doorWord.FindStringIndex(part); m != nil && m[0] == 0 {
			part = strings.TrimSpace(part[m[1]:])
		}
	}
	part = strings.TrimSpace(doorHad.ReplaceAllString(strings.TrimSpace(part), "")) // "prawns 3kg"
	for {
		i := strings.LastIndexByte(part, ' ')
		if i < 0 || !doorWord.MatchString(part[i+1:]) || doorWord.FindString(part[i+1:]) != part[i+1:] {
			return strings.Trim(part, " -")
		}
		part = strings.TrimSpace(part[:i])
	}
}

// coldFood says whether words are of food that comes chilled or frozen, or as frozen as n degrees C.
func (t *turn) coldFood(said string, n int) bool {
	low := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(said, "frozen ")))
	h := t.ear.find(low)
	return h.exact && !h.sound && (h.food != nil || len(h.lines) > 0) && (n <= freezingDoor || t.mustChill(low) || t.keptFrozen(low) || strings.Contains(said, "frozen ") || t.doorMost(low) != t.limits().cold)
}

// keptFrozen says whether food is in a freezer as it is sold: ice cream.
func (t *turn) keptFrozen(said string) bool {
	g, ok := t.ear.guide(said, t.ear.find(said).food, food.Raw, "", t.country())
	return ok && g.Place == "freezer" || strings.HasPrefix(strings.ToLower(said), "frozen ")
}

// doorMosts is for US kitchens at how many degrees C food may come in at most that may come warmer than it is kept: FDA Food
// Code 2022, 3-202.11, eggs in the shell at 45 F, and milk by the law of milk (from memory).
var doorMosts = map[string]int{"egg": 7, "eggs": 7, "milk": 7}

// doorMost is the most degrees C that chilled food may come in at.
func (t *turn) doorMost(said string) int {
	if n, ok := doorMosts[lastWord(strings.ToLower(said))]; ok && t.country() == "US" {
		return n
	}
	return t.limits().cold
}

// takesIn is so much, or so many, of some food.
var takesIn = regexp.MustCompile(`(?:^|[\s,;:])\d[\d.,]*\s?(?:[x×]\s*)?[A-Za-z]`)

// withoutDegrees takes the degrees of what came in out of a text: mindCameWarm speaks of them. What is frozen by them
// comes in so.
func (t *turn) withoutDegrees(text string) string {
	text = cameAs(text)
	whole, list := text, t.doorTemps(text)
	for _, d := range slices.Backward(list) {
		frozen := ""
		if d.n <= freezingDoor && d.food != "" && !t.keptFrozen(d.food) {
			frozen = " frozen"
		}
		if d.from < d.to && d.to <= len(text) {
			before, behind := strings.TrimRight(text[:d.from], ",;-. "), text[d.to:]
			if open := strings.TrimRight(before, "([ "); open != before {
				before, behind = open, strings.Replace(behind, ")", "", 1)
			}
			if behind != "" && !strings.ContainsAny(behind[:1], " ,;.\n") {
				behind = " " + behind
			}
			text = before + frozen + behind
		}
	}
	if !takesIn.MatchString(text) {
		return whole
	}
	return text
}

// freezingDoor is from how many degrees C down food is frozen.
const freezingDoor = -4

// isBadAt says whether food came too warm: frozen food, or what must be chilled.
func (t *turn) isBadAt(d atDoor, name string, frozen, chilled bool) bool {
	if frozen || d.n <= freezingDoor || d.soft {
		return d.soft || d.n > mostFreezing
	}
	return chilled && d.n > t.doorMost(name)
}

// doorOf gives what a line was at when it came in, by the message that took it in; not ok where nobody said.
func (t *turn) doorOf(list []atDoor, l *pantry.Line) (d atDoor, ok bool) {
	name := singular(lastWord(strings.ToLower(l.Name)))
	for _, is := range []func(atDoor) bool{
		func(d atDoor) bool { return d.food != "" && slices.Contains(t.ear.find(d.food).lines, l) },
		func(d atDoor) bool { return d.food != "" && strings.Contains(d.food, name) },
		func(d atDoor) bool { return d.food == "" },
	} {
		if i := slices.IndexFunc(list, is); i >= 0 {
			return list[i], true
		}
	}
	return d, false
}

// cameBadOf gives the lines of some that came too warm by the text that took them in, and what they were at.
func (t *turn) cameBadOf(text string, lines []*pantry.Line) (bad []*pantry.Line, at []atDoor) {
	list := t.doorTemps(text)
	for _, l := range lines {
		if l == nil {
			continue
		}
		if d, ok := t.doorOf(list, l); ok && !slices.Contains(bad, l) && t.isBadAt(d, l.Name, isFrozen(l) || t.keptFrozen(l.Name), t.inFridge(l) || t.doorMost(l.Name) != t.limits().cold) {
			bad, at = append(bad, l), append(at, d)
		}
	}
	return bad, at
}

// mindCameWarm adds to what came in, too warm as its message tells, that it is sent back.
func (t *turn) mindCameWarm(r Reply) Reply {
	var lines []*pantry.Line
	for _, e := range r.Entries {
		if e.Kind == string(pantry.Receive) {
			lines = append(lines, t.k.Named(e.Item))
		}
	}
	if len(lines) == 0 {
		return r
	}
	text := t.m.Text
	if t.answers != nil && len(t.doorTemps(text)) == 0 { // "1l", to "got 12 bottles of milk at 14c"
		text = t.answers.Text
	}
	bad, at := t.cameBadOf(text, lines)
	var chilled, frozen []string
	most, doubt := t.limits().cold, ""
	for i, l := range bad {
		if says := fmt.Sprintf("%s at %d C", title(l.Name), at[i].n); isFrozen(l) || t.keptFrozen(l.Name) || at[i].n <= freezingDoor {
			frozen = append(frozen, says)
		} else {
			chilled = append(chilled, says)
			most = t.doorMost(l.Name)
		}
		if at[i].bare && len(at) == 1 && len(t.doorTemps(text)) == 1 {
			doubt = fmt.Sprintf(" If %s is no temperature, edit the message.", at[i].said)
		}
	}
	if len(chilled) > 1 {
		most = t.limits().cold
	}
	if len(chilled) > 0 {
		r.Text += fmt.Sprintf("\n%s at the door: what must be chilled and comes above %d C is sent back, or binned; probe between packs, and write it down. No date allows for that.%s", both(chilled, "and"), most, doubt)
	}
	if left := t.notTaken(lines); len(left) > 0 {
		r.Text += "\nNot taken in, as nobody said how much: " + both(left, "and") + "."
	}
	if len(frozen) > 0 {
		r.Text += "\n" + both(frozen, "and") + " at the door: " + frozenRule + " What is warmer or soft is sent back, or binned; it is not frozen again. No date allows for that."
	}
	return r
}

// notTaken are foods that the message tells the degrees of and that are none of the lines that it took in.
func (t *turn) notTaken(lines []*pantry.Line) (left []string) {
	for _, d := range t.doorTemps(t.m.Text) {
		if d.food == "" || slices.ContainsFunc(lines, func(l *pantry.Line) bool {
			one, ok := t.doorOf([]atDoor{d}, l)
			return ok && one.food == d.food
		}) {
			continue
		}
		left = append(left, d.food)
	}
	return left
}

// frozenRule is what frozen food is at. Quick-frozen Foodstuffs (England) Regulations 2007, which let it be a little warmer
// for a short while on its way (from memory).
var frozenRule = fmt.Sprintf("frozen food is at %d C, at most %d C for a short while at the door (UK Quick-frozen Foodstuffs rules, and labels).", freezerMark, mostFreezing)
