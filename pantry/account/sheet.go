package account

import (
	"cmp"
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Sheet is a dish as it was really cooked: what went in, as weighed, and what that means for who
// eats it. Amounts are of the whole dish; divide by Portions, where that is known.
type Sheet struct {
	Dish      string // as the ledger calls it
	Portions  int    // 0: nobody said
	Covers    int    // of its service, where nobody told the portions: they are taken for them where that leaves each enough
	Cooked    time.Time
	Cooks     []string       // who put something in, in order
	Parts     []Ingredient   // heaviest first
	Steps     []Step         // in order of time
	Grams     float64        // edible, of all that has a weight
	Yield     measure.Amount // what it came to once cooked, as weighed; 0: nobody said
	YieldUnit measure.Kind
	Cost      int64    // of what has one, in the currency's smallest unit
	Unpriced  []string // what of it has none
	Apart     []Price  // of each currency, where what is in it was priced in several: Cost is 0 then
	Energy    Nutrients
	Holds     []Allergen // of the EU/UK 14, by nature
	May       []Allergen // that such food often carries: see the label
	Unknown   []string   // items that nobody knows the allergens of
	Vegan     Diet
	Meatless  Diet
	Textures  []string // asked for by guests of its service: "9 pureed (IDDSI level 4)"
}

// Ingredient is one food of a dish.
type Ingredient struct {
	Item     string
	Food     string // its name in the catalogue; "" where no table knows it
	Unit     measure.Kind
	AP       measure.Amount // as purchased
	EP       measure.Amount // edible: what was left of it where trim was recorded, else the usual share
	Usual    bool           // EP is by the usual trim of the books: nobody said what came off
	Grams    float64        // of EP
	Pieces   float64        // 0: it was weighed, not counted
	Cost     int64
	Sign     string  // of its currency, where the kitchen's costs are in several
	Apart    []Price // of each currency, where it was bought in several: Cost is 0 then
	Unpriced bool
	NoCost   measure.Amount // so much of AP nobody said the cost of
	Unlogged bool           // of the plan: nobody said that it went in
}

// Price is a sum of money, in the currency's smallest unit, and the sign of that.
type Price struct {
	Sign string
	Cost int64
}

// Step is something that was done, and when.
type Step struct {
	At      time.Time
	Do      string
	Minutes int
	Logged  bool // it was said as it was done; else it is of the plan
}

// Nutrients are of the whole dish: kcal, the rest grams. Share is how much of the dish's
// edible weight has figures, from 0 to 1.
type Nutrients struct {
	Kcal, Protein, Fat, Carb, Fibre float64
	Share                           float64
}

// Allergen is one of the 14, and which items bring it.
type Allergen struct {
	Name string
	From []string
}

// Diet says whether a dish is fit for somebody: "yes", "no" or "check label", and what of it is
// against that.
type Diet struct {
	Fit string
	Why []string
}

// Source is what a sheet is written from.
type Source struct {
	Kitchen   *pantry.Kitchen
	FoodOf    func(*pantry.Line) *food.Food
	Period    *Period
	Entries   []pantry.Placed // of the period, in order
	Extra     []Ingredient    // of a plan, and not in the ledger
	Steps     []Step          // of a plan
	Yield     measure.Amount  // see Sheet
	YieldUnit measure.Kind
}

// Dishes lists the dishes of a period in order of first use; only such as have something in
// them in the end.
func (p *Period) Dishes(entries []pantry.Placed) (names []string) {
	sum := map[string]measure.Amount{}
	for i := range p.Lines {
		for _, d := range p.Lines[i].Of {
			sum[d.Name] += max(0, d.Amount)
		}
	}
	for _, e := range entries {
		if e.Act == pantry.Use && e.Dish != "" && sum[e.Dish] > 0 && !slices.Contains(names, e.Dish) {
			names = append(names, e.Dish)
		}
	}
	return names
}

// Write writes the sheet of a dish.
func (s *Source) Write(dish string, portions int) *Sheet {
	x := &Sheet{Dish: dish, Portions: portions, Yield: s.Yield, YieldUnit: s.YieldUnit}
	counted := s.pieces(dish)
	for i := range s.Period.Lines {
		a := &s.Period.Lines[i]
		line := s.Kitchen.Line(a.ID)
		at := slices.IndexFunc(a.Of, func(d Dish) bool { return d.Name == dish })
		if line == nil || at < 0 || a.Of[at].Amount <= 0 {
			continue
		}
		p := s.part(a, line, a.Of[at])
		p.Pieces = max(0, counted[a.ID])
		if f := s.FoodOf(line); p.Pieces == 0 && f != nil && f.Group == "egg" && line.PieceMg() > 0 { // an egg is an egg
			p.Pieces = float64(p.AP) / float64(line.PieceMg())
		}
		x.Parts = append(x.Parts, p)
	}
	x.Parts = append(x.Parts, s.Extra...)
	for _, e := range s.Entries {
		if e.Dish != dish || e.Act != pantry.Use {
			continue
		}
		if x.Cooked.IsZero() || e.At.After(x.Cooked) {
			x.Cooked = e.At
		}
		if !slices.Contains(x.Cooks, e.Cook) {
			x.Cooks = append(x.Cooks, e.Cook)
		}
		if l := s.Kitchen.Line(e.Line); l != nil {
			x.Steps = append(x.Steps, Step{At: e.At, Do: l.Name + " " + measure.Say(e.Amount, l.Unit) + " in", Logged: true})
		}
	}
	x.Steps = append(x.Steps, s.Steps...)
	slices.SortStableFunc(x.Steps, func(a, b Step) int { return a.At.Compare(b.At) })
	slices.SortStableFunc(x.Parts, func(a, b Ingredient) int { return cmp.Compare(b.Grams, a.Grams) })
	s.sum(x)
	return x
}

// part is what went into a dish of one line.
func (s *Source) part(a *Line, line *pantry.Line, d Dish) Ingredient {
	f, sum := s.FoodOf(line), d.Sum
	w := weigher{line, f}
	p := Ingredient{Item: line.Name, Food: line.Food, Unit: line.Unit, AP: sum.Amount, EP: sum.Amount, Cost: sum.Cost, Unpriced: sum.Unpriced > 0, NoCost: sum.Unpriced}
	if off, known := a.cameOff(d); known {
		p.EP = sum.Amount - off
	} else if f != nil {
		p.EP = measure.Amount(float64(sum.Amount) * f.Prepared().Float())
		p.Usual = p.EP < p.AP
	}
	p.Grams = float64(w.grams(p.EP)) / 1000
	return p
}

// pieces gives how many pieces of each item went into a dish, of those that were counted each
// time.
func (s *Source) pieces(dish string) map[int64]float64 {
	count, weighed := map[int64]float64{}, map[int64]bool{}
	for _, e := range s.Entries {
		switch {
		case e.Dish != dish || e.Act != pantry.Use && e.Act != pantry.Return || e.Trim:
		case e.Pieces == 0 || e.Piece != "":
			weighed[e.Line] = true
		case e.Act == pantry.Use:
			count[e.Line] += float64(e.Pieces) / 1000
		default:
			count[e.Line] -= float64(e.Pieces) / 1000
		}
	}
	for line := range weighed {
		delete(count, line)
	}
	return count
}

// byName is what an allergen comes by that only a dish's name tells of.
const byName = "its name"

// sum adds up what the parts bring.
func (s *Source) sum(x *Sheet) {
	known := 0.0
	holds, may := map[string][]string{}, map[string][]string{}
	x.Vegan, x.Meatless = Diet{Fit: "yes"}, Diet{Fit: "yes"}
	for i := range x.Parts {
		p := &x.Parts[i]
		x.Grams += p.Grams
		x.Cost += p.Cost
		if p.Unpriced {
			x.Unpriced = append(x.Unpriced, p.Item)
		}
		f := s.foodNamed(p)
		if f == nil || f.Unasked {
			x.Unknown = append(x.Unknown, p.Item)
		}
		if f == nil {
			f = food.Named(p.Item)
		}
		for _, a := range f.Allergen {
			holds[a] = append(holds[a], p.Item)
		}
		for _, a := range f.MayCarry {
			may[a] = append(may[a], p.Item)
		}
		x.Vegan.check(f.Vegan, p.Item)
		x.Meatless.check(f.Meatless, p.Item)
		if f.Figures {
			covered := 1.0
			if f.Covered > 0 {
				covered = f.Covered
			}
			known += p.Grams * covered
			n := p.Grams / 100
			e := &x.Energy
			e.Kcal, e.Protein, e.Fat, e.Carb, e.Fibre = e.Kcal+n*f.Kcal, e.Protein+n*f.Protein, e.Fat+n*f.Fat, e.Carb+n*f.Carb, e.Fibre+n*f.Fibre
		}
	}
	if x.Grams > 0 {
		x.Energy.Share = known / x.Grams
	}
	if named := food.Named(x.Dish); len(x.Parts) > 0 { // a fish pie holds fish, whatever was logged
		for _, a := range named.Allergen {
			switch {
			case len(holds[a]) > 0:
			case slices.ContainsFunc(x.Parts, func(p Ingredient) bool { return slices.Contains(food.FreeBy(p.Item), a) }): // a sponge of gf flour
				may[a] = append(may[a], byName)
			default:
				holds[a] = []string{byName}
				x.Vegan.check("check label", byName)
				if named.Meatless == "no" {
					x.Meatless.check("check label", byName)
				}
			}
		}
		for _, a := range named.MayCarry {
			if len(may[a]) == 0 {
				may[a] = []string{byName}
			}
		}
	}
	for _, name := range food.Allergens() {
		if from := holds[name]; len(from) > 0 {
			x.Holds = append(x.Holds, Allergen{name, from})
		} else if from := may[name]; len(from) > 0 {
			x.May = append(x.May, Allergen{name, from})
		}
	}
}

// foodNamed gives the food of an ingredient.
func (s *Source) foodNamed(p *Ingredient) *food.Food {
	if l := s.Kitchen.Named(p.Item); l != nil {
		return s.FoodOf(l)
	}
	f, _ := food.Default().Food(cmp.Or(p.Food, p.Item))
	return f
}

// check notes what a food means for a diet: the worst of all says what the dish is.
func (d *Diet) check(fit, item string) {
	switch {
	case fit == "yes" || d.Fit == "no" && fit != "no":
		return
	case fit == "no" && d.Fit != "no":
		d.Fit, d.Why = "no", nil
	case fit == "":
		fit = "check label"
		fallthrough
	default:
		if d.Fit == "yes" {
			d.Fit = fit
		}
	}
	if !slices.Contains(d.Why, item) {
		d.Why = append(d.Why, item)
	}
}
