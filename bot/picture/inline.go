package picture

import (
	"fmt"
	"image/color"
	"strings"
)

// Inside a page whose policy forbids styles in it, and which may be light or dark, colours are
// classes: k with a number where something is filled, l where it is a line. Style has their rules.

// inks are a theme's colours, in the order of their classes.
func (t *theme) inks() []*color.RGBA {
	list := []*color.RGBA{&t.steel, &t.grain, &t.seam, &t.rule, &t.tick, &t.grid, &t.tape, &t.shade, &t.ink, &t.chalk, &t.dim, &t.twine, &t.strand, &t.hatched}
	for n := range t.marks {
		list = append(list, &t.marks[n])
	}
	return list
}

// classed is a theme of classes: a colour with no alpha is one, its red the number.
var classed = func() *theme {
	t := light
	t.marks = append([]color.RGBA(nil), light.marks...)
	for n, c := range t.inks() {
		*c = color.RGBA{R: uint8(n)}
	}
	return &t
}()

// fill and stroke are the attributes that colour a shape, or words.
func fill(c color.RGBA) string {
	if c.A == 0 {
		return fmt.Sprintf(`class="k%d"`, c.R)
	}
	return fmt.Sprintf(`fill="%s"`, css(c))
}

func stroke(c color.RGBA) string {
	if c.A == 0 {
		return fmt.Sprintf(`class="l%d"`, c.R)
	}
	return fmt.Sprintf(`stroke="%s"`, css(c))
}

// Style are the rules, in CSS, of the classes that an Inline picture has: light, and dark where the
// reader prefers that.
func Style() string {
	var b strings.Builder
	rules := func(t *theme) {
		for n, c := range t.inks() {
			fmt.Fprintf(&b, ".k%d{fill:%s}.l%d{stroke:%s}", n, css(*c), n, css(*c))
		}
	}
	rules(&light)
	b.WriteString("@media (prefers-color-scheme:dark){")
	rules(&dark)
	b.WriteString("}")
	return b.String()
}
