package language

import "testing"

func TestThatDish(t *testing.T) {
	for text, want := range map[string]bool{
		"put 200g walnuts in it": true, "also put almonds in it!": true, "threw 100g walnuts in.": true, "used 60g flour to thicken it": true, "used 60g flour to fry it": false, "used 20g flour in there": true,
		"used 200g walnuts in the korma": false, "put 1kg beef in the fridge": false, "got 2kg leeks in": false, "italians use 20g": false,
	} {
		if got := SaysIntoIt(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
	for text, want := range map[string]string{
		"sorry the walnuts went in the korma not the salad": "salad", "that was for the soup, not for the fish pie.": "fish pie",
		"used 200g walnuts in the korma": "", "not the salad": "", "is it not": "",
	} {
		if got := NotInto(text); got != want {
			t.Errorf("%q: %q", text, got)
		}
	}
}
