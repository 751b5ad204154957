package timetable

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"
)

func TestBig(t *testing.T) {
	n, inf, open := 0, 0, 0
	var times []time.Duration
	for seed := 1000; seed < 1100; seed++ {
		d := fromSeed(seed)
		p := kitchenProblem(d)
		for len(p.Tasks) < 38 {
			addDish(d, &p)
		}
		ctx, c := context.WithTimeout(context.Background(), 5*time.Second)
		b := cpu()
		r, err := Solve(ctx, p)
		took := cpu() - b
		times = append(times, took)
		c()
		n += len(p.Tasks)
		if errors.Is(err, ErrInfeasible) {
			inf++
			continue
		}
		if err != nil {
			fmt.Println(seed, err)
			continue
		}
		if !r.WaitingProven {
			open++
		}
		if took > 300*time.Millisecond {
			fmt.Println(seed, "n", len(p.Tasks), "hands", p.Capacity[0], took, r.Makespan, r.Bound, r.Waiting, r.WaitingBound)
		}
	}
	fmt.Println("avg n", n/100, "inf", inf, "open", open)
}
