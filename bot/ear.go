package bot

import (
	"strings"
	"sync"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// ear finds what a cook means by a food phrase: first among what the pantry
// holds, then in the catalogue. It belongs to the job that uses it; jobs of
// one ledger run one at a time.
type ear struct {
	k      *pantry.Kitchen
	lines  *food.Index          // ids are line ids
	heard  int                  // lines added so far
	cooks  []string             // the names of the kitchen's cooks, in lower case
	people map[string]string    // what entries call each of them
	met    int                  // as the kitchen's Met
	foods  map[int64]*food.Food // what each line is; nil where no table knows it
	all    *food.Catalogue      // with what the kitchen has taught
	base   *food.Catalogue
	taught int              // as the kitchen's Taught
	asked  map[string]found // what was found before; emptied when a line comes

	joined   [][]string // names with an "and" in them
	joinedOf int        // of how many dishes and lines
}

// ears keeps an ear for each kitchen, so that an index is built once.
type ears struct {
	mu   sync.Mutex
	base *food.Catalogue
	by   map[int64]*ear
}

func newEars(base *food.Catalogue) *ears { return &ears{base: base, by: map[int64]*ear{}} }

// of gives the kitchen's ear, knowing all its lines. A Kitchen that was loaded
// anew, or lost lines to a rollback, gets a new one.
func (e *ears) of(k *pantry.Kitchen) *ear {
	e.mu.Lock()
	defer e.mu.Unlock()
	x := e.by[k.ID]
	if x == nil || x.k != k || x.heard > len(k.Lines) || x.taught != k.Taught {
		x = newEar(k, e.base)
		e.by[k.ID] = x
	}
	x.learn()
	return x
}

func newEar(k *pantry.Kitchen, base *food.Catalogue) *ear {
	return &ear{k: k, lines: food.NewIndex(), base: base, all: Foods(base, k), taught: k.Taught, foods: map[int64]*food.Food{}}
}

func (x *ear) learn() {
	if x.heard < len(x.k.Lines) {
		x.asked = nil
	}
	for ; x.heard < len(x.k.Lines); x.heard++ {
		l := x.k.Lines[x.heard]
		names := append([]string{l.Name}, taughtFor(x.k, l)...)
		if f := foodOf(x.all, l); f != nil {
			x.foods[l.ID] = f
			names = append(names, f.Called()...)
		}
		x.lines.Add(int(l.ID), names...)
	}
	if x.people == nil || x.met != x.k.Met {
		x.meet()
	}
}

// meet learns the cooks' names.
func (x *ear) meet() {
	x.cooks, x.people, x.met = nil, map[string]string{}, x.k.Met
	firsts := map[string]int{}
	for _, c := range x.k.Cooks {
		name := strings.ToLower(x.k.CookName(c))
		x.cooks = append(x.cooks, name)
		x.people[name] = c
		first, _, _ := strings.Cut(name, " ")
		firsts[first]++
	}
	for _, name := range x.cooks { // "ana" will do for "Ana on larder" where there is one ana
		if first, _, more := strings.Cut(name, " "); more && firsts[first] == 1 && x.k.People[x.people[name]].Name != "" {
			x.cooks = append(x.cooks, first)
			x.people[first] = x.people[name]
		}
	}
}

// cook gives what entries call the cook of that name.
func (x *ear) cook(said string) string {
	if c, ok := x.people[strings.ToLower(said)]; ok {
		return c
	}
	return said
}

func (x *ear) foodOf(l *pantry.Line) *food.Food { return x.foods[l.ID] }

// foodOf looks a line's food up in the catalogue; nil where it is not there. A
// line that came in before its food was known is looked up by its own name.
func foodOf(all *food.Catalogue, l *pantry.Line) *food.Food {
	name := l.Food
	if name == "" {
		name = l.Name
	}
	if l.Made > 0 && l.Food == "" && food.IsDishOf(strings.TrimPrefix(strings.ToLower(name), "cooked ")) { // the sheets are not all that is in it
		return nil
	}
	if f, ok := all.Food(name); ok && (l.Food != "" || f.Unit == l.Unit) {
		return f
	}
	return nil
}

// Exact and MaxWords tell the reader which words are foods.
func (x *ear) Exact(words []string) []int {
	if ids := x.lines.Exact(words); len(ids) > 0 {
		return ids
	}
	if len(words) > 1 && strings.EqualFold(words[0], "frozen") {
		if ids := x.lines.Exact(words[1:]); len(ids) > 0 {
			return ids
		}
	}
	return x.all.Index().Exact(words)
}

// Together gives the kitchen's own names with an "and" in them, of dishes and of food.
func (x *ear) Together() [][]string {
	n := len(x.k.Dishes) + len(x.k.Lines)
	if n == x.joinedOf {
		return x.joined
	}
	x.joined, x.joinedOf = nil, n
	add := func(name string) {
		if strings.Contains(name, " and ") {
			x.joined = append(x.joined, strings.Fields(strings.ToLower(name)))
		}
	}
	for _, d := range x.k.Dishes {
		add(d)
	}
	for _, l := range x.k.Lines {
		add(l.Name)
	}
	return x.joined
}

func (x *ear) MaxWords() int { return max(x.lines.MaxWords(), x.all.Index().MaxWords()) }

// lineName is what a new line is called: the cook's own words in the singular,
// without words that tell nothing; the catalogue's where the cook's had a slip.
func (x *ear) lineName(phrase string, f found) string {
	words := strings.Fields(strings.ToLower(phrase))
	switch {
	case f.food == nil:
		return singular(strings.Join(words, " "))
	case f.guess:
		return f.food.Name
	case planner.IsCooked(f.food, phrase): // another thing than the food it was
		return singular(strings.Join(words, " "))
	}
	for i := range words { // "lovely fresh leeks" are leeks; chilli oil is no oil
		if x.all.Index().Exact(words[i:]) != nil {
			return singular(strings.Join(words[i:], " "))
		}
		if x.Exact(words[i:i+1]) != nil {
			break
		}
	}
	if f.exact {
		return singular(strings.Join(words, " "))
	}
	return f.named
}

// singular makes the last word of a name singular and leaves the rest alone; of
// "legs of lamb", the word before "of".
func singular(name string) string {
	head, rest := headOf(name)
	i := strings.LastIndexByte(head, ' ') + 1
	last := head[i:]
	if strings.HasSuffix(head[:i], " and ") { // "fish and chips"
		return name
	}
	if s := food.Fold(last); s != strings.ReplaceAll(strings.ReplaceAll(last, "'", ""), "’", "") {
		head = head[:i] + s
	}
	return head + rest
}
