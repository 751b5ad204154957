package technique

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// frameHeader is the first line of a table of frames. What is not told here is
// written as in a table of techniques.
//
//	lead      role whose food leads
//	cut       food or kind, parted by "/", then "=" and what it is cut to where it leads
//	roles     role:foods min-max:grams min-max a portion, all its foods together:heat; 0 foods: may stay empty
//	suits     role=food or kind, parted by "/", "!" behind what a cook thinks of first
//	never     as for techniques, over all roles
//	handles   for each step the roles whose grams it grows with ("base+star", "-" none)
//	cooks     for each step the roles that it cooks
//	mixes     1 to 3
//	title     "{base}" stands for the food of the base, "a and b" where there are more
var frameHeader = []string{
	"id", "name", "family", "serve", "lead", "form", "cut", "roles", "suits", "never", "staples", "steps", "after",
	"handles", "cooks", "holds", "mixes", "title", "how", "caution", "source",
}

// ReadFrames reads a table of frames; name stands before the line number in
// errors. The first fault ends it, with file, line and reason, as with Read.
// Refused besides: a role that no step handles, a role said to be cooked that no
// hot step cooks, or boiled that none boils, and an oven that is not waited for.
func ReadFrames(name string, r io.Reader) ([]Frame, error) {
	var list []Frame
	seen := map[string]bool{}
	err := eachRow(name, r, frameHeader, func(row *row) {
		f := row.frame()
		if row.err == nil && (seen[f.ID] || seen[f.Title]) {
			row.fail("id", "id or title is there already: "+f.ID)
		}
		seen[f.ID], seen[f.Title] = true, true
		list = append(list, f)
	})
	if err != nil {
		return nil, err
	}
	return list, nil
}

func (r *row) frame() Frame {
	f := Frame{
		ID: r.must("id"), Name: r.must("name"), Family: r.oneOf("family", FrameFamilies),
		Serve: r.oneOf("serve", Serves), Form: r.oneOf("form", Forms), Cuts: r.cuts(), Roles: r.frameRoles(),
		Never: r.nevers(), Staples: r.staples(), Steps: r.steps(),
		Holds: r.list("holds"), Mixes: int(r.number("mixes", r.text("mixes"), 1, 3)),
		Title: r.must("title"), How: r.must("how"), Caution: r.cautions(), Source: r.must("source"),
	}
	f.Lead = f.Role(r.must("lead"))
	f.Handles, f.Cooks = r.perStep("handles", &f), r.perStep("cooks", &f)
	if r.err == nil {
		r.roleSuits(&f)
	}
	if r.err == nil { // the rest looks at what the fields say together
		r.wholeFrame(&f)
	}
	return f
}

// cuts reads "hard root/squash=dice of 15 mm;mushroom=slices of 5 mm".
func (r *row) cuts() (list []Cut) {
	for _, s := range r.list("cut") {
		of, to, found := strings.Cut(s, "=")
		c := Cut{strings.Split(of, "/"), to}
		if !found || to == "" || slices.Contains(c.Of, "") {
			r.fail("cut", "is not what/what=cut: "+s)
		}
		list = append(list, c)
	}
	return list
}

// frameRoles reads "base:1-3:180-280:boil;crunch:0-1:8-20:none".
func (r *row) frameRoles() []FrameRole {
	var out []FrameRole
	for _, s := range r.list("roles") {
		part := strings.Split(s, ":")
		if len(part) != 4 || !slices.Contains(Roles, part[0]) || !slices.Contains(heats, part[3]) {
			r.fail("roles", fmt.Sprintf("%q is not role:foods:grams:heat", s))
			return nil
		}
		if slices.ContainsFunc(out, func(o FrameRole) bool { return o.Name == part[0] }) {
			r.fail("roles", part[0]+" is there already")
		}
		least, most := r.span("roles", part[1], 0, 9)
		role := FrameRole{Name: part[0], Least: int(least), Most: int(most), Heat: Heat(slices.Index(heats, part[3]))}
		role.Min, role.Max = r.span("roles", part[2], 1, 1000)
		if role.Most == 0 || most != float64(role.Most) || least != float64(role.Least) {
			r.fail("roles", fmt.Sprintf("%q: foods are whole, one at most or more", s))
		}
		out = append(out, role)
	}
	return out
}

