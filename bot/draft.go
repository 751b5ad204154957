package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// draft is an entry in the making: what was said, before it is known which
// line and how much it is. It is kept as JSON with a question.
type draft struct {
	Act     pantry.Act
	Food    string   // the cook's words
	Line    int64    `json:",omitempty"` // 0: not known yet
	New     *newLine `json:",omitempty"` // a line to be made
	Amount  language.Amount
	Dish    string         `json:",omitempty"`
	Who     string         `json:",omitempty"`
	Trim    bool           `json:",omitempty"`
	Whole   string         `json:",omitempty"` // Food as it was called when it came in: "salmon fillets"
	Off     string         `json:",omitempty"` // the word for the trim: "tops"
	Cost    int64          `json:",omitempty"`
	Sign    string         `json:",omitempty"` // of its currency
	CostOf  measure.Amount `json:",omitempty"` // so much cost Cost, and more costs more; 0: that is what it cost in all
	When    time.Time      `json:",omitzero"`  // when it was done, where that was said before
	Date    pantry.Date    `json:",omitempty"`
	Label   bool           `json:",omitempty"`
	Best    bool           `json:",omitempty"` // Date is a best-before
	State   food.State     `json:",omitempty"` // of a count: what was done to how it is kept
	Thawed  bool           `json:",omitempty"` // it was frozen and thawed before, as its words say
	Frozen  bool           `json:",omitempty"` // of a delivery: it came in frozen
	Back    bool           `json:",omitempty"` // of a return: into the freezer
	Day     pantry.Date    `json:",omitempty"` // on which it was said
	Shelf   food.Shelf     `json:",omitempty"`
	Yes     bool           `json:",omitempty"` // the cook has confirmed what looked odd
	Doubt   bool           `json:",omitempty"` // not said as a fact
	Only    bool           `json:",omitempty"` // of a claim: this much and no more
	Mended  bool           `json:",omitempty"` // the act is a word that was a slip of the keys
	Knowing bool           `json:",omitempty"` // the cook knows that somebody at the table is allergic to it
	Told    bool           `json:",omitempty"` // the cook has said whether the weight is of all or of each
	Taken   bool           `json:",omitempty"` // out of the line that the draft before put by
	Bare    bool           `json:",omitempty"` // without a word for the act: "5 eggs in the sponge"
	Listed  bool           `json:",omitempty"` // among food that was measured, into a dish: it is food as well
	Plate   bool           `json:",omitempty"` // of a dish: it came back on plates, whatever of it is put by
	Among   []int64        `json:",omitempty"` // the lines that trim of no food may have come off
	Plainly bool           `json:",omitempty"` // by a word for the act that says nothing else
	Tell    string         `json:",omitempty"` // why nothing of it is written
	Cut     bool           `json:",omitempty"` // of a make: cut of what the same message draws, and as raw as that
}

// newLine is a line that is made when its first entry is written.
type newLine struct {
	Name, Food string
	Unit       string
}

// unknown is the weight of one piece of a food that no table knows: a figure
// to count with, said as an assumption, until the cook weighs one.
const unknownPieceMg measure.Amount = 100_000

// plainWords is how long a message that says nothing but what came in may be
// for an unknown food in it to be asked about; a longer one is a story.
const plainWords = 7

