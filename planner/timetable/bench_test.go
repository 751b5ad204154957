package timetable

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"
)

// Times are processor time, with room by the clock for a machine that does other work as well. GOMAXPROCS=1 makes
// them those of one thread.

// timed solves within a limit and says whether all was proven, and after how long.
func timed(b *testing.B, p Problem, from Result, limit time.Duration) (r Result, took time.Duration) {
	b.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 2*limit)
	defer cancel()
	before := cpu()
	r, err := SolveFrom(ctx, p, from, nil)
	took = cpu() - before
	if err != nil && !errors.Is(err, ErrInfeasible) && !errors.Is(err, ErrNoneFound) {
		b.Fatal(err)
	}
	if err != nil {
		return Result{Proven: errors.Is(err, ErrInfeasible), WaitingProven: errors.Is(err, ErrInfeasible)}, took
	}
	if err := verify(p, r); err != nil {
		b.Fatal(err)
	}
	return r, took
}

// BenchmarkJ30 counts the instances of PSPLIB j30 proven within 0.1, 1 and 10 seconds.
func BenchmarkJ30(b *testing.B) { benchmarkSet(b, "j30", 1, 10*time.Second) }

// BenchmarkJ60 counts the instances proven of every fourth of PSPLIB j60, of which 27 of 120 are not solved exactly in
// its table.
func BenchmarkJ60(b *testing.B) { benchmarkSet(b, "j60", 4, time.Second) }

func benchmarkSet(b *testing.B, set string, every int, limit time.Duration) {
	list := readSet(b, set, every)
	for b.Loop() {
		var proven [3]int
		best := 0
		for _, in := range list {
			r, took := timed(b, in.problem, Result{}, limit)
			for k, within := range []time.Duration{time.Second / 10, time.Second, 10 * time.Second} {
				if r.Proven && took <= within {
					proven[k]++
				}
			}
			if r.Makespan <= in.high {
				best++
			}
		}
		b.ReportMetric(float64(proven[0]), "proven_in_0.1s")
		b.ReportMetric(float64(proven[1]), "proven_in_1s")
		if limit > time.Second {
			b.ReportMetric(float64(proven[2]), "proven_in_10s")
		}
		b.ReportMetric(float64(best), "best_known")
		b.ReportMetric(float64(len(list)), "instances")
	}
}

// BenchmarkFirst says how far the first timetable is above the optimum, where that is known.
func BenchmarkFirst(b *testing.B) {
	for _, set := range []string{"j30", "j60"} {
		b.Run(set, func(b *testing.B) {
			list := exact(readSet(b, set, 1))
			for b.Loop() {
				before := cpu()
				gap := meanGap(b, list)
				b.ReportMetric(gap, "gap_%")
				b.ReportMetric(float64((cpu()-before).Microseconds())/float64(len(list)), "us/timetable")
			}
		})
	}
}

// BenchmarkKitchen solves a hundred evenings, and each again in service: half way through, with one step running late.
func BenchmarkKitchen(b *testing.B) {
	for _, steps := range []int{0, 38} {
		b.Run(fmt.Sprintf("least=%d", steps), func(b *testing.B) {
			for b.Loop() {
				benchmarkEvenings(b, steps)
			}
		})
	}
}

func benchmarkEvenings(b *testing.B, least int) {
	const limit = 3 * time.Second
	var fresh, again, first []time.Duration
	open, steps := 0, 0
	for seed := range 100 {
		p := kitchenProblem(fromSeed(seed), least)
		steps += len(p.Tasks)
		before := cpu()
		if _, err := First(context.Background(), p); err == nil {
			first = append(first, cpu()-before)
		}
		r, took := timed(b, p, Result{}, limit)
		fresh = append(fresh, took)
		if !r.WaitingProven {
			open++
		}
		if r.Start == nil {
			continue
		}
		r, took = timed(b, inService(p, r), r, limit)
		again = append(again, took)
		if !r.WaitingProven {
			open++
		}
	}
	report(b, "first", first)
	report(b, "proof", fresh)
	report(b, "again", again)
	b.ReportMetric(float64(open), "open")
	b.ReportMetric(float64(steps)/100, "steps")
}

func report(b *testing.B, what string, times []time.Duration) {
	slices.Sort(times)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(times[len(times)/2]), what+"_median_ms")
	b.ReportMetric(ms(times[len(times)*95/100]), what+"_p95_ms")
}
