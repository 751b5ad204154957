package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// offcut is a trimming with the words for its food; without a Name it is none.
type offcut struct {
	food.Trimming
	of string
}

// trimOf finds a trimming in a food phrase: "cauliflower leaves". It has no
// Name where the phrase is no trimming. What is a food of its own as well
// ("beetroot tops") is a trimming where that is not held and the beetroot is.
func (t *turn) trimOf(phrase string) (o offcut) {
	words := strings.Fields(strings.ToLower(phrase))
	if t.ear.lines.Exact(words) != nil {
		return o
	}
	alsoFood := t.ear.all.Index().Exact(words) != nil
	for n := 1; n < len(words) && n <= mostTrimWords; n++ {
		rest, last := words[:len(words)-n], words[len(words)-n:]
		if t.ear.Exact(rest) == nil || alsoFood && t.ear.lines.Exact(rest) == nil {
			continue
		}
		o.of = strings.Join(rest, " ")
		if h := t.ear.find(o.of); h.exact && h.food != nil {
			trim, ok := h.food.Trimming(strings.Join(last, " "))
			if !ok && n == 1 && !alsoFood {
				trim, ok = h.food.TrimmingLike(last[0])
			}
			if ok {
				o.Trimming = trim
				return o
			}
		}
	}
	return o
}

// partOf gives the food of the same message that an item is a part of by the tables, where it says
// no more than the part: "used 3 leeks in the tart, binned 80g greens". It is the one named last of
// those that have such a part; "" none. What is held under that name is a food of its own. Without an
// amount ("100g spinach, yellow leaves") it is one only as the first of its statement.
func (t *turn) partOf(list []draft, it language.Item, first bool) string {
	part := it.Food
	if it.Trim {
		part = it.Off
	}
	if part == "" || it.Amount.How == language.Unsaid && !first || it.Trim && it.Food != "" || !it.Trim && t.ear.lines.Exact(strings.Fields(strings.ToLower(part))) != nil {
		return ""
	}
	for _, d := range slices.Backward(list) {
		if d.Act != pantry.Use && d.Act != pantry.Bin {
			continue
		}
		h := t.ear.find(d.Food)
		if _, ok := trimming(h.food, part); ok && h.exact {
			return d.Food
		}
	}
	return ""
}

// endingIn gives the one line whose name ends in the words for what was trimmed, of those on hand if there
// are several: the bass that was filleted is the sea bass. Trim draws nothing.
func (x *ear) endingIn(phrase string) []*pantry.Line {
	var all, held []*pantry.Line
	for _, l := range x.k.Lines {
		if l.Made > 0 || !strings.HasSuffix(key(l.Name), " "+key(strings.ToLower(phrase))) {
			continue
		}
		if all = append(all, l); l.OnHand() > 0 {
			held = append(held, l)
		}
	}
	switch {
	case len(all) == 1:
		return all
	case len(held) == 1:
		return held
	}
	return nil
}

// cameOff says whether an item of a list is what came off one of them, or off the food that is named
// with it, and went into no dish: "500g carrots, 60g peel", "500g carrots in the soup, 60g carrot
// peel", "300g fat off the beef". What is peel or bones came off what went into the same dish, but for
// a stock: "500g carrots, 60g peel in the soup".
func cameOff(list []draft, d draft, it language.Item, dish string) bool {
	into := cmp.Or(it.Dish, dish)
	if it.Came && !language.TakesTrim(into) && d.Act != pantry.Claim && d.Act != pantry.Count && (it.Food != "" || len(list) > 0) {
		return true
	}
	if !it.Trim || d.Act != pantry.Use || it.Dish != "" || it.Amount.How == language.Unsaid || len(list) == 0 {
		return false
	}
	return slices.ContainsFunc(list, func(o draft) bool {
		return o.Act == pantry.Use && (d.Food == "" || key(d.Food) == key(o.Food))
	})
}

