package food

import (
	"slices"
	"testing"
)

func TestSetApart(t *testing.T) {
	if _, err := readMarks(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		a, b          string
		dishes, stock bool // are the same
	}{
		{"nut free brownies", "brownies", false, false},
		{"gf soy sauce", "soy sauce", false, false},
		{"gf soy sauce", "gluten free soy sauce", true, true},
		{"plant butter", "butter", false, false},
		{"vegan mash", "mash", false, false},
		{"plain curry", "curry", false, true},
		{"plain flour", "flour", false, true},
		{"pureed carrot", "carrot", false, true},
		{"minced and moist pie", "pureed pie", false, true},
		{"apple puree", "apple sauce", true, true},
		{"cottage pie", "steak pie", true, true},
		{"free range egg", "egg", true, true},
	} {
		if got := slices.Equal(SetApart(c.a), SetApart(c.b)); got != c.dishes {
			t.Errorf("dishes %q and %q the same: %v", c.a, c.b, got)
		}
		if got := slices.Equal(ApartInStock(c.a), ApartInStock(c.b)); got != c.stock {
			t.Errorf("in stock %q and %q the same: %v", c.a, c.b, got)
		}
	}
}
