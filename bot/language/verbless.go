package language

import (
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// verbless reads a use without a word for it: "200g leek in the tart", "tart:
// 350g leek, 60g butter", "leek 300g tart", and nothing else in the sentence. What
// is "for" a dish may be a wish, what is in "a" dish is talk. 0 where it is no
// such thing.
func (p *parser) verbless(i int) int {
	if p.end < len(p.t) && p.t[p.end].w == "?" {
		return 0
	}
	wrong := p.wrong
	s := Statement{Act: "use"}
	if p.word(i, "thats") {
		i++
	}
	start := p.heading(&s, i)
	headed, dish := start > i, s.Dish
	if _, m := p.longest(start, "did", "claim", "going", "keep"); m > 0 && !p.foodAt(start) {
		return 0
	}
	j := p.items(&s, start)
	p.wrong = wrong
	behind := p.skipMark(j, ",")
	switch ph, m := p.class(behind, "after"); {
	case headed:
		s.Dish = dish
	case m > 0 && ph.value == "bin" && m > 1: // "400ml milk down the sink", "carrot peelings, 140g, in the compost"
		s.Dish, j, headed = "bin", behind+m, true
	case s.Dish == "" && allCame(s.Items): // "300g fat off the beef"
		s.Dish, headed = "bin", true
	case s.Dish == "":
		j, headed = p.dishBehind(&s, j), true
	}
	end := p.trail(j)
	if len(s.Items) > 0 && s.Items[0].Food == "" && s.Dish == "bin" { // "cavolo nero's gone yellow, 120g in the compost"
		if topic, ok := p.topicBefore(i); ok {
			s.Items[0].Food, s.Items[0].Words, s.Items[0].Ref = topic.Food, topic.Words, false
		}
	}
	if len(s.Items) == 0 || s.Dish == "" || end == 0 || !headed && p.vaguely(i, j) || p.unknownOrUnsaid(s.Items, headed) && !p.restIn(&s, start) {
		return 0
	}
	if u := measure.DefaultUnits().Find(s.Dish, p.place); len(s.Items) == 1 && u != nil && (u.Sort == measure.Mass || u.Sort == measure.Volume) {
		it := s.Items[0] // "100g butter in tbsp"
		p.out.Questions = append(p.out.Questions, &Question{About: AboutConvert, Food: it.Food, Words: it.Words, Amount: it.Amount, To: u})
		return p.end
	}
	switch {
	case binned(s.Dish):
		s.Act, s.Dish = "bin", ""
		clearDishes(s.Items)
	case IsPlace(s.Dish) || IsNobody(s.Dish):
		return 0
	}
	s.Doubt = p.has.has("bid") // "300g leek in the tart please"
	p.say(s)
	return end
}

// restIn says whether a statement whose list begins at i is of what is left of the
// food named before: "the rest in the soup", "rest of it in the soup".
func (p *parser) restIn(s *Statement, i int) bool {
	i = p.skip(i, "det")
	if len(s.Items) != 1 || s.Items[0].Food != "" || s.Items[0].Amount.How != Share || !p.word(i, "rest") && !p.word(i, "remainder") && !p.word(i, "other") {
		return false
	}
	s.Items[0].Ref = true
	return words().is(s.Dish[strings.LastIndexByte(s.Dish, ' ')+1:], "dish")
}

// unknownOrUnsaid says whether an item names no food, nor goes on with the one
// before ("1 lemon in the tart, 1 in the curd"), or has no amount; under the name
// of a dish "some" will do, and behind an amount a food alone.
func (p *parser) unknownOrUnsaid(items []Item, headed bool) bool {
	for i, it := range items {
		if it.Food == "" && i == 0 || it.Amount.How == Unsaid && !(headed && (it.Amount.Some || i > 0 && p.knownWords(it.Words))) {
			return true
		}
	}
	return false
}

// heading reads a dish at the head of its list into s: "tart: 350g leek", "in the
// stew so far: ...", "cauli cheese - 700g cauli". It gives where the list begins;
// i where there is none.
func (p *parser) heading(s *Statement, i int) int {
	j, prep := i, false
	if w, m := p.class(j, "prep"); m > 0 && w.words[0] != "to" {
		prep, j = true, j+m
	}
	j = p.skip(j, "det")
	made := 0
	if n, name := p.numberedDish(j); n > 0 { // "30 ham baguettes: 30 baguettes, 900g ham"
		made, j = n, name
	}
	from := j
	end, named := p.headEnds(j)
	bare := !named && p.anyEnds(j) > j
	if bare {
		end = p.anyEnds(j)
	}
	if named || bare {
		j = end
	}
	for !named && !bare && j < p.end && p.is(j, word) && j-from < 6 && !p.startsAmount(j) {
		if p.manyTimes(j) > 0 && j > from {
			break
		}
		if _, m := p.longest(j, "trail", "stop", "sofar", "done"); m > 0 && j > from {
			break
		}
		if _, m := p.longest(j, "did", "claim", "release"); m > 0 && !p.dishWord(j) { // "used for the sponge - 200g butter"
			return i
		}
		j++
	}
	last, heads := j-1, 0
	if p.word(j, "for") && last >= from { // "leek tart for 8: 500g leeks"
		v, n := p.number(j + 1)
		_, m := p.class(j+1+n, "heads")
		end := j + 1 + n + m
		if _, today := p.class(end, "sofar"); today > 0 { // "soup for 18 tonight: ..."
			end += today
		}
		if n > 0 && v.Den == 1 && v.Num > 0 && v.Num <= mostHeads && p.mark(end, ":-=") {
			heads, j = int(v.Num), end
		}
	}
	times := p.manyTimes(j)
	if times > 0 && last >= from { // "tortilla x4: 2kg potatoes"
		heads, j = int(p.t[j+1].val.Num), j+times
	}
	_, tonight := p.class(j, "sofar")
	colon := p.mark(j+tonight, ":")
	cooked := bare || colon && (named || times > 0 || p.cookedFood(from, last+1)) && p.listsFood(j+tonight+1) || colon && (made > 0 || p.strangeDish(from, last+1) || p.boughtDish(from, last+1)) && p.listsFoods(j+tonight+1)
	meal := last == from && mealIn(p.t[from:last+1]) != "" && (p.mark(j, ":") || heads > 0)
	if last < from || !meal && !cooked && (!p.namesDish(from, last+1) && !((prep || heads > 0) && p.mark(j, ":")) || p.isPlaceWord(last)) {
		return i
	}
	for {
		if _, m := p.longest(j, "done", "sofar", "pause"); m > 0 {
			j += m
			continue
		}
		break
	}
	if !p.mark(j, ":-=,") && !p.startsAmount(j) {
		return i
	}
	for p.mark(j, ":-=,") {
		j++
	}
	if _, m := p.class(j, "some"); m == 0 && !p.startsAmount(j) && !p.foodAt(j) && !p.isShare(j) && !p.listsWeighed(j) {
		return i
	}
	var list []string
	for k := from; k <= last; k++ {
		if named || bare { // "al ajillo", of which no slip is mended
			list = append(list, strings.ToLower(p.t[k].raw))
			continue
		}
		list = append(list, p.t[k].shown())
	}
	s.Dish, s.Heads = strings.Join(list, " "), max(heads, made)
	return j
}

// numberedDish reads so many of a dish at the head of its list, and gives how many and where its name begins;
// 0 where it is none: "2 boxes: 3kg carrots, 1kg leeks".
func (p *parser) numberedDish(i int) (made, name int) {
	v, n := p.number(i)
	if n == 0 || v.Den != 1 || v.Num < 2 || v.Num > mostHeads {
		return 0, i
	}
	if _, m := p.unit(i + n); m > 0 {
		return 0, i
	}
	n += p.skipWord(i+n, "x") - i - n // "2 x calzone: ..."
	j := i + n
	for j < p.end && p.is(j, word) && j-i-n < 6 {
		j++
	}
	if j == i+n || !p.mark(j, ":") || !p.listsFoods(j+1) {
		return 0, i
	}
	return int(v.Num), i + n
}

// boughtDish says whether the words from i to k are of a dish that is also bought ready: "coronation chicken".
func (p *parser) boughtDish(i, k int) bool {
	if k <= i {
		return false
	}
	f, ok := food.Default().Food(p.asSaid(i, k-i))
	return ok && f.Group == "prepared"
}

// cookedFood says whether the words from i to k name food by how it was cooked, which is a dish where a
// list stands under it: "roast beef", "creamed leeks".
func (p *parser) cookedFood(i, k int) bool {
	_, m := p.class(i, "cooked")
	return m > 0 && i+m < k && p.known(i+m, k-i-m)
}

// strangeDish says whether the words from i to k may be the name of a dish that no table knows, at the head of
// its list: "carnitas", "aloo gobi", "toad in the hole". They are nobody here, no food alone, and none of the
// words that a list of another kind is headed with.
func (p *parser) strangeDish(i, k int) bool {
	if k <= i || k-i > 5 || p.known(i, k-i) && !p.boughtDish(i, k) {
		return false
	}
	told := false
	for x := i; x < k; x++ {
		w := p.t[x].w
		if _, m := p.longest(x, "cooked", "dish"); m > 0 || p.known(x, 1) {
			told = told || m > 0 || k-i > 1
			continue
		}
		if x > i && x < k-1 && (p.word(x, "in") || p.word(x, "the") || p.word(x, "and") || p.word(x, "n") || p.word(x, "of") || p.word(x, "with") || p.mark(x, "&") || p.word(x, "a") || p.word(x, "la")) {
			continue
		}
		if slices.Contains(p.cooks, w) || len(words().first[w]) > 0 || questions().known[w] || food.IsPlain(w) || len([]rune(w)) < 3 {
			return false
		}
		told = true
	}
	return told
}

// anyEnds gives where a name at i ends that may be any dish's, and has its list of known foods behind a colon or a
// dash: "choc torte - 1kg chocolate 500g butter". i where there is none.
func (p *parser) anyEnds(i int) int {
	j := i
	for j < p.end && j-i < mostHeadWords && (p.is(j, word) || p.mark(j, "&") && j > i) && !(j > i && (p.manyFor(j) > 0 || p.manyTimes(j) > 0)) {
		j++
	}
	k := j + p.manyFor(j) + p.manyTimes(j)
	if k >= p.end || !p.mark(k, ":") && !(p.mark(k, "-") && p.t[k].from > p.t[k-1].to) || !p.anyDish(i, j) || p.knownFoods(k+1) < 2 {
		return i
	}
	return j
}

// anyDish says whether the words from i to k, two or more, may be the name of a dish at the head of its list: "choc
// torte", "black forest slice". They are no food alone, and none of them is a cook's name or tells of a list of
// another kind, as who brought it, where it lies, or what for.
func (p *parser) anyDish(i, k int) bool {
	if k-i < 2 || p.known(i, k-i) && !p.boughtDish(i, k) {
		return false
	}
	for x := i; x < k; x++ {
		if p.startsAmount(x) || slices.Contains(p.cooks, p.t[x].w) || slices.Contains(p.cooks, strings.TrimSuffix(p.t[x].w, "s")) || weekday(p.t[x].w) {
			return false
		}
		if _, m := p.longest(x, "todo", "paper", "later", "day", "claim", "release", "place", "source", "taker", "left", "none", "bins", "could", "not", "if", "habit", "ask", "there", "lack", "keep", "undo", "amend", "elsewhere", "did", "do", "i", "request", "bid"); m > 0 && !p.dishWord(x) && !p.lexHas(x, x+1, "dish") && !p.known(x, 1) && !(x > i && (p.word(x, "in") || p.word(x, "the"))) {
			return false
		}
	}
	return true
}

// knownFoods is how many known foods with amounts stand from i on, one at least weighed, and nothing else and none
// with a price; 0 where anything else does: "check on: 2 leek tarts, 1 chicken" is called.
func (p *parser) knownFoods(i int) (n int) {
	if !p.listsFoods(i) || p.prices(i) {
		return 0
	}
	weighed := false
	for j := i; j < p.end; {
		it, m := p.item(j)
		weighed = weighed || it.Amount.How == Measured
		if p.knownWords(it.Words) {
			n++
		}
		if j = p.joint(j + m); j+1 >= p.end {
			break
		}
	}
	if !weighed {
		return 0
	}
	return n
}

// listsFoods says whether from i on stand two foods with amounts or more, some of them known, and nothing else.
func (p *parser) listsFoods(i int) bool {
	n, known := 0, 0
	for j := i; j < p.end; n++ {
		it, m := p.item(j)
		if m == 0 || it.Food == "" || it.Amount.How != Measured && it.Amount.How != Pieces {
			return false
		}
		if p.knownWords(it.Words) {
			known++
		}
		if j = p.joint(j + m); j+1 >= p.end {
			j = p.end
		}
	}
	return n > 1 && known > 0
}

// listsFood says whether an amount of a food begins at i.
func (p *parser) listsFood(i int) bool {
	it, n := p.item(i)
	return n > 0 && it.Food != "" && it.Amount.How != Unsaid
}

// listsWeighed says whether a food stands at i with its weight behind, under whatever name: "thighs 2kg".
func (p *parser) listsWeighed(i int) bool {
	it, n := p.item(i)
	return n > 0 && p.unheard(i) && !strings.HasSuffix(p.t[i].raw, "'s") && it.Food != "" && it.Amount.How == Measured
}

// namesDish says whether the words from i to k end in a name for a kind of dish:
// "cauli cheese", "lentil soup".
func (p *parser) namesDish(i, k int) bool {
	for ; i < k; i++ {
		if p.lexHas(i, k, "dish") {
			return true
		}
	}
	return false
}

func (p *parser) isPlaceWord(i int) bool {
	_, m := p.longest(i, "place", "paper", "noname")
	return m > 0 && !p.lexHas(i, i+1, "dish") && !p.lexHas(i-1, i+1, "dish") // "staff meal"
}

// title reads a sentence that only names a dish, whose list the next one is:
// "lentil soup's on!! 350g red lentils, 250g carrots". 0 where it is none.
func (p *parser) title(i int) int {
	j := p.skip(i, "det")
	if w, m := p.class(i, "prep"); m > 0 && w.words[0] != "to" && p.mark(p.end-1, ":") { // "Into the chicken pie:"
		j = p.skip(i+m, "det")
	}
	from := j
	for j < p.end && p.is(j, word) && j-from < 5 {
		if _, m := p.longest(j, "sofar", "done", "stop"); m > 0 && j > from {
			break
		}
		if _, m := p.longest(j, "did", "claim", "release"); m > 0 && !p.dishWord(j) {
			return 0
		}
		j++
	}
	last := j - 1
	if p.mark(j, ":") && j+1 == p.end {
		j++
	}
	name := p.owner(last)
	if last < from || !p.namesDish(from, last+1) && !(name != "" && words().is(name, "dish")) || !p.trailing(j) || p.end >= len(p.t) {
		return 0
	}
	end, next := p.end, p.end
	for next < len(p.t) && p.breaks(next) {
		next++
	}
	p.end = len(p.t)
	lists := p.startsAmount(next)
	p.end = end
	if !lists {
		return 0
	}
	var list []string
	for k := from; k <= last; k++ {
		list = append(list, p.t[k].shown())
	}
	if name != "" {
		list[len(list)-1] = name
	}
	p.open = &Statement{Act: "use", Dish: strings.Join(list, " ")}
	return p.end
}

// dishBehind reads a dish that only stands behind its food, at the end: "leek
// 300g tart", "250g leek > pie", "used 150g mushrooms, risotto".
func (p *parser) dishBehind(s *Statement, j int) int {
	k := j
	for p.mark(k, ",-/>:=") {
		k++
	}
	k = p.skip(k, "det")
	from := k
	for k < p.end && p.is(k, word) && k-from < 4 {
		if _, m := p.longest(k, "did", "going", "prep", "claim", "stop", "left"); m > 0 && !p.dishWord(k) {
			return j
		}
		k++
	}
	if k == from || !p.namesDish(from, k) || p.trail(k) == 0 {
		return j
	}
	var list []string
	for x := from; x < k; x++ {
		list = append(list, p.t[x].shown())
	}
	s.Dish = strings.Join(list, " ")
	return k
}

// dishEnds says whether the sentence ends at i with a dish: "leek 300g tart".
func (p *parser) dishEnds(i int) bool {
	s := Statement{}
	return p.dishBehind(&s, i) > i
}

// trailing says whether what is left of the sentence from j only rounds it off:
// "done", "as well", ", beaten and seasoned".
func (p *parser) trailing(j int) bool { return p.trail(j) == p.end }

// trail is where what rounds a statement off ends: at the end of the sentence, or
// where a clause of its own begins; 0 where something else follows. Behind a comma
// people may say what they like, so long as nothing in it takes the rest back:
// "300g chicken in the tagine, it's bubbling".
func (p *parser) trail(j int) int {
	for j < p.end {
		if _, m := p.class(j, "ask"); m > 0 && !p.mark(j-1, ",-") { // "300g leek in the tart is too much"
			return 0
		}
		if p.newClause(j) || p.mark(j, ",") && p.trimNext(j+1) {
			return j
		}
		if p.mark(j, ",-") {
			j = p.remark(j + 1)
			continue
		}
		if _, m := p.longest(j, "pause", "share", "done", "sofar", "did", "stop", "join", "i", "spoilt"); m > 0 {
			j += m
			continue
		}
		return 0
	}
	return p.end
}

// remark passes talk behind a comma, up to the next; i where it may be more.
func (p *parser) remark(i int) int {
	j := i
	for ; j < p.end && !p.mark(j, ",-"); j++ {
		if _, m := p.longest(j, "if", "could", "not", "ask", "habit", "did", "do", "claim", "bid", "noname", "prep"); m > 0 || p.startsAmount(j) || p.foodAt(j) {
			return i
		}
	}
	return j
}

// vaguely says whether the dish between i and j is no dish of ours: "a" dish,
// or one that the food is only for.
func (p *parser) vaguely(i, j int) bool {
	for k := i + 1; k < j; k++ {
		w, m := p.class(k, "prep")
		if m == 0 || p.startsAmount(k+m) {
			continue
		}
		if d, n := p.class(p.skip(k+m, "det"), "dish"); n > 0 && d.value != "" { // "200g prawns for staff tea"
			return false
		}
		return p.word(k+m, "a") || p.word(k+m, "an") || p.word(k+m, "every") || p.word(k+m, "each") || p.word(k+m, "one") || w.words[0] == "for" || w.words[0] == "to" || w.words[0] == "through"
	}
	return true
}
