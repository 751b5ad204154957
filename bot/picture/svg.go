package picture

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"
)

// svg writes a drawing as SVG 1.1: words stay words, as wide as they were laid out.
func (d *drawing) svg(w io.Writer, title string) error {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="%s" height="%s" viewBox="0 0 %s %s" font-family="Go, 'Noto Sans', system-ui, sans-serif">`+"\n", num(d.W), num(d.H), num(d.W), num(d.H))
	fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", escape(title), escape(d.Text))
	fmt.Fprintf(&b, `<defs><pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="2" height="5" fill="%s"/></pattern></defs>`+"\n", d.hex(marker))
	for _, s := range d.Shapes {
		switch {
		case s.Words != "":
			weight := ""
			if s.Bold {
				weight = ` font-weight="700"`
			}
			fmt.Fprintf(&b, `<text x="%s" y="%s" font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs">%s</text>`+"\n", num(s.X), num(s.Y), num(s.Size), weight, d.hex(s.Ink), num(s.W), escape(s.Words))
		default:
			fmt.Fprintf(&b, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s"/>`+"\n", num(s.X), num(s.Y), num(s.W), num(s.H), d.hex(s.Ink))
			if s.Hatched {
				fmt.Fprintf(&b, `<rect x="%s" y="%s" width="%s" height="%s" fill="url(#hatch)"/>`+"\n", num(s.X), num(s.Y), num(s.W), num(s.H))
			}
		}
	}
	b.WriteString("</svg>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func (d *drawing) hex(i ink) string {
	c := d.o.color(i)
	return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
}

// num prints to the hundredth.
func num(f float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", f), "0"), ".")
}

func escape(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // to memory: no error
	return b.String()
}
