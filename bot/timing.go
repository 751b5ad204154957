package bot

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/heat"
)

// howLong says how long a food takes: reckoned, where a size was said and it is
// known how the food heats; else what the techniques take.
func (t *turn) howLong(q *language.Question, h found, l *pantry.Line) Reply {
	if h.food == nil {
		return Reply{Kind: Silent}
	}
	if f := heat.Of(h.food.Name); f != nil && q.Size.Mm > 0 {
		return Reply{Kind: Answer, Text: t.reckoned(q, h.food, f)}
	}
	return t.usualTimes(h.food, l)
}

// usualTimes gives the minutes of the techniques that a food takes.
func (t *turn) usualTimes(f *food.Food, l *pantry.Line) Reply {
	stock := pantry.Line{Name: strings.ToLower(f.Name), Food: f.Name, Unit: f.Unit, Shelf: food.Crate}
	if l != nil && l.Free() > 0 {
		stock = *l
	} else {
		stock.Lots = []pantry.Lot{{Came: 300_000, Left: 300_000}}
	}
	k := &pantry.Kitchen{ID: t.k.ID, Name: t.k.Name}
	k.Add(&stock)
	var list []string
	for _, i := range Ideas(k, t.ear.all, pantry.DateOf(t.m.At), IdeaAsk{Item: stock.Name, Minutes: 180, Most: mostIdeas}) {
		list = append(list, fmt.Sprintf("%s: %d min, %d hands-on", title(i.Title), i.Minutes, i.HandsOn))
	}
	if len(list) == 0 {
		return Reply{Kind: Answer, Text: "No times for " + stock.Name + " in the tables yet."}
	}
	return Reply{Kind: Answer, Text: strings.Join(list, "\n") + "\nTimes are a guide: judge doneness yourself, and use a probe where safety depends on it."}
}

// reckoned says how long a food cut to a size takes.
func (t *turn) reckoned(q *language.Question, f *food.Food, hf *heat.Food) string {
	cut := cutOf(q, hf)
	var list []string
	for _, m := range methodsFor(q, hf) {
		if min := heat.HowLong(hf, m, cut, q.Size.Mm/1000, 0); min < 6*60 {
			list = append(list, fmt.Sprintf("%s %d min", sayMethod(m, hf), wholeMinutes(min)))
		} else {
			list = append(list, sayMethod(m, hf)+" not within hours")
		}
	}
	if grams := t.load(q, f); q.Method == "microwave" || q.Method == "" && hf.Done.Soft > 0 {
		if min := heat.Microwave(hf, grams, watts); min > 0 {
			list = append(list, fmt.Sprintf("in the microwave %d min (%g g, %d W, then 5 standing, covered)", wholeMinutes(min), grams, watts))
		}
	}
	if len(list) == 0 {
		return title(f.Name) + ": no figures for that way of cooking it."
	}
	return fmt.Sprintf("%s, %s: %s.\n%s", title(f.Name), sayCut(cut, q.Size.Mm), strings.Join(list, ", "), assumed(hf))
}

