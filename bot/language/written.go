package language

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Dates as labels have them: "use by 5.3", "ub 05/03/26", "bbe 5-3-2026"; and how their words are cut
// short: u/b, b/b.
var (
	cutShort  = regexp.MustCompile(`(?i)(^|[\s,(])(u/b|u\.b\.?|b/b|b/b/e|b\.b\.?|bb4)(\s|:|$)`)
	dateWords = regexp.MustCompile(`(?i)\b(use[ -]?by|used by|ubd?|best[ -]?before|best by|bbe?|bbd|exp|expires|expiry|expiring|use before|good (?:till|until)|in date (?:till|until)|dated|date)((?:\s+(?:date|is|are|was|were|on|the|says|should be|to|till|reads)|\s*[:=])*)\s*(\d{1,2})([./-])(\d{1,2})(?:[./-](20\d\d|\d\d))?(\s*(?:kg|g|l|ml|lb|oz)\b|[./\d-])?`)
)

// dateStarts are parts of the words that stand before a date.
var dateStarts = []string{"use", "ub", "u/b", "u.b", "best", "bb", "b/b", "b.b", "exp", "good ", "date"}

// datesWritten writes the dates of a text in one way: 5/3, day and month, or 2026-03-05. In the US the
// month comes first. What is no day of any year is left as it is.
func datesWritten(text, place string) string {
	if low := strings.ToLower(text); !slices.ContainsFunc(dateStarts, func(w string) bool { return strings.Contains(low, w) }) { // a quick look
		return text
	}
	text = cutShort.ReplaceAllStringFunc(text, func(s string) string {
		m := cutShort.FindStringSubmatch(s)
		word := "bb"
		if m[2][0] == 'u' || m[2][0] == 'U' {
			word = "ub"
		}
		return m[1] + word + m[3]
	})
	return dateWords.ReplaceAllStringFunc(text, func(s string) string {
		m := dateWords.FindStringSubmatch(s)
		dom, _ := strconv.Atoi(m[3])
		month, _ := strconv.Atoi(m[5])
		if place == "us" && dom <= 12 {
			dom, month = month, dom
		}
		if m[7] != "" || month < 1 || month > 12 || dom < 1 || dom > 31 || m[4] == "-" && m[6] == "" {
			return s
		}
		if m[6] == "" {
			return fmt.Sprintf("%s%s %d/%d", m[1], m[2], dom, month)
		}
		year, _ := strconv.Atoi(m[6])
		if year < 100 {
			year += 2000
		}
		return fmt.Sprintf("%s%s %04d-%02d-%02d", m[1], m[2], year, month, dom)
	})
}
