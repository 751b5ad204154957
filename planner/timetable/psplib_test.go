package timetable

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// psplib is where the PSPLIB sets j30 and j60 are kept (R. Kolisch and A. Sprecher, European Journal of Operational
// Research 96 (1997) 205-216). They are published for research and no part of the repository.
const psplib = "../../../shared/psplib"

// instance is a project with what is known of its least makespan: both are the same where the optimum is known.
type instance struct {
	name      string
	problem   Problem
	low, high int
}

// readSet reads the instances of a set in the order of its table of optima, every so many of them.
func readSet(tb testing.TB, set string, every int) []instance {
	tb.Helper()
	folder := filepath.Join(psplib, set+".sm")
	table, err := os.Open(filepath.Join(folder, "optimum", "optimum.csv"))
	if errors.Is(err, fs.ErrNotExist) {
		tb.Skip("PSPLIB is not beside the repository")
	}
	if err != nil {
		tb.Fatal(err)
	}
	defer table.Close()
	rows, err := csv.NewReader(table).ReadAll()
	if err != nil {
		tb.Fatal(err)
	}
	var list []instance
	for k, row := range rows[1:] {
		if k%every != 0 {
			continue
		}
		in := instance{name: row[0]}
		low, high, isRange := strings.Cut(row[1], "..")
		if low != "" {
			if in.low, err = strconv.Atoi(low); err != nil {
				tb.Fatalf("%s: %v", row[0], err)
			}
		}
		if in.high = in.low; isRange {
			if in.high, err = strconv.Atoi(high); err != nil {
				tb.Fatalf("%s: %v", row[0], err)
			}
		}
		if in.problem, err = readProject(filepath.Join(folder, row[0])); err != nil {
			tb.Fatal(err)
		}
		list = append(list, in)
	}
	return list
}

// readProject reads a project in PSPLIB's single-mode format.
func readProject(path string) (Problem, error) {
	f, err := os.Open(path)
	if err != nil {
		return Problem{}, err
	}
	defer f.Close()
	var p Problem
	section := ""
	for in := bufio.NewScanner(f); in.Scan(); {
		line := in.Text()
		if name, ok := heading(line); ok {
			section = name
			continue
		}
		n, err := numbers(line)
		if err != nil || len(n) == 0 {
			continue
		}
		switch section {
		case "PRECEDENCE RELATIONS":
			for len(p.Tasks) < n[0] {
				p.Tasks = append(p.Tasks, Task{})
			}
			for _, j := range n[3:] {
				for len(p.Tasks) < j {
					p.Tasks = append(p.Tasks, Task{})
				}
				p.Tasks[j-1].After = append(p.Tasks[j-1].After, n[0]-1)
			}
		case "REQUESTS/DURATIONS":
			p.Tasks[n[0]-1].Minutes, p.Tasks[n[0]-1].Needs = n[2], n[3:]
		case "RESOURCEAVAILABILITIES":
			p.Capacity = n
		}
	}
	if len(p.Capacity) == 0 || len(p.Tasks) == 0 {
		return p, fmt.Errorf("%s: no project in it", path)
	}
	return p, nil
}

func heading(line string) (string, bool) {
	name, rest, ok := strings.Cut(line, ":")
	return name, ok && strings.TrimSpace(rest) == "" && !strings.HasPrefix(name, " ")
}

func numbers(line string) ([]int, error) {
	var list []int
	for _, s := range strings.Fields(line) {
		n, err := strconv.Atoi(s)
		if err != nil {
			return nil, err
		}
		list = append(list, n)
	}
	return list, nil
}

// sample gives how few instances to take: one in so many, and one in four times as many where little time is wanted.
func sample(every int) int {
	if testing.Short() {
		return 4 * every
	}
	return every
}

// exact keeps the instances whose optimum is known.
func exact(list []instance) []instance {
	return slices.DeleteFunc(list, func(in instance) bool { return in.low != in.high })
}

// meanGap gives how far the first timetables are above the optimum, in percent.
func meanGap(tb testing.TB, list []instance) float64 {
	sum := 0.0
	for _, in := range list {
		r, err := First(context.Background(), in.problem)
		if err != nil {
			tb.Fatal(err)
		}
		if r.Makespan < in.low || r.Bound > in.high {
			tb.Errorf("%s: makespan %d, bound %d, but the optimum is %d", in.name, r.Makespan, r.Bound, in.low)
		}
		sum += float64(r.Makespan-in.low) / float64(in.low)
	}
	return 100 * sum / float64(len(list))
}

func TestFirstIsNear(t *testing.T) {
	for _, set := range []string{"j30", "j60"} {
		if gap := meanGap(t, exact(readSet(t, set, 1))); gap > 2.2 {
			t.Errorf("%s: first timetables are %.2f %% above the optimum", set, gap)
		}
	}
}

func TestSolveJ30(t *testing.T) {
	for _, in := range readSet(t, "j30", sample(16)) {
		r, err := Solve(context.Background(), in.problem)
		if err != nil {
			t.Fatal(in.name, err)
		}
		if err := verify(in.problem, r); err != nil {
			t.Errorf("%s: %v", in.name, err)
		}
		if !r.Proven || r.Makespan != in.low {
			t.Errorf("%s: makespan %d, proven: %v; the optimum is %d", in.name, r.Makespan, r.Proven, in.low)
		}
	}
}

// TestHonestWhenStopped stops the search of hard instances after some steps: what it then says must be true.
func TestHonestWhenStopped(t *testing.T) {
	for _, set := range []string{"j30", "j60"} {
		proven, open := 0, 0
		for _, in := range readSet(t, set, sample(8)) {
			r, err := Solve(&countdown{Context: context.Background(), left: 100}, in.problem)
			if err != nil {
				t.Fatal(in.name, err)
			}
			if err := verify(in.problem, r); err != nil {
				t.Errorf("%s: %v", in.name, err)
			}
			if r.Makespan < in.low || r.Bound > in.high {
				t.Errorf("%s: makespan %d, bound %d, but the optimum is in %d to %d", in.name, r.Makespan, r.Bound, in.low, in.high)
			}
			if r.Proven {
				proven++
			} else {
				open++
			}
		}
		if proven == 0 || open == 0 {
			t.Errorf("%s: %d proven and %d open, so half of this is not tested", set, proven, open)
		}
	}
}

// countdown is a context that ends when it has been asked so many times.
type countdown struct {
	context.Context
	left int
}

func (c *countdown) Err() error {
	if c.left--; c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}
