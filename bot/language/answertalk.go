package language

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed answertalk.csv
var answerTalkCSV []byte

var answerTalk = sync.OnceValue(func() *asking {
	a := formsOf("answertalk.csv", answerTalkCSV)
	a.whole = true
	return a
})

// Plain answers.
const (
	AboutYes About = "yes"
	AboutNo  About = "no"
)

// AnswerTalk reads a message that is nothing but an answer in several words: "yeah go on", "no,
// leave it out"; nil where it is not.
func (r *Reader) AnswerTalk(text string) *Question {
	if strings.Contains(text, "?") {
		return nil
	}
	return r.talked(strings.ReplaceAll(text, ",", " "), answerTalk())
}
