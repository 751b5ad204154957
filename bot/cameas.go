package bot

import (
	"regexp"
	"strconv"
	"strings"
)

// cameIn is a line that tells the amount first, then that it came in, and then its degrees or its date: "15kg pork
// shoulder in at 4C, use by 4 March", "10kg cod turned up 12 degrees".
var cameIn = regexp.MustCompile(`(?i)^(\s*(?:(?:got|received|delivery:?|delivered) )?)([^,;?\n]*?\d[^,;?\n]*?),? (?:(?:has|have|is|are|was|were|just|all) )*(?:in|arrived|turned up|came in|come in|came|landed|delivered)(?: now| today| just now)?,? ((?:at |@ ?)?(-?\d{1,3})(?:\.\d)? ?(?:°? ?([cf])|deg(?:ree)?s?(?: ([cf]))?|°)(?:[,;. )(].*)?|\(?` + doorDate + `.*)$`)

// foodAmount is an amount and a food, in any order, and nothing else.
var foodAmount = regexp.MustCompile(`(?i)^(?:\d[\d.,/½¼]* ?(?:x ?\d[\d.,]* ?)?[a-z][a-z' -]*|[a-z][a-z' -]*? \d[\d.,]* ?[a-z]*)$`)

// notCame are words by which food did something else.
var notCame = regexp.MustCompile(`(?i)\b(?:used|use|binned|bin|made|make|put|went|need|needs|order|ordered|still|left|oven|core|probed|cooked|cooling|pot|way|tray of|will|when|if|due|tomorrow's)\b`)

// The degrees C and F that food comes in with.
const (
	mostCame, mostCameF = 30, 90
)

// cameAs puts such lines as a delivery is mostly told: "got 15kg pork shoulder at 4C, use by 4 March".
func cameAs(text string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		m := cameIn.FindStringSubmatch(line)
		if m == nil || !foodAmount.MatchString(strings.TrimSpace(m[2])) || notCame.MatchString(m[2]) {
			continue
		}
		unit := strings.ToLower(m[5] + m[6])
		if n, _ := strconv.Atoi(m[4]); n > mostCameF || n > mostCame && unit != "f" {
			continue
		}
		head, rest := m[1], strings.NewReplacer(" (", ", ", "(", "", ")", "").Replace(m[3])
		if strings.TrimSpace(head) == "" {
			head = "got "
		}
		if m[4] != "" && !strings.HasPrefix(strings.ToLower(rest), "at ") && rest[0] != '@' {
			rest = "at " + rest
		}
		lines[i] = head + strings.TrimSpace(m[2]) + " " + rest
	}
	return strings.Join(lines, "\n")
}
