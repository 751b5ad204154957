package bot

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// Plan is what to make in a service and when, in the form that scullion plan prints.
type Plan struct {
	Dishes   []Planned  `json:"dishes"`
	Minutes  int        `json:"minutes"`
	Used     float64    `json:"used_share"`  // edible crate weight in dishes, of all that is free
	Bound    float64    `json:"bound_share"` // no plan uses more
	Proven   bool       `json:"proven"`
	Left     []Quantity `json:"left"`
	Cautions []string   `json:"cautions"`
	Relaxed  []string   `json:"relaxed,omitempty"` // what could not be had of what was asked, or of a menu's variety
}

// Planned is a dish of a plan.
type Planned struct {
	Name      string     `json:"name"`
	Frame     string     `json:"frame"`
	Palette   string     `json:"palette"`
	Seasoned  string     `json:"seasoned,omitempty"` // the palette in words
	Key       string     `json:"key"`
	How       string     `json:"how"`
	Serve     string     `json:"serve"`
	Portions  int        `json:"portions"`
	Grams     int        `json:"grams_portion"`
	Kcal      int        `json:"kcal_portion"`
	Allergens []string   `json:"allergens"`
	Cautions  []string   `json:"cautions"`
	Uses      []Quantity `json:"uses"`
	Cupboard  []Quantity `json:"cupboard"`
	Missing   []string   `json:"missing,omitempty"` // of the cupboard, what no line holds
	Steps     []PlanStep `json:"steps"`
	Ready     int        `json:"ready"`
}

// PlanStep is a step of a planned dish: it holds its kit for all its minutes, and a cook
// for the first of them, hands-on.
type PlanStep struct {
	ID      string    `json:"id"`
	Do      string    `json:"do"`
	Start   int       `json:"start"`
	Minutes int       `json:"minutes"`
	HandsOn int       `json:"handson"`
	Kit     []string  `json:"kit"`
	Temp    int       `json:"temp_c,omitempty"`
	Shelves int       `json:"shelves,omitempty"` // of an oven, that its minutes are for: all where nothing else is in
	After   []string  `json:"after"`
	Within  []int     `json:"within,omitempty"` // for each of these, the most minutes that it may wait; -1 any
	Cook    int       `json:"cook,omitempty"`
	Ends    bool      `json:"ends,omitempty"` // the dish, or what is beside it, is ready after it
	Hold    int       `json:"hold,omitempty"` // where it ends: minutes that this may wait for the others; -1 any
	Else    []PlanWay `json:"else,omitempty"`
}

// PlanWay is another way to do a step, for when its kit is wanted or gone.
type PlanWay struct {
	Do      string   `json:"do"`
	Minutes int      `json:"minutes"`
	HandsOn int      `json:"handson"`
	Kit     []string `json:"kit"`
	Temp    int      `json:"temp_c,omitempty"`
	Shelves int      `json:"shelves,omitempty"`
	Wait    int      `json:"wait"` // minutes that what it makes may wait for the next step; -1 any
}

// MakePlan plans a service for what is free in a kitchen; the stock in the ask is filled
// in. See planner.MakePlan for the time that it takes, progress and errors.
func MakePlan(ctx context.Context, k *pantry.Kitchen, foods *food.Catalogue, today pantry.Date, a planner.PlanAsk, progress func(used, bound float64)) (Plan, error) {
	a.Stock = stock(k, today, func(l *pantry.Line) *food.Food { return foodOf(foods, l) })
	p, err := planner.MakePlan(ctx, a, progress)
	if err != nil {
		return Plan{}, err
	}
	return planOf(p), nil
}

func planOf(p planner.Plan) Plan {
	out := Plan{Dishes: []Planned{}, Minutes: p.Minutes, Used: shareOf(p.Used), Bound: math.Ceil(p.Bound*1000-1e-6) / 1000, Proven: p.Proven,
		Left: quantities(p.Left), Cautions: append([]string{}, p.Cautions...), Relaxed: p.Relaxed}
	for _, d := range p.Dishes {
		out.Dishes = append(out.Dishes, plannedOf(d))
	}
	return out
}

func plannedOf(d planner.Planned) Planned {
	return Planned{Name: d.Title, Frame: d.Frame, Palette: d.Palette, Seasoned: d.Seasoned, Key: d.Key, How: d.How, Serve: string(d.Serve), Portions: d.Portions,
		Grams: d.Grams, Kcal: d.Kcal, Allergens: append([]string{}, d.Allergens...), Cautions: append([]string{}, d.Cautions...),
		Uses: quantities(d.Uses), Cupboard: quantities(d.Cupboard), Missing: d.Missing, Steps: planSteps(d.Steps), Ready: d.Ready}
}

func planSteps(list []planner.PlanStep) (steps []PlanStep) {
	for _, s := range list {
		x := PlanStep{ID: s.ID, Do: s.Do, Start: s.Start, Minutes: s.Minutes, HandsOn: s.HandsOn, Kit: append([]string{}, s.Kit...),
			Temp: s.Temp, Shelves: s.Shelves, After: append([]string{}, s.After...), Within: s.Within, Cook: s.Cook, Ends: s.Ends, Hold: s.Hold}
		for _, w := range s.Else {
			x.Else = append(x.Else, PlanWay(w))
		}
		steps = append(steps, x)
	}
	return steps
}

