package paper_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
	"pgregory.net/rapid"

	"scullion/bot/paper"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// nasty are names that try to be something else in one form or another.
var nasty = []string{"leek", "<script>alert(1)</script>", "a|b", "*bold* _it_ `code` ~~gone~~", "[x](http://example.org)", "https://example.org/x", "www.example.org",
	"=1+1", "-2", "@cmd", "+3", "1. first", "2) second", "# head", "say \"so\", then", "line\nbreak", "tab\there", "a & b &amp; c", "back\\slash", "</style>", "{{.}}",
	"<!-- note -->", "crème fraîche", "水", "\u202eturned", "]]>", "$x^2$", "![i](x)", "- item", "a\\|b", "|", "`", "user@example.org", "&lt;b&gt;", "two \\\\ strokes", "\\*x* \\_y_", "\u0000nul", "  spaced  "}

// sheets draws sheets of all kinds.
func drawSheet(t *rapid.T) *account.Sheet {
	s := &account.Sheet{Dish: rapid.SampledFrom(nasty).Draw(t, "dish"), Portions: rapid.IntRange(0, 40).Draw(t, "portions")}
	foods := food.Default().Foods()
	for range rapid.IntRange(0, 12).Draw(t, "parts") {
		f := foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")]
		p := account.Ingredient{Item: rapid.SampledFrom(nasty).Draw(t, "item"), Food: f.Name, Unit: f.Unit, Unlogged: rapid.IntRange(0, 4).Draw(t, "planned") == 0}
		p.AP = measure.Amount(rapid.Int64Range(1, 5_000_000).Draw(t, "ap"))
		if f.PieceMg > 0 && rapid.Bool().Draw(t, "counted") {
			p.Pieces = float64(rapid.IntRange(1, 12).Draw(t, "halves")) / 2
			p.AP = measure.Amount(p.Pieces * float64(f.PieceMg))
		}
		p.EP = measure.Amount(float64(p.AP) * rapid.Float64Range(0.3, 1).Draw(t, "edible"))
		p.Grams = p.EP.Units()
		if p.Unpriced = rapid.Bool().Draw(t, "unpriced"); p.Unpriced {
			s.Unpriced = append(s.Unpriced, p.Item)
		} else {
			p.Cost = rapid.Int64Range(0, 5000).Draw(t, "cost")
		}
		s.Parts, s.Grams, s.Cost = append(s.Parts, p), s.Grams+p.Grams, s.Cost+p.Cost
		for _, a := range f.Allergen {
			s.Holds = addTo(s.Holds, a, p.Item)
		}
		for _, a := range f.MayCarry {
			s.May = addTo(s.May, a, p.Item)
		}
	}
	for i := range rapid.IntRange(0, 8).Draw(t, "steps") {
		x := account.Step{Do: rapid.SampledFrom(nasty).Draw(t, "do"), Minutes: rapid.IntRange(0, 90).Draw(t, "minutes"), Logged: rapid.Bool().Draw(t, "logged")}
		x.At = evening.AddDate(0, 0, rapid.IntRange(0, 1).Draw(t, "day")*i)
		if rapid.IntRange(0, 3).Draw(t, "untimed") == 0 {
			x.At = time.Time{}
		}
		s.Steps = append(s.Steps, x)
	}
	if rapid.Bool().Draw(t, "cooked") {
		s.Cooked, s.Cooks = evening, []string{"cook 1", rapid.SampledFrom(nasty).Draw(t, "cook")}
	}
	s.Unknown = rapid.SliceOfN(rapid.SampledFrom(nasty), 0, 2).Draw(t, "unknown")
	s.Energy.Share = rapid.SampledFrom([]float64{0, 0.5, 0.999, 1}).Draw(t, "share")
	s.Energy.Kcal = rapid.Float64Range(0, 9000).Draw(t, "kcal")
	fits := rapid.SampledFrom([]string{"yes", "no", "check label"})
	s.Vegan = account.Diet{Fit: fits.Draw(t, "vegan"), Why: rapid.SliceOfN(rapid.SampledFrom(nasty), 0, 2).Draw(t, "why")}
	s.Meatless = account.Diet{Fit: fits.Draw(t, "meatless")}
	return s
}

func addTo(list []account.Allergen, name, item string) []account.Allergen {
	for i := range list {
		if list[i].Name == name {
			list[i].From = append(list[i].From, item)
			return list
		}
	}
	return append(list, account.Allergen{Name: name, From: []string{item}})
}

// shown is how a name is to stand on paper: a line, with nothing in it that does not print.
func shown(s string) string {
	s = strings.NewReplacer("\n", " ", "\t", " ", "\u202e", "", "\x00", "").Replace(s)
	return strings.TrimSpace(s)
}

