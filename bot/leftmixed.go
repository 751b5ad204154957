package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// What is left of dishes and what was binned, clause by clause: "1kg pie left over, 300g mash left over, binned
// 200g mash", "kept 1kg stew, binned the rest".
const (
	binVerb    = `(?:i |we |had to )*(?:bin|binned|chuck|chucked|threw|throw|dumped|tossed)(?: (?:away|out))?`
	keptVerb   = `(?:i |we )*(?:keep|kept|keeping|saved|save|put by|put away)`
	partBegins = `((?:` + binVerb + `|` + keptVerb + `|(?:the )?rest|all|half)\b|\d)`
)

var (
	speaksMixed = regexp.MustCompile(`(?i)\b(?:left|leftovers?|remaining|kept|keep|saved|put by)\b`)
	speaksBin   = regexp.MustCompile(`(?i)\b(?:bin|binned|chuck|chucked|threw|thrown|throw|dumped|tossed)\b`)
	commaBefore = regexp.MustCompile(`(?i),([a-z])`)
	leftAndBin  = regexp.MustCompile(`(?i)\b(left(?: over)?|leftover) (` + binVerb + `\b)`)
	andPart     = regexp.MustCompile(`(?i)[,;\n]?\s+(?:and|but|then|so|&) (?:then )?` + partBegins)
	mixedSplit  = regexp.MustCompile(`\s*(?:;|\n|,\s+)\s*`)
	binClause   = regexp.MustCompile(`(?i)^` + binVerb + ` (.+)$|^(.+?) (?:was |were |got |is |are )*(?:binned|bin|chucked(?: out| away)?|thrown (?:away|out)|in the bin|went in the bin)$`)
	keptClause  = regexp.MustCompile(`(?i)^` + keptVerb + ` (.+)$`)
	ofNothing   = regexp.MustCompile(`(?i)^(?:` + partSaid + `|\d{1,3} (?:portions?|servings?)(?: of (?:it|them|that))?)$`)
	isWhole     = regexp.MustCompile(`(?i)^(?:it|them|it all|them all|the lot|all of (?:it|them))$`)
	isRest      = regexp.MustCompile(`(?i)^(?:the )?(?:rest|remainder)(?: of (?:it|that|them|those))?$`)
)

// clauses splits a message where another thing is said: at each comma and line, and at an "and" behind which so
// much, or what was done, begins.
func clauses(text string) []string {
	text = strings.TrimRight(strings.TrimSpace(text), ".! ")
	text = leftAndBin.ReplaceAllString(commaBefore.ReplaceAllString(text, ", $1"), "$1, $2")
	return mixedSplit.Split(andPart.ReplaceAllString(text, ", $1"), -1)
}

// leftPart is what is left of one dish, and what was done with it.
type leftPart struct {
	left draft
	dish string
	kept bool             // it was put by as it is: nothing that was binned came out of it
	keep *language.Amount // so much of it was kept; nil not said
	bins []draft
}

// mixed is what a message of several clauses tells of what is left and what was binned.
type mixed struct {
	t     *turn
	parts []*leftPart
	fresh int     // the first of parts named since something was binned
	other []draft // what else was said
	tells []string
	after bool // the clause before began with what was binned: "binned 2kg potatoes and 100g leeks"
	asks  bool // how much of a dish is left was told in portions that nobody knows the weight of
}

// leftMixed writes what is left of dishes and what was binned, of one message. What of it is not read is named.
// Done is false where nothing is left of a dish, or nothing binned.
func (t *turn) leftMixed(why string) (r Reply, done bool, err error) {
	text := t.m.Text
	if !speaksMixed.MatchString(text) || !speaksBin.MatchString(text) || strings.Contains(text, "?") {
		return r, false, nil
	}
	list := clauses(text)
	x, binned := &mixed{t: t}, false
	for i := 0; i < len(list) && err == nil; i++ {
		if m := binClause.FindStringSubmatch(list[i]); m != nil {
			binned, err = true, x.bin(m[1]+m[2])
			x.after = m[1] != ""
		} else if m := keptClause.FindStringSubmatch(list[i]); m != nil {
			err = x.keep(list[i], m[1])
		} else {
			from := i
			for i+1 < len(list) && !binClause.MatchString(list[i+1]) && !keptClause.MatchString(list[i+1]) {
				i++
			}
			err = x.stays(list[from : i+1])
		}
	}
	if err != nil || len(x.parts) == 0 && !x.asks || !binned {
		return r, false, err
	}
	if r, err = t.write(x.drafts(), why); err != nil {
		return r, false, err
	}
	if r.Kind == Silent {
		r.Kind = Error
	}
	r.Text = strings.TrimSpace(r.Text + "\n" + strings.Join(x.tells, "\n"))
	return r, r.Text != "", nil
}

