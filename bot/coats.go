package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/food"
)

// What food is fried, dipped, rolled or marinated in is no dish: "fried 3kg chicken in groundnut oil". It brings its
// allergens for all that, so the food is unsettled until the cook says what of it is what.

// coatsOf is what a message says that food is coated or cooked in.
func (t *turn) coatsOf() (all language.Mentions, coats []language.Mention) {
	text := t.m.Text
	if t.m.Press != nil || t.m.Delete || len(text) > mostMentioned || strings.ContainsAny(text, "?£$€") || strings.Contains(text, "://") || asksThis.MatchString(text) || saysHow.MatchString(text) {
		return all, nil
	}
	if !language.SpeaksOf(text, language.SaysCoat, language.SaysCoatWith, "holds") {
		return all, nil
	}
	all = t.reader().Mentions(text, func(said string) bool {
		if t.isKnownFood(said) || len(strings.Fields(said)) > 2 && !slices.Contains(t.k.Dishes, said) {
			return slices.Contains(t.k.Dishes, said)
		}
		return t.isLogged(said) || !strings.Contains(said, " ") && t.reader().NamesDish(said) || language.SpeaksOf(lastWord(said), language.SaysMedium)
	})
	for _, m := range all.List {
		if m.Coats && !m.Out && !m.Talk && (!m.Dish || language.SpeaksOf(lastWord(m.Name), language.SaysMedium) || !t.isLogged(m.Name) && t.bringsSome(m.Name)) {
			coats = append(coats, m)
		}
	}
	return all, coats
}

// isLogged says whether words call a dish that was logged.
func (t *turn) isLogged(said string) bool {
	return slices.Contains(t.k.Dishes, said) || slices.Contains(t.k.Dishes, t.dishNow(said))
}

// bringsSome says whether food that words call brings one of the 14 or is of an animal, or is against somebody's need.
func (t *turn) bringsSome(said string) bool {
	c := t.contentsCalled(said)
	return len(c.holds)+len(c.may) > 0 || slices.ContainsFunc(c.foods, func(f *food.Food) bool { return f.Meatless == "no" }) || t.breaksNeed(said)
}

// notIntoCoat takes the dish off drafts that put food into what it was only fried or dipped in.
func (t *turn) notIntoCoat(drafts []draft) []draft {
	if !slices.ContainsFunc(drafts, func(d draft) bool { return d.intoDish() }) {
		return drafts
	}
	all, coats := t.coatsOf()
	into := ""
	for _, m := range all.List {
		if m.Dish && !m.Coats && !m.Out && slices.Contains([]string{"for", "in", "into", "to"}, m.Joined) && t.isLogged(m.Name) {
			into = t.dishNow(m.Name)
		}
	}
	for i := range drafts {
		d := &drafts[i]
		if d.intoDish() && slices.ContainsFunc(coats, func(m language.Mention) bool {
			return singular(m.Name) == singular(strings.ToLower(d.Dish)) && (!m.Implied || language.SpeaksOf(lastWord(m.Name), language.SaysMedium)) && (t.isKnownFood(m.Name) || t.bringsSome(m.Name))
		}) {
			d.Dish = into
		}
	}
	return drafts
}

// coatLost tells of what food was coated or cooked in, where no dish that was logged has it, and keeps it as unsettled
// for that food.
func (t *turn) coatLost(r Reply) (Reply, error) {
	if r.Kind == Silent && saysMine.MatchString(t.m.Text) || strings.Contains(r.Text, "Kept of") || strings.Contains(r.Text, "Not kept yet") || strings.Contains(r.Text, "Not read: ") {
		return r, nil
	}
	all, coats := t.coatsOf()
	if len(coats) == 0 || r.Kind == Silent && (all.Strange > mostStrangePut || saysNever.MatchString(t.m.Text)) || len(t.accounted(r).dishes) > 0 {
		return r, nil
	}
	into := ""
	for _, m := range all.List {
		if m.Coats || m.Out || m.Talk {
			continue
		}
		if m.Dish && t.isLogged(m.Name) {
			into = t.dishNow(m.Name)
			break
		}
		h := t.ear.find(m.Name)
		switch {
		case into != "":
		case h.exact && !h.sound && len(h.lines) == 1:
			into = h.lines[0].Name
		case m.Dish || t.isKnownFood(m.Name):
			into = m.Name
		}
	}
	if into == "" {
		return r, nil
	}
	own := t.contentsCalled(into)
	var lost []language.Mention
	var names []string
	for _, m := range coats {
		if holds := t.contentsCalled(m.Name).holds; len(holds) > 0 && len(missing(holds, own.holds)) == 0 { // known of it
			continue
		}
		if t.bringsSome(m.Name) && !hasWords(into, m.Name) && (r.Kind != Silent || t.breaksNeed(m.Name) || t.k.Named(into) != nil) {
			lost, names = append(lost, m), append(names, m.Name)
		}
	}
	if len(lost) == 0 {
		return r, nil
	}
	if err := t.keepUnread(lost, into); err != nil {
		return r, err
	}
	say := t.sayPerhaps(lost, names, into)
	if l := t.k.Named(into); l != nil && l.Made == 0 { // what is left of it is as it came: only a dish holds what it was cooked in
		say = fmt.Sprintf("Not kept: %s, as no dish is named. Say \"that was for the soup\", then \"used 20g %s in the soup\"; \"no %[2]s in the %s\" when the rest is without. Until then %[3]s is unsettled.", both(names, "and"), names[0], into) + t.heedEach(lost, into)
	}
	t.plain = false
	if r.Kind == Silent {
		return Reply{Kind: Answer, Text: say}, nil
	}
	return r.and("\n" + say), nil
}
