package language

import "testing"

func TestMendNeeds(t *testing.T) {
	for text, want := range map[string]string{
		"t6 milk allegry":               "t6 milk allergy",
		"t22 nut allegy":                "t22 nut allergy",
		"t19 allegric to eggs":          "t19 allergic to eggs",
		"t29 glutenfree":                "t29 gluten free",
		"t25 siliac":                    "t25 coeliac",
		"t7 vegatarien":                 "t7 vegetarian",
		"bed 2 anaphalaxis to nuts":     "bed 2 anaphylaxis to nuts",
		"t34 = vegan":                   "t34: vegan",
		"any allergens in the soup?":    "any allergens in the soup?",
		"2kg celeriac in the soup":      "2kg celeriac in the soup",
		"got 3kg vegetables for t4":     "got 3kg vegetables for t4",
		"an allegory of an intolerable": "an allegory of an intolerable",
		"he has celiac disease":         "he has celiac",
	} {
		if got := MendNeeds(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestLooseNeed reads needs with words before and behind them that add nothing, or that are not read.
func TestLooseNeed(t *testing.T) {
	const nuts = "tree nuts+peanuts"
	r := tableReader()
	for _, c := range []struct{ text, want, left string }{
		{"joe is allergic to nuts for good", "guest joe: " + nuts + " (nut allergy)", ""},
		{"mikes allergic to sesame too", "guest mike: sesame (sesame allergy)", ""},
		{"regular guy mike is allergic to peanuts and soy", "guest mike: peanuts+soybeans (peanut and soy allergy)", ""},
		{"amir: halal, no nuts", "guest amir: halal (halal)guest amir: " + nuts + " (no nuts)", ""},
		{"heads up t12 nuts", "numbered 12: " + nuts + " (nut allergy)", ""},
		{"lactose t31", "numbered 31: milk (lactose allergy)", ""},
		{"late: table 3 egg allergy", "numbered 3: eggs (egg allergy)", ""},
		{"bed 3 always dairy free", "numbered bed 3: milk (no dairy)", ""},
		{"room 12 milk allergy for good", "numbered room 12: milk (milk allergy)", ""},
		{"3 gf tonight", "needs: 3 gluten cereals (no gluten)", ""},
		{"we need 3 nut free meals", "needs: 3 " + nuts + " (no nut)", ""},
		{"8pm booking of 6, one sesame allergy", "of 6: 1 sesame (sesame allergy)", ""},
		{"t7 fish allergy but shellfish ok", "numbered 7: fish (fish allergy)", "but shellfish ok"},
		{"t9 no nuts except almonds", "numbered 9: " + nuts + " (no nuts)", "except almonds"},
		{"used 200g rice for table 3 egg allergy", "", ""},
		{"2kg gluten free flour please", "", ""},
		{"t4 chips gluten free", "", ""},
		{"can t4 have a nut allergy menu?", "", ""},
	} {
		plain, left, ok := r.LooseNeed(c.text)
		got := ""
		if ok {
			list, _ := r.Table(plain)
			for _, x := range list {
				got += x.line()
			}
		}
		if got != c.want || left != c.left {
			t.Errorf("%q: %q, left %q; want %q, %q", c.text, got, left, c.want, c.left)
		}
	}
}