// drafts gives what is to be written: what was binned out of a part behind it, and what was binned of a dish
// besides what is counted before it is.
func (x *mixed) drafts() (list []draft) {
	for _, p := range x.parts {
		if p.kept && p.left.Act == pantry.Count {
			list = append(append(list, p.bins...), p.left)
		} else {
			list = append(append(list, p.left), p.bins...)
		}
	}
	return append(list, x.other...)
}

// stays reads clauses that tell what is left, or something else.
func (x *mixed) stays(list []string) error {
	if parts := leftList(strings.Join(list, ", ")); len(parts) > 0 {
		var read []leftPart
		for _, part := range parts {
			d, dish, err := x.leftOf(part)
			if err != nil {
				return err
			}
			if d != nil {
				read = append(read, leftPart{left: *d, dish: dish})
			}
		}
		if len(read) == len(parts) {
			for i := range read {
				x.parts = append(x.parts, &read[i])
			}
			return nil
		}
	}
	for _, clause := range list {
		d, dish, err := x.leftOf(clause)
		if err != nil {
			return err
		}
		if d != nil {
			x.after = false
			x.parts = append(x.parts, &leftPart{left: *d, dish: dish})
		} else if err = x.says(clause); err != nil {
			return err
		}
	}
	return nil
}

// leftOf is leftDraft, with the dish of which it is; a dish of which nobody said for how many it was is told of.
func (x *mixed) leftOf(clause string) (*draft, string, error) {
	d, err := x.t.leftDraft(clause)
	if d == nil || err != nil {
		return nil, "", err
	}
	if d.Line == 0 && d.New == nil { // which is meant is asked, and so nothing can be binned of it yet
		return nil, "", nil
	}
	dish, _, err := x.t.cooked(d.Food)
	if dish == "" {
		dish = d.Food
	}
	return d, dish, err
}

// says reads a clause as any message, and names it where that says nothing.
func (x *mixed) says(clause string) error {
	if q := x.t.reader().MadeTalk(clause); q != nil && q.N > 0 && q.About == language.AboutLeftOver {
		if dish, _, err := x.t.cooked(q.Food); dish != "" || err != nil {
			x.tells, x.asks = append(x.tells, askPortions(dish)), true
			return err
		}
	}
	reading := x.t.reader().Read(clause)
	drafts, err := x.t.drafts(reading)
	if err != nil {
		return err
	}
	if len(drafts) == 0 && strings.ContainsAny(clause, "0123456789") {
		if x.after && endsInUnit.MatchString(clause) {
			return x.bin(clause)
		}
		x.notRead(clause)
	}
	x.after = false
	x.other = append(x.other, drafts...)
	return nil
}

func (x *mixed) notRead(clause string) {
	x.tells = append(x.tells, fmt.Sprintf("Not read, and not written: %q. Say it by itself.", clause))
}

// keep reads that so much was kept: of what is left, or of a dish by its name.
func (x *mixed) keep(clause, said string) error {
	if ofNothing.MatchString(said) {
		if p := x.last(); p != nil {
			if a, ok, err := x.ofPart(p, said); ok || err != nil {
				p.keep = &a
				return err
			}
		}
		x.notRead(clause)
		return nil
	}
	d, dish, err := x.leftOf(clause)
	if err != nil {
		return err
	}
	if d == nil {
		return x.says(clause)
	}
	if p := x.of(dish); p != nil {
		p.keep = &d.Amount
		return nil
	}
	x.parts = append(x.parts, &leftPart{left: *d, dish: dish, kept: true})
	return nil
}

// bin reads that so much was binned: of what is left, of the rest of it, or of something by its name.
func (x *mixed) bin(said string) error {
	rest, whole := isRest.MatchString(said), isWhole.MatchString(said)
	if rest || whole || ofNothing.MatchString(said) {
		return x.binIt(said, rest, whole)
	}
	clause := "binned " + said
	q := x.t.reader().MadeTalk(clause)
	if q != nil && q.About == language.AboutBinned {
		a := q.Amount
		if a.How != language.Measured {
			a = portions(max(q.N, 1))
		}
		return x.binOf(draft{Act: pantry.Bin, Food: q.Food, Amount: a, Day: x.t.day()})
	}
	if q != nil {
		x.notRead(clause)
		return nil
	}
	drafts, err := x.t.drafts(x.t.reader().Read(clause))
	if len(drafts) == 0 && err == nil {
		x.notRead(clause)
	}
	for _, d := range drafts {
		if err == nil {
			err = x.binOf(d)
		}
	}
	return err
}

