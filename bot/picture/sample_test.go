package picture

import "time"

// begun is when the samples begin.
var begun = time.Date(2026, 3, 3, 17, 43, 0, 0, time.UTC)

// sample is a plan of three dishes for two cooks, in the middle of its service.
func sample() Timetable {
	const potato, salad, dip = "baked potato filled with mushrooms and cheddar, sage and browned butter; roast leeks", "warm spinach salad with cauliflower, bread on the side", "yoghurt dip with cauliflower and carrots"
	return Timetable{
		Title: "3 dishes for 2", Begins: begun, Ends: begun.Add(41 * time.Minute), Now: begun.Add(17 * time.Minute),
		Lanes: Lanes([]string{"larder", "stove"}, []Work{
			{From: 0, Minutes: 12, HandsOn: 0, Text: "heat the oven, 210 C", Dish: potato, DishN: 1, Kit: []string{"oven"}, Done: true},
			{From: 0, Minutes: 2, HandsOn: 2, Text: "trim, oil, salt (leek)", Dish: potato, DishN: 1, Cook: 1, Done: true},
			{From: 8, Minutes: 12, HandsOn: 1, Text: "prick, start in the microwave", Dish: potato, DishN: 1, Cook: 1, Kit: []string{"microwave"}, On: true, HandsDone: true},
			{From: 12, Minutes: 29, HandsOn: 1, Text: "roast, turn the trays round half way (leek), 210 C", Dish: potato, DishN: 1, Cook: 1, Kit: []string{"oven"}, On: true, HandsDone: true},
			{From: 20, Minutes: 18, HandsOn: 0, Text: "finish in the oven, turn the trays round half way, 210 C", Dish: potato, DishN: 1, Kit: []string{"oven"}},
			{From: 26, Minutes: 10, HandsOn: 6, Text: "cook the filling through (mushrooms)", Dish: potato, DishN: 1, Cook: 1, Kit: []string{"ring"}},
			{From: 36, Minutes: 2, HandsOn: 2, Text: "stir the sauce, dress leaves", Dish: potato, DishN: 1, Cook: 1},
			{From: 38, Minutes: 3, HandsOn: 3, Text: "split, salt, fill", Dish: potato, DishN: 1, Cook: 1},
			{From: 4, Minutes: 3, HandsOn: 3, Text: "wash and dry the leaves (spinach)", Dish: salad, DishN: 2, Cook: 1, Done: true},
			{From: 9, Minutes: 2, HandsOn: 2, Text: "slice what sharpens and sweetens it (red onion)", Dish: salad, DishN: 2, Cook: 1, Done: true},
			{From: 21, Minutes: 18, HandsOn: 2, Text: "cut up what is large, boil the carrots", Dish: salad, DishN: 2, Cook: 1, Kit: []string{"ring"}},
			{From: 27, Minutes: 10, HandsOn: 7, Text: "fry the cauliflower through, large things cut 10 mm", Dish: salad, DishN: 2, Cook: 2, Kit: []string{"ring"}},
			{From: 39, Minutes: 2, HandsOn: 2, Text: "warm the dressing in that pan, toss", Dish: salad, DishN: 2, Cook: 2},
			{From: 5, Minutes: 4, HandsOn: 4, Text: "cut the raw things to sticks (cauliflower, carrots)", Dish: dip, DishN: 3, Cook: 2, Done: true},
			{From: 32, Minutes: 4, HandsOn: 4, Text: "blend the dip with oil, acid and garlic", Dish: dip, DishN: 3, Cook: 1, Kit: []string{"blender"}},
			{From: 34, Minutes: 2, HandsOn: 2, Text: "toast the bread, 250 C", Dish: dip, DishN: 3, Cook: 2, Kit: []string{"grill"}},
			{From: 36, Minutes: 3, HandsOn: 3, Text: "lay it out, oil and seeds on the dip", Dish: dip, DishN: 3, Cook: 2},
		}),
	}
}

// shelfSample is a crate in the middle of a service.
func shelfSample() Stock {
	return Stock{Title: "What is left", At: begun.Add(17 * time.Minute), Lines: []StockLine{
		{Name: "spinach", Left: "300 g", Free: "300 g", Date: "use by 3 Mar", Share: 0.75, Urgent: true},
		{Name: "mushroom", Left: "150 g", Free: "0 g", Claimed: "150 g baked potato (larder)", Date: "about 4 Mar", Share: 0.3, ClaimedShare: 0.3, Urgent: true},
		{Name: "leek", Left: "700 g", Free: "300 g", Claimed: "400 g tart (pastry)", Date: "about 9 Mar", Share: 0.58, ClaimedShare: 0.33},
		{Name: "Jerusalem artichokes of the second delivery", Left: "40 g", Free: "40 g", Date: "about 12 Mar", Share: 0.04},
		{Name: "egg", Left: "12 (about 696 g)", Free: "6 (about 348 g)", Claimed: "2 (about 116 g) tart (pastry), 4 (about 232 g) thin pancakes filled with spinach (larder)", Date: "best before 20 Mar", Share: 1, ClaimedShare: 0.5},
		{Name: "brown onion", Left: "about 489 g", Free: "about 489 g", Share: 0.667},
	}}
}
