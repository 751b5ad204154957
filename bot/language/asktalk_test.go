package language

import (
	"testing"

	"scullion/pantry/food"
)

// What a message of one table is read as: About, Food and N; or nothing.
func heardAs(t *testing.T, read func(string) *Question, want map[string]Question, silent []string) {
	t.Helper()
	for text, w := range want {
		q := read(text)
		if q == nil || q.About != w.About || q.Food != w.Food || q.N != w.N || q.Date != w.Date {
			t.Errorf("%q: %+v, not %+v", text, q, w)
		}
	}
	for _, text := range silent {
		if q := read(text); q != nil {
			t.Errorf("%q: %+v", text, q)
		}
	}
}

func TestMoneyTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	heardAs(t, r.MoneyTalk, map[string]Question{
		"what did the stew cost?":                  {About: AboutCost, Food: "stew"},
		"hey what did the stew cost us a portion?": {About: AboutPortionCost, Food: "stew"},
		"how much was the leek tart?":              {About: AboutCostWas, Food: "leek tart"},
		"what's the tart costing us a portion?":    {About: AboutPortionCost, Food: "tart"},
		"what did the leeks cost?":                 {About: AboutCost, Food: "leeks"},
		"what did we pay for the leeks":            {About: AboutCost, Food: "leeks"},
		"cost per portion of the leek tart":        {About: AboutPortionCost, Food: "leek tart"},
		"whats the food cost per head for the pie": {About: AboutPortionCost, Food: "pie"},
		"cost per portion?":                        {About: AboutHeadCost},
		"food cost per head":                       {About: AboutHeadCost},
		"what did tonight cost per head":           {About: AboutHeadCost},
		"what did it cost?":                        {About: AboutServiceCost},
		"what did tonight cost":                    {About: AboutServiceCost},
		"what did we spend on the delivery?":       {About: AboutSpent},
		"what did the delivery cost?":              {About: AboutSpent},
		"what did we bin in money?":                {About: AboutBinnedCost},
		"how much money did we throw away":         {About: AboutBinnedCost},
		"curry cost a portion?":                    {About: AboutPortionCost, Food: "curry"},
		"portion cost of curry?":                   {About: AboutPortionCost, Food: "curry"},
		"cost a portion of caprese in pounds":      {About: AboutPortionCost, Food: "caprese"},
		"what did we spend?":                       {About: AboutSpent},
		"cake cost?":                               {About: AboutCost, Food: "cake"},
		"cost of a cake":                           {About: AboutCost, Food: "cake"},
		"what does a portion of cake cost?":        {About: AboutPortionCost, Food: "cake"},
		"what's the yorkies cost per portion":      {About: AboutPortionCost, Food: "yorkies"},
		"how much is an almond tart?":              {About: AboutCostDish, Food: "almond tart"},
		"cost of the pork and the salmon?":         {About: AboutCost, Food: "pork and the salmon"},
		"and the topside?":                         {About: AboutCostToo, Food: "topside"},
		"price of butter?":                         {About: AboutCost, Food: "butter"},
		"what did the day cost?":                   {About: AboutDayCost},
		"what did lunch cost":                      {About: AboutMealCost},
		"what did last night's dinner cost":        {About: AboutMealCost},
	}, []string{
		"what did we spend all night doing", "the day cost me", "cost a bomb",
		"cost me a fortune that taxi", "at what cost", "the cost of living", "what did we spend all day on", "how much is the salmon?",
		"how much leek is left", "it cost 4 quid", "got 1kg leeks cost £3", "how much were you drinking last night then eh lads",
	})
}

func TestKeepTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	heardAs(t, r.KeepTalk, map[string]Question{
		"can we keep the curry till saturday?":      {About: AboutTill, Food: "curry", Date: Day{Set: true, Weekday: 6}},
		"will the soup last till monday?":           {About: AboutTill, Food: "soup", Date: Day{Set: true, Weekday: 1}},
		"will the leek soup keep until next friday": {About: AboutTill, Food: "leek soup", Date: Day{Set: true, Weekday: 5}},
		"can we keep the rice till tomorrow lunch":  {About: AboutTill, Food: "rice", Date: Day{Set: true, Days: 1}},
		"will the ham keep till 9 march?":           {About: AboutTill, Food: "ham", Date: Day{Set: true, Dom: 9, Month: 3}},
		"can we keep the stew for 3 days?":          {About: AboutForDays, Food: "stew", N: 3},
		"will the stew last another 2 days":         {About: AboutForDays, Food: "stew", N: 2},
		"can we keep the rice overnight":            {About: AboutTillNext, Food: "rice"},
		"is the chicken still ok?":                  {About: AboutStillOK, Food: "chicken"},
		"ok, is the double cream still good to go?": {About: AboutStillOK, Food: "double cream"},
		"is the fish safe to eat tonight?":          {About: AboutStillOK, Food: "fish"},
		"when does the ham go off?":                 {About: AboutGoesOff, Food: "ham"},
		"what's the use by on the chicken":          {About: AboutGoesOff, Food: "chicken"},
		"ham ok to use?":                            {About: AboutStillOK, Food: "ham"},
		"prawns still ok?":                          {About: AboutStillOK, Food: "prawns"},
		"ham in date?":                              {About: AboutStillOK, Food: "ham"},
		"can we still use the ham":                  {About: AboutStillOK, Food: "ham"},
		"is the ham ok?":                            {About: AboutMaybeOK, Food: "ham"},
		"is the pie safe?":                          {About: AboutMaybeOK, Food: "pie"},
		"can I use the ham?":                        {About: AboutMaybeOK, Food: "ham"},
		"can we serve the prawns?":                  {About: AboutMaybeOK, Food: "prawns"},
	}, []string{
		"can we keep going till 9?", "keep the lid on till it boils", "still ok?", "the chicken is still ok", "is it ok if I go", "will you last till friday night with that knee do you think mate",
		"can we keep it down", "keep the oven on till 6", "when do we go", "is the soup good?", "has the milk gone off?", "turn the heat off",
		"is the pie safe for dee?", "are the eggs safe for a coeliac?", "the ham is ok", "ham ok to use", "can I serve 4?", "is the soup still good for table 4",
	})
}

func TestRuleTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	heardAs(t, r.RuleTalk, map[string]Question{
		"we keep cooked rice 1 day":                     {About: AboutRule, Food: "cooked rice", N: 1},
		"house rule: stock keeps 2 days in the fridge":  {About: AboutRule, Food: "stock", N: 2},
		"House rule, we keep our soups for 2 days":      {About: AboutRule, Food: "soups", N: 2},
		"our soups keep 2 days":                         {About: AboutRule, Food: "soups", N: 2},
		"we keep the chicken for no more than two days": {About: AboutRule, Food: "chicken", N: 2},
		"our stock is kept for at most 2 days":          {About: AboutRule, Food: "stock", N: 2},
		"house rule: rice 24 hours":                     {About: AboutRuleHours, Food: "rice", N: 24},
		"house rule: soup keeps 30 days in the freezer": {About: AboutRuleFreezer, Food: "soup", N: 30},
		"what are our house rules?":                     {About: AboutRules},
		"house rules":                                   {About: AboutRules},
	}, []string{
		"we kept the rice 1 day", "cooked rice keeps 1 day", "how long do we keep cooked rice", "we keep 2 days of stock", "house rules apply, lads", "rule of thumb",
		"we keep running out", "our pie lasts 2 days on the menu", "our delivery comes in 2 days", "new food: sea beet, keeps 3 days",
	})
}

func TestAbuseTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	heardAs(t, r.AbuseTalk, map[string]Question{
		"the cooked rice was left out overnight":      {About: AboutStood, Food: "cooked rice"},
		"someone left the ham out all night":          {About: AboutStood, Food: "ham"},
		"fridge 2 is at 14":                           {About: AboutFridgeAt, N: 14},
		"fridge in the van died, off for 3 hours":     {About: AboutFridge, N: 3},
		"salmon delivery came in at 11c":              {About: AboutCameWarm, Food: "salmon", N: 11},
		"ditch the tagine, been warm 4h":              {About: AboutStoodHours, Food: "tagine", N: 4},
		"chicken left on the side since yesterday":    {About: AboutStood, Food: "chicken"},
		"soup sat out 5 hours":                        {About: AboutStoodHours, Food: "soup", N: 5},
		"the stock stood on the pass for three hours": {About: AboutStoodHours, Food: "stock", N: 3},
		"fridge was at 12 degrees all night":          {About: AboutFridgeAt, N: 12},
		"the walk-in fridge is at 11C, ok?":           {About: AboutFridgeAt, N: 11},
		"the fridge broke overnight":                  {About: AboutFridge},
		"freezer failed overnight":                    {About: AboutFreezer},
		"the chicken smells off, is it ok?":           {About: AboutSmells, Food: "chicken"},
		"the prawns are slimy, bin it?":               {About: AboutSmells, Food: "prawns"},
		"chicken probed at 58, ok?":                   {About: AboutProbed, Food: "chicken", N: 58},
		"the pork core temp is 61 degrees":            {About: AboutProbed, Food: "pork", N: 61},
	}, []string{
		"the butter was left out to soften", "left the door open", "who left the fridge open?", "he walked out", "leave the dough out overnight", "the fridge is full", "the freezer is in the cellar",
		"oven at 180", "fridge is at 14", "this yoghurt smells funny", "the oven smells", "set the fridge to 4", "used 5kg chicken", "probe the chicken", "the soup is 5 hours off", "2kg rice left", "is the rice left out?",
	})
}
