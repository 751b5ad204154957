package picture

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"strconv"
	"strings"
)

// svg writes a drawing as an SVG document. Words stay words, in a font of the reader's;
// where one that is wider than the Go fonts could leave its room, it is held to what was
// measured. There are no styles, scripts or ids in it, so that it may stand inside a page
// of any policy, twice if need be.
func (d *drawing) svg(w io.Writer, title, said string) error {
	var b bytes.Buffer
	inside := d.fill.A == 0
	role := `role="img"`
	if inside {
		role = `aria-hidden="true"`
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" %s viewBox="0 0 %[2]s %[3]s" width="%[2]s" height="%[3]s" font-family="Go, system-ui, sans-serif" font-size="%s" %s>`+"\n", role, num(d.w), num(d.h), num(d.size), fill(d.fill))
	if !inside {
		fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", escape(clean(title)), escape(said))
	}
	for n := 0; n < len(d.shapes); n++ {
		switch s := d.shapes[n].(type) {
		case area:
			s.svg(&b)
		case box:
			if s.dash != nil {
				s.broken(&b)
				break
			}
			fmt.Fprintf(&b, `<path %s d="`, fill(s.fill))
			for ; n < len(d.shapes); n++ { // those of a colour together
				next, ok := d.shapes[n].(box)
				if !ok || next.dash != nil || next.fill != s.fill {
					break
				}
				fmt.Fprintf(&b, "M%s %sh%sv%sh%sz", num(next.x), num(next.y), num(next.w), num(next.h), num(-next.w))
			}
			n--
			b.WriteString("\"/>\n")
		}
	}
	for i := range d.words {
		d.words[i].svg(&b, d.size, d.fill)
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

func (s box) broken(b *bytes.Buffer) {
	var dash []string
	for _, x := range s.dash {
		dash = append(dash, num(x))
	}
	thick, to := s.h, fmt.Sprintf("M%s %sh%s", num(s.x), num(s.y+s.h/2), num(s.w))
	if s.down {
		thick, to = s.w, fmt.Sprintf("M%s %sv%s", num(s.x+s.w/2), num(s.y), num(s.h))
	}
	fmt.Fprintf(b, `<path %s stroke-width="%s" stroke-dasharray="%s" d="%s"/>`+"\n", stroke(s.fill), num(thick), strings.Join(dash, " "), to)
}

func (s area) svg(b *bytes.Buffer) {
	fmt.Fprintf(b, `<path %s d="`, fill(s.fill))
	for _, poly := range s.polys {
		at := poly[0]
		fmt.Fprintf(b, "M%s %sl", num(at.x), num(at.y))
		for i, p := range poly[1:] {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(num(p.x-at.x) + " " + num(p.y-at.y))
			at = p
		}
		b.WriteByte('z')
	}
	b.WriteString("\"/>\n")
}

// wider is how much wider than the Go fonts a reader's font may be, before words are held
// to their measure: the bold of DejaVu Sans, the widest that comes with a system, is a
// quarter wider.
const wider = 1.3

// svg writes words; what they have of the whole picture's size and colour need not be said.
func (w *words) svg(b *bytes.Buffer, size float64, usual color.RGBA) {
	fmt.Fprintf(b, `<text x="%s" y="%s"`, num(w.x), num(w.y))
	if w.size != size {
		fmt.Fprintf(b, ` font-size="%s"`, num(w.size))
	}
	if w.fill != usual {
		b.WriteString(" " + fill(w.fill))
	}
	if w.heavy {
		b.WriteString(` font-weight="bold"`)
	}
	if w.struck {
		b.WriteString(` text-decoration="line-through"`)
	}
	if w.wide*wider > w.room || !faceOf(w.heavy).has(w.text) {
		fmt.Fprintf(b, ` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(w.wide))
	}
	fmt.Fprintf(b, ">%s</text>\n", escape(w.text))
}

// num writes a number with two decimals at most.
func num(x float64) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x, 'f', 2, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func css(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func escape(text string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(text)) // a Builder takes all
	return b.String()
}
