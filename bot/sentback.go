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
	backUntold = regexp.MustCompile(`(?i)^\s*(?:i |we |had to |have |we've |weve |ive |just |(?:the )?(?:driver|van|delivery man|butcher|fishmonger|supplier)(?:'s| has)? )*(?:(?:sent|sending|send|took|taken|handed|gave) (?:all )?(?:the |our |that |all the |that lot of )?(?P<a>[a-z][a-z' -]*?) back|(?:rejected|rejecting|refused|refusing|turned away|sent back|sending back) (?:all )?(?:of )?(?:the |our |that |all the )?(?P<b>[a-z][a-z' -]*?)|(?:the |our |that |all the )?(?P<c>[a-z][a-z' -]*?) (?:was |were |got |is |are |has been |have been |all )*(?:rejected|refused(?: at the door)?|turned away|(?:went|gone|going) (?:straight )?back))(?: (?:to|with) (?:the )?(?:supplier|driver|van|butcher|fishmonger|lorry|truck))?(?:(?:,| as| because| cos| it was| they were| too| for being| on the van| on the truck| on the lorry| at the door).*)?[.!\s]*$`)
	bareBack   = regexp.MustCompile(`(?i)\b(?:went|gone|going) (?:straight )?back[.!\s]*$`)
	itBack     = regexp.MustCompile(`(?i)^\s*(?:i |we |had to |have |we've |weve |ive |just |so |(?:the )?(?:driver|van|delivery man|supplier)(?:'s| has)? )*(?:(?:sent|took|taken|handed|gave|sending) (?:it|them|those|that|this|that lot|the lot|the whole lot|them all|it all|all of it|all of them) (?:straight )?back|sent back|(?:refused|rejected|turned away)(?: it| them| the lot| it all| them all)?|(?:it|they|that|all)(?:'s|'ve| has| have| all)*(?: went| gone| going)(?: straight)? back)(?: (?:to|with|on) (?:the )?(?:supplier|driver|van|butcher|fishmonger|lorry|truck)| at the door)?[.!\s]*$`)
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
	} else if m := itBack.FindStringSubmatch(t.m.Text); m != nil {
		return t.allBack(strings.Contains(strings.ToLower(t.m.Text), "them") || strings.Contains(strings.ToLower(t.m.Text), "all") || strings.Contains(strings.ToLower(t.m.Text), "lot"))
	} else if backName(t.m.Text) == "" {
		return r, false, nil
	}
	untold := false
	if said == "" && name == "" {
		name, untold = backName(t.m.Text), true
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
		entries, err := t.book.InForce(by)
		if err != nil {
			return r, true, err
		}
		late := t.m.At.Sub(by.At) > 2*atTheDoor
		if list := t.untouched(entries, l); len(list) > 0 && !(late && bareBack.MatchString(t.m.Text)) {
			return t.backWhole(list)
		}
		if late && bareBack.MatchString(t.m.Text) { // it may be plates
			return r, false, nil
		}
		d := draft{Act: pantry.Use, Food: l.Name, Line: l.ID, Amount: language.Amount{How: language.Share, N: measure.Whole(1), Said: "all"}, Dish: pantry.AwayTo(supplier), Day: t.day()}
		r, err = t.ask([]pending{{Kind: askDone, About: l.Name, Draft: d, Options: yes()}}, t.said)
		r.Text = fmt.Sprintf(`All %s of the %s back to the supplier? Say "yes" and it is written; of less, "sent back %[1]s %s to the supplier". Nothing was written.`, measure.Say(l.OnHand(), l.Unit), name, l.Name)
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

// backName is the food that went back by a text that tells no amount; "" none.
func backName(text string) string {
	m := backUntold.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	return m[backUntold.SubexpIndex("a")] + m[backUntold.SubexpIndex("b")] + m[backUntold.SubexpIndex("c")]
}

// allBack writes that what the cook took in just before went back; of several foods it asks which, but where all are meant.
func (t *turn) allBack(all bool) (r Reply, done bool, err error) {
	_, entries, err := t.justWritten()
	if err != nil || slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Act != pantry.Receive }) {
		return r, false, err
	}
	list := t.untouched(entries, nil)
	switch {
	case len(list) == 0:
		return r, false, nil
	case len(list) == 1, all:
		return t.backWhole(list)
	}
	var names []string
	for _, e := range list {
		names = append(names, t.k.Line(e.Line).Name)
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf(`Which went back, %s? "the %s went back", or "sent them all back". Nothing was written.`, both(names, "or"), names[0])}, true, nil
}

// untouched gives the entries of a delivery, or those of one line, of which nothing was drawn since.
func (t *turn) untouched(entries []pantry.Entry, of *pantry.Line) (list []pantry.Entry) {
	for _, e := range entries {
		l := t.k.Line(e.Line)
		if of != nil && l != of || e.Act != pantry.Receive {
			continue
		}
		if n := len(l.Lots); n > 0 && l.Lots[n-1].Left == l.Lots[n-1].Came && l.Lots[n-1].Left == e.Amount {
			list = append(list, e)
		}
	}
	return list
}

// backWhole writes that all of what came in went back.
func (t *turn) backWhole(list []pantry.Entry) (r Reply, done bool, err error) {
	var drafts []draft
	var names []string
	for _, e := range list {
		l := t.k.Line(e.Line)
		names = append(names, l.Name)
		drafts = append(drafts, draft{Act: pantry.Use, Food: l.Name, Line: l.ID, Dish: pantry.AwayTo(supplier), Day: t.day(), Yes: true,
			Amount: language.Amount{How: language.Measured, Base: e.Amount, Kind: l.Unit, Said: measure.Say(e.Amount, l.Unit)}})
	}
	t.note = fmt.Sprintf(`No waste. Of less, say how much: "undo", then "sent back 1kg %s to the supplier". What comes back for it: "credit £3 on the %[1]s".`, names[0])
	r, err = t.write(drafts, pantry.Said)
	return r, r.Kind != Silent, err
}
