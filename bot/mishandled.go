package bot

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"regexp"
	"strings"
	"sync"

	"scullion/bot/language"
)

// Food that was frozen or heated again, thawed so that it does not keep, or that something got on: mishandled.csv.

//go:embed mishandled.csv
var mishandledCSV string

// aboutMishandled is food that was handled as State says.
const aboutMishandled language.About = "mishandled"

// mishandling is a row of mishandled.csv.
type mishandling struct {
	kind               string
	is                 *regexp.Regexp
	topic, says, holds string
}

var mishandlings = sync.OnceValue(func() (list []mishandling) {
	c := csv.NewReader(strings.NewReader(mishandledCSV))
	c.Comment, c.FieldsPerRecord = '#', 5
	rows, err := c.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("mishandled.csv: %v", err))
	}
	for _, row := range rows[1:] {
		list = append(list, mishandling{row[0], regexp.MustCompile("(?i)" + toldSlots.Replace(row[1])), row[2], row[3], row[4]})
	}
	return list
})

var mishandledHint = regexp.MustCompile(`(?i)thaw|defrost|re-?fr[eo]|frozen again|nuked|re-?heat|warm(?:ed|ing) up|\braw\b|board|knife|tongs|gloves|glass|bulb|plaster|\bjar\b|\bcut\b|\bble+d|mouse|mice|\brats?\b|rodent|fly|flies|maggot|weevil|roach|insect|beetle|moth|\bants?\b|slug|pest|pigeon`)

// mishandled reads that food which is known here was handled so; nil where it was not.
func (t *turn) mishandled(text string) *language.Question {
	if !mishandledHint.MatchString(text) || len(text) > longest/20 || asksThis.MatchString(text) || notThawed.MatchString(text) {
		return nil
	}
	said := strings.TrimRight(strings.TrimSpace(text), ".! ")
	for _, x := range mishandlings() {
		m := x.is.FindStringSubmatch(said)
		if m == nil {
			continue
		}
		if name := t.toldFood(m[x.is.SubexpIndex("food")]); name != "" && !isDelivery(name) {
			return &language.Question{About: aboutMishandled, Food: name, State: x.kind}
		}
	}
	return nil
}

// mishandlingOf is the first row of a kind.
func mishandlingOf(kind string) mishandling {
	for _, x := range mishandlings() {
		if x.kind == kind {
			return x
		}
	}
	return mishandling{}
}

// mishandledTalk answers what was told so, where nothing else reads it.
func (t *turn) mishandledTalk() (r Reply, done bool, err error) {
	q := t.mishandled(t.m.Text)
	if q == nil {
		return r, false, nil
	}
	if err = t.pointed(q, t.said); err != nil || isPronoun(q.Food) {
		return r, false, err
	}
	x := mishandlingOf(q.State)
	text := title(strings.ToLower(q.Food)) + ": "
	if x.topic != "" {
		text = strings.TrimSuffix(t.sayRules(x.topic, q.Food, t.ear.find(q.Food).food), ownRules) + "\n"
	}
	return Reply{Kind: Answer, Text: text + x.says + " " + x.holds + ownRules}, true, nil
}
