package measure

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"math/big"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// published is one row of testdata/outside.csv, which says what is in it.
type published struct {
	unit, place, factor, ucum, differs, source string
	rounded                                    int // decimals that the source prints; -1: exact
}

func readPublished(t *testing.T) []published {
	t.Helper()
	file, err := os.Open("testdata/outside.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in := csv.NewReader(file)
	in.Comment = '#'
	rows, err := in.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []published
	for _, r := range rows[1:] {
		if status := r[8]; status != "seen" && status != "memory" && status != "practice" || r[7] == "" {
			t.Errorf("%s: status %q, source %q", r[0], status, r[7])
		}
		p := published{unit: r[0], place: r[1], factor: r[2], rounded: -1, ucum: r[4], differs: r[5], source: r[7]}
		if r[3] != "" {
			if p.rounded, err = strconv.Atoi(r[3]); err != nil {
				t.Fatal(r, err)
			}
		}
		all = append(all, p)
	}
	return all
}

// setMeasures are the units that have one size: mass and volume.
func setMeasures() map[string]*Unit {
	units := map[string]*Unit{}
	for _, u := range DefaultUnits().Units {
		if u.Sort == Mass || u.Sort == Volume {
			units[u.Name] = u
		}
	}
	return units
}

// factor gives the grams or millilitres in one unit, exactly.
func factor(u *Unit) *big.Rat { return big.NewRat(u.Factor.Num, u.Factor.Den*1000) }

// TestUnitsAgainstLaw holds every unit with one size to the published factors,
// as exact fractions: not one digit may differ that the source prints.
func TestUnitsAgainstLaw(t *testing.T) {
	units, seen := setMeasures(), map[string]bool{}
	for _, p := range readPublished(t) {
		u := units[p.unit]
		if u == nil || u.Place != p.place {
			t.Errorf("units.csv has no %s for place %q", p.unit, p.place)
			continue
		}
		seen[p.unit] = true
		want, ok := new(big.Rat).SetString(p.factor)
		if !ok {
			t.Fatalf("%s: %q is no number", p.unit, p.factor)
		}
		off := new(big.Rat).Sub(factor(u), want)
		if p.rounded < 0 && off.Sign() != 0 {
			t.Errorf("%s is %s, %s says %s", p.unit, factor(u).FloatString(12), p.source, p.factor)
		}
		if p.rounded >= 0 && factor(u).FloatString(p.rounded) != want.FloatString(p.rounded) {
			t.Errorf("%s is %s, %s rounds it to %s", p.unit, factor(u).FloatString(12), p.source, p.factor)
		}
	}
	for name := range units {
		if !seen[name] {
			t.Errorf("%s: no published factor in testdata/outside.csv", name)
		}
	}
}

// TestUnitsAmongThemselves checks the ratios that laws and cookery books state,
// so that a wrong digit cannot stand in both tables unseen.
func TestUnitsAmongThemselves(t *testing.T) {
	units := setMeasures()
	for _, c := range []struct {
		large string
		n     int64
		small string
	}{
		{"kilogram", 1000, "gram"}, {"gram", 1000, "milligram"}, {"pound", 16, "ounce"}, {"stone", 14, "pound"},
		{"litre", 1000, "millilitre"}, {"litre", 100, "centilitre"}, {"litre", 10, "decilitre"},
		{"UK pint", 20, "UK fluid ounce"}, {"UK quart", 2, "UK pint"}, {"UK gallon", 8, "UK pint"},
		{"US pint", 16, "US fluid ounce"}, {"US quart", 2, "US pint"}, {"US gallon", 8, "US pint"}, {"US pint", 2, "US cup"},
		{"tablespoon", 3, "teaspoon"}, {"dessertspoon", 2, "teaspoon"},
	} {
		got := new(big.Rat).Quo(factor(units[c.large]), factor(units[c.small]))
		if got.Cmp(big.NewRat(c.n, 1)) != 0 {
			t.Errorf("a %s is %s × %s, want %d", c.large, got.FloatString(9), c.small, c.n)
		}
	}
	inch := big.NewRat(254, 100) // centimetres, exactly, since 1959
	gallon := new(big.Rat).Mul(new(big.Rat).Mul(inch, inch), inch)
	if gallon.Mul(gallon, big.NewRat(231, 1)); gallon.Cmp(factor(units["US gallon"])) != 0 {
		t.Errorf("231 cubic inches are %s ml", gallon.FloatString(9))
	}
}

// converter asks a UCUM implementation for each code's size in g or mL, and
// prints them as JSON; what it cannot convert is null.
const converter = `
const {UcumLhcUtils} = require('@lhncbc/ucum-lhc');
const ucum = UcumLhcUtils.getInstance();
const pairs = JSON.parse(require('fs').readFileSync(0, 'utf8'));
const sizes = pairs.map(([code, to]) => {
  const r = ucum.convertUnitTo(code, 1, to);
  return r.status === 'succeeded' ? r.toVal : null;
});
process.stdout.write(JSON.stringify(sizes));
`

// TestUnitsAgainstUCUM compares every unit with a general implementation of
// UCUM, the npm package @lhncbc/ucum-lhc of the US National Library of
// Medicine. It computes in floats, hence a tolerance of 1e-9. Node finds the
// package from this folder upwards or in NODE_PATH.
//
// No Go library of units stands beside it: the permissively licensed one that
// was found has neither cups nor spoons, and no release since 2023.
func TestUnitsAgainstUCUM(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed, so UCUM cannot be asked")
	}
	if out, err := exec.Command(node, "-e", "require.resolve('@lhncbc/ucum-lhc')").CombinedOutput(); err != nil {
		if strings.Contains(string(out), "MODULE_NOT_FOUND") {
			// Getenv also tells the test cache that NODE_PATH matters.
			t.Skipf("the npm package @lhncbc/ucum-lhc is neither here nor in NODE_PATH (%q)", os.Getenv("NODE_PATH"))
		}
		t.Fatalf("node: %v: %s", err, out)
	}
	units, rows, pairs := setMeasures(), []published{}, [][2]string{}
	for _, p := range readPublished(t) {
		if u := units[p.unit]; u != nil && p.ucum != "" {
			rows = append(rows, p)
			pairs = append(pairs, [2]string{p.ucum, map[Kind]string{Gram: "g", Millilitre: "mL"}[u.To]})
		}
	}
	for i, size := range askUCUM(t, node, pairs) {
		p := rows[i]
		want, _ := factor(units[p.unit]).Float64()
		within := 1e-9 * want
		if p.differs != "" {
			want, _ = strconv.ParseFloat(p.differs, 64)
		} else if p.rounded >= 0 && !exact(units[p.unit]) {
			within = 0.5 * math.Pow10(-p.rounded)
		}
		if size == nil || math.Abs(*size-want) > within {
			t.Errorf("%s: UCUM's %s is %v %s, want %v", p.unit, p.ucum, show(size), pairs[i][1], want)
		}
	}
	if len(rows) < len(units)-1 {
		t.Errorf("only %d rows have a UCUM code, for %d units", len(rows), len(units))
	}
}

func askUCUM(t *testing.T, node string, pairs [][2]string) []*float64 {
	t.Helper()
	ask, err := json.Marshal(pairs)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, "-e", converter)
	cmd.Stdin = strings.NewReader(string(ask))
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var sizes []*float64
	if err := json.Unmarshal(out, &sizes); err != nil || len(sizes) != len(pairs) {
		t.Fatalf("%v: %s", err, out)
	}
	return sizes
}

// exact says whether our own factor is exact: only the stick of butter is not.
func exact(u *Unit) bool { return u.Name != "stick of butter" }

func show(size *float64) string {
	if size == nil {
		return "unknown"
	}
	return strconv.FormatFloat(*size, 'g', 15, 64)
}