// drafts turns statements into drafts, resolving "it", dishes and days. What
// is plainly not about food is left out.
func (t *turn) drafts(reading language.Reading) ([]draft, error) {
	var list []draft
	last := "" // the food named before
	// "how much leek is left? I've just put 300g in the soup"
	if q := reading.Questions; len(q) > 0 && q[0].First {
		last = q[0].Food
	}
	for _, s := range reading.Statements {
		items := s.Items
		if t.isBaked(&s) {
			for _, it := range items {
				made, err := t.making(language.Statement{Act: string(pantry.Make), Items: []language.Item{it}, Who: s.Who})
				if err != nil {
					return nil, err
				}
				list = append(list, made...)
			}
			continue
		}
		if s.Act == string(pantry.Make) {
			made, err := t.making(s)
			if err != nil {
				return nil, err
			}
			list = append(list, made...)
			continue
		}
		for n, it := range items {
			if it.Trim && it.Food == "" && it.Amount.How == language.Unsaid && len(list) > 0 && list[len(list)-1].Trim { // "200g peel and tops"
				continue
			}
			d := draft{Act: pantry.Act(s.Act), Food: it.Food, Amount: it.Amount, Who: t.ear.cook(s.Who), Trim: (it.Trim || s.Trim) && s.Act == "bin",
				Cost: it.Cost, Sign: it.Sign, Doubt: s.Doubt, Plainly: t.plainly(s), State: food.State(s.State), Day: t.day()}
			if s.Act == string(pantry.Receive) && n > 0 && it.Amount.How == language.Share && it.Amount.N == measure.Whole(1) { // what came in already
				t.note = cmp.Or(t.note, `Not read: what became of it. Say it by itself, like "used 500g lard in the dumplings".`)
				continue
			}
			if d.Act == pantry.Receive && slices.Contains(tempWords, food.Fold(it.Food)) {
				t.note = cmp.Or(t.note, fmt.Sprintf("Not read: %q, which is no food. Say each food with its degrees, like \"got 2kg prawns at 4c\".", strings.TrimSpace(it.Amount.Said+" "+it.Food)))
				continue
			}
			if t.note == "" {
				t.note = sayEachOf(it)
			}
			if strings.EqualFold(d.Food, "leaves") { // "9kg leaves" of no plant that is named
				it.Food, d.Food = "salad leaves", "salad leaves"
			}
			if of := t.partOf(list, it, n == 0); of != "" { // "binned 80g greens", of the leeks
				if !it.Trim {
					it.Trim, it.Off, d.Trim = true, it.Food, d.Act == pantry.Bin
				}
				it.Food, d.Food = of, of
			}
			if o := t.trimOf(it.Food); o.Name != "" && !it.Trim && d.Act != pantry.Receive { // "cauliflower leaves"
				it.Food, it.Trim, d.Food, d.Off = o.of, true, o.of, o.Name
				d.Trim = s.Act == "bin" && o.Eaten != food.AsARule
			}
			if it.Trim && s.Act == "use" && s.Dish == "" && it.Dish == "" && s.Thrown { // "chucked 300g cauliflower leaves"
				d.Act, d.Trim, d.Doubt = pantry.Bin, true, false
			}
			own := ""
			if cameOff(list, d, it, s.Dish) { // "used 500g carrots in the soup, 60g peel"
				own, _ = t.place(pantry.Use, cmp.Or(offDish(list, d), it.Dish, s.Dish))
				d.Act, d.Trim, d.Doubt, it.Dish, s.Dish = pantry.Bin, true, false, "", ""
				list = lessUnsaid(list, d)
			} else if d.Trim { // "used 500g carrots in the soup, binned 60g peel"
				own = offDish(list, d)
			}
			if it.Trim && d.Act == pantry.Receive && it.Off != "" && it.Food != "" { // bones and stalks that are bought are a food of their own
				d.Food = it.Food + " " + it.Off
			}
			if it.Off != "" {
				d.Off = it.Off
			}
			d.Whole, d.Thawed = it.Whole, it.Thawed || s.State == string(food.Frozen) && language.FreezesAgain(t.m.Text)
			t.cameFrozen(&d)
			t.saidFrozen(&d, it)
			d.Back = d.Act == pantry.Return && language.BackInFreezer(t.m.Text)
			if it.Trim && d.Act != pantry.Bin && d.Act != pantry.Receive { // "leek tops" in a dish are leek
				d.Amount.Approx = true
			}
			t.dated(&d, it)
			dish := it.Dish
			if dish == "" {
				dish = s.Dish
			}
			if d.Act == pantry.Claim && slices.Contains(t.ear.cooks, dish) { // "save 200g butter for bo"
				d.Who, dish = t.ear.cook(dish), ""
			}
			if d.Act == pantry.Claim && s.Verb == "put by" && dish == "" && d.Who == "" && d.Amount.How == language.Measured {
				put, err := t.putByDraft(d)
				if err != nil {
					return nil, err
				}
				if put != nil {
					list = append(list, *put)
					continue
				}
			}
			if s.Away {
				dish = pantry.AwayTo(dish)
			}
			d.Dish, d.Shelf = t.place(d.Act, dish)
			if food.Fold(d.Food) == "water" { // from the tap
				continue
			}
			d.Dish = cmp.Or(d.Dish, own)
			if d.Act == pantry.Use && it.Trim && !d.Doubt && isBone(d.Off) {
				if t.boneUsed(&d); d.Tell != "" || d.Line != 0 || len(d.Among) > 0 {
					list = append(list, d)
					continue
				}
			}
			d.Only, d.Mended, d.Bare = s.Only, s.Mended, s.Verb == "" && s.Act == string(pantry.Use)
			d.Listed = d.Act == pantry.Use && d.Dish != "" && t.listsFood(s.Items)
			if s.Mended && d.Amount.How == language.Unsaid { // "juice" is not "juiced"
				continue
			}
			if joins(list, &d, it) || it.Ref && d.Act == pantry.Count && d.State == "" && len(list) == 0 {
				continue
			}
			if d.Food == "" && d.Trim {
				if err := t.ofWhich(&d, list); err != nil {
					return nil, err
				}
			}
			if d.Food == "" {
				if !it.Ref && !it.Trim && last == "" || comesAsIt(d) {
					continue
				}
				if d.Amount.How == language.Unsaid && n == 0 && last != "" && len(list) > 0 && list[len(list)-1].Act == d.Act {
					if before := &list[len(list)-1]; before.Dish == "" { // "peeled 2kg potatoes and boiled them for the mash"
						before.Dish = d.Dish
					}
					continue // "all the spinach is off, I threw it away" says it twice
				}
				if last == "" {
					on, ok, err := t.leanOn(d, it.More)
					if err != nil {
						return nil, err
					}
					if !ok || !t.goesOn(&d, it, on) {
						continue
					}
					last = t.k.Line(on.Line).Name
				}
				d.Food = last
			}
			if d.Food == "" {
				continue
			}
			if d.Amount.Part == "tin" || d.Amount.Pack == "tin" {
				if d.Food = t.tinned(d.Food); d.State != "" && len(t.ear.find("tinned "+d.Food).lines) == 1 {
					d.Food = "tinned " + d.Food // fresh ones are not opened
				}
			}
			last = d.Food
			list = append(list, d)
		}
	}
	return list, nil
}

