package pantry

import (
	"fmt"
	"strconv"

	"scullion/pantry/food"
)

// Rule is a kitchen's own limit on how long a food is kept: at most Days whole days, from the
// one on which it came, was made, opened or thawed. It is taught as a Lesson, whose cells say
// so. It never lengthens what storage guidance or a label gives.
type Rule struct {
	Name  string // as it was said: "cooked rice"
	Days  int    // at least 1
	Place string // "fridge" or "freezer"
}

// mostRuleDays is the longest that a rule may be: ten years.
const mostRuleDays = 3650

// Lesson is the rule as it is taught.
func (r Rule) Lesson() Lesson {
	return Lesson{Name: r.Name, Cells: map[string]string{"name": r.Name, "rule": "keeps", "days": strconv.Itoa(r.Days), "place": r.Place}}
}

// Rule gives the rule that a lesson is; ok is false where it is none. A rule that cannot be read
// is an error.
func (l Lesson) Rule() (r Rule, ok bool, err error) {
	kind, ok := l.Cells["rule"]
	if !ok {
		return r, false, nil
	}
	r = Rule{Name: l.Name, Place: l.Cells["place"]}
	if r.Days, err = strconv.Atoi(l.Cells["days"]); err != nil || kind != "keeps" || r.Days < 1 || r.Days > mostRuleDays || r.Place != "fridge" && r.Place != "freezer" {
		return r, true, fmt.Errorf("the house rule on %s cannot be read", l.Name)
	}
	return r, true, nil
}

// Rules lists the house rules in force, in the order in which they were taught: of one food and
// place the latest.
func (k *Kitchen) Rules() (list []Rule) {
	for _, l := range k.Lessons {
		r, ok, err := l.Rule()
		if !ok || err != nil {
			continue
		}
		kept := list[:0]
		for _, o := range list {
			if food.Fold(o.Name) != food.Fold(r.Name) || o.Place != r.Place {
				kept = append(kept, o)
			}
		}
		list = append(kept, r)
	}
	return list
}
