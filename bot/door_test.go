package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// talked is a message, and what its answer has; "" silence. "+90" lets minutes pass.
type talked struct{ say, has string }

func playAll(t *testing.T, units string, list []talked) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	b, at := bot.New(s, bot.Options{Units: units}), time.Date(2026, 3, 3, 9, 0, 0, 0, time.UTC)
	for n, c := range list {
		if min, err := strconv.Atoi(c.say); err == nil && c.say[0] == '+' {
			at = at.Add(time.Duration(min) * time.Minute)
			continue
		}
		at = at.Add(30 * time.Second)
		r, err := b.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: "ana", Text: c.say, At: at})
		if err != nil {
			t.Fatal(c.say, err)
		}
		if c.has == "" && r.Text != "" || !strings.Contains(r.Text, c.has) {
			t.Errorf("%s, %q: %q, not %q", units, c.say, r.Text, c.has)
		}
	}
}

// What comes into a US kitchen is held against 41 F, eggs and milk against 45 F (FDA Food Code 2022, 3-202.11).
func TestDoorInFahrenheit(t *testing.T) {
	playAll(t, "us", []talked{
		{"delivery: 10 lb chicken at 50, 5 doz eggs at 44, 2 gal milk 40", "Chicken at 50 F (10 C) at the door: what must be chilled and comes above 41 F (5 C) is sent back"},
		{"chicken ok?", "No: bin the chicken 4.54 kg"},
		{"eggs ok?", "Within its date"},
		{"milk ok?", "Within its date"},
		{"got 10 lb pork at 45", "Pork at 45 F (7 C) at the door: what must be chilled and comes above 41 F (5 C) is sent back, or binned; probe between packs, and write it down. No date allows for that. If 45 is no temperature, edit the message."},
		{"got 10 lb beef at 39", "Beef 4.54 kg in"},
		{"got 10 lb beef at $45", "$45"},
		{"got 20 lb veal at 4", "Veal 9.07 kg in. 9.07 kg left."},
	})
}

// Food that cools is held against the stages of its country: US FDA Food Code 2022, 3-501.14, 135 F to 70 F in 2 hours and
// to 41 F in 6 hours in all; UK guidance, cold within 90 minutes.
func TestCooling(t *testing.T) {
	playAll(t, "us", []talked{
		{"got 10 lb chili", "in"},
		{"chili 135 at 8am cooling", "at 135 F (57 C) at 08:00, cooling. It cools since then: at 70 F (21 C) by 10:00, at 41 F (5 C) by 14:00 (US FDA Food Code 2022 3-501.14)"},
		{"+180", ""},
		{"chili 85", "too slow. It was \"chili 135 at 8am cooling\" at 08:00, 4 h 1 min before: it is to be at 70 F (21 C) within 2 hours"},
		{"ok to keep the chili?", "No: bin the chili"},
		{"toss the chili?", "No: bin the chili"},
	})
	playAll(t, "us", []talked{
		{"made 4 qt soup", "made"},
		{"soup 140 cooling", "by 11:01"},
		{"+90", ""},
		{"soup 68", "Soup at 68 F (20 C) at 10:31, cooling"},
		{"+200", ""},
		{"soup 40", "cold in time"},
		{"soup ok?", "Within its date"},
	})
	playAll(t, "us", []talked{
		{"made 4 qt soup", "made"},
		{"cooling the soup, 140 now", "by 11:01"},
		{"+100", ""},
		{"soup at 65", "cooling"},
		{"+300", ""},
		{"soup at 55", "at 41 F (5 C) within 6 hours"},
	})
	playAll(t, "uk", []talked{
		{"made 4l soup", "made"},
		{"soup 80 in the ice bath", "at 8 C by 10:31"},
		{"+60", ""},
		{"soup 7", "cold in time"},
		{"+180", ""},
		{"soup 12", "between 8 and 63 C it must not stay"},
	})
	playAll(t, "uk", []talked{
		{"made 4l soup", "made"},
		{"soup cooling, 80 at 9", "at 8 C by 10:30"},
		{"+200", ""},
		{"is the soup ok", "Nobody told that it got cold in time"},
		{"soup 12", "too slow"},
	})
}

