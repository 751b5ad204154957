package language

import (
	"slices"
	"strconv"

	"scullion/pantry/measure"
)

// opening passes what stands before a question: "hi all, quick one before I
// start:", "sorry to be a pain, could you tell me". told says that the last of
// it may turn the words behind it round: "tell me what we've got left".
func (p *parser) opening(i int) (j int, told bool) {
	for i < p.end {
		if n := p.slot("{open}", i); n > 0 {
			i, told = i+n, false
		} else if n := p.slot("{tell}", i); n > 0 {
			i, told = i+n, true
		} else if p.mark(i, ",:-") {
			i++
		} else if ph, n := p.longest(i, "pause", "join", "but"); n > 0 && ph.words[0] != "with" && !p.foodAt(i) {
			i += n
		} else {
			break
		}
	}
	return i, told
}

// question reads a question at i, and gives where it ends; 0 where there is
// none.
func (p *parser) question(i int) int {
	bare := p.idle(i)
	if n := p.questionAt(bare, false); n > 0 {
		return n
	}
	if at, told := p.opening(i); at > bare {
		return p.questionAt(at, told)
	}
	return 0
}

func (p *parser) questionAt(i int, told bool) int {
	first := ""
	switch {
	case p.is(i, word):
		first = p.t[i].w
	case p.is(i, digit): // "86 leeks?"
		first = p.t[i].raw
	default:
		return 0
	}
	asked := p.end < len(p.t) && p.t[p.end].w == "?"
	for _, f := range questions().forms[first] {
		if f.told && !told || f.asked && !asked {
			continue
		}
		if slices.Contains(alone, f.about) && (p.start > 0 || p.end < len(p.t)-1) {
			continue // "Help! I'm trapped"
		}
		if q, end := p.match(f, i); q != nil {
			return p.asks(q, end)
		}
	}
	if asked || p.has.has("serve", "diet", "haste", "allergen", "heads") && p.limit(i, nil) > 0 {
		for _, f := range questions().forms[""] {
			if !asked && !f.limit {
				continue
			}
			if q, end := p.match(f, i); q != nil {
				return p.asks(q, end)
			}
		}
	}
	return 0
}

// alone are those that are only asked by a message that says nothing else.
var alone = append([]About{AboutHelp, AboutMore}, Shown...)

func (p *parser) asks(q *Question, end int) int {
	if q.About == aboutTalk {
		return p.end
	}
	q.Limits = p.limits()
	q.Size = p.sizeSaid()
	q.Method = p.method()
	q.First = len(p.out.Statements) == 0
	p.out.Questions = append(p.out.Questions, q)
	return end
}

// mostSaid is the largest number that a form takes: portions of a works canteen, not a year's.
const mostSaid = 9999

