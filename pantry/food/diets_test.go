package food

import "testing"

func TestDiets(t *testing.T) {
	rows, err := readDiets()
	if err != nil {
		t.Fatal(err)
	}
	groups, whys := map[string]bool{}, map[string]bool{}
	for _, f := range Default().Foods() {
		groups[f.Group] = true
		for _, w := range f.WhyNot {
			whys[w] = true
		}
	}
	for diet, list := range rows {
		for _, r := range list {
			switch {
			case r.by == allOf && len(rows[r.what]) == 0, r.by == "group" && !groups[r.what], r.by == "why" && !whys[r.what], r.by == "allergen" && !isAllergen(r.what):
				t.Errorf("%s: no %s is called %q", diet, r.by, r.what)
			}
		}
	}
	for _, c := range []struct{ diet, name, fit string }{
		{"halal", "pork belly", NotFit}, {"halal", "streaky bacon", NotFit}, {"halal", "cooked ham", NotFit}, {"halal", "lard", NotFit},
		{"halal", "lardon", NotFit}, {"halal", "black pudding", NotFit}, {"halal", "pig's liver", NotFit}, {"halal", "red wine", NotFit},
		{"halal", "beer", NotFit}, {"halal", "cider", NotFit}, {"halal", "cider vinegar", AskFit}, {"halal", "red wine vinegar", AskFit},
		{"halal", "gelatine", AskFit}, {"halal", "beef mince", AskFit}, {"halal", "chicken thigh", AskFit}, {"halal", "lamb leg", AskFit},
		{"halal", "chicken stock", AskFit}, {"halal", "beef dripping", AskFit}, {"halal", "duck fat", AskFit}, {"halal", "Parmesan", AskFit},
		{"halal", "vanilla extract", AskFit}, {"halal", "venison", AskFit}, {"halal", "chorizo", AskFit}, {"halal", "carrot", ""}, {"halal", "cod", ""},
		{"halal", "whole milk", ""}, {"halal", "tinned corned beef", AskFit}, {"halal", "oxtail", AskFit}, {"halal", "pork spare rib", NotFit},
		{"kosher", "prawn", NotFit}, {"kosher", "mussel", NotFit}, {"kosher", "squid", NotFit}, {"kosher", "pork mince", NotFit}, {"kosher", "rabbit", NotFit},
		{"kosher", "monkfish", NotFit}, {"kosher", "oyster sauce", NotFit}, {"kosher", "salmon", AskFit}, {"kosher", "beef mince", AskFit}, {"kosher", "red wine", AskFit}, {"kosher", "cheddar", AskFit},
		{"kosher", "gelatine", AskFit}, {"kosher", "lard", NotFit}, {"kosher", "potato", ""}, {"kosher", "whole milk", ""},
		{"no pork", "gammon", NotFit}, {"no pork", "beef mince", ""}, {"no pork", "salami", AskFit}, {"no pork", "tinned corned beef", ""}, {"no pork", "gelatine", AskFit},
		{"no beef", "beef mince", NotFit}, {"no beef", "oxtail", NotFit}, {"no beef", "veal", NotFit}, {"no beef", "pork belly", ""}, {"no beef", "sirloin steak", AskFit}, {"no beef", "beef stock", NotFit},
		{"no alcohol", "white wine", NotFit}, {"no alcohol", "stout", NotFit}, {"no alcohol", "white wine vinegar", AskFit}, {"no alcohol", "apple juice", ""},
		{"pescatarian", "salmon", ""}, {"pescatarian", "chicken breast", NotFit}, {"pescatarian", "lard", NotFit},
		{"jain", "brown onion", NotFit}, {"jain", "potato", NotFit}, {"jain", "hen's egg", NotFit}, {"jain", "okra", ""},
	} {
		f, ok := Default().Food(c.name)
		if fit, why := ByDiet(c.diet, f, c.name); !ok || fit != c.fit {
			t.Errorf("%s, %s (known %v): %q (%s), want %q", c.diet, c.name, ok, fit, why, c.fit)
		}
	}
	for called, fit := range map[string]string{"dark rum": NotFit, "bacon bits": NotFit, "turkey bacon": AskFit, "halal beef sausages": AskFit, "hamburger relish": "", "ginger beer": AskFit, "gravy": ""} {
		if got, _ := ByDiet("halal", nil, called); got != fit {
			t.Errorf("halal, %s: %q, want %q", called, got, fit)
		}
	}
	for name, want := range map[string]string{"beef mince": "meat", "chicken breast": "meat", "salted butter": "milk", "cod": "", "carrot": ""} {
		f, _ := Default().Food(name)
		if is, from := Apart("kosher", f); is != want || is != "" && from == is {
			t.Errorf("%s: %q from %q, want %q", name, is, from, want)
		}
	}
}

func isAllergen(name string) bool {
	for _, a := range Allergens() {
		if a == name {
			return true
		}
	}
	return false
}
