package bot

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
)

// Wrap is what became of the crate between two wrap-ups, in the form that scullion wrap prints.
// Amounts of Crate are grams, of lines their own unit; costs are in the currency, not its
// smallest unit.
type Wrap struct {
	Since     *time.Time `json:"since,omitempty"` // when the wrap-up before was said; none: from the beginning
	Until     *time.Time `json:"until,omitempty"` // when its own was; none: it is open
	Crate     WrapCrate  `json:"crate"`
	Currency  string     `json:"currency,omitempty"` // the sign of all costs; "+" between where they were said in several
	UsedShare float64    `json:"used_share"`         // of the edible weight that had to be used, what was: account.Crate.UsedShare
	Lines     []WrapLine `json:"lines"`
	Dishes    []WrapDish `json:"dishes"`
	GivenTo   []WrapDish `json:"given_to,omitempty"` // what was given away, by who got it; "" nobody said
	Apart     []WrapCost `json:"apart,omitempty"`    // the costs of each currency, where they were said in several: all others are 0 then

	period *account.Period
	total  account.Crate
	apart  []apartWrap // in each currency, where costs were said in several
}

// apartWrap is an account with the costs of one currency alone, and what it is reckoned from.
type apartWrap struct {
	sign string
	x    *Records
	*Wrap
}

// WrapCrate is the account of the whole crate.
type WrapCrate struct {
	WrapColumns
	Kept     WrapSum `json:"keeps"`    // of carried, what keeps
	Cupboard WrapSum `json:"cupboard"` // what went out of the cupboard into dishes: beside the columns, and part of what dishes cost
}

// WrapColumns close, by weight as purchased, by edible weight and by cost: had + came + made = dishes +
// served + given + trim + binned + carried + variance.
type WrapColumns struct {
	Had      WrapSum `json:"had"`
	Came     WrapSum `json:"came"`
	Made     WrapSum `json:"made"`
	Dishes   WrapSum `json:"dishes"`
	Served   WrapSum `json:"served"` // of what was made here, what a count found less
	Given    WrapSum `json:"given"`  // sold, lent, given to others
	Trim     WrapSum `json:"trim"`
	Binned   WrapSum `json:"binned"`
	Carried  WrapSum `json:"carried"`
	Variance WrapSum `json:"variance"`
}

func wrapColumns(c account.Columns) WrapColumns {
	return WrapColumns{wrapSum(c.Had), wrapSum(c.Came), wrapSum(c.Made), wrapSum(c.Dishes), wrapSum(c.Served), wrapSum(c.Given), wrapSum(c.Trim), wrapSum(c.Binned), wrapSum(c.Carried), wrapSum(c.Variance)}
}

// costless is the same account without what it cost.
func (c WrapColumns) costless() WrapColumns {
	for _, s := range []*WrapSum{&c.Had, &c.Came, &c.Made, &c.Dishes, &c.Served, &c.Given, &c.Trim, &c.Binned, &c.Carried, &c.Variance} {
		s.Cost = 0
	}
	return c
}

// WrapCost is the account in one currency: what was priced in others has no cost there.
type WrapCost struct {
	Currency string     `json:"currency,omitempty"` // its sign; none: nobody said it
	Crate    WrapCrate  `json:"crate"`
	Lines    []WrapLine `json:"lines"`
	Dishes   []WrapDish `json:"dishes"`
	GivenTo  []WrapDish `json:"given_to,omitempty"`
}

// WrapSum is grams as purchased, the edible of them, and what they cost; of Unpriced grams the
// cost is not known. Food that was made here has its own weight, and as edible that of what went in, as
// far as its own weight has room for it.
type WrapSum struct {
	AP       float64 `json:"ap_g"`
	EP       float64 `json:"ep_g"`
	Cost     float64 `json:"cost"`
	Unpriced float64 `json:"unpriced_g,omitempty"`
}

// WrapLine is the account of one line, in its unit.
type WrapLine struct {
	Item      string  `json:"item"`
	Shelf     string  `json:"shelf"`
	Unit      string  `json:"unit"`
	Had       float64 `json:"had"`
	Came      float64 `json:"came"`
	Made      float64 `json:"made"`
	Dishes    float64 `json:"dishes"`
	Served    float64 `json:"served"`
	Given     float64 `json:"given"`
	Trim      float64 `json:"trim"`
	Binned    float64 `json:"binned"`
	Carried   float64 `json:"carried"`
	Variance  float64 `json:"variance"`
	Cost      float64 `json:"cost_dishes"`
	Keeps     bool    `json:"keeps,omitempty"`
	TrimShare float64 `json:"trim_share,omitempty"`  // of what was used
	BookShare float64 `json:"books_share,omitempty"` // that the books allow
	LeastTrim float64 `json:"least_share,omitempty"` // where all that can be dinner is used

	Weighed WrapColumns `json:"weighed"` // the same in grams, with edible weights and costs
}