// binIt reads so much binned of what was named before.
func (x *mixed) binIt(said string, rest, whole bool) error {
	p := x.last()
	if p == nil && x.asks {
		return nil
	}
	if n := len(x.parts); p == nil || x.fresh < n-1 && !rest && !whole {
		of := "which"
		if p != nil {
			of = p.dish
		}
		x.tells = append(x.tells, fmt.Sprintf(`Not written: "binned %s", as it is not said of what. Say it with its name, like "binned 200g %s".`, said, of))
		return nil
	}
	x.fresh = len(x.parts)
	a := p.left.Amount
	switch {
	case rest && p.keep != nil:
		a.Base -= p.keep.Base
	case rest && p.left.Act == pantry.Count: // it goes before what is left is counted
		a.Base, p.kept = x.t.k.Line(p.left.Line).OnHand()-a.Base, true
	case rest:
		x.tells = append(x.tells, askWeight(p.dish, "binned"))
		return nil
	case !whole:
		got, ok, err := x.ofPart(p, said)
		if err != nil {
			return err
		}
		if !ok {
			x.tells = append(x.tells, askPortions(p.dish))
			return nil
		}
		a = got
	}
	if a.Base <= 0 {
		x.notRead("binned " + said)
		return nil
	}
	a.Said = said
	x.out(p, draft{Act: pantry.Bin, Food: p.left.Food, Amount: a, Day: x.t.day()})
	return nil
}

// binOf takes what was binned out of what is left of the same dish, or leaves it as it was said.
func (x *mixed) binOf(d draft) error {
	dish, _, err := x.t.cooked(d.Food)
	if dish == "" {
		dish = d.Food
	}
	p := x.of(dish)
	if err != nil || p == nil || d.Act != pantry.Bin || d.Trim {
		x.other = append(x.other, d)
		return err
	}
	x.fresh = len(x.parts)
	if d.Amount.How != language.Measured {
		n := d.Amount.N
		s, err := x.t.sheetOf(dish)
		if err != nil || s == nil || d.Amount.How != language.Pieces || n.Den != 1 {
			x.other = append(x.other, d)
			return err
		}
		a, ok := partOf(s, &language.Question{N: int(n.Num)})
		if !ok {
			x.tells = append(x.tells, askPortions(dish))
			return nil
		}
		d.Amount = a
	}
	x.out(p, d)
	return nil
}

// out writes that something of a part was binned, out of it where it is no more than that.
func (x *mixed) out(p *leftPart, d draft) {
	gone := d.Amount.Base
	for _, b := range p.bins {
		gone += b.Amount.Base
	}
	switch {
	case !p.kept && gone <= p.left.Amount.Base:
		d.Line, d.Food, d.Taken = p.left.Line, p.left.Food, true
	case len(p.bins) == 0:
		p.kept = true
	}
	p.bins = append(p.bins, d)
}

// ofPart reads an amount, or so much of what is left of a dish: "200g", "half", "2 portions".
func (x *mixed) ofPart(p *leftPart, said string) (language.Amount, bool, error) {
	var n int
	if strings.Contains(said, "portion") || strings.Contains(said, "serving") {
		if _, err := fmt.Sscan(said, &n); err != nil || n == 0 {
			return language.Amount{}, false, nil
		}
		s, err := x.t.sheetOf(p.dish)
		if err != nil || s == nil {
			return language.Amount{}, false, err
		}
		a, ok := partOf(s, &language.Question{N: n})
		return a, ok, nil
	}
	a, ok := x.t.amountSaid(said)
	if ok && a.How == language.Share {
		base, err := a.N.Of(p.left.Amount.Base)
		return language.Amount{How: language.Measured, Base: base, Kind: p.left.Amount.Kind, Said: a.Said, Approx: true}, true, err
	}
	return a, ok && a.How == language.Measured && a.Kind == p.left.Amount.Kind, nil
}

func (x *mixed) last() *leftPart {
	if len(x.parts) == 0 {
		return nil
	}
	return x.parts[len(x.parts)-1]
}

// of gives the part of a dish; nil none.
func (x *mixed) of(dish string) *leftPart {
	if i := slices.IndexFunc(x.parts, func(p *leftPart) bool { return strings.EqualFold(p.dish, dish) }); i >= 0 {
		return x.parts[i]
	}
	return nil
}
