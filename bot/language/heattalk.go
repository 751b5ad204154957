package language

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

//go:embed heattalk.csv
var heatTalkCSV []byte

var heatTalk = sync.OnceValue(func() *asking { return embedded("heattalk.csv", heatTalkCSV) })

// What may be asked of heat. Food has its words; none of the two about "it".
const (
	AboutCookTemp   About = "cooktemp"   // how hot it must get to be cooked
	AboutPink       About = "pink"       // it looks underdone
	AboutReheatTemp About = "reheattemp" // how hot it must get again
	AboutCoolDown   About = "cooldown"   // how it gets to the fridge
	AboutItsTemp    About = "itstemp"    // how hot "it" must be
	AboutItsCool    About = "itscool"    // how "it" gets to the fridge
)

// heatWords are what such a message has one of.
var heatWords = []string{"temp", "hot", "know", "tell", "pink", "raw", "bloody", "underdone", "undercooked", "heating", "degree", "fridge", "warm", "cool", "lid"}

// inBreathToo takes out what is left out when it is typed so.
var inBreathToo = strings.NewReplacer("'s been ", " been ", "’s been ", " been ", "'s still ", " still ", ",", " ", ". ", " ", " - ", " ", ";", " ")

// HeatTalk reads a message that asks how hot food must get, or how it is cooled; nil where it does not.
func (r *Reader) HeatTalk(text string) *Question {
	low := strings.ToLower(text)
	if len(text) > mostHeld || !slices.ContainsFunc(heatWords, func(w string) bool { return strings.Contains(low, w) }) {
		return nil
	}
	return r.talked(inBreathToo.Replace(low), heatTalk())
}
