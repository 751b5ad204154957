package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// What is told of hazards in words that no form has, and the answers that only such words get.

// What a freezer is at, degrees C: common practice, and what labels of frozen food say. For a short while, at a delivery
// or a defrost, a little more is borne.
const (
	freezerMark  = -18
	mostFreezing = -15
)

// saysFahrenheit says that degrees are not the C of a kitchen elsewhere.
var saysFahrenheit = regexp.MustCompile(`(?i)\d ?°? ?(?:f|fahrenheit|degrees f|deg f)\b`)

// noMinus is a freezer whose degrees have no sign, as sheets are written: "freezer 18". One that is "up to 18" is that warm.
var (
	noMinus   = regexp.MustCompile(`(?i)(?:^|[^\d.+-])1[5-9](?:\.\d)?(?:[^\d.]|$)|(?:^|[^\d.+-])2\d(?:\.\d)?(?:[^\d.]|$)`)
	gotWarmer = regexp.MustCompile(`(?i)\b(?:up|risen|rose|climbed|hit|warm|gone|went|off|soft|dead)\b|\+`)
)

// isDelivery says whether words are of what came, whatever it is.
func isDelivery(said string) bool {
	return slices.Contains([]string{"delivery", "deliveries", "order", "shopping", "drop"}, strings.ToLower(strings.TrimSpace(said)))
}

// hazard is what Hazard reads of a text, its foods as they are called here; nil where it tells of food, and of none that
// is known here.
func (t *turn) hazard(text string) *language.Question {
	q := t.reader().Hazard(text)
	if q == nil {
		return nil
	}
	if q.Food == "" {
		return q
	}
	q.Food = strings.ReplaceAll(q.Food, " n ", " and ")
	if len(q.Also) == 0 || !t.isJoined(q) {
		var known []string
		for _, said := range append([]string{q.Food}, q.Also...) {
			if name := t.toldFood(said); name != "" {
				known = appendOnce(known, name)
			}
		}
		if len(known) == 0 {
			if q.About != language.AboutHeldAt || q.Place == "" {
				return nil
			}
			known = []string{""} // "the veg in the hot cupboard is at 50"
		}
		q.Food, q.Also = known[0], known[1:]
	}
	if q.About == language.AboutUndercooked && !t.isPinkHazard(q.Food, text) {
		return nil
	}
	if q.About == language.AboutMould && !t.isHardCheese(q.Food) && !t.isPacked(q.Food) {
		q.About, q.State = language.AboutSmells, "mouldy"
	}
	return q
}

// isJoined says whether foods of a question are one of a joined name, as "fish and chips" are, and makes them that.
func (t *turn) isJoined(q *language.Question) bool {
	whole := q.Food + " and " + strings.Join(q.Also, " and ")
	dish, _, err := t.cooked(whole)
	if h := t.ear.find(whole); err != nil || dish == "" && !(h.exact && !h.sound && len(h.lines)+len(h.near) > 0) {
		return false
	}
	q.Food, q.Also = whole, nil
	return true
}

// apart splits "stew and mash", which a form takes for one food, where nothing here is called so and both are food.
func (t *turn) apart(q *language.Question) {
	low := strings.ToLower(q.Food)
	one, two, ok := strings.Cut(low, " and ")
	if !ok || len(q.Also) > 0 {
		return
	}
	first, second := t.toldFood(one), t.toldFood(two)
	if first == "" || second == "" {
		return
	}
	split := *q
	if split.Food, split.Also = first, []string{second}; !t.isJoined(&split) && t.ear.find(low).food == nil {
		q.Food, q.Also = split.Food, split.Also
	}
}

// misread says whether a form took for food what is none: "power been out since 7", "delivery chicken probed at 12".
func (t *turn) misread(q *language.Question) bool {
	return q.Food != "" && (q.About == language.AboutProbed && strings.HasPrefix(strings.ToLower(q.Food), "delivery ") || t.toldFood(q.Food) == "")
}

// toldFood gives what food that was told of is called here: the words themselves, or the food among them; "" none.
func (t *turn) toldFood(said string) string {
	low := strings.ToLower(said)
	if isPronoun(said) || isDelivery(said) || isSpread(said) {
		return said
	}
	if h := t.ear.find(low); h.exact && !h.sound && (h.food != nil || len(h.lines) > 0) {
		return said
	}
	if dish, _, err := t.cooked(low); err == nil && dish != "" {
		return said
	}
	name, _ := t.foodIn(low, true)
	if name != "" && strings.HasSuffix(low, name) && isMade(low) && len(strings.Fields(low)) < 4 { // "stock pot" is stock, "tomato soup" is that
		return said
	}
	return name
}