// WrapDish is a dish that was made.
type WrapDish struct {
	Name     string  `json:"name"`
	Grams    float64 `json:"ap_g"`
	Cost     float64 `json:"cost"`
	Portions int     `json:"portions,omitempty"` // that somebody told, else Covers; none where covers leave too little for each
	Covers   int     `json:"covers,omitempty"`   // of its service, where nobody told its portions

	untold bool // nobody told its portions
}

// Records is where the account of past services is read from: a kitchen, its wrap-ups and
// services, and the entries in force.
type Records struct {
	Kitchen  *pantry.Kitchen
	WrapUps  []pantry.WrapUp
	Services []pantry.Service
	Ledger   ledger
	FoodOf   func(*pantry.Line) *food.Food

	past *past // see read; nil not known yet
}

// Foods lets lines have the foods of a catalogue, and of what the kitchen taught.
func (x *Records) Foods(all *food.Catalogue) {
	all = Foods(all, x.Kitchen)
	x.FoodOf = func(l *pantry.Line) *food.Food { return foodOf(all, l) }
}

// Wraps gives the accounts of all stretches of the ledger, in order, the open one last.
func (x *Records) Wraps() ([]*Wrap, error) {
	switch x.Ledger.(type) {
	case *readOnce, priced:
	default:
		x.Ledger = &readOnce{ledger: x.Ledger}
	}
	periods, err := account.Periods(x.Kitchen, x.WrapUps, x.Ledger, x.FoodOf, x.cameTo)
	if err != nil {
		return nil, err
	}
	list := make([]*Wrap, len(periods))
	var signs []string
	for i := range periods {
		if list[i], err = x.wrap(&periods[i]); err != nil {
			return nil, err
		}
		for _, l := range periods[i].Lines {
			for _, s := range l.Signs {
				signs = appendOnce(signs, s)
			}
		}
	}
	if len(signs) > 1 {
		if err := x.setApart(list, append(slices.Clone(signs), "")); err != nil {
			return nil, err
		}
	}
	for _, w := range list { // what is carried over was priced in a service before
		w.Currency = strings.Join(signs, "+")
	}
	return list, nil
}

// Latest gives the account that counts now: the open one, or where nothing has happened in that
// since, the one that was closed last; nil where there is none.
func Latest(list []*Wrap) *Wrap { return Back(list, 0) }

// WithDishes gives the account so many services before the latest in which a dish was made; nil
// where there are not so many.
func WithDishes(list []*Wrap, n int) *Wrap {
	return Back(slices.DeleteFunc(slices.Clone(list), func(w *Wrap) bool { return len(w.Dishes) == 0 }), n)
}

// Back gives the account so many services before the one that counts now; nil where there are
// not so many.
func Back(list []*Wrap, n int) *Wrap {
	for i := len(list) - 1; i >= 0; i-- {
		if !list[i].happened() {
			continue
		}
		if n == 0 {
			return list[i]
		}
		n--
	}
	return nil
}

// happened says whether anything but counting happened.
func (w *Wrap) happened() bool {
	return slices.ContainsFunc(w.period.Lines, func(l account.Line) bool {
		return l.Came.Amount != 0 || l.Made.Amount != 0 || l.Dishes.Amount != 0 || l.Served.Amount != 0 || l.Given.Amount != 0 || l.Binned.Amount != 0 || l.Trim.Amount != 0
	})
}

