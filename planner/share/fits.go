package share

import (
	"encoding/binary"
	"slices"
)

// nogoods knows which dishes do not go together: it asks the problem's Fits, once for a set, and learns from every no
// the smallest set that is to blame.
type nogoods struct {
	m     *model
	asked map[string]bool
	of    [][]set // of each dish: the sets it is in, without it
}

type set []int32

func newNogoods(m *model) *nogoods {
	return &nogoods{m: m, asked: map[string]bool{}}
}

// fit says whether dishes may be chosen together. From a no it learns, as long as stop does not say otherwise.
func (n *nogoods) fit(dishes []int32, stop func() bool) bool {
	if n.m.problem.Fits == nil {
		return true
	}
	dishes = slices.Clone(dishes)
	slices.Sort(dishes)
	if n.ask(dishes) {
		return true
	}
	n.learn(n.blame(dishes, stop))
	return false
}

// ask asks Fits about sorted dishes.
func (n *nogoods) ask(dishes []int32) bool {
	key := keyOf(dishes)
	fits, known := n.asked[key]
	if !known {
		chosen := make([]int, len(dishes))
		for i, d := range dishes {
			chosen[i] = n.m.dishes[d].index
		}
		fits = n.m.problem.Fits(chosen)
		n.asked[key] = fits
	}
	return fits
}

// keyOf makes a key for maps of sorted dishes.
func keyOf(dishes []int32) string {
	key := make([]byte, 0, 4*len(dishes))
	for _, d := range dishes {
		key = binary.LittleEndian.AppendUint32(key, uint32(d))
	}
	return string(key)
}

// blame leaves out one dish after the other as long as the rest still does not fit.
func (n *nogoods) blame(dishes []int32, stop func() bool) []int32 {
	for i := len(dishes) - 1; i >= 0 && len(dishes) > 1 && !stop(); i-- {
		rest := slices.Delete(slices.Clone(dishes), i, i+1)
		if !n.ask(rest) {
			dishes = rest
		}
	}
	return dishes
}

func (n *nogoods) learn(dishes []int32) {
	if n.of == nil {
		n.of = make([][]set, len(n.m.dishes))
	}
	for i, d := range dishes {
		n.of[d] = append(n.of[d], slices.Delete(slices.Clone(dishes), i, i+1))
	}
}

// exclude says whether d is known not to go with some of the dishes.
func (n *nogoods) exclude(dishes []int32, d int32) bool {
	if n.of == nil {
		return false
	}
	for _, others := range n.of[d] {
		if contains(dishes, others) {
			return true
		}
	}
	return false
}

// contain says whether dishes are known not to go together.
func (n *nogoods) contain(dishes []int32) bool {
	for _, d := range dishes {
		if n.exclude(dishes, d) {
			return true
		}
	}
	return false
}

func contains(dishes []int32, others set) bool {
	for _, o := range others {
		if !slices.Contains(dishes, o) {
			return false
		}
	}
	return true
}