// offDish is the one dish that the food went into, in the same message, which a trim came off; "" none,
// or several.
func offDish(list []draft, d draft) (dish string) {
	for _, o := range list {
		switch {
		case o.Act != pantry.Use || d.Food != "" && key(d.Food) != key(o.Food):
		case dish != "" && o.Dish != dish:
			return ""
		default:
			dish = o.Dish
		}
	}
	if sayAway(dish) != "" {
		return ""
	}
	return dish
}

// lessUnsaid leaves out that a food was trimmed, where how much came off it says all: "filleted the
// hake, 3.6kg bones".
func lessUnsaid(list []draft, d draft) []draft {
	return slices.DeleteFunc(list, func(o draft) bool {
		return o.Act == pantry.Use && o.Dish == "" && o.Amount.How == language.Unsaid && !o.Amount.Some && (d.Food == "" || key(d.Food) == key(o.Food))
	})
}

// mostTrimWords is how many words a trimming's name has: "dark green tops".
const mostTrimWords = 3

// aboutTrim answers what to do with a trimming.
func (t *turn) aboutTrim(phrase, off string) (Reply, bool) {
	f := t.ear.find(phrase).food
	var trim food.Trimming
	if o := t.trimOf(phrase); o.Name != "" {
		f, trim = t.ear.find(o.of).food, o.Trimming
	} else if f == nil || off == "" {
		return Reply{}, false
	} else if trim, _ = f.Trimming(off); trim.Name == "" {
		return Reply{}, false
	}
	return Reply{Kind: Answer, Text: title(f.Name) + " " + sayTrimming(trim) + "." + t.comesOff(f, trim)}, true
}

// comesOff says how much of a trimming has come off what was used of a food, and would
// come off what is there.
func (t *turn) comesOff(f *food.Food, trim food.Trimming) string {
	var used, here measure.Amount
	for _, l := range t.k.Lines {
		if t.ear.foodOf(l) == f && l.Unit == measure.Gram {
			used, here = used+max(0, l.Used), here+l.OnHand()
		}
	}
	share := measure.Ratio{Num: int64(trim.Share), Den: 1000}
	var list []string
	for _, x := range []struct {
		of   measure.Amount
		what string
	}{{used, "off the %s used"}, {here, "on the %s here"}} {
		if a, err := share.Of(x.of); err == nil && a >= 5000 {
			list = append(list, "about "+measure.Say((a+2500)/5000*5000, measure.Gram)+" "+fmt.Sprintf(x.what, measure.Say(x.of, measure.Gram)))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return " " + title(both(list, "and")) + "."
}

// dinner says what binned trim would have made, if it is food: "Next time,
// dinner: dark greens (slice across, sweat 18 min)."
func dinner(f *food.Food, off string) string {
	if f == nil {
		return ""
	}
	t, ok := f.Trimming(off)
	if !ok {
		t = largest(f)
	}
	switch t.Eaten {
	case food.AsARule, food.TreatedWell:
		return fmt.Sprintf(" Next time, dinner: %s (%s).", t.Name, t.Use)
	case food.StockOnly:
		return fmt.Sprintf(" Next time, stock: %s (%s).", t.Name, t.Use)
	}
	return ""
}

// largest is the trimming that there is most of, of those that always are.
func largest(f *food.Food) (best food.Trimming) {
	for _, t := range f.Trim {
		if t.When == "" && t.Share > best.Share {
			best = t
		}
	}
	return best
}

// trimming finds a trimming of a food that may be nil.
func trimming(f *food.Food, off string) (food.Trimming, bool) {
	if f == nil || off == "" {
		return food.Trimming{}, false
	}
	return f.Trimming(off)
}

// offDrawn says whether so much trim may have come off what has been used of a
// line already: then it is not drawn again.
func offDrawn(l *pantry.Line, f *food.Food, off string, a measure.Amount) bool {
	if off == "" || f == nil {
		return false
	}
	share := measure.Ratio{Num: int64(f.Refuse), Den: 100}
	if t, ok := f.Trimming(off); ok {
		share = measure.Ratio{Num: int64(t.Share), Den: 1000}
	}
	had, err := share.Of(max(0, l.Used))
	return err == nil && a <= had
}
