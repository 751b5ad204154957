package discord

import (
	"strconv"
	"time"
)

// epoch is when snowflakes begin, in ms since 1970. Source: Discord API docs,
// reference, "Snowflakes".
const epoch = 1420070400000

// number reads an id; 0 where it is none. Ids are compared as numbers: their
// lengths differ.
func number(id string) uint64 {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil {
		return 0
	}
	return n
}

// said gives the time of an id.
func said(id string) time.Time { return time.UnixMilli(int64(number(id)>>22) + epoch) }

// idAt gives the least id that a message said at t can have.
func idAt(t time.Time) string {
	return strconv.FormatUint(uint64(max(0, t.UnixMilli()-epoch))<<22, 10)
}

// earlier gives the id of d before another.
func earlier(id string, d time.Duration) string { return idAt(said(id).Add(-d)) }

func decimal(n uint64) string { return strconv.FormatUint(n, 10) }
