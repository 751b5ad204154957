package bot

import (
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
func apart(x *Records, list []*Wrap) (*money, error) {
	m := &money{x: x, list: list}
	signs := strings.Split(list[0].Currency, "+")
	if len(signs) == 1 { // costs without a sign are in it too
		m.purses = []purse{{signs[0], x, list}}
		return m, nil
	}
	for _, sign := range append(signs, "") {
		own := *x
		own.Ledger = priced{x.Ledger, sign}
		wraps, err := own.Wraps()
		if err != nil {
			return nil, err
		}
		m.purses = append(m.purses, purse{sign, &own, wraps})
	}
	return m, nil
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

func (l priced) AllInForce(do func(pantry.Placed) error) error {
	return l.ledger.AllInForce(func(p pantry.Placed) error { return do(l.only(p)) })
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
