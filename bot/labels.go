package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/paper"
	"scullion/pantry"
	"scullion/pantry/food"
)

// Labels are those for what is put away: what is left of the dishes of an account (nil none), by
// storage guidance as of the day they were cooked, and what is on hand opened, cooked, made,
// frozen or thawed, by its date. Units say whose guidance: "uk" or "us".
func Labels(x *Records, w *Wrap, today pantry.Date, place *time.Location, units string) ([]paper.Label, error) {
	var list, sheets []paper.Label // sheets has those of dishes that are past their date as well
	from := int64(1)
	if w != nil {
		from = w.period.From
	}
	known, err := x.read(from)
	if err != nil {
		return nil, err
	}
	if w != nil {
		for _, d := range w.Dishes {
			if x.isStock(w.period, d.Name) { // it has a line of its own
				continue
			}
			s, err := x.Sheet(w, d.Name)
			if err != nil {
				return nil, err
			}
			l := paper.Label{Name: title(d.Name), Made: s.Cooked.In(place), Kind: "use by", Unknown: len(s.Unknown) > 0, Initials: x.initials(s.Cooks)}
			if k, ok := x.until(s, units, place); ok {
				if l.UseBy = k.date; k.of == "" && k.guidance.Date == "best-before" {
					l.Kind = "best before"
				}
			}
			for _, a := range s.Holds {
				l.Allergens = append(l.Allergens, a.Name)
			}
			for _, a := range s.May {
				l.May = append(l.May, a.Name)
			}
			sheets = append(sheets, l)
			if l.UseBy != "" && l.UseBy < today { // it is binned: see spoilt
				continue
			}
			list = append(list, l)
		}
	}
	dishes := len(list)
	for _, d := range datedFood(x.Kitchen, x.FoodOf, today, countryOf(units), true) {
		if d.State == "" || d.Date != "" && d.UseBy && d.days < 0 { // what is past its use-by is binned
			continue
		}
		line := x.Kitchen.Named(d.Item)
		name := title(d.Item)
		if !strings.Contains(strings.ToLower(name), string(d.State)) { // "Cooked rice"
			name += ", " + string(d.State)
		}
		l := paper.Label{Name: name, UseBy: d.Date, Kind: "best before"}
		if d.UseBy {
			l.Kind = "use by"
		}
		if m, ok := known.when[cameTo{line.ID, d.State, d.Date}]; ok {
			l.Made, l.Initials = m.at.In(place), x.initials([]string{m.cook})
		}
		if d.State != food.Cooked && d.State != food.MadeUp {
			l.What = string(d.State)
		}
		f := x.foodOfLot(line, d.State, d.Date)
		if f == nil {
			f = food.Named(line.Name)
		}
		l.Unknown, l.Allergens, l.May = f.Unasked, f.Allergen, f.MayCarry
		if at := slices.IndexFunc(list[:dishes], func(o paper.Label) bool { return isPotOf(d.Item, o.Name) }); at >= 0 && (isOld(d.State) || d.State == food.Uncooked) && !l.Made.Before(list[at].Made) { // the dish that it is what is left of
			list[at] = mergeLabels(list[at], l)
			continue
		}
		for _, s := range sheets { // what is frozen of a dish holds what the dish holds
			if isPotOf(d.Item, s.Name) && !l.Made.Before(s.Made) {
				l = holdsToo(l, s)
			}
		}
		list = append(list, l)
	}
	return list, nil
}

// mergeLabels takes in the label of what is left of the same dish: the sooner date, and all that either
// holds.
func mergeLabels(l, o paper.Label) paper.Label {
	if o.UseBy != "" && (l.UseBy == "" || o.UseBy < l.UseBy) {
		l.UseBy, l.Kind = o.UseBy, o.Kind
	}
	l = holdsToo(l, o)
	l.Name = o.Name
	return l
}

// holdsToo takes in the allergens of another label.
func holdsToo(l, o paper.Label) paper.Label {
	l.Allergens, l.May = slices.Clone(l.Allergens), slices.Clone(l.May)
	for _, a := range o.Allergens {
		l.Allergens = appendOnce(l.Allergens, a)
	}
	for _, a := range o.May {
		l.May = appendOnce(l.May, a)
	}
	l.Unknown = l.Unknown || o.Unknown
	return l
}

