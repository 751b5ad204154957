package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// describe says what is known of a food, a fact an item: what one weighs, how
// long it keeps, what it carries.
func describe(f *food.Food) (facts []string) {
	if s := sayPieces(f, fewParts); s != "" {
		facts = append(facts, s)
	}
	if s := sayKeeping(f); s != "" {
		facts = append(facts, s)
	}
	return append(facts, sayAllergens(f), sayDiet(f))
}

// fewParts is how many ways to count a food are named in the chat; what the
// kitchen has taught goes first.
const fewParts = 2

// sayPieces: "one is about 202 g (150 g to 270 g), a clove about 3.4 g".
func sayPieces(f *food.Food, most int) string {
	var list []string
	if f.PieceMg > 0 {
		one := "one"
		if f.Piece != "" {
			one = "a " + f.Piece
		}
		low, high := f.PieceSpread()
		list = append(list, fmt.Sprintf("%s is about %s (%s to %s)", one, measure.Say(f.PieceMg, measure.Gram), measure.Say(low, measure.Gram), measure.Say(high, measure.Gram)))
	}
	for _, p := range f.Parts[max(0, len(f.Parts)-most):] {
		list = append(list, "a "+p.Name+" about "+measure.Say(p.Mg, measure.Gram))
	}
	switch {
	case f.CupMg > 0:
		list = append(list, "a cup about "+measure.Say(f.CupMg, measure.Gram))
	case f.Density > 0 && f.Density != 1000:
		list = append(list, "a litre about "+measure.Say(measure.Amount(f.Density)*1000, measure.Gram))
	}
	return strings.Join(list, ", ")
}

