package language

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// briefHazard: "stoodhours soup 5", "fridgeat 12 @under counter fridge".
func briefHazard(q *Question) string {
	if q == nil {
		return ""
	}
	s := string(q.About)
	if q.Food != "" {
		s += " " + strings.Join(append([]string{q.Food}, q.Also...), "+")
	}
	if q.N != 0 {
		s += fmt.Sprint(" ", q.N)
	}
	if q.Hours != 0 {
		s += fmt.Sprint(" for ", q.Hours)
	}
	if q.At != "" {
		s += " since " + q.At
	}
	if q.State != "" {
		s += " " + q.State
	}
	if q.Place != "" {
		s += " @" + q.Place
	}
	return s
}

func TestHazard(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	for _, c := range hazardCases {
		if got := briefHazard(r.Hazard(c[0])); got != c[1] {
			t.Errorf("%q: %q, want %q", c[0], got, c[1])
		}
	}
	for _, text := range noHazards {
		if got := briefHazard(r.Hazard(text)); got != "" {
			t.Errorf("%q: %q, want nothing", text, got)
		}
	}
}

// TestHazardOfAnything holds what is made of words thrown together to what a question may be.
func TestHazardOfAnything(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	var words []string
	for _, list := range hazardWords() {
		for _, p := range list {
			words = append(words, strings.Join(p.words, " "))
		}
	}
	slices.Sort(words)
	words = append(words, "soup", "ham", ",", ".", "?", "and", "the", "5 hrs", "12", "-6", "50F", "8.5c", "since 3", "10:30", "3-4 hrs", "half an hour", "2kg", "999999", "minus", "°", "ünder", "'s")
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 30_000 {
		var said []string
		for range 1 + rnd.IntN(9) {
			said = append(said, words[rnd.IntN(len(words))])
		}
		text := strings.Join(said, " ")
		if q := r.Hazard(text); q != nil && (q.N < -230 || q.N > 230 || q.Hours < 0 || q.Hours > 100 || q.Food != "delivery" && !strings.Contains(text, q.Food)) {
			t.Errorf("%q: %+v", text, q)
		}
	}
}

