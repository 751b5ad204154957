package planner

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"scullion/planner/technique"
)

// How long what is in a dish cooks, over all the steps of its frame: a root is not raw, a pea
// is not grey, and wild mushrooms get the minutes that safety asks for, in one step that says
// so.

// slack is by how many minutes more than its most a food may cook before it is told to go in
// later. Common practice, no source.
const slack = 4

// inDoneness is a food in a role of a dish, with its minutes.
type inDoneness struct {
	inDish
	role        int
	safe        float64 // least minutes, unattended, in one step
	least, most float64
}

// doneness gives the foods of a dish that want minutes of their own.
func (k *kitchen) doneness(d *dish) (list []inDoneness) {
	timed := slices.ContainsFunc(d.parts, func(p part) bool { return p.role != beside && k.lines[p.line].timed }) || len(d.bought) > 0
	if !timed {
		return nil
	}
	for r := range d.frame.Roles {
		for _, f := range k.foodsBy(d, func(role int) bool { return role == r }) {
			if f.timed {
				done := f.done[d.number]
				list = append(list, inDoneness{inDish: f, role: r, safe: f.known.least, least: done.least, most: done.most})
			}
		}
	}
	return list
}

// cooksIn gives the steps of the frame that cook a role.
func cooksIn(f *technique.Frame, role int) (list []int) {
	for i, roles := range f.Cooks {
		if slices.Contains(roles, role) && f.Steps[i].Cooks() {
			list = append(list, i)
		}
	}
	return list
}

// heatOf gives the minutes that a step is over the heat: where a knife is in it too, half of its
// hands are at that.
func heatOf(s *Step) float64 {
	if cutting.MatchString(s.Do) {
		return s.Minutes - s.HandsOn/2
	}
	return s.Minutes
}

// longest gives that of the steps which is over the heat longest.
func longest(steps []Step, of []int) int {
	at := of[0]
	for _, i := range of {
		if steps[i].Minutes-steps[i].HandsOn > steps[at].Minutes-steps[at].HandsOn {
			at = i
		}
	}
	return at
}

// setDone sets the minutes of the steps of a frame, in their usual ways, for what cooks in
// them.
func (k *kitchen) setDone(d *dish, steps []Step) {
	list := k.doneness(d)
	for _, x := range list {
		in := cooksIn(d.frame, x.role)
		if len(in) == 0 || x.most == 0 || !k.isShort(d, list, in) {
			continue
		}
		for range in { // each step gives what it can
			if over := heatIn(steps, in) - x.most; over > slack {
				s := &steps[longest(steps, in)]
				s.Minutes -= max(0, min(over, s.Minutes-s.HandsOn-1))
			}
		}
	}
	for _, x := range list {
		in := cooksIn(d.frame, x.role)
		if len(in) == 0 {
			continue
		}
		s := &steps[longest(steps, in)]
		s.Minutes += max(0, x.least-heatIn(steps, in))
		s = &steps[safeAt(d.frame, x.role)]
		s.Minutes = max(s.Minutes, s.HandsOn+x.safe)
	}
}

func heatIn(steps []Step, in []int) (sum float64) {
	for _, i := range in {
		sum += heatOf(&steps[i])
	}
	return sum
}

// isShort says whether all that cooks in some steps, but for what seasons it, is done soon: then
// the steps are short. What must boil, and what swells there, is not.
func (k *kitchen) isShort(d *dish, list []inDoneness, in []int) bool {
	for _, i := range in {
		if d.frame.Steps[i].Kit != "ring" {
			return false
		}
		for _, r := range d.frame.Cooks[i] {
			if d.frame.Roles[r].Name == "season" {
				continue
			}
			for _, f := range k.foodsBy(d, func(role int) bool { return role == r }) {
				if f.boil > 0 || f.known.least > 0 || !slices.ContainsFunc(list, func(x inDoneness) bool { return x.role == r && x.name == f.name && x.most > 0 }) {
					return false
				}
			}
		}
	}
	return true
}

// later gives the foods of a dish that go into the last of their steps for its last minutes
// alone, by the minutes that the steps have.
func (k *kitchen) later(d *dish, steps []Step) (list []inDoneness) {
	all := k.doneness(d)
	if len(all) == 0 {
		return nil
	}
	byFrame := make([]Step, len(d.frame.Steps))
	for _, s := range steps {
		byFrame[s.at] = s
	}
	for _, x := range all {
		in := cooksIn(d.frame, x.role)
		if x.most == 0 || x.boil > 0 || len(in) == 0 || k.isShort(d, all, in) || slices.ContainsFunc(in, func(i int) bool { return d.frame.Steps[i].Kit != "ring" }) {
			continue
		}
		if heatIn(byFrame, in) > x.most+slack {
			list = append(list, x)
		}
	}
	return list
}

// tellDone tells in the words of the steps what goes in later, and what has minutes that it
// must have.
func (k *kitchen) tellDone(d *dish, s *Step, later []inDoneness) {
	var first, last, out []inDish
	minutes, least := 0.0, 0.0
	for _, x := range later {
		in := cooksIn(d.frame, x.role)
		switch {
		case isLate(s.Do, x.name):
		case s.at == in[len(in)-1] && s.Minutes > x.most+1:
			last, minutes = append(last, x.inDish), max(minutes, x.most)
		case s.at < in[len(in)-1] && slices.Contains(s.roles, x.role) && s.Kit == "ring":
			out = append(out, x.inDish)
		}
	}
	for _, x := range k.doneness(d) {
		if in := cooksIn(d.frame, x.role); x.safe > 0 && len(in) > 0 && s.at == safeAt(d.frame, x.role) {
			first, least = append(first, x.inDish), max(least, x.safe)
		}
	}
	words, _, _ := strings.Cut(s.Do, " (")
	tail := strings.TrimPrefix(s.Do, words)
	if s.lots > 1 {
		words += ", in " + strconv.Itoa(s.lots) + " lots"
	}
	if len(out) > 0 {
		words += ", but not yet the " + listed(out)
	}
	if len(last) > 0 {
		words += ", " + listed(last) + " in for the last " + strconv.Itoa(int(math.Round(minutes))) + " min"
	}
	if len(first) > 0 {
		words = technique.InLeast(words, "the "+listed(first)+" ", least)
	}
	s.Do = words + tail
}

// isLate says whether words tell already that a food goes in for the last minutes.
func isLate(do, name string) bool {
	head, _, ok := strings.Cut(do, " for the last")
	at := strings.LastIndex(head, name)
	return ok && at >= 0 && !slices.ContainsFunc([]string{"pan", "simmer", "apart", "lid", "what", "stock", "fry"}, func(w string) bool {
		return strings.Contains(head[at+len(name):], w)
	})
}

// safeAt is the step of a frame in which a role has the minutes that safety asks for; -1 none.
func safeAt(f *technique.Frame, role int) int {
	at := -1
	for _, i := range cooksIn(f, role) {
		if at < 0 || f.Steps[i].Unattended > f.Steps[at].Unattended {
			at = i
		}
	}
	return at
}

// safeWays gives the other ways of a step of the frame the minutes that safety asks for.
func (k *kitchen) safeWays(d *dish, step int, ways []Step) {
	for _, x := range k.doneness(d) {
		if x.safe == 0 || safeAt(d.frame, x.role) != step {
			continue
		}
		for i := range ways {
			ways[i].Minutes = max(ways[i].Minutes, ways[i].HandsOn+x.safe)
			ways[i].round()
		}
	}
}
