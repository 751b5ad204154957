package bot

import "scullion/bot/language"

// guestsNeeds reads needs of guests who are called by who they are, all of a text or none of it.
func (t *turn) guestsNeeds(text string) (list []language.TableTalk, ok bool) {
	for _, g := range language.GuestNeeds(text) {
		one, rest := t.reader().Table(g.Read)
		if len(one) != 1 || rest != "" || len(one[0].Needs) != 1 || one[0].About == language.AboutWho {
			return nil, false
		}
		one[0].Whose = g.Whose
		list = append(list, one...)
	}
	return list, len(list) > 0
}
