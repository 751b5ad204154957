package share

import (
	"cmp"
	"slices"
)

// beamWidth is how many choices the beam keeps at each step: more, where more steps can go wrong.
func (m *model) beamWidth() int { return 4 * (m.choose - 1) }

// draft is a choice in the beam, sorted, with the bound it was chosen by.
type draft struct {
	dishes []int32
	bound  int64
}

// beam finds first choices: it builds up dish by dish and keeps the most promising of each size.
func (s *search) beam() {
	drafts := []draft{{}}
	for more := s.m.choose; more > 1; more-- {
		if drafts = s.extend(drafts, more); len(drafts) == 0 {
			return
		}
	}
	s.drafts = drafts
	for _, d := range drafts {
		s.complete(d.dishes)
	}
}

// unfit is how many choices that do not fit may be met in a part of the search that proves nothing.
const unfit = 5

// complete finds the best dishes for what a choice lacks.
func (s *search) complete(dishes []int32) {
	s.choice.set(dishes)
	s.patience = unfit
	s.explore(s.others(), s.m.choose-len(dishes), s.bound, s.start)
}

// others gives the dishes that are not chosen.
func (s *search) others() []int32 {
	list := slices.Clone(s.all)
	return slices.DeleteFunc(list, func(d int32) bool { return slices.Contains(s.choice.dishes, d) })
}

// extend adds a dish to every draft, in the most promising ways.
func (s *search) extend(drafts []draft, more int) []draft {
	var longer []draft
	o := s.outlooks[more]
	for _, d := range drafts {
		if s.stop(len(s.all)) {
			return nil
		}
		s.choice.set(d.dishes)
		if !s.look(o, s.others(), s.start, 0) {
			continue
		}
		usable := s.choice.usable()
		slices.SortFunc(o.options, func(a, b option) int {
			return cmp.Or(cmp.Compare(b.bound, a.bound), cmp.Compare(b.gain, a.gain), cmp.Compare(a.dish, b.dish))
		})
		for _, p := range o.options[:min(len(o.options), s.m.beamWidth())] {
			dishes := append(slices.Clone(d.dishes), p.dish)
			slices.Sort(dishes)
			longer = append(longer, draft{dishes, min(p.bound, usable+p.gain)})
		}
	}
	slices.SortFunc(longer, func(a, b draft) int {
		return cmp.Or(cmp.Compare(b.bound, a.bound), slices.Compare(a.dishes, b.dishes))
	})
	longer = slices.CompactFunc(longer, func(a, b draft) bool { return slices.Equal(a.dishes, b.dishes) })
	return longer[:min(len(longer), s.m.beamWidth())]
}
