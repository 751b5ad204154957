package paper

import (
	_ "embed"
	"html/template"
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

// Long says whether a sheet has more than a page takes at the usual size.
func (v *view) Long() bool { return len(v.Parts)+len(v.Steps)+len(v.Notes) > 28 }

// Held says what is in it for certain.
func (l list) Held() string { return said(l.Holds, "none of them by what is logged") }

// Often says what such food may carry.
func (l list) Often() string { return both(l.May) }
