package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
)

// eatenPink is food that many like so, seared and whole.
var eatenPink = regexp.MustCompile(`(?i)\b(?:steaks?|beef joints?|rib|sirloin|fillet|rump|lamb|racks?|duck breasts?|tuna|salmon)\b`)

// isPinkHazard says whether food may not be served pink: meat and fish here, or what was made, and none that is eaten so.
func (t *turn) isPinkHazard(said, text string) bool {
	low := strings.ToLower(said)
	return !eatenPink.MatchString(text) && (len(t.probedLines(low)) > 0 || isMade(low))
}

// sayRaw answers of food that is not cooked through, or that something raw got on; "" of anything else.
func (t *turn) sayRaw(q *language.Question) string {
	name := title(strings.ToLower(q.Food))
	switch q.About {
	case language.AboutUndercooked:
		return fmt.Sprintf("%s: not cooked through is not served. Cook it on and probe the thickest part: %s. What went out is called back, and what it touched is not served.%s", name, t.limits().proof, ownRules)
	case language.AboutDripped:
		return fmt.Sprintf("%s: what raw meat or its juice got on is binned where it is eaten as it is; only what is cooked through afterwards may be kept for that. Wash and disinfect board, shelf and hands, and keep raw food below.%s", name, ownRules)
	}
	return ""
}
