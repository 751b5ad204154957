package paper_test

import (
	"reflect"
	"strings"
	"testing"

	"scullion/bot/paper"
	"scullion/pantry/measure"
)

// TestReadsOwn reads the golden sheet back as it was.
func TestReadsOwn(t *testing.T) {
	r, err := paper.ReadJSONLD([]byte(paper.JSONLD(tart(t), options())))
	if err != nil || r.Name != "Leek tart" || r.Portions != 4 || len(r.Steps) != 11 {
		t.Fatalf("%+v: %v", r, err)
	}
	if want := (paper.Wanted{Text: "500 g leek", Name: "leek", Amount: 500_000, Unit: measure.Gram}); r.Ingredients[0] != want {
		t.Errorf("%+v, not %+v", r.Ingredients[0], want)
	}
}

// TestReadsOthers reads recipes as other programs may write them: every way that the vocabulary
// and JSON-LD leave open.
func TestReadsOthers(t *testing.T) {
	for doc, want := range map[string]paper.Recipe{
		`{"@context":"http://schema.org/","@type":["Thing","Recipe"],"name":"Soup","recipeYield":["2.6 kg cooked","6","6 servings"],"recipeIngredient":"1.5 kg leeks","recipeInstructions":"Wash.\nBoil."}`: {
			Name: "Soup", Portions: 6, Ingredients: []paper.Wanted{{Text: "1.5 kg leeks", Name: "leeks", Amount: 1_500_000, Unit: measure.Gram}}, Steps: []string{"Wash.", "Boil."}},
		`{"@context":"https://schema.org","@graph":[{"@type":"WebPage"},{"@type":"https://schema.org/Recipe","name":{"@value":"Soup"},"recipeYield":{"@type":"QuantitativeValue","value":4},
		   "recipeIngredient":{"@type":"ItemList","itemListElement":["2 eggs"]},
		   "recipeInstructions":[{"@type":"HowToSection","name":"First","itemListElement":[{"@type":"HowToStep","text":"Boil."},{"@type":"HowToStep","itemListElement":{"@type":"HowToDirection","text":"Peel."}}]}]}]}`: {
			Name: "Soup", Portions: 4, Ingredients: []paper.Wanted{{Text: "2 eggs", Name: "eggs", Pieces: 2000}}, Steps: []string{"Boil.", "Peel."}},
		`[{"@type":"schema:Recipe","name":"Soup","recipeYield":8,"ingredients":["salt"]}]`: {
			Name: "Soup", Portions: 8, Ingredients: []paper.Wanted{{Text: "salt", Name: "salt"}}},
		`{"@type":"Recipe","name":"Soup","recipeYield":"a big pot","recipeIngredient":["leek","cream"],"supply":[{"@type":"HowToSupply","name":"leek"}]}`: {
			Name: "Soup", Ingredients: []paper.Wanted{{Text: "leek", Name: "leek"}, {Text: "cream", Name: "cream"}}},
	} {
		r, err := paper.ReadJSONLD([]byte(doc))
		if err != nil || !reflect.DeepEqual(r, want) {
			t.Errorf("%s\n gives %+v, %v,\n not %+v", doc, r, err, want)
		}
	}
}

// TestReadsAmounts goes through the ways to write an amount.
func TestReadsAmounts(t *testing.T) {
	for text, want := range map[string]paper.Wanted{
		"300 g leek":                    {Name: "leek", Amount: 300_000, Unit: measure.Gram},
		"300g of leek":                  {Name: "leek", Amount: 300_000, Unit: measure.Gram},
		"1½ kg potatoes":                {Name: "potatoes", Amount: 1_500_000, Unit: measure.Gram},
		"½ lemon":                       {Name: "lemon", Pieces: 500},
		"1/2 lemon":                     {Name: "lemon", Pieces: 500},
		"1 1/2 kg flour":                {Name: "flour", Amount: 1_500_000, Unit: measure.Gram},
		"1,500 g flour":                 {Name: "flour", Amount: 1_500_000, Unit: measure.Gram},
		"1,5 l milk":                    {Name: "milk", Amount: 1_500_000, Unit: measure.Millilitre},
		"250 ml double cream (about 1)": {Name: "double cream", Amount: 250_000, Unit: measure.Millilitre},
		"2-3 carrots":                   {Name: "carrots", Pieces: 2000},
		"4 large eggs":                  {Name: "large eggs", Pieces: 4000},
		"about 10 g thyme":              {Name: "thyme", Amount: 10_000, Unit: measure.Gram},
		"1/0 lemon":                     {Name: "1/0 lemon"},
		"salt and pepper":               {Name: "salt and pepper"},
		"99999999 t salt":               {Name: "99999999 t salt"},
		"0 g salt":                      {Name: "0 g salt"},
		"1.2345 kg salt":                {Name: "1.2345 kg salt"},
		"3/4/5 salt":                    {Name: "3/4/5 salt"},
		"300 g":                         {Name: "300 g", Amount: 300_000, Unit: measure.Gram},
	} {
		r, err := paper.ReadJSONLD([]byte(`{"@type":"Recipe","name":"x","recipeIngredient":["` + text + `"]}`))
		want.Text = text
		if err != nil || len(r.Ingredients) != 1 || r.Ingredients[0] != want {
			t.Errorf("%q gives %+v, %v, not %+v", text, r.Ingredients, err, want)
		}
	}
}

// TestReadErrors: what is wrong is said, with what to do.
func TestReadErrors(t *testing.T) {
	for doc, says := range map[string]string{
		``:                                 "not JSON",
		`hello`:                            "not JSON",
		`{"@type":"Recipe"}{}`:             "behind the JSON",
		`{}`:                               "no schema.org Recipe",
		`null`:                             "no schema.org Recipe",
		`{"@type":"Person","name":"Bo"}`:   "no schema.org Recipe",
		`{"@type":"Recipe"}`:               "no name",
		`{"@type":"Recipe","name":"Soup"}`: "no recipeIngredient",
		`{"@type":"Recipe","name":"Soup","recipeIngredient":[{}," "]}`: "no recipeIngredient",
		strings.Repeat(" ", 1<<20+1):                                   "over 1 MB",
		strings.Repeat("[", 20_000):                                    "not JSON",
	} {
		if r, err := paper.ReadJSONLD([]byte(doc)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.60s gives %+v, %v, not %q", doc, r, err, says)
		}
	}
}
