package share_test

import (
	"compress/gzip"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scullion/planner/share"
)

// crates are the allocation instances kept beside the project, and the best choices known of them.
const crates = "../../../shared/crates"

// known is what is known of an instance. Weights are multiples of one half there, and doubled here.
type known struct {
	Instance string   `json:"inst"`
	Best     float64  `json:"best_objective"`
	ProvedBy []string `json:"proved_by"`
}

func (k known) value() int64 { return int64(2 * k.Best) }

// readKnown reads the best known values by instance, and skips where they are not there.
func readKnown(t testing.TB) map[string]known {
	data, err := os.ReadFile(filepath.Join(crates, "best.json"))
	if err != nil {
		t.Skip("no crates beside the project:", err)
	}
	var list []known
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	best := map[string]known{}
	for _, k := range list {
		best[k.Instance] = k
	}
	return best
}

// readCrate reads an instance as a problem.
func readCrate(t testing.TB, name string) share.Problem {
	var c struct {
		Stock  []int64   `json:"stock"`
		Weight []float64 `json:"w"`
		K      int
		Dishes []struct {
			Family   int
			Min, Max int64
			Items    []struct {
				Line int   `json:"i"`
				Min  int64 `json:"lo"`
				Max  int64 `json:"hi"`
			}
		}
	}
	if err := json.Unmarshal(readMaybeZipped(t, filepath.Join(crates, name+".json")), &c); err != nil {
		t.Fatal(name, err)
	}
	p := share.Problem{Stock: c.Stock, Choose: c.K}
	for _, w := range c.Weight {
		p.Weight = append(p.Weight, int64(2*w))
	}
	for _, d := range c.Dishes {
		dish := share.Candidate{Family: d.Family, Min: d.Min, Max: d.Max}
		for _, u := range d.Items {
			dish.Uses = append(dish.Uses, share.Use{Line: u.Line, Min: u.Min, Max: u.Max})
		}
		p.Candidates = append(p.Candidates, dish)
	}
	return p
}

func readMaybeZipped(t testing.TB, name string) []byte {
	if data, err := os.ReadFile(name); err == nil {
		return data
	}
	f, err := os.Open(name + ".gz")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestCrates proves the smaller instances and compares with what is known of them.
func TestCrates(t *testing.T) {
	best := readKnown(t)
	tried := 0
	for name, k := range best {
		if strings.Contains(name, "I40") {
			continue
		}
		tried++
		t.Run(name, func(t *testing.T) {
			p := readCrate(t, name)
			r, err := share.Choose(t.Context(), p)
			if err != nil {
				t.Fatal(err)
			}
			verify(t, p, r)
			if len(k.ProvedBy) == 0 {
				t.Fatalf("nobody proved %v", k)
			}
			if !r.Proven || r.Value != k.value() {
				t.Errorf("got %d, bound %d; known optimum %d", r.Value, r.Bound, k.value())
			}
		})
	}
	if tried != 10 {
		t.Errorf("tried %d instances, not 10", tried)
	}
}