// plainly says whether a statement's word for the act says nothing else; of what
// comes in, in a message that says no more.
func (t *turn) plainly(s language.Statement) bool {
	switch {
	case s.Mended:
		return false
	case s.Act == string(pantry.Receive):
		return !s.Loose && (s.Verb != "got" && s.Verb != "brought" || inOuters(s.Items)) && len(strings.Fields(t.m.Text)) <= plainWords
	}
	return s.Verb != "" && !s.Loose
}

// inOuters says whether all of what came is told in crates, trays or cases, two at least: "got 3 trays of borage".
func inOuters(items []language.Item) bool {
	return len(items) > 0 && !slices.ContainsFunc(items, func(it language.Item) bool {
		a := it.Amount
		return a.How != language.Pieces || a.Article || a.N.Num < 2*a.N.Den || !language.IsOuter(a.Part)
	})
}

// joins says whether a draft is no entry of its own: the weight of what was
// counted just before ("got 5 leeks; 1.1kg", "5 leeks arrived, they weigh
// 1.1kg"), the number of what was weighed, or what was left of it once peeled.
func joins(list []draft, d *draft, it language.Item) bool {
	if len(list) == 0 {
		return false
	}
	before := &list[len(list)-1]
	if d.State != "" || before.State != "" {
		return false
	}
	same := d.Food == "" || key(d.Food) == key(before.Food)
	b, a := &before.Amount, d.Amount
	counted := b.How == language.Pieces && (b.Part == "" || b.Part == "piece") && b.N.Num > 0
	switch {
	case !same || d.Dish != "" && d.Dish != before.Dish || d.Trim != before.Trim:
		return false
	case before.Act == d.Act && before.Act != pantry.Receive && b.How == language.Unsaid && !b.Some && a.How != language.Unsaid && d.Food == "": // "the yoghurt's gone off, had to chuck out 350g of it"
		*b = a
		return true
	case before.Act == pantry.Use && d.Act == pantry.Receive && d.Food == "" && a.How == language.Measured && !it.More: // "peeled 1kg potatoes, got 850g"
		return true
	case before.Act != pantry.Receive || d.Act != pantry.Receive && d.Act != pantry.Count:
		return false
	case counted && a.How == language.Measured && !a.Vague() && a.Count.Num == 0 && (d.Food == "" || d.Act == pantry.Receive):
		said := b.Said
		*b, b.Both, b.Count = a, true, b.N
		b.Said = said
		return true
	case b.How == language.Pieces && a.How == language.Measured && d.Food == "": // "2 bunches of carrots; 1.1kg"
		*b = a
		return true
	case b.How == language.Pieces && b.Part != "" && b.Part != "piece" && b.N == measure.Whole(1) && a.How == language.Pieces && a.Part == "" && d.Food == "" && d.Act == pantry.Receive && !a.Article: // "1 tray peaches (24) £9"
		*b, before.Cost, before.Sign = a, cmp.Or(before.Cost, d.Cost), cmp.Or(before.Sign, d.Sign)
		return true
	case b.How == language.Measured && b.Count.Num == 0 && a.How == language.Pieces && a.Part == "" && d.Act == pantry.Receive && !a.Article:
		b.Both, b.Count = true, a.N
		return true
	}
	return false
}

