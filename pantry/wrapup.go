package pantry

import "time"

// WrapUp is where one stretch of the ledger ends and the next begins: all entries of messages
// after the wrap-up before, up to this one, are of it.
type WrapUp struct {
	N       int64 // of the message that closed it
	Message string
	Cook    string
	At      time.Time // when it was said
	Ended   time.Time // when that message was: later, where what was logged a while after is of it
}

// Placed is an entry in force with the place of its message in the order of things.
type Placed struct {
	Entry
	N int64
}