// table gives the cells of the ingredients' table, as a reader would see them.
func table(doc string) (rows [][]string) {
	root, err := html.Parse(strings.NewReader(doc))
	if err != nil {
		panic(err)
	}
	first := find(root, atom.Table)
	if first == nil {
		return nil
	}
	for n := range first.Descendants() {
		if n.DataAtom != atom.Tr {
			continue
		}
		var row []string
		for c := range n.ChildNodes() {
			if c.DataAtom == atom.Td || c.DataAtom == atom.Th {
				row = append(row, text(c))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

func find(root *html.Node, a atom.Atom) *html.Node {
	for n := range root.Descendants() {
		if n.DataAtom == a {
			return n
		}
	}
	return nil
}

func text(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}

// strict says where a page is not what a parser would have made of it: a tag that had to be
// closed, opened or moved.
func strict(t rapid.TB, doc string) *html.Node {
	t.Helper()
	root, err := html.Parse(strings.NewReader(doc))
	if err != nil {
		t.Fatal(err)
	}
	var again strings.Builder
	if err := html.Render(&again, root); err != nil {
		t.Fatal(err)
	}
	a, b := tokens(doc), tokens(again.String())
	for i := range a {
		if i >= len(b) || a[i] != b[i] {
			t.Fatalf("the parser had to mend the page at %q", a[max(0, i-3):min(len(a), i+2)])
		}
	}
	if len(a) != len(b) {
		t.Fatal("the parser added to the page")
	}
	return root
}

// tokens lists a page's tags and words.
func tokens(doc string) (list []string) {
	z := html.NewTokenizer(strings.NewReader(doc))
	for {
		switch z.Next() {
		case html.ErrorToken:
			return list
		case html.TextToken:
			if s := strings.Join(strings.Fields(string(z.Text())), " "); s != "" {
				list = append(list, html.UnescapeString(s))
			}
		default:
			tag := z.Token()
			if tag.Type == html.SelfClosingTagToken { // as the renderer writes <meta>
				tag.Type = html.StartTagToken
			}
			list = append(list, strings.ToLower(tag.String()))
		}
	}
}

// every checks random sheets, and one of each nasty name wherever a name can stand.
func every(t *testing.T, check func(rapid.TB, *account.Sheet)) {
	for _, n := range nasty {
		check(t, &account.Sheet{Dish: n, Portions: 2, Cooks: []string{n}, Unknown: []string{n}, Unpriced: []string{n},
			Parts: []account.Ingredient{{Item: n, Unit: measure.Gram, AP: 9000, EP: 9000, Grams: 9, Unpriced: true}},
			Steps: []account.Step{{Do: n, Logged: true}}, Vegan: account.Diet{Fit: "no", Why: []string{n}}})
	}
	rapid.Check(t, func(rt *rapid.T) { check(rt, drawSheet(rt)) })
}

// TestHTML holds pages to what is asked of them: a strict parser finds nothing to mend, nothing is
// run or fetched, nothing typed becomes a tag, and all of the table is there.
func TestHTML(t *testing.T) { every(t, checkHTML) }

func checkHTML(rt rapid.TB, s *account.Sheet) {
	doc := paper.HTML(s, options())
	root := strict(rt, doc)
	for n := range root.Descendants() {
		switch n.DataAtom {
		case atom.Script, atom.Img, atom.Link, atom.Iframe, atom.A, atom.Object, atom.B, atom.Base:
			rt.Fatalf("<%s> in\n%s", n.Data, doc)
		}
		for _, a := range n.Attr {
			if a.Key == "src" || a.Key == "href" || strings.HasPrefix(a.Key, "on") {
				rt.Fatalf("%s=%q in\n%s", a.Key, a.Val, doc)
			}
		}
	}
	if strings.Contains(doc, "url(") || strings.Contains(doc, "@import") || strings.Contains(text(find(root, atom.Style)), "ZgotmplZ") {
		rt.Fatal("the style sheet calls outside")
	}
	for _, tag := range []atom.Atom{atom.Main, atom.H1, atom.Table, atom.Caption} {
		if want := tag != atom.Caption; (find(root, tag) != nil) != want {
			rt.Fatalf("<%s>: %v", tag, !want)
		}
	}
	checkTable(rt, s, table(doc))
}

// TestMarkdown has a CommonMark parser with GitHub's tables read the sheet, and finds the same.
func TestMarkdown(t *testing.T) { every(t, checkMarkdown) }

func checkMarkdown(rt rapid.TB, s *account.Sheet) {
	parser := goldmark.New(goldmark.WithExtensions(extension.GFM))
	var b strings.Builder
	if err := parser.Convert([]byte(paper.Markdown(s, options())), &b); err != nil {
		rt.Fatal(err)
	}
	root, err := html.Parse(strings.NewReader(b.String()))
	if err != nil {
		rt.Fatal(err)
	}
	for n := range root.Descendants() {
		switch n.DataAtom {
		case atom.A, atom.Img, atom.Code, atom.Em, atom.Strong, atom.Del, atom.Script, atom.Ol, atom.Blockquote, atom.Pre, atom.Hr:
			rt.Fatalf("<%s> in\n%s", n.Data, b.String())
		}
		if n.Type == html.CommentNode || n.DataAtom == atom.Li && find(n, atom.Ul) != nil {
			rt.Fatalf("what was typed became something else:\n%s", b.String())
		}
	}
	heads := 0
	for n := range root.Descendants() {
		if n.DataAtom == atom.H1 {
			heads++
		}
	}
	if heads != 1 || !strings.EqualFold(text(find(root, atom.H1)), shown(s.Dish)) {
		rt.Fatalf("headed %q, not %q", text(find(root, atom.H1)), shown(s.Dish))
	}
	checkTable(rt, s, table(b.String()))
}

// checkTable holds a table as read to the sheet: a head, a row an ingredient, a total.
func checkTable(t rapid.TB, s *account.Sheet, rows [][]string) {
	t.Helper()
	if len(rows) != len(s.Parts)+2 {
		t.Fatalf("%d rows for %d ingredients", len(rows), len(s.Parts))
	}
	for i, p := range s.Parts {
		r := rows[i+1]
		if !strings.HasPrefix(r[0], shown(p.Item)) || r[1] != measure.Say(p.AP, p.Unit) || r[2] != measure.Say(p.EP, p.Unit) {
			t.Errorf("%q for %+v", r, p)
		}
		if len(r) != len(rows[0]) || strings.Contains(r[0], "planned") != p.Unlogged || (r[len(r)-1] != "") == p.Unpriced {
			t.Errorf("%q for %+v", r, p)
		}
	}
}

// TestCSV reads sheets back with encoding/csv, which keeps to RFC 4180, and loses nothing.
func TestCSV(t *testing.T) { every(t, checkCSV) }

func checkCSV(rt rapid.TB, s *account.Sheet) {
	doc := paper.CSV(s, options())
	if strings.Count(doc, "\n") != strings.Count(doc, "\r\n") || !strings.HasSuffix(doc, "\r\n") {
		rt.Fatal("lines end otherwise than RFC 4180 says")
	}
	rows, err := csv.NewReader(strings.NewReader(doc)).ReadAll()
	if err != nil || len(rows) != len(s.Parts)+2 {
		rt.Fatalf("%d rows for %d ingredients: %v", len(rows), len(s.Parts), err)
	}
	col := func(r []string, name string) string { return r[slices.Index(rows[0], name)] }
	var ep float64
	for i, p := range s.Parts {
		r := rows[i+1]
		item := strings.TrimPrefix(col(r, "ingredient"), "'")
		if item != shown(p.Item) || col(r, "food") != p.Food || col(r, "unit") != p.Unit.String() || figure(col(r, "ap")) != p.AP.Units() || figure(col(r, "ep")) != p.EP.Units() {
			rt.Fatalf("%q for %+v", r, p)
		}
		if (col(r, "cost") == "") != p.Unpriced || !p.Unpriced && figure(col(r, "cost")) != float64(p.Cost)/100 {
			rt.Fatalf("%q for %+v", r, p)
		}
		for _, cell := range r[1:3] {
			if cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
				rt.Fatalf("%q is a formula", cell)
			}
		}
		ep += figure(col(r, "ep_g"))
	}
	if total := rows[len(rows)-1]; col(total, "row") != "total" || math.Abs(figure(col(total, "ep_g"))-ep) > 0.01 || s.Cost > 0 && figure(col(total, "cost")) != float64(s.Cost)/100 {
		rt.Fatalf("%q: the rows make %f g", total, ep)
	}
}

func figure(cell string) float64 {
	f, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		return math.NaN()
	}
	return f
}

// TestJSONLD holds random sheets to the vocabulary, and reads them back: exact amounts, in order.
func TestJSONLD(t *testing.T) { every(t, checkJSONLD) }

func checkJSONLD(rt rapid.TB, s *account.Sheet) {
	terms := schema(rt)
	doc := paper.JSONLD(s, options())
	checkNode(rt, terms, expand(rt, terms, doc))
	var node map[string]any
	if err := json.Unmarshal([]byte(doc), &node); err != nil {
		rt.Fatal(err)
	}
	diets, _ := node["suitableForDiet"].([]any)
	if says := slices.Contains(diets, any("https://schema.org/VeganDiet")); says != (s.Vegan.Fit == "yes" && len(s.Parts) > 0) {
		rt.Fatalf("vegan %q gives %v", s.Vegan.Fit, diets)
	}
	for _, a := range s.Holds {
		if d := node["description"].(string); !strings.Contains(d, a.Name+" (") || !strings.Contains(d, "check labels") {
			rt.Fatalf("%s is not in %q", a.Name, d)
		}
	}
	r, err := paper.ReadJSONLD([]byte(doc))
	if len(s.Parts) == 0 {
		if err == nil {
			rt.Fatal("a recipe without ingredients was read")
		}
		return
	}
	if err != nil || !strings.EqualFold(r.Name, shown(s.Dish)) || r.Portions != s.Portions || len(r.Ingredients) != len(s.Parts) || len(r.Steps) != len(s.Steps) {
		rt.Fatalf("read back as %+v: %v", r, err)
	}
	for i, w := range r.Ingredients {
		if p := s.Parts[i]; w.Name != shown(p.Item) || w.Amount != p.AP || w.Unit != p.Unit {
			rt.Fatalf("%+v for %+v", w, p)
		}
	}
}