func (t *turn) isHardCheese(said string) bool {
	h := t.ear.find(strings.ToLower(said))
	return h.exact && h.food != nil && slices.ContainsFunc(h.food.Kinds, func(k string) bool { return strings.Contains(k, "hard cheese") })
}

// packedGroups are the groups of food that come in packs, of which one may be mouldy and the others sound.
var packedGroups = []string{"fruit", "root vegetable", "bread", "leaf", "fruiting vegetable", "herb", "brassica", "squash", "mushroom", "allium", "pod or fresh pulse", "sprout or sea vegetable", "stem vegetable", "nut", "dried fruit"}

func (t *turn) isPacked(said string) bool {
	h := t.ear.find(strings.ToLower(said))
	return h.exact && h.food != nil && slices.Contains(packedGroups, h.food.Group) && !isMade(said)
}

// inDegreesC puts the degrees of what was told in C, and hot food that was too cold for too long among what stood.
func (t *turn) inDegreesC(q *language.Question, text string) {
	us := t.country() == "US" && !saysCelsius.MatchString(text) || saysFahrenheit.MatchString(text)
	if q.About == language.AboutFreezerAt && !us && q.N >= -mostFreezing && q.N < 30 && noMinus.MatchString(text) && !gotWarmer.MatchString(text) {
		q.N = -q.N
	}
	q.N = t.celsius(q, text)
	if q.About == language.AboutHeldAt && q.Food != "" && q.Hours > mostHoursHot && q.N < t.limits().hot && q.N > t.limits().cold {
		q.Method = fmt.Sprintf("at %d C for %d hours", q.N, q.Hours)
		q.About, q.N = language.AboutStoodHours, q.Hours
	}
}

const ownRules = "\nYour own food-safety plan and local rules go first."

// sayHazard answers what is told of no food by name, or of food whatever of it is here; "" of anything else.
func (t *turn) sayHazard(q *language.Question, text string) (string, error) {
	if said := t.sayRaw(q); said != "" {
		return said, nil
	}
	name := title(strings.ToLower(q.Food))
	switch {
	case q.About == language.AboutFreezerAt && (q.N <= mostFreezing || q.N > mostProbed):
		return "", nil
	case q.About == language.AboutFreezerAt:
		return t.sayFreezerAt(q)
	case q.About == language.AboutPower:
		return t.sayPower(q, text)
	case q.About == language.AboutHeldAt && q.State == "off":
		return fmt.Sprintf("%s failed: probe the food in it. What was below %d C for over %d hours is binned, and if nobody knows how long; else heat it to %d C, and keep it hot elsewhere.%s", title(q.Place), t.limits().hot, mostHoursHot, t.limits().through, ownRules), nil
	case q.About == language.AboutHeldAt && q.Food == "" && q.N > t.limits().cold && q.N < t.limits().hot:
		return fmt.Sprintf("%s at %d C: hot food is kept at %d C or more; below that for %d hours at most, once. Probe the food: if it was longer, or nobody knows, bin it; else serve it now, or heat it through to %d C.%s", title(q.Place), q.N, t.limits().hot, mostHoursHot, t.limits().through, ownRules), nil
	case q.About == language.AboutMould && t.isPacked(q.Food):
		return name + ": mould runs through a pack, punnet or loaf further than it shows: bin that one, and look through the others (common practice)." + ownRules, nil
	case q.About == language.AboutMould:
		return name + ": off a hard block cut the mould 2.5 cm deep and wide, with the knife kept out of it, and wrap it anew (US storage wall chart). Sliced, grated or soft cheese: bin it." + ownRules, nil
	case q.About == language.AboutBlown:
		return fmt.Sprintf("%s: a tin, jar or pack that bulges, hisses or leaks is binned unopened, and not tasted: what makes it swell may be botulism. Look at the others of that batch. Say \"binned 1 tin %s\".", name, strings.ToLower(q.Food)), nil
	case q.About == language.AboutShut && q.State == "open":
		return name + ": what stands open and does not close when tapped, or is cracked, is dead: bin it, uncooked (common practice). Many of them: send the bag back." + ownRules, nil
	case q.About == language.AboutShut:
		return name + ": bin those that stayed shut, do not force them open; the others may be served (common practice)." + ownRules, nil
	case isDelivery(q.Food):
		return t.sayDelivery(q), nil
	}
	return "", nil
}