var hazardCases = [][2]string{
	// fridges
	{"fridge dead", "fridge @fridge"},
	{"fridge dead all night", "fridge @fridge"},
	{"fridge dead in the van!!", "fridge @fridge"},
	{"fridge has been off all night", "fridge @fridge"},
	{"fridge been off 5 hours", "fridge 5 @fridge"},
	{"fridges down", "fridge @fridges"},
	{"fridge isnt cold", "fridge @fridge"},
	{"the fridge isn't cold enough", "fridge @fridge"},
	{"fridge warm this morning", "fridge @fridge"},
	{"fridge door left open all night", "fridge @fridge"},
	{"someone left the fridge door open all night", "fridge @fridge"},
	{"someone unplugged the walk-in", "fridge @walk-in"},
	{"fridge unplugged", "fridge @fridge"},
	{"fridge 3 dead since 4am", "fridge since 04:00 @fridge 3"},
	{"why is the fridge off", "fridge @fridge"},
	{"fridge 2 8.5", "fridgeat 9 @fridge 2"},
	{"fridge 2 11 at 6am nobody knows how long", "fridgeat 11 @fridge 2"},
	{"walk in was 14 when i got in", "fridgeat 14 @walk in"},
	{"when i got in the walk in was 14", "fridgeat 14 @walk in"},
	{"under counter fridge 12", "fridgeat 12 @under counter fridge"},
	{"display fridge 11", "fridgeat 11 @display fridge"},
	{"fridge at 9.5 degs", "fridgeat 10 @fridge"},
	{"fridge 9 just been filled", "fridgeat 9 @fridge"},
	{"fridge temps 3, 4, 11", "fridgeat 11 @fridge"},
	{"am fridge checks: walk in 3, under counter 11, freezer -18", "fridgeat 11 @under counter"},
	{"am checks, walk in 3, freezer -8, milk fridge 4", "freezerat -8 @freezer"},
	{"pm temps fridge 1 4, fridge 2 10, freezer 18", "fridgeat 10 @fridge 2"},
	{"fridge 3", "fridgeat 3 @fridge"},
	{"walk-in 50F", "fridgeat 50 @walk-in"},
	{"walk-in: 50F", "fridgeat 50 @walk-in"},
	{"walkin 47F", "fridgeat 47 @walkin"},
	{"fridge 50F", "fridgeat 50 @fridge"},
	{"cooler at 50", "fridgeat 50 @cooler"},
	{"cooler 50F", "fridgeat 50 @cooler"},
	{"reach-in at 50F", "fridgeat 50 @reach-in"},
	{"reach in at 50 degrees", "fridgeat 50 @reach in"},
	{"lowboy 48", "fridgeat 48 @lowboy"},
	{"cold rail 44F", "fridgeat 44 @cold rail"},
	{"prep table at 46F", "fridgeat 46 @prep table"},
	{"walk in hit 52 overnight", "fridgeat 52 @walk in"},
	{"walk in temp 48", "fridgeat 48 @walk in"},
	{"the walk-in is running at 48", "fridgeat 48 @walk-in"},
	{"walk in cooler at 50", "fridgeat 50 @walk in cooler"},
	{"walkin not holding temp", "fridge @walkin"},
	{"compressor died on the walk in", "fridge @walk in"},
	{"the fish fridge keeps going up to 11", "fridgeat 11 @fish fridge"},
	{"fridge wont go below 10", "fridgeat 10 @fridge"},
	{"its 12 in the walk in", "fridgeat 12 @walk in"},
	{"bar fridge 14 since about 6", "fridgeat 14 @bar fridge"},
	{"walk in 4.1, prep 5.0, display 9.7", "fridgeat 10 @display"},
	{"checks: walk-in 38, reach-in 45, freezer -2", "fridgeat 45 @reach-in"},
	// freezers
	{"freezer at -6", "freezerat -6 @freezer"},
	{"freezer -8", "freezerat -8 @freezer"},
	{"freezer is at -2", "freezerat -2 @freezer"},
	{"freezer is at minus 2", "freezerat -2 @freezer"},
	{"freezer 2c", "freezerat 2 @freezer"},
	{"freezer +3", "freezerat 3 @freezer"},
	{"chest freezer up to -9.5", "freezerat -9 @chest freezer"},
	{"freezer door left open", "freezer @freezer"},
	{"freezer off all weekend", "freezer @freezer"},
	{"freezer has gone off", "freezer @freezer"},
	{"freezer dripping, chips soft", "freezer @freezer"},
	{"freezer back on, prawns soft, refreezing", "freezer @freezer"},
	// power
	{"power went out at 3", "power since 03:00"},
	{"power out since 9", "power since 09:00"},
	{"power outage overnight", "power"},
	{"lost power 5 hours", "power 5"},
	{"we lost power for 5 hours", "power 5"},
	{"power been out since 7", "power since 07:00"},
	{"power is off", "power"},
	{"power cut since 3", "power since 03:00"},
	{"electric gone", "power"},
	{"leccy been off 2 hrs", "power 2"},
	{"blackout", "power"},
	// stood out
	{"left the soup out overnight", "stood soup"},
	{"left the soup on the side overnight", "stood soup"},
	{"left the paneer out last night", "stood paneer"},
	{"someone left the rice out overnite", "stood rice"},
	{"who left the ham out all night?", "stood ham"},
	{"dave left the beef stew out for 5 hours", "stoodhours beef stew 5"},
	{"left the chicken out", "stoodhours chicken"},
	{"left 6l soup out overnight", "stood soup"},
	{"soup been on the side since lunch yesterday", "stood soup"},
	{"ham on the side since 6am", "stood ham since 06:00"},
	{"ham's been on the bench 5 hours", "stoodhours ham 5"},
	{"forgot the soup on the stove last night", "stood soup"},
	{"soup never went in the fridge last night", "stood soup"},
	{"the custard wasnt put away last night", "stood custard"},
	{"stock pot left on the stove overnight with lid on", "stood stock pot"},
	{"stock left to cool overnight", "stood stock"},
	{"rice been in the cooker all day", "stood rice"},
	{"sarnies on trolley 5 hrs", "stoodhours sarnies 5"},
	{"lasagne on the pass since 12", "stood lasagne since 00:00"},
	{"lasagne under the lamps 3 hours", "stoodhours lasagne 3"},
	{"delivery sat outside 3 hours", "stoodhours delivery 3"},
	{"delivery left on the step since 6", "stood delivery since 06:00"},
	{"custard out 5 hrs ok to give", "stoodhours custard 5"},
	{"stew out 3 hrs n still warm", "stoodhours stew 3"},
	{"ham out 5 hrs, fridge at 3", "stoodhours ham 5"},
	{"stew and mash out 3 hrs", "stoodhours stew+mash 3"},
	{"fish and chips out 3 hrs", "stoodhours fish+chips 3"},
	{"trifle been out since 3 its now 9", "stood trifle since 03:00"},
	{"soup been out 3 hrs, stew fine", "stoodhours soup 3"},
	{"think the soup was out all night", "stood soup"},
	{"not sure how long the soup was out, all night i reckon", "stood soup"},
	{"curry out two and a half hours", "stoodhours curry 3"},
	{"the prawns have been sat on the bench a couple of hours", "stoodhours prawns 2"},
	{"found the ham out on the side this morning", "stood ham"},
	{"forgot to put the soup away last night", "stood soup"},
	{"forgot to put the chicken in the fridge", "stoodhours chicken"},
	{"chicken left defrosting on the side overnight", "stood chicken"},
	{"tuna mayo been out the fridge 5 hours", "stoodhours tuna mayo 5"},
	{"fish was left on the doorstep at 5", "stood fish since 05:00"},
	{"left 2 trays of lasagne out overnight", "stood lasagne"},
	{"2 trays of lasagne been out since lunch", "stood lasagne"},
	// kept hot
	{"bain marie 58", "heldat 58 @bain marie"},
	{"bain marie at 58c", "heldat 58 @bain marie"},
	{"hot cupboard at 57", "heldat 57 @hot cupboard"},
	{"hot box 61", "heldat 61 @hot box"},
	{"steam table at 130F", "heldat 130 @steam table"},
	{"mac n cheese 130F", "heldat mac n cheese 130"},
	{"beans at 128F on the line", "heldat beans 128 @on the line"},
	{"lasagne in hot hold 61", "heldat lasagne 61 @hot hold"},
	{"lasagne at 55 for 3 hours", "heldat lasagne 55 for 3"},
	{"gravy in the bain marie 55", "heldat gravy 55 @bain marie"},
	{"gravy dropped to 55 for 3 hours", "heldat gravy 55 for 3"},
	{"dhal still 58", "heldat dhal 58"},
	{"hot cupboard has been off since 12", "heldat since 00:00 off @hot cupboard"},
	{"curry in the hot cupboard 48 degrees", "heldat curry 48 @hot cupboard"},
	// deliveries
	{"delivery chicken probed at 12", "camewarm chicken 12"},
	{"chicken was 11 on delivery", "camewarm chicken 11"},
	{"delivery at 12c", "camewarm delivery 12"},
	{"milk delivered warm", "camewarm milk warm"},
	{"frozen delivery at -10", "camewarm delivery -10 frozen"},
	{"chicken came in warm", "camewarm chicken warm"},
	{"prawns came in soft", "camewarm prawns soft"},
	{"van was warm, probe said 10 on the salmon", "camewarm salmon 10"},
	{"chicken delivery 48F", "camewarm chicken 48"},
	{"milk came in at 45F", "camewarm milk 45"},
	{"eggs arrived 50F", "camewarm eggs 50"},
	// spoilt
	{"chicken is slimy", "smells chicken"},
	{"chicken stinks", "smells chicken"},
	{"chicken slimy n smelly", "smells chicken"},
	{"chicken smells off", "smells chicken"},
	{"the pate smells a bit funny", "smells pate"},
	{"tin of tomatoes is bulging", "blown tomatoes"},
	{"tomato tin blown", "blown tomato"},
	{"bulging tin of beans", "blown beans"},
	{"mould on the brie can i cut it off", "mould brie"},
	{"mould on the bread ok?", "mould bread"},
	{"the cream cheese is mouldy", "mould cream cheese"},
	{"strawberries are mouldy", "mould strawberries"},
	{"yoghurt lids are bulging", "blown yoghurt"},
	{"mussels are open and wont close", "shut mussels open"},
	{"some mussels didnt open, ok?", "shut mussels"},
	{"cooked mussels, 6 didnt open, ok to use?", "shut mussels"},
}

