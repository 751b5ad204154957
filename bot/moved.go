package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// onePlace is a numbered place in a message about who moves.
const onePlace = `(?:(?:` + language.OnePlace + `|cubicle ?\d{1,3})(?: (?:seat|cover|chair|s) ?\d{1,2})?)`

// Ways in which guests are said to move from one place to another.
var (
	movesTo = []*regexp.Regexp{
		regexp.MustCompile(`(?i)^\s*(?:the )?(` + onePlace + `)(?:'s| is| are| have| has|'ve|s)?(?: all| just| now| been| being)* (?:moving|moved|move|sitting|sat|switched|switching|shifted|gone to sit|going to sit|going|gone|transferring|transferred|relocated|swapped|swapping)(?: over| across| now| down| up)*(?: to| on| at| in| onto| into)+ (?:the )?(` + onePlace + `)(?: now| please| pls| instead| tonight| today)*\s*[.!]*\s*$`),
		regexp.MustCompile(`(?i)^\s*(?:the )?(` + onePlace + `) (?:are|is)(?: all)? (?:now )?(?:on|at|in) (?:the )?(` + onePlace + `)(?: now| instead)+\s*[.!]*\s*$`),
		regexp.MustCompile(`(?i)^\s*(` + onePlace + `)\s*(?:-+>|=+>|→|➡️?|>)\s*(` + onePlace + `)\s*[.!]*\s*$`),
		regexp.MustCompile(`(?i)^\s*(?:please |pls |can you |we |ive |i've |weve |we've |i )*(?:put|sat|sit|shift|shifted|move|moved|moving|switch|switched|transfer|transferred) (?:the )?(` + onePlace + `)(?: over| across)? (?:to|on|at|onto|into|in) (?:the )?(` + onePlace + `)(?: now| please| pls| instead)*\s*[.!]*\s*$`),
	}
	// whoMoves is somebody by a name, or by who they are, who moves to a place.
	whoMoves = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z][a-z.]*(?: [a-z]+){0,2}?)(?:'s| is| has| have|s)?(?: just| now| been)* (?:moved|moving|switched|swapped|transferred|transferring|gone|sitting|sat)(?: over| across| now)* (?:to|on|at|onto|into) (?:the )?(` + onePlace + `)(?: now| instead)*\s*[.!]*\s*$`)
	// isOnNot is a need that was told of the wrong place: "nut allergy is on t9 not t4".
	isOnNot = regexp.MustCompile(`(?i)^\s*(?:sorry |no |actually )*(?:the )?([a-z][a-z ]*?) (?:is |are |was |were )?(?:on|at|in|for) (` + onePlace + `),? not (?:on |at |in |for )?(` + onePlace + `|\d{1,3})\s*[.!]*\s*$`)
	// needMoves is a need that is of another place than the one it is kept of: "move the nut allergy to table 5".
	needMoves = regexp.MustCompile(`(?i)^\s*(?:please |pls |can you |sorry |actually |no )*(?:move|moved|put|switch|shift|change) (?:the |that |their )?([a-z][a-z ]*?) (?:over )?(?:to|onto|on) (` + onePlace + `)(?: now| please| pls| instead| not (?:on |at )?(` + onePlace + `|\d{1,3}))*\s*[.!]*\s*$`)
)

// numberedTo is a place that moves to a mere number, which may be another of its kind, or a time: "table 4 has moved to 9".
var numberedTo = regexp.MustCompile(`(?i)^\s*(?:the )?((table|tbl|t|booth|bed|room|rm|seat) ?\d{1,3})(?:'s| is| are| have| has|'ve)?(?: all| just| now| been)* (?:moved|switched|shifted|transferred|gone to sit|sitting|sat)(?: over| across)* (?:to|at|on) (\d{1,3})\s*[.!]*\s*$`)

// saysSits is a word of guests who sit, which is no time.
var saysSits = regexp.MustCompile(`(?i)\bs[ia]t`)