// span reads "2-4", or "2" for both ends.
func (r *row) span(column, s string, least, most float64) (a, b float64) {
	from, to, ok := strings.Cut(s, "-")
	if !ok {
		to = from
	}
	a = r.number(column, from, least, most)
	return a, r.number(column, to, a, most)
}

// perStep reads a column with an entry a step: roles parted by "+", or "-".
func (r *row) perStep(column string, f *Frame) [][]int {
	items := r.list(column)
	if len(items) != len(f.Steps) {
		r.fail(column, fmt.Sprintf("%d entries for %d steps", len(items), len(f.Steps)))
		return nil
	}
	out := make([][]int, len(items))
	for i, item := range items {
		if item == "-" {
			continue
		}
		for _, name := range strings.Split(item, "+") {
			at := f.Role(name)
			if at < 0 || slices.Contains(out[i], at) {
				r.fail(column, fmt.Sprintf("%q: the frame has no role %q, or it stands there twice", item, name))
			}
			out[i] = append(out[i], at)
		}
	}
	return out
}

// roleSuits reads "base=leek!/potato;lift=lemon".
func (r *row) roleSuits(f *Frame) {
	for _, s := range r.list("suits") {
		name, words, _ := strings.Cut(s, "=")
		at := f.Role(name)
		if at < 0 || f.Roles[at].Suits != nil {
			r.fail("suits", fmt.Sprintf("%q: the frame has no such role, or it stands there twice", name))
			return
		}
		for _, w := range strings.Split(words, "/") {
			what, best := strings.CutSuffix(w, "!")
			if what == "" {
				r.fail("suits", name+" has an empty item")
			}
			f.Roles[at].Suits = append(f.Roles[at].Suits, Suit{what, best})
		}
	}
}

var roleMark = regexp.MustCompile(`\{([^}]*)\}`)

// wholeFrame looks at what the fields say together.
func (r *row) wholeFrame(f *Frame) {
	if f.Lead < 0 || f.Roles[f.Lead].Least == 0 {
		r.fail("lead", "is not a role that is always filled")
	}
	names := roleMark.FindAllStringSubmatch(f.Title, -1)
	for _, m := range names {
		if at := f.Role(m[1]); at < 0 || f.Roles[at].Least == 0 {
			r.fail("title", m[0]+" is not a role that is always filled")
		}
	}
	if names == nil {
		r.fail("title", "names no role")
	}
	for i := range f.Roles {
		r.cooked(f, i)
	}
	r.preheated(f.Steps)
}

// cooked holds a role to what the steps do to it, and notes its time at the boil.
func (r *row) cooked(f *Frame, role int) {
	x := &f.Roles[role]
	handled, hot, boils := false, false, false
	for i, s := range f.Steps {
		handled = handled || slices.Contains(f.Handles[i], role)
		if !slices.Contains(f.Cooks[i], role) {
			continue
		}
		hot = hot || s.hot()
		if s.boils() {
			boils, x.Boil = true, max(x.Boil, s.Unattended)
		}
	}
	switch {
	case x.Suits == nil:
		r.fail("suits", "nothing for "+x.Name)
	case !handled:
		r.fail("handles", "no step handles "+x.Name)
	case x.Heat > None && !hot:
		r.fail("cooks", "no hot step cooks "+x.Name)
	case x.Heat == Boil && !boils:
		r.fail("cooks", "no step at 98 C or more on a ring cooks "+x.Name)
	case x.Heat < Boil:
		x.Boil = 0
	}
}

// preheated refuses an oven step that does not wait for the one that heats it.
func (r *row) preheated(steps []Step) {
	ready := make([]int, len(steps)) // the heat, C, that the oven surely has when a step begins
	for i, s := range steps {
		for _, a := range s.After {
			ready[i] = max(ready[i], ready[a])
		}
		switch {
		case s.Kit != "oven":
		case s.Heats():
			ready[i] = s.Temp
		case ready[i] != s.Temp:
			r.fail("after", "step "+strconv.Itoa(i+1)+" does not wait for an oven at its heat")
		}
	}
}