// amongFoods says whether another draft of the list is plainly a food coming
// in: then what stands beside it is one too, though no table knows it.
func (t *turn) amongFoods(list []draft) bool {
	for _, d := range list {
		if d.Act == pantry.Receive && t.ear.find(d.Food).exact {
			return true
		}
	}
	return false
}

// comesAsIt says whether an act makes no sense of "it" with no amount: "got
// it", "I need it by 6".
func comesAsIt(d draft) bool {
	return d.State == "" && d.Amount.How == language.Unsaid && (d.Act == pantry.Receive || d.Act == pantry.Count || d.Act == pantry.Claim && d.Dish == "")
}

// tinned gives the tinned food where the tables have one of that name: "6 tins
// of tomatoes" are not fresh ones.
func (t *turn) tinned(phrase string) string {
	f, ok := t.ear.all.Food("tinned " + phrase)
	if usual, known := t.ear.all.Food(phrase); known && usual == f { // chickpeas are tinned anyway
		return phrase
	}
	if ok && len(t.ear.lines.Exact(strings.Fields(strings.ToLower(phrase)))) == 0 && f.Piece == "tin" {
		return "tinned " + phrase
	}
	return phrase
}

// rawOf is the line of food as it came in where what was made is the same food cooked: cooked rice is made of the dry, and
// of none that was cooked before. 0 where that is not so, or nothing tells one line from another.
func (t *turn) rawOf(phrase, product string) (line int64) {
	h, made := t.ear.find(phrase), t.ear.find(product)
	if !h.exact || h.food == nil || made.food != h.food || !planner.IsCooked(h.food, product) || planner.IsCooked(h.food, phrase) {
		return 0
	}
	for _, l := range h.lines {
		if l.Made > 0 || l.OnHand() == 0 || planner.IsCooked(h.food, l.Name) {
			continue
		}
		if line != 0 {
			return 0
		}
		line = l.ID
	}
	return line
}

// making drafts a make: the new food, and a use of each thing drawn for it.
func (t *turn) making(s language.Statement) (list []draft, err error) {
	product, of := s.Items[0], ""
	if product.Trim && product.Off != "" && product.Amount.How == language.Pieces { // "12 tart shells" are no tarts
		product.Food, product.Trim = product.Food+" "+product.Off, false
	}
	into := t.intoMade(product.Food)
	for _, it := range s.From {
		if !it.Trim && it.Food == "" && it.Amount.How == language.Pieces && !it.Ref && it.Amount.Part != "" && it.Amount.Part != "portion" { // "from 2 tins"
			t.note = fmt.Sprintf(`What was in the %s is not said, so nothing was drawn. Say it like "used %s tomatoes in the %s".`, it.Amount.Said, it.Amount.Said, into)
		}
		if it.Trim && it.Food != "" {
			t.ofTrim = append(t.ofTrim, singular(strings.ToLower(it.Food)))
		} else if of := t.trimOf(it.Food).of; of != "" {
			t.ofTrim = append(t.ofTrim, of)
		}
		if it.Trim || it.Food == "" || t.trimOf(it.Food).Name != "" { // trimmings draw nothing
			continue
		}
		raw := t.rawOf(it.Food, product.Food)
		if of == "" && raw == 0 {
			if of, err = t.fromPot(it.Food); err != nil {
				return nil, err
			}
			if of != "" { // "made 2kg puree from the casserole"
				list = append(list, t.taken(of, it, product, into, s.Who)...)
				continue
			}
		}
		list = append(list, draft{Act: pantry.Use, Food: it.Food, Line: raw, Amount: t.asMuch(it, product), Who: t.ear.cook(s.Who), Dish: into})
	}
	d := draft{Act: pantry.Make, Food: product.Food, Amount: product.Amount, Who: t.ear.cook(s.Who), Day: t.day()}
	t.dated(&d, product)
	if len(list) == 0 {
		d.Dish = of
	}
	if name := strings.ToLower(product.Food); slices.ContainsFunc(s.From, func(it language.Item) bool {
		from := strings.ToLower(cmp.Or(it.Food, "?"))
		h := t.ear.find(from)
		isMade := of != "" || len(h.lines) == 1 && h.lines[0].Made > 0
		return isMade && name != from && strings.HasSuffix(name, " "+lastWord(from))
	}) { // "pureed casserole" is another thing than the casserole
		if l := t.k.Named(name); l != nil {
			d.Line = l.ID
		} else {
			d.New = &newLine{Name: name, Unit: product.Amount.Kind.String()}
		}
	}
	if len(list) == 0 && of == "" { // "made 2kg stew" of what is in the pot
		if d.Dish, _, err = t.cooked(d.Food); err != nil {
			return nil, err
		}
		if bread, isLoaf := strings.CutSuffix(singular(strings.ToLower(d.Food)), loafOf); isLoaf && d.Dish == "" { // loaves of the sourdough
			if d.Dish, _, err = t.cooked(bread); err != nil {
				return nil, err
			}
		}
	}
	if name := singular(potName(d.Food)); name != singular(strings.ToLower(d.Food)) && d.Line == 0 && d.New == nil {
		if l := t.k.Named(name); l != nil {
			d.Line = l.ID
		} else if d.New = (&newLine{Name: name, Unit: cmp.Or(product.Amount.Kind, measure.Gram).String()}); d.Dish == "" {
			if h := t.ear.find(d.Food); h.food != nil && !food.IsDishOf(d.Food) {
				d.New.Food = h.food.Name
			}
		}
	}
	return append(list, d), nil
}

