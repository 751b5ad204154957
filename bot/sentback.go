package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// Food that went back to who sold it, where that is not said: "sent back 1kg leeks", "1kg leeks rejected, they were
// slimy", "the leeks went back on the van".
const (
	backAmount = `(\d[\d.,]* ?(?:kgs?|kilos?|g|grams?|l|ml|litres?)|\d{1,3}) `
	backFood   = `(?:of )?(?:the |our )?([a-z][a-z' -]*?)`
	backWhy    = `(?: back)?(?:(?:,| as| because| on| with| at| -) .*)?[.!\s]*$`
)

var (
	sentBack   = regexp.MustCompile(`(?i)^\s*(?:i |we |had to |have |we've |weve |ive )*(?:sent back|sending back|sent|rejected|turned away) ` + backAmount + backFood + backWhy)
	wentBack   = regexp.MustCompile(`(?i)^\s*` + backAmount + backFood + ` (?:was |were |got |have |has |had )*(?:sent back|went back|gone back|go back|rejected|turned away)` + backWhy)
	turnedAway = regexp.MustCompile(`(?i)\b(?:rejected|turned away)\b`) // which is done at the door
	backUntold = regexp.MustCompile(`(?i)^\s*(?:(?:i |we |had to |have |we've |weve |ive |just |chef |boss )*|(?:the |our )?(?:driver|supplier|delivery (?:guy|man|driver|lad)|van (?:man|driver)|butcher|fishmonger|wholesaler) (?:has |have |had |just |is |was )*)(?:(?:sent|sending|send|took|handed) (?:all )?(?:the |our |that |all the |that lot of )?(?P<a>[a-z][a-z' -]*?) back|(?:rejected|rejecting|refused|refusing|turned away|sent back|sending back) (?:all )?(?:of )?(?:the |our |that |all the )?(?P<b>[a-z][a-z' -]*?)|(?:the |our |that |all the )?(?P<d>[a-z][a-z' -]*?) (?:went|has gone|have gone|had gone|gone|is going|are going|to go) (?:straight )?back(?: (?:to|with|on) (?:the |our )?(?:supplier|driver|van|butcher|fishmonger|lorry|truck|wholesaler))?|(?:the |our |that |all the )?(?P<c>[a-z][a-z' -]*?) (?:was |were |got |is |are |has been |have been |all )*(?:rejected|refused(?: at the door)?|turned away))(?: (?:to|with) (?:the )?(?:supplier|driver|van|butcher|fishmonger|lorry|truck))?(?:(?:,| as| because| cos| it was| they were| too| for being| on the van| on the truck| on the lorry| at the door).*)?[.!\s]*$`)
	bareBack   = regexp.MustCompile(`(?i)\b(?:went|gone|is going|are going|to go) (?:straight )?back[.!\s]*$`)
	noneSaid   = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z][a-z' -]*?) (?:was |were |got |have |has |had )*(?:sent back|went back|gone back)(?: on the (?:van|lorry|truck)| with the van)[.!\s]*$`)
)

// sentBackTalk writes food that went back by weight, before anything was made of it: guests send back no raw leeks. What
// is counted, or was sent back by somebody who is not named, may be plates: that is told apart first. Done is false where no raw food on hand is meant.
func (t *turn) sentBackTalk() (r Reply, done bool, err error) {
	said, name, doubt := "", "", false
	if m := sentBack.FindStringSubmatch(t.m.Text); m != nil && (strings.Contains(strings.ToLower(t.m.Text), " back") || !strings.Contains(strings.ToLower(t.m.Text), "sent")) {
		said, name = m[1], m[2]
	} else if m := wentBack.FindStringSubmatch(t.m.Text); m != nil {
		said, name, doubt = m[1], m[2], !turnedAway.MatchString(t.m.Text)
	} else if m := noneSaid.FindStringSubmatch(t.m.Text); m != nil {
		name = m[1]
	} else if backName(t.m.Text) == "" {
		return r, false, nil
	}
	untold := false
	if said == "" && name == "" {
		name, untold = backName(t.m.Text), true
	}
	if untold && (isPronoun(name) || slices.Contains(wholeLot, strings.ToLower(name))) { // what came last, or was spoken of
		q := &language.Question{Food: "it"}
		if err = t.pointed(q, t.said); err != nil || isPronoun(q.Food) {
			return r, false, err
		}
		name = q.Food
	}
	h := t.ear.find(name)
	if !h.exact || len(h.lines) != 1 || h.lines[0].OnHand() == 0 || h.lines[0].Made > 0 {
		return r, false, nil
	}
	if dish, _, err := t.cooked(name); dish != "" || err != nil {
		return r, false, err
	}
	name = strings.ToLower(name)
	switch {
	case untold:
		l := h.lines[0]
		by, err := t.book.CameWith(l.ID)
		if err != nil || by == nil || t.m.At.Sub(by.At) > pricedFor {
			return r, false, err
		}
		if bareBack.MatchString(t.m.Text) && (t.m.At.Sub(by.At) > 2*atTheDoor || l.Used > 0) { // it may be plates
			return r, false, nil
		}
		d := draft{Act: pantry.Use, Food: l.Name, Line: l.ID, Amount: language.Amount{How: language.Share, N: measure.Whole(1), Said: "all"}, Dish: pantry.AwayTo(supplier), Day: t.day()}
		r, err = t.ask([]pending{{Kind: askDone, About: l.Name, Draft: d, Options: []option{{Label: "yes", Yes: true}}}}, t.said)
		r.Text = fmt.Sprintf(`All %s of the %s back to the supplier? Say "yes" and it is written; of less, "sent back %[1]s %s to the supplier". Nothing was written.`, measure.Say(l.OnHand(), l.Unit), strings.ToLower(name), l.Name)
		return r, true, err
	case said == "":
		return Reply{Kind: Error, Text: fmt.Sprintf(`How much of the %s went back? "sent back 1kg %s to the supplier" writes it. Nothing was written.`, name, name)}, true, nil
	case doubt, !endsInUnit.MatchString(said + " "):
		return Reply{Kind: Error, Text: fmt.Sprintf(`Not written: %s %s back, by whom? To who sold it: "sent back %s %s to the supplier". By guests: "binned 300g off the plates" weighs what came back.`, said, name, said, name)}, true, nil
	}
	a, ok := t.amountSaid(said)
	if !ok || a.How != language.Measured {
		return r, false, nil
	}
	t.note = fmt.Sprintf(`Taken as gone back to who sold it, so it is no waste. What comes back for it: "credit £3 on the %s".`, name)
	r, err = t.write([]draft{{Act: pantry.Use, Food: name, Line: h.lines[0].ID, Amount: a, Dish: pantry.AwayTo(supplier), Day: t.day()}}, pantry.Said)
	return r, r.Kind != Silent, err
}

// wholeLot is what came, whatever it is.
var wholeLot = []string{"lot", "whole lot", "delivery", "order"}

// backName is the food that went back by a text that tells no amount; "" none.
func backName(text string) string {
	m := backUntold.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	return m[backUntold.SubexpIndex("a")] + m[backUntold.SubexpIndex("b")] + m[backUntold.SubexpIndex("c")] + m[backUntold.SubexpIndex("d")]
}