// wrap writes an account down.
func (x *Records) wrap(p *account.Period) (*Wrap, error) {
	w := &Wrap{period: p, total: p.Total(x.Kitchen, x.FoodOf), Lines: []WrapLine{}, Dishes: []WrapDish{}}
	if !p.Before.IsZero() {
		w.Since = &p.Before
	}
	if !p.Said.IsZero() {
		w.Until = &p.Said
	}
	c := &w.total
	w.UsedShare = c.UsedShare()
	w.Crate = WrapCrate{wrapColumns(c.Columns), wrapSum(c.Kept), wrapSum(c.Larder)}
	for i := range p.Lines {
		a := &p.Lines[i]
		l := x.Kitchen.Line(a.ID)
		f := x.FoodOf(l)
		line := WrapLine{Item: l.Name, Shelf: string(l.Shelf), Unit: l.Unit.String(), Had: a.Had.Amount.Units(), Came: a.Came.Amount.Units(), Made: a.Made.Amount.Units(),
			Dishes: a.Dishes.Amount.Units(), Served: a.Served.Amount.Units(), Given: a.Given.Amount.Units(), Trim: a.Trim.Amount.Units(), Binned: a.Binned.Amount.Units(), Carried: a.Carried.Amount.Units(), Variance: a.Variance.Amount.Units(),
			Cost: float64(a.Dishes.Cost) / 100, Keeps: f != nil && f.Keeper && l.Made == 0, Weighed: wrapColumns(p.Columns(a, l, f))}
		line.TrimShare, line.BookShare, line.LeastTrim, _ = account.TrimShares(a, f)
		w.Lines = append(w.Lines, line)
		for _, d := range a.Of {
			if d.Name == "" || d.Amount <= 0 {
				continue
			}
			w.Dishes = addDish(w.Dishes, d)
		}
		for _, d := range a.GivenTo {
			w.GivenTo = addDish(w.GivenTo, d)
		}
	}
	for n := range w.Dishes {
		d := &w.Dishes[n]
		h := x.portionsOf(p, d.Name)
		d.Portions, d.Covers, d.untold = h.N, h.Covers, h.untold()
	}
	slices.SortStableFunc(w.Dishes, func(a, b WrapDish) int { return cmp.Compare(b.Grams, a.Grams) })
	return w, nil
}

// addDish adds what a line gave for a dish to those of its name.
func addDish(list []WrapDish, d account.Dish) []WrapDish {
	n := slices.IndexFunc(list, func(o WrapDish) bool { return o.Name == d.Name })
	if n < 0 {
		n, list = len(list), append(list, WrapDish{Name: d.Name})
	}
	list[n].Grams += d.Amount.Units()
	list[n].Cost += float64(d.Cost) / 100
	return list
}

func wrapSum(w account.Weight) WrapSum {
	return WrapSum{AP: float64(w.AP) / 1000, EP: float64(w.EP) / 1000, Cost: float64(w.Cost) / 100, Unpriced: float64(w.Unpriced) / 1000}
}

// saysWrap is a quick look for the words of what is said at the end of a service.
func saysWrap(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc([]string{"start", "begin", "wrap", "weigh", "scales", "line", "account", "sheet", "service", "waste", "stock", "again", "write", "cook", "label", "order", "make", "throw", "planned", "was for", "is for", "are for", "were for", "its for", "it's for", "it’s for", "thats for", "that's for", "feeds", "fed ", "serve", "portions", "people of", "closing", "us done", "crate", "trim most", "how did we", "went in", "put in", "in the", "recipe", "bin", "give", "gave", "donate", "send out", "chuck", "dump", "scrap", " did ", " does ", "compar", "against", " v", "kept", "keep", "held", "reserved", "claimed", "saved", "aside", "spoken", "down"}, func(w string) bool { return strings.Contains(text, w) })
}

// wrapTalk answers what is said at the end of a service.
func (t *turn) wrapTalk() (r Reply, done bool, err error) {
	if !saysWrap(t.m.Text) {
		return r, false, nil
	}
	if r, done, err := t.started(); done || err != nil {
		return r, done, err
	}
	q := t.reader().WrapTalk(t.m.Text)
	if q == nil {
		return r, false, nil
	}
	switch q.About {
	case language.AboutWrapUp:
		r, err = t.wrapUp()
	case language.AboutUnwrap:
		r, err = t.unwrapLast()
	case language.AboutWeigh:
		r, err = t.weighBack()
	case language.AboutLines:
		r, err = t.wrapLines()
	case language.AboutAsPlanned:
		return t.asPlanned()
	case language.AboutSheets, language.AboutSheet:
		return t.sheetAsked(q)
	case language.AboutKeptFor:
		text := t.sayKeptFor(q.Food)
		return Reply{Kind: Answer, Text: text}, text != "", nil
	case language.AboutLabels:
		r, err = t.labels(q.Food)
	case language.AboutPortions:
		return t.served(q)
	case language.AboutRecook:
		return t.recook(q)
	case language.AboutServices:
		r, err = t.pastServices()
	case language.AboutBin, language.AboutBinToday, language.AboutBinWeek, language.AboutBinYesterday:
		r, err = t.binnedIn(q)
	case language.AboutGave:
		r, err = t.givenSoFar()
	case language.AboutWaste:
		r, err = t.wasted()
	default:
		return r, false, nil
	}
	return r, true, err
}

// records is what the kitchen's accounts are reckoned from.
func (t *turn) records() (*Records, error) {
	wraps, err := t.book.WrapUps()
	if err != nil {
		return nil, err
	}
	services, err := t.book.Services(time.Time{})
	return &Records{Kitchen: t.k, WrapUps: wraps, Services: services, Ledger: t.book, FoodOf: t.ear.foodOf}, err
}

