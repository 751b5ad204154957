package planner

import (
	"cmp"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// dishNamed puts the foods of the roles into a sentence: "{base} soup" is leek and
// potato soup, "with {star}" with eggs.
func (k *kitchen) dishNamed(s string, d *dish) string {
	for i := range d.frame.Roles {
		mark := "{" + d.frame.Roles[i].Name + "}"
		for {
			head, tail, found := strings.Cut(s, mark)
			if !found {
				break
			}
			names := saidAnyway(k.namesIn(d, i, qualifies(tail)))
			if strings.HasSuffix(head, " and ") { // one more is enough
				names = names[:min(len(names), 1)]
			}
			s = head + joined(names, tail) + tail
		}
	}
	return s
}

// saidAnyway leaves out a food that another is a sort of: cherry tomatoes are tomato.
func saidAnyway(names []string) []string {
	list := slices.Clone(names)
	for _, n := range names {
		short := onBoard(n)
		if len(list) > 1 && slices.ContainsFunc(list, func(o string) bool {
			return o != n && (strings.HasSuffix(o, " "+short) || strings.HasSuffix(o, " "+plural(short)))
		}) {
			list = slices.DeleteFunc(list, func(o string) bool { return o == n })
		}
	}
	return list
}

// titled gives the frame's title, with foods that it leaves out because a role may be
// empty: a pilaf with chicken in it says so.
func (k *kitchen) titled(d *dish) string {
	title := d.frame.Title
	at := strings.LastIndex(title, "}") + 1
	if strings.HasSuffix(title, " paste") { // what is in the pasta is not in the paste
		at = len(title)
	}
	switch roles := k.unsaid(d); len(roles) {
	case 0:
		return title
	case 1:
		return title[:at] + " and {" + d.frame.Roles[roles[0]].Name + "}" + title[at:]
	default:
		return title[:at] + " and {" + d.frame.Roles[roles[0]].Name + "} and {" + d.frame.Roles[roles[1]].Name + "}" + title[at:]
	}
}

// unsaid gives the roles, two at most, that the title ought to name besides: those of
// which a guest meets the food, meat before cheese, and the star's, where that is of the
// crate and no egg; else, where nothing of the crate is named, that of most of it. A
// pudding is called after its fruit.
func (k *kitchen) unsaid(d *dish) (roles []int) {
	best, grams, named := -1, leastSaid*float64(d.serves), false
	var met, cheese, heavy []int
	said := k.heaviestNamed(d)
	for _, p := range d.parts {
		if p.role < 0 { // beside the dish, not in it
			continue
		}
		l, role := &k.lines[p.line], d.frame.Roles[p.role].Name
		switch inTitle := strings.Contains(d.frame.Title, "{"+role+"}"); {
		case !inTitle && k.isMet(d, p):
			if isMeat(l.Food) {
				met = append(met, p.role)
			} else {
				cheese = append(cheese, p.role)
			}
		case !inTitle && p.grams >= leastPulse*float64(d.serves) && isOf(l.Food, "tinned pulse", "cooked pulse", "firm soya"):
			heavy = append(heavy, p.role)
		case !l.Crate || d.frame.Family == "sweet":
		case inTitle:
			named = true
		case role == "star" && !isOf(l.Food, "egg"):
			met = append(met, p.role)
		case p.grams > max(said, grams) && (isVegetable(l.Food) || isOf(l.Food, "starchy root")) && (role == "body" || role == "green" || role == "base"):
			heavy = append(heavy, p.role)
		case p.grams >= grams && (role == "body" || role == "green"):
			best, grams = p.role, p.grams
		}
	}
	for _, r := range slices.Concat(met, heavy, cheese) {
		if !slices.Contains(roles, r) && len(roles) < 2 {
			roles = append(roles, r)
		}
	}
	if len(roles) == 0 && !named && best >= 0 {
		roles = []int{best}
	}
	return roles
}

// heaviestNamed gives the grams of the heaviest food of the crate that the frame's title
// names.
func (k *kitchen) heaviestNamed(d *dish) (grams float64) {
	for _, p := range d.parts {
		if p.role >= 0 && k.lines[p.line].Crate && strings.Contains(d.frame.Title, "{"+d.frame.Roles[p.role].Name+"}") {
			grams = max(grams, p.grams)
		}
	}
	return grams
}

// isMet says whether a guest meets a part on the plate and would want to have been told:
// meat, fish, cheese by the piece, and a whole egg. Common practice, no source.
func (k *kitchen) isMet(d *dish, p part) bool {
	l, grams := &k.lines[p.line], p.grams/float64(max(1, d.serves))
	return isMeat(l.Food) && grams >= 15 || slices.Contains(dear, l.Food.Name) && grams >= 10 || grams >= 40 && (isOf(l.Food, "salty cheese", "blue-veined cheese", "frying cheese", "fresh cheese", "hard cheese", "melting cheese", "rind cheese") ||
		isOf(l.Food, "egg") && !slices.Contains([]string{"egg", "sweet", "bake"}, d.frame.Family))
}

// leastPulse is from how many grams a portion on beans make a dish what it is. The planner's own
// judgement, no source.
const leastPulse = 60

// dear is what costs or tastes too much to go unnamed in a dish. Common practice, no source.
var dear = []string{"morel", "chanterelle", "dried porcini", "karela"}

// isMeat says whether a food is of an animal itself: cheese with rennet in it is not.
func isMeat(f *food.Food) bool {
	return slices.Contains([]string{"meat", "poultry", "game", "offal", "cured meat", "fish", "shellfish", "tinned fish"}, f.Group)
}

// leastSaid is from how many grams a portion a food is worth a word in the title: the
// planner's own judgement, no source.
const leastSaid = 15

// notAgain leaves out of a palette's name what a food in the title has said already:
// penne with tinned tomato, basil and garlic.
func (k *kitchen) notAgain(palette, title string, d *dish) string {
	words := strings.Split(strings.ReplaceAll(palette, " and ", ", "), ", ")
	left := slices.DeleteFunc(slices.Clone(words), func(w string) bool {
		return slices.ContainsFunc(d.parts, func(p part) bool {
			item := k.lines[p.line].Item
			return (item == w || strings.HasSuffix(item, " "+w)) && strings.Contains(title, w)
		})
	})
	switch n := len(left); n {
	case 0, len(words):
		return palette
	case 1:
		return left[0]
	default:
		return strings.Join(left[:n-1], ", ") + " and " + left[n-1]
	}
}

// qualifies says whether a name that stands before the words qualifies them, and so
// stands in the singular: "leek soup", but "leeks with".
func qualifies(tail string) bool {
	for strings.HasPrefix(tail, " and {") { // what stands there besides
		_, tail, _ = strings.Cut(tail, "}")
	}
	next, _, _ := strings.Cut(strings.TrimPrefix(tail, " "), " ")
	return strings.HasPrefix(tail, " ") && !slices.Contains([]string{"with", "on", "in", "over", "under", "from", "or", "as", "to", "stewed", "dressed", "set", "baked", "stuffed", "roast"}, next)
}

// joined joins the first two names; before words that go on with "and" the first will do. There
// is no comma in the name of a dish: what comes after one is its seasoning.
func joined(names []string, tail string) string {
	names = unlike(names)
	if strings.HasPrefix(tail, " and ") {
		return strings.Join(names[:min(len(names), 1)], "")
	}
	return strings.Join(names[:min(len(names), 2)], " and ")
}

// unlike makes one name of two of a kind: red onions and brown onions are onions.
func unlike(names []string) []string {
	if len(names) < 2 {
		return names
	}
	last := func(s string) string { return s[strings.LastIndexByte(s, ' ')+1:] }
	if a, b := last(names[0]), last(names[1]); a == b && a != "squash" && a != "beans" || a == names[0] && a == b {
		return append([]string{a}, names[2:]...)
	}
	return names
}

// namesIn names what is in a role.
func (k *kitchen) namesIn(d *dish, role int, single bool) (names []string) {
	parts := slices.Clone(d.parts)
	slices.SortStableFunc(parts, func(a, b part) int { // meat is not cut off, nor what there is most of
		return cmp.Or(b2i(k.isMet(d, b))-b2i(k.isMet(d, a)), cmp.Compare(b.grams, a.grams))
	})
	for _, p := range parts {
		if p.role != role {
			continue
		}
		l := &k.lines[p.line]
		name := l.Item
		switch {
		case single:
			name = qualifying(name)
		case l.several(p.amount):
			name = plural(name)
		}
		names = append(names, name)
	}
	if len(names) > 0 {
		return names
	}
	for _, b := range d.bought {
		if slices.ContainsFunc(d.frame.Roles[role].Suits, func(x technique.Suit) bool { return x.What == b.Names[0] }) {
			return []string{b.Names[0]}
		}
	}
	return nil
}

// onBoard leaves out of a name what is for the shelf and not for the guest.
func onBoard(title string) string {
	for _, word := range []string{"tinned ", "hen's "} {
		title = strings.ReplaceAll(title, word, "")
	}
	return strings.ReplaceAll(title, "fried fried ", "fried ")
}
