package food

import (
	"strconv"
	"testing"

	"github.com/sahilm/fuzzy"
)

// wide is an index of some 5,000 names: the catalogue's, and more made of them.
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