// wraps gives the accounts of all stretches of the ledger, and what they are reckoned from.
func (t *turn) wraps() (*Records, []*Wrap, error) {
	x, err := t.records()
	if err != nil {
		return nil, nil, err
	}
	list, err := x.Wraps()
	return x, list, err
}

// wrapAgain is for how long after a wrap-up another one is of the same service, if nothing came
// in since.
const wrapAgain = 3 * time.Hour

// wrapUp closes the service: the account of the ledger since the last wrap-up ends with this
// message. What the plan kept and nobody used is free again.
func (t *turn) wrapUp() (Reply, error) {
	x, err := t.records()
	if err != nil {
		return Reply{}, err
	}
	came, happened, err := t.sinceWrapUp(x.WrapUps)
	if err != nil {
		return Reply{}, err
	}
	if n := len(x.WrapUps); n > 0 && t.said.At.Sub(x.WrapUps[n-1].At) < wrapAgain && !came {
		last, err := t.book.Message(x.WrapUps[n-1].Message)
		if err != nil {
			return Reply{}, err
		}
		if err := t.book.DropWrapUp(last); err != nil {
			return Reply{}, err
		}
	} else if !happened {
		over, err := t.endTable()
		if n > 0 {
			return Reply{Kind: Answer, Text: "Nothing to wrap up since " + sayWhen(x.WrapUps[n-1].At, t.m.At) + `. "every line" tells that account.` + over}, err
		}
		return Reply{Kind: Answer, Text: "Nothing to wrap up yet: nothing came in and nothing was used." + over}, err
	}
	return t.closeAccount()
}

// endTable ends what the table of this service needed, and says so; "" where there was nothing. What was
// said ahead for today stays: it may be of another service of the day.
func (t *turn) endTable() (string, error) {
	stay := ""
	if sayOfToday(t.needs(), t.day()) != "" {
		stay = " What was said for today stays until the day is over, or \"table: none\"."
	}
	if !slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return !n.Lasting && !n.Stays && n.Day == "" }) {
		return "", nil
	}
	return "\nThe table's needs were for this service, and are over." + stay, t.book.KeepNeeds(t.said, []pantry.Need{{Kind: pantry.NeedOver}})
}

// sinceWrapUp says whether anything came in or a service began since the last wrap-up, and
// whether anything but counting happened.
func (t *turn) sinceWrapUp(wraps []pantry.WrapUp) (came, happened bool, err error) {
	from := int64(0)
	if len(wraps) > 0 {
		last := wraps[len(wraps)-1]
		from = last.N + 1
		services, err := t.book.Services(last.Ended)
		if err != nil {
			return false, false, err
		}
		came = slices.ContainsFunc(services, func(s pantry.Service) bool { return !isNote(s) && s.Begun.After(last.Ended) })
	}
	err = t.book.Between(from, t.said.N, func(p pantry.Placed) error {
		came = came || p.Act == pantry.Receive
		happened = happened || !slices.Contains([]pantry.Act{pantry.Count, pantry.Claim, pantry.Release}, p.Act)
		return nil
	})
	return came, happened, err
}

// closeAccount ends the account with the message that was said, and gives it.
func (t *turn) closeAccount() (Reply, error) {
	unlogged, err := t.endPlan()
	if err != nil {
		return Reply{}, err
	}
	if err := t.book.SaveWrapUp(t.said, t.said.At); err != nil {
		return Reply{}, err
	}
	w, x, err := t.lastWrap()
	if err != nil || w == nil {
		return Reply{Kind: Answer, Text: "Nothing to wrap up yet."}, err
	}
	text := w.Short(x, t.m.At)
	if unlogged != "" {
		text += "\n" + unlogged
	}
	text += t.stillOpen(w.since(), "")
	over, err := t.endTable()
	if err != nil {
		return Reply{}, err
	}
	text += over
	return Reply{Kind: Answer, Text: text + "\n" + `"weigh back", "every line", "sheet 1" and "labels" go on from here.`, Timed: t.m.Room != ""}, nil
}

// lastWrap gives the account that counts now; nil where there is none.
func (t *turn) lastWrap() (*Wrap, *Records, error) {
	x, list, err := t.wraps()
	if err != nil {
		return nil, nil, err
	}
	return Latest(list), x, nil
}

// wrapLines tells the account line by line.
func (t *turn) wrapLines() (Reply, error) {
	w, x, err := t.lastWrap()
	if err != nil {
		return Reply{}, err
	}
	if w == nil {
		return Reply{Kind: Answer, Text: "No account yet: nothing came in and nothing was used."}, nil
	}
	return Reply{Kind: Answer, Text: w.Say(x, t.m.At) + "\n" + strings.Join(w.SayLines(x), "\n")}, nil
}
