package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
)

// What is told of food that is not cooked through, or that something raw dripped on.

const (
	// aboutPink is food that is not cooked through by its looks.
	aboutPink language.About = "pink"
	// aboutDripped is food that raw meat or its juice got on.
	aboutDripped language.About = "dripped"
)

var (
	isPink   = regexp.MustCompile(`(?i)\b(?:still |a bit |bit |slightly |looks? |came back |went out )*(?:pink|raw|bloody|undercooked|under cooked|not cooked|uncooked|still cold|cold) (?:inside|in the middle|in the cent(?:re|er)|near the bone|at the bone|by the bone|all the way|through)\b|\bunder ?cooked\b|\b(?:came|was|were|went) back (?:pink|raw|bloody)\b|\bjuices? (?:still )?(?:pink|running pink|bloody)\b`)
	isSteak  = regexp.MustCompile(`(?i)\b(?:steaks?|beef joint|rib|sirloin|fillet|rump|lamb rack|rack|duck breasts?|tuna|salmon)\b`)
	rawOn    = regexp.MustCompile(`(?i)\b(?:raw (?:chicken|meat|pork|beef|turkey|duck|fish|mince|juice|juices|blood|egg)|(?:chicken|meat|pork|turkey|mince|blood) (?:juices?|blood|water|drip\w*|leak\w*|drained|splashed|spilt|spilled)|blood)\b[a-z' ,]*?\b(?:on|onto|over|into|in|all over|touch(?:ed|ing)|next to) (?:the |all the |all over the |some |our )?([a-z][a-z' -]*?)\s*[.!?]*$`)
	rawThere = regexp.MustCompile(`(?i)\b(?:juice|juices|drip\w*|leak\w*|blood|spilt|spilled|splash\w*|touch\w*|drained|got)\b`)
)

// rawTold reads that; nil where nothing of the kind is told, or of food that is eaten pink.
func (t *turn) rawTold(text string) *language.Question {
	if m := rawOn.FindStringSubmatch(text); m != nil && rawThere.MatchString(text) {
		if lines, _ := t.heldLines(strings.ToLower(m[1])); len(lines) > 0 {
			return &language.Question{About: aboutDripped, Food: m[1]}
		}
		if dish, _, err := t.cooked(strings.ToLower(m[1])); err == nil && dish != "" {
			return &language.Question{About: aboutDripped, Food: m[1]}
		}
	}
	if isPink.MatchString(text) && !isSteak.MatchString(text) && !strings.Contains(text, "?") {
		if name, _ := t.foodIn(strings.ToLower(text), true); name != "" && (len(t.probedLines(name)) > 0 || isMade(name)) { // raw potatoes hurt nobody
			return &language.Question{About: aboutPink, Food: name}
		}
	}
	return nil
}

// sayRaw answers it; "" of anything else.
func (t *turn) sayRaw(q *language.Question) string {
	name := title(strings.ToLower(q.Food))
	switch q.About {
	case aboutPink:
		return fmt.Sprintf("%s: not cooked through is not served. Cook it on and probe the thickest part: %s. What went out is called back, and what it touched is not served.%s", name, t.limits().proof, ownRules)
	case aboutDripped:
		return fmt.Sprintf("%s: what raw meat or its juice got on is binned where it is eaten as it is; only what is cooked through afterwards may be kept for that. Wash and disinfect board, shelf and hands, and keep raw food below.%s", name, ownRules)
	}
	return ""
}
