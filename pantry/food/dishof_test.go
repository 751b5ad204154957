package food

import "testing"

func TestDishOf(t *testing.T) {
	if _, err := readDishOf(); err != nil {
		t.Error(err)
	}
	for _, name := range []string{"lasagne", "Lasagna", "dhal", "chilli"} {
		if !IsDishOf(name) {
			t.Errorf("%s is a dish as well", name)
		}
	}
	for _, name := range []string{"lasagne sheets", "red chilli", "spaghetti", "rice", "leek", "red lentils"} {
		if IsDishOf(name) {
			t.Errorf("%s is no dish", name)
		}
	}
	// A dish of that name is not what the food alone is: common practice, no source.
	if f := Named("lasagne"); len(f.Allergen) < 2 {
		t.Errorf("lasagne holds %v by its name", f.Allergen)
	}
}
