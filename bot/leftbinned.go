package bot

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// What is left of a dish and binned in one breath: "1.1kg bhaji left, 500g binned", "3kg roasties left, bin 2 keep
// 1", "chips for 12, half of them binned".
const (
	partSaid   = `(\d[\d.,]*\s?(?:kgs?|g|grams?|l|ml|litres?)?|half|a half|a third|a quarter|two thirds|three quarters|all|most)(?: of (?:it|them|that|those))?`
	binSaid    = `(?:,? ?(?:but |and |then )?(?:i |we |had to )*(?:bin|binned|chuck|chucked|threw|throw|dumped|tossed)(?: away| out)? ` + partSaid + `|,? ?(?:but |and |with )?` + partSaid + ` (?:was |were |got |of it |is |are )*(?:binned|bin|chucked|thrown away|thrown out|in the bin|went in the bin))`
	keptBehind = `(?:,? ?(?:and |& )?(?:keep|kept|keeping|saved|save|put by) [\w. ]+)?[.!]?\s*$`
)

var (
	leftBinned   = regexp.MustCompile(`(?i)^\s*((?:theres |there's |we have |weve got )?\d[^,?]*? left(?: over)?)` + binSaid + keptBehind)
	servedBinned = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z' -]+?)(?: was| were| are| is)? for (\d{1,4})` + binSaid + keptBehind)
	endsInUnit   = regexp.MustCompile(`(?i)\d\s?(kgs?|g|grams?|l|ml|litres?)\b`)
)

// leftBinnedTalk writes what was left of a dish, or for how many it was, and what of that was binned. Done is
// false where the message says neither.
func (t *turn) leftBinnedTalk(why string) (r Reply, done bool, err error) {
	if m := leftBinned.FindStringSubmatch(t.m.Text); m != nil {
		d, err := t.leftDraft(m[1])
		if err != nil || d == nil || d.Amount.How != language.Measured {
			return r, false, err
		}
		said := m[2] + m[3]
		if unit := endsInUnit.FindStringSubmatch(m[1]); unit != nil && !endsInUnit.MatchString(said) && strings.ContainsAny(said, "0123456789") { // "bin 2" of 3 kg
			said += unit[1]
		}
		part, ok := t.amountSaid(said)
		if ok && part.How == language.Share {
			of := part.N
			part = language.Amount{How: language.Measured, Kind: d.Amount.Kind, Said: part.Said, Approx: true}
			part.Base, err = of.Of(d.Amount.Base)
		}
		if err != nil || !ok || part.How != language.Measured || part.Base > d.Amount.Base {
			return r, false, err
		}
		r, err = t.write([]draft{*d, {Act: pantry.Bin, Food: d.Food, Line: d.Line, Amount: part, Day: t.day(), Taken: true}}, why)
		return r, r.Kind != Silent, err
	}
	m := servedBinned.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	name := strings.ToLower(m[1])
	part, ok := t.amountSaid(m[3] + m[4])
	if !ok {
		return r, false, nil
	}
	dish, _, err := t.cooked(name)
	if err != nil {
		return r, false, err
	}
	if dish == "" {
		if !t.reader().NamesDish(name) && !t.ear.find(name).exact {
			return r, false, nil
		}
		return Reply{Kind: Error, Text: fmt.Sprintf(`Nothing is logged that went into the %s, so nothing was written. "used 2kg potatoes in the %s" says it; then tell what was binned.`, name, name)}, true, nil
	}
	n, _ := strconv.Atoi(m[2])
	if r, done, err = t.served(&language.Question{About: language.AboutPortions, Food: dish, N: n}); err != nil || !done {
		return r, done, err
	}
	binned, err := t.write([]draft{{Act: pantry.Bin, Food: dish, Amount: part, Day: t.day()}}, why)
	if binned.Kind != Silent {
		binned.Text = r.Text + "\n" + binned.Text
		return binned, true, err
	}
	return r, true, err
}

// amountSaid reads an amount: "500g", "half".
func (t *turn) amountSaid(said string) (language.Amount, bool) {
	list := t.reader().Read("binned " + said + " of the leeks").Statements
	if len(list) != 1 || len(list[0].Items) != 1 {
		return language.Amount{}, false
	}
	a := list[0].Items[0].Amount
	return a, a.How == language.Measured || a.How == language.Share
}
