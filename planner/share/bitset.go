package share

import (
	"iter"
	"math/bits"
)

// bitset is a set of small numbers.
type bitset []uint64

// empty gives an empty set for numbers below n, in the memory of another where it suffices.
func (b bitset) empty(n int) bitset {
	words := (n + 63) / 64
	if cap(b) < words {
		return make(bitset, words)
	}
	b = b[:words]
	clear(b)
	return b
}

// copied gives a copy of a set in the memory of another.
func (b bitset) copied(from bitset) bitset { return append(b[:0], from...) }

func (b bitset) add(k int) { b[k/64] |= 1 << (k % 64) }

func (b bitset) has(k int) bool { return b[k/64]>>(k%64)&1 == 1 }

func (b bitset) remove(k int) { b[k/64] &^= 1 << (k % 64) }

func (b bitset) intersect(with bitset) {
	for i := range b {
		b[i] &= with[i]
	}
}

// common counts what is in both sets.
func (b bitset) common(with bitset) (n int) {
	for i, w := range b {
		n += bits.OnesCount64(w & with[i])
	}
	return n
}

// full gives the set of the numbers below n, in the memory of another where it suffices.
func (b bitset) full(n int) bitset {
	b = b.empty(n)
	for i := range b {
		b[i] = ^uint64(0)
	}
	if n%64 > 0 {
		b[n/64] = 1<<(n%64) - 1
	}
	return b
}

// all gives what is in the set, ascending; what is removed meanwhile may still be given.
func (b bitset) all() iter.Seq[int] {
	return func(yield func(int) bool) {
		for i, w := range b {
			for ; w != 0; w &= w - 1 {
				if !yield(i*64 + bits.TrailingZeros64(w)) {
					return
				}
			}
		}
	}
}