var noHazards = []string{
	"she left the milk out of it", "how long can rice stay out", "keep it in the bain marie", "chicken out the freezer to defrost", "take the butter out", "milk is out of stock", "ran out", "we ran out of soup",
	"sold out", "soup sold out by 3", "sauce out of the oven", "got 5kg chicken", "got 5kg chicken at 12c", "used 2kg chicken in the curry", "binned 2kg slimy spinach", "made 5l soup", "put the soup in the fridge", "soup in the fridge since 3",
	"chicken went in the fridge at 12", "the fridge is full", "fridge needs cleaning", "clean the fridge", "set the fridge to 4", "turn the fridge off to defrost it", "who left the fridge open?", "fridge man coming at 12",
	"fridge delivery at 2", "eggs are in fridge 9", "new fridge coming at 12", "6 beers in the fridge", "fridge 12 eggs", "is the fridge on", "is the fridge at 4?", "how cold should the fridge be", "what temp fridge", "freezer temp?",
	"its cooler today", "much cooler in here at 10", "cooler heads prevail", "saw her walk in at 8", "walk in 12 coming now", "walk in customers at 7", "he came off the street", "is 60 hot enough for the bain marie",
	"whats the min temp for hot hold", "how long can rice stay in the bain marie", "turn the bain marie up to 70", "bain marie on at 11", "chips out in 5", "mains out at 7", "soup out 20 mins", "table 4 out", "chef out all day",
	"boiler man was out all night", "we were out all night", "the kids were out all day", "the butter was left out to soften", "dough left out overnight to prove", "he left 3 hours ago", "left the door open", "left my bag on the side",
	"dont leave the soup out overnight", "never leave rice out overnight", "the soup wasnt left out", "scrap that, soup wasnt left out, it was the squash", "can rice be left out overnight", "is it ok to leave soup out overnight", "if the soup is left out overnight bin it",
	"soup out after 3 hours in the oven", "day off tomorrow", "milk delivered", "chicken came in", "fish delivery at 9", "delivery at 12", "soup came back cold", "delivery came in at 7am", "post arrived 20 minutes ago", "stinking rich", "my feet stink",
	"the drains stink", "that smells amazing", "power to the people", "he has power over us", "power through it lads", "cut the power bill", "the engine", "a blackout curtain", "salmon at 50 in the water bath for 1 hour", "roast the chicken at 90c for 3 hours",
	"oven at 180", "set the hot cupboard to 80", "open the mussels", "mussels", "tin of tomatoes", "open a tin of tomatoes", "lights out", "the secret is out", "lemon tart out now", "salmon is off the menu", "turn off the walk in light", "chicken out",
	"dinner was left to the kids", "fridge fixed, back on now", "freezer back on", "leave the stock out to cool", "sauce on the side", "dressing on the side for table 4", "fridges all fine", "pull the chicken out",
	"cream's gone off, poured it all down the sink", "bind ninety grams of spinach it was all slimy", "half a kilo of slimy spinach",
	"stock been on the stove 5 hours", "stock on the stove since 6", "stock left on the stove overnight, simmering", "soup is out on table 4 since 7", "pizza dough out since 6",
}
