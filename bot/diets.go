package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// mayEat says of several dishes what a diet of diets.csv has against them: "not dish 1 (pork
// belly); ask about dish 2 (beef mince). Check every label." A texture is told and never checked.
func (t *turn) mayEat(diet string, items [][]string, from int, prefix string) string {
	switch {
	case language.IsTexture(diet):
		return "told here and never checked; test the texture before it goes out."
	case !food.KnowsDiet(diet):
		return "no table here knows; ask, and check labels."
	}
	var not, ask []string
	for n, list := range items {
		var no, may []string
		for _, name := range list {
			switch t.fitOf(diet, name) {
			case food.NotFit:
				no = appendOnce(no, name)
			case food.AskFit:
				may = appendOnce(may, name)
			}
		}
		number := fmt.Sprint(prefix, n+1+from)
		if pair := t.apartIn(diet, list); len(no) == 0 && pair != "" {
			no = []string{pair + " in one dish"}
		}
		switch {
		case len(no) > 0:
			not = append(not, number+" ("+both(no, "and")+")")
		case len(may) > 0:
			ask = append(ask, number+" ("+both(may[:min(len(may), mostChecked)], "and")+")")
		}
	}
	var says []string
	if len(not) > 0 {
		says = append(says, "not "+both(not, "or"))
	}
	if len(ask) > 0 {
		says = append(says, "ask first about "+both(ask, "and"))
	}
	if len(says) == 0 {
		return "nothing known against these, which is no clearance. Ask, and check every label."
	}
	return strings.Join(says, "; ") + ". Ask the supplier, and check every label."
}

// fitOf says what something of that name, a line or a food, is to a diet of diets.csv. What cannot be
// read is to be asked about.
func (t *turn) fitOf(diet, name string) string {
	if l := t.k.Named(name); l != nil {
		fit, _, _, err := t.byDiet(diet, l)
		if err != nil {
			return food.AskFit
		}
		return fit
	}
	f, _ := t.ear.all.Food(name)
	fit, _ := food.ByDiet(diet, f, name)
	return fit
}

// apartIn names two foods of one dish that a diet keeps apart: "beef mince and butter"; "" none.
func (t *turn) apartIn(diet string, names []string) string {
	first := map[string]string{}
	for _, name := range names {
		f, _ := t.ear.all.Food(name)
		if l := t.k.Named(name); l != nil {
			f = t.ear.foodOf(l)
		}
		is, from := food.Apart(diet, f)
		if is == "" {
			continue
		}
		if other := first[from]; other != "" {
			return other + " and " + name
		}
		first[is] = name
	}
	return ""
}

// byDiet says what a line is to a diet of diets.csv, by its food and by what it was made of. By is
// which of them.
func (t *turn) byDiet(diet string, l *pantry.Line) (fit, by, why string, err error) {
	c, err := t.contentsOf(l)
	if err != nil {
		return "", "", "", err
	}
	look := func(f *food.Food, name string) {
		if got, because := food.ByDiet(diet, f, name); got == food.NotFit || fit == "" && got != "" {
			if fit != food.NotFit {
				fit, by, why = got, name, because
			}
		}
	}
	if f := t.ear.foodOf(l); f != nil {
		look(f, l.Name)
	}
	for _, f := range c.foods {
		if own := t.ear.foodOf(l); own == nil || f != own {
			look(f, f.Name)
		}
	}
	for _, name := range c.names {
		look(nil, name)
	}
	return fit, by, why, nil
}

