package planner

import (
	"regexp"
	"slices"
	"strings"

	"scullion/planner/technique"
)

// Step is one thing to do on the way to a dish.
type Step struct {
	Do      string
	Minutes float64 // all of it, as long as it holds its kit
	HandsOn float64 // the first of them, for which it holds a cook
	Kit     string  // that there is only so much of, "ring"; "" none
	Temp    int     // C; 0 where none is set
	After   []int   // steps that must have ended
	Wait    int     // minutes that what it makes may wait for the next step; negative any
	Ends    bool    // the dish, or what is beside it, is ready after it

	whole, hands int    // minutes as a timetable has them
	ways         []Step // other ways to do it, with kit that there is
	forced       bool   // its usual kit is not there
	shelves      int    // of an oven, that its minutes are reckoned for
	roles        []int  // of the frame, whose food it handles
	at           int    // of the frame's steps
	lots         int    // in which a grill takes it, where that is more than one
}

// stepsOf gives the steps of a technique for so many grams in each.
func stepsOf(list []technique.Step, gramsOf func(step int) float64) []Step {
	steps := make([]Step, len(list))
	for i, s := range list {
		steps[i] = stepOf(s, gramsOf(i))
	}
	return steps
}

func stepOf(s technique.Step, grams float64) Step {
	x := Step{Do: s.What, HandsOn: s.Hands(grams), Minutes: s.Minutes(grams), Temp: s.Temp, After: s.After}
	if slices.Contains(technique.Scarce, s.Kit) {
		x.Kit = s.Kit
	}
	if s.Kit == "grill" && s.Unattended > 0 {
		x.lots = s.Lots(grams)
	}
	return x
}

// steps gives the steps of a dish. What falls away is left out, and what waited for it
// waits for what it waited for. A step whose kit is not there is done another way, if
// there is one.
func (k *kitchen) steps(d *dish) (steps []Step) {
	grams := d.gramsByRole()
	uncut, page := k.uncutBy(d), k.pageOf(d)
	all := make([]Step, len(d.frame.Steps))
	for i := range all {
		sum := d.frame.StepGrams(i, grams)
		if page.cutting[i] {
			sum -= d.frame.StepGrams(i, uncut)
		} else if cutFirst.MatchString(d.frame.Steps[i].What) { // half of the hands are the knife's
			sum -= d.frame.StepGrams(i, uncut) / 2
		}
		all[i] = stepOf(k.inItsTime(d, i), sum)
	}
	k.setDone(d, all)
	stands := make([][]int, len(all)) // for each step of the frame what stands for it among those that are left
	for i, s := range all {
		var after []int
		for _, a := range s.After {
			for _, b := range stands[a] {
				if !slices.Contains(after, b) {
					after = append(after, b)
				}
			}
		}
		if d.frame.Skips(i, grams) || page.cutting[i] && d.frame.StepGrams(i, grams) <= d.frame.StepGrams(i, uncut) || s.heats() && !k.hasKit(s.Kit) || k.cheeseOnly(d, i) || k.isIdle(d, i) {
			stands[i] = after
			continue
		}
		s.After, s.roles, s.at = after, d.frame.Handles[i], i
		stands[i] = []int{len(steps)}
		s.ways = k.others(d.frame.Steps[i], page.ways[i], k.foodsIn(d, i), d.frame.StepGrams(i, grams))
		k.safeWays(d, i, s.ways)
		for w := range s.ways {
			s.ways[w].roles, s.ways[w].at = s.roles, i
		}
		steps = append(steps, k.inReach(s))
	}
	for i := range steps {
		steps[i].Wait = waitOf(steps, i, d.frame.Holds, d.frame.Serve == "hot")
		if steps[i].Wait < 0 && steps[i].Kit == "" && k.isBrowning(d, &steps[i]) {
			steps[i].Wait = onceCut
		}
		waitsOfWays(steps, i, d.frame.Holds, d.frame.Serve == "hot")
		followed := slices.ContainsFunc(steps, func(o Step) bool { return slices.Contains(o.After, i) })
		steps[i].Ends = i == len(steps)-1 || !followed && steps[i].Wait >= 0
	}
	n := len(steps)
	if steps = append(steps, k.sideSteps(d, n)...); d.side != nil {
		k.sideWays(d, steps, n)
	}
	inMinutes(steps)
	return steps
}

// isIdle says whether a step that cuts and browns has nothing to cut, nor to brown.
func (k *kitchen) isIdle(d *dish, step int) bool {
	what := d.frame.Steps[step].What
	return strings.HasPrefix(what, "cut up what is large, brown any meat") && k.areUncut(d, step, d.frame.Handles[step]) && k.reworded(d, what, step) == "cut up what is large"
}

// browning are foods that go brown once they are cut, and onceCut the minutes that they may
// lie so. Common practice, no source.
var browning = []string{"avocado", "apple", "cooking apple", "pear", "banana"}

const onceCut = 15

var cutting = regexp.MustCompile(`\b(cut|slice|shred|dice)\b`)

// isBrowning says whether a step cuts what goes brown.
func (k *kitchen) isBrowning(d *dish, s *Step) bool {
	return cutting.MatchString(s.Do) && slices.ContainsFunc(d.parts, func(p part) bool {
		return p.role != beside && slices.Contains(s.roles, p.role) && slices.Contains(browning, k.lines[p.line].Food.Name)
	})
}

// named puts the foods of a dish into the words of its steps.
func (k *kitchen) named(d *dish, steps []Step) []Step {
	ways := make([][]Step, len(steps))
	for i := range steps {
		ways[i] = steps[i].ways
	}
	k.nameAll(d, steps, ways)
	return steps
}

// name puts the foods of a dish into the words of one of its steps, or behind them.
func (k *kitchen) name(d *dish, s *Step, later []inDoneness) {
	words := k.reworded(d, s.Do, s.at)
	if cutFirst.MatchString(words) && k.areUncut(d, s.at, s.roles) {
		words = cutFirst.ReplaceAllString(words, "")
	}
	if s.Do = k.stepNamed(d, s.at, words); s.Do == words && cuts.MatchString(words) {
		s.Do = k.withCuts(d, words, s.at, s.roles)
	}
	k.tellDone(d, s, later)
}

// stepNamed puts the foods of a dish into the words of a step: "fry the star" is "fry
// the salmon". A role that nothing fills keeps its name.
func (k *kitchen) stepNamed(d *dish, step int, words string) string {
	return roleWord.ReplaceAllStringFunc(words, func(w string) string {
		role := d.frame.Role(strings.TrimPrefix(w, "the "))
		if role < 0 {
			return w
		}
		in := *d
		in.parts = slices.DeleteFunc(slices.Clone(d.parts), func(p part) bool { return keepsOut(d, step, k.lines[p.line].Food) })
		names := k.namesIn(&in, role, false)
		switch len(names) {
		case 0:
			return w
		case 1, 2:
			return w[:len(w)-len(d.frame.Roles[role].Name)] + strings.Join(names, " and ")
		}
		return w[:len(w)-len(d.frame.Roles[role].Name)] + names[0] + ", " + names[1] + " and the rest"
	})
}

// cuts finds the steps in which a cook wants to be told which foods are meant.
var cuts = regexp.MustCompile(`^(cut|dice|slice|shred|grate|wash|halve|small even dice|cook the filling|roast|tear|layer)\b`)

// mostHandled is how many foods are told after the words of a step.
const mostHandled = 4

// roleWord finds the roles in the words of a step that mean their food.
var roleWord = regexp.MustCompile(`\b(?:the )?(?:star|base|body)\b|\bthe green\b`)
