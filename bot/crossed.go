package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
)

// What is made free of something and touched what other food did: "gluten free tray got the same spoon", "the gf toast went
// through the normal toaster". Common kitchen talk, no source.
var (
	// sharedTool is a tool that was used for both.
	sharedTool = regexp.MustCompile(`(?i)\b(?:same|normal|ordinary|regular|standard|usual|shared|sharing|wrong|other|non[ -]?gf|not the gf)\b(?: [a-z]+)? ?\b(?:spoons?|ladles?|tongs|toasters?|trays?|boards?|knife|knives|pans?|pots?|fryers?|oil|water|grills?|griddles?|gloves|bowls?|whisks?|blenders?|sieves?|colanders?|slicers?|scoops?|spatulas?|utensils?|cutters?|oven|rack|bain marie|containers?|tubs?|cloth|slice|plates?|surface|bench|hands)\b`)
	// freeFood is food that is made free of something, and of what.
	freeFood = regexp.MustCompile(`(?i)\b(gf|df|nf|ef|gluten|dairy|nut|peanut|egg|milk|sesame|soya?|wheat|fish|shellfish|celery|mustard|coeliac|celiac)(?:[ -]?free)?\b`)
	isFreed  = regexp.MustCompile(`(?i)\b(?:gf|df|nf|ef|coeliac|celiac|(?:gluten|dairy|nut|peanut|egg|milk|sesame|soya?|wheat|fish|shellfish|celery|mustard)[ -]?free)\b`)
)

// freeShort are the short forms of what food is free of.
var freeShort = map[string]string{"gf": "gluten", "df": "dairy", "nf": "nuts", "ef": "egg", "coeliac": "gluten", "celiac": "gluten", "nut": "nuts"}

// crossedTalk answers that food which was made free of something touched what other food did. The dishes that are called so
// may hold it from now on; where none is known, it is said to be free no more. Done is false where nothing of the kind is told.
func (t *turn) crossedTalk(why string) (r Reply, done bool, err error) {
	text := t.m.Text
	if t.m.Press != nil || len(text) > mostMentioned || strings.Contains(text, "://") || asksThis.MatchString(text) || saysNever.MatchString(text) || saysHow.MatchString(text) || saysMine.MatchString(text) {
		return r, false, nil
	}
	free := isFreed.FindString(text)
	if tool := sharedTool.FindStringIndex(text); free == "" || tool == nil || strings.HasPrefix(strings.ToLower(text[tool[1]:]), " of ") { // "same tray of gf rolls"
		return r, false, nil
	}
	of := strings.ToLower(freeFood.FindStringSubmatch(free)[1])
	if long := freeShort[of]; long != "" {
		of = long
	}
	needs := t.allergyCalled(of)
	if len(needs) == 0 {
		return r, false, nil
	}
	var told []telling
	for _, dish := range t.k.Dishes {
		if dishFree(dish, free) && (strings.Contains(strings.ToLower(text), dish) || t.freeAlone(text) && t.onlyFree(free) == dish) {
			told = append(told, telling{name: dish, may: []language.TableNeed{{Said: of, Allergy: needs[0].Allergy}}})
		}
	}
	if len(told) > 0 {
		r, err = t.tellEach(told, why)
		return r, r.Kind != Silent, err
	}
	say := fmt.Sprintf("Not %s free any more, whatever that touched: it may hold %s. Not kept of any dish, as none is named that was logged: say it of each, like \"the pasta bake may contain %[2]s\". In doubt it is binned, or goes to nobody with that need.", strings.TrimSuffix(of, "s"), of)
	return Reply{Kind: Answer, Text: say + t.whoMustNot(needs[0].Allergy)}, true, nil
}

// dishFree says whether a dish is called free of what a text says: "gf pasta bake" of "gluten free".
func dishFree(dish, free string) bool {
	other := isFreed.FindString(dish)
	return other != "" && freeWord(other) == freeWord(free)
}

func freeWord(said string) string {
	w := strings.ToLower(freeFood.FindStringSubmatch(said)[1])
	if long := freeShort[w]; long != "" {
		return long
	}
	return w
}

