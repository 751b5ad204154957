package language

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed spoilttalk.csv
var spoiltTalkCSV []byte

var spoiltTalk = sync.OnceValue(func() *asking { return embedded("spoilttalk.csv", spoiltTalkCSV) })

// What may be said of food that was no good.
const (
	AboutSpoilt    About = "spoilt"       // it was thrown away, nobody said how much
	AboutSpoiltAll About = "spoiltall"    // all of it was
	AboutSpoiltSo  About = "spoiltamount" // Amount of it was
)

// inABreath takes out what people leave out when they type so: "milk's off, binned the lot".
var inABreath = strings.NewReplacer("'s ", " ", "’s ", " ", ",", " ", " - ", " ", ";", " ", ". ", " ")

// SpoiltTalk reads a message that tells, mostly without an amount, that food was thrown away; nil where it
// does not, as where it was thrown somewhere else: "chucked the milk in the fridge".
func (r *Reader) SpoiltTalk(text string) *Question {
	text = strings.ToLower(inABreath.Replace(text))
	for _, w := range strings.Fields(strings.ReplaceAll(text, "in the bin", "binned")) {
		if words().is(w, "prep") {
			return nil
		}
	}
	return r.talked(text, spoiltTalk())
}
