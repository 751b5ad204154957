package language

import (
	"fmt"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// Needs in words that no form has: place, person, need and how many, in any order.
func TestNeedsHeard(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for _, test := range []struct{ said, want, left string }{
		{"missus on table 7 no shellfish pls", "numbered table 7 (missus): no shellfish", ""},
		{"dad on table 6 cant have gluten", "numbered table 6 (dad): no gluten", ""},
		{"kid w peanut allergy at the window", "numbered window (kid): peanut allergy", ""},
		{"one more coeliac on table 3", "numbered table 3: 1 coeliac more", ""},
		{"2 more vegans on table 3", "numbered table 3: 2 vegan more", ""},
		{"make it 3 vegans", "needs: 3 vegan again", ""},
		{"table 3 vegan is now vegetarian", "overat table 3: vegan; numbered table 3: vegetarian", ""},
		{"table 3 coeliac is now vegan", "numbered table 3: coeliac, vegan", ""},
		{"mrs patel room 4 no nuts no sesame", "numbered room 4 (mrs patel): no nuts, no sesame", ""},
		{"tbl 12 egg allergy anaphylaxis epipen", "numbered table 12: egg allergy", ""},
		{"just been told table 9 is dairy free", "numbered table 9: no dairy", ""},
		{"table 2 seat 3 nuts, forgot to say", "numbered table 2 seat 3: nut allergy", ""},
		{"t4 one vegan is also gf", "numbered table 4: 1 vegan known, no gluten", ""},
		{"new lady in room 11 is allergic to fish and shes on level 4 puree", "numbered room 11 (lady): fish allergy, pureed (IDDSI level 4)", ""},
		{"mr hale coming in, dairy free and severe mustard allergy", "guest mr hale: no dairy, mustard allergy", ""},
		{"catering: 2 celiac, 1 tree nut, 3 vegan", "needs: 2 coeliac, 1 tree nut allergy, 3 vegan", ""},
		{"mrs patel is room 14 not 4. room 4 is mr singh no beef", "numbered room 4 (mr singh): no beef", "mrs patel is room 14 not 4"},
		{"table 6: dad no gluten, kid nut allergy", "numbered table 6 (dad): no gluten; numbered table 6 (kid): nut allergy", ""},
		{"nut allergy on 3, vegan on 4 i think", "numbered table 3: nut allergy; numbered table 4: vegan doubt", ""},
		{"40 for lunch: 6 veg 3 vg 2 gf 1 nut", "of 40: 6 vegetarian, 3 vegan, 2 no gluten, 1 nut allergy", ""},
		{"the tall guy on 4 is allergic to crab", "numbered table 4 (guy): crab allergy", ""},
		{"seat 2 on 5 says dairy free as well", "numbered table 5 seat 2: no dairy", ""},
		{"t5 s2 gf, s3 vegan, s4 all good", "numbered table 5 seat 2: no gluten; numbered table 5 seat 3: vegan", ""},
		{"order 17 no onion no garlic allergy", "numbered order 17: no onion, no garlic", ""},
		{"t9 preggers lady no soft cheese", "numbered table 9 (lady): pregnant, no soft cheese", ""},
		{"nuts!! table 9", "numbered table 9: nut allergy", ""},
		{"groom's side: 4 gf", "numbered groom's side: 4 no gluten", ""},
		{"bo cant touch shellfish btw allergic", "guest bo: no shellfish", ""},
		{"new kp zoe is allergic to nuts", "guest zoe: nut allergy", ""},
		{"plus the dj, no pork/no nuts", "needs (dj): 1 no pork, 1 no nuts", ""},
		{"1 sesame at the wedding", "numbered wedding: 1 sesame allergy", ""},
		{"two more gluten free", "needs: 2 no gluten more", ""},
		{"one less nut allergy", "nonesaid: nut allergy", ""},
		{"1 of the nut guests isnt coming", "nonesaid: 1 nut allergy", ""},
		{"the birthday party of 10 at half two, 2 veggie, 1 sesame", "of 10: 2 vegetarian, 1 sesame allergy", ""},
		{"table 3 at 1pm is 6, one coeliac and one nut allergy", "numbered table 3 6: 1 coeliac, 1 nut allergy", ""},
		{"table 7: 1 no dairy", "numbered table 7: 1 no dairy", ""},
		{"5B halal x4", "numbered 5b: 4 halal", ""},
		{"head table seat 4 is the nut one", "numbered head table seat 4: nut allergy", ""},
		{"on 15 one of them is allergic to mustard", "numbered table 15: 1 mustard allergy", ""},
		{"12: one more coeliac", "numbered table 12: 1 coeliac more", ""},
		{"only 1 nut allergy now", "needs: 1 nut allergy again", ""},
		{"room 9 now soft and bite sized", "numbered room 9: soft and bite-sized (IDDSI level 6)", ""},
		{"dave cant do mondays", "", "dave cant do mondays"},
		{"zoe no eggs in the fridge", "", "zoe no eggs in the fridge"},
		{"table 4 kid allergic to egg", "numbered table 4 (kid): egg allergy", ""},
		{"15 has a coeliac", "numbered table 15: 1 coeliac", ""},
		{"13 is the vegan one", "numbered table 13: vegan", ""},
		{"table 6 6 pax one is coeliac", "numbered table 6 6: 1 coeliac", ""},
		{"tbl 11 party of 8 one egg allergy", "numbered table 11 8: 1 egg allergy", ""},
		{"t7 for 4 one nut", "numbered table 7 4: 1 nut allergy", ""},
		{"table 8 has 3 veggies n a nut allergy", "numbered table 8: 3 vegetarian, 1 nut allergy", ""},
		{"coach party 40: 2 coeliac", "numbered coach party 40: 2 coeliac", ""},
		{"table 12, 2 pies, 1 no cheese", "", "table 12, 2 pies, 1 no cheese"},
		{"got 4 gf buns", "", "got 4 gf buns"},
		{"40 eggs for the cake", "", "40 eggs for the cake"},
		{"20 for lunch", "", "20 for lunch"},
		{"table 5 i think is coeliac", "numbered table 5: coeliac doubt", ""},
		{"table 7 no cream", "", "table 7 no cream"},
		{"gf bread for table 4", "", "gf bread for table 4"},
		{"table 4 burger vegan", "", "table 4 burger vegan"},
		{"reception: 1 egg, 1 nut", "", "reception: 1 egg, 1 nut"},
		{"6 chickens free", "", "6 chickens free"},
		{"got 3 bulbs garlic, 2 celery", "", "got 3 bulbs garlic, 2 celery"},
		{"dad is coeliac", "", "dad is coeliac"},
		{"table 6 had a nut allergy yesterday", "", "table 6 had a nut allergy yesterday"},
	} {
		list, left, _ := r.NeedsHeard(test.said)
		var got []string
		for _, x := range list {
			s := string(x.About)
			if who := strings.Join(append(x.Who, x.Place), ""); who != "" {
				s += " " + who
			}
			if x.N > 0 {
				s += fmt.Sprint(" ", x.N)
			}
			if x.Whose != "" {
				s += " (" + x.Whose + ")"
			}
			var needs []string
			for _, n := range x.Needs {
				said := n.Said
				if n.Count > 0 {
					said = fmt.Sprint(n.Count, " ", n.Said)
				}
				if n.Known {
					said += " known"
				}
				needs = append(needs, said)
			}
			s += ": " + strings.Join(needs, ", ")
			for word, is := range map[string]bool{"more": x.More, "again": x.Again, "doubt": x.Doubt} {
				if is {
					s += " " + word
				}
			}
			got = append(got, s)
		}
		if got := strings.Join(got, "; "); got != test.want || left != test.left {
			t.Errorf("%q: got %q, left %q; want %q, left %q", test.said, got, left, test.want, test.left)
		}
	}
}

// Two places that change with each other.
func TestSwapHeard(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for said, want := range map[string]string{
		"seat 5 has swapped with seat 8 on table 1": "table 1 seat 5|table 1 seat 8",
		"swap t1 s5 and t1 s8":                      "table 1 seat 5|table 1 seat 8",
		"seats 5 and 8 on table 1 have swapped":     "table 1 seat 5|table 1 seat 8",
		"table 4 & table 9 have swapped over":       "table 4|table 9",
		"tables 4 and 9 switched":                   "table 4|table 9",
		"swap the fish on table 4 for the pie":      "|",
		"table 4 swapped the pie":                   "|",
		"swap table 4":                              "|",
		"swap 1 and 3":                              "|",
		"4 and 7 have swapped":                      "table 4|table 7",
		"booth 3 and 7 switched":                    "booth 3|booth 7",
		"did table 4 and table 9 swap?":             "|",
	} {
		a, b, _ := r.SwapHeard(said)
		if got := a + "|" + b; got != want {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}