// lastHour is the highest number that may be a time.
const lastHour = 24

// toNumber gives a text with the kind of place before such a number; asked is what it may be else, "" nothing.
func (t *turn) toNumber(text string) (read, asked string) {
	m := numberedTo.FindStringSubmatch(text)
	if m == nil {
		return text, ""
	}
	kind := strings.ToLower(m[2])
	if kind == "t" || kind == "tbl" {
		kind = "table"
	}
	n, _ := strconv.Atoi(m[3])
	plain := m[1] + " moved to " + kind + " " + m[3]
	if kind == "table" && n <= lastHour && !saysSits.MatchString(text) {
		return text, plain
	}
	return plain, ""
}

// askedNumber asks what is meant where guests with needs are said to move to what may be a table, or a time.
func (t *turn) askedNumber() (keep []pantry.Need, said string, ok bool) {
	_, plain := t.toNumber(t.m.Text)
	if plain == "" {
		return nil, "", false
	}
	m := numberedTo.FindStringSubmatch(t.m.Text)
	list := t.moveOf(m[1], "table "+m[3])
	if len(list) != 1 || !slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return !n.Lasting && within(n.Who, list[0].From) }) {
		return nil, "", false
	}
	return nil, fmt.Sprintf("Not moved: to table %s, or at %[1]s? If to the table, say %q. What is kept of %s stays.", m[3], plain, list[0].From), true
}

// movesSaid reads who moves where as moves of needs: one, two where two places change, none where nothing is said of it.
func (t *turn) movesSaid() []language.TableTalk {
	if len(t.needs()) == 0 || len(t.m.Text) > longest/20 {
		return nil
	}
	text, _ := t.toNumber(t.m.Text)
	for _, re := range movesTo {
		if m := re.FindStringSubmatch(text); m != nil {
			return t.moveOf(m[1], m[2])
		}
	}
	if a, b, ok := t.reader().SwapHeard(t.m.Text); ok {
		return []language.TableTalk{{About: language.AboutMoved, From: a, Place: b}, {About: language.AboutMoved, From: b, Place: a}}
	}
	return nil
}

// moveOf is a move between two places as they were said.
func (t *turn) moveOf(from, to string) []language.TableTalk {
	list, rest := t.reader().Table("move " + from + " to " + to)
	if len(list) != 1 || rest != "" || list[0].About != language.AboutMoved || list[0].From == list[0].Place {
		return nil
	}
	return list
}

// swapped takes the needs of two places each to the other.
func (t *turn) swapped(a, b string) (keep []pantry.Need) {
	for _, n := range t.needs() {
		switch {
		case n.Lasting:
		case within(n.Who, a):
			n.Who = b + strings.TrimPrefix(n.Who, a)
			keep = append(keep, n)
		case within(n.Who, b):
			n.Who = a + strings.TrimPrefix(n.Who, b)
			keep = append(keep, n)
		}
	}
	var over []pantry.Need
	for _, day := range daysOf(keep) {
		for _, place := range []string{a, b} {
			over = append(over, pantry.Need{Kind: pantry.NeedOver, Who: place, Day: day, Said: "no needs"})
		}
	}
	return append(over, keep...)
}

