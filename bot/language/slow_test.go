package language

import (
	"strings"
	"testing"
	"time"
)

// BenchmarkWorst reads the longest message that package bot takes, made of one
// word or phrase over and over, for each of some that make the reader look far
// ahead. The figure to read is how many times slower the worst is than a plain
// message of the same length.
func BenchmarkWorst(b *testing.B) {
	const long = 4000
	r := reader()
	texts := []string{strings.Repeat("lovely evening by the river ", long/28)}
	for _, w := range []string{"used 2 leeks and ", "2 x ", "3 - ", "86 ", "no leeks ", "half of ", "one point ", "used in the ", "1 lb ", ", ", "ok ", "? ", "\n2 leeks", "used 2 no 3 ", "can i used ", "the leek, ", "if i used 2 leeks, ", "all but ", "leek used it, ", "tart: ", "I "} {
		texts = append(texts, strings.Repeat(w, long/len(w)))
	}
	per := make([]float64, len(texts))
	for b.Loop() {
		for i, t := range texts {
			per[i] += float64(elapsed(func() { r.Read(t) }))
		}
	}
	worst := 0.0
	for _, p := range per[1:] {
		worst = max(worst, p/per[0])
	}
	b.ReportMetric(worst, "worst/plain")
}

func elapsed(do func()) time.Duration {
	start := time.Now()
	do()
	return time.Since(start)
}
