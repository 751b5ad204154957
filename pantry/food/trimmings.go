package food

import (
	_ "embed"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

//go:embed trimmings.csv
var trimmingsCSV string

// Eaten says whether what comes off a food is eaten.
type Eaten string

// The four answers, from dinner to dustbin.
const (
	AsARule     Eaten = "as a rule"
	TreatedWell Eaten = "if treated well"
	StockOnly   Eaten = "stock only" // it gives its flavour and is strained out
	NotFood     Eaten = "not food"
)

// Trimming is a part of a food that a cook takes off, or may: leek greens,
// potato peel, a bone.
type Trimming struct {
	Name   string
	Names  []string // what else it is called
	When   string   // where it is there only then: "bunched", "in the shell"; "" always
	Share  int      // of the weight as purchased, in tenths of a per cent
	Eaten  Eaten
	Use    string // how it becomes dinner; of what is not food, why not
	Source string
}

// readTrimmings reads trimmings.csv, some rows a food, into the foods.
func readTrimmings(name string, r io.Reader, foods []Food) error {
	at := map[string]int{}
	for i := range foods {
		at[foods[i].Name] = i
	}
	return eachRow(name, r, []string{"food", "trimming", "names", "when", "share_pct", "eaten", "use", "source"}, func(rec []string) error {
		i, ok := at[rec[0]]
		if !ok {
			return fmt.Errorf("no food is called %q", rec[0])
		}
		t, err := readTrimming(rec)
		if err != nil {
			return err
		}
		f := &foods[i]
		for _, o := range f.Trim {
			if o.Name == t.Name {
				return fmt.Errorf("%s of %s is there twice", t.Name, f.Name)
			}
		}
		f.Trim = append(f.Trim, t)
		if sum := f.trimmed(AsARule, TreatedWell, StockOnly, NotFood); sum > 950 {
			return fmt.Errorf("the trimmings of %s come to %g%%", f.Name, float64(sum)/10)
		}
		return nil
	})
}

func readTrimming(rec []string) (Trimming, error) {
	r := &row{column: "share_pct", cell: rec[4]}
	share := r.figure(95)
	t := Trimming{Name: strings.Clone(rec[1]), When: strings.Clone(rec[3]), Share: int(math.Round(share * 10)), Use: strings.Clone(rec[6]), Source: strings.Clone(rec[7])}
	if r.column, r.cell = "names", rec[2]; r.cell != "" {
		t.Names = r.list()
	}
	r.column, r.cell = "eaten", rec[5]
	t.Eaten = Eaten(r.oneOf([]string{string(AsARule), string(TreatedWell), string(StockOnly), string(NotFood)}))
	switch {
	case r.err != nil:
		return t, r.err
	case t.Name == "" || t.Share == 0 || t.Use == "" || t.Source == "":
		return t, errors.New("a trimming needs a name, a share, a use (or why it is not food) and a source")
	}
	return t, nil
}

// Edible is the edible weight in 1 of the weight as purchased: all but what is
// not food. Leek greens, bones for stock and scrubbed peel are in it. Of a food
// without trimmings it is what the published refuse leaves.
func (f *Food) Edible() measure.Ratio {
	if len(f.Trim) == 0 {
		return f.Prepared()
	}
	return measure.Ratio{Num: 1000 - f.trimmed(NotFood), Den: 1000}
}

// trimmed adds up the shares of what always comes off and is so eaten, in
// tenths of a per cent.
func (f *Food) trimmed(so ...Eaten) (sum int64) {
	for _, t := range f.Trim {
		if t.When == "" && slices.Contains(so, t.Eaten) {
			sum += int64(t.Share)
		}
	}
	return sum
}

// Prepared is what the books leave of 1 of the weight as purchased: the
// published refuse is off. It is what "peeled" and "trimmed" weights mean.
func (f *Food) Prepared() measure.Ratio {
	return measure.Ratio{Num: int64(100 - f.Refuse), Den: 100}
}

// NamesTrimming says whether a word is what some food's trimming is called: "peel", "greens".
func NamesTrimming(word string) bool { return trimmingWords()[key(word)] }

var trimmingWords = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	for _, f := range Default().Foods() {
		for _, t := range f.Trim {
			for _, n := range append([]string{t.Name}, t.Names...) {
				words[key(n)] = true
			}
		}
	}
	return words
})

// Trimming finds one by what a cook calls it: "tops", "the dark greens".
func (f *Food) Trimming(called string) (Trimming, bool) {
	want := key(called)
	for _, t := range f.Trim {
		for _, n := range append([]string{t.Name}, t.Names...) {
			if key(n) == want {
				return t, true
			}
		}
	}
	return Trimming{}, false
}