// What is told of heat in other words than the tables have is known when the food is asked about.
func TestToldSo(t *testing.T) {
	playAll(t, "us", []talked{
		{"got 10 lb chicken thighs", "in"},
		{"chicken thighs cooked yesterday, left in the truck overnight", "bin it"},
		{"chicken ok?", "No: bin the chicken thigh"},
		{"made 4 qt queso", "made"},
		{"hold temp on queso 132", "Queso at 132 F (56 C): hot food is kept at 135 F (57 C) or more"},
		{"toss the queso?", "hold temp on queso 132"},
		{"got 20 lb ground beef", "in"},
		{"burgers cooked to 150", "no clearance"},
		{"burgers ok?", "burgers cooked to 150"},
		{"can table 4 have the burgers", "burgers cooked to 150"},
		{"burgers probed at 165", "hot enough"},
		{"burgers ok?", ""},
		{"got 5 lb cod", "in"},
		{"thawed the cod in the microwave", "What is thawed in a microwave is cooked at once"},
		{"cod ok?", "if it was not, it is binned"},
	})
	playAll(t, "uk", []talked{
		{"made 1l hollandaise", "made"},
		{"hollandaise still on the pass", ""},
		{"table 4 still on the pass", ""},
		{"+240", ""},
		{"hollandaise still on the pass", "out since it was made at 09:00, 4 h 1 min"},
		{"hollandaise ok?", "No: bin the hollandaise"},
		{"got 5kg rice", "in"},
		{"rice for the staff lunch cooked last night left on the stove", "Cooked rice out for that long: bin it"},
		{"can staff have the rice", "No: bin the rice"},
		{"got 3kg prawns", "in"},
		{"thawed the prawns yesterday, refreezing half", "Not frozen again raw"},
		{"are the prawns ok", "Thawed and frozen again raw it is not served"},
		{"got 3kg haddock", "in"},
		{"thawed the haddock on the side overnight", "bin it"},
		{"got 3kg cod", "in"},
		{"cod defrosting on the side", "for how long?"},
		{"made 4l curry", "made"},
		{"reheated to 66 the curry", "no clearance"},
		{"got the curry up to 68 on the reheat", "no clearance"},
		{"reheat temp on the curry 64", "no clearance"},
		{"curry probed at 74.6", "Curry at 74 C in the middle: no clearance"},
		{"reheat the curry to 75", ""},
		{"can staff have the curry", "no proof that it is cooked or reheated through"},
	})
}

