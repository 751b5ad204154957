package share

// How often prices are moved: to begin with, and at a node of the search, where those of the node before are near.
const (
	firstRounds = 30
	rounds      = 8
)

// look fills an outlook with the dishes of a list that may be added to the present choice, and with bounds on what can
// come of that. Prices are moved so many rounds from start on. It says whether there can be anything better than the
// best.
func (s *search) look(o *outlook, list []int32, start []int64, rounds int) bool {
	o.options = o.options[:0]
	if !s.choice.listOptions(o, list, s.bad) {
		return false
	}
	o.gather(s.m)
	if !o.inherit(o, s.choice, s.best) {
		return false
	}
	o.price(s.choice)
	o.cut(s.best)
	if o.more > 1 && len(o.options) >= o.more {
		s.relax(o, start, rounds)
		o.cut(s.best)
	}
	return len(o.options) >= o.more
}
