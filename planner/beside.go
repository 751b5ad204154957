package planner

import (
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// likeBeside lists the plates that are too like one of the dishes made besides, under the
// rules of a try.
func (m *menu) likeBeside(try int) (list []int) {
	for n := range m.ask.Beside {
		d := &m.ask.Beside[n]
		f := frameByID(d.Frame)
		if f == nil {
			continue
		}
		sorts := m.sortsBeside(d, f, try)
		for i := range m.plates {
			x := &m.plates[i]
			if slices.Contains(list, i) {
				continue
			}
			if x.frame == f || !rules[try].kin && x.frame.Family == f.Family || slices.ContainsFunc(m.sorts(x, try), func(s string) bool { return slices.Contains(sorts, s) }) {
				list = append(list, i)
			}
		}
	}
	slices.Sort(list)
	return list
}

// sortsBeside is sorts of a dish that is made besides.
func (m *menu) sortsBeside(d *Planned, f *technique.Frame, try int) (list []string) {
	if d.Palette != "" {
		list = append(list, "palette "+d.Palette)
	}
	var foods []*food.Food
	for _, u := range slices.Concat(d.Uses, d.Cupboard) {
		if f := m.foodNamed(u.Item); f != nil {
			foods = append(foods, f)
		}
	}
	has := func(kind string) bool {
		return slices.ContainsFunc(foods, func(f *food.Food) bool { return isOf(f, kind) })
	}
	if !rules[try].led {
		if f := m.foodNamed(leadOf(d.Key)); f != nil {
			list = append(list, "led by "+f.Name)
		}
		if has(pulses) {
			list = append(list, pulses)
		}
	}
	if rules[try].alike {
		return list
	}
	if f.Form == "smooth" {
		list = append(list, "smooth")
	}
	for _, kind := range onceOnly {
		if has(kind) {
			list = append(list, kind)
		}
	}
	return list
}

// frameByID finds a frame by its id; nil where there is none.
func frameByID(id string) *technique.Frame {
	list := technique.Frames()
	if i := slices.IndexFunc(list, func(f technique.Frame) bool { return f.ID == id }); i >= 0 {
		return &list[i]
	}
	return nil
}

// leadOf gives the item that leads the dish of a Key.
func leadOf(key string) string {
	parts := strings.Split(key, "|")
	if len(parts) < 2 || strings.HasPrefix(parts[1], "~") {
		return ""
	}
	return parts[1]
}

// foodNamed gives the food of an item, free or not; nil where it is not known.
func (m *menu) foodNamed(item string) *food.Food {
	for i := range m.kitchen.lines {
		if m.kitchen.lines[i].Item == item {
			return m.kitchen.lines[i].Food
		}
	}
	f, _ := food.Default().Food(item)
	return f
}
