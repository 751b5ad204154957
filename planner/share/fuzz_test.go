package share_test

import (
	"encoding/binary"
	"errors"
	"slices"
	"testing"

	"scullion/planner/share"
)

// FuzzChoose makes a problem of any bytes, sound or not: the answer passes the checker or is one of three errors.
func FuzzChoose(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("\x03\x02\x0a\x01\x0b\x02\x04\x00\x02\x00\x00\x05\x01\x01\x06\x09\x00\x01\x01\x01\x00\x03\x04\x02"))
	f.Add([]byte("\x02\x02\xff\x7f\xff\xff\xff\xff\xff\xff\xff\x00\x00\x00\x00\x00\x00\x00\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		p := decode(&reader{data})
		r, err := share.Choose(ending(t.Context(), 20), p)
		switch {
		case err == nil:
			verify(t, p, r)
		case !errors.Is(err, share.ErrInvalid) && !errors.Is(err, share.ErrInfeasible) && !errors.Is(err, share.ErrNoneFound):
			t.Fatal(err)
		}
	})
}

// reader reads numbers off bytes, and noughts when they are used up.
type reader struct{ data []byte }

func (r *reader) byte() int {
	if len(r.data) == 0 {
		return 0
	}
	b := r.data[0]
	r.data = r.data[1:]
	return int(b)
}

// number is mostly small, now and then anything.
func (r *reader) number() int64 {
	if b := r.byte(); b < 250 {
		return int64(b % 32)
	}
	var all [8]byte
	for i := range all {
		all[i] = byte(r.byte())
	}
	return int64(binary.LittleEndian.Uint64(all[:]))
}

func decode(r *reader) share.Problem {
	p := share.Problem{Choose: r.byte()%6 - 1}
	for range r.byte() % 7 {
		p.Stock = append(p.Stock, r.number())
		p.Weight = append(p.Weight, r.number())
	}
	if r.byte()%4 == 3 {
		for range p.Stock {
			p.Least = append(p.Least, r.number())
		}
	}
	for range r.byte() % 12 {
		c := share.Candidate{Family: r.byte()%8 - 2, Min: r.number()}
		c.Max, c.Value = c.Min+r.number(), r.number()-8
		for range r.byte() % 5 {
			u := share.Use{Line: r.byte()%8 - 1, Min: r.number()}
			u.Max = u.Min + r.number()
			c.Uses = append(c.Uses, u)
		}
		p.Candidates = append(p.Candidates, c)
	}
	for range r.byte() % 4 {
		g := share.Group{Least: r.byte()%3 - 1, Most: r.byte() % 4}
		for range r.byte() % 5 {
			g.Members = append(g.Members, r.byte()%12)
		}
		p.Groups = append(p.Groups, g)
	}
	if odd := r.byte(); odd%2 == 1 { // one that goes with no other
		p.Fits = func(chosen []int) bool { return len(chosen) < 2 || !slices.Contains(chosen, odd/2%8) }
	}
	return p
}