// isBaked says whether what was baked came out of the oven, and is nothing that was here before:
// "baked 24 scones".
func (t *turn) isBaked(s *language.Statement) bool {
	if s.Act != string(pantry.Use) || s.Verb != "baked" || s.Dish != "" {
		return false
	}
	language.Loaves(s.Items)
	return len(s.Items) > 0 && !slices.ContainsFunc(s.Items, func(it language.Item) bool {
		return !language.IsPieces(it) || it.Dish != "" || len(t.ear.find(it.Food).lines) > 0
	})
}

// asMuch is how much went into a product: as said, or, of the one thing that it was made of and that
// was made here, as much as came of it ("made 200g puree from the pie").
func (t *turn) asMuch(it, product language.Item) language.Amount {
	h := t.ear.find(it.Food)
	if it.Amount.How != language.Unsaid || product.Amount.How != language.Measured || len(h.lines) != 1 {
		return it.Amount
	}
	l, a := h.lines[0], product.Amount
	if l.Made == 0 || l.Unit != a.Kind || l.OnHand() == 0 {
		return it.Amount
	}
	a.Base, a.Approx = min(a.Base, l.OnHand()), true
	return a
}

// place tells a dish from a shelf and from what is neither, and gives the dish
// the name under which the kitchen knows it.
func (t *turn) place(act pantry.Act, said string) (dish string, shelf food.Shelf) {
	switch {
	case said == "" || sayAway(said) != "":
		return said, ""
	case act == pantry.Receive || act == pantry.Make || act == pantry.Count:
		switch {
		case strings.Contains(said, "cupboard"), strings.Contains(said, "dry store"), strings.Contains(said, "larder shelf"):
			return "", food.Cupboard
		case strings.Contains(said, "crate"):
			return "", food.Crate
		}
		return "", ""
	case language.IsPlace(said), language.IsNobody(said):
		return "", ""
	}
	return t.dishNow(said), ""
}

// day turns a day as said into the day meant, from the day of at.
// It is not ok where there is no such day.
func day(d language.Day, at time.Time) (when time.Time, ok bool) {
	today := time.Date(at.Year(), at.Month(), at.Day(), 0, 0, 0, 0, at.Location())
	switch {
	case d.Weekday > 0:
		ahead := (d.Weekday%7 - int(today.Weekday()) + 7) % 7
		return today.AddDate(0, 0, ahead+d.Days), true
	case d.Month == 0 && d.Dom > 0: // the 5th: a week ago at most, else the next
		day := time.Date(today.Year(), today.Month(), d.Dom, 0, 0, 0, 0, at.Location())
		if day.Before(today.AddDate(0, 0, -7)) {
			day = time.Date(today.Year(), today.Month()+1, d.Dom, 0, 0, 0, 0, at.Location())
		}
		return day, day.Day() == d.Dom
	case d.Month > 0:
		year := d.Year
		if year == 0 {
			year = today.Year()
		}
		day := time.Date(year, time.Month(d.Month), d.Dom, 0, 0, 0, 0, at.Location())
		if d.Year == 0 && day.Before(today.AddDate(0, -6, 0)) {
			day = day.AddDate(1, 0, 0)
		}
		return day, day.Day() == d.Dom
	}
	return today.AddDate(0, 0, d.Days), true
}
