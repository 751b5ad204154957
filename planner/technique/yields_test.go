package technique

import (
	"strconv"
	"strings"
	"testing"
)

const yields = "../../../shared/reference/yields.csv"

// yieldRows names the rows of the reference table of yields that techniques are
// held against. Where the figures are not of one thing, other says why.
var yieldRows = []struct{ technique, row, other string }{
	{"rice", "long-grain rice", ""},
	{"pasta", "pasta, dry", ""},
	{"noodle", "egg noodles", ""},
	{"simmer-grain", "quinoa", ""},
	{"simmer-grain", "pearl barley", ""},
	{"simmer-grain", "millet", "one figure for all the grains of the row"},
	{"lentils", "brown lentils", ""},
	{"soaked-beans", "dried haricot beans", ""},
	{"soaked-beans", "dried pinto beans", ""},
	{"soaked-beans", "dried black beans", ""},
	{"soak-grain", "couscous", "less water, so that the grains stay apart"},
	{"risotto", "risotto (short-grain) rice", "stock, onion and cheese are weighed in"},
	{"wilt-leaf", "spinach, wilted and squeezed", ""},
	{"mw-leaf", "spinach, wilted and squeezed", ""},
	{"fry-mushroom", "mushrooms, fried until dry", ""},
	{"mushroom-mince", "mushrooms, fried until dry", ""},
	{"sweat-soft", "onions, sweated", ""},
	{"brown-slow", "onions, caramelised brown", ""},
	{"roast-chunks", "roast root vegetables", ""},
	{"roast-wedges", "roast root vegetables", ""},
	{"roast-chunks", "courgette or aubergine, roasted", ""},
	{"boil-veg", "boiled potatoes", ""},
	{"boil-whole", "boiled potatoes", ""},
	{"braise-meat", "slow-braised beef, lamb or pork", ""},
	{"slow-roast", "slow-braised beef, lamb or pork", ""},
	{"poach-fish", "fish fillet, poached or baked", ""},
	{"bake-fish", "fish fillet, poached or baked", ""},
	{"mw-fish", "fish fillet, poached or baked", ""},
	{"steam-shellfish", "mussels in shell -> cooked meat", ""},
	{"fry-liver", "lamb's liver, pan-fried", ""},
	{"brown-mince", "beef mince 10% fat crumbles, pan-browned", ""},
	{"grill-kofta", "lamb mince, grilled", "onion is weighed in"},
	{"fry-steak", "flank steak, grilled", ""},
	{"roast-bird-whole", "whole chicken, roasted, meat and skin", ""},
	{"roast-bird-whole", "whole duck, roasted, meat and skin", ""},
	{"roast-joint", "lamb leg, roasted", "topside without a bone is in the row too, 75 to 85"},
}

// TestYieldsAgainstReference holds yields within a twentieth of the published
// figure or range.
func TestYieldsAgainstReference(t *testing.T) {
	rows := referenceRows(t, yields)
	least, most := map[string]float64{}, map[string]float64{}
	for _, r := range rows[1:] {
		a, b, ok := strings.Cut(r[3], "-")
		if !ok {
			b = a
		}
		least[r[0]], _ = strconv.ParseFloat(a, 64)
		most[r[0]], _ = strconv.ParseFloat(b, 64)
	}
	for _, c := range yieldRows {
		x, ok := byID(c.technique)
		if !ok || least[c.row] == 0 {
			t.Errorf("no technique %s or no yield of %s", c.technique, c.row)
			continue
		}
		got := x.Yield * 100
		if c.other == "" && (got < least[c.row]*0.95 || got > most[c.row]*1.05) {
			t.Errorf("%s yields %g, %s %g to %g", c.technique, got, c.row, least[c.row], most[c.row])
		}
	}
}

func byID(id string) (*Technique, bool) {
	for i := range Default() {
		if x := &Default()[i]; x.ID == id {
			return x, true
		}
	}
	return nil, false
}
