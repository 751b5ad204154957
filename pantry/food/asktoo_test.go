package food

import "testing"

func TestAskToo(t *testing.T) {
	if _, err := readAskToo(); err != nil {
		t.Error(err)
	}
	nuts := []string{"tree nuts", "peanuts"}
	for name, asks := range map[string]bool{"chestnuts": true, "roast chestnut": true, "pine nuts": true, "water chestnut": false, "chestnut mushrooms": false, "walnut": false} {
		if got := AskToo(name, nuts); (got != "") != asks {
			t.Errorf("%s: %q", name, got)
		}
	}
	if got := AskToo("chestnut", []string{"milk"}); got != "" {
		t.Errorf("a milk allergy and chestnuts: %q", got)
	}
}

func TestFreeBy(t *testing.T) {
	for name, want := range map[string]int{"gf flour": 1, "gluten free bread": 1, "flour": 0, "nut free pesto": 2} {
		if got := FreeBy(name); len(got) != want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
