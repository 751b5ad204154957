package food

import (
	"strings"
	"testing"
)

func TestStorageTables(t *testing.T) {
	list, err := readGuides("storage.csv", storageCSV)
	if err != nil || len(list) < 60 {
		t.Fatalf("%d rows, %v", len(list), err)
	}
	if rules, err := readRules("temperatures.csv", temperaturesCSV); err != nil || len(rules) < 15 {
		t.Fatalf("%d rules, %v", len(rules), err)
	}
	head := "called,what,of,state,place,days,date,jurisdiction,caution,source\n"
	for row, want := range map[string]string{
		"soup,soup,nose,cooked,fridge,2,use-by,UK,,FSA":   "nose",
		"soup,soup,name,raw,fridge,2,use-by,UK,,FSA":      "raw",
		"soup,soup,name,frozen,fridge,2,use-by,UK,,FSA":   "frozen",
		"soup,soup,name,cooked,shelf,2,use-by,UK,,FSA":    "shelf",
		"soup,soup,name,cooked,fridge,0,use-by,UK,,FSA":   "days",
		"soup,soup,name,cooked,fridge,2.5,use-by,UK,,FSA": "whole",
		"soup,soup,name,cooked,fridge,2,sell-by,UK,,FSA":  "sell-by",
		"soup,soup,name,cooked,fridge,2,use-by,,,FSA":     "jurisdiction",
		"soup,soup,name,cooked,fridge,2,use-by,UK,,":      "source",
	} {
		if _, err := readGuides("t.csv", head+row+"\n"); err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "t.csv:2") {
			t.Errorf("%s: %v", row, err)
		}
	}
}

func TestGuidance(t *testing.T) {
	for _, c := range []struct {
		name, food   string
		state        State
		place        string
		jurisdiction string
		days         int
		date, by     string
	}{
		{"", "long-grain rice", Cooked, "", "UK", 1, "use-by", "UK FSA"},
		{"", "long-grain rice", Cooked, "", "US", 3, "use-by", "USDA FSIS"},
		{"", "long-grain rice", Cooked, "freezer", "UK", 30, "best-before", "UK FSA"},
		{"", "chicken breast", Cooked, "", "UK", 2, "use-by", "UK FSA"},
		{"", "chicken breast", Cooked, "", "US", 3, "use-by", "USDA FSIS"},
		{"", "chicken breast", Thawed, "", "US", 1, "use-by", "UK FSA"},
		{"", "double cream", Opened, "", "UK", 2, "use-by", "UK common practice, no source"},
		{"", "whole milk", Opened, "", "UK", 3, "use-by", "UK common practice, no source"},
		{"", "whole milk", Opened, "", "US", 7, "use-by", "US storage wall chart"},
		{"", "beef mince", Opened, "", "UK", 1, "use-by", "US foodsafety.gov chart"}, // no longer than closed
		{"", "cheddar", Opened, "", "UK", 21, "best-before", "US storage wall chart"},
		{"", "tinned tomato", Opened, "", "UK", 2, "use-by", "UK and US common practice, no source"},
		{"", "honey", Opened, "", "UK", 0, "best-before", "UK and US common practice, no source"},
		{"", "beef mince", Frozen, "", "UK", 90, "best-before", "US foodsafety.gov chart"},
		{"", "leek", Raw, "", "UK", 11, "best-before", "unofficial consumer storage list"},
		{"leek soup", "", MadeUp, "", "UK", 2, "use-by", "UK FSA"},
		{"leek soup", "", MadeUp, "", "US", 3, "use-by", "USDA FSIS"},
		{"chicken and rice soup", "", MadeUp, "", "UK", 1, "use-by", "UK FSA"}, // the shortest of what it is
		{"vegetable stock", "", MadeUp, "", "UK", 2, "use-by", "UK and US common practice, no source"},
		{"garlic oil", "", MadeUp, "", "UK", 7, "use-by", "Health Canada"},
		{"lemon pickle", "", MadeUp, "", "UK", 0, "use-by", "UK and US common practice, no source"},
		{"thing", "", MadeUp, "", "UK", 2, "use-by", "UK FSA"},
		{"thing", "", Opened, "", "UK", 0, "best-before", "UK and US common practice, no source"},
	} {
		var f *Food
		if c.food != "" {
			var ok bool
			if f, ok = Default().Food(c.food); !ok {
				t.Fatal(c.food)
			}
			if c.name == "" {
				c.name = f.Name
			}
		}
		g, ok := Guide(c.name, f, c.state, c.place, c.jurisdiction)
		if g.Days != c.days || ok != (c.days > 0) || g.Date != c.date || g.By() != c.by {
			t.Errorf("%s, %s, %s: %d days %s by %q, %v", c.name, c.state, c.jurisdiction, g.Days, g.Date, g.By(), ok)
		}
	}
}

// Every food has an answer once it is cooked, and once it is opened either a figure or
// a plain no; and what is opened keeps no longer than guidance of closed use-by food.
func TestEveryFoodHasGuidance(t *testing.T) {
	figures := map[string]int{}
	n := 0
	for _, f := range Default().Foods() {
		if f.Group == "prepared" { // by its label, and once it is cooked by its name
			continue
		}
		n++
		for _, j := range []string{"UK", "US"} {
			if g, ok := f.Guidance(Cooked, "", j); !ok || g.Date != "use-by" || g.Place != "fridge" || g.Days > 7 || g.Source == "" {
				t.Errorf("cooked %s in the %s: %+v", f.Name, j, g)
			}
			g, ok := f.Guidance(Opened, "", j)
			if g.What == "" || g.Source == "" {
				t.Errorf("opened %s in the %s has no answer", f.Name, j)
			}
			if ok {
				figures[j]++
			} else if f.Keeps.Date == "use-by" && f.Keeps.Place == "fridge" {
				t.Errorf("opened %s in the %s: no figure for food with a use-by", f.Name, j)
			}
		}
	}
	t.Logf("%d foods; opened, %d have a figure for the UK and %d for the US, the others go by the label", n, figures["UK"], figures["US"])
	if figures["UK"] != 264 || figures["US"] != 264 || n != 746 {
		t.Errorf("%d foods, figures %v", n, figures)
	}
}

func TestRules(t *testing.T) {
	rice, _ := Default().Food("long-grain rice")
	words := func(list []Rule) (s string) {
		for _, u := range list {
			s += u.Words + "; "
		}
		return s
	}
	for _, c := range []struct {
		topic, name string
		f           *Food
		j           string
		has, lacks  string
	}{
		{"cooling", "soup", nil, "UK", "within 1 to 2 hours", "57 C"},
		{"cooling", "soup", nil, "US", "to 5 C within 6 hours", "1 to 2 hours"},
		{"cooling", "rice", rice, "UK", "within 1 hour, then", "1 to 2 hours"},
		{"cooling", "rice", rice, "US", "57 C", "within 1 hour,"},
		{"reheating", "soup", nil, "UK", "82 C in Scotland", "74 C"},
		{"reheating", "rice", rice, "US", "74 C", "82 C"},
		{"thawing", "soup", nil, "UK", "24 hours", "21 C"},
	} {
		if got := words(Rules(c.topic, c.name, c.f, c.j)); !strings.Contains(got, c.has) || strings.Contains(got, c.lacks) {
			t.Errorf("%s %s, %s: %s", c.topic, c.name, c.j, got)
		}
	}
}
