package bot

import (
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/account"
)

// money is a kitchen's accounts, and the same again in each currency apart: costs in different
// currencies are not added.
type money struct {
	x      *Records
	list   []*Wrap // with costs of all currencies as if they were one
	purses []purse
}

// purse is the accounts in one currency: what was priced in others has no cost there.
type purse struct {
	sign string // "" where none was said
	x    *Records
	list []*Wrap
}

// apart reckons the accounts in each currency in which costs were said.
func apart(x *Records, list []*Wrap) *money {
	m := &money{x: x, list: list}
	signs := strings.Split(list[0].Currency, "+")
	if len(signs) == 1 { // costs without a sign are in it too
		m.purses = []purse{{signs[0], x, list}}
		return m
	}
	for i, a := range list[0].apart {
		p := purse{a.sign, a.x, make([]*Wrap, len(list))}
		for n, w := range list {
			p.list[n] = w.apart[i].Wrap
		}
		m.purses = append(m.purses, p)
	}
	return m
}

// setApart gives accounts their like in each currency.
func (x *Records) setApart(list []*Wrap, signs []string) error {
	for _, sign := range signs {
		own := *x
		own.Ledger = priced{x.Ledger, sign}
		wraps, err := own.Wraps()
		if err != nil {
			return err
		}
		for i := range list {
			wraps[i].Currency = sign
			list[i].apart = append(list[i].apart, apartWrap{sign, &own, wraps[i]})
			list[i].Apart = append(list[i].Apart, WrapCost{sign, wraps[i].Crate, wraps[i].Lines, wraps[i].Dishes, wraps[i].GivenTo})
		}
	}
	for _, w := range list {
		w.Crate.WrapColumns, w.Crate.Kept.Cost, w.Crate.Cupboard.Cost = w.Crate.costless(), 0, 0
		for i := range w.Lines {
			w.Lines[i].Cost, w.Lines[i].Weighed = 0, w.Lines[i].Weighed.costless()
		}
		for _, list := range [][]WrapDish{w.Dishes, w.GivenTo} {
			for i := range list {
				list[i].Cost = 0
			}
		}
	}
	return nil
}

// priceApart gives the sheet of a dish its costs currency by currency; where all of them are in
// one it says in which.
func (w *Wrap) priceApart(s *account.Sheet) error {
	var list []account.Price
	parts := make([][]account.Price, len(s.Parts))
	for _, a := range w.apart {
		own, err := a.x.Sheet(a.Wrap, s.Dish)
		if err != nil {
			return err
		}
		if own.Cost != 0 {
			list = append(list, account.Price{Sign: a.sign, Cost: own.Cost})
		}
		for _, p := range own.Parts {
			at := slices.IndexFunc(s.Parts, func(o account.Ingredient) bool { return o.Item == p.Item && o.Unlogged == p.Unlogged })
			if p.Cost != 0 && at >= 0 {
				parts[at] = append(parts[at], account.Price{Sign: a.sign, Cost: p.Cost})
			}
		}
	}
	for i, prices := range parts {
		switch p := &s.Parts[i]; {
		case len(prices) == 1:
			p.Cost, p.Sign = prices[0].Cost, prices[0].Sign
		case len(prices) > 1:
			p.Cost, p.Apart = 0, prices
		}
	}
	if len(list) > 1 {
		s.Cost, s.Apart = 0, list
	}
	return nil
}

// say gives what is reckoned of the i-th account, for each of n, currency by currency: "£3.80
// and $2.00"; "" where there is no cost.
func (m *money) say(i, n int, reckon func(*Records, *Wrap) (int64, error)) (string, error) {
	var list []string
	for _, p := range m.purses {
		minor, err := reckon(p.x, p.list[i])
		if err != nil {
			return "", err
		}
		if minor != 0 {
			list = append(list, sayPrice(p.sign, eachOf(minor, n)))
		}
	}
	return both(list, "and"), nil
}

// priced is a ledger with the costs of one currency only.
type priced struct {
	ledger
	sign string
}

// ledger is where accounts are read from.
type ledger interface {
	account.Ledger
	Between(from, to int64, do func(pantry.Placed) error) error
}

// readOnce is a ledger of which all that is in force is read but once.
type readOnce struct {
	ledger
	all  []pantry.Placed
	done bool
}

func (l *readOnce) AllInForce() (_ []pantry.Placed, err error) {
	if !l.done {
		if l.all, err = l.ledger.AllInForce(); err != nil {
			return nil, err
		}
		l.done = true
	}
	return l.all, nil
}

func (l priced) AllInForce() ([]pantry.Placed, error) {
	all, err := l.ledger.AllInForce()
	list := make([]pantry.Placed, len(all))
	for i := range all {
		list[i] = l.only(all[i])
	}
	return list, err
}

func (l priced) Between(from, to int64, do func(pantry.Placed) error) error {
	return l.ledger.Between(from, to, func(p pantry.Placed) error { return do(l.only(p)) })
}

func (l priced) only(p pantry.Placed) pantry.Placed {
	if p.Sign != l.sign {
		p.Lot.Cost = 0
	}
	return p
}
