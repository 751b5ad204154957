package food

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/sahilm/fuzzy"
)

// wide is an index of 5,000 names or more: the catalogue's, and others made of them.
func wide() *Index {
	x := NewIndex()
	foods := Default().Foods()
	for i := range foods {
		x.Add(i, foods[i].Called()...)
	}
	for i := 0; x.Len() < 5000; i++ {
		x.Add(len(foods)+i, foods[i%len(foods)].Name+" number "+strconv.Itoa(i))
	}
	return x
}

func BenchmarkExact(b *testing.B) {
	x, words := wide(), []string{"smoked", "mackerel"}
	b.ReportAllocs()
	for b.Loop() {
		x.Exact(words)
	}
}

func BenchmarkFind(b *testing.B) {
	x := wide()
	for _, phrase := range []string{"leeks", "goat's cheese", "onion", "lovely fresh leeks", "caulifower", "goats chese", "cav nero", "beat root", "leak", "xylophone"} {
		b.Run(phrase, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				x.Find(phrase)
			}
		})
	}
}

// BenchmarkLookUp looks up every tenth name of the catalogue as it stands, in the
// plural, and with one slip, and puts the same to the fuzzy library alone. It
// reports the median of each in microseconds, and how many times longer the
// plain pass takes. Aims: 50 µs for a name or its plural, 1000 µs for a slip.
func BenchmarkLookUp(b *testing.B) {
	x := wide()
	var names, plural, slips []string
	r := rand.New(rand.NewPCG(1, 2))
	for i, f := range Default().Foods() {
		if i%10 == 0 {
			for _, n := range f.Called() {
				words := split(n)
				last := forms(singular(words[len(words)-1]))
				words[len(words)-1] = last[len(last)-1]
				names, plural = append(names, n), append(plural, strings.Join(words, " "))
				if s := oneEdit(n, i/10%oneEdits, r); s != "" {
					slips = append(slips, s)
				}
			}
		}
	}
	median := map[string]float64{}
	for b.Loop() {
		for what, list := range map[string][]string{"name": names, "plural": plural, "slip": slips, "plain": names} {
			var took []float64
			for _, s := range list {
				start := time.Now()
				if what == "plain" {
					fuzzy.FindFrom(s, x)
				} else {
					x.Find(s)
				}
				took = append(took, float64(time.Since(start).Nanoseconds())/1000)
			}
			slices.Sort(took)
			median[what] = took[len(took)/2]
		}
	}
	for what, us := range median {
		b.ReportMetric(us, what+"-µs")
	}
	b.ReportMetric(median["plain"]/median["name"], "plain/name")
	b.ReportMetric(median["plain"]/median["slip"], "plain/slip")
}

// BenchmarkPlainFuzzy is the same question put to the fuzzy library alone.
func BenchmarkPlainFuzzy(b *testing.B) {
	x := wide()
	for _, phrase := range []string{"leeks", "caulifower", "cav nero"} {
		b.Run(phrase, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				fuzzy.FindFrom(phrase, x)
			}
		})
	}
}

func BenchmarkSuggest(b *testing.B) {
	x := wide()
	for b.Loop() {
		x.Suggest("cel", 8)
	}
}

func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		if _, err := gathered(Default().Foods()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFold(b *testing.B) {
	for b.Loop() {
		Fold("Potatoes")
	}
}
