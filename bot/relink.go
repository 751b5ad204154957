package bot

import (
	"regexp"
	"strconv"
)

// lineID finds the id of a line in what a Bot keeps as JSON: drafts and options name theirs
// "Line". A quote within JSON text has a backslash before it, so this is never found in words.
var lineID = regexp.MustCompile(`([{,]"Line":)(\d+)`)

// Relink gives what a Bot has kept in a ledger (a reply, a question) with the ids of lines in it
// changed by to, for a ledger that numbers them otherwise.
func Relink(kept string, to func(line int64) int64) string {
	return lineID.ReplaceAllStringFunc(kept, func(s string) string {
		m := lineID.FindStringSubmatch(s)
		id, err := strconv.ParseInt(m[2], 10, 64)
		if err != nil {
			return s
		}
		return m[1] + strconv.FormatInt(to(id), 10)
	})
}
