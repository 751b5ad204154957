package bot

import (
	"fmt"
	"slices"

	"scullion/pantry"
	"scullion/pantry/measure"
	"scullion/planner"
)

// mainly is from how many grams or ml a portion on food of the cupboard is what a dish is made
// of: without its rice a pilaf cannot be. Less of it seasons. The planner's own judgement, no
// source.
const mainly = 40

// ofCupboard works out what the dishes of a plan still need of the cupboard's food, which is
// not kept for them, and get. What was not held as the plan was made is told there. What has
// begun has its seasoning, but not yet its rice and stock; nothing is short by the record of which something has gone in.
func (t *turn) ofCupboard(on *running) (list []keep, err error) {
	said, err := t.book.Message(on.Message)
	if err != nil {
		return nil, err
	}
	free := map[int64]measure.Amount{}
	for n := range on.Plan.Dishes {
		if on.isOver(n, t.m.At) {
			continue
		}
		for i, u := range on.Plan.Dishes[n].Cupboard {
			l := t.k.Named(u.Item)
			if l == nil || l.Unit.String() != u.Unit {
				continue
			}
			x := keep{dish: n, use: i, line: l, cupboard: true, need: measure.Amount(u.Amount*1000 + 0.5)}
			since, err := t.book.Since(l.ID, said)
			if err != nil {
				return nil, err
			}
			was, err := t.book.LineBefore(l.ID, said)
			if err != nil {
				return nil, err
			}
			for _, e := range since {
				if e.Act == pantry.Use && (e.Dish == on.Names[n] || e.Dish == "" && on.hasBegun(n, e.At)) {
					x.in += e.Amount
				}
			}
			told := on.Short[on.shortKey(n, l.Name)] > 0
			if was.Free() < x.need || x.in > 0 || on.hasBegun(n, t.m.At) && !told && !t.isMainly(on, &x) && !t.comesYet(on, n, l) {
				x.need = 0
			}
			if _, ok := free[l.ID]; !ok {
				free[l.ID] = max(0, l.Free())
			}
			x.gets = min(x.need, free[l.ID])
			free[l.ID] -= x.gets
			list = append(list, x)
		}
	}
	return list, nil
}

// comesYet says whether food goes into a dish while that cooks, and what it may go in at has not begun.
func (t *turn) comesYet(on *running, n int, l *pantry.Line) bool {
	f := t.ear.foodOf(l)
	return f != nil && planner.GoesInLate(f) && slices.ContainsFunc(on.Plan.Dishes[n].Steps, func(s PlanStep) bool {
		return s.Start >= on.minute(t.m.At) && len(s.Kit) > 0 && !s.isHeating()
	})
}

// isMainly says whether a dish is made of what is kept, not seasoned with it.
func (t *turn) isMainly(on *running, k *keep) bool {
	if on.amount(k).Amount >= mainly*float64(max(1, on.Plan.Dishes[k.dish].Portions)) {
		return true
	}
	f := t.ear.foodOf(k.line)
	return !k.cupboard && (f == nil || !planner.Seasons(f))
}

// amount is what the plan puts in of what is kept.
func (on *running) amount(k *keep) *Quantity {
	if d := &on.Plan.Dishes[k.dish]; !k.cupboard {
		return &d.Uses[k.use]
	} else {
		return &d.Cupboard[k.use]
	}
}

// sayWithout tells that dishes have to do without seasoning: "No cider vinegar is left for
// dish 1 (20 ml) and 2 (5 ml). Lemon is free and does instead." One line tells of one food.
func (t *turn) sayWithout(on *running, list []keep) (lines []string) {
	free := stock(t.fit(), pantry.DateOf(t.m.At), t.ear.foodOf)
	for _, of := range byLine(list) {
		var takes []string
		for _, k := range of {
			takes = append(takes, fmt.Sprintf("%d (%s)", k.dish+1, measure.Say(k.need, k.line.Unit)))
		}
		text := fmt.Sprintf("%s for dish %s.", title(sayCause(of[:1])), both(takes, "and"))
		if s, ok := planner.Instead(free, t.mustNot(on.Wish.Limits), toPlanner(&on.Plan.Dishes[of[0].dish]), of[0].line.Name); ok {
			text += fmt.Sprintf(" %s is free and does instead.", title(s.Item))
		}
		lines = append(lines, text)
	}
	return lines
}

// sayThere: "There again for dish 1 and 2: cider vinegar."
func sayThere(list []keep) (lines []string) {
	for _, of := range byLine(list) {
		var dishes []string
		for _, k := range of {
			dishes = append(dishes, fmt.Sprint(k.dish+1))
		}
		lines = append(lines, fmt.Sprintf("There again for dish %s: %s.", both(dishes, "and"), of[0].line.Name))
	}
	return lines
}

// byLine puts together what is of one line.
func byLine(list []keep) (groups [][]keep) {
	for _, k := range list {
		at := slices.IndexFunc(groups, func(g []keep) bool { return g[0].line == k.line })
		if at < 0 {
			at, groups = len(groups), append(groups, nil)
		}
		groups[at] = append(groups[at], k)
	}
	return groups
}
