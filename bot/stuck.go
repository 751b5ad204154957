package bot

import (
	"slices"
	"strings"
	"time"

	"scullion/planner"
)

// Dishes of a plan that cannot go on, as kit is broken.

// stuck names the dishes that cannot go on.
func (on *running) stuck(now int) string {
	var list []string
	for _, n := range on.stuckDishes(now) {
		list = append(list, "the "+Idea{Title: on.Plan.Dishes[n].Name}.name())
	}
	if len(list) == 0 {
		return "What is left of the plan cannot be done so."
	}
	return title(both(list, "and")) + " cannot go on without it."
}

// stuckDishes gives the dishes that cannot go on without kit that is broken.
func (on *running) stuckDishes(now int) (list []int) {
	for n, d := range on.Plan.Dishes {
		if slices.ContainsFunc(d.Steps, func(s PlanStep) bool {
			return s.Start >= now && on.isDown(s.Kit) && !slices.ContainsFunc(s.Else, func(w PlanWay) bool { return !on.isDown(w.Kit) }) && !strings.HasPrefix(s.Do, "heat ")
		}) {
			list = append(list, n)
		}
	}
	return list
}

// restWithout is rest for all but some dishes, which stay as they are: of them only what has begun is reckoned with.
func (on *running) restWithout(dishes []int, now int, think time.Duration) error {
	if len(dishes) == 0 {
		return planner.ErrNoRest
	}
	all := on.Plan.Dishes
	on.Plan.Dishes = slices.Clone(all)
	for _, n := range dishes {
		on.Plan.Dishes[n].Steps = slices.DeleteFunc(slices.Clone(all[n].Steps), func(s PlanStep) bool { return s.Start >= now })
	}
	err := on.rest(now, think)
	for _, n := range dishes {
		on.Plan.Dishes[n] = all[n]
	}
	return err
}

// isDown says whether any of the kit is broken.
func (on *running) isDown(kit []string) bool {
	return slices.ContainsFunc(kit, func(k string) bool { return slices.Contains(on.Down, k) })
}
