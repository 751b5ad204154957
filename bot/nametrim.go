package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/pantry"
)

// leastTrim is from how many per cent of its weight on a food counts as one that has trim: that of topside is a
// thread. Common practice, no source.
const leastTrim = 5

// ofWhich finds what trim came off of which no food is named: what the same message used, else what the cook did
// lately. Where several of those usually have such trim, it is to be asked; where none has, it stays open.
func (t *turn) ofWhich(d *draft, list []draft) error {
	var lines []*pantry.Line
	for _, u := range list {
		if u.Act == pantry.Use && !u.Trim {
			lines = append(lines, t.ear.find(u.Food).lines...)
		}
	}
	if len(lines) == 0 {
		var err error
		if lines, err = t.usedLately(); err != nil {
			return err
		}
	}
	lines = t.haveTrim(lines, d.Off)
	switch {
	case len(lines) == 1:
		d.Food = lines[0].Name
	case len(lines) > 1:
		d.Food = "trim"
		for _, l := range lines[:min(len(lines), mostOptions)] {
			d.Among = append(d.Among, l.ID)
		}
	}
	return nil
}

// haveTrim leaves of lines those whose food usually has trim, each once; where some have a part that is called
// so, those.
func (t *turn) haveTrim(lines []*pantry.Line, off string) []*pantry.Line {
	var named, list []*pantry.Line
	for _, l := range lines {
		f := t.ear.foodOf(l)
		if f == nil || slices.Contains(list, l) || slices.Contains(named, l) {
			continue
		}
		if _, ok := trimming(f, off); ok && off != "" {
			named = append(named, l)
		} else if f.Refuse >= leastTrim {
			list = append(list, l)
		}
	}
	if len(named) > 0 {
		return named
	}
	return list
}

// usedLately gives the lines that this cook used of a little while ago, the last first.
func (t *turn) usedLately() (lines []*pantry.Line, err error) {
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return nil, err
	}
	for _, m := range list {
		if !t.fair(m) || m.N >= t.said.N {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if _, away := pantry.Away(e.Dish); e.Act == pantry.Use && !e.Trim && !away {
				lines = append(lines, t.k.Line(e.Line))
			}
		}
	}
	return lines, nil
}

// onlyTrim is a message that tells how much trim there was, and no more.
var onlyTrim = regexp.MustCompile(`(?i)^\s*(?:and |plus |that's |thats )?\d[\d.]* ?(?:kg|g|kilos?|grams?) (?:of )?(?:trim|trimmings|trimming|peelings|offcuts)\s*[.!]?$`)

// bareTrim reads a message of nothing but trim as told by the cook who just used what it came off.
func (t *turn) bareTrim() error {
	if !onlyTrim.MatchString(t.m.Text) {
		return nil
	}
	lines, err := t.usedLately()
	if err != nil || len(t.haveTrim(lines, "")) == 0 {
		return err
	}
	t.m.Text = "binned " + strings.TrimSpace(t.m.Text)
	return nil
}
