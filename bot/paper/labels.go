package paper

import (
	"cmp"
	_ "embed"
	"html/template"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/mattn/go-runewidth"

	"scullion/pantry"
)

// Label is one label for food that is put away.
type Label struct {
	Name      string
	Made      time.Time   // shown in its own place; zero: a line to write on
	What      string      // happened then: "opened", "frozen", "thawed"; "" it was made
	UseBy     pantry.Date // "": a line to write on
	Kind      string      // "use by" or "best before"; "" is "use by"
	Allergens []string
	May       []string // that such food often carries
	Unknown   bool     // somebody must be asked for the allergens, or for more of them
	Initials  string
	Note      string // "reheat once"
}

//go:embed labels.html
var labelsHTML string

var labelsPage = template.Must(template.New("labels.html").Parse(labelsHTML))

// labelCell is a label where it lies, in mm, with its sizes of type in points.
type labelCell struct {
	Left, Top              float64
	Name, Made, Date       string
	Allergens, Note        string
	NameSize, AllergenSize float64
}

// Labels prints labels as HTML, in order along the rows of as many pages as they need. To print:
// actual size, no margins of the printer's. A long name is set smaller, then cut; allergens are
// never cut.
func Labels(list []Label, page LabelPage) string {
	var sheets [][]labelCell
	for i := range list {
		at := i % (page.Columns * page.Rows)
		if at == 0 {
			sheets = append(sheets, nil)
		}
		c := list[i].cell(page)
		c.Left = hundredth(page.Left + float64(at%page.Columns)*page.PitchX)
		c.Top = hundredth(page.Top + float64(at/page.Columns)*page.PitchY)
		sheets[len(sheets)-1] = append(sheets[len(sheets)-1], c)
	}
	var b strings.Builder
	_ = labelsPage.Execute(&b, map[string]any{"Page": page, "Sheets": sheets}) // to memory: no error
	return b.String()
}

func hundredth(f float64) float64 { return math.Round(f*100) / 100 }

const blank = "__________" // to be written on

// cell puts a label into words, and fits it.
func (l *Label) cell(page LabelPage) labelCell {
	c := labelCell{Name: name(l.Name), Made: capital(cmp.Or(plain(l.What), "made")) + " ", Date: capital(cmp.Or(plain(l.Kind), "use by")) + " ", Allergens: l.Holds(), Note: plain(l.Note)}
	if l.Made.IsZero() {
		c.Made += blank
	} else {
		c.Made += l.Made.Format("Mon 2 Jan 15:04")
	}
	if by := plain(l.Initials); by != "" {
		c.Made += ", " + by
	}
	if d, err := time.Parse(time.DateOnly, string(l.UseBy)); err == nil {
		c.Date += d.Format("Mon 2 Jan 2006")
	} else {
		c.Date += blank
	}
	c.fit(page.Width-5, page.Height-3.2)
	return c
}

// Holds says what allergens are in it. Nothing logged is not the same as nothing in it.
func (l *Label) Holds() string {
	has := "Contains " + strings.Join(plainAll(l.Allergens), ", ")
	may := ""
	if list := l.Might(); len(list) > 0 {
		may = " May carry " + strings.Join(plainAll(list), ", ") + "."
	}
	switch {
	case len(l.Allergens) == 0 && l.Unknown:
		return "Allergens unknown: ask." + may
	case len(l.Allergens) == 0:
		return "None of the 14 logged: check labels." + may
	case l.Unknown:
		return has + ". The rest unknown: ask." + may
	}
	return has + ": check labels." + may
}

// Might gives what such food often carries, but for what it holds.
func (l *Label) Might() (list []string) {
	for _, a := range l.May {
		if !slices.Contains(l.Allergens, a) {
			list = append(list, a)
		}
	}
	return list
}

// tooMany stands where allergens find no room even in the smallest type.
const tooMany = "More allergens than fit here: ask before you eat or serve it."

const (
	mmPerPoint = 25.4 / 72
	letter     = 0.66 // width of a bold letter in its own size, by wide system fonts
	leading    = 1.15
	fixedLines = 7 + 9 // points of the lines that are always there: made and date
)

// fit chooses the sizes of type for so much room, in mm. Allergens come first.
func (c *labelCell) fit(width, height float64) {
	height -= fixedLines * leading * mmPerPoint
	if c.Note != "" {
		height -= 7 * leading * mmPerPoint
	}
	if tall(c.Allergens, 4.5, width) > 0.75*height {
		c.Allergens = tooMany
	}
	c.AllergenSize = largest(c.Allergens, 7.5, 4.5, width, 0.5*height)
	height -= tall(c.Allergens, c.AllergenSize, width)
	c.NameSize = largest(c.Name, 13, 6, width, height)
	for runes := []rune(c.Name); tall(c.Name, c.NameSize, width) > height && len(runes) > 1; {
		runes = runes[:len(runes)-1]
		c.Name = strings.TrimRight(string(runes), " ,") + "…"
	}
}

// largest is the largest size at which a text is no taller than it may be, or the least.
func largest(text string, from, least, width, height float64) float64 {
	for size := from; size > least; size -= 0.5 {
		if tall(text, size, width) <= height {
			return size
		}
	}
	return least
}

// tall is about how high a text stands, in mm.

func tall(text string, size, width float64) float64 {
	lines := math.Ceil(float64(runewidth.StringWidth(text)) * letter * size * mmPerPoint / width)
	return lines * size * leading * mmPerPoint
}
