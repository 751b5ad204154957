package bot_test

import (
	"testing"
	"time"

	"scullion/bot"
)

// A label tells the day on which food was made, not that on which somebody told of it.
func TestLabelTellsTheDayItWasMade(t *testing.T) {
	_, s := said(t, "made 2kg chilli yesterday", "made 1kg soup", "the soup was made yesterday", "put by 600g goulash made on sunday")
	want := map[string]string{"Cooked chilli": "2026-03-02", "Soup, made up": "2026-03-02", "Goulash, made up": "2026-03-01"}
	wraps(t, s, "k", func(x *bot.Records, list []*bot.Wrap) {
		labels, err := bot.Labels(x, bot.WithDishes(list, 0), "2026-03-03", time.UTC, "uk")
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range labels {
			if got := l.Made.Format(time.DateOnly); got != want[l.Name] {
				t.Errorf("%s: made %s, want %s", l.Name, got, want[l.Name])
			}
			delete(want, l.Name)
		}
	})
	if len(want) > 0 {
		t.Errorf("no label for %v", want)
	}
}