// sayDelivery answers of a delivery of which nobody said what it holds.
func (t *turn) sayDelivery(q *language.Question) string {
	const back = "is sent back, or binned; probe between packs, and write it down."
	switch {
	case q.About == language.AboutCameWarm && (q.State == "frozen" || q.State == "" && q.N < 0) && q.N > mostFreezing:
		return fmt.Sprintf("Frozen delivery at %d C at the door: %d C is the mark, %d C the most at the door (common practice, and labels). What is soft %s%s", q.N, freezerMark, mostFreezing, back, ownRules)
	case q.About == language.AboutCameWarm && q.State != "" && q.State != "frozen":
		return fmt.Sprintf("Delivery came %s: probe it. What must be chilled and comes above %d C, and frozen food that is soft, %s%s", q.State, t.limits().cold, back, ownRules)
	case q.About == language.AboutCameWarm && q.N > t.limits().cold && q.N < mostProbed:
		return fmt.Sprintf("Delivery at %d C at the door: what must be chilled and comes above %d C %s%s", q.N, t.limits().cold, back, ownRules)
	case q.About == language.AboutStoodHours || q.About == language.AboutStood:
		out := "Delivery left out"
		if q.N > 0 {
			out = "Delivery out " + outFor(q)
		}
		if q.About == language.AboutStood || q.N > t.limits().out {
			return fmt.Sprintf("%s: too long. What must be chilled is binned, or sent back; frozen food that is still hard may stay. Write it down.%s", out, ownRules)
		}
		return fmt.Sprintf("%s: probe it now. What must be chilled and was above %d C for over %d hours is binned, and if nobody knows how long; frozen food that is soft goes to the fridge and is used within a day, or is binned.%s", out, t.limits().cold, t.limits().out, ownRules)
	}
	return ""
}

// eatenFrozen is frozen food that nobody cooks: once it got soft it is not frozen again, and is of no use otherwise.
var eatenFrozen = regexp.MustCompile(`(?i)\b(?:ice ?creams?|sorbets?|gelato|ice loll(?:y|ies)|popsicles?|frozen yog\w*|sherbet|parfait)\b`)

// sayCame answers of food that came warm or soft, where no degrees were said, and of frozen food; "" of other food.
func (t *turn) sayCame(q *language.Question, bin string) string {
	name := title(strings.ToLower(q.Food))
	switch {
	case q.About != language.AboutCameWarm:
	case q.State == "frozen" && q.N > mostFreezing, q.State == "" && q.N < 0 && q.N > mostFreezing:
		return fmt.Sprintf("%s at %d C at the door: %s What is soft is sent back, or binned; write it down. %s%s", name, q.N, frozenRule, bin, ownRules)
	case q.State == "frozen" && q.N <= mostFreezing:
		return fmt.Sprintf("%s at %d C at the door: not above %d C. Write it down, and put it in the freezer.%s", name, q.N, mostFreezing, ownRules)
	case q.State == "warm":
		return fmt.Sprintf("%s came warm: probe between packs. What must be chilled and comes above %d C is sent back, or binned; write it down. %s%s", name, t.limits().cold, bin, ownRules)
	case q.State == "soft" && eatenFrozen.MatchString(q.Food):
		return fmt.Sprintf("%s came soft: sent back, or binned. It is eaten as it is, and not frozen again. %s%s", name, bin, ownRules)
	case q.State == "soft":
		return fmt.Sprintf("%s came soft: frozen food that is soft at the door is sent back, or binned. It is not frozen again; what was taken in goes to the fridge and is used within a day. %s%s", name, bin, ownRules)
	}
	return ""
}

