package technique

import (
	"slices"
	"testing"

	"scullion/pantry/food"
)

// gets gives the heat and the longest time at the boil that a role gets, read off
// the steps and not off what the table says of the role.
func gets(f *Frame, role int) (heat Heat, boil float64) {
	for i, s := range f.Steps {
		if !slices.Contains(f.Cooks[i], role) {
			continue
		}
		switch {
		case s.Kit == "ring" && s.Temp >= 98:
			heat, boil = Boil, max(boil, s.Unattended)
		case s.Kit == "ring" || s.Kit == "oven" || s.Kit == "grill" || s.Kit == "microwave":
			heat = max(heat, Through)
		}
	}
	return heat, boil
}

// eachFit calls do with every frame, role and food, raw or cooked, that fit.
func eachFit(do func(f *Frame, role int, x *food.Food, s Subject)) {
	for _, x := range food.Default().Foods() {
		for _, cooked := range []bool{false, true} {
			s := Of(x, cooked)
			for i := range Frames() {
				f := &Frames()[i]
				for role := range f.Roles {
					if _, _, ok := f.Fits(role, s); ok {
						do(f, role, x, s)
					}
				}
			}
		}
	}
}

func TestFramesMeetTheNeed(t *testing.T) {
	met := make([]int, len(mustCook))
	eachFit(func(f *Frame, role int, x *food.Food, s Subject) {
		r := f.Roles[role]
		heat, boil := gets(f, role)
		if r.Heat > heat || r.Boil > boil {
			t.Errorf("%s: %s is said to get %v, the steps give %v", f.ID, r.Name, r.Heat, heat)
		}
		needHeat, needBoil, _ := Need(s)
		if heat < needHeat || boil < needBoil {
			t.Errorf("%s: %s as %s gets %v and %g minutes at the boil, it needs %v and %g", f.ID, x.Name, r.Name, heat, boil, needHeat, needBoil)
		}
		if s.Name == "" && r.Heat < Through {
			t.Errorf("%s: cooked %s as %s is not heated through", f.ID, x.Name, r.Name)
		}
		for i, rule := range mustCook { // by name, whatever safety.csv says
			if s.Name == "" || !hasAny(x.Name, rule.words) || hasAny(x.Name, rule.not) {
				continue
			}
			met[i]++
			if r.Heat < rule.heat || boil < rule.boil {
				t.Errorf("%s: %s as %s gets %v and %g minutes at the boil", f.ID, x.Name, r.Name, r.Heat, boil)
			}
		}
	})
	for i, n := range met {
		if n == 0 {
			t.Logf("no frame takes any of %q", mustCook[i].words)
		}
	}
}

// What no frame may take raw, or at all, by what it is.
func TestFramesNeverOfferRaw(t *testing.T) {
	raw := []string{"poultry", "mince", "sausage", "offal", "starchy root", "white fish", "shellfish", "mushroom", "rice", "pasta", "flour", "dried pulse"}
	names := "pork gammon bacon pancetta kidney aubergine cassava frozen"
	nowhere := []string{
		"whole chicken", "whole duck", "turkey", "oxtail", "salt cod", "cassava", "taro", "mussel", "clam", "oyster",
		"dried kidney bean", "dried cannellini bean", "dried black bean", "dried haricot bean", "dried chickpea", "soya bean", "dried broad bean",
	}
	readyToEat := []string{"crab meat"} // sold cooked
	n := 0
	eachFit(func(f *Frame, role int, x *food.Food, s Subject) {
		r := f.Roles[role]
		if s.Name == "" {
			return
		}
		for _, k := range raw {
			if slices.Contains(x.Kinds, k) && r.Heat < Through && !slices.Contains(readyToEat, x.Name) {
				t.Errorf("%s offers %s raw as %s", f.ID, x.Name, r.Name)
			}
		}
		if hasAny(x.Name, names) && !hasAny(x.Name, "tinned") && r.Heat < Through {
			t.Errorf("%s offers %s raw as %s", f.ID, x.Name, r.Name)
		}
		if x.Name == "French bean" || x.Name == "runner bean" || x.Name == "broad bean" {
			n++
			if _, boil := gets(f, role); boil < 10 {
				t.Errorf("%s: %s as %s boils %g minutes", f.ID, x.Name, r.Name, boil)
			}
		}
		if slices.Contains(nowhere, x.Name) {
			t.Errorf("%s takes %s as %s", f.ID, x.Name, r.Name)
		}
	})
	if n == 0 {
		t.Error("no frame takes beans: the test tests nothing")
	}
}

// A cut that needs hours gets them.
func TestFramesBraiseStewingCuts(t *testing.T) {
	n := 0
	eachFit(func(f *Frame, role int, x *food.Food, s Subject) {
		if s.Name == "" || !slices.Contains(x.Kinds, "stewing cut") {
			return
		}
		n++
		if !slices.ContainsFunc(f.Steps, func(s Step) bool { return s.Unattended >= 90 && s.Kit == "oven" }) {
			t.Errorf("%s: %s as %s", f.ID, x.Name, f.Roles[role].Name)
		}
	})
	if n == 0 {
		t.Error("no frame takes a stewing cut: the test tests nothing")
	}
}

// A frame that a cook adds cannot get round the rules, whatever it says.
func TestRulesHoldOverAFrameOfOnesOwn(t *testing.T) {
	list, err := ReadFrames("own.csv", frameTable(frameWith(
		"roles", "base:1:100-200:none;star:1:50-100:boil", "cooks", "-;star",
		"suits", "base=chicken breast!/pork fillet!/dried kidney bean!/French bean!/potato!/salmon!/beef mince!/cucumber;star=French bean!/dried kidney bean!",
	)))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range list[0].Roles[0].Suits {
		x, ok := food.Default().Food(s.What)
		if !ok {
			t.Fatalf("no food %q", s.What)
		}
		if _, _, ok := list[0].Fits(0, Of(x, false)); ok != (x.Name == "cucumber") {
			t.Errorf("%s raw: %v", x.Name, ok)
		}
	}
	for name, want := range map[string]bool{"French bean": true, "dried kidney bean": false} {
		x, _ := food.Default().Food(name)
		if _, _, ok := list[0].Fits(1, Of(x, false)); ok != want {
			t.Errorf("%s boiled 12 minutes: %v", name, ok)
		}
	}
}
