package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestHoldTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index(), Cooks: []string{"ana", "dee"}}
	for text, want := range map[string]struct {
		about About
		food  string
		need  string
	}{
		"what allergens are in the fish pie?":    {AboutAllergens, "fish pie", ""},
		"any allergens in the curry":             {AboutAllergens, "curry", ""},
		"what allergens are in it?":              {AboutItsAllergens, "", ""},
		"does it contain milk?":                  {AboutItHas, "", "milk"},
		"is it gluten-free?":                     {AboutItHas, "", "gluten cereals"},
		"does the crumble have milk?":            {AboutHas, "crumble", "milk"},
		"any nuts in the brownie?":               {AboutHas, "brownie", "tree nuts+peanuts"},
		"has the soup got celery in it?":         {AboutHas, "soup", "celery"},
		"is the leek tart dairy free?":           {AboutHas, "leek tart", "milk"},
		"is there banana in the smoothie":        {AboutHas, "smoothie", ""},
		"which dishes have milk?":                {AboutWhichHas, "", "milk"},
		"which dishes are gluten free?":          {AboutWhichHas, "", "gluten cereals"},
		"what can the coeliacs eat?":             {AboutWhichHas, "", "gluten cereals"},
		"can dee eat the curry?":                 {AboutEats, "curry", ""},
		"is the curry ok for coeliacs?":          {AboutEats, "curry", "gluten cereals"},
		"can table 4 have the pie?":              {AboutEats, "pie", ""},
		"is it vegan?":                           {AboutItEats, "", ""},
		"there's mustard in the satay too":       {AboutSaidIn, "satay", "mustard"},
		"satay has peanuts in it":                {AboutSaidIn, "satay", "peanuts"},
		"the curry has fish sauce in it":         {AboutSaidIn, "curry", ""},
		"it has sesame in it":                    {AboutItsSaidIn, "", "sesame"},
		"there's no nuts in the pesto after all": {AboutUnsaidIn, "pesto", "tree nuts+peanuts"},
		"the gravy is thickened with flour":      {AboutSaidIn, "gravy", ""},
		"do we have milk?":                       {},
		"is the oven free?":                      {},
		"can i have the pie":                     {},
		"there are 2 eggs in the fridge":         {},
		"have we got any milk":                   {},
		"satay has peanuts":                      {},
		"what's in the fridge?":                  {},
		"is dee free tonight?":                   {},
	} {
		q, _ := r.HoldTalk(text)
		if q == nil {
			q = &Question{}
		}
		need := ""
		if len(q.Needs) > 0 {
			need = q.Needs[0].Allergy
		}
		if q.About != want.about || q.Food != want.food || need != want.need {
			t.Errorf("%q: %s of %q, %q; want %+v", text, q.About, q.Food, need, want)
		}
	}
}
