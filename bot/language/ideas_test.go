package language

import (
	"fmt"
	"strings"
	"testing"
)

// What is said of ideas: asked for within limits, chosen, turned down, asked why.
func TestIdeaTalk(t *testing.T) {
	checkAll(t, `
		ideas for the cauliflower in 10 minutes, no oven              | ask with [cauliflower] 10 min no oven
		what do we do with half a cauliflower, ten minutes and the microwave? | ask with 1/2 [cauliflower] 10 min microwave
		something cold                                                | ask ideas cold
		something cold for the leeks                                  | ask with [leeks] cold
		cold ideas                                                    | ask ideas cold
		anything hot?                                                 | ask ideas hot
		ideas for 6 people                                            | ask ideas for 6
		ideas for the leeks for six                                   | ask with [leeks] for 6
		vegan ideas                                                   | ask ideas vegan
		any veggie ideas for the leeks?                               | ask with [leeks] vegetarian
		ideas without nuts                                            | ask ideas -tree nuts -peanuts
		gluten free ideas for the leeks                               | ask with [leeks] -gluten cereals
		ideas, no dairy or eggs                                       | ask ideas -milk -eggs
		ideas for a coeliac                                           | ask ideas -gluten cereals
		ideas with just the microwave                                 | ask ideas microwave
		quick one, any ideas for the leeks?                           | ask with [leeks]
		something quick                                               | ask ideas 15 min
		something with no oven                                        | ask ideas no oven
		ideas for a table of 8                                        | ask ideas for 8
		how about something cold                                      | ask ideas cold
		any more ideas?                                               | ask more
		another one                                                   | ask more
		let's have 2                                                  | ask do #2
		no to 2                                                       | ask not #2
		what size potatoes for 15 min roast                           | ask small [potatoes] 15 min roast
		how long for inch thick salmon                                | ask time [salmon] 25.4 mm slice
		what size are the trays                                       | -
		quick one before service, what's left?                        | ask left
		do 2                                                          | ask do #2
		do 2 for the soup                                             | ask do [soup] #2
		let's do number 2 for the leek tart chef                      | ask do [leek tart] #2
		do the second one                                             | ask do #2
		do that one for the soup                                      | ask do [soup]
		go with 3                                                     | ask do #3
		why 2                                                         | ask why #2
		why that one?                                                 | ask why
		not that                                                      | ask not
		nah not 2                                                     | ask not #2
		we don't like that one                                        | ask not
		how small for potatoes in 12 minutes?                         | ask small [potatoes] 12 min
		how thin should the carrots be in 5 min?                      | ask small [carrots] 5 min slice
		how big can i cut swede for 20 min boiled                     | ask small [swede] 20 min boil
		how long for 2 cm carrots?                                    | ask time [carrots] 20 mm
		how long to boil 5mm slices of carrot                         | ask time [carrot] 5 mm slice boil
		how long for carrots in 2cm cubes                             | ask time [carrots] 20 mm cube
		how long to steam half-inch potato?                           | ask time [potato] 12.7 mm steam
		do 2 lemons                                                   | -
		start the oven                                                | -
		why is the oven on                                            | -
		not the leeks                                                 | -
		it's cold out here                                            | -
		can you do 2 for me                                           | -
	`, 52)
}

// A message that says nothing but limits, and what is none.
func TestLimits(t *testing.T) {
	r := timerReader()
	for text, want := range map[string]string{
		"something cold":            "cold",
		"for 6":                     "for 6",
		"for 6, no oven":            "for 6 no oven",
		"no nuts please":            "-tree nuts -peanuts",
		"in 10 minutes":             "10 min",
		"vegetarian":                "vegetarian",
		"only the microwave":        "microwave",
		"it's cold out here":        "",
		"no":                        "",
		"6":                         "",
		"used 300g leek for 6":      "",
		"for the soup":              "",
		"12 min timer for the tart": "",
		"ideas":                     "",
	} {
		l, ok := r.Limits(text)
		got := strings.TrimSpace(briefLimits(&Question{About: AboutIdeas, Limits: l}))
		if l.Minutes > 0 {
			got = strings.TrimSpace(got + fmt.Sprintf(" %d min", l.Minutes))
		}
		if len(l.Without) > 0 {
			got = strings.TrimSpace(got + " no " + strings.Join(l.Without, ", "))
		}
		if !ok {
			got = ""
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