// notByTable tells what diets of diets.csv have against what went into a dish, where that is news
// of the dish: "Not halal (table 9): pork belly."
func (t *turn) notByTable(e Entry, l *pantry.Line, written []Entry) (lines []string, err error) {
	diets, of := t.dietsTold(language.Limits{})
	for _, diet := range diets {
		if !food.KnowsDiet(diet) {
			continue
		}
		fit, by, why, err := t.byDiet(diet, l)
		if err != nil {
			return nil, err
		}
		who := ""
		if of[diet] != "" {
			who = " (" + of[diet] + ")"
		}
		what := l.Name
		if by != "" && by != l.Name {
			what += ", made of " + by
		}
		switch fit {
		case food.NotFit:
			lines = append(lines, fmt.Sprintf("%s%s: %s.", against(diet), who, what))
		case food.AskFit:
			lines = append(lines, fmt.Sprintf("%s%s: %s (%s). Ask the supplier, check the label.", mayBeAgainst(diet), who, what, why))
		}
		if e.Dish == "" {
			continue
		}
		in, err := t.intoDish(e.Dish)
		if err != nil {
			return nil, err
		}
		names := []string{l.Name}
		for _, x := range in {
			if o := t.k.Line(x.Line); o != nil {
				names = appendOnce(names, o.Name)
			}
		}
		for _, x := range written {
			if x.Dish == e.Dish {
				names = appendOnce(names, x.Item)
			}
		}
		if pair := t.apartIn(diet, names); pair != "" && strings.Contains(pair, l.Name) {
			lines = append(lines, fmt.Sprintf("%s%s: %s in one dish, the %s.", against(diet), who, pair, e.Dish))
		}
	}
	return lines, nil
}

// against: "Not halal", but of "no pork" that itself.
func against(diet string) string {
	if strings.HasPrefix(diet, "no ") {
		return title(diet)
	}
	return "Not " + diet
}

func mayBeAgainst(diet string) string {
	if strings.HasPrefix(diet, "no ") {
		return title(diet) + ", to be asked about"
	}
	return "May not be " + diet
}

// sayDiets tells how diets that were just said are watched.
func sayDiets(keep []pantry.Need) (lines []string) {
	var watched, unknown, textures []string
	for _, n := range keep {
		switch {
		case n.Kind != pantry.NeedDiet || slices.Contains([]string{"vegan", "vegetarian"}, n.What):
		case language.IsTexture(n.What):
			textures = appendOnce(textures, n.What)
		case food.KnowsDiet(n.What):
			watched = appendOnce(watched, n.What)
		default:
			unknown = appendOnce(unknown, n.What)
		}
	}
	if len(watched) > 0 {
		lines = append(lines, title(both(watched, "and"))+": what is plainly against that, or may be, is told as it goes in. That is no clearance: ask the supplier, and read every label.")
	}
	if len(unknown) > 0 {
		lines = append(lines, title(both(unknown, "and"))+": no table here knows that, so nothing is checked. Ask, and read every label.")
	}
	if len(textures) > 0 {
		lines = append(lines, "Textures are told with dishes and sheets, and never checked here: test each before it goes out.")
	}
	return lines
}

// dietsOf leaves of needs the diets that diets.csv knows.
func dietsOf(list []pantry.Need) (diets []pantry.Need) {
	for _, n := range list {
		if n.Kind == pantry.NeedDiet && food.KnowsDiet(n.What) {
			diets = append(diets, n)
		}
	}
	return diets
}

// textures are those that guests of an account's service asked for: "9 pureed (IDDSI level 4)".
func (x *Records) textures(w *Wrap) (list []string) {
	k, at := *x.Kitchen, time.Time{}
	k.Needs = slices.DeleteFunc(slices.Clone(k.Needs), func(n pantry.Need) bool {
		p := w.period
		return !p.Until.IsZero() && !n.At.Before(p.Until) || n.At.Before(p.Since) && !n.Stays && n.Day < pantry.DateOf(p.Since)
	})
	for _, n := range k.Needs {
		if n.At.After(at) {
			at = n.At
		}
	}
	for _, n := range NeedsAt(&k, at) {
		if n.Kind == pantry.NeedDiet && language.IsTexture(n.What) {
			list = append(list, sayNeed(n))
		}
	}
	return list
}
