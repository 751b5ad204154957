package pantry

import "time"

// Service is one stretch of cooking with an end time: a plan that was begun.
type Service struct {
	Message    string // that began it
	Cook       string
	Begun, Due time.Time
	Ended      time.Time // zero: it goes on
	Body       []byte    // the plan, as the bot writes it
}
