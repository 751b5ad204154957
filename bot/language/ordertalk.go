package language

import (
	_ "embed"
	"sync"
)

//go:embed ordertalk.csv
var orderTalkCSV []byte

var orderTalk = sync.OnceValue(func() *asking { return embedded("ordertalk.csv", orderTalkCSV) })

// AboutOrder: Food is to go to Place, as it is called over the pass.
const AboutOrder About = "order"

// OrderTalk reads a message that says where a dish is to go: "6 fishcakes for table 2"; nil where it
// does not.
func (r *Reader) OrderTalk(text string) *Question { return r.talked(text, orderTalk()) }
