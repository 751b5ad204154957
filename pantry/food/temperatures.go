package food

import (
	_ "embed"
	"errors"
	"slices"
	"strings"
	"sync"
)

//go:embed temperatures.csv
var temperaturesCSV string

// Rule is what is to be kept to when food is cooled, kept cold, thawed or
// reheated. The kitchen's own plan and its local rules go first.
type Rule struct {
	Topic        string // one of Topics
	What         string // "any", or a kind of food
	Jurisdiction string // "UK", "US"; "" everywhere
	Words        string // with the figures: "in the fridge within 1 to 2 hours"
	Source       string
}

// Topics are those of temperatures.csv.
var Topics = []string{"cooling", "fridge", "reheating", "thawing", "standing out", "refreezing", "cooking"}

var rules = sync.OnceValue(func() []Rule {
	list, _ := readRules("temperatures.csv", temperaturesCSV) // embedded; a test reads it and names any fault
	return list
})

func readRules(name, text string) (list []Rule, err error) {
	err = eachRow(name, strings.NewReader(text), []string{"topic", "what", "jurisdiction", "words", "source"}, func(rec []string) error {
		r := &row{column: "topic", cell: rec[0]}
		u := Rule{Topic: r.oneOf(Topics), What: strings.Clone(rec[1]), Words: strings.Clone(rec[3]), Source: strings.Clone(rec[4])}
		r.column, r.cell = "jurisdiction", rec[2]
		u.Jurisdiction = r.oneOf([]string{"", "UK", "US"})
		if r.err == nil && (u.What == "" || u.Words == "" || u.Source == "") {
			return errors.New("a row needs what it is of, words and a source")
		}
		list = append(list, u)
		return r.err
	})
	return list, err
}

// Rules lists what a jurisdiction, "UK" or "US", says on a topic of what goes by a
// name; f may be nil. Rules for just such food stand first, and where there are any
// of the jurisdiction's on cooling, its others are left out.
func Rules(topic, name string, f *Food, jurisdiction string) (list []Rule) {
	words := folded(name)
	own := false
	for _, special := range []bool{true, false} {
		for _, u := range rules() {
			if u.Topic != topic || u.Jurisdiction != "" && u.Jurisdiction != jurisdiction || (u.What != "any") != special {
				continue
			}
			if own && topic == "cooling" && u.Jurisdiction != "" {
				continue
			}
			if !special || sideBySide(words, folded(u.What)) || f != nil && slices.Contains(f.Kinds, u.What) {
				list = append(list, u)
				own = own || special && u.Jurisdiction != ""
			}
		}
	}
	return list
}

// By is who says so, in short; "" for common practice.
func (u Rule) By() string {
	if strings.HasPrefix(u.Source, "common practice") {
		return ""
	}
	by, _, _ := strings.Cut(u.Source, ",")
	by, _, _ = strings.Cut(by, " (from")
	return by
}