// More of it: food in the walk-in that stays warm, several readings, what was reheated twice or touched.
func TestToldMore(t *testing.T) {
	playAll(t, "us", []talked{
		{"made 5 qt gumbo", "made"},
		{"gumbo in the walk-in still 90 after 3 hours", "Gumbo at 90 F"},
		{"gumbo ok?", "No: bin the gumbo"},
		{"got 10 lb salmon", "in"},
		{"salmon sitting at 50 in the lowboy", "it must not stay"},
		{"salmon ok?", "salmon sitting at 50 in the lowboy"},
		{"made 6 qt stock", "made"},
		{"stock cooling, 120 at 8:30", "at 70 F (21 C) by 10:30"},
		{"truck was warm when the driver opened it", "Delivery came warm"},
	})
	playAll(t, "uk", []talked{
		{"got 3kg chicken breast, 6kg turkey, 2kg mussels, 3kg prawns, 2kg salad, 2kg tiramisu", "in"},
		{"chicken breast pink in the middle", "not served"},
		{"chicken breast back in, now 79", "hot enough"},
		{"chicken breast ok?", "Within its date"},
		{"turkey core 70", "no clearance"},
		{"turkey 70 for 2 min", "hot enough where the middle held that"},
		{"turkey ok?", "Within its date"},
		{"mussels smell a bit", "bin it"},
		{"prawns got warm in the car", "for how long?"},
		{"prawns defrosted in hot water", "Not in warm or hot water"},
		{"delivery at 10, 5kg pork", "If 10 is no temperature, edit the message"},
		{"got 1kg sushi, 2kg scotch eggs, 2kg muesli", "in"},
		{"sushi left out for 5 hours", "Sushi out for 5 hours: bin it"},
		{"scotch eggs out all night", "bin it"},
		{"muesli stood out 5 hours", "Not read"},
		{"muesli ok?", "Muesli: 2 kg."},
		{"tiramisu was out on the counter from 2 till 7", "Tiramisu out for 5 hours: bin it"},
		{"raw chicken above the salad in the fridge", "Move it below at once"},
		{"salad ok?", "only what is cooked through afterwards"},
		{"chef cut himself over the salad", "blue plaster"},
		{"glass broke near the salad", "look for every piece"},
		{"made 5kg lasagne", "made"},
		{"lasagne probed 71 74 69", "Lasagne at 69 C"},
		{"lasagne ok?", "no proof"},
		{"lasagne core 82", "hot enough"},
		{"lasagne ok?", "Within its date"},
		{"made 3kg rice", "made"},
		{"rice still in the cooker from lunch", "bin it"},
		{"rice reheated twice", "Reheated more than once it is not served"},
		{"made 4l soup", "made"},
		{"soup took 4 hours to get down to 8", "too long"},
		{"fridge reads 11.5 in the corner", "Fridge at 11.5 C"},
		{"what shouldnt we serve", "Bin 4 l soup"},
		{"delivery late, chilled stuff warm to touch", "Delivery came warm"},
		{"raw talent over the hill", ""},
		{"glass broke near the bar", ""},
		{"van is back", ""},
		{"truck at 12", ""},
		{"delivery at 9 tomorrow", ""},
		{"steak rare 2, medium 3", ""},
	})
}

// Dates and degrees of one delivery are both kept, and a bare number before a label's date is of degrees.
func TestDoorLinesInFahrenheit(t *testing.T) {
	playAll(t, "us", []talked{
		{"got 40 lb chicken breast at 38F use by 3/5, 10 lb shrimp at 45", "Shrimp at 45 F (7 C) at the door"},
		{"is the chicken breast ok", "use by Thu 5 Mar"},
		{"got 10 lb cod 38F use by 3/5", "use by 2026-03-05"},
		{"got 40 lb pork 38 use by 3/5, 10 lb clams 45 use by 3/4", "Clam at 45 F (7 C) at the door"},
		{"is the pork ok", "use by Thu 5 Mar"},
		{"got ground beef 20 lb temp 44 use by 3/6", "Ground beef at 44 F (7 C) at the door"},
	})
}

// Degrees of hot food are heard in any order of words, each of its food.
func TestHeardInFahrenheit(t *testing.T) {
	playAll(t, "us", []talked{
		{"made 20 lb mac and cheese", "made"},
		{"made 10 lb beans", "made"},
		{"made 10 lb fried chicken", "made"},
		{"temps on the line: mac and cheese 150, beans 128, chicken 131", "Beans at 128 F (53 C): hot food is kept at 135 F"},
		{"mac and cheese 128 in the cambro", "Mac and cheese at 128 F (53 C)"},
		{"mac & cheese in cambro 121", "Mac and cheese at 121 F (49 C)"},
		{"cambro 1 beans 121, cambro 2 mac and cheese 150", "Beans at 121 F (49 C)"},
		{"table 40 wants beans on the line", ""},
		{"beans 100 tickets on the line", ""},
		{"made 4 qt chili", "made"},
		{"chili 100 after 2 hrs in the ice bath", "too slow. It cools since"},
		{"truck at 47", "Truck fridge at 47 F (8 C)"},
		{"van's reefer reads 47", "reefer at 47 F (8 C)"},
		{"truck at 12", ""},
		{"walk-in was 38 at open, 52 now", "at 52 F (11 C)"},
	})
}
