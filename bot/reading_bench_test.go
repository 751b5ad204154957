package bot

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"testing"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// BenchmarkReading reads every message of the labelled ones, those of others
// where they lie beside the project, and finds the food of each item, in a
// kitchen of 40 lines and in one of 5,000, in turn. The figures to read are the
// messages a second on one core, and how many times slower the large pantry is.
func BenchmarkReading(b *testing.B) {
	texts := textsOf(b, "../../shared/messages/sample.jsonl")
	if len(texts) == 0 {
		texts = textsOf(b, "../testdata/messages/mixed.jsonl")
	}
	small, large := kitchenOf(40), kitchenOf(5000)
	var spent [2]time.Duration
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		for i, x := range []*ear{small, large} {
			start := time.Now()
			r := &language.Reader{Foods: x, Place: "uk", Cooks: x.cooks}
			for _, s := range r.Read(texts[n%len(texts)]).Statements {
				for _, it := range s.Items {
					x.find(it.Food)
				}
			}
			spent[i] += time.Since(start)
		}
		n++
	}
	b.ReportMetric(float64(n)/spent[0].Seconds(), "messages/s")
	b.ReportMetric(float64(spent[1])/float64(spent[0]), "5000-lines/40")
}

// textsOf gives the texts of labelled messages; none where the file is not there.
func textsOf(b *testing.B, file string) (texts []string) {
	f, err := os.Open(file)
	if err != nil {
		return nil
	}
	defer f.Close()
	s := bufio.NewScanner(f)
	for s.Buffer(nil, 1<<20); s.Scan(); {
		var c struct{ Turns []struct{ Text string } }
		if err := json.Unmarshal(s.Bytes(), &c); err != nil {
			b.Fatal(err)
		}
		for _, t := range c.Turns {
			texts = append(texts, t.Text)
		}
	}
	return texts
}

// kitchenOf gives the ear of a kitchen with the catalogue's foods in so many
// lines: what goes beyond the catalogue has a name and a number.
func kitchenOf(lines int) *ear {
	k := &pantry.Kitchen{Cooks: []string{"ana", "bo", "cem", "dee"}}
	foods := Foods(nil, k).Foods()
	for i := range lines {
		f := foods[i*37%len(foods)]
		name := f.Name
		if i >= len(foods) {
			name = fmt.Sprintf("%s batch %d", f.Name, i)
		}
		k.Add(&pantry.Line{ID: int64(i + 1), Name: name, Food: f.Name})
	}
	return newEars(nil).of(k)
}
