package technique_test

import (
	"slices"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// ideasFor gives the ideas for so much of a food and nothing else, with all the
// time in the world.
func ideasFor(f *food.Food, free measure.Amount) []planner.Idea {
	return planner.Ideas(planner.Ask{Minutes: 700, Stock: []planner.Stock{
		{Item: f.Name, Food: f, Free: free, Unit: f.Unit, Crate: true, Days: 2},
	}})
}

// without lists the foods that truly have no idea of their own at any amount
// asked for below, with the reason.
var without = map[string]string{
	"baking powder": "a raising agent", "bicarbonate of soda": "a raising agent", "cream of tartar": "a raising agent",
	"gelatine": "goes into what is set", "vital wheat gluten": "goes into dough", "icing sugar": "goes over or into something",
	"dried skimmed milk": "goes into a drink or dough", "khoya": "goes into sweets that no row makes",
	"table salt": "salt", "sea salt": "salt", "celery salt": "salt",
	"chicken stock cube": "goes into water", "vegetable stock cube": "goes into water",
	"ghee": "a fat to cook in", "olive oil": "a fat to cook in", "extra virgin olive oil": "a fat to cook in",
	"rapeseed oil": "a fat to cook in", "vegetable oil": "a fat to cook in", "sunflower oil": "a fat to cook in",
	"groundnut oil": "a fat to cook in", "sesame oil": "a fat to cook in", "corn oil": "a fat to cook in", "walnut oil": "a fat to cook in",
	"whole chicken": "a whole beast, not so little of it", "whole duck": "a whole beast, not so little of it",
	"turkey": "a whole beast, not so little of it",
}

// TestSmallRemainders holds that a cook who has 80 g, 150 g or one piece of
// something gets an idea for it.
func TestSmallRemainders(t *testing.T) {
	for _, f := range food.Default().Foods() {
		if f.Group == "prepared" { // by its label, not by a technique
			for _, free := range []measure.Amount{80_000, 150_000, 2_000_000} {
				if n := len(ideasFor(f, free)); n > 0 {
					t.Errorf("%s is bought in, and %d mg of it have %d ideas", f.Name, free, n)
				}
			}
			continue
		}
		amounts := map[string]measure.Amount{"80 g": 80_000, "150 g": 150_000}
		if f.PieceMg >= 40_000 { // one grape is eaten on the way
			amounts["one piece"] = f.PieceMg
		}
		for said, free := range amounts {
			got := len(ideasFor(f, free))
			if f.Unit == measure.Millilitre && said == "one piece" {
				continue
			}
			if why := without[f.Name]; why == "" && got == 0 {
				t.Errorf("%s of %s: no idea", said, f.Name)
			} else if why != "" && got > 0 && said != "one piece" {
				t.Errorf("%s of %s has an idea after all: %s", said, f.Name, why)
			}
		}
	}
	for name := range without {
		if _, ok := food.Default().Food(name); !ok {
			t.Errorf("no food is called %q", name)
		}
	}
}

// spoonful are the kinds of which even a spoonful or a slice is worth something.
var spoonful = map[measure.Amount][]string{
	15_000: {
		"soft herb", "hard herb", "aromatic", "chilli", "spice", "allium", "mushroom", "salad leaf", "citrus", "salty pickle",
		"savoury paste", "bottled sauce", "hard cheese", "blue-veined cheese", "salty cheese", "cream", "cultured dairy", "cured meat",
		"nut", "seed", "dried fruit", "sweet spread", "egg", "stock", "pasta", "noodle", "rice", "seaweed", "tinned pulse", "butter",
	},
	40_000: {
		"hard root", "starchy root", "firm brassica", "cabbage", "soft veg", "green pod", "ripe tomato", "wilting leaf", "sturdy leaf",
		"berry", "stone fruit", "orchard fruit", "tropical fruit", "table fruit", "bread", "flatbread", "pastry", "fresh cheese",
		"melting cheese", "tender cut", "white fish", "oily fish", "smoked fish", "tinned fish", "mince", "sausage", "offal", "grain",
		"milk", "plant cream", "wine or beer", "firm soya", "dried pulse", "chocolate", "flour", "stewing cut",
	},
}

// notSoLittle are foods of these kinds that need more than that.
var notSoLittle = map[string]string{
	"baked bean": "under an egg it takes 45 g", "chestnut": "half of it is shell", "lemon curd": "a fool takes 40 g",
	"jackfruit": "most of it is rind and core", "fillet steak": "too fine to be cut small", "chanterelle": "lost in a whole omelette",
	"morel": "lost in a whole omelette", "enoki mushroom": "lost in a bowl of broth",
}

func TestSpoonfuls(t *testing.T) {
	for free, kinds := range spoonful {
		for _, f := range food.Default().Foods() {
			of := func(kind string) bool { return slices.Contains(kinds, kind) }
			if notSoLittle[f.Name] != "" || without[f.Name] != "" || !slices.ContainsFunc(f.Kinds, of) {
				continue
			}
			if len(ideasFor(f, free)) == 0 {
				t.Errorf("%d g of %s (%v): no idea", free/1000, f.Name, f.Kinds)
			}
		}
	}
}
