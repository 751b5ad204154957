package bot_test

import (
	"strings"
	"testing"

	"scullion/bot"
	"scullion/bot/paper"
)

// What was paid in two currencies is added nowhere: not in a sheet and its papers, not in an account.
func TestCurrenciesApart(t *testing.T) {
	r, s := said(t, "ana: got 1kg leeks £4", "ana: got 1kg leeks $2, 1kg carrots $1", "ana: used 2kg leeks in the soup", "ana: used 500g carrots in the soup",
		"ana: the soup was for 2", "ana: binned 100g carrots", "ana: wrap up")
	if want := ", £4.00 of £4.00 and $2.50 of $3.00."; !strings.Contains(r.Text, want) {
		t.Errorf("no %q in %s", want, r.Text)
	}
	wraps(t, s, "k", func(x *bot.Records, list []*bot.Wrap) {
		w := bot.Latest(list)
		sheet, err := x.Sheet(w, "soup")
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			portions int
			of       func() string
			want     []string
		}{
			{0, func() string { return paper.Markdown(sheet, paper.Options{}) }, []string{"| 440 g | £4.00 and \\$2.00 |", "£4.00 and \\$2.50, £2.00 and \\$1.25 a portion"}},
			{0, func() string { return paper.HTML(sheet, paper.Options{}) }, []string{"<td>£4.00 and $2.00</td>", "£4.00 and $2.50, £2.00 and $1.25 a portion"}},
			{0, func() string { return paper.JSONLD(sheet, paper.Options{}) }, []string{`"estimatedCost": "£4.00 and $2.50"`}},
			{0, func() string { return paper.CSV(sheet, paper.Options{}) }, []string{"apart,yes,books,\r\ncost,leek,,,,,,,,,,4.00,2.00,yes,,,£\r\ncost,leek,,,,,,,,,,2.00,1.00,yes,,,$\r\n", "apart,yes,,\r\ncost,,,,,,,,,,,4.00,2.00,yes,,,£\r\ncost,,,,,,,,,,,2.50,1.25,yes,,,$\r\n", ",0.50,0.25,yes,yes,books,$\r\n"}},
			{4, func() string { return paper.CSV(sheet, paper.Options{Portions: 4}) }, []string{"cost,leek,,,,,,,,,,8.00,2.00,yes,,,£\r\ncost,leek,,,,,,,,,,4.00,1.00,yes,,,$\r\n"}},
		} {
			got := c.of()
			for _, want := range c.want {
				if !strings.Contains(got, want) {
					t.Errorf("no %q in\n%s", want, got)
				}
			}
			for _, sum := range []string{"6.00", "6.50", "7.00"} {
				if strings.Contains(got, sum) {
					t.Errorf("%s in\n%s", sum, got)
				}
			}
		}
		for _, o := range bot.Wasted(x, list) {
			if o.Cost != 0 || len(o.Apart) != 1 || o.Apart[0].Currency != "$" || o.Apart[0].Cost != 0.1 {
				t.Errorf("%+v", o)
			}
		}
	})
}
