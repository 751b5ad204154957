package planner

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// BenchmarkPlan plans three dishes for four out of crates of twelve foods for two cooks in
// 45 minutes. p50 and p95 are over crates; used/bound is how much of what any plan could
// use the plans use, by weight.
func BenchmarkPlan(b *testing.B) {
	crates := 100
	var took []time.Duration
	used, bound, proven, planned := 0.0, 0.0, 0, 0
	for b.Loop() {
		r := rand.New(rand.NewPCG(7, 7))
		took, used, bound, proven, planned = nil, 0, 0, 0, 0
		for range crates {
			a := PlanAsk{Stock: delivery(r, 12, 12), Dishes: 3, Portions: 4, Minutes: 45, Cooks: 2}
			begun := time.Now()
			ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
			p, err := MakePlan(ctx, a, nil)
			cancel()
			took = append(took, time.Since(begun))
			if err != nil {
				continue
			}
			planned++
			used += p.Used
			bound += p.Bound
			if p.Proven {
				proven++
			}
		}
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2].Seconds()*1000, "p50-ms")
	b.ReportMetric(took[len(took)*95/100].Seconds()*1000, "p95-ms")

	b.ReportMetric(used/float64(planned), "used")
	b.ReportMetric(used/bound, "used/bound")
	b.ReportMetric(float64(proven), "proven")
	b.ReportMetric(float64(planned), "planned")
	b.ReportMetric(float64(crates), "crates")
}

// BenchmarkReplan puts the rest of such plans into a timetable anew, at any minute, with a
// step that takes five minutes more.
func BenchmarkReplan(b *testing.B) {
	var took []time.Duration
	var rests []Rest
	r := rand.New(rand.NewPCG(7, 7))
	for len(rests) < 60 {
		a := PlanAsk{Stock: delivery(r, 12, 12), Dishes: 3, Portions: 4, Minutes: 60, Cooks: 2}
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err == nil {
			rest := Rest{Dishes: p.Dishes, Now: r.IntN(p.Minutes), Cooks: 2, Kit: DefaultKit()}
			late(&rest, 5)
			rests = append(rests, rest)
		}
	}
	for b.Loop() {
		took = nil
		for _, rest := range rests {
			begun := time.Now()
			ctx, cancel := context.WithTimeout(context.Background(), time.Second)
			_, _, _, err := Replan(ctx, rest)
			cancel()
			took = append(took, time.Since(begun))
			if err != nil {
				b.Fatal(err)
			}
		}
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2].Seconds()*1000, "p50-ms")
	b.ReportMetric(took[len(took)*95/100].Seconds()*1000, "p95-ms")
}
