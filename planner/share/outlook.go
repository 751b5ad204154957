package share

// option is a dish that may be chosen next.
type option struct {
	dish  int32
	gain  int64 // no more is gained by choosing it
	net   int64 // its worth net of prices
	bound int64 // no completion that holds it has a greater worth
}

// outlook is what can still come of a choice: the dishes that may be added and bounds on what they bring. A search has
// one for each depth and fills it anew at every node.
//
// Three bounds are reckoned for every dish. The first is the one for submodular functions (Nemhauser, Wolsey and Fisher
// 1978): what the choice may use, plus the dish's gain, plus the greatest gains of others. The second allows each line
// the greatest amounts that any dishes left can take of it, as far as the greatest totals go. The third is by prices.
type outlook struct {
	more    int // how many dishes are to be added
	options []option
	first   []int32  // the options to branch on
	set     bitset   // the options not branched on yet; in narrow, options of another outlook
	users   []bitset // of each line: the options that take of it
	dishes  []int32  // room for a list of dishes

	bound  int64   // on every completion
	loose  int64   // the same without regard to totals
	reach  []int64 // of each line: what may be used of it in a completion
	needed []int64 // of each line: what the dishes added must take of it at least; not above 0: nothing
	votes  []int   // of each line: how many options may be the one that takes most of it

	most   [][]int64 // of each line: the greatest amounts that dishes take, descending
	beside []int64   // of each line: what may be asked of it by all but one of the dishes added
	minima []int64   // the smallest least totals, negated, descending
	totals []int64   // the greatest totals, descending
	values []int64   // the greatest values, descending
	gains  []int64   // the greatest gains, descending

	prices  *prices
	base    int64   // worth of stock at its price and of the choice net of prices
	nets    []int64 // the greatest nets, descending
	relaxed int64   // the bound by prices, as they are
}

func newOutlook(m *model, more int) *outlook {
	o := &outlook{
		more:   more,
		reach:  make([]int64, len(m.stock)),
		beside: make([]int64, len(m.stock)),
		most:   make([][]int64, len(m.stock)),
		minima: make([]int64, more),
		totals: make([]int64, more),
		values: make([]int64, more),
		gains:  make([]int64, more),
		prices: newPrices(m),
		nets:   make([]int64, more),
		needed: make([]int64, len(m.stock)),
		votes:  make([]int, len(m.stock)),
		users:  make([]bitset, len(m.stock)),
	}
	for i := range o.most {
		o.most[i] = make([]int64, more)
	}
	return o
}

// gather takes down the greatest amounts, totals and values and the smallest least totals of the options.
func (o *outlook) gather(m *model) {
	for _, list := range o.most {
		clear(list)
	}
	clear(o.totals)
	for i := range o.values {
		o.values[i], o.minima[i] = nothing, nothing
	}
	for i := range o.options {
		d := &m.dishes[o.options[i].dish]
		for j := range d.uses {
			insert(o.most[d.uses[j].line], d.uses[j].max)
		}
		insert(o.minima, -d.min)
		insert(o.totals, d.max)
		insert(o.values, d.value)
	}
}

// insert puts v into a descending list if it is among the greatest, and the least of them falls out.
func insert(list []int64, v int64) {
	k := len(list) - 1
	if v <= list[k] {
		return
	}
	for ; k > 0 && list[k-1] < v; k-- {
		list[k] = list[k-1]
	}
	list[k] = v
}

func sum(list []int64) (total int64) {
	for _, v := range list {
		total += v
	}
	return total
}

// cut drops the options that lead to nothing better than best.
func (o *outlook) cut(best int64) {
	kept := o.options[:0]
	for _, p := range o.options {
		if p.bound > best {
			kept = append(kept, p)
		}
	}
	o.options = kept
}
