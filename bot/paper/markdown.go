package paper

import (
	"strings"

	"scullion/pantry/account"
)

// Markdown prints a sheet as CommonMark with tables (GitHub's extension).
func Markdown(s *account.Sheet, o Options) string {
	v := see(s, o)
	m := &md{}
	m.line("# ", v.Title)
	m.gap()
	m.line("", v.For+" "+v.Made)
	m.head("Ingredients")
	m.parts(v)
	if v.Planned != "" {
		m.gap()
		m.line("", v.Planned)
	}
	if v.Usual != "" {
		m.gap()
		m.line("", v.Usual)
	}
	if len(v.Steps) > 0 {
		m.head("Steps")
		if v.StepNote != "" {
			m.line("", v.StepNote)
			m.gap()
		}
		for _, x := range v.Steps {
			m.line("- ", strings.TrimSpace(x.At+" "+x.Do+mark(x.Planned)))
		}
	}
	m.list(v.NotesHead(), v.Notes)
	m.head("Yield and cost")
	m.line("- ", v.Yield)
	if v.Came != "" {
		m.line("- ", v.Came)
	}
	m.line("- ", v.Cost)
	m.head("Energy")
	m.energy(v)
	m.head("Allergens")
	for _, l := range v.Lists {
		m.line("- ", l.Law+": "+l.Held()+".")
		if len(l.May) > 0 {
			m.line("- ", "Such food often carries, "+l.Law+": "+l.Often()+".")
		}
		if l.Note != "" {
			m.line("- ", l.Note)
		}
	}
	if v.Unknown != "" {
		m.line("- ", v.Unknown)
	}
	m.line("- ", caution)
	m.list("Diets", v.Diets)
	m.list("Keeping", v.Keeping)
	return m.b.String()
}

func said(list []string, none string) string {
	if len(list) == 0 {
		return none
	}
	return both(list)
}

func mark(planned bool) string {
	if planned {
		return " (planned, not logged)"
	}
	return ""
}

// md writes Markdown; all text is escaped.
type md struct{ b strings.Builder }

func (m *md) line(start, text string) { m.b.WriteString(start + escapeMD(text) + "\n") }
func (m *md) gap()                    { m.b.WriteString("\n") }

func (m *md) head(s string) {
	m.gap()
	m.line("## ", s)
	m.gap()
}

func (m *md) list(head string, lines []string) {
	if len(lines) == 0 {
		return
	}
	m.head(head)
	for _, l := range lines {
		m.line("- ", l)
	}
}

func (m *md) cells(cells ...string) {
	for _, c := range cells {
		m.b.WriteString("| " + escapeMD(c) + " ")
	}
	m.b.WriteString("|\n")
}

func (m *md) parts(v *view) {
	if v.Portions > 0 {
		m.cells("ingredient", "as purchased (AP)", "edible (EP)", "AP a portion", "EP a portion", "cost")
		m.b.WriteString("| --- | ---: | ---: | ---: | ---: | ---: |\n")
	} else {
		m.cells("ingredient", "as purchased (AP)", "edible (EP)", "cost")
		m.b.WriteString("| --- | ---: | ---: | ---: |\n")
	}
	for _, r := range append(v.Parts, v.Total) {
		first := r.Item + mark(r.Planned)
		if r.Count != "" {
			first += ", " + r.Count
		}
		if v.Portions > 0 {
			m.cells(first, r.AP, r.EP, r.APEach, r.EPEach, r.Cost)
		} else {
			m.cells(first, r.AP, r.EP, r.Cost)
		}
	}
}

func (m *md) energy(v *view) {
	m.line("", v.Share)
	if len(v.Energy) == 0 {
		return
	}
	m.gap()
	if v.Portions > 0 {
		m.cells("", "a portion", "the dish")
		m.b.WriteString("| --- | ---: | ---: |\n")
	} else {
		m.cells("", "the dish")
		m.b.WriteString("| --- | ---: |\n")
	}
	for _, f := range v.Energy {
		if v.Portions > 0 {
			m.cells(f.Name, f.Each, f.Dish)
		} else {
			m.cells(f.Name, f.Dish)
		}
	}
}

// escapeMD makes text stand for itself: CommonMark lets a backslash stand before any ASCII
// punctuation. What is plainly harmless is left as it is, for those who read the source.
func escapeMD(s string) string {
	var b strings.Builder
	for i := range len(s) {
		switch c := s[i]; {
		case strings.IndexByte("\\`*_[]<>|~#!&^$=", c) >= 0,
			i == 0 && (c == '-' || c == '+'), c == '@',
			c == ':' && strings.HasPrefix(s[i:], "://"),
			c == '.' && strings.HasSuffix(strings.ToLower(s[:i]), "www"),
			(c == '.' || c == ')') && i > 0 && allDigits(s[:i]) && (i+1 == len(s) || s[i+1] == ' '):
			b.WriteByte('\\')
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

func allDigits(s string) bool { return strings.Trim(s, "0123456789") == "" }