// initials are those of the cooks, as they are shown: "AB".
func (x *Records) initials(cooks []string) (text string) {
	for _, c := range cooks {
		for _, r := range strings.ToUpper(x.Kitchen.CookName(c)) {
			text += string(r)
			break
		}
	}
	return text
}

// spoilt lists the dishes of an account that have no label because they are past their date, or were
// when they were cooked, by what went in.
func (x *Records) spoilt(w *Wrap, today pantry.Date, place *time.Location, units string) (list []string, err error) {
	if w == nil {
		return nil, nil
	}
	for _, d := range w.Dishes {
		if x.isStock(w.period, d.Name) {
			continue
		}
		s, err := x.Sheet(w, d.Name)
		if err != nil {
			return nil, err
		}
		if k, ok := x.until(s, units, place); ok && k.date < today {
			list = append(list, d.Name)
		}
	}
	return list, nil
}

// sayLabels tells what labels there are to print.
func sayLabels(list []paper.Label, today pantry.Date) string {
	if len(list) == 0 {
		return "Nothing to label: no dish was made, and nothing on hand is opened, cooked, made or frozen."
	}
	var lines []string
	for _, l := range list[:min(len(list), mostLabels)] {
		text := l.Name
		if l.UseBy != "" {
			text += ": " + cmp.Or(l.Kind, "use by") + " " + sayDate(l.UseBy, today)
		}
		switch {
		case len(l.Allergens) > 0:
			text += ", " + strings.Join(l.Allergens, ", ")
		case !l.Unknown:
			text += ", none of the 14 logged: check labels"
		}
		if l.Unknown {
			text += ", allergens unknown in part"
		}
		if may := l.Might(); len(may) > 0 {
			text += ", may carry " + strings.Join(may, ", ")
		}
		lines = append(lines, text+".")
	}
	if more := len(list) - mostLabels; more > 0 {
		lines = append(lines, fmt.Sprintf("And %d more, which are not told here.", more))
	}
	return strings.Join(lines, "\n") + "\n\"scullion labels\" prints them. Local rules and the pack's own label go first."
}

// mostLabels is how many labels a reply tells.
const mostLabels = 24

