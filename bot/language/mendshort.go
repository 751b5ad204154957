package language

import (
	"regexp"
	"strings"
)

// mostShortWords is how long a message is whose words are mended before it is read: a command.
const mostShortWords = 5

// MendShort mends slips of the keys in a message of few words, those that words.csv has as keyslip: "lables",
// "nxt?". No word of English is one. What is longer is left as it is.
func MendShort(text string) string {
	if strings.Count(text, "'")+strings.Count(text, "’") == 1 {
		text = cutFront.ReplaceAllString(text, "$1$2")
	}
	list := strings.Fields(text)
	if len(list) == 0 || len(list) > mostShortWords {
		return text
	}
	mended := false
	for i, w := range list {
		bare := strings.TrimRight(w, "?!.,")
		if to := words().keyslips[strings.ToLower(bare)]; to != "" {
			list[i], mended = to+w[len(bare):], true
		}
	}
	if !mended {
		return text
	}
	return strings.Join(list, " ")
}

// cutFront is a word that is written without its beginning, "'nduja": the mark is no quote.
var cutFront = regexp.MustCompile(`(^|[\s,(:])['’]([A-Za-z]{3})`)