// personMoves reads somebody who moves to a place. What was told of them by name at another place moves along, what is
// kept of them for good is told of the new place as well; where neither is known it is told that nothing has moved.
func (t *turn) personMoves() (keep []pantry.Need, said string, ok bool) {
	m := whoMoves.FindStringSubmatch(t.m.Text)
	if m == nil || len(t.needs()) == 0 {
		return nil, "", false
	}
	list := t.moveOf("table 999", m[2])
	if len(list) != 1 {
		return nil, "", false
	}
	place, name := list[0].Place, strings.ToLower(strings.TrimSpace(m[1]))
	person := name
	if p := t.ear.people[name]; p != "" {
		person = p
	}
	var over []pantry.Need
	for _, n := range t.needs() {
		ofName := strings.Contains(strings.ToLower(n.Said), "("+name+")")
		switch {
		case n.Lasting && (n.Who == person || n.Who == name):
			n.Lasting, n.Who, n.Said = false, place, n.Said+" ("+named(m[1])+")"
			keep = append(keep, n)
		case !n.Lasting && ofName && n.Who != place:
			gone := n
			gone.Kind, gone.Count = pantry.NeedOver, 0
			over = append(over, gone)
			n.Who = place
			keep = append(keep, n)
		}
	}
	if len(keep) > 0 {
		return t.movedAlone(over, keep), "", true
	}
	from := ""
	for _, n := range t.needs() {
		if !n.Lasting && n.Who != "" && n.Who != place && n.Kind != pantry.NeedHeads {
			from = n.Who
		}
	}
	if from == "" || !t.isGuest(name) {
		return nil, "", false
	}
	return nil, fmt.Sprintf("Not moved: no need is kept under %q. Say what %s cannot have (%q), and end what is over (%q), or move all: %q.", m[1], place, place+": nut allergy", from+": none", "move "+from+" to "+place), true
}

// personGone is somebody by a name with its title who is here no more. "left his fish", "gone off his food" are of somebody
// who is.
var personGone = regexp.MustCompile(`(?i)^\s*((?:mr|mrs|ms|miss|mx|dr) [a-z'-]+)(?:'s| has| is| was)?(?: been| now| just| all)* (?:gone home|went home|sent home|discharged|passed away|died|checked out|moved out|left us|left the home)(?: now| already| today| tonight| this (?:morning|afternoon|evening)| last night| yesterday| peacefully)*\s*[.!]*\s*$`)

// personGoes ends what was kept by a place of somebody who is here no more.
func (t *turn) personGoes() (keep []pantry.Need, said string, ok bool) {
	m := personGone.FindStringSubmatch(t.m.Text)
	if m == nil {
		return nil, "", false
	}
	name := "(" + strings.ToLower(m[1]) + ")"
	for _, n := range t.needs() {
		if !n.Lasting && strings.Contains(strings.ToLower(n.Said), name) {
			n.Kind, n.Count = pantry.NeedOver, 0
			keep = append(keep, n)
		}
	}
	if len(keep) == 0 {
		return nil, "", false
	}
	return t.movedAlone(keep, nil), "", true
}

// isKnownGuest says whether needs are kept of all who are named.
func (t *turn) isKnownGuest(names []string) bool {
	for _, w := range names {
		if !slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return n.Lasting && n.Who == strings.ToLower(w) }) {
			return false
		}
	}
	return len(names) > 0
}

// nobodys are words that name no guest.
var nobodys = strings.Fields("i we you they he she it that this all everyone everything stuff rest food order orders party")

// isGuest says whether words call somebody who eats here, and no food or thing.
func (t *turn) isGuest(name string) bool {
	return !t.reader().NamesDish(name) && !slices.ContainsFunc(strings.Fields(name), func(w string) bool {
		h := t.ear.find(singular(w))
		return h.exact || slices.Contains(nobodys, w) || language.IsThing(w) || slices.Contains(t.k.Dishes, w)
	})
}

