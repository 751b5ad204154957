package bot

import "testing"

// TestWithFahrenheit: 41, 135, 165, 160, 70 and 145 F are the FDA Food Code's own figures beside 5, 57, 74, 71, 21 and 63 C.
func TestWithFahrenheit(t *testing.T) {
	for _, c := range [][2]string{
		{"between 5 and 57 C it must not stay", "between 41 and 135 F (5 and 57 C) it must not stay"},
		{"heat it to 74 C. Kept at 57 C or more", "heat it to 165 F (74 C). Kept at 135 F (57 C) or more"},
		{"71 C (minced), 63 C, 21 C", "160 F (71 C) (minced), 145 F (63 C), 70 F (21 C)"},
		{"from 57 C to 21 C", "from 135 F (57 C) to 70 F (21 C)"},
		{"Chili at 80 F (27 C): hot", "Chili at 80 F (27 C): hot"},
		{"the mark is -18 C, 0 C", "the mark is 0 F (-18 C), 32 F (0 C)"},
		{"oven 180 C, then 200 C, 220 C, 160 C", "oven 350 F (180 C), then 400 F (200 C), 425 F (220 C), 325 F (160 C)"},
		{`Kim said: "fridge at 10 C". Above 5 C`, `Kim said: "fridge at 10 C". Above 41 F (5 C)`},
		{"stew at 40c, 2 kg, class 8C", "stew at 40c, 2 kg, class 8C"},
	} {
		if got := withFahrenheit(c[0], ""); got != c[1] {
			t.Errorf("%q: %q, not %q", c[0], got, c[1])
		}
	}
}
