package picture

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
)

// Inside a page a picture has no colours but its classes', all of which have rules, light and dark;
// nothing that a strict policy forbids; and is told by the page itself.
func TestInline(t *testing.T) {
	style := Style()
	lightly, darkly, ok := strings.Cut(style, "@media (prefers-color-scheme:dark){")
	if !ok {
		t.Fatal(style)
	}
	for name, x := range map[string]interface {
		drawing(Options) *drawing
	}{"timetable": sample(), "8 dishes": eightDishes(), "stock": shelfSample()} {
		var b bytes.Buffer
		if err := x.drawing(Options{Inline: true}).svg(&b, "title", "said"); err != nil {
			t.Fatal(err)
		}
		svg := b.String()
		if strings.Contains(svg, "style") || strings.Contains(svg, "#") || strings.Contains(svg, "<title>") || !strings.Contains(svg, `aria-hidden="true"`) {
			t.Errorf("%s: %.300s", name, svg)
		}
		classes := regexp.MustCompile(`class="([kl]\d+)"`).FindAllStringSubmatch(svg, -1)
		if len(classes) < 10 {
			t.Errorf("%s: %d classes", name, len(classes))
		}
		for _, c := range classes {
			if rule := "." + c[1] + "{"; !strings.Contains(lightly, rule) || !strings.Contains(darkly, rule) {
				t.Errorf("%s: no rule for %s", name, c[1])
			}
		}
	}
	if a, b := plainText(t, Options{}), plainText(t, Options{Inline: true}); a != b {
		t.Errorf("other words:\n%s\n%s", a, b)
	}
}

// plainText is what is written in a picture.
func plainText(t *testing.T, o Options) (list string) {
	var b bytes.Buffer
	if err := sample().SVG(&b, o); err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`<text[^>]*>([^<]*)<`).FindAllStringSubmatch(b.String(), -1) {
		list += m[1] + "\n"
	}
	return list
}