// match holds a form against the words from i, and gives where the question
// ends.
func (p *parser) match(f form, i int) (q *Question, end int) {
	q = &p.asking
	*q = Question{About: f.about, Plain: f.steps[0].slot == "{food}"}
	j := i
	for n, s := range f.steps {
		j = p.polite(j, s)
		m := 0
		switch s.slot {
		case "":
			m = p.spelt(s, j)
			q.Here = q.Here || s.here && m > 0
		case "*":
			if p.word(j, "once") && p.isState(j+1) {
				q.State, j = p.t[j+1].w, j+2
			}
			if end = p.trails(j, q); end == 0 {
				return nil, 0
			}
			return q.found(), end
		case "{food}":
			if m = p.askedFoods(q, j, f.steps[n+1:]); m == 0 && slices.Contains(keptAbouts, f.about) { // "how do I cool the soup?"
				if k := p.skip(j, "det"); k < p.end {
					if m = p.toRest(k, f.steps[n+1:]); m > 0 && (p.namesDish(k, k+m) || p.isState(k)) {
						q.Food, m = p.asSaid(k, m), k+m-j
					} else {
						m = 0
					}
				}
			}
			if m > 0 && p.unasked(j, m) {
				return nil, 0
			}
			if f.about == AboutWith && m > 0 && p.limit(j-1, nil) == m+1 { // "ideas for a coeliac"
				return nil, 0
			}
			if f.about == AboutWith && m > 0 && !p.foodEnds(j+m) && p.namesDish(j, j+m) { // "any ideas for a veggie special"
				return nil, 0
			}
			if f.about == aboutTimers && m > 0 && !p.mayBeTimed(j, m, f.timer) { // "how long have the kids got?"
				return nil, 0
			}
		case "{amount}":
			var a Amount
			if a, m = p.amount(j); (a.How != Measured || a.Vague()) && (!slices.Contains(ofAny, f.about) || a.How != Share && a.How != Pieces) {
				return nil, 0
			}
			q.Amount = a
		case "{unit}":
			u, k := p.unit(j)
			if k == 0 || u.Sort != measure.Mass && u.Sort != measure.Volume {
				return nil, 0
			}
			q.To, m = u, k
		case "{allergen}":
			_, m = p.class(j, "allergen")
		case "{number}":
			var v measure.Ratio
			if v, m = p.number(j); m > 0 && v.Den == 1 && v.Num > 0 && v.Num <= mostSaid {
				if (f.about == AboutSheet || f.about == AboutDishFor) && q.N > 0 { // "sheet 1 for 24"
					q.Food = strconv.Itoa(q.N)
				}
				q.N = int(v.Num)
				if f.about == AboutDo || f.about == AboutStay || f.about == AboutSwap || f.about == AboutDrop {
					m += p.otherNumbers(j+m, q)
				}
			} else { // no number that anybody means so
				m = 0
			}
		case "{nth}":
			var x *phrase
			if x, m = p.class(j, "nth"); m > 0 {
				q.N = int(x.ratio.Num)
			}
		case "{limit}":
			m = p.limit(j, nil)
		case "{clock}":
			var c clocked
			if c, m = p.clock(j, true); m > 0 {
				q.At, q.Either = c.at, c.either
			}
		case "{price}":
			m = p.priceAt(q, j)
		case "{day}":
			if q.Date, m = p.dayAt(j); m == 0 {
				q.Date, m = p.dayGone(j)
			}
		case "{dish}":
			var name string
			if name, m = p.dish(j); m > 0 {
				q.Food = name
			}
		case "{size}":
			m = p.cutSize(j, nil)
		case "{who}":
			if p.is(j, word) && p.isCook(j) {
				if q.Food, m = p.t[j].w, 1; !slices.Contains(p.cooks, q.Food) { // "bo's"
					q.Food = p.owner(j)
				}
			}
		case "{whois}":
			q.Food, m = p.whoIs(j)
		case "{kit}":
			if q.Food = p.kitSaid(j); q.Food != "" {
				m = 1
			}
		case "{cannot}":
			how := anyNeed
			if f.about == AboutNumbered {
				how = atNumber
			}
			m = p.needList(j, q, how)
		case "{persons}":
			m = p.needList(j, q, ofPersons)
		case "{barred}":
			m = p.needList(j, q, barredFood)
		case "{illness}":
			m = p.needList(j, q, ofIllness)
		case "{textures}":
			m = p.needList(j, q, ofTexture)
		case "{counted}":
			m = p.countedNeeds(j, q)
		case "{spot}":
			q.Place, m = p.spotAt(j)
		case "{inside}":
			x := TableNeed{}
			if m = p.notEaten(j, &x); m > 0 {
				q.Needs = append(q.Needs, x)
			}
		case "{place}":
			if q.Place != "" { // "bed 5 is now in bed 6"
				q.Food = q.Place
			}
			q.Place, m = p.placeAt(j)
		case "{guest}":
			m = p.nameAt(j, q)
		case "{guestis}":
			m = p.nameIs(j, q)
		case "{mealname}":
			if m = p.spelt(s, j); m > 0 {
				q.Place = mealIn(p.t[j : j+m])
			}
		case "{taker}": // to the end
			if p.isTaker(p.skip(j, "det"), p.end) {
				q.Place, m = p.asTaker(j, p.end), p.end-j
			}
		case "{called}": // all the words to the end, or to what follows
			if m = p.toRest(j, f.steps[n+1:]); m > 0 {
				q.Food = DishName(p.asSaid(j, m))
			}
		}
		if m == 0 && !s.opt {
			return nil, 0
		}
		j += m
	}
	if f.about == AboutConvert && (q.Amount.How != Measured && q.Amount.How != Pieces || q.Amount.Article && q.To == nil && q.Amount.Part == "") {
		return nil, 0 // "how much is the salmon?" asks the price
	}
	if end = p.tail(j, q); end == 0 {
		return nil, 0
	}
	return q.found(), end
}

// keptAbouts are the questions that are asked of dishes as well: "how long does the
// soup keep?"
var keptAbouts = []About{AboutKeep, AboutFreeze, AboutCool, AboutReheat, AboutThaw, AboutOut, AboutRefreeze}

// mostCalled is how many words a dish is called by for short at most.
const mostCalled = 6

// toRest gives how many words there are from j to the end, or to where the rest of a form
// goes on, if they may name a dish; 0 not.
func (p *parser) toRest(j int, rest []step) int {
	for k := j; k < p.end && k-j <= mostCalled; k++ {
		if len(rest) > 0 && k > j {
			if rest[0].slot == "*" && p.trails(k, &Question{}) > 0 {
				return k - j
			}
			if _, m := p.number(k); rest[0].slot == "{number}" && m > 0 || rest[0].slot == "{amount}" && p.startsAmount(k) || rest[0].slot == "{price}" && p.priceAt(&Question{}, k) > 0 || p.standsDay(rest[0], k) || p.standsNeed(rest[0], k) || rest[0].slot == "" && p.spelt(rest[0], k) > 0 {
				return k - j
			}
		}
		if !p.is(k, word) {
			return 0
		}
	}
	if len(rest) > 0 && rest[0].slot != "*" || p.end-j > mostCalled {
		return 0
	}
	return max(0, p.end-j)
}

