package paper

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// The terms below are of the schema.org vocabulary: Recipe and what it is made of. A test holds
// every one against the vocabulary as published.

type ldRecipe struct {
	Context      string       `json:"@context"`
	Type         string       `json:"@type"`
	Name         string       `json:"name"`
	Description  string       `json:"description"`
	Published    string       `json:"datePublished,omitempty"`
	Author       []ldThing    `json:"author,omitempty"`
	Yield        any          `json:"recipeYield,omitempty"` // text, or a list of it
	TotalTime    string       `json:"totalTime,omitempty"`
	Cost         string       `json:"estimatedCost,omitempty"`
	Ingredients  []string     `json:"recipeIngredient"`
	Supply       []ldSupply   `json:"supply"`
	Instructions []ldStep     `json:"recipeInstructions,omitempty"`
	Nutrition    *ldNutrition `json:"nutrition,omitempty"`
	Diets        []string     `json:"suitableForDiet,omitempty"`
}

type ldThing struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

// ldSupply is the exact amount as purchased.
type ldSupply struct {
	ldThing
	Quantity ldQuantity `json:"requiredQuantity"`
}

type ldQuantity struct {
	Type  string  `json:"@type"`
	Value float64 `json:"value"`
	Code  string  `json:"unitCode"` // UN/CEFACT Recommendation 20
}

type ldStep struct {
	Type     string `json:"@type"`
	Position int    `json:"position"`
	Text     string `json:"text"`
}

type ldNutrition struct {
	Type        string `json:"@type"`
	Description string `json:"description"`
	Serving     string `json:"servingSize"`
	Calories    string `json:"calories"`
	Protein     string `json:"proteinContent"`
	Fat         string `json:"fatContent"`
	Carb        string `json:"carbohydrateContent"`
	Fibre       string `json:"fiberContent"`
}

// unitCodes are the codes of UN/CEFACT Recommendation 20 for what a line counts in.
var unitCodes = map[measure.Kind]string{measure.Gram: "GRM", measure.Millilitre: "MLT"}

// JSONLD prints a sheet as a schema.org Recipe in JSON-LD. The vocabulary has no word for
// allergens: they stand in the description, with what is unknown and the caution. A diet is only
// there where the answer is a plain yes.
func JSONLD(s *account.Sheet, o Options) string {
	v := see(s, o)
	s = v.sheet
	r := ldRecipe{Context: "https://schema.org", Type: "Recipe", Name: v.Title, Description: v.describe(),
		TotalTime: duration(totalTime(s)), Ingredients: []string{}, Supply: []ldSupply{}}
	if s.Portions > 0 {
		r.Yield = portions(s.Portions)
		if s.Covers > 0 {
			r.Yield = num(s.Portions) + " covers, portions not told"
		}
	}
	if s.Yield > 0 {
		came := measure.Say(s.Yield, s.YieldUnit) + " cooked"
		if r.Yield == nil {
			r.Yield = came
		} else {
			r.Yield = []any{r.Yield, came}
		}
	}
	if !s.Cooked.IsZero() {
		r.Published = s.Cooked.In(place(o)).Format(time.DateOnly)
	}
	for _, c := range s.Cooks {
		shown := plain(o.Names[c])
		if shown == "" {
			shown = name(c)
		}
		r.Author = append(r.Author, ldThing{"Person", shown})
	}
	if s.Cost > 0 || len(s.Apart) > 0 {
		r.Cost = prices(s, o, 1)
		if len(s.Unpriced) > 0 {
			r.Cost = "at least " + r.Cost
		}
	}
	for i := range s.Parts {
		p := &s.Parts[i]
		text := measure.Say(p.AP, p.Unit) + " " + name(p.Item)
		if v.Parts[i].Count != "" {
			text += " (" + v.Parts[i].Count + ")"
		}
		r.Ingredients = append(r.Ingredients, text)
		r.Supply = append(r.Supply, ldSupply{ldThing{"HowToSupply", name(p.Item)}, ldQuantity{"QuantitativeValue", p.AP.Units(), unitCodes[p.Unit]}})
	}
	for i, x := range v.Steps {
		r.Instructions = append(r.Instructions, ldStep{"HowToStep", i + 1, x.Do + mark(x.Planned)})
	}
	r.Nutrition = v.nutrition()
	r.Diets = diets(s)
	text, _ := json.MarshalIndent(r, "", "  ") // strings and finite numbers: no error
	return string(text) + "\n"
}

