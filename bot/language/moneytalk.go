package language

import (
	_ "embed"
	"sync"
)

//go:embed moneytalk.csv
var moneyTalkCSV []byte

var moneyTalk = sync.OnceValue(func() *asking { return embedded("moneytalk.csv", moneyTalkCSV) })

// What may be asked of money.
const (
	AboutCost        About = "cost"        // what the dish cost, or the food, that Food names
	AboutCostWas     About = "costwas"     // the same in words that are said of anything: "how much was the taxi?"
	AboutPortionCost About = "portioncost" // what a portion of the dish that Food names cost
	AboutCostDish    About = "costdish"    // what the dish cost that Food names; of a food, what one weighs may be meant
	AboutCostToo     About = "costtoo"     // the same as was asked before, of what Food names
	AboutHeadCost    About = "headcost"    // a portion of the dishes that were made
	AboutServiceCost About = "servicecost" // all of a service
	AboutSpent       About = "spent"       // what came in
	AboutMealCost    About = "mealcost"    // all of the service that Place names: "lunch"
	AboutDayCost     About = "daycost"     // all of the day's services
	AboutBinnedCost  About = "binnedcost"  // what was thrown away
)

// MoneyTalk reads a message that asks what something cost; nil where it does not.
func (r *Reader) MoneyTalk(text string) *Question { return r.talked(text, moneyTalk()) }
