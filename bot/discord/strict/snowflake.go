package strict

import (
	"regexp"
	"strconv"
	"time"
)

// epoch is the first millisecond of 2015 (Discord API docs, reference, snowflakes).
const epoch = 1420070400000

var decimal = regexp.MustCompile(`^[0-9]{1,20}$`)

// nextID makes an id that is above every id before it. Ids made within one
// millisecond share its 42 bits.
func (s *Server) nextID() string {
	id := uint64(time.Now().UnixMilli()-epoch) << 22
	s.lastID = max(id, s.lastID+1)
	return strconv.FormatUint(s.lastID, 10)
}

// number is an id as a number; false where it is not one.
func number(id string) (uint64, bool) {
	if !decimal.MatchString(id) {
		return 0, false
	}
	n, err := strconv.ParseUint(id, 10, 64)
	return n, err == nil
}

// idTime is when an id was made, to the millisecond.
func idTime(id string) time.Time {
	n, _ := number(id)
	return time.UnixMilli(int64(n>>22) + epoch).UTC()
}

// stamp writes a time as Discord does, to the microsecond.
func stamp(t time.Time) string {
	return t.UTC().Format("2006-01-02T15:04:05.000000+00:00")
}
