package pantry

import "time"

// Choice is what a cook has made of an idea: begun it, or turned it down. It is
// counted for the service in which it was made.
type Choice struct {
	Message   string // that said so
	Part      int    // which of the message's, from 0
	Cook      string
	Technique string // id, of a frame too
	Palette   string // id, of a dish
	Item      string // the line it was for; "" whichever
	Title     string
	Taken     bool      // begun; else turned down
	At, Until time.Time // of one begun: when its kit is free again
	Hands     time.Time // of one begun: when its cook's hands are free again
	Kit       []string  // that it holds until Until
}
