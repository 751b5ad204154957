package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// heldAsked asks which food is held back by what was told of it.
var (
	heldAsked = regexp.MustCompile(`(?i)^\s*(?:and |so |ok |right |chef |hi |hey )*(?:what(?:'?s| is| are| do| should| did| must)?(?: (?:we|i|you|they|it|the|food|stock|all))*(?: (?:being|to be|got|have|need to|have to|going to))* ?(?:held back|hold(?:ing)? back|keep(?:ing)? back|kept back|on hold|in doubt|in quarantine|quarantined|unsafe|not safe)|anything (?:held back|in doubt|on hold|unsafe)|what (?:should ?n'?t|shant|can ?n'?t|can not|cannot|must ?n'?t|do ?n'?t|not to) (?:we |i |you )?(?:serve|use|sell|send(?: out)?)|hold ?back list|(?:list )?(?:what's |whats )?held back)(?: (?:now|at the moment|today|and why|why|right now))*[\s?.!]*$`)
	binAsked  = regexp.MustCompile(`(?i)^\s*(?:and |so |ok |right |chef |hi |hey )*(?:what(?:'?s| is| are| do| should| must| food)?(?: (?:we|i|you|food|stock))*(?: (?:needs?|has|have|got|wants?|is|are|to|go|going|gotta|be|in|the|out|need|must|should))* (?:bin|bins|binning|binned|chucking|chucked|tossing|tossed|toss|chuck|thrown|throwing|throw|discard|discarded|discarding|ditch)(?: (?:away|out))?|anything (?:to bin|need binning|for the bin))(?: (?:now|today|and why))*[\s?.!]*$`)
)

// mindHeld lists the food that is held back by what was told of it, where that is asked, before what else is answered.
func (t *turn) mindHeld(r Reply) (Reply, error) {
	bin := binAsked.MatchString(t.m.Text)
	if t.m.Delete || t.m.Press != nil || !bin && !heldAsked.MatchString(t.m.Text) || r.Kind == Log {
		return r, nil
	}
	text, err := t.sayHeldBack()
	switch {
	case err != nil || text == "" && bin:
		return r, err
	case text == "":
		return Reply{Kind: Answer, Text: "Nothing on hand was told to be unsafe or in doubt. That is no clearance: go by dates, labels and your own rules."}, nil
	case bin && r.Kind == Answer && !strings.Contains(r.Text, "said at"):
		text += "\n" + r.Text
	}
	return Reply{Kind: Answer, Text: text}, nil
}

// sayDishesHeld tells of dishes that nobody put by, and into which food went of which something was told; list is what is told
// of lines.
func (t *turn) sayDishesHeld(list []warm) (says []string, err error) {
	dishes, err := t.dishesInDoubt()
	if err != nil {
		return nil, err
	}
	for _, dish := range dishes {
		if slices.ContainsFunc(list, func(w warm) bool {
			return slices.ContainsFunc(w.lines, func(l *pantry.Line) bool { return isPotOf(l.Name, dish) })
		}) {
			continue
		}
		w, err := t.warmDish(dish)
		switch {
		case err != nil:
			return nil, err
		case w == nil:
		case t.isOver(*w):
			says = append(says, "Bin what there is of the "+dish+". "+t.sayWarm(*w))
		default:
			says = append(says, "Hold back the "+dish+". "+t.sayWarm(*w))
		}
	}
	return says, nil
}

// sayHeldBack lists what is held back, what is to be binned first; "" nothing.
func (t *turn) sayHeldBack() (string, error) {
	var lines []*pantry.Line
	for _, l := range t.k.Lines {
		g, ok := t.ear.guide(l.Name, t.ear.foodOf(l), food.Raw, "", t.country())
		if l.OnHand() > 0 && (!t.needsNoFridge(l) || ok && g.Place == "fridge") {
			lines = append(lines, l)
		}
	}
	list, err := t.warmOf(lines)
	if err != nil {
		return "", err
	}
	var says []string
	for _, w := range list {
		var names []string
		for _, l := range w.lines {
			names = append(names, measure.Say(l.OnHand(), l.Unit)+" "+l.Name)
		}
		head := "Hold back "
		if t.isOver(w) {
			head = "Bin "
		}
		says = append(says, head+few(names)+". "+t.sayWarm(w))
	}
	dishes, err := t.sayDishesHeld(list)
	if err != nil {
		return "", err
	}
	says = append(says, dishes...)
	dated, _, err := t.heldOf(lines)
	if err != nil {
		return "", err
	}
	for _, h := range dated {
		if h.days < 0 && h.UseBy {
			says = append(says, h.sayTill(t.day(), t.day(), false))
		}
	}
	told, err := t.doubts()
	if err != nil {
		return "", err
	}
	seen := map[string]bool{}
	for _, d := range told { // food that is on no line
		q, _, _ := t.toldBy(d.Told)
		if q == nil || q.Food == "" || isPronoun(q.Food) || isDelivery(q.Food) || d.Message.N != d.Told.N || seen[key(singular(q.Food))] {
			continue
		}
		seen[key(singular(q.Food))] = true
		held, _ := t.heldLines(q.Food)
		of, err := t.warmNamed(q.Food, held)
		if err != nil {
			return "", err
		}
		for _, w := range of {
			if !strings.Contains(strings.Join(says, "\n"), w.said.Text) {
				says = append(says, "Hold back "+strings.ToLower(q.Food)+". "+t.sayWarm(w))
			}
		}
	}
	return strings.Join(says, "\n"), nil
}
