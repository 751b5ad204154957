package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"scullion/planner/technique"
)

// spokenOf are words of a step that name food, and what a dish must hold for them.
var spokenOf = []struct {
	words string
	of    []string
}{
	{`butter`, []string{"butter"}},
	{`cheese`, []string{"hard cheese", "melting cheese", "fresh cheese", "blue-veined cheese", "salty cheese", "rind cheese", "frying cheese"}},
	{`cream`, []string{"cream", "plant cream", "cultured dairy", "fresh cheese"}},
	{`milk`, []string{"milk", "plant cream"}},
	{`meat`, append([]string{"cured meat", "cooked meat"}, animals...)},
	{`nuts?`, []string{"nut", "seed"}},
	{`crumbs?`, []string{"bread", "dried breadcrumb", "flatbread"}},
	{`spice`, []string{"spice", "savoury paste"}},
	{`onions?`, []string{"allium"}},
	{`pickle`, []string{"salty pickle"}},
}

// checkSpoken looks for food that a step speaks of and the dish has not, and for food of the
// dish that no step speaks of; and for a knife taken to beans from a tin.
func checkSpoken(a *PlanAsk, d *Planned) (wrong []string) {
	holds := func(kinds []string) bool {
		return slices.ContainsFunc(slices.Concat(d.Uses, d.Cupboard), func(u Use) bool {
			f := foodIn(a, u.Item)
			return f != nil && (isOf(f, kinds...) || slices.Contains(kinds, f.Name) || f.Name == "oat drink" && slices.Contains(kinds, "milk"))
		})
	}
	for _, s := range d.Steps {
		do := s.Do
		for _, w := range spokenOf {
			if !regexp.MustCompile(`(^|[ ,])` + w.words + `\b( |,|$)`).MatchString(strings.ReplaceAll(do, "onion squash", "squash")) {
				continue
			}
			if !holds(w.of) {
				wrong = append(wrong, d.Title+": "+s.Do+": there is no "+w.words+" in it")
			}
		}
		if _, cut, ok := strings.Cut(do, " ("); ok && knife.MatchString(s.Do) {
			cut, _, _ = strings.Cut(cut, ")")
			for _, item := range strings.Split(cut, ", ") {
				if f := foodIn(a, strings.TrimSuffix(item, "s")); f != nil && technique.Uncut(technique.Of(f, false)) {
					wrong = append(wrong, d.Title+": "+s.Do+": nobody cuts "+item)
				}
			}
		}
	}
	return wrong
}

// A step speaks of what is in its dish, and of nothing else: a guest who has no milk is
// given none by a cook who reads "cheese or crumbs".
func TestStepsSpeakOfTheDish(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 5))
	for i := range 70 {
		a := anyPlan(r)
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if errors.Is(err, ErrNoDishes) || errors.Is(err, ErrNoTime) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		for n := range p.Dishes {
			for _, wrong := range checkSpoken(&a, &p.Dishes[n]) {
				t.Errorf("plan %d: %s", i, wrong)
			}
		}
	}
}

// wordsOf matches the words of a step with foods in place of its roles, as any rows of the
// table of wordings may have them.
func wordsOf(words string) *regexp.Regexp {
	if re, ok := wordsSeen.Load(words); ok {
		return re.(*regexp.Regexp)
	}
	re := wordsAnew(words)
	wordsSeen.Store(words, re)
	return re
}

var wordsSeen sync.Map // words -> *regexp.Regexp

func wordsAnew(words string) *regexp.Regexp {
	all := []string{words}
	for i := range technique.Wordings() {
		w := &technique.Wordings()[i]
		for _, x := range all {
			if strings.Contains(x, w.Words) {
				all = append(all, strings.Replace(x, w.Words, w.Told, 1))
			}
		}
	}
	for _, own := range []string{"whisk the dressing", "stir the dressing", "dress the leaf, salt the rest"} { // of a palette that is one
		for _, x := range all {
			if strings.Contains(x, own) {
				all = append(all, strings.Replace(x, own, "whisk {foods} to a dressing", 1), strings.Replace(x, own, "whisk {foods} to a dressing, dress the leaf with it at the last moment", 1))
			}
		}
	}
	for i, x := range all {
		x = strings.TrimPrefix(strings.TrimSuffix(cutFirst.ReplaceAllString(x, "({cut}|)"), ", "), ", ")
		x = roleWord.ReplaceAllString(regexp.QuoteMeta(x), ".+")
		x = strings.Replace(x, regexp.QuoteMeta("({cut}|)"), "("+cutFirst.String()[1:]+"|)", 1)
		all[i] = strings.NewReplacer(`\{foods\}`, ".+", `\{rest\}`, ".+", " from the kettle", "( from the kettle)?").Replace(x)
	}
	return regexp.MustCompile("^(" + strings.Join(all, "|") + ")( \\(.+\\))?(; .+)?$")
}
