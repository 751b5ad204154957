package language

import (
	"slices"
	"strings"
	"testing"
)

// What a message names, with what is not in it and what is only spoken of.
func TestMentions(t *testing.T) {
	dish := func(s string) bool { return s == "pilaf" || s == "chips" }
	for text, want := range map[string]string{
		"used 500g carrots in the pilaf with butter":        "carrots, [pilaf], butter with",
		"used 500g carrots in the pilaf (and butter)":       "carrots, [pilaf], butter with",
		"used 500g carrots in the pilaf then butter on top": "carrots, [pilaf], butter then; in",
		"used 500g carrots in the pilaf 3 eggs":             "carrots, [pilaf], eggs",
		"used 500g carrots in the pilaf, no butter":         "carrots, [pilaf], -butter",
		"used 500g carrots in the pilaf, the butter is low": "carrots, [pilaf], ~butter; talk",
		"chips fried in the same oil as the leeks":          "[chips], leeks; in; touch",
		"swapped the butter for leeks in the pilaf":         "-butter, leeks for, [pilaf]; mend",
		"garnish pilaf with leeks":                          "[pilaf], leeks with; in",
	} {
		m := reader().Mentions(text, dish)
		var list []string
		for _, x := range m.List {
			s := x.Name
			if x.Dish {
				s = "[" + s + "]"
			} else if slices.Contains([]string{"with", "then", "for"}, x.Joined) {
				s += " " + x.Joined
			}
			if x.Out {
				s = "-" + s
			}
			if x.Talk {
				s = "~" + s
			}
			list = append(list, s)
		}
		got := strings.Join(list, ", ")
		for _, c := range []string{SaysIn, SaysTouch, SaysMend, SaysTalk} {
			if m.Says[c] && !(c == SaysMend && strings.Contains(text, " no ")) {
				got += "; " + c
			}
		}
		if got != want {
			t.Errorf("%s:\n%s\nwant\n%s", text, got, want)
		}
	}
}
