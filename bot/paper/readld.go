package paper

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"

	"scullion/pantry/measure"
)

// Recipe is what is read back of a schema.org Recipe, to be cooked again.
type Recipe struct {
	Name        string
	Portions    int // 0: it does not say
	Ingredients []Wanted
	Steps       []string
}

// Wanted is one ingredient of a recipe.
type Wanted struct {
	Text   string // as it stands: "300 g leek (about 1½)"
	Name   string // "leek"; of a recipe from elsewhere, what stands behind the amount
	Amount measure.Amount
	Unit   measure.Kind // of Amount; 0 where the text has no weight or measure
	Pieces int64        // thousandths, where a number stands there without a unit; else 0
}

// most is how much of a file is read: a recipe is a page.
const most = 1 << 20

// mostPortions is what one recipe may be for.
const mostPortions = 10_000

// ReadJSONLD reads the first Recipe in a JSON-LD document: by itself, in a list or in a @graph.
// Amounts come from the exact supplies that JSONLD writes, else from the text. It is an error
// where there is no Recipe, or one without a name or ingredients.
func ReadJSONLD(doc []byte) (Recipe, error) {
	if len(doc) > most {
		return Recipe{}, errors.New("that file is over 1 MB: a recipe is a page. Give a file with the recipe alone")
	}
	d := json.NewDecoder(bytes.NewReader(doc))
	var top any
	if err := d.Decode(&top); err != nil {
		return Recipe{}, fmt.Errorf("that is not JSON (%w): give a schema.org Recipe as JSON-LD", err)
	}
	if _, err := d.Token(); err != io.EOF {
		return Recipe{}, errors.New("something stands behind the JSON: give a file with the recipe alone")
	}
	node := findRecipe(top)
	if node == nil {
		return Recipe{}, errors.New("there is no schema.org Recipe in it: look for a node of @type Recipe")
	}
	r := Recipe{Name: plain(firstText(node["name"])), Portions: readPortions(node["recipeYield"])}
	if r.Name == "" {
		return Recipe{}, errors.New("the recipe has no name: give it one")
	}
	r.Ingredients = readIngredients(node)
	if len(r.Ingredients) == 0 {
		return Recipe{}, errors.New("the recipe has no recipeIngredient: there is nothing to cook it from")
	}
	r.Steps = readSteps(node["recipeInstructions"], nil)
	return r, nil
}

// findRecipe looks through lists and graphs, in order.
func findRecipe(x any) map[string]any {
	switch x := x.(type) {
	case []any:
		for _, e := range x {
			if n := findRecipe(e); n != nil {
				return n
			}
		}
	case map[string]any:
		if isA(x, "Recipe") {
			return x
		}
		for _, key := range []string{"@graph", "mainEntity", "itemListElement"} {
			if n := findRecipe(x[key]); n != nil {
				return n
			}
		}
	}
	return nil
}

// isA says whether a node is of a type, by any of the ways to write its name.
func isA(node map[string]any, want string) bool {
	for _, t := range many(node["@type"]) {
		s, _ := t.(string)
		for _, start := range []string{"https://schema.org/", "http://schema.org/", "schema:"} {
			s = strings.TrimPrefix(s, start)
		}
		if s == want {
			return true
		}
	}
	return false
}

// many makes a list of what may be one or many.
func many(x any) []any {
	switch x := x.(type) {
	case nil:
		return nil
	case []any:
		return x
	}
	return []any{x}
}

// firstText gives a property's text: itself, its @value, or its name.
func firstText(x any) string {
	for _, e := range many(x) {
		switch e := e.(type) {
		case string:
			return e
		case float64:
			return strconv.FormatFloat(e, 'f', -1, 64)
		case map[string]any:
			for _, key := range []string{"@value", "text", "name", "value"} {
				if s := firstText(e[key]); s != "" {
					return s
				}
			}
		}
	}
	return ""
}

var (
	whole   = regexp.MustCompile(`\d+`)
	weighed = regexp.MustCompile(`(?i)^\D*\d+(?:[.,]\d+)?\s*(?:kg|g|ml|l|litres?|liters?|kilos?|grams?|lbs?|oz)\b`)
)

// readPortions takes the first whole number that could be a number of portions; what is weighed
// is none.
func readPortions(x any) int {
	for _, e := range many(x) {
		if weighed.MatchString(firstText(e)) {
			continue
		}
		n, err := strconv.Atoi(whole.FindString(firstText(e)))
		if err == nil && n >= 1 && n <= mostPortions {
			return n
		}
	}
	return 0
}

func readIngredients(node map[string]any) (wanted []Wanted) {
	for _, x := range append(many(node["recipeIngredient"]), many(node["ingredients"])...) {
		if m, ok := x.(map[string]any); ok && isA(m, "ItemList") {
			for _, e := range many(m["itemListElement"]) {
				wanted = addWanted(wanted, e)
			}
			continue
		}
		wanted = addWanted(wanted, x)
	}
	supplies := many(node["supply"])
	if len(supplies) != len(wanted) { // then they don't say which is whose
		return wanted
	}
	for i, x := range supplies {
		m, _ := x.(map[string]any)
		q, _ := m["requiredQuantity"].(map[string]any)
		value, isNumber := q["value"].(float64)
		w := &wanted[i]
		n := plain(firstText(m["name"]))
		if n == "" || !isNumber || !strings.Contains(w.Text, n) {
			continue
		}
		for unit, code := range unitCodes {
			if a := math.Round(value * 1000); q["unitCode"] == code && a >= 0 && a <= float64(measure.Most) {
				w.Name, w.Amount, w.Unit, w.Pieces = n, measure.Amount(a), unit, 0
			}
		}
	}
	return wanted
}

func addWanted(wanted []Wanted, x any) []Wanted {
	if text := plain(firstText(x)); text != "" {
		return append(wanted, readWanted(text))
	}
	return wanted
}

// readSteps gathers the words of instructions through steps, sections and lists. A text in one
// piece is a step a line.
func readSteps(x any, steps []string) []string {
	for _, e := range many(x) {
		switch e := e.(type) {
		case string:
			for line := range strings.Lines(e) {
				if line = plain(line); line != "" {
					steps = append(steps, line)
				}
			}
		case map[string]any:
			if within := many(e["itemListElement"]); len(within) > 0 && e["text"] == nil {
				steps = readSteps(within, steps)
			} else if text := plain(firstText(e)); text != "" {
				steps = append(steps, text)
			}
		}
	}
	return steps
}