// step is a step as the planner has it.
func (s *PlanStep) step() planner.PlanStep {
	x := planner.PlanStep{ID: s.ID, Do: s.Do, Start: s.Start, Minutes: s.Minutes, HandsOn: s.HandsOn, Kit: s.Kit,
		Temp: s.Temp, Shelves: s.Shelves, After: s.After, Within: s.Within, Cook: s.Cook, Ends: s.Ends, Hold: s.Hold}
	for _, w := range s.Else {
		x.Else = append(x.Else, planner.PlanWay(w))
	}
	return x
}

// shareOf rounds a share to what is told of it, never up to a whole that is none.
func shareOf(x float64) float64 { return math.Floor(x*1000+1e-6) / 1000 }

// mostLeft is how many of what is left are told.
const mostLeft = 6

// say puts a plan into three lines: the dishes, when they are ready, what is left. Start is
// when it would begin.
func (p Plan) say(start time.Time) string {
	var dishes []string
	for n, d := range p.Dishes {
		dishes = append(dishes, fmt.Sprintf("%d %s.", n+1, title(d.Name)))
	}
	lines := []string{strings.Join(dishes, " ") + fmt.Sprintf(" For %d.", p.Dishes[0].Portions)}
	ready := fmt.Sprintf("All ready in %d min, at %s", p.Minutes, start.Add(time.Duration(p.Minutes)*time.Minute).Format("15:04"))
	if first := p.first(); first != "" {
		ready += ". First: " + first
	}
	lines = append(lines, ready+".")
	left := fmt.Sprintf("Uses %.0f%% of the crate", math.Floor(p.Used*100+1e-9))
	switch {
	case p.Proven:
		left += ", and no such plan does better"
	case p.Bound > p.Used+0.005:
		left += fmt.Sprintf(", where no plan can use more than %.0f%%", math.Ceil(p.Bound*100))
	}
	if len(p.Left) > 0 {
		var list []string
		for n, u := range p.Left {
			if rest := len(p.Left) - n; n == mostLeft-1 && rest > 1 {
				list = append(list, fmt.Sprintf("and %d more", rest))
				break
			}
			list = append(list, u.say())
		}
		left += ". Left: " + strings.Join(list, ", ")
	}
	lines = append(lines, left+".")
	if len(p.Relaxed) > 0 {
		lines = append(lines, title(strings.Join(p.Relaxed, "; "))+".")
	}
	return strings.Join(lines, "\n")
}

// first names what is begun at once.
func (p Plan) first() string {
	var list []string
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			if s.Start == 0 {
				list = append(list, s.Do)
			}
		}
	}
	return strings.Join(list, "; ")
}

// SayPlan puts a plan into words: three lines, then each dish with its steps.
func SayPlan(p Plan, start time.Time) string {
	parts := []string{p.say(start)}
	for n := range p.Dishes {
		parts = append(parts, p.sayDish(n, start))
	}
	return strings.Join(parts, "\n\n")
}

// sayDish tells a dish: what goes in, what a portion is, and its steps by the clock.
func (p Plan) sayDish(n int, start time.Time) string {
	d := &p.Dishes[n]
	i := Idea{Uses: d.Uses, Allergens: d.Allergens, Cautions: d.Cautions}
	text := fmt.Sprintf("%d %s, for %d: %s", n+1, title(d.Name), d.Portions, i.sayUses(len(d.Uses)))
	if len(d.Cupboard) > 0 {
		var list []string
		for _, u := range d.Cupboard {
			list = append(list, u.say())
		}
		text += "; from the cupboard " + both(list, "and")
	}
	text += fmt.Sprintf(". About %d g and %d kcal a portion.", d.Grams, d.Kcal)
	if len(d.Missing) > 0 {
		text += " Not held: " + strings.Join(d.Missing, ", ") + "."
	}
	lines := []string{text + i.warn()}
	for _, s := range d.Steps {
		lines = append(lines, start.Add(time.Duration(s.Start)*time.Minute).Format("15:04 ")+s.say())
	}
	return strings.Join(append(lines, "Ready "+start.Add(time.Duration(d.Ready)*time.Minute).Format("15:04")+"."), "\n")
}

// say: "roast, turn once, 33 min (2 hands-on), oven 210 C, cook 1".
func (s PlanStep) say() string {
	x := step{Do: s.Do, Minutes: s.Minutes, HandsOn: s.HandsOn, Temp: s.Temp, Kit: strings.Join(s.Kit, " and ")}
	text := x.say()
	if s.Cook > 0 {
		text += fmt.Sprintf(", cook %d", s.Cook)
	}
	return text
}

// PlanAdvice says what to do where no plan could be made.
func PlanAdvice(err error) string {
	switch {
	case errors.Is(err, planner.ErrNothing):
		return `take the delivery in first, like "got 2kg carrots, 6 eggs"`
	case errors.Is(err, planner.ErrNoTime):
		return "ask for fewer dishes, or give it longer to think"
	}
	return "give it more minutes, fewer or lighter portions, or more of the kit"
}
