package timetable

import (
	"context"
	"errors"
	"strings"
	"testing"
)

func TestInvalid(t *testing.T) {
	one := []int{1}
	for want, p := range map[string]Problem{
		"capacity -1":             {Capacity: []int{-1}},
		"2 settings":              {Capacity: one, Setting: make([]bool, 2)},
		"due at -1":               {Due: -1},
		"-1 minutes":              {Tasks: []Task{{Minutes: -1}}},
		"earliest start -1":       {Tasks: []Task{{Earliest: -1}}},
		"latest end -1":           {Tasks: []Task{{Latest: -1}}},
		"weight -1":               {Tasks: []Task{{Weight: -1}}},
		"cost -1":                 {Tasks: []Task{{Else: []Mode{{Cost: -1}}}}},
		"no task 1":               {Tasks: []Task{{After: []int{1}}}},
		"no task -1":              {Tasks: []Task{{After: []int{-1}}}},
		"comes after itself":      {Tasks: []Task{{After: []int{0}}}},
		"task 1 comes after":      {Tasks: []Task{{}, {After: []int{2}}, {After: []int{1}}}},
		"0 tasks before it but 1": {Tasks: []Task{{Within: one}}},
		"1 resources but 2 needs": {Capacity: one, Tasks: []Task{{Needs: []int{1, 1}}}},
		"needs -1 of resource 0":  {Capacity: one, Tasks: []Task{{Needs: []int{-1}}}},
		"holds resource 0 for -1": {Capacity: one, Tasks: []Task{{For: []int{-1}}}},
		"more than there is":      {Capacity: one, Tasks: []Task{{Needs: []int{2}, Else: []Mode{{Needs: []int{3}}}}}},
		"more minutes than":       {Tasks: []Task{{Minutes: 1 << 28}, {Minutes: 1 << 28}, {Minutes: 1}}},
		"weights add up":          {Tasks: []Task{{Weight: 1 << 30}, {Weight: 1}}},
		"weights times minutes":   {Tasks: []Task{{Minutes: 1 << 20, Weight: 1 << 11}}},
	} {
		for name, solve := range map[string]func(context.Context, Problem) (Result, error){"Solve": Solve, "First": First} {
			_, err := solve(context.Background(), p)
			if !errors.Is(err, ErrInvalid) || !strings.Contains(err.Error(), want) {
				t.Errorf("%s should say %q, says: %v", name, want, err)
			}
		}
	}
}

func TestInfeasible(t *testing.T) {
	one := []int{1}
	for name, p := range map[string]Problem{
		"due":     {Due: 4, Tasks: []Task{{Minutes: 3}, {Minutes: 2, After: []int{0}}}},
		"latest":  {Capacity: one, Tasks: []Task{{Minutes: 3, Needs: one, Latest: 4}, {Minutes: 3, Needs: one, Latest: 5}}},
		"within":  {Tasks: []Task{{Minutes: 1}, {Earliest: 9}, {After: []int{0, 1}, Within: []int{2, 2}, Latest: 8}}},
		"setting": {Capacity: []int{2}, Setting: []bool{true}, Due: 3, Tasks: []Task{{Minutes: 2, Needs: one, Setting: 180}, {Minutes: 2, Needs: one, Setting: 220}}},
	} {
		if r, err := Solve(context.Background(), p); !errors.Is(err, ErrInfeasible) {
			t.Errorf("%s: %+v, %v", name, r, err)
		}
	}
}

func TestStopped(t *testing.T) {
	p := kitchenProblem(fromSeed(1), 0)
	r, err := Solve(&countdown{Context: context.Background()}, p)
	if !errors.Is(err, ErrNoneFound) || !errors.Is(err, context.DeadlineExceeded) || errors.Is(err, ErrInfeasible) {
		t.Errorf("error is %v", err)
	}
	if best, err := Solve(context.Background(), p); err != nil || r.Bound <= 0 || r.Bound > best.Makespan {
		t.Errorf("bound %d when stopped, makespan %d (%v)", r.Bound, best.Makespan, err)
	}
}

func TestNothingToDo(t *testing.T) {
	if r, err := Solve(context.Background(), Problem{}); err != nil || !r.WaitingProven || r.Makespan != 0 {
		t.Errorf("%+v, %v", r, err)
	}
}
