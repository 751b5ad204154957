package terminal

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"
	"golang.org/x/term"
)

// Widths of the page, in columns. Longer lines are hard to read.
const (
	usualWidth = 80
	leastWidth = 30
	mostWidth  = 100
)

// Screen is where a room is shown.
type Screen struct {
	Out    io.Writer
	Live   bool // a person looks on: there is a prompt, and hints are given
	Named  bool // text stands beside the name of who says it, wrapped
	Colour bool // decoration only; nothing is told by it alone
	Width  int  // columns
}

// NewScreen looks at what out is. Env gives environment variables: NO_COLOR
// and TERM are honoured.
func NewScreen(in io.Reader, out io.Writer, env func(string) string) Screen {
	s := Screen{Out: out, Width: usualWidth}
	o, okOut := out.(*os.File)
	i, okIn := in.(*os.File)
	if !okOut || !okIn || !term.IsTerminal(int(o.Fd())) || !term.IsTerminal(int(i.Fd())) {
		return s
	}
	s.Live, s.Named = true, true
	s.Colour = env("NO_COLOR") == "" && env("TERM") != "dumb"
	s.resize()
	return s
}

// resize takes the width that the terminal has now.
func (s *Screen) resize() {
	if f, ok := s.Out.(*os.File); ok && s.Live {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
			s.Width = max(leastWidth, min(w, mostWidth))
		}
	}
}

// dim gives s set back where there is colour.
func (s *Screen) dim(text string) string {
	if !s.Colour {
		return text
	}
	return "\x1b[2m" + text + "\x1b[0m"
}

// say shows text by name: on a screen with names in a column of their own and
// the text wrapped beside it, elsewhere the text alone.
func (s *Screen) say(name, text string) error {
	s.resize()
	text = strings.TrimRight(Plain(text), " \n")
	if !s.Named {
		return s.write(text + "\n")
	}
	label := s.dim(column(name))
	var b strings.Builder
	for _, l := range wrap(text, s.Width-columnWidth(name)-1) {
		b.WriteString(strings.TrimRight(label+l, " ") + "\n")
		label = strings.Repeat(" ", columnWidth(name))
	}
	return s.write(b.String())
}

func (s *Screen) write(text string) error {
	if _, err := io.WriteString(s.Out, text); err != nil {
		return fmt.Errorf("the reply cannot be shown: %w", err)
	}
	return nil
}

// hint shows a remark about the room itself, to people only.
func (s *Screen) hint(text string) error {
	if !s.Live {
		return nil
	}
	s.resize()
	for _, l := range wrap(text, s.Width-1) {
		if err := s.write(s.dim(l) + "\n"); err != nil {
			return err
		}
	}
	return nil
}

// Names stand in a column that fits "scullion"; a long one is cut.
const (
	usualColumn = 10
	mostColumn  = 18
)

// column is the name filled up to the width of its column.
func column(name string) string {
	name = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.C, r) { // the line editor refuses them
			return -1
		}
		return r
	}, name)
	name = runewidth.Truncate(name, mostColumn-2, "…")
	return runewidth.FillRight(name, max(usualColumn, runewidth.StringWidth(name)+2))
}

func columnWidth(name string) int { return runewidth.StringWidth(column(name)) }

// wrap breaks text into lines of at most width columns, at spaces where it
// can. Line ends in the text stay; a line goes on under its own first word.
func wrap(text string, width int) (out []string) {
	for _, l := range strings.Split(text, "\n") {
		body := strings.TrimLeft(l, " ")
		in := min(len(l)-len(body), width/2)
		for _, part := range wrapLine(body, width-in) {
			out = append(out, strings.Repeat(" ", in)+part)
		}
	}
	return out
}

func wrapLine(l string, width int) (out []string) {
	for runewidth.StringWidth(l) > width {
		head := runewidth.Truncate(l, width+1, "")
		cut := strings.LastIndexByte(head, ' ')
		if cut <= 0 {
			head = runewidth.Truncate(l, width, "")
			cut = len(head)
		}
		if cut == 0 { // one character wider than the page
			break
		}
		out = append(out, strings.TrimRight(l[:cut], " "))
		l = strings.TrimLeft(l[cut:], " ")
	}
	return append(out, l)
}
