package bot

import (
	"regexp"
	"strings"

	"scullion/pantry"
)

// askedMended is a figure that is asked and mended in one breath: "12 cucumbers? no 4", "86 eggs? no i make it 48".
var askedMended = regexp.MustCompile(`(?i)^\s*(?:(got|there['’]?s|counted)\s+)?(\d[\d.,]*)\s*(?:kg|g|l|ml)?\s+([a-z][a-z ]*?)\s*\?+\s*no[, ]+(?:(i make it|i count(?:ed)?)|its|it['’]s|make it|make that)?\s*(\d[\d.]*\s*(?:(?:kg|g|l|ml)\b)?)(?:\s*(?:of )?([a-z][a-z ]*?))?\s*[.!]*$`)

// asMended has what a text mends of itself stand alone: it is no correction of what was written before. "86" is the
// trade's word for a food that is out, and a figure behind it counts the food.
func (t *turn) asMended(text string) string {
	m := askedMended.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	name := m[3]
	if m[6] != "" {
		name = m[6]
	}
	if h := t.ear.find(name); !h.exact {
		return text
	}
	did, said := "", strings.TrimSpace(m[5])+" "+strings.TrimSpace(name)
	switch {
	case strings.EqualFold(m[1], "got"):
		did = "got "
	case m[1] != "" || m[4] != "" || m[2] == "86":
		did = "counted "
	default:
		if _, entries, err := t.lastWritten(); err == nil && len(entries) > 0 && lastOf(entries).Act == pantry.Receive { // the delivery goes on
			did = "got "
		}
	}
	return did + said
}
