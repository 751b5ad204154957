package timetable

import (
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

const jobshops = "../../testdata/timetable"

// TestJobShops solves textbook job shops to their published optima.
func TestJobShops(t *testing.T) {
	for _, row := range readTable(t, "jobshops.csv") {
		t.Run(row[0], func(t *testing.T) {
			if row[0] == "ft10" && testing.Short() {
				t.Skip("takes seconds")
			}
			p := readJobShop(t, row[0])
			r, err := Solve(context.Background(), p)
			if err != nil {
				t.Fatal(err)
			}
			if err := verify(p, r); err != nil {
				t.Error(err)
			}
			if want, _ := strconv.Atoi(row[1]); r.Makespan != want || !r.Proven {
				t.Errorf("makespan %d, proven: %v; published is %d", r.Makespan, r.Proven, want)
			}
		})
	}
}

// readJobShop makes each operation a task and each machine a resource of one unit.
func readJobShop(t *testing.T, name string) Problem {
	var p Problem
	job := ""
	for _, row := range readTable(t, "jobshop_"+name+".csv") {
		machine, err := strconv.Atoi(row[1])
		if err != nil {
			t.Fatal(err)
		}
		minutes, err := strconv.Atoi(row[2])
		if err != nil {
			t.Fatal(err)
		}
		for len(p.Capacity) <= machine {
			p.Capacity = append(p.Capacity, 1)
		}
		task := Task{Minutes: minutes, Needs: make([]int, machine+1)}
		task.Needs[machine] = 1
		if row[0] == job {
			task.After = []int{len(p.Tasks) - 1}
		}
		job = row[0]
		p.Tasks = append(p.Tasks, task)
	}
	for i := range p.Tasks {
		needs := make([]int, len(p.Capacity))
		copy(needs, p.Tasks[i].Needs)
		p.Tasks[i].Needs = needs
	}
	return p
}

// readTable reads a table without its heading.
func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join(jobshops, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in := csv.NewReader(f)
	in.Comment = '#'
	rows, err := in.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}
