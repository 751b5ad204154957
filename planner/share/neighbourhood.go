package share

import "slices"

// mostFreed is how many dishes are freed at most: one more, and a neighbourhood takes as long as a search for a proof.
const mostFreed = 5

// improve betters the best choice in ever larger neighbourhoods (Shaw 1998): it frees two dishes, then three and so
// on, and finds the best ones in their places exactly, until nothing is gained any more. Each time it looks about the
// best choice first and then about what the beam has left. In between it tries whether a proof has come within reach.
func (s *search) improve() {
	for free := 2; s.best > nothing && free <= min(mostFreed, s.m.choose-1); free++ {
		s.climb(free)
		if s.attempt(s.work / 2) {
			return
		}
		for _, d := range s.drafts {
			before := s.best
			s.around(d.dishes, free-1)
			if s.best > before {
				s.climb(free)
			}
		}
	}
}

// climb frees so many dishes of the best choice until that leads to no better one.
func (s *search) climb(free int) {
	for before := int64(nothing) - 1; s.best > before && !s.ended; {
		before = s.best
		s.around(slices.Clone(s.chosen), free)
	}
}

// around frees every so many of some dishes in turn.
func (s *search) around(dishes []int32, free int) {
	for pick := range subsets(len(dishes), len(dishes)-free) {
		kept := make([]int32, len(pick))
		for i, k := range pick {
			kept[i] = dishes[k]
		}
		slices.Sort(kept)
		if key := keyOf(kept); !s.tried[key] && !s.ended && !s.bad.contain(kept) {
			s.complete(kept)
			s.tried[key] = true
		}
	}
}

// subsets gives all subsets of so many of the numbers below n, in lexicographic order, in the same slice each time.
func subsets(n, size int) func(func([]int) bool) {
	return func(yield func([]int) bool) {
		pick := make([]int, size)
		for i := range pick {
			pick[i] = i
		}
		for yield(pick) {
			i := size - 1
			for i >= 0 && pick[i] == n-size+i {
				i--
			}
			if i < 0 {
				return
			}
			pick[i]++
			for i++; i < size; i++ {
				pick[i] = pick[i-1] + 1
			}
		}
	}
}