// needOnNot answers a need that is said to be of one place and not of another.
func (t *turn) needOnNot() (keep []pantry.Need, said string, ok bool) {
	if m := placeNot.FindStringSubmatch(t.m.Text); m != nil { // not said right behind the need
		if list := t.moveOf(m[2], m[1]); len(list) == 1 && slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return !n.Lasting && within(n.Who, list[0].From) }) {
			return nil, fmt.Sprintf("Not moved: say %q if all of %s moves.", "move "+list[0].From+" to "+list[0].Place, list[0].From), true
		}
		return nil, "", false
	}
	m := isOnNot.FindStringSubmatch(t.m.Text)
	if m == nil {
		if m = needMoves.FindStringSubmatch(t.m.Text); m == nil {
			return nil, "", false
		}
	}
	told, rest := t.reader().Table(m[2] + ": " + m[1])
	from := m[3]
	switch {
	case from == "": // of the one place that has it
		var others []string
		for _, n := range t.needs() {
			if len(told) == 1 && len(told[0].Needs) == 1 && !n.Lasting && n.Who != "" && n.Who != told[0].Place && n.What == t.needSaid(pantry.Need{}, told[0].Needs[0]).What {
				others = appendOnce(others, n.Who)
			}
		}
		if len(others) > 1 {
			return nil, fmt.Sprintf("Not moved: %s have that. Say from which, like %q.", both(others, "and"), m[1]+" is on "+m[2]+" not "+others[0]), true
		}
		if len(others) == 1 {
			from = others[0]
		}
	case strings.Trim(from, "0123456789") == "": // "on table 5 not 3"
		from = kindOf(m[2]) + " " + from
	}
	list := t.moveOf(from, m[2])
	if len(list) != 1 || len(told) != 1 || rest != "" || len(told[0].Needs) == 0 {
		return nil, "", false
	}
	var over []pantry.Need
	for _, n := range t.needs() {
		for _, x := range told[0].Needs {
			if w := t.needSaid(pantry.Need{}, x); !n.Lasting && within(n.Who, list[0].From) && n.Kind == w.Kind && n.What == w.What {
				gone := n
				gone.Kind, gone.Count = pantry.NeedOver, 0
				over = append(over, gone)
				n.Who = list[0].Place
				keep = append(keep, n)
			}
		}
	}
	if len(keep) == 0 {
		return nil, "", false
	}
	return t.movedAlone(over, keep), "", true
}

// movedAlone ends needs at the place they leave and keeps them at the new one. What others there have of the same stays.
func (t *turn) movedAlone(over, keep []pantry.Need) []pantry.Need {
	list := slices.Clone(over)
	for _, o := range t.needs() {
		left := slices.ContainsFunc(over, func(n pantry.Need) bool {
			return n.Who == o.Who && n.What == o.What && n.Said == o.Said && n.Day == o.Day
		})
		if !left && slices.ContainsFunc(over, func(n pantry.Need) bool { return overtakes(n, o) }) {
			list = append(list, o)
		}
	}
	return append(list, keep...)
}

// titled is a name with its title, behind the need that is kept by a place.
var titled = regexp.MustCompile(`\(((?:Mr|Mrs|Ms|Miss|Mx|Dr|Mister) [^()]+)\)`)

// turnedOut keeps under their names what somebody else's coming into a place has ended there: "mrs okafor gone into room 7,
// no needs" makes nobody well who was in room 7 before. Told says so; "" where nobody was named.
func (t *turn) turnedOut(over []pantry.Need) (keep []pantry.Need, told string) {
	first, _, _ := strings.Cut(strings.ReplaceAll(t.m.Text, ".", ","), ",")
	m := whoMoves.FindStringSubmatch(first)
	if m == nil {
		return nil, ""
	}
	var names []string
	for _, n := range t.needs() {
		who := titled.FindStringSubmatch(n.Said)
		if n.Lasting || who == nil || strings.EqualFold(who[1], m[1]) || !slices.ContainsFunc(over, func(o pantry.Need) bool { return overtakes(o, n) }) {
			continue
		}
		n.Lasting, n.Stays, n.Day, n.Count = true, false, "", 0
		n.Who, n.Said = strings.ToLower(who[1]), strings.TrimSpace(strings.Replace(n.Said, who[0], "", 1))
		keep, names = append(keep, n), appendOnce(names, who[1])
	}
	if len(keep) == 0 {
		return nil, ""
	}
	return keep, fmt.Sprintf("What was kept of %s there is kept under the name now: say where they are (%q).", strings.Join(names, " and "), strings.ToLower(names[0])+" moved to room 12")
}
