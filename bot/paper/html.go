package paper

import (
	_ "embed"
	"html/template"
	"math"
	"strings"

	"scullion/pantry/account"
)

//go:embed sheet.html
var sheetHTML string

var sheetPage = template.Must(template.New("sheet.html").Parse(sheetHTML))

// HTML prints a sheet as a page of its own, for A4 and Letter: system fonts, black on white, no
// scripts, nothing from outside. A long one is set smaller.
func HTML(s *account.Sheet, o Options) string {
	var b strings.Builder
	_ = sheetPage.Execute(&b, see(s, o)) // to memory, of a view that tests have printed: no error
	return b.String()
}

// NotesHead heads the notes on scaling.
func (v *view) NotesHead() string { return "For " + portions(v.Portions) }

// Caution goes under the allergens.
func (v *view) Caution() string { return caution }

// Points is the size of type in print, so that a sheet takes one page of A4 or Letter: some 700
// points of height, by the lines that there are. Below 6.5 nobody reads it, and it takes two.
func (v *view) Points() float64 {
	lines := 31 + len(v.Parts) + (len(v.Steps)+1)/2 + 2*len(v.Notes) + 4*len(v.Lists)
	return math.Round(10*min(10, max(6.5, 700/(1.4*float64(lines))))) / 10
}

// Held says what is in it for certain.
func (l list) Held() string { return said(l.Holds, "none of them by what is logged") }

// Often says what such food may carry.
func (l list) Often() string { return both(l.May) }
