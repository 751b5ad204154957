package picture

import (
	"fmt"
	"strings"
)

// Text tells a timetable in words: its dishes, then a lane a line, each of its steps by the clock. It has
// all that the picture shows.
func (t Timetable) Text() string {
	t = t.tidy()
	head := sentence(t.Title) + "From " + t.at(0)
	if !t.Ends.IsZero() {
		head += ", all ready " + t.Ends.In(t.Begins.Location()).Format("15:04")
	}
	head += "."
	if !t.Now.IsZero() {
		head += " Now " + t.Now.In(t.Begins.Location()).Format("15:04") + "."
	}
	lines := []string{head}
	called := map[int]string{}
	for _, d := range t.dishes() {
		if d.Dish == "" {
			continue
		}
		called[d.DishN] = d.Dish
		lines = append(lines, fmt.Sprintf("Dish %d: %s.", d.DishN, d.Dish))
	}
	for _, l := range t.Lanes {
		var steps []string
		for _, s := range l.Steps {
			steps = append(steps, t.say(s, called[s.DishN]))
		}
		if steps == nil {
			steps = []string{"nothing"}
		}
		lines = append(lines, l.Name+": "+strings.Join(steps, "; ")+".")
	}
	return strings.Join(lines, "\n")
}

// say: "17:48 slice (leek), 2 min, dish 1, done".
// Called is what its dish is called, as far as that was told.
func (t *Timetable) say(s Step, called string) string {
	parts := []string{t.at(s.From) + " " + s.Text, fmt.Sprintf("%d min", s.Minutes)}
	switch {
	case s.DishN > 0 && s.Dish == called:
		parts = append(parts, fmt.Sprintf("dish %d", s.DishN))
	case s.DishN > 0:
		parts = append(parts, strings.TrimSpace(fmt.Sprintf("dish %d %s", s.DishN, s.Dish)))
	case s.Dish != "":
		parts = append(parts, s.Dish)
	}
	if s.Alone {
		parts = append(parts, "by itself")
	}
	if s.Done {
		parts = append(parts, "done")
	}
	if s.On {
		parts = append(parts, "on now")
	}
	return strings.Join(parts, ", ")
}

// Text tells a stock in words, a food a line.
func (s Stock) Text() string {
	s = s.tidy()
	head := sentence(s.Title)
	if !s.At.IsZero() {
		head += "At " + s.At.Format("15:04") + ". "
	}
	lines := []string{head + "Most urgent first."}
	if len(s.Lines) == 0 {
		lines = []string{head + "Nothing is left."}
	}
	for _, l := range s.Lines {
		var parts []string
		for _, p := range []string{l.amounts(), said("claimed", l.Claimed), l.Date} {
			if p != "" {
				parts = append(parts, p)
			}
		}
		if l.Urgent {
			parts = append(parts, first)
		}
		lines = append(lines, fmt.Sprintf("%s: %s; %.0f%% of what came, %.0f%% claimed.", l.Name, strings.Join(parts, "; "), l.Share*100, l.ClaimedShare*100))
	}
	return strings.Join(lines, "\n")
}

// amounts: "700 g left, 300 g free".
func (l *StockLine) amounts() string {
	text := l.Left
	if text != "" {
		text += " left"
	}
	if l.Free != "" {
		if text != "" {
			text += ", "
		}
		text += l.Free + " free"
	}
	return text
}

// said puts a word before what there is.
func said(word, what string) string {
	if what == "" {
		return ""
	}
	return word + ": " + what
}

// sentence ends what is said, and makes room for what follows.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	if !strings.ContainsAny(text[len(text)-1:], ".!?") {
		text += "."
	}
	return text + " "
}
