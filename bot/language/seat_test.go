package language

import (
	"strings"
	"testing"
)

// TestSeats reads needs of guests wherever they sit or lie, of foods that no table knows, and of
// textures.
func TestSeats(t *testing.T) {
	const nuts = "tree nuts+peanuts"
	r := tableReader()
	for text, want := range map[string]string{
		"bed 3 is allergic to banana":                  "numbered bed 3: banana (banana allergy)",
		"bed 12: fish allergy":                         "numbered bed 12: fish (fish allergy)",
		"patient in bed 7 cant have nuts":              "numbered bed 7: " + nuts + " (no nuts)",
		"the patient in bed 7 is coeliac":              "numbered bed 7: gluten cereals (coeliac)",
		"a child in year 2 is allergic to egg":         "numbered year 2: eggs (egg allergy)",
		"ward 3 nil nuts":                              "numbered ward 3: " + nuts + " (no nuts)",
		"ward 4: 2 coeliac, 1 nut allergy":             "numbered ward 4: 2 gluten cereals (coeliac), 1 " + nuts + " (nut allergy)",
		"tbl 5 no dairy":                               "numbered 5: milk (no dairy)",
		"table 5 no dairy":                             "numbered 5: milk (no dairy)",
		"room 9 can't have shellfish":                  "numbered room 9: crustaceans+molluscs (no shellfish)",
		"seat 2 allergic to sesame":                    "numbered seat 2: sesame (sesame allergy)",
		"nut allergy in room 9":                        "numbered room 9: " + nuts + " (nut allergy)",
		"anaphylaxis to peanuts":                       "needs: peanuts (peanut allergy)",
		"1 nut allergy tonight":                        "needs: 1 " + nuts + " (nut allergy)",
		"nut allergy!":                                 "needs: " + nuts + " (nut allergy)",
		"resident is allergic to kiwi":                 "needs: kiwi (kiwi allergy)",
		"bed 3 is allergic to lucuma":                  "numbered bed 3: lucuma (lucuma allergy)",
		"bed 3: lucuma allergy":                        "numbered bed 3: lucuma (lucuma allergy)",
		"a pupil is allergic to annatto":               "needs: annatto (annatto allergy)",
		"table 9 is halal":                             "numbered 9: halal (halal)",
		"no alcohol at table 2":                        "numbered 2: no alcohol (no alcohol)",
		"table 6: no beef":                             "numbered 6: no beef (no beef)",
		"table: 2 no pork":                             "needs: 2 no pork (no pork)",
		"9 pureed":                                     "needs: 9 pureed (IDDSI level 4) (pureed (IDDSI level 4))",
		"3 soft diet":                                  "needs: 3 soft diet (soft diet)",
		"2 minced and moist":                           "needs: 2 minced and moist (IDDSI level 5) (minced and moist (IDDSI level 5))",
		"9 pureed, 3 soft diets and 2 level 6":         "needs: 9 pureed (IDDSI level 4) (pureed (IDDSI level 4)), 3 soft diet (soft diet), 2 soft and bite-sized (IDDSI level 6) (soft and bite-sized (IDDSI level 6))",
		"bed 4 is on level 4":                          "numbered bed 4: pureed (IDDSI level 4) (pureed (IDDSI level 4))",
		"room 2 needs pureed":                          "numbered room 2: pureed (IDDSI level 4) (pureed (IDDSI level 4))",
		"table: 1 level 6 soft and bite-sized":         "needs: 1 soft and bite-sized (IDDSI level 6) (soft and bite-sized (IDDSI level 6))",
		"ward 3: 9 pureed, 1 nut allergy":              "numbered ward 3: 9 pureed (IDDSI level 4) (pureed (IDDSI level 4)), 1 " + nuts + " (nut allergy)",
		"the kid in class 4 is dairy intolerant":       "numbered class 4: milk (dairy intolerance)",
		"year 6 are vegetarian":                        "numbered year 6: vegetarian (vegetarian)",
		"customer on table 3 has an egg allergy":       "numbered 3: eggs (egg allergy)",
		"pt in bed 11 egg allergy, level 6":            "numbered bed 11: eggs (egg allergy), soft and bite-sized (IDDSI level 6) (soft and bite-sized (IDDSI level 6))",
		"new patient in bed 5, allergic to fish":       "numbered bed 5: fish (fish allergy)",
		"bed 8 minced, nut allergy":                    "numbered bed 8: minced diet (minced diet), " + nuts + " (nut allergy)",
		"bed 8 soft, no milk":                          "numbered bed 8: soft diet (soft diet), milk (no milk)",
		"bed 9 lucuma allergy, level 4":                "numbered bed 9: lucuma (lucuma allergy)numbered bed 9: pureed (IDDSI level 4) (pureed (IDDSI level 4))",
		"bed 2 has a cows milk protein allergy":        "numbered bed 2: 1 milk (cows milk protein allergy)",
		"side room 2 is allergic to latex and banana":  "numbered side room 2: latex (latex allergy), banana (banana allergy)",
		"Y6 child anaphylactic to sesame":              "numbered year 6: sesame (sesame allergy)",
		"little girl in 2B has a mustard allergy":      "numbered 2b: mustard (mustard allergy)",
		"bed 3 CMPA":                                   "numbered bed 3: milk (cow's milk protein allergy)",
		"bed 7 is nil by mouth":                        "numbered bed 7: nil by mouth (nil by mouth)",
		"bed 2 on warfarin no grapefruit":              "numbered bed 2: grapefruit (no grapefruit)",
		"tbl 5b no dairy":                              "numbered 5b: milk (no dairy)",
		"table 11 seat 2 celiac, seat 4 nut allergy":   "numbered 11 seat 2: gluten cereals (coeliac)numbered 11 seat 4: " + nuts + " (nut allergy)",
		"table 11: seat 2 is coeliac, seat 4 is vegan": "numbered 11 seat 2: gluten cereals (coeliac)numbered 11 seat 4: vegan (vegan)",
		"seat 3 table 9 nut allergy":                   "numbered 9 seat 3: " + nuts + " (nut allergy)",
		"seat 3 on table 9 is allergic to nuts":        "numbered 9 seat 3: " + nuts + " (nut allergy)",
		"t9 seats 1 and 3 nut allergy":                 "numbered 9 seat 1: " + nuts + " (nut allergy)numbered 9 seat 3: " + nuts + " (nut allergy)",
		"t8 vegan nut allergy":                         "numbered 8: vegan (vegan), " + nuts + " (nut allergy)",
		"bed 4 diabetic soft diet":                     "numbered bed 4: diabetic (diabetic), soft diet (soft diet)",
		"bed 3 diabetic coeliac":                       "numbered bed 3: diabetic (diabetic), gluten cereals (coeliac)",
		"t9 seat 1 gone":                               "haveleft 9 seat 1",
		"t16 x3 vegan, x1 coeliac":                     "numbered 16: 3 vegan (vegan)numbered 16: 1 gluten cereals (coeliac)",
		"what can seat 4 on table 11 eat?":             "who 11 seat 4",
		"customer on table 3 reacts to chickpeas":      "numbered 3: chickpeas (no chickpeas)",
	} {
		list, rest := r.Table(text)
		got := ""
		for _, x := range list {
			got += x.line()
		}
		if got != want || rest != "" {
			t.Errorf("%q: %q, rest %q; want %q", text, got, rest, want)
		}
	}
}