// freeAlone says whether no dish or food stands behind the word for what food is free of: "the same tongs for the gf".
func (t *turn) freeAlone(text string) bool {
	behind := strings.Fields(strings.ToLower(text[isFreed.FindStringIndex(text)[1]:]))
	if len(behind) == 0 {
		return true
	}
	next := strings.Trim(behind[0], ".,!")
	return !t.reader().NamesDish(next) && !t.isKnownFood(next)
}

// onlyFree is the one dish that is called free of it; "" where there is none, or more than one.
func (t *turn) onlyFree(free string) (found string) {
	for _, dish := range t.k.Dishes {
		if dishFree(dish, free) {
			if found != "" {
				return ""
			}
			found = dish
		}
	}
	return found
}

// whoMustNot tells whose needs an allergen is against, a line; "" nobody's.
func (t *turn) whoMustNot(allergen string) string {
	var of []string
	for _, n := range t.needs() {
		if n.What == allergen || isPart(allergen, n.What) {
			of = appendOnce(of, t.whose(n))
		}
	}
	if len(of) == 0 {
		return ""
	}
	return "\nMind: " + both(of, "and") + "."
}

// marinadeHas is what a marinade, a rub or such was said to be of, and the food that is in it.
var marinadeHas = regexp.MustCompile(`(?i)^\s*(?:the |our |that )?(?:((?:[a-z]+ ){0,2}[a-z]+) )?(marinade|marinate|rub|brine|glaze|baste|coating|crumb|crust)(?:'s|’s|s)?(?: was| is| has| had| got| contains?| made with| made of)+ (?:all |mostly |just |got )?([a-z][a-z ,&+/]*?)(?: in it| in)?\s*[.!]*$`)

// marinadeTalk keeps as unsettled what a marinade is said to have in it, of the food that is named with it.
func (t *turn) marinadeTalk() (r Reply, done bool, err error) {
	m := marinadeHas.FindStringSubmatch(t.m.Text)
	if m == nil || len(t.m.Text) > longest/20 || t.m.Press != nil || asksThis.MatchString(t.m.Text) || saysNever.MatchString(t.m.Text) || t.isLogged(m[2]) {
		return r, false, nil
	}
	var names []string
	var lost []language.Mention
	for _, said := range strings.FieldsFunc(strings.ToLower(m[3]), func(c rune) bool { return strings.ContainsRune(" ,&+/", c) }) {
		if c := t.contentsCalled(said); len(c.holds)+len(c.may) > 0 && (t.isKnownFood(said) || len(t.allergyCalled(said)) > 0) {
			names, lost = append(names, said), append(lost, language.Mention{Name: said, Known: true})
		}
	}
	if len(lost) == 0 {
		return r, false, nil
	}
	into := ""
	if m[1] != "" {
		if h := t.ear.find(strings.ToLower(m[1])); len(h.lines) == 1 {
			into = h.lines[0].Name
		} else if l := t.lineBegins(strings.ToLower(m[1])); l != "" {
			into = l
		} else if t.isLogged(strings.ToLower(m[1])) {
			into = t.dishNow(strings.ToLower(m[1]))
		}
	}
	if into == "" {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not kept: %s in a %s, and it is not said of what food or dish. Say it like \"the chicken curry has %s in it\".", both(names, "and"), strings.ToLower(m[2]), names[0]) + t.heedEach(lost, "")}, true, nil
	}
	if err := t.keepUnread(lost, into); err != nil {
		return r, true, err
	}
	return Reply{Kind: Answer, Text: t.sayPerhaps(lost, names, into)}, true, nil
}

// lineBegins is the one line on hand whose name a short word begins: "chick"; "" none.
func (t *turn) lineBegins(short string) (found string) {
	for _, l := range t.k.Lines {
		if len(short) < 4 || !strings.HasPrefix(l.Name, short) || l.OnHand() == 0 && l.Received == 0 {
			continue
		}
		if found != "" {
			return ""
		}
		found = l.Name
	}
	return found
}
