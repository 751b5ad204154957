package bot

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/planner"
)

// NeedsAt gives what is known at a time of who cannot eat what: of the table of the service,
// of beds, rooms and classes until it is over, of a day ahead on that day, and of persons for good. A later word on the same thing takes the place of an earlier one.
func NeedsAt(k *pantry.Kitchen, at time.Time) (list []pantry.Need) {
	return standing(ofSchool(k.Needs), func(n pantry.Need) bool { return inForce(n, at) })
}

// ofSchool has what is told of reception stay where classes are told of as well: there it is the youngest class, and no desk.
func ofSchool(all []pantry.Need) []pantry.Need {
	reception := func(n pantry.Need) bool { return n.Who == "reception" && !n.Lasting && !n.Stays }
	if !slices.ContainsFunc(all, reception) || !slices.ContainsFunc(all, func(n pantry.Need) bool { return n.Stays && saysClass.MatchString(n.Who) }) {
		return all
	}
	all = slices.Clone(all)
	for i := range all {
		all[i].Stays = all[i].Stays || reception(all[i])
	}
	return all
}

// standing gives those of some needs, in the order in which they were said, that no later one takes the place of.
func standing(all []pantry.Need, of func(pantry.Need) bool) (list []pantry.Need) {
	for _, n := range all {
		if !of(n) {
			continue
		}
		list = slices.DeleteFunc(list, func(o pantry.Need) bool { return overtakes(n, o) })
		if n.Kind != pantry.NeedOver {
			list = append(list, n)
		}
	}
	return list
}

// nightLong is how long after midnight a day's service may still be on.
const nightLong = 4 * time.Hour

// inForce says whether what was said is for a time, wherever it was not overtaken.
func inForce(n pantry.Need, at time.Time) bool {
	today := pantry.DateOf(at)
	switch {
	case n.Lasting:
		return true
	case n.Stays:
		return n.Day <= today
	case n.Day != "":
		return n.Day == today || n.Day == pantry.DateOf(at.Add(-nightLong))
	}
	return at.Sub(n.At) <= serviceLong
}

// overtakes says whether a need takes the place of one that was said before.
func overtakes(n, o pantry.Need) bool {
	if n.Lasting != o.Lasting {
		return false
	}
	if n.Kind == pantry.NeedOver {
		return n.Day == o.Day && (within(o.Who, n.Who) || n.Who == "" && n.What == "" && !n.Lasting && !o.Stays) && (n.What == "" || o.Kind != pantry.NeedHeads && isPart(o.What, n.What))
	}
	if n.Kind == pantry.NeedAllergy && n.Said != o.Said { // "2 lactose intolerant", "1 dairy free": they are not the same guests
		return false
	}
	return n.Who == o.Who && n.Kind == o.Kind && (n.What == o.What || n.Kind == pantry.NeedHeads) || newTexture(n, o)
}

// newTexture says whether a texture takes the place of another that was told before of the same one bed, room or guest: food
// that of food, drinks that of drinks. Of several, each has their own.
func newTexture(n, o pantry.Need) bool {
	if n.N == o.N || n.Who != o.Who || n.Who == "" || n.Kind != pantry.NeedDiet || o.Kind != pantry.NeedDiet || max(n.Count, o.Count) > 1 || n.Count < 0 || o.Count < 0 {
		return false
	}
	one := n.Lasting || oneBed.MatchString(n.Who)
	same := strings.TrimPrefix(n.Said, n.What) == strings.TrimPrefix(o.Said, o.What) // whose it is said to be
	return one && same && language.IsTexture(n.What) && language.IsTexture(o.What) && language.IsDrinkTexture(n.What) == language.IsDrinkTexture(o.What)
}

// oneBed is a place where one guest is.
var oneBed = regexp.MustCompile(`\b(?:bed|room|cubicle|seat|chair|cover) \d{1,3}[a-z]?$`)

// isPart says whether all of one list of allergens is in another.
func isPart(of, all string) bool {
	whole := strings.Split(all, "+")
	return !slices.ContainsFunc(strings.Split(of, "+"), func(a string) bool { return !slices.Contains(whole, a) })
}

