package language

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// madeOn is the day behind what was made or opened: "made 2kg beef stew on sunday", "1kg cooked chicken made last
// night", "opened the ham 2 days ago".
var madeOn = regexp.MustCompile(`(?i),? (?:made |cooked |baked |opened |thawed )?(?:on |last )?(?:(mon|tue|tues|wed|wednes|thu|thur|thurs|fri|sat|satur|sun)(?:day)?|yesterday|last night|(a|\d|one|two|three|four|five|six) days? ago)(?: (?:morning|lunch|lunchtime|afternoon|night|evening|service))?[.!]?$`)

// saysMade and saysFor are what such a message begins with or has, and what makes the day another one.
var (
	saysMade = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |i've |weve |we've )?(?:made|cooked|baked|opened|thawed|defrosted)\b| (?:made|cooked|baked|opened|thawed) (?:on|last|yesterday|(?:a|\d|one|two|three|four|five|six) days? ago|(?:mon|tues|wednes|thurs|fri|satur|sun)day)\b`)
	putBy    = regexp.MustCompile(`(?i)\bput by\b`) // which tells no day
	saysFor  = regexp.MustCompile(`(?i)\b(for|by|before|until|till|ub|exp|expires)\b`)
)

// madeDays are how the words begin that such a message ends with.
var madeDays = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun", "yesterday", "last night", " ago"}

// MadeOn gives how many days ago something was made by what its message says behind it, and the message
// without that; 0 today, or nobody said.
func MadeOn(text string, today time.Weekday) (ago int, rest string) {
	if low := strings.ToLower(text); !slices.ContainsFunc(madeDays, func(w string) bool { return strings.Contains(low, w) }) { // a quick look
		return 0, text
	}
	m := madeOn.FindStringSubmatchIndex(text)
	if m == nil || !saysMade.MatchString(text) || saysFor.MatchString(putBy.ReplaceAllString(text, "")) {
		return 0, text
	}
	rest = text[:m[0]]
	switch {
	case m[4] >= 0:
		n := slices.Index([]string{"", "one", "two", "three", "four", "five", "six"}, strings.ToLower(text[m[4]:m[5]]))
		if x, err := strconv.Atoi(text[m[4]:m[5]]); err == nil {
			n = x
		}
		return max(n, 1), rest
	case m[2] < 0:
		return 1, rest
	}
	day := strings.ToLower(text[m[2]:m[3]])[:3]
	for wd := time.Sunday; wd <= time.Saturday; wd++ {
		if strings.HasPrefix(strings.ToLower(wd.String()), day) {
			return (int(today) - int(wd) + 7) % 7, rest
		}
	}
	return 0, text
}
