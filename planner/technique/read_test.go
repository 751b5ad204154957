package technique

import (
	"slices"
	"strings"
	"testing"
)

// good is a row that Read takes; the cases below spoil one field of it.
var good = map[string]string{
	"id": "char", "name": "charred", "family": "pan", "suits": "leek!;cabbage", "never": "spinach;potato=raw starch",
	"role": "star", "heat": "through", "portion": "90-180", "cut": "wedges",
	"steps": "cut|0.5+0.4|0|hands|;char|3+1.2|4|ring|", "after": "", "main": "2", "times": "leek 6",
	"reference": "", "staples": "olive oil/oil 4 ml", "yield": "0.8", "holds": "warm 20 min",
	"saves": "dark greens;outer leaf", "caution": "smoke", "title": "charred {food} wedges", "how": "Char the {foods} {min} min.", "source": "common practice, no source",
}

func table(rows ...map[string]string) string { return written(header, rows...) }

func with(changes ...string) map[string]string { return changed(good, changes...) }

func TestReadTakesAGoodRow(t *testing.T) {
	list, err := Read("t.csv", strings.NewReader(table(good)))
	if err != nil || len(list) != 1 {
		t.Fatalf("got %d rows, %v", len(list), err)
	}
	x := list[0]
	if x.Main != 1 || x.Heat != Through || x.Min != 90 || x.Max != 180 || !x.Suits[0].Best || x.Suits[1].Best {
		t.Errorf("main %d heat %v portion %g-%g suits %v", x.Main, x.Heat, x.Min, x.Max, x.Suits)
	}
	if x.Never[1].Reason != "raw starch" || x.Staples[0].Amount != 4000 || !slices.Equal(x.Staples[0].Names, []string{"olive oil", "oil"}) {
		t.Errorf("never %v staples %v", x.Never, x.Staples)
	}
	if !slices.Equal(x.Saves, []string{"dark greens", "outer leaf"}) || len(x.Caution) != 1 || x.Caution[0].Says != "smoke" {
		t.Errorf("saves %q caution %q", x.Saves, x.Caution)
	}
	if s := x.Steps[1]; s.Fixed != 3 || s.Per100 != 1.2 || s.Unattended != 4 || !slices.Equal(s.After, []int{0}) {
		t.Errorf("step %+v", s)
	}
}

func TestReadRefuses(t *testing.T) {
	oven := "heat oven|0.2+0|12|oven|200;roast|1+0|30|oven|200"
	for name, c := range map[string]struct {
		row  map[string]string
		says string
	}{
		"no id":                {with("id", ""), "id: is empty"},
		"unknown family":       {with("family", "smoke"), "family"},
		"no suits":             {with("suits", ""), "suits: is empty"},
		"empty item":           {with("suits", "leek;;carrot"), "empty item"},
		"unknown role":         {with("role", "hero"), "role"},
		"unknown heat":         {with("heat", "hot"), "heat"},
		"portion backwards":    {with("portion", "180-90"), "portion"},
		"portion without end":  {with("portion", "90"), "portion"},
		"no steps":             {with("steps", ""), "steps: is empty"},
		"step short":           {with("steps", "cut|1+1|0|hands"), "is not what|hands|unattended|kit|temp"},
		"hands without plus":   {with("steps", "cut|1|0|ring|"), "fixed+per 100 g"},
		"negative minutes":     {with("steps", "cut|1+1|-2|ring|;fry|1+1|0|ring|"), "not a number"},
		"unknown kit":          {with("steps", "cut|1+1|0|wok|;fry|1+1|0|ring|"), "no kit"},
		"cold oven":            {with("steps", "cut|1+1|0|hands|;roast|1+1|20|oven|200"), "heats it"},
		"oven, no heat given":  {with("steps", "heat oven|0+0|12|oven|200;roast|1+0|30|oven|"), "temperature"},
		"oven hot in a wink":   {with("steps", "heat oven|0+0|1|oven|200;roast|1+0|30|oven|200"), "heats it"},
		"after short":          {with("steps", oven, "after", "-"), "1 entries for 2 steps"},
		"after itself":         {with("steps", oven, "after", "-;2"), "before step 2"},
		"main too high":        {with("main", "3"), "main"},
		"times without main":   {with("main", "", "heat", "warm", "how", "x"), "main step"},
		"cooks without main":   {with("main", "", "times", "", "how", "x"), "what cooks"},
		"time of no food":      {with("times", "6"), "food and minutes"},
		"boil without water":   {with("heat", "boil"), "98 C"},
		"through without heat": {with("steps", "cut|1+1|0|hands|;stir|1+1|0|bench|"), "no step is on a ring"},
		"staple without unit":  {with("staples", "oil 4"), "staples"},
		"staple in cups":       {with("staples", "oil 4 cup"), "cup"},
		"no yield":             {with("yield", ""), "yield"},
		"title without food":   {with("title", "charred wedges"), "{food}"},
		"no how":               {with("how", ""), "how"},
		"saves nothing named":  {with("saves", "stalk;"), "saves"},
		"no source":            {with("source", ""), "source: is empty"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read("own.csv", strings.NewReader(table(with("id", "first", "title", "first {food}"), c.row)))
			if err == nil {
				t.Fatal("taken")
			}
			if !strings.HasPrefix(err.Error(), "own.csv:3: ") || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q does not say file, line and %q", err, c.says)
			}
		})
	}
}

func TestReadRefusesTables(t *testing.T) {
	for name, text := range map[string]string{
		"empty":          "",
		"unknown column": strings.Replace(table(good), "cut,", "size,", 1),
		"short row":      table() + "a,b,c\n",
		"same id":        table(good, with("title", "other {food}")),
		"same title":     table(good, with("id", "other")),
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := Read("own.csv", strings.NewReader(text)); err == nil || !strings.HasPrefix(err.Error(), "own.csv") {
				t.Errorf("got %v", err)
			}
		})
	}
}

func TestReadRulesRefuses(t *testing.T) {
	head := strings.Join(ruleHeader, ",") + "\n"
	for name, text := range map[string]string{
		"no food":           head + ",,through,,x,s\n",
		"unknown need":      head + "pork,,well done,,x,s\n",
		"no source":         head + "pork,,through,,x,\n",
		"minutes, no boil":  head + "bean,,through,10,x,s\n",
		"minutes too short": head + "bean,,boil,0,x,s\n",
		"other columns":     "what,need\n",
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := readRules("r.csv", text); err == nil {
				t.Error("taken")
			}
		})
	}
}
