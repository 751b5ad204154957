package language

import (
	"fmt"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// Whether somebody may have a dish, in any order of words.
func TestMayHaveHeard(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	dish := func(said string) bool { return r.NamesDish(said) || said == "green beans" }
	for text, want := range map[string]string{
		"can i serve table 3 the cake":                    "cake table 3",
		"t3 cake?":                                        "cake table 3",
		"t3 cake ok":                                      "cake table 3",
		"would cake be ok for table 3":                    "cake table 3",
		"do green beans work for the nut people":          "green beans nut allergy",
		"can the nut allergy on 3 have the cake":          "cake 3 nut allergy",
		"rice pudding for 14 ok?":                         "rice pudding 14",
		"can 5B have the cake today":                      "cake 5b",
		"is cake fine for all of table 3":                 "cake table 3",
		"can table 3 have the bill":                       "",
		"can we have more chairs for table 3":             "",
		"cake for table 3":                                "",
		"table 3 had the cake":                            "",
		"can the christening mum have the custard please": "",
	} {
		q, _ := r.MayHaveHeard(text, dish)
		got := ""
		if q != nil {
			got = q.Food
			if q.Place != "" {
				got += " " + q.Place
			}
			if q.N > 0 {
				got += fmt.Sprint(" ", q.N)
			}
			for _, n := range q.Needs {
				got += " " + n.Said
			}
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// Who has needs is asked, and none is told.
func TestAsksNeeds(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	yes := "any nut allergies in;whos got milk allergy;who do we have w allergies today;who's on what texture;textures?;dairy list;how many coeliacs;table 4 any allergies;anyone coeliac on 5;what needs today;which table is the nut allergy"
	no := "any nuts left;any milk;any eggs?;whats in for lunch;what's in the puree?;egg list;have we got any milk;nut allergy;table 4 nut allergy;who ate the cake;table 4 no nuts;t4 nuts allergy;2b gf allergy;room 9 pureed"
	for text := range strings.SplitSeq(yes, ";") {
		if _, ok := r.AsksNeeds(text); !ok {
			t.Errorf("%q is no question of needs", text)
		}
	}
	for text := range strings.SplitSeq(no, ";") {
		if _, ok := r.AsksNeeds(text); ok {
			t.Errorf("%q is a question of needs", text)
		}
	}
}
