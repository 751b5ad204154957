package food

import (
	"slices"
	"strings"
	"testing"
)

func TestTrimmings(t *testing.T) {
	leek, _ := Default().Food("leek")
	for called, want := range map[string]string{"tops": "dark greens", "the Dark greens": "", "green top": "dark greens", "root plates": "root plate", "soil": ""} {
		if got, ok := leek.Trimming(called); got.Name != want || ok != (want != "") {
			t.Errorf("%s of a leek: %q, want %q", called, got.Name, want)
		}
	}
	total, conditional, foods := 0, 0, 0
	for _, f := range Default().Foods() {
		if len(f.Trim) > 0 {
			foods++
		}
		always := f.trimmed(AsARule, TreatedWell, StockOnly, NotFood)
		if f.Refuse > 0 && !strings.Contains(f.Source, "so no refuse") && len(f.Trim) == 0 {
			t.Errorf("%s: refuse of %d%%, and no word on what becomes of it", f.Name, f.Refuse)
		}
		if always > 900 {
			t.Errorf("%s: trimmings come to %d in 1000", f.Name, always)
		}
		e := f.Edible()
		if e.Num <= 0 || e.Num > e.Den || f.Refuse > 0 && e.Float() < f.Prepared().Float()-0.03 {
			t.Errorf("%s: %v is edible, %v by the books", f.Name, e, f.Prepared())
		}
		for _, tr := range f.Trim {
			total++
			if tr.When != "" {
				conditional++
			}
			if len(tr.Use) > 60 || tr.Use != strings.TrimSpace(tr.Use) {
				t.Errorf("%s, %s: the use is %q", f.Name, tr.Name, tr.Use)
			}
			for _, n := range append([]string{tr.Name}, tr.Names...) {
				if got, _ := f.Trimming(n); got.Name != tr.Name {
					t.Errorf("%s: %q is called both %s and %s", f.Name, n, got.Name, tr.Name)
				}
			}
		}
	}
	t.Logf("%d trimmings of %d foods, %d of them only at times", total, foods, conditional)
	if total < 800 || foods < 390 {
		t.Errorf("only %d trimmings of %d foods", total, foods)
	}
}

// What would harm a guest is never dinner. BfR and FSA advice as in the
// reference of hazards; apricot, cherry and bitter kernels: EFSA (cyanide from
// amygdalin, from memory); rhubarb leaf and parsnip sap: common practice.
func TestHarmfulTrimIsNotFood(t *testing.T) {
	for _, c := range [][2]string{
		{"rhubarb", "leaf"}, {"potato", "eyes and green parts"}, {"apricot", "stone"}, {"peach", "stone"}, {"plum", "stone"},
		{"sweet cherry", "stone"}, {"cassava", "peel"}, {"avocado", "stone"}, {"hen's egg", "shell"},
	} {
		f, ok := Default().Food(c[0])
		if !ok {
			t.Fatalf("no %s", c[0])
		}
		i := slices.IndexFunc(f.Trim, func(x Trimming) bool { return strings.Contains(x.Name, c[1]) || slices.Contains(x.Names, c[1]) })
		if i < 0 || f.Trim[i].Eaten != NotFood {
			t.Errorf("%s of %s must be there, and not food: %+v", c[1], c[0], f.Trim)
		}
	}
}

func TestTrimmingsRefused(t *testing.T) {
	const head = "food,trimming,names,when,share_pct,eaten,use,source\n"
	foods := func() []Food { return []Food{{Name: "leek"}} }
	if err := readTrimmings("t.csv", strings.NewReader(head+"leek,tops,greens,,40,if treated well,sweat,a book\n"), foods()); err != nil {
		t.Fatal(err)
	}
	for row, want := range map[string]string{
		"leak,tops,,,40,if treated well,sweat,a book":                         `t.csv:2: no food is called "leak"`,
		"leek,tops,,,40,perhaps,sweat,a book":                                 `t.csv:2: eaten: "perhaps" is not one of as a rule`,
		"leek,tops,,,much,not food,sweat,a book":                              `t.csv:2: share_pct: "much" is not a number`,
		"leek,tops,,,0,not food,sweat,a book":                                 "t.csv:2: a trimming needs a name, a share",
		"leek,,,,10,not food,sweat,a book":                                    "t.csv:2: a trimming needs a name",
		"leek,tops,,,10,not food,,a book":                                     "t.csv:2: a trimming needs",
		"leek,tops,,,10,not food,sweat,":                                      "t.csv:2: a trimming needs",
		"leek,tops,a;a,,10,not food,sweat,a book":                             "t.csv:2: names: item 2",
		"leek,tops,,,60,not food,x,a book\nleek,roots,,,60,not food,x,a book": "t.csv:3: the trimmings of leek come to 120%",
		"leek,tops,,,6,not food,x,a book\nleek,tops,,,6,not food,x,a book":    "t.csv:3: tops of leek is there twice",
	} {
		if err := readTrimmings("t.csv", strings.NewReader(head+row+"\n"), foods()); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: error %v, want %s", row, err, want)
		}
	}
}