// TestNoSeats says what has the words and is no need.
func TestNoSeats(t *testing.T) {
	r := tableReader()
	for _, text := range strings.Split(`made the bed
bed 3 wants tea
ward 3 want 40 lunches
room 101 is out of towels
year 2 are in at 12
class 4 is loud today
9 pureed carrots
pureed
pureed 500g carrots
pureed the soup
used 9 pureed carrots in the soup
2kg minced beef
got 2kg minced meat
soft boiled 6 eggs
3 soft eggs
2 soft rolls left
oven on level 4
2 level teaspoons salt
level 4
minced the garlic
purée the peas
got 3 liquidised soups
no pork tonight
no pork left
we have no alcohol
no beef
what is anaphylaxis
the allergy poster fell down
he's allergic to hard work
my sister is allergic to nuts
the patient wants tea
the kid is hungry
seat 2 is free
cover 3 is cold
group 4 is late
ticket 12 is up
house 7 needs bread
bed 5 frobbed, level 4
bed 3 minced 40 carrots
ward 3 soft rolls
pt in bed 11 wants tea
Y6 are late
2b or not 2b
bed 3 is allergic to everything
t29 tomato egg allergy`, "\n") {
		if list, rest := r.Table(text); len(list) > 0 || rest != text {
			t.Errorf("%q: %q, rest %q", text, list[0].line(), rest)
		}
	}
}