// labels tells what is to be labelled: all, or what words call.
func (t *turn) labels(of string) (Reply, error) {
	x, wraps, err := t.wraps()
	if err != nil {
		return Reply{}, err
	}
	list, err := Labels(x, WithDishes(wraps, 0), pantry.DateOf(t.m.At), t.m.At.Location(), t.b.o.Units)
	since := time.Time{}
	if w := WithDishes(wraps, 0); w != nil {
		since = w.since()
	}
	if err != nil {
		return Reply{}, err
	}
	if of = strings.ToLower(of); of != "" {
		called := t.dish(of)
		list = slices.DeleteFunc(list, func(l paper.Label) bool {
			name := labelled(l)
			return name != of && name != called && !isPotOf(name, called) && !strings.HasSuffix(name, " "+of)
		})
		if len(list) == 0 && !t.ear.find(of).exact && !slices.Contains(t.k.Dishes, called) {
			if text := t.notLogged(of); text != "" {
				return Reply{Kind: Answer, Text: text}, nil
			}
			return Reply{Kind: Silent}, nil
		}
		if len(list) == 0 {
			return Reply{Kind: Answer, Text: "No label for the " + of + ": none of it is put by, opened or frozen, as far as anybody said. \"labels\" tells what there is."}, nil
		}
		says, err := t.warmDishes(list)
		var made []*pantry.Line
		for _, l := range t.k.Lines {
			if l.OnHand() > 0 && l.Made > 0 && slices.ContainsFunc(list, func(p paper.Label) bool { return labelled(p) == strings.ToLower(l.Name) }) {
				made = append(made, l)
			}
		}
		warm, e := t.warmSaid(made)
		if warm != "" && !slices.Contains(says, warm) {
			says = append([]string{warm}, says...)
		}
		err = cmp.Or(err, e)
		for _, l := range list {
			name := labelled(l)
			if open := unsettled(t.k, t.dish(name), time.Time{}); len(open) > 0 {
				says = appendOnce(says, fmt.Sprintf("Not before this is settled: %s for the %s was asked about, and nobody answered. It may be in.", both(open, "and"), name))
			}
		}
		open, e := t.binningOpen(list)
		if err = cmp.Or(err, e); open != "" {
			says = append(says, open)
		}
		return Reply{Kind: Answer, Text: strings.Join(append([]string{sayLabels(list, t.day())}, says...), "\n")}, err
	}
	text := sayLabels(list, t.day())
	bin, err := x.spoilt(WithDishes(wraps, 0), pantry.DateOf(t.m.At), t.m.At.Location(), t.b.o.Units)
	if len(bin) > 0 {
		if len(list) == 0 {
			text = "Nothing to label."
		}
		text += "\nPast its use-by, or made of what was, so without a label: " + both(bin, "and") + ". Bin what is left."
	}
	var shown []*pantry.Line
	for _, l := range t.k.Lines {
		if l.OnHand() > 0 && (l.Made > 0 || slices.ContainsFunc(list, func(p paper.Label) bool { return labelled(p) == strings.ToLower(l.Name) })) {
			shown = append(shown, l)
		}
	}
	warm, e := t.warmSaid(shown)
	says, e2 := t.warmDishes(list)
	open, e3 := t.binningOpen(list)
	for _, s := range append([]string{warm, open}, says...) {
		if s != "" && !strings.Contains(text, s) {
			text += "\n" + s
		}
	}
	err = cmp.Or(err, e2, e3)
	return Reply{Kind: Answer, Text: text + t.stillOpen(since, "")}, cmp.Or(err, e)
}

// binningOpen tells that somebody began to bin what has a label, and was asked and never answered: "Asked about, and
// not answered: binning the custard."; "" nobody did.
func (t *turn) binningOpen(list []paper.Label) (string, error) {
	var names []string
	eachOpen(t.k, time.Time{}, func(_ string, x *pending) {
		if x.Draft.Act == pantry.Bin && slices.ContainsFunc(list, func(l paper.Label) bool {
			name := labelled(l)
			return name == strings.ToLower(x.About) || name == strings.ToLower(x.Draft.Food)
		}) {
			names = appendOnce(names, "the "+x.About)
		}
	})
	dishes, err := t.binsUntold()
	for _, dish := range dishes {
		if slices.ContainsFunc(list, func(l paper.Label) bool { return labelled(l) == dish || isPotOf(labelled(l), dish) }) {
			names = appendOnce(names, "the "+dish)
		}
	}
	if len(names) == 0 || err != nil {
		return "", err
	}
	return "Asked about, and not answered: binning " + both(names, "and") + ".", nil
}

// mostBinned is for how long it is told that nobody said how much was binned.
const mostBinned = 2 * 24 * time.Hour

// binsUntold gives the dishes of which somebody said lately that they were binned, was asked how much that was, and of
// which none was binned since.
func (t *turn) binsUntold() (list []string, err error) {
	var binned []string
	for m, err := range t.back("", t.said, mostLately, t.m.At.Add(-mostBinned)) {
		if err != nil {
			return list, err
		}
		if m.Gone {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if e.Act == pantry.Bin {
				binned = append(binned, t.k.Line(e.Line).Name)
			}
		}
		r, err := stored(m.ID, m.Reply)
		if err != nil {
			return nil, err
		}
		for _, dish := range t.k.Dishes {
			if strings.Contains(r.Text, askWeight(dish, "binned")) && !slices.ContainsFunc(binned, func(n string) bool { return n == dish || isPotOf(n, dish) }) {
				list = appendOnce(list, dish)
			}
		}
	}
	return list, nil
}

// labelled is the food of a label, without what is told behind it.
func labelled(l paper.Label) string {
	name, _, _ := strings.Cut(strings.ToLower(l.Name), ",")
	return name
}