// describe gathers what the vocabulary has no property for.
func (v *view) describe() string {
	say := []string{v.Made}
	if v.sheet.Covers > 0 {
		say = append(say, v.For)
	}
	for _, l := range v.Lists {
		say = append(say, "Allergens, "+l.Law+": "+l.Held()+".")
		if len(l.May) > 0 {
			say = append(say, "Such food often carries, "+l.Law+": "+l.Often()+".")
		}
		if l.Note != "" {
			say = append(say, l.Note)
		}
	}
	for _, x := range []string{v.Unknown, caution, v.Planned, v.StepNote} {
		if x != "" {
			say = append(say, x)
		}
	}
	say = append(say, v.Notes...)
	return strings.Join(slices.Concat(say, v.Diets, v.Keeping), " ")
}

// nutrition is a portion's, or the whole dish's where nobody said the portions. Mass and Energy
// are "<number> <unit>".
func (v *view) nutrition() *ldNutrition {
	e, n := v.sheet.Energy, 1.0
	if e.Share <= 0 {
		return nil
	}
	serving := "the whole dish, "
	if v.Portions > 0 {
		serving, n = "1 portion, ", float64(v.Portions)
	}
	g := func(f float64) string { return fmt.Sprintf("%.1f g", f/n) }
	return &ldNutrition{Type: "NutritionInformation", Description: v.Share, Serving: serving + grams(v.sheet.Grams/n),
		Calories: fmt.Sprintf("%.0f kcal", e.Kcal/n), Protein: g(e.Protein), Fat: g(e.Fat), Carb: g(e.Carb), Fibre: g(e.Fibre)}
}

// diets are members of the vocabulary's RestrictedDiet.
func diets(s *account.Sheet) (list []string) {
	if len(s.Parts) == 0 {
		return nil
	}
	if s.Vegan.Fit == "yes" {
		list = append(list, "https://schema.org/VeganDiet")
	}
	if s.Meatless.Fit == "yes" {
		list = append(list, "https://schema.org/VegetarianDiet")
	}
	return list
}

// restLong is between which steps a dish was not cooked in one go: it stood overnight. The program's
// own choice.
const restLong = 8 * time.Hour

// totalTime is from the beginning of the first step to the end of the last; none where steps
// have no times, or have but one, or the dish was not cooked in one go.
func totalTime(s *account.Sheet) time.Duration {
	var first, last time.Time
	for _, x := range slices.SortedStableFunc(slices.Values(s.Steps), func(a, b account.Step) int { return a.At.Compare(b.At) }) {
		if x.At.IsZero() {
			continue
		}
		if first.IsZero() {
			first, last = x.At, x.At
		}
		if x.At.Sub(last) > restLong {
			return 0
		}
		if end := x.At.Add(time.Duration(x.Minutes) * time.Minute); end.After(last) {
			last = end
		}
	}
	return last.Sub(first)
}

// duration prints whole minutes as ISO 8601 has them: "PT1H25M". None is "".
func duration(d time.Duration) string {
	minutes := int(d.Round(time.Minute) / time.Minute)
	switch {
	case minutes <= 0:
		return ""
	case minutes%60 == 0:
		return fmt.Sprintf("PT%dH", minutes/60)
	case minutes < 60:
		return fmt.Sprintf("PT%dM", minutes)
	}
	return fmt.Sprintf("PT%dH%dM", minutes/60, minutes%60)
}