// inCold lists what is on hand that a fridge, or a freezer, may hold, or what was told to be in it.
func (t *turn) inCold(fridge, freezer bool, place string) (string, error) {
	if lines, _ := t.toldIn(place); len(lines) > 0 {
		var of []string
		for _, l := range lines {
			of = append(of, measure.Say(l.OnHand(), l.Unit)+" "+l.Name)
		}
		return "As told, it was in it: " + few(of) + ". What else was in it goes by the same. Say \"binned\" and what goes, like \"binned " + of[0] + "\".", nil
	}
	list, _, err := t.heldOf(slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return l.OnHand() == 0 }))
	if err != nil {
		return "", err
	}
	var of []string
	for _, h := range list {
		if frozen := h.State == food.Frozen || t.keptFrozen(h.Item); frozen && freezer || !frozen && fridge && h.UseBy {
			of = appendOnce(of, measure.Say(h.Amount, h.Unit)+" "+h.Item)
		}
	}
	var unsure []string
	for _, l := range t.k.Lines { // what no table has a date of
		if l.OnHand() == 0 || slices.ContainsFunc(list, func(h held) bool { return h.Item == l.Name }) {
			continue
		}
		switch said := measure.Say(l.OnHand(), l.Unit) + " " + l.Name; {
		case isFrozen(l) || t.keptFrozen(l.Name):
			if freezer {
				of = append(of, said)
			}
		case fridge && t.ear.foodOf(l) == nil && !t.keepsOut([]*pantry.Line{l}):
			unsure = append(unsure, said)
		}
	}
	if len(unsure) > 0 && len(of) == 0 {
		return "Whether it held these is not known here: " + few(unsure) + ". Say \"binned\" and what goes, like \"binned " + unsure[0] + "\".", nil
	}
	if len(of) == 0 {
		return "Nothing that was logged is known to have been in it; what nobody logged is not known here.", nil
	}
	return "It may be in it: " + few(of) + ". Say \"binned\" and what goes, like \"binned " + strings.TrimSpace(of[0]) + "\".", nil
}

func (t *turn) sayFreezerAt(q *language.Question) (string, error) {
	here, err := t.inCold(false, true, q.Place)
	return fmt.Sprintf("%s at %d C: the mark is %d C (common practice, and labels), %d C for a short while at a delivery or a defrost. What is still hard frozen may stay, best in another freezer; what is soft goes to the fridge and is used within a day, or is binned, and is not frozen again raw. Above %d C for over %d hours it is binned. No date here allows for it.\n%s%s",
		title(q.Place), q.N, freezerMark, mostFreezing, t.limits().cold, t.limits().out, here, ownRules), err
}

// sayPower tells what a kitchen without power does with its food. For how long shut doors hold: USDA FSIS, of a power cut
// (from memory).
func (t *turn) sayPower(q *language.Question, text string) (string, error) {
	here, err := t.inCold(true, true, "")
	gone := "Power gone"
	if q.At != "" {
		out := t.minutesOut(q, text, t.said.At)
		gone += fmt.Sprintf(" since about %s, %s", t.said.At.In(t.m.At.Location()).Add(-time.Duration(out)*time.Minute).Format("15:04"), sayMinutes(out))
	} else if q.N > 0 {
		gone += " " + outFor(q)
	}
	return fmt.Sprintf("%s: keep fridge and freezer doors shut, and probe before anything is used. A shut fridge stays cold about 4 hours, a full freezer 48, half full 24 (USDA FSIS). What must be chilled and was above %d C for over %d hours is binned, and hot food below %d C for over %d. What is still hard frozen may stay; soft, it goes to the fridge and is used within a day, or is binned. No date here allows for it.\n%s%s",
		gone, t.limits().cold, t.limits().out, t.limits().hot, mostHoursHot, here, ownRules), err
}

// sayAlso answers of the other foods that a question names, as of the first.
func (t *turn) sayAlso(q *language.Question) (string, error) {
	text := ""
	for _, name := range q.Also {
		one := *q
		one.Food, one.Also = name, nil
		said := t.sayCooked(&one)
		if said == "" {
			lines, isFood := t.warmLines(&one)
			dish := ""
			if len(lines) == 0 {
				var err error
				if dish, err = t.standsUnput(name); err != nil {
					return "", err
				}
			}
			if dish == "" && (!isFood || len(lines) == 0 && !t.mustChill(name)) {
				continue
			}
			said = t.sayAbused(&one, lines, dish)
		}
		if said = strings.TrimSuffix(said, ownRules); said != "" {
			text += "\n" + said
		}
	}
	return strings.TrimPrefix(text, "\n"), nil
}
