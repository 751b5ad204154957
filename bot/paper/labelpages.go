package paper

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed labelpages.csv
var labelPagesCSV string

// LabelPage is how labels lie on a page, by geometry; in mm.
type LabelPage struct {
	ID, Name                 string
	PageWidth, PageHeight    float64
	Columns, Rows            int
	Width, Height, Left, Top float64 // of one label; Left and Top of the first
	PitchX, PitchY           float64 // from one label to the next
}

// LabelPages lists the pages that there are: a row of labelpages.csv each.
var LabelPages = sync.OnceValue(func() []LabelPage {
	rows, err := csv.NewReader(strings.NewReader(labelPagesCSV)).ReadAll()
	if err != nil {
		panic(err) // the table is embedded; tests walk it
	}
	var pages []LabelPage
	for _, r := range rows[1:] {
		pages = append(pages, readLabelPage(r))
	}
	return pages
})

// LabelPageCalled finds a page by its id; the error lists them.
func LabelPageCalled(id string) (LabelPage, error) {
	var ids []string
	for _, p := range LabelPages() {
		if p.ID == id {
			return p, nil
		}
		ids = append(ids, p.ID)
	}
	return LabelPage{}, fmt.Errorf("no page of labels is called %q: there are %s", id, both(ids))
}

func readLabelPage(r []string) LabelPage {
	f := func(i int) float64 {
		n, err := strconv.ParseFloat(r[i], 64)
		if err != nil {
			panic(err)
		}
		return n
	}
	p := LabelPage{ID: r[0], Name: r[1], Columns: int(f(3)), Rows: int(f(4)), Width: f(5), Height: f(6), Left: f(7), Top: f(8), PitchX: f(9), PitchY: f(10)}
	switch r[2] {
	case "A4": // ISO 216
		p.PageWidth, p.PageHeight = 210, 297
	case "Letter": // 8 1/2 x 11 in
		p.PageWidth, p.PageHeight = 215.9, 279.4
	default:
		p.PageWidth, p.PageHeight = p.Width, p.Height
	}
	return p
}
