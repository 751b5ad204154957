package food

import (
	"slices"
	"strings"
	"testing"
)

func TestNameTables(t *testing.T) {
	if _, err := readNameTables(); err != nil {
		t.Fatal(err)
	}
	for _, table := range []map[string]brings{nameTable().words, nameTable().free} {
		for k := range table {
			if n := len(strings.Fields(k)); n > mostNameWords {
				t.Errorf("%q has %d words", k, n)
			}
		}
	}
}

// What a name says of allergens; "" stands for none of the fourteen.
func TestNamed(t *testing.T) {
	for name, want := range map[string]string{
		"fish stock": "fish", "fish fingers": "fish", "mixed nuts": "tree nuts", "cheese sauce": "milk", "liquid egg": "eggs", "brown crab": "crustaceans",
		"lobster tails": "crustaceans", "breaded scampi": "gluten cereals;crustaceans", "frozen prawns": "crustaceans", "frozen cod": "fish", "soya mince": "soybeans",
		"lupin flour": "lupin", "clotted cream": "milk", "mustard dressing": "mustard", "oat milk": "gluten cereals", "wheat beer": "gluten cereals",
		"squid rings": "molluscs", "celery soup": "celery", "sesame dressing": "sesame", "red wine jus": "sulphites", "monkfish cheeks": "fish",
		"peanut brittle": "peanuts", "almond milk": "tree nuts", "cashew cream": "tree nuts", "goat milk": "milk", "spelt loaf": "gluten cereals",
		"prawn cocktail": "crustaceans", "chicken satay": "peanuts", "tartare sauce": "eggs", "lemon meringue": "eggs", "praline": "tree nuts",
		"macaroni cheese": "gluten cereals;milk", "mac and cheese": "gluten cereals;milk", "egg fried rice": "eggs", "rice pudding": "milk",
		"cuttlefish ink": "molluscs", "lactose free milk": "milk", "crab sticks": "crustaceans;eggs;fish", "mussels in white wine": "molluscs;sulphites",
		"coconut milk": "", "peanut butter": "peanuts", "butternut soup": "", "butter beans": "", "eggplant curry": "", "nutmeg": "", "water chestnuts": "",
		"cream crackers": "gluten cereals", "oyster mushrooms": "", "shea butter": "", "cocoa butter": "", "cream of tartar": "", "buckwheat": "", "crab apple jelly": "",
		"gluten free flour": "", "gluten-free pasta": "", "vegan cheese": "", "dairy free cream": "", "egg free mayo": "", "rice noodles": "", "doughnut peach": "gluten cereals",
		"gluten free fish fingers": "fish", "jellyfish": "", "coconut": "", "pine nuts": "", "watercress": "", "butter lettuce": "", "ginger beer": "", "grapefruit": "",
		"codeine": "", "sweet potato": "", "bream fillets": "fish", "whelks": "molluscs", "haloumi fries": "milk",
		"pork pie": "gluten cereals", "bakewell tart": "gluten cereals;tree nuts", "apple tartlet": "gluten cereals", "gluten free mince pie": "", "scotch eggs": "gluten cereals;eggs", "leek quiche": "gluten cereals;eggs", "shepherd's pie": "",
	} {
		f := Named(name)
		var w []string
		if want != "" {
			w = strings.Split(want, ";")
		}
		got := slices.Sorted(slices.Values(f.Allergen))
		if slices.Sort(w); !slices.Equal(got, w) {
			t.Errorf("%s holds %v, want %v", name, got, w)
		}
		if !f.Unasked {
			t.Errorf("%s: nobody has said more", name)
		}
	}
	for name, want := range map[string]string{"vegan cheese": "milk", "egg free mayo": "eggs", "wheat free bread": "milk", "dairy free cream": "milk",
		"mixed spice": "celery", "cajun spice mix": "mustard"} {
		if f := Named(name); !slices.Contains(f.MayCarry, want) {
			t.Errorf("%s may carry %v, want %s", name, f.MayCarry, want)
		}
	}
	if f := Named("gluten free bread"); slices.Contains(f.Allergen, "gluten cereals") || slices.Contains(f.MayCarry, "gluten cereals") {
		t.Errorf("gluten free bread: %v %v", f.Allergen, f.MayCarry)
	}
}

// The words say no less than the catalogue does of foods that it knows, but for
// those that only the trade knows of.
func TestNamedAgainstCatalogue(t *testing.T) {
	missed, wrong := 0, 0
	for _, f := range Default().Foods() {
		if f.Group == "prepared" {
			continue
		}
		n := Named(f.Name)
		for _, a := range n.Allergen {
			if !slices.Contains(f.Allergen, a) {
				wrong++
				t.Logf("%s: its name says %s", f.Name, a)
			}
		}
		for _, a := range f.Allergen {
			if !slices.Contains(n.Allergen, a) {
				missed++
				t.Logf("%s: its name does not say %s", f.Name, a)
			}
		}
	}
	t.Log(missed, wrong)
	if missed > 20 || wrong > 20 {
		t.Errorf("%d missed, %d wrong", missed, wrong)
	}
}