// howSmall says how small to cut a food so that it is done in the minutes there
// are.
func (t *turn) howSmall(q *language.Question, h found) Reply {
	if h.food == nil {
		return Reply{Kind: Silent}
	}
	hf := heat.Of(h.food.Name)
	switch {
	case hf == nil:
		return Reply{Kind: Answer, Text: "No figures for how heat goes into " + h.food.Name + ". \"how long for " + h.food.Name + "?\" has the usual times."}
	case q.Minutes == 0:
		return Reply{Kind: Answer, Text: "In how many minutes? Say it like \"how small for " + h.food.Name + " in 12 minutes?\"."}
	}
	var list []string
	for _, m := range methodsFor(q, hf) {
		list = append(list, sayMethod(m, hf)+" "+sayLargest(q, hf, m))
	}
	if len(list) == 0 {
		return Reply{Kind: Answer, Text: title(h.food.Name) + ": no figures for that way of cooking it. Boiled, steamed, poached and in the oven can be reckoned."}
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%s done in %d min: %s.\n%s", title(h.food.Name), q.Minutes, strings.Join(list, "; "), assumed(hf))}
}

// sayLargest: "cubes of 24 mm, slices of 14 mm".
func sayLargest(q *language.Question, hf *heat.Food, m *heat.Method) string {
	cuts := hf.Cuts
	if q.Size.Cut != "" {
		cuts = []heat.Cut{heat.Cut(q.Size.Cut)}
	}
	var list []string
	for _, c := range cuts[:min(len(cuts), 2)] {
		mm := math.Floor(heat.HowSmall(hf, m, c, float64(q.Minutes), 0) * 1000)
		if mm < 2 {
			return "not in that time, however small"
		}
		list = append(list, sayCut(c, min(mm, mostMm)))
	}
	return strings.Join(list, ", ")
}

// mostMm is the largest size that is said: above it a whole piece is meant, and
// no cut.
const mostMm = 80

// watts is what a microwave oven is taken to give where nobody says.
const watts = 800

// methodsFor gives the ways of cooking that are asked about, or that are usual.
func methodsFor(q *language.Question, hf *heat.Food) (list []*heat.Method) {
	names := []string{"boil", "steam", "roast"}
	if hf.Done.Soft == 0 {
		names = []string{"roast", "poach"}
	}
	if q.Method != "" {
		names = []string{q.Method}
	}
	for _, n := range names {
		if m := heat.By(n); m != nil {
			list = append(list, m)
		}
	}
	return list
}

func sayMethod(m *heat.Method, hf *heat.Food) string {
	if m.Dry && hf.Done.Soft > 0 {
		return fmt.Sprintf("%s at %.0f C, soft but not yet brown,", m.Said, m.Celsius)
	}
	if m.Dry || m.Name == "poach" {
		return fmt.Sprintf("%s at %.0f C", m.Said, m.Celsius)
	}
	return m.Said
}

// cutOf is how the food is cut: as said, else the first of its usual cuts that is
// a piece.
func cutOf(q *language.Question, hf *heat.Food) heat.Cut {
	switch {
	case q.Size.Cut != "":
		return heat.Cut(q.Size.Cut)
	case hf.Done.Soft > 0:
		return heat.AsCube
	}
	return hf.Cuts[0]
}

func sayCut(c heat.Cut, mm float64) string {
	size := strconv.FormatFloat(mm, 'f', -1, 64) + " mm"
	switch c {
	case heat.AsSlice:
		return size + " thick"
	case heat.AsStick:
		return "sticks " + size + " across"
	case heat.AsWhole:
		return "whole, " + size + " across"
	}
	return size + " cubes"
}

// load is how much goes into the microwave: as said, else 300 g.
func (t *turn) load(q *language.Question, f *food.Food) float64 {
	if q.Amount.How == language.Measured && q.Amount.Kind == measure.Gram {
		return q.Amount.Base.Units()
	}
	return 300
}

func wholeMinutes(m float64) int { return max(1, int(math.Ceil(m-0.05))) }

// assumed says what the reckoning took for granted, and who judges.
func assumed(hf *heat.Food) string {
	from := fmt.Sprintf("From %.0f C, pieces alike and not crowded, water boiling or oven hot before they go in.", hf.From)
	if hf.Done.Core > 0 {
		return fmt.Sprintf("From %.0f C to %.0f C in the middle and %s more: a guide, no clearance. Check the thickest part with a probe; your food-safety rules go first.", hf.From, hf.Done.Core, sayHold(hf.Done.Hold))
	}
	return from + " Done when a knife goes through: try one, and judge yourself."
}

// sayHold: "2 min", "15 s".
func sayHold(minutes float64) string {
	if minutes < 1 {
		return fmt.Sprintf("%.0f s", minutes*60)
	}
	return fmt.Sprintf("%.0f min", minutes)
}
