package planner

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

var (
	shownCases = flag.Bool("remainders", false, "print the random remainders with the ideas for them, to be read")
	seed       = flag.Uint64("seed", 1, "of the random remainders")
)

// staplesUsual are what a plain kitchen has in the cupboard: common practice, no source.
var staplesUsual = []string{
	"olive oil", "sunflower oil", "table salt", "black pepper", "plain flour", "caster sugar", "cider vinegar", "Dijon mustard",
	"soy sauce", "honey", "butter", "vegetable stock", "basmati rice", "penne", "tinned chickpeas", "tinned tomatoes",
	"ground cumin", "dried oregano", "paprika", "garlic", "brown onion", "lemon", "hen's egg", "natural yoghurt", "hard cheese", "sesame oil",
}

// remainder draws what a kitchen might have left in the middle of a service.
func remainder(r *rand.Rand) Ask {
	foods := food.Default().Foods()
	var crate []*food.Food
	for _, f := range foods {
		if f.Shelf == food.Crate && len(f.Kinds) > 0 && f.Group != "own" {
			crate = append(crate, f)
		}
	}
	a := Ask{Minutes: []int{10, 15, 20, 30, 45}[r.IntN(5)], Most: 5}
	if r.IntN(3) == 0 {
		a.Kit = DefaultKit()
		delete(a.Kit, technique.Scarce[r.IntN(4)])
	}
	if r.IntN(4) == 0 {
		a.Portions = 2 + r.IntN(6)
	}
	seen := map[string]bool{}
	for range 1 + r.IntN(7) {
		f := crate[r.IntN(len(crate))]
		if seen[f.Name] {
			continue
		}
		seen[f.Name] = true
		grams := math.Round(math.Exp(3+r.Float64()*3.9)/5) * 5 // 20 to 990 g, small ones as often as large
		s := Stock{Item: strings.ToLower(f.Name), Food: f, Free: measure.Amount(grams * 1000), Unit: f.Unit, Crate: true, Days: r.IntN(9)}
		if f.PieceMg > 0 && (isOf(f, "egg") || r.IntN(2) == 0) {
			s.Free = f.PieceMg * measure.Amount(1+r.IntN(3))
		}
		a.Stock = append(a.Stock, s)
	}
	for _, name := range staplesUsual {
		if f, _ := food.Default().Food(name); f != nil && !seen[f.Name] && r.IntN(10) < 7 {
			a.Stock = append(a.Stock, Stock{Item: strings.ToLower(f.Name), Food: f, Free: 300_000, Unit: f.Unit, Days: Undated})
		}
	}
	if r.IntN(2) == 0 {
		a.Focus = a.Stock[0].Item
	}
	return a
}

// TestRemainders draws 200 remainders. With -remainders it prints them with their
// ideas, for a cook to judge; what can be counted is counted always: that there
// are ideas, and that a list does not repeat itself.
//
//	go test ./planner -run TestRemainders -v -remainders -seed 2
func TestRemainders(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 7))
	ideas, repeats, without := 0, 0, 0
	for n := range 200 {
		a := remainder(r)
		list := Ideas(a)
		if *shownCases {
			t.Log(caseText(n+1, a, list))
		}
		if len(list) == 0 {
			without++
		}
		for i, x := range list {
			ideas++
			for _, y := range list[:i] {
				if nearRepeat(x, y) {
					repeats++
					break
				}
			}
		}
	}
	t.Logf("%d ideas, %d near repeats, %d remainders without an idea", ideas, repeats, without)
	if ideas < 400 || repeats*20 > ideas || without > 20 {
		t.Errorf("%d ideas, %d near repeats (one in twenty at most), %d remainders of 200 without any", ideas, repeats, without)
	}
}

// nearRepeat says whether a guest would say "this again": the same food in the same
// form, or one technique twice with the same seasoning.
func nearRepeat(x, y Idea) bool {
	a, b := theBook().page(x.Technique), theBook().page(y.Technique)
	same := x.Uses[0].Item == y.Uses[0].Item
	return a == b || same && a.family == b.family && a.role == b.role || same && a.tastesLike(b) && a.role == b.role
}

func caseText(n int, a Ask, list []Idea) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%d. %d min", n, a.Minutes)
	if a.Portions > 0 {
		fmt.Fprintf(&b, ", for %d", a.Portions)
	}
	for _, k := range technique.Scarce {
		if a.Kit != nil && a.Kit[k] == 0 {
			fmt.Fprintf(&b, ", no %s", k)
		}
	}
	if a.Focus != "" {
		fmt.Fprintf(&b, ", for the %s", a.Focus)
	}
	b.WriteString(":")
	for _, s := range a.Stock {
		if s.Crate {
			fmt.Fprintf(&b, " %s %s (%d d);", measure.Say(s.Free, s.Unit), s.Item, s.Days)
		}
	}
	for i, x := range list {
		fmt.Fprintf(&b, "\n   %d %s | for %d, %d min (%d), %s | %s |", i+1, x.Title, x.Portions, x.Minutes, x.HandsOn, strings.Join(x.Kit, "+"), x.How)
		for _, u := range append(x.Uses, x.Cupboard...) {
			fmt.Fprintf(&b, " %s %s,", measure.Say(u.Amount, u.Unit), u.Item)
		}
		fmt.Fprintf(&b, " | %s | %.2f", strings.Join(x.Cautions, "; "), x.Score)
	}
	return b.String()
}
