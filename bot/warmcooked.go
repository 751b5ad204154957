package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/planner"
)

// Food that keeps out as it came and is told to have been warm: cooked, it does not.

// wasWarm are those that tell that food was warm for too long, or not hot enough.
var wasWarm = []language.About{language.AboutStood, language.AboutStoodHours, language.AboutHeldAt, language.AboutCooled, language.AboutProbed, aboutReading}

// warmLines is heldLines of what is told to have been warm: not the dry rice, where there is cooked rice as well
// or cooked rice was said. Those of the other foods that were named are among them.
func (t *turn) warmLines(q *language.Question) (lines []*pantry.Line, isFood bool) {
	lines, isFood = t.heldLines(q.Food)
	if slices.Contains(wasWarm, q.About) && (!t.keepsOut(lines) || t.mustChill(q.Food)) {
		lines = slices.DeleteFunc(lines, func(l *pantry.Line) bool { return t.keepsOut([]*pantry.Line{l}) })
	}
	for _, said := range q.Also {
		also := *q
		also.Food, also.Also = said, nil
		more, _ := t.warmLines(&also)
		for _, l := range more {
			if !slices.Contains(lines, l) {
				lines = append(lines, l)
			}
		}
	}
	return lines, isFood
}

// rawKinds are the kinds of food which keep out raw and are in the fridge once cooked; cookedDry are dry besides.
var rawKinds = []string{"starchy root"}

// keptAs is how food keeps out, and must be chilled once it is cooked: "dry" rice, "raw" potatoes. "" of any other.
func (t *turn) keptAs(phrase string) string {
	if isDry(strings.ToLower(phrase)) {
		return "dry"
	}
	if h := t.ear.find(phrase); h.exact && h.food != nil && slices.ContainsFunc(h.food.Kinds, func(k string) bool { return slices.Contains(rawKinds, k) }) && !planner.IsCooked(h.food, phrase) {
		return "raw"
	}
	return ""
}

// saysAsItCame is food that is said to be as it came: "dry rice", "raw potatoes".
var saysAsItCame = regexp.MustCompile(`(?i)^(?:dry|dried|raw|uncooked) (.+)$`)

// sayCooked answers of food that keeps out as it came, rice and potatoes, and is told to have been warm: cooked food is
// meant, which may never have been logged. "" where other food is meant, or some of it cooked is on hand.
func (t *turn) sayCooked(q *language.Question) string {
	lines, _ := t.heldLines(q.Food)
	kept := t.keptAs(q.Food)
	if !slices.Contains(wasWarm, q.About) || kept == "" || !t.keepsOut(lines) || t.mustChill(q.Food) {
		return ""
	}
	meant := *q
	meant.Food = "cooked " + strings.ToLower(q.Food)
	text := t.sayAbused(&meant, nil, "")
	if text == "" {
		return ""
	}
	return text + fmt.Sprintf("\nThat is of cooked %s. The %s kind keeps out and is not meant.", strings.ToLower(q.Food), kept)
}
