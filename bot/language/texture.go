package language

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"
)

//go:embed textures.csv
var texturesCSV string

// texture is a row of textures.csv.
type texture struct {
	called string
	level  string // of IDDSI; "" none
	step
	placed step // what says so behind a place
}

var textures = sync.OnceValue(func() (list []texture) {
	r := csv.NewReader(strings.NewReader(texturesCSV))
	r.Comment, r.FieldsPerRecord = '#', 4
	rows, err := r.ReadAll()
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	for _, row := range rows[1:] {
		list = append(list, texture{row[0], row[1], wordsOf(row[2]), wordsOf(row[3])})
	}
	return list
})

// say is how a texture is called: "pureed (IDDSI level 4)".
func (x *texture) say() string {
	if x.level == "" {
		return x.called
	}
	return fmt.Sprintf("%s (IDDSI level %s)", x.called, x.level)
}

// IsTexture says whether a diet is a texture.
func IsTexture(diet string) bool {
	return slices.ContainsFunc(textures(), func(x texture) bool { return x.say() == diet })
}

// IsDrinkTexture says whether a texture is one of drinks alone.
func IsDrinkTexture(diet string) bool {
	return strings.HasPrefix(diet, "thickened") || strings.HasSuffix(diet, "level 1)") || strings.HasSuffix(diet, "level 2)")
}

// hasTexture reads "pureed", "on level 4", "3 soft diets".
func (p *parser) hasTexture(i int, x *TableNeed, how int) int {
	if how == barredFood || how == ofIllness {
		return 0
	}
	for _, row := range textures() {
		n := p.spelt(row.step, i)
		if n == 0 && how == atNumber {
			n = p.spelt(row.placed, i)
		}
		if n == 0 {
			continue
		}
		j := i + n
		diet := false
		for p.word(j, "diet") || p.word(j, "diets") || p.word(j, "texture") || p.word(j, "meal") || p.word(j, "meals") || p.word(j, "modified") || p.word(j, "drinks") || p.word(j, "fluids") || p.word(j, "liquids") || p.word(j, "food") || p.word(j, "foods") {
			j, diet = j+1, true
		}
		for again := true; again; { // "level 6 soft and bite sized"
			again = false
			for _, o := range textures() {
				if m := p.spelt(o.step, j); m > 0 && o.called == row.called {
					j, again = j+m, true
				}
			}
		}
		if how == ofTexture && x.Count == 0 && !diet && row.level != "" && p.start == i { // "pureed" by itself
			return 0
		}
		x.Diet = row.say()
		x.Said = x.Diet
		return j - i
	}
	return 0
}

// unknown makes the need of an allergy to what no table knows of what was said; false where that
// is no food's name.
func (x *TableTalk) unknown(said string) bool {
	said = strings.ToLower(said)
	list := strings.Fields(said)
	if len(list) == 0 || len(list) > 3 || slices.ContainsFunc(list, func(w string) bool { return tableForms().known[w] || slices.Contains(noAllergen, w) }) {
		return false
	}
	x.About = AboutNeeds
	if x.Place != "" {
		x.About = AboutNumbered
	}
	x.Needs = []TableNeed{{Food: said, Said: said + " allergy"}}
	return true
}

// noAllergen are words that do not tell to what an allergy is.
var noAllergen = strings.Fields("it that this them something some thing things a lot lots nothing what few an the food foods any one two three known unknown hay fever pollen work life mornings people")
