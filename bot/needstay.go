package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// takesBack is an edit of a message that says it was for nothing.
var takesBack = regexp.MustCompile(`(?i)^\s*(?:(?:sorry|oops|no|ok|please|pls)[,. ]+)*(?:cancel(?:led|ed)?|ignore|disregard|scrap|never ?mind|nvm|delete(?:d)?|removed?|take (?:it |that )?(?:back|off)|undo|forget|mistake|wrong (?:chat|channel|message|kitchen|table)|void|n/?a)(?: (?:that|this|it|me|one|all|please|pls|sorry|message))*\s*[.!]*\s*$|^\s*[-–—.xX]?\s*$`)

// unreadPart is what a reply says of a part that was not read.
var unreadPart = regexp.MustCompile(`\bNot (?:kept|read)\b`)

// needsByMessage lists the needs that a message has told, as they stand; without what it has ended.
func (t *turn) needsByMessage(m *pantry.Message) (list []pantry.Need) {
	for _, n := range t.k.Needs {
		if n.N == m.N && n.Kind != pantry.NeedOver {
			list = append(list, n)
		}
	}
	return list
}

// retells says whether an edited text tells needs anew, or takes them back, with nothing else in it that may be of needs.
func (t *turn) retells(text string) bool {
	if takesBack.MatchString(text) {
		return true
	}
	if asksThis.MatchString(text) {
		return false
	}
	text, _ = t.withoutDay(language.MendNeeds(text))
	if _, _, ok := t.reader().LooseNeed(text); ok {
		return true
	}
	if _, ok := t.guestsNeeds(text); ok {
		return true
	}
	list, rest := t.reader().Table(text)
	return slices.ContainsFunc(list, func(x language.TableTalk) bool {
		return x.About != language.AboutWho && x.About != language.AboutNoneSaid && !x.Doubt
	}) && !saysAllergy.MatchString(rest) && !saysDiet.MatchString(rest)
}

// needsStay keeps the needs that a message told before its edit where the edit is not read as needs, or a part of it is
// not: somebody who adds "carries an epipen" takes no allergy away. Only a plain cancel does. Told says what stands so;
// "" nothing.
func (t *turn) needsStay(was []pantry.Need, r Reply) (told string, err error) {
	if len(was) == 0 || !t.m.Edit || takesBack.MatchString(t.m.Text) {
		return "", nil
	}
	now := slices.DeleteFunc(slices.Clone(t.k.Needs), func(n pantry.Need) bool { return n.N != t.said.N })
	if len(now) > 0 && !t.partSilent && !unreadPart.MatchString(r.Text) { // changed, all of it
		return "", nil
	}
	said, _ := t.reader().Table(t.m.Text)
	ended := func(o pantry.Need) bool {
		return slices.ContainsFunc(said, func(x language.TableTalk) bool {
			switch x.About {
			case language.AboutOver:
				return !o.Lasting
			case language.AboutOverAt, language.AboutGone, language.AboutHaveLeft:
				return !o.Lasting && isAt(o, x.Place)
			case language.AboutBetter:
				return o.Lasting
			}
			return false
		})
	}
	stay := slices.DeleteFunc(slices.Clone(was), func(o pantry.Need) bool {
		return ended(o) || slices.ContainsFunc(now, func(n pantry.Need) bool {
			return n.Lasting == o.Lasting && n.Who == o.Who && (n.Kind == pantry.NeedOver || n.Kind == o.Kind && (n.What == o.What || n.Kind != pantry.NeedDiet && isPart(o.What, n.What)))
		})
	})
	if len(stay) == 0 {
		return "", nil
	}
	if err := t.book.KeepNeeds(t.said, stay); err != nil {
		return "", err
	}
	return sayStay(t.k, stay), nil
}

// sayStay: "Not read as changed: nut allergy at table 4 stays as it was."; "" of none.
func sayStay(k *pantry.Kitchen, stay []pantry.Need) string {
	stands := "stays"
	if len(stay) > 1 {
		stands = "stay"
	}
	those := strings.Join(sayEach(k, stay), ", ")
	if those == "" { // how many they are
		return ""
	}
	return "Not read as changed: " + those + " " + stands + " as it was. Say what is new in a message of its own; deleting this one takes it back."
}
