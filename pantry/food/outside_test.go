package food

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"scullion/pantry/measure"
)

// Checks of foods.csv against published figures outside the project. The
// reference tables and the USDA files stand beside the repository, not in it;
// where they are not there, the checks that need them are skipped.
const reference = "../../../shared/reference"

// outside opens a reference file or skips the test.
func outside(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(reference, name)
	if _, err := os.Stat(path); err != nil {
		t.Skip("the reference tables are not beside the repository: ", err)
	}
	return path
}

// rowsOf reads a CSV with a header; lines that begin with # are remarks.
func rowsOf(t *testing.T, path string) []map[string]string {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in := csv.NewReader(file)
	in.Comment = '#'
	all, err := in.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", path, len(all), err)
	}
	var rows []map[string]string
	for _, rec := range all[1:] {
		row := map[string]string{}
		for i, column := range all[0] {
			row[column] = rec[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// listed parts a cell at ";" and drops the space that the reference has there.
func listed(s string) []string {
	var items []string
	for _, item := range strings.Split(s, ";") {
		if item = strings.TrimSpace(item); item != "" {
			items = append(items, item)
		}
	}
	return items
}

// known gives the food of this name; a name that is not there fails the test.
func known(t *testing.T, name string) *Food {
	t.Helper()
	f, ok := Default().Food(name)
	if !ok {
		t.Fatalf("%q is no food of the catalogue", name)
	}
	return f
}

func figure(t *testing.T, s string) float64 {
	t.Helper()
	n, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// household is one line of WEIGHT.txt: the grams of one of a measure.
type household struct {
	measure string
	grams   float64
}

func sr28Weights(t *testing.T) map[string][]household {
	weights := map[string][]household{}
	eachLine(t, outside(t, "sr28/WEIGHT.txt"), 5, func(f []string) {
		weights[f[0]] = append(weights[f[0]], household{f[3], figure(t, f[4]) / figure(t, f[2])})
	})
	return weights
}

// sayings are the measures of SR28 from which a cup or a tablespoon may be
// taken, and how many of the measure make one.
var cupSayings = []saying{{`^cup`, 1}, {`^serving 1/2 cup`, 2}, {`^fl oz`, 8}}
var tbspSayings = []saying{{`^(serving 1 )?([Tt]bsp|tablespoon)`, 1}, {`^tsp`, 3}}

type saying struct {
	pattern string
	many    float64
}

// ownWeight are cup and tablespoon weights that are not of the row's own NDB
// number: the number of the row they are of.
var ownWeight = map[string]string{
	"Parmesan":           "01032", // grated; 01033, the piece, has no cup
	"tinned kidney bean": "16034", // with its liquid; 16145, drained, has no cup
}

// measured gives the weights that SR28 allows for a cup or tablespoon. The
// first saying that has any decides: a fluid ounce is asked only without a cup.
func measured(measures []household, sayings []saying) (grams []float64) {
	for _, s := range sayings {
		for _, m := range measures {
			if regexp.MustCompile(s.pattern).MatchString(m.measure) {
				grams = append(grams, m.grams*s.many)
			}
		}
		if len(grams) > 0 {
			return grams
		}
	}
	return nil
}

// TestCupsAgainstSR28 compares cup and tablespoon weights with the household
// measures of the SR28 row that the food's source names. Refuse and pieces are
// compared in TestAgainstSR28. 0.1 g is what the table is rounded to.
func TestCupsAgainstSR28(t *testing.T) {
	weights := sr28Weights(t)
	cups, spoons := 0, 0
	for _, f := range Default().Foods() {
		m := ndb.FindStringSubmatch(f.Source)
		if m == nil {
			continue
		}
		from := m[1]
		if other, ok := ownWeight[f.Name]; ok {
			from = other
		}
		for _, c := range []struct {
			what    string
			mg      measure.Amount
			sayings []saying
			count   *int
		}{{"cup", f.CupMg, cupSayings, &cups}, {"tablespoon", f.TbspMg, tbspSayings, &spoons}} {
			if c.mg == 0 {
				continue
			}
			*c.count++
			if want := measured(weights[from], c.sayings); !near(c.mg.Units(), want, 0.1) {
				t.Errorf("%s: a %s is %.1f g, SR28 %s has %v", f.Name, c.what, c.mg.Units(), from, want)
			}
		}
	}
	t.Logf("%d cups, %d tablespoons compared", cups, spoons)
	if cups < 380 || spoons < 150 {
		t.Errorf("only %d cups and %d tablespoons compared", cups, spoons)
	}
}

func near(is float64, wants []float64, within float64) bool {
	for _, want := range wants {
		if math.Abs(is-want) <= within+1e-9 {
			return true
		}
	}
	return false
}

var sr26 = regexp.MustCompile(`USDA SR26, (?:same NDB|NDB (\d{5})) \(energy, nutrients\)|energy and nutrients: those of [^;]*USDA SR26 NDB (\d{5})`)

// TestNutrientsAgainstSR26 compares energy, protein, fat, carbohydrate and
// fibre with the row of Release 26 that the food's source names, digit for
// digit: they are copies.
func TestNutrientsAgainstSR26(t *testing.T) {
	table := map[string][]string{}
	eachLine(t, outside(t, "sr28/ABBREV_R26.txt"), 9, func(f []string) {
		table[strings.Trim(f[0], "~")] = f
	})
	rows := 0
	for _, f := range Default().Foods() {
		m := sr26.FindStringSubmatch(f.Source)
		if m == nil {
			continue
		}
		from := m[1] + m[2]
		if own := ndb.FindStringSubmatch(f.Source); from == "" && own != nil {
			from = own[1]
		}
		rec := table[from]
		if rec == nil {
			t.Errorf("%s: SR26 has no %q", f.Name, from)
			continue
		}
		rows++
		for _, c := range []struct {
			what   string
			is     float64
			column int
		}{{"energy", f.Kcal, 3}, {"protein", f.Protein, 4}, {"fat", f.Fat, 5}, {"carbohydrate", f.Carb, 7}, {"fibre", f.Fibre, 8}} {
			want := 0.0
			switch {
			case rec[c.column] != "":
				want = figure(t, rec[c.column])
			case c.is != 0 && strings.Contains(f.Source, c.what+": "): // SR26 does not know; the row names another source
				continue
			}
			if c.is != want {
				t.Errorf("%s: %s %g, SR26 %s says %g", f.Name, c.what, c.is, from, want)
			}
		}
	}
	t.Logf("%d rows compared", rows)
	if rows < 640 {
		t.Errorf("only %d rows compared", rows)
	}
}
