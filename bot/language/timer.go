package language

import "strings"

// TimerWish is what is wished of timers.
type TimerWish string

// The wishes about timers.
const (
	TimerSet  TimerWish = "set"
	TimerStop TimerWish = "stop"
	TimerMore TimerWish = "more" // let one run longer
	TimerList TimerWish = "list"
)

// Timer is a wish about timers: "timer 12 min tart".
type Timer struct {
	Wish    TimerWish
	Seconds int     // of Set: how long from now, 1 to 86,400 (24 h); 0 where At is given. Of More: how much longer. Of Stop: how long it was set for, if said
	At      string  // of Set: a clock time, "18:30"; "" none
	Either  bool    // of At: morning or evening was not said. At is below 12:00, and the next of the two to come is meant
	For     string  // in the cook's words, without article: "tart", "turn the leeks"; "" nothing said
	All     bool    // of Stop: all of them
	Loose   bool    // of List: the word "timer" was not said, and where none runs for it, it was asked of people: "how long has the tart got?"
	Also    []Timer // more of them in the same message: "timer 12 min tart, 20 min bread"
}

// mostTimers is how many wishes of one message are read.
const mostTimers = 10

// longestTimer is how many seconds a timer may run: a day, as a clock time comes
// round by then.
const longestTimer = 24 * 60 * 60

// timers reads a sentence that may hold wishes about timers. What stands before
// and behind them is read as a sentence of its own.
func (p *parser) timers(i int) {
	if p.toDo(i) { // "step 3: set a timer for 12 min"
		return
	}
	wrong := p.wrong
	for k := i; k < p.end && len(p.wished) < mostTimers; {
		end := p.wishIn(i, k)
		p.wrong = wrong
		if end == 0 && p.waits(k) {
			break
		}
		if end == 0 {
			k++
			continue
		}
		p.part(i, k)
		p.wished = append(p.wished, [2]int{k, end})
		i, k, wrong = end, end, p.wrong
	}
	if p.part(i, p.end); len(p.wished) > 0 {
		p.open = nil
	}
}

// waits says whether a word at k puts off what stands behind it, or makes a story of
// it: "when it boils, timer 5 min" is none yet.
func (p *parser) waits(k int) bool {
	_, m := p.longest(k, "if", "habit")
	return m > 0 && !p.class1(k, "call")
}

// wishIn reads a wish at k in what begins at i, and gives where it ends; 0 where
// there is none.
func (p *parser) wishIn(i, k int) int {
	if !p.opensWish(i, k) {
		return 0
	}
	j, asked := p.wishAfter(k)
	if t, end := p.stops(j, asked); end > 0 {
		p.wish(t)
		return end
	}
	if t, end := p.longer(j, asked); end > 0 {
		p.wish(t)
		return end
	}
	s, end := p.sets(j, asked)
	if end == 0 || k > i && p.runsOn(k) && !p.saysBefore(i, k, j) {
		return 0
	}
	p.wish(s.Timer)
	return p.setsMore(end, s.many)
}

// wish notes one.
func (p *parser) wish(t Timer) {
	if p.out.Timer == nil {
		p.out.Timer = &t
		return
	}
	p.out.Timer.Also = append(p.out.Timer.Also, t)
}

// opensWish says whether a wish may begin at k: first, behind a mark or a join, or
// where the word for it stands in a message without marks.
func (p *parser) opensWish(i, k int) bool {
	return k == i || !p.runsOn(k) || p.heads(k) || p.class1(k, "call")
}

// runsOn says whether neither a mark nor a join stands before k.
func (p *parser) runsOn(k int) bool {
	if k == 0 || p.mark(k-1, ",:-") || p.word(k-1, "so") {
		return false
	}
	_, m := p.longest(k-1, "join", "but")
	return m == 0
}

// heads says whether the words at k ask for a timer in so many words: "timer 12",
// "set a timer".
func (p *parser) heads(k int) bool {
	_, m := p.class(k, "setting")
	if m > 0 && (p.word(k+m, "one") || p.word(k+m, "another")) { // "and set one for 10 min"
		return true
	}
	if m > 0 {
		k = p.skip(k+m, "det")
	}
	h, n := p.class(k, "timer")
	return n > 0 && (m > 0 || h.value != "asked")
}

// saysBefore says whether what stands between i and k, with no mark behind it, is a
// sentence of its own and not the subject of the wish, whose words begin at j:
// "used 300g leek in the tart set a timer for 12 min", but "dee set a timer for
// 12 min". Where a mere "timer" stands, it must only be no part of a phrase.
func (p *parser) saysBefore(i, k, j int) bool {
	if _, m := p.longest(j, "setting", "call"); m == 0 {
		_, m := p.longest(k-1, "det", "prep", "of", "i", "ask", "not", "could", "did", "do", "whose", "pron", "setting", "halt", "call")
		return m == 0 && p.is(k-1, word) && p.owner(k-1) == "" && !p.isCook(k-1)
	}
	for x := i; x < k; x++ {
		if p.mark(x, ",:-") {
			i = x + 1
		}
	}
	out, open, wrong := p.out, p.open, p.wrong
	said := len(out.Statements)
	p.part(i, k)
	said = len(p.out.Statements) - said
	p.out, p.open, p.wrong = out, open, wrong
	return said > 0
}

// part reads what stands beside a wish, from i to k, as a sentence.
func (p *parser) part(i, k int) {
	for k > i && k < p.end {
		_, m := p.longest(k-1, "join", "pause", "but")
		if m != 1 && !p.mark(k-1, ",:-") && !p.word(k-1, "so") {
			break
		}
		k--
	}
	if i >= k {
		return
	}
	start, end, has := p.start, p.end, p.has
	p.start, p.end = i, k
	p.classesOf(i, k)
	p.sentence(i)
	p.start, p.end, p.has = start, end, has
}

// wishAfter passes pauses and what asks for it politely, and says whether that
// asks. What tells people to do it asks nobody here: "remember to set a timer".
func (p *parser) wishAfter(k int) (j int, asked bool) {
	for most := k + mostTimed; k < most; {
		if ph, m := p.longest(k, "request", "pause"); m > 0 && ph.value != "people" && !p.foodAt(k) {
			asked = asked || ph.class == "request"
			k += m
		} else if m := p.slot("{open}", k); m > 0 && !p.foodAt(k) {
			k += m
		} else if p.mark(k, ",") {
			k++
		} else {
			break
		}
	}
	return k, asked
}

// asksTimers makes timers of the questions about them.
func (p *parser) asksTimers() {
	kept := p.out.Questions[:0]
	for _, q := range p.out.Questions {
		if q.About != aboutTimers {
			kept = append(kept, q)
			continue
		}
		p.wish(Timer{Wish: TimerList, For: strings.ToLower(q.Food), Loose: !p.begins("timer")})
	}
	p.out.Questions = kept
}

// isWished says whether the token at i is part of a wish about a timer.
func (p *parser) isWished(i int) bool {
	for _, w := range p.wished {
		if w[0] <= i && i < w[1] {
			return true
		}
	}
	return false
}
