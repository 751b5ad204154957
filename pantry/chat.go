package pantry

import (
	"context"
	"time"
)

// Room is a chat's room that is joined to a kitchen. Ids are the platform's own.
type Room struct {
	ID      string
	Kitchen string
	House   string // who has the room; a kitchen with rooms belongs to one house
	Quiet   bool   // the plainest entries are answered by a sign, not a text
	Since   string // id from which on messages are the kitchen's
	Settled string // id up to which the room's history has been read and settled
}

// Post is what a room is to be shown for a message: due while Rev is more than
// Sent. Body is the poster's own.
type Post struct {
	Kitchen string
	ID      string // of the message that is answered
	Room    string
	At      time.Time // when that message was said
	Body    []byte
	Rev     int    // changes of Body so far, from 1
	Sent    int    // the Rev that was shown last; 0 none
	Place   string // where it stands, in the platform's ids; "" nowhere yet
}

// Timer is one that runs.
type Timer struct {
	Message    string // that set it
	Part       int    // which of the message's, from 0
	Cook, Room string
	About      string // what it is for; "" not said
	Begun, Due time.Time
	Daily      bool // it comes each day, to say what must go; in no room: with the first answer from then on
}

// IsCall says whether the timer measures nothing, and calls for something to be begun.
func (t *Timer) IsCall() bool { return t.Begun.Equal(t.Due) }

// Known is what the ledger remembers of a message of a room.
type Known struct {
	ID     string
	Edited int64 // when the latest edit heard was made, in µs since 1970; 0 none
	Gone   bool
}

// Desk is what a Ledger tells a chat, of all its kitchens; each reads the file
// as it stands. What changes these is written by a Book.
type Desk interface {
	// Rooms lists the rooms, by id.
	Rooms(ctx context.Context) ([]Room, error)
	// DuePosts lists the posts that are due, in the order of their messages.
	DuePosts(ctx context.Context) ([]Post, error)
	// KnownOf lists the messages heard in a room, newest first, at most n.
	KnownOf(ctx context.Context, room string, n int) ([]Known, error)
	// DueTimers names the kitchens with timers of rooms that are due by now, and gives the
	// time of the next after that; zero where no more are running.
	DueTimers(ctx context.Context, now time.Time) (kitchens []string, next time.Time, err error)
}
