package paper_test

import (
	"strings"
	"testing"
	"time"

	"scullion/bot/paper"
	"scullion/pantry/account"
)

// How long a dish takes is told where it was cooked in one go: a dough that stood overnight takes no
// nineteen hours.
func TestTotalTime(t *testing.T) {
	at := func(hours float64, minutes int) account.Step {
		return account.Step{At: evening.Add(time.Duration(hours * float64(time.Hour))), Do: "something", Minutes: minutes, Logged: true}
	}
	for _, c := range []struct {
		name  string
		steps []account.Step
		want  string
	}{
		{"one go", []account.Step{at(0, 0), at(0.5, 20)}, `"totalTime": "PT50M"`},
		{"not in order", []account.Step{at(0.5, 20), at(0, 0)}, `"totalTime": "PT50M"`},
		{"a long braise", []account.Step{at(0, 0), at(6, 0)}, `"totalTime": "PT6H"`},
		{"overnight in the oven", []account.Step{at(0, 600), at(9, 60)}, `"totalTime": "PT10H"`},
		{"two days", []account.Step{at(0, 30), at(18, 60)}, ""},
		{"one step", []account.Step{at(0, 0)}, ""},
	} {
		got := paper.JSONLD(&account.Sheet{Dish: "loaf", Steps: c.steps}, paper.Options{})
		if has := strings.Contains(got, "totalTime"); has != (c.want != "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: no %s in %s", c.name, c.want, got)
		}
	}
}
