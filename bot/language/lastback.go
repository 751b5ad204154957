package language

import "slices"

// lastBack says two statements where of what was used only the last went back: "used 2kg carrots in the soup, 400g
// back", not "put 2 leeks and an onion back". False where all of it did.
func (p *parser) lastBack(s *Statement, v *phrase) bool {
	n := len(s.Items) - 1
	if n < 1 || slices.Contains(v.words, "put") {
		return false
	}
	last := s.Items[n]
	rest := slices.Clone(s.Items[:n])
	if last.Amount.How == Unsaid || last.Food != "" && !last.Ref && s.Dish == "" && !hasDish(rest) && !slices.Contains(v.words, "used") {
		return false
	}
	use, back := *s, *s
	use.Items = rest
	p.about(&use)
	p.say(use)
	if last.Food == "" {
		of := use.Items[len(use.Items)-1]
		last.Food, last.Words, last.Ref = of.Food, of.Words, false
	}
	last.Dish = ""
	back.Act, back.Dish, back.Items = "return", "", []Item{last}
	p.say(back)
	return true
}
