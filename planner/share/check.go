package share

import (
	"fmt"
	"math"
	"math/bits"
)

// mostWorth bounds what any sum of worths may come to. A few such can be added up before anything overflows.
const mostWorth = 1 << 58

// check refuses a problem that makes no sense or whose sums would overflow.
func check(p *Problem) error {
	for _, step := range []func(*Problem) error{checkStock, checkCandidates, checkGroups, checkLoads, checkWorth} {
		if err := step(p); err != nil {
			return err
		}
	}
	return nil
}

func invalid(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrInvalid, fmt.Sprintf(format, args...))
}

func checkStock(p *Problem) error {
	switch {
	case len(p.Weight) != len(p.Stock):
		return invalid("%d lines of stock but %d weights", len(p.Stock), len(p.Weight))
	case p.Least != nil && len(p.Least) != len(p.Stock):
		return invalid("%d lines of stock but %d least amounts", len(p.Stock), len(p.Least))
	case p.Choose < 0:
		return invalid("%d to choose", p.Choose)
	}
	for i, s := range p.Stock {
		switch {
		case s < 0:
			return invalid("line %d: stock %d", i, s)
		case p.Weight[i] < 0:
			return invalid("line %d: weight %d", i, p.Weight[i])
		case p.Least != nil && (p.Least[i] < 0 || p.Least[i] > s):
			return invalid("line %d: at least %d of %d to be used", i, p.Least[i], s)
		}
	}
	return nil
}

func checkCandidates(p *Problem) error {
	seen := make([]int, len(p.Stock)) // 1 + the last candidate that named the line
	for i := range p.Candidates {
		c := &p.Candidates[i]
		if c.Min < 0 || c.Min > c.Max {
			return invalid("candidate %d: total between %d and %d", i, c.Min, c.Max)
		}
		for _, u := range c.Uses {
			switch {
			case u.Line < 0 || u.Line >= len(p.Stock):
				return invalid("candidate %d: no line %d", i, u.Line)
			case seen[u.Line] == i+1:
				return invalid("candidate %d: line %d named twice", i, u.Line)
			case u.Min < 0 || u.Min > u.Max:
				return invalid("candidate %d: between %d and %d of line %d", i, u.Min, u.Max, u.Line)
			}
			seen[u.Line] = i + 1
		}
	}
	return nil
}

func checkGroups(p *Problem) error {
	seen := make([]int, len(p.Candidates)) // 1 + the last group that named the candidate
	for i, g := range p.Groups {
		if g.Least < 0 || g.Least > g.Most {
			return invalid("group %d: between %d and %d of it", i, g.Least, g.Most)
		}
		for _, m := range g.Members {
			switch {
			case m < 0 || m >= len(p.Candidates):
				return invalid("group %d: no candidate %d", i, m)
			case seen[m] == i+1:
				return invalid("group %d: candidate %d named twice", i, m)
			}
			seen[m] = i + 1
		}
	}
	return nil
}

// mostLoad bounds limits and loads, so that they can be added up.
const mostLoad = 1 << 50

func checkLoads(p *Problem) error {
	for i, l := range p.Limits {
		if l < 0 || l > mostLoad {
			return invalid("limit %d is %d", i, l)
		}
	}
	for i := range p.Candidates {
		loads := p.Candidates[i].Loads
		if loads != nil && len(loads) != len(p.Limits) {
			return invalid("candidate %d: %d loads for %d limits", i, len(loads), len(p.Limits))
		}
		for _, l := range loads {
			if l < 0 || l > mostLoad {
				return invalid("candidate %d: load %d", i, l)
			}
		}
	}
	return nil
}

// checkWorth sees that neither the amounts nor the worths of any choice exceed mostWorth, even if each dish had the
// stock for itself.
func checkWorth(p *Problem) error {
	var stock, worth, values uint64
	times := uint64(min(p.Choose, len(p.Candidates))) + 1
	for i, s := range p.Stock {
		if !addProduct(&stock, uint64(s), times) || !addProduct(&worth, uint64(s)*times, uint64(p.Weight[i])) {
			return invalid("line %d: stock or its worth is too great to be added up", i)
		}
	}
	for i := range p.Candidates {
		v := p.Candidates[i].Value
		values = worth
		if v == math.MinInt64 || !addProduct(&values, uint64(max(v, -v)), times) {
			return invalid("candidate %d: value %d is too great to be added up", i, v)
		}
	}
	return nil
}

// addProduct adds a*b to sum and says whether that is no more than mostWorth.
func addProduct(sum *uint64, a, b uint64) bool {
	high, low := bits.Mul64(a, b)
	if high > 0 || low > mostWorth {
		return false
	}
	*sum += low
	return *sum <= mostWorth
}
