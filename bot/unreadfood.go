package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// Food that was told of a dish and not read is kept as a question that nobody waits for: what tells what is open of a
// dish tells it too, until it is logged, said not to be in, or kept as told.

// sayUnread: "Not read: butter. In the pilaf as well? Say how much: "used 50g butter in the pilaf"."
func (t *turn) sayUnread(lost []language.Mention, names []string, dish string) string {
	say := "Not read: " + both(names, "and") + ". In the " + dish + " as well? Say \"used " + cmp.Or(lost[0].Amount.Said, "50g") + " " + lost[0].Name + " in the " + dish + "\", or \"no " + lost[0].Name + " in the " + dish + "\"."
	for _, m := range lost {
		say += t.heed(&pending{Kind: askInstead, About: m.Name, Draft: draft{Act: pantry.Use, Dish: dish, Food: m.Name}})
	}
	return say
}

// sayPerhaps: "Not kept yet: prawn, which leaves the stock unsettled. Say "stock may contain prawn" or "stock contains prawn"".
func (t *turn) sayPerhaps(lost []language.Mention, names []string, into string) string {
	say := fmt.Sprintf("Not kept yet: %s, which leaves the %s unsettled. Say %q, or %q.", both(names, "and"), into, into+" may contain "+names[0], into+" contains "+names[0])
	return say + t.heedEach(lost, into)
}

// heedEach tells whose needs such food would break.
func (t *turn) heedEach(lost []language.Mention, into string) (say string) {
	for _, m := range lost {
		say += t.heed(&pending{Kind: askInstead, About: m.Name, Draft: draft{Act: pantry.Use, Dish: into, Food: m.Name}})
	}
	return say
}

// unreadOf is what this cook was told to be unread of a dish, and has not settled.
func (t *turn) unreadOf(dish string) (list []pending) {
	eachOpen(t.k, t.said.At.Add(-serviceLong), func(cook string, x *pending) {
		if cook == t.cook && x.Unread && x.Draft.Dish == dish {
			list = append(list, *x)
		}
	})
	return list
}

// settleUnread drops what this cook was told to be unread of a dish, where it is told of that by itself now.
func (t *turn) settleUnread(dish string, foods []string) error {
	return t.dropUnread(func(p *pending) bool { return p.Draft.Dish == dish && t.isOneOf(strings.ToLower(p.About), foods) })
}

// dropUnread drops such of what this cook was told to be unread.
func (t *turn) dropUnread(fits func(*pending) bool) error {
	kept := t.k.Questions[t.cook]
	if kept == nil {
		return nil
	}
	q, message, err := t.open()
	if err != nil || q.isShown() || q.Kind == askWeigh {
		return err
	}
	all := q.all(message)
	stay := slices.DeleteFunc(slices.Clone(all), func(p pending) bool { return p.Unread && fits(&p) })
	if len(stay) == len(all) {
		return nil
	}
	if len(stay) == 0 {
		return t.setQuestion(t.cook, nil)
	}
	body, of, err := lifted(stay)
	if err != nil {
		return err
	}
	return t.setQuestion(t.cook, &pantry.Question{Message: of, At: kept.At, Body: body})
}

// keepUnread keeps foods as unsettled for a dish. Nobody waits for an answer.
func (t *turn) keepUnread(lost []language.Mention, dish string) error {
	var list []pending
	for _, m := range lost {
		if slices.ContainsFunc(t.unreadOf(dish), func(p pending) bool { return p.About == m.Name }) {
			continue
		}
		p := pending{Kind: askAmount, About: m.Name, Unread: true, Draft: draft{Act: pantry.Use, Food: m.Name, Amount: m.Amount, Dish: dish}}
		if h := t.ear.find(m.Name); !h.exact || len(h.lines) != 1 {
			p.Kind = askInstead
		}
		list = append(list, p)
	}
	if len(list) == 0 {
		return nil
	}
	if here := t.askedHere(); len(here) > 0 && t.k.Questions[t.cook].Message == t.said.ID {
		q, message, err := t.open()
		if err != nil {
			return err
		}
		q.Rest = append(q.Rest, list...)
		return t.keep(q, message)
	}
	tag := t.askTag
	_, err := t.ask(list, t.said)
	t.askTag = tag
	return err
}
