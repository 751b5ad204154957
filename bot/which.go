package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// Which of several lines a name means where it may be said of food raw and of food that
// was made of it.

// namedJust gives the line that is called just so, on hand or not.
func (t *turn) namedJust(phrase string) (list []*pantry.Line) {
	for _, l := range t.k.Lines {
		if key(l.Name) == key(phrase) {
			list = append(list, l)
		}
	}
	return list
}

// cookedToo gives the lines that may be meant where a staple is here both dry and
// cooked, and no word tells which: nobody bins or freezes dry rice, and what is used
// or left may be either, unless there is not so much of one.
func (t *turn) cookedToo(d *draft, lines []*pantry.Line) []*pantry.Line {
	if len(lines) != 1 || cookedVerb.MatchString(t.m.Text) || d.Act == pantry.Receive || d.Act == pantry.Make || d.Trim || d.State != "" && d.State != food.Frozen {
		return nil
	}
	dry := lines[0]
	f := t.ear.foodOf(dry)
	if f == nil || dry.Shelf != food.Cupboard || planner.IsCooked(f, d.Food) || planner.IsCooked(f, dry.Name) {
		return nil
	}
	for _, w := range strings.Fields(strings.ToLower(d.Food)) {
		if slices.Contains([]string{"dry", "dried", "raw", "uncooked"}, w) {
			return nil
		}
	}
	var cooked *pantry.Line
	for _, l := range t.k.Lines {
		if l != dry && l.OnHand() > 0 && (l.Name == potName(dry.Name) || t.ear.foodOf(l) == f && planner.IsCooked(f, l.Name)) {
			cooked = l
		}
	}
	if cooked == nil {
		return nil
	}
	has := func(l *pantry.Line) bool {
		return d.Amount.How != language.Measured || d.Amount.Kind != measure.Gram || d.Amount.Base <= l.OnHand()
	}
	switch {
	case d.Act == pantry.Bin || d.State == food.Frozen, !has(dry) && has(cooked):
		if has(cooked) {
			return []*pantry.Line{cooked}
		}
		return nil
	case d.Act == pantry.Use && !has(cooked) || d.Act == pantry.Claim || d.Act == pantry.Release || d.Act == pantry.Return:
		return nil
	}
	return []*pantry.Line{cooked, dry}
}

// cookedBeside gives what was made here that may be meant beside food as it came, where some is put in the freezer:
// "the beef" with topside and roast beef on hand.
func (t *turn) cookedBeside(d *draft, raw *pantry.Line) (list []*pantry.Line) {
	if t.mayCountCooked(d, raw) {
		for _, l := range t.cookedOf(d, raw) {
			if d.Amount.Kind != l.Unit || d.Amount.Base <= l.OnHand() { // more than there is cooked is the raw
				list = append(list, l)
			}
		}
		return list
	}
	if t.mayUseCooked(d, raw) {
		for _, l := range t.cookedOf(d, raw) {
			if d.Amount.Kind != l.Unit || d.Amount.Base <= l.OnHand() {
				list = append(list, l)
			}
		}
		return list
	}
	if d.State != food.Frozen || d.Act != pantry.Count || raw.Made > 0 || key(raw.Name) == key(d.Food) {
		return nil
	}
	return t.madeBeside(d, raw)
}

// madeBeside gives what was made here whose name ends as the draft's food does.
func (t *turn) madeBeside(d *draft, raw *pantry.Line) (list []*pantry.Line) {
	said := food.Fold(d.Food)
	for _, l := range t.k.Lines {
		if l != raw && l.Made > 0 && l.OnHand() > 0 && fitsName(l.Name, said) && singular(lastWord(l.Name)) == singular(lastWord(said)) {
			list = append(list, l)
		}
	}
	return list
}

// cookedOf is madeBeside without what is made up and raw still.
func (t *turn) cookedOf(d *draft, raw *pantry.Line) []*pantry.Line {
	return slices.DeleteFunc(t.madeBeside(d, raw), isMadeRaw)
}

// mayCountCooked says whether a draft counts what is left of food by a name that the raw shares with the cooked.
func (t *turn) mayCountCooked(d *draft, raw *pantry.Line) bool {
	return d.Act == pantry.Count && d.State == "" && !d.Yes && raw.Made == 0 && d.Amount.How == language.Measured && leftAny.MatchString(t.m.Text) && !language.SaysRaw(t.m.Text, lastWord(raw.Name)) && !t.isCookedLine(raw)
}

// madeOfNothing are the groups of foods that no kitchen makes: what is made by another name of
// theirs is a dish, as moules are of mussels.
var madeOfNothing = []string{"fish", "shellfish", "meat", "poultry", "root vegetable", "brassica", "leaf", "allium", "squash", "fruiting vegetable", "stem vegetable",
	"pod or fresh pulse", "mushroom", "dried pulse", "fruit"}

// isDishOf says whether a phrase which is found as a food as it is bought is another name of
// it, so that what was made by that name is a dish.
func isDishOf(phrase string, h found) bool {
	if h.food == nil || !h.exact || !slices.Contains(madeOfNothing, h.food.Group) || planner.IsCooked(h.food, phrase) {
		return false
	}
	own := strings.Fields(key(strings.ToLower(h.food.Name)))
	for _, w := range strings.Fields(key(strings.ToLower(phrase))) {
		if slices.Contains(own, w) {
			return false
		}
	}
	return true
}

// isDishOnly says whether what was binned or left is the rest of a dish whose name is
// another name of a food that went in: "the rest of the moules" is no raw mussels.
func (t *turn) isDishOnly(d *draft, h found) bool {
	if d.Act != pantry.Bin && d.Act != pantry.Count || d.Amount.How != language.Share || len(h.lines) == 0 || len(t.namedJust(d.Food)) > 0 || !isDishOf(d.Food, h) {
		return false
	}
	return slices.ContainsFunc(t.k.Dishes, func(dish string) bool { return key(dish) == key(d.Food) })
}

// mayUseCooked says whether a draft uses or bins food by a wider name than the raw has, which it shares with the cooked:
// "used 200g beef", with topside and roast beef here.
func (t *turn) mayUseCooked(d *draft, raw *pantry.Line) bool {
	return (d.Act == pantry.Use || d.Act == pantry.Bin) && !d.Trim && !d.Yes && raw.Made == 0 && key(raw.Name) != key(d.Food) && d.Amount.How == language.Measured &&
		!cookedVerb.MatchString(t.m.Text) && !language.SaysRaw(t.m.Text, lastWord(d.Food)) && !t.isCookedLine(raw)
}

// namedMore gives the one line on hand of food as it came whose name is a longer one of what is said, in two words at
// least, and of the same sort; nil none, or several.
func (t *turn) namedMore(said string, h found) (found *pantry.Line) {
	if h.food == nil || !h.exact || !strings.Contains(strings.TrimSpace(said), " ") {
		return nil
	}
	for _, l := range t.k.Lines {
		f := t.ear.foodOf(l)
		if f == nil || f.Group != h.food.Group || l.Made > 0 || l.OnHand() == 0 || planner.IsCooked(f, l.Name) != planner.IsCooked(f, said) || !strings.HasSuffix(key(l.Name), " "+key(said)) ||
			!slices.Equal(food.ApartInStock(food.WithoutSlaughter(l.Name)), food.ApartInStock(said)) {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}