// sayKeeping: "keeps about 11 days in the fridge (best-before), 300 days in the freezer".
func sayKeeping(f *food.Food) string {
	var list []string
	for _, p := range []struct {
		place string
		days  int
	}{{f.Keeps.Place, f.Keeps.Days}, {"cupboard", f.Keeps.Cup}, {"fridge", f.Keeps.Fridge}, {"freezer", f.Keeps.Freezer}} {
		where := sayDays(p.days) + " in the " + p.place
		if p.days > 0 && !slices.Contains(list, where) {
			list = append(list, where)
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "keeps about " + strings.Join(list, ", ") + " (" + f.Keeps.Date + ")"
}

func sayDays(n int) string {
	switch {
	case n == 1:
		return "1 day"
	case n < 60:
		return fmt.Sprintf("%d days", n)
	case n < 700:
		return fmt.Sprintf("%d months", (n+15)/30)
	}
	return fmt.Sprintf("%d years", (n+180)/365)
}

// sayAllergens: "holds milk; may hold eggs".
func sayAllergens(f *food.Food) string {
	var list []string
	if len(f.Allergen) > 0 {
		list = append(list, "holds "+both(f.Allergen, "and"))
	}
	if len(f.MayCarry) > 0 {
		list = append(list, "may hold "+both(f.MayCarry, "and"))
	}
	switch {
	case f.Unasked && len(list) > 0:
		return strings.Join(list, ", ") + ", and perhaps more: nobody has said"
	case f.Unasked:
		return "allergens unknown"
	case len(list) == 0:
		return "none of the 14 allergens by nature"
	}
	return strings.Join(list, ", ")
}

func sayDiet(f *food.Food) string {
	reasons := f.WhyNot
	if f.Meatless != "yes" && f.Vegan == "no" {
		reasons = slices.DeleteFunc(slices.Clone(reasons), forVegansOnly)
	}
	why := ""
	if len(reasons) > 0 {
		why = " (" + strings.Join(reasons, ", ") + ")"
	}
	switch {
	case f.Vegan == "yes":
		return "vegan"
	case f.Meatless == "yes" && f.Vegan == "no":
		return "vegetarian, not vegan" + why
	case f.Meatless == "yes":
		return "vegetarian; vegan: check label" + why
	case f.Meatless == "no":
		return "not vegetarian" + why
	case f.Vegan == "no":
		return "not vegan; vegetarian: check label" + why
	}
	return "vegetarian or vegan: check label" + why
}

// forVegansOnly says whether vegetarians eat it.
func forVegansOnly(reason string) bool {
	switch strings.TrimPrefix(reason, "may hold ") {
	case "milk", "egg", "honey":
		return true
	}
	return false
}

// sayFreezing: "keeps about 6 months in the freezer, for quality".
func sayFreezing(f *food.Food) string {
	switch {
	case f.Keeps.Freezer == 0 && f.Keeps.Days == 0:
		return "no figure for its keeping"
	case f.Keeps.Freezer == 0:
		return "no figure for the freezer, where it does not keep well as a rule; " + sayKeeping(f)
	}
	return "keeps about " + sayDays(f.Keeps.Freezer) + " in the freezer, for quality; freeze it before its date"
}

// sayTrim says what comes off a food and what becomes of it, the dinner first.
func sayTrim(f *food.Food) string {
	var list []string
	for _, e := range []food.Eaten{food.AsARule, food.TreatedWell, food.StockOnly, food.NotFood} {
		for _, t := range f.Trim {
			if t.Eaten == e {
				list = append(list, sayTrimming(t))
			}
		}
	}
	return strings.Join(list, "\n")
}

// sayTrimming: "dark greens, 40%: slice across, sweat 18 min".
func sayTrimming(t food.Trimming) string {
	s := fmt.Sprintf("%s, %g%%: ", t.Name, float64(t.Share)/10)
	if t.When != "" {
		s = fmt.Sprintf("%s (if %s), %g%%: ", t.Name, t.When, float64(t.Share)/10)
	}
	switch t.Eaten {
	case food.StockOnly:
		return s + "for stock: " + t.Use
	case food.NotFood:
		return s + "not food: " + t.Use
	}
	return s + t.Use
}

// sayEdible: "95% is food; the books count 56% as refuse (tops, root end and skin)".
func sayEdible(f *food.Food) string {
	if len(f.Trim) == 0 && f.Refuse == 0 {
		return ""
	}
	e := f.Edible()
	s := fmt.Sprintf("%g%% of the weight as bought is food", float64(e.Num*1000/e.Den)/10)
	if f.Refuse > 0 {
		s += fmt.Sprintf("; the books count %d%% as refuse (%s)", f.Refuse, f.Waste)
	}
	return s
}

// SayFood puts all that is known of a food in words, for a shell: a fact a
// line, with the sources at the end.
func SayFood(f *food.Food) string {
	lines := []string{title(f.Name)}
	add := func(head, text string) {
		if text != "" {
			lines = append(lines, head+": "+text)
		}
	}
	add("Also", strings.Join(append(slices.Clone(f.Names), f.General...), ", "))
	add("Kind", strings.Join(slices.Compact(append([]string{f.Group}, f.Kinds...)), ", "))
	add("Tastes", sayTaste(f.Taste))
	add("Weighs", sayPieces(f, len(f.Parts)))
	add("Keeps", strings.TrimPrefix(sayKeeping(f), "keeps "))
	add("Edible", sayEdible(f))
	if t := sayTrim(f); t != "" {
		add("Trim", "\n  "+strings.ReplaceAll(t, "\n", "\n  "))
	}
	add("Allergens", sayAllergens(f))
	add("Diets", sayDiet(f))
	if f.Kcal > 0 {
		add("Per 100 g edible", fmt.Sprintf("%g kcal, protein %g g, fat %g g, carbohydrate %g g with fibre %g g", f.Kcal, f.Protein, f.Fat, f.Carb, f.Fibre))
	}
	add("Sources", f.Source)
	for i, l := range lines {
		lines[i] = strings.ReplaceAll(l, ": \n", ":\n")
	}
	return strings.Join(append(lines, "A help, not a clearance: labels and your local food-safety rules go first."), "\n")
}

func sayTaste(t food.Taste) string {
	if len(t.Marks) == 0 {
		return ""
	}
	s := strings.Join(t.Marks, ", ")
	if t.Strength == 3 {
		s += ", strong"
	}
	if t.Raw != "not raw" {
		s += "; raw " + t.Raw
	} else {
		s += "; not eaten raw"
	}
	if t.Cooked != "as it is" {
		s += ", cooked " + t.Cooked
	}
	return s
}

// FindFood finds a food by what people call it; where it is not sure, it gives
// the nearest names instead.
func FindFood(all *food.Catalogue, name string) (*food.Food, []string) {
	var near []string
	for i, m := range all.Find(name) {
		if i == 0 && m.Score >= food.Sure {
			return all.Foods()[m.ID], nil
		}
		near = append(near, all.Foods()[m.ID].Name)
	}
	return nil, near[:min(len(near), mostOptions)]
}
