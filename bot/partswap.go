package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// partSwap tells that a part of a dish has one food instead of another: "soya marg instead of butter in half the cookies".
var partSwap = regexp.MustCompile(`(?i)^\s*(?:used |put |did |its |it's )?(?:the )?([a-z][a-z' -]*?) (?:instead of|in place of|rather than|not) (?:the )?([a-z][a-z' -]*?) (?:in|for|on) (half|some|most|part|a few|a couple|a tray|one|two|three|four|five|six|ten|a dozen|\d+|a third|a quarter)(?: of)?(?: the| those| these| my)? ([a-z][a-z' -]*?)\s*[.!]*$`)

// partSwapTalk says that this is not written, as the whole dish keeps what was logged, and keeps what is new as unsettled.
func (t *turn) partSwapTalk() (r Reply, done bool, err error) {
	m := partSwap.FindStringSubmatch(t.m.Text)
	if m == nil || t.m.Press != nil {
		return r, false, nil
	}
	is, was, part, dish := strings.ToLower(m[1]), strings.ToLower(m[2]), strings.ToLower(m[3]), t.dishNow(strings.ToLower(m[4]))
	if !t.isLogged(dish) || !t.isKnownFood(is) && !t.bringsSome(is) {
		return r, false, nil
	}
	if err := t.keepUnread([]language.Mention{{Name: is}}, dish); err != nil {
		return r, true, err
	}
	text := fmt.Sprintf(`Not written: %s in %s of the %s only. All of it stays as it was logged, with %s. Log the two as dishes of their own, and keep them apart; or say "%s contains %s".`, is, part, dish, was, dish, is)
	return Reply{Kind: Answer, Text: text + t.heed(&pending{About: is, Draft: draft{Act: pantry.Use, Dish: dish}})}, true, nil
}