// unasked says whether the m tokens at i are words that are asked about and are no
// food: "got any ideas".
func (p *parser) unasked(i, m int) bool {
	k := i
	for k < i+m-1 && (p.word(k, "any") || p.word(k, "some") || p.isDet(k)) {
		k++
	}
	if n := p.limit(k, nil); n < i+m-k { // "any veggie ideas"
		k += n
	}
	return p.slot("{unasked}", k) == i+m-k
}

// found gives a question that was read to its end a place of its own.
func (q *Question) found() *Question {
	own := *q
	return &own
}

// tail passes what may stand behind a form that ends at j, and gives where the
// question ends; 0 where more is said than was asked.
func (p *parser) tail(j int, q *Question) int {
	for j < p.end {
		if p.isState(j) && q.Food != "" && !p.whole { // "can you eat kidney beans raw"
			q.State, j = p.t[j].w, j+1
		} else if p.word(j, "once") && p.isState(j+1) {
			q.State, j = p.t[j+1].w, j+2
		} else if end := p.reason(j, q); end > 0 && !p.whole {
			return end
		} else if m := p.slot("{tail}", j); m > 0 {
			j += m
		} else if p.mark(j, ",") && !p.whole && !q.Plain && q.Food != "" && p.remark(j+1) == p.end { // "how long do potatoes take to boil, say for mash"
			return p.end
		} else if p.mark(j, ",-") {
			j++
		} else if _, m := p.class(j, "pause"); m > 0 {
			j += m
		} else if p.whole {
			return 0
		} else if _, m := p.class(j, "stop"); m > 0 && !q.Plain && q.Food != "" && q.About != AboutHelp {
			j += m
		} else if _, m := p.dish(j); m > 0 && q.Food != "" && j+m == p.end { // "left for the garnish"
			j += m
		} else if p.word(j, "for") && p.startsAmount(p.skip(j+1, "det")) && q.About == AboutFood && !q.Plain { // "for 6 quiches"
			return p.end
		} else {
			return 0
		}
	}
	return j
}

// reason gives where a question ends behind which, at j, its reason stands
// ("because I need to do pancakes", "or did cem have it all"), or another
// question; 0 where neither does.
func (p *parser) reason(j int, q *Question) int {
	k := j
	for p.mark(k, ",-") {
		k++
	}
	if q.Plain { // "lovely leeks, where are they from?"
		return 0
	}
	if p.slot("{reason}", k) > 0 {
		return p.end
	}
	if n := p.idle(j); n > j {
		if _, m := p.class(n, "ask"); m > 0 {
			return j
		}
	}
	if asked := p.end < len(p.t) && p.t[p.end].w == "?"; k > j && !asked && p.newClause(k) { // "how are we for eggs, need 8 for the custard"
		return j
	}
	return 0
}

// isState says whether the word tells in what state a food is.
func (p *parser) isState(i int) bool { return p.lexHas(i, i+1, "state") }

// trails gives where a question ends whose rest, from j, is only time, kit and
// manners; 0 where it is more.
func (p *parser) trails(j int, q *Question) int {
	for j < p.end {
		if end := p.reason(j, q); end > 0 {
			return end
		}
		if p.t[j].sort == mark {
			j++
			continue
		}
		if _, m := p.dish(j); m > 0 && (q.Food != "" || q.About == AboutIdeas && p.namesDish(j+1, j+m)) && j+m == p.end { // "any ideas for a veggie special"
			return p.end
		}
		if n := max(p.cutSize(j, nil), p.limit(j, nil)); n > 0 {
			j += n
			continue
		}
		if _, n := p.number(j); n > 0 {
			j += n
			continue
		}
		if j > 0 && p.mark(j-1, ",") && !q.Plain && p.remark(j) == p.end { // "ideas for the leeks anyone, brain is mush"
			return p.end
		}
		_, m := p.longest(j, "trail", "pause", "notfood", "stop", "method")
		if m = max(m, p.slot("{tail}", j)); m == 0 {
			return 0
		}
		j += m
	}
	return p.end
}

// polite passes pauses before a step of a form.
func (p *parser) polite(i int, before step) int {
	for {
		if p.spelt(before, i) > 0 {
			return i
		}
		if _, m := p.class(i, "pause"); m > 0 && !p.foodAt(i) {
			i += m
		} else if p.mark(i, ",:") {
			i++
		} else {
			return i
		}
	}
}

// otherNumbers reads the rest of "1 and 3", "1, 2 and 4".
func (p *parser) otherNumbers(i int, q *Question) int {
	j := i
	for {
		k := j
		for p.is(k, mark) && p.t[k].w == "," || p.word(k, "and") || p.word(k, "plus") {
			k++
		}
		v, m := p.number(k)
		if k == j || m == 0 || v.Den != 1 || v.Num < 1 || v.Num > 99 || !p.bare(k+m) {
			return j - i
		}
		q.Others = append(q.Others, int(v.Num))
		j = k + m
	}
}