// needs gives what is known now of who cannot eat what.
func (t *turn) needs() []pantry.Need {
	if len(t.k.Needs) == 0 {
		return nil
	}
	return NeedsAt(t.k, t.m.At)
}

// needsSince is when what went into dishes began to count: when the last service was wrapped
// up, its plan ended, or the table was said to have no needs any more.
func (t *turn) needsSince() (time.Time, error) {
	since := t.m.At.Add(-serviceLong)
	later := func(at time.Time) {
		if at.After(since) && !at.After(t.m.At) {
			since = at
		}
	}
	for _, n := range t.k.Needs {
		if n.Kind == pantry.NeedOver && !n.Lasting && n.Who == "" && n.What == "" && n.Day == "" {
			later(n.At)
		}
	}
	services, err := t.book.Services(since)
	for _, s := range services {
		if !isNote(s) {
			later(s.Ended)
		}
	}
	return since, err
}

// intoDish lists what went into a dish in this service.
func (t *turn) intoDish(dish string) ([]pantry.Entry, error) {
	since, err := t.needsSince()
	if err != nil {
		return nil, err
	}
	return t.book.IntoDish(dish, since)
}

// WithTable adds to what an answer is held to what the table must not be given. Portions is
// for how many it is, 0 where that was not said: a diet is a limit only where all have it.
func WithTable(n planner.Needs, list []pantry.Need, portions int) planner.Needs {
	n.Avoid, n.Foods = slices.Clone(n.Avoid), slices.Clone(n.Foods)
	vegans, meatless, heads := 0, 0, portions
	for _, x := range list {
		switch {
		case x.Kind == pantry.NeedAllergy:
			for a := range strings.SplitSeq(x.What, "+") {
				n.Avoid = appendOnce(n.Avoid, a)
			}
		case x.Kind == pantry.NeedFood:
			n.Foods = appendOnce(n.Foods, x.What)
		case x.Kind == pantry.NeedHeads && heads == 0 && x.Who == "":
			heads = x.Count
		case x.Kind != pantry.NeedDiet || x.Lasting:
		case x.What == "vegan":
			vegans = added(vegans, headsOf(x))
		case x.What == "vegetarian":
			meatless = added(meatless, headsOf(x))
		}
	}
	all := func(count int) bool { return count == pantry.Everyone || heads > 0 && count >= heads }
	n.Vegan = n.Vegan || all(vegans)
	n.Meatless = n.Meatless || !n.Vegan && all(added(vegans, meatless))
	return n
}

// headsOf is for how many a need counts, at least.
func headsOf(n pantry.Need) int {
	switch {
	case n.Count != pantry.Everyone:
		return max(1, n.Count)
	case n.Who == "":
		return pantry.Everyone
	}
	return 1 // of one table of several
}

// added adds counts, of which one may be all.
func added(a, b int) int {
	if a == pantry.Everyone || b == pantry.Everyone {
		return pantry.Everyone
	}
	return a + b
}

// mustNot is what ideas and plans are held to: what was said with them, and the table's needs.
func (t *turn) mustNot(l language.Limits) planner.Needs {
	return WithTable(Needs(l), t.needs(), l.Portions)
}

// keptTo tells, a line each, what ideas and plans were held to because of the table, and which
// of them suit whom; see suited.
func (t *turn) keptTo(l language.Limits, items [][]string, from int, prefix string) (lines []string) {
	n := t.mustNot(l)
	all := ""
	switch {
	case n.Vegan && l.Diet != "vegan":
		all = "All is vegan, as the whole table is."
	case n.Meatless && l.Diet == "":
		all = "All is vegetarian, as the whole table is."
	}
	for _, line := range []string{leftOut(n), all, t.suited(l, items, from, prefix)} {
		if line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// leftOut tells what ideas and plans were kept free of; "" nothing.
func leftOut(n planner.Needs) string {
	var out []string
	if len(n.Avoid) > 0 {
		out = append(out, "what holds or often carries "+both(n.Avoid, "or"))
	}
	if len(n.Foods) > 0 {
		out = append(out, "what is called "+both(n.Foods, "or"))
	}
	if len(out) == 0 {
		return ""
	}
	return "Left out: " + strings.Join(out, ", and ") + ". Read every label, and mind traces."
}
