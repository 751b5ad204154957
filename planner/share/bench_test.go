package share_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/planner/share"
)

// BenchmarkProve measures a full proof of each of the smaller crates.
func BenchmarkProve(b *testing.B) {
	best := readKnown(b)
	for _, name := range slices.Sorted(maps.Keys(best)) {
		if strings.Contains(name, "I40") {
			continue
		}
		p := readCrate(b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				r, err := share.Choose(b.Context(), p)
				if err != nil || !r.Proven || r.Value != best[name].value() {
					b.Fatal(r, err)
				}
			}
		})
	}
}

// BenchmarkSecond measures how good an answer a second gives on the largest crates: how far its value and its bound
// are from the best value known, in percent.
func BenchmarkSecond(b *testing.B) {
	best := readKnown(b)
	for _, name := range slices.Sorted(maps.Keys(best)) {
		if !strings.Contains(name, "I40") {
			continue
		}
		p := readCrate(b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				ctx, cancel := context.WithTimeout(b.Context(), time.Second)
				r, err := share.Choose(ctx, p)
				cancel()
				if err != nil {
					b.Fatal(err)
				}
				verify(b, p, r)
				k := float64(best[name].value())
				b.ReportMetric(100*(1-float64(r.Value)/k), "%below")
				b.ReportMetric(100*(float64(r.Bound)/k-1), "%bound")
			}
		})
	}
}

// BenchmarkMenu measures a proof of what a kitchen asks for.
func BenchmarkMenu(b *testing.B) {
	for _, size := range []struct{ lines, dishes, choose int }{{12, 2000, 3}, {16, 3000, 3}, {20, 4000, 3}, {16, 3000, 4}, {16, 3000, 6}} {
		for seed := range uint64(3) {
			p := menu(seed, size.lines, size.dishes, size.choose)
			calls := 0
			timetable(&p, seed, &calls)
			b.Run(fmt.Sprintf("%d_of_%d_from_%d/%d", size.choose, size.dishes, size.lines, seed), func(b *testing.B) {
				for b.Loop() {
					calls = 0
					ctx, cancel := context.WithTimeout(b.Context(), 10*time.Second)
					r, err := share.Choose(ctx, p)
					cancel()
					if err != nil {
						b.Fatal(err)
					}
					verify(b, p, r)
					b.ReportMetric(float64(calls), "fits")
					b.ReportMetric(100*(float64(r.Bound)/float64(r.Value)-1), "%gap")
				}
			})
		}
	}
}
