package bot

import (
	"regexp"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// onlyUsed is a message that sets right how much went into a dish: "the stew only used 4kg beef", "dish 1 only
// took 300g".
var onlyUsed = regexp.MustCompile(`(?i)^\s*(?:actually |sorry |no,? |oops,? )?(?:the )?(dish \d+|[a-z' -]+?) (?:only (?:used|took|had|got)|(?:used|took|had|got) only) (\d.*?)[.!]?\s*$`)

// shouldBe is the same said of the food: "rice for the pilau should have been 3.5kg".
var shouldBe = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?) (?:for|in) (?:the )?([a-z' -]+?) (?:should have been|should of been|should be|was actually|was really) (\d.*?)[.!]?\s*$`)

// onlyUsedTalk corrects the entry of a dish that such a message means. Done is false where it means no one
// entry.
func (t *turn) onlyUsedTalk() (r Reply, done bool, err error) {
	m := onlyUsed.FindStringSubmatch(t.m.Text)
	if x := shouldBe.FindStringSubmatch(t.m.Text); x != nil {
		m = []string{"", x[2], x[3] + " " + x[1]}
	}
	if m == nil {
		return r, false, nil
	}
	a := t.reader().Answer(m[2])
	if a.Amount.How != language.Measured && a.Amount.How != language.Pieces {
		return r, false, nil
	}
	dish, err := t.dishMeant(m[1])
	if err != nil || dish == "" {
		return r, false, err
	}
	var food []string
	for _, s := range t.reader().Read("used " + m[2]).Statements {
		for _, it := range s.Items {
			if it.Food != "" {
				food = append(food, it.Food)
			}
		}
	}
	in, err := t.book.IntoDish(dish, t.m.At.Add(-serviceLong))
	if err != nil || len(food) > 1 {
		return r, false, err
	}
	var line *pantry.Line
	for _, e := range in {
		l := t.k.Line(e.Line)
		if e.Act != pantry.Use || len(food) == 1 && !t.isFood(e, food[0]) {
			continue
		}
		if line != nil && line != l {
			return Reply{Kind: Answer, Text: "Of which food? Say it with its name, like \"the " + dish + " only used " + a.Amount.Said + " " + l.Name + "\"."}, true, nil
		}
		line = l
	}
	if line == nil {
		return Reply{Kind: Answer, Text: "Nothing of that was logged into the " + dish + ": nothing changed."}, true, nil
	}
	target, entries, i, err := t.lastEntry("", pantry.LookBack, func(e pantry.Entry) bool {
		return e.Act == pantry.Use && e.Dish == dish && e.Line == line.ID && !e.Trim
	})
	if err != nil || target == nil {
		return r, false, err
	}
	return t.mendOf(target, entries, i, line, a.Amount)
}

// dishMeant is the dish that words or its number call; "" none that was cooked lately.
func (t *turn) dishMeant(said string) (string, error) {
	if n, err := strconv.Atoi(strings.TrimPrefix(strings.ToLower(said), "dish ")); err == nil {
		_, list, err := t.wraps()
		if err != nil {
			return "", err
		}
		if w := WithDishes(list, 0); w != nil && n >= 1 && n <= len(w.Dishes) {
			return w.Dishes[n-1].Name, nil
		}
		return "", nil
	}
	dish, _, err := t.cooked(said)
	return dish, err
}
