package main

import (
	"encoding/csv"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/bot/paper"
)

// served is a kitchen file with a service of a known account, wrapped up.
func served(t testing.TB) (db string) { return servedOn(t, "2026-03-03") }

func servedOn(t testing.TB, day string) (db string) {
	t.Helper()
	db = filepath.Join(t.TempDir(), "k.db")
	in := ""
	for i, text := range []string{
		"got 1kg leeks for £3, 500g spinach £1.50, 400g cheddar", "start: 1 dish for 4 by 18:30", "used 600g leeks in the leek tart", "binned 150g leek tops", "used 200g cheddar in the leek tart",
		"binned 100g spinach", "wrap up",
	} {
		in += fmt.Sprintf(`{"id":"m%d","cook":"ana","at":"%sT17:%02d:00Z","text":%q}`+"\n", i, day, i, text)
	}
	must(t, in, "pipe", "--db", db)
	return db
}

func TestWrapCommand(t *testing.T) {
	db := served(t)
	var w bot.Wrap
	mustRead(t, must(t, "", "wrap", "--json", "--db", db), &w)
	c := w.Crate
	for what, is := range map[string][2]float64{
		"came": {c.Came.AP, 1900}, "dishes": {c.Dishes.AP, 650}, "trim": {c.Trim.AP, 150}, "binned": {c.Binned.AP, 100}, "carried": {c.Carried.AP, 1000}, "variance": {c.Variance.AP, 0},
		"cost of dishes": {c.Dishes.Cost + c.Trim.Cost, 1.8}, "cost of the bin": {c.Binned.Cost, 0.3}, "unpriced": {c.Came.Unpriced, 400},
	} {
		if d := is[0] - is[1]; d > 1e-6 || d < -1e-6 {
			t.Errorf("%s: %g, not %g", what, is[0], is[1])
		}
	}
	var all []bot.Wrap
	if mustRead(t, must(t, "", "wrap", "--all", "--json", "--db", db), &all); len(all) != 2 {
		t.Errorf("%d accounts", len(all))
	}
	for _, c := range []struct {
		says string
		args []string
	}{
		{"Had 1.9 kg, trim 150 g, binned 100 g, carried over 1 kg", []string{"wrap"}},
		{"Leek: had 1 kg; dishes 450 g, trim 150 g, carried over 400 g.", []string{"wrap", "--lines"}},
		{"100 g binned, 1 dish of 650 g", []string{"wrap", "--all"}},
		{"Spinach: 100 g binned in 1 service, cost £0.30", []string{"wrap", "--waste"}},
		{"1 leek tart, 800 g for 4.", []string{"sheet"}},
		{"| cheddar | 300 g | 300 g | 50 g | 50 g |", []string{"sheet", "tart", "--portions", "6"}},
		{"EU and UK (14): gluten cereals (its name) and milk (cheddar).", []string{"sheet", "1"}},
	} {
		if out := must(t, "", append(c.args, "--db", db)...); !strings.Contains(out, c.says) {
			t.Errorf("%v: %s", c.args, out)
		}
	}
	if out := must(t, "", "labels", "--page", "roll-62", "--db", servedOn(t, time.Now().UTC().Format(time.DateOnly))); !strings.Contains(out, "Leek tart") {
		t.Errorf("labels of today: %s", out)
	}
	if r := try(t, "", "labels", "--db", db); r.status != 0 || r.out != "" || !strings.Contains(r.err, "Nothing to label") { // all of it is past its use-by
		t.Errorf("labels of long ago: status %d, %q, %q", r.status, r.out, r.err)
	}
	recipe, err := paper.ReadJSONLD([]byte(must(t, "", "sheet", "1", "--form", "json", "--db", db)))
	if err != nil || recipe.Portions != 4 || len(recipe.Ingredients) != 2 {
		t.Errorf("%+v, %v", recipe, err)
	}
	if rows, err := csv.NewReader(strings.NewReader(must(t, "", "sheet", "1", "--form", "csv", "--db", db))).ReadAll(); err != nil || len(rows) < 4 {
		t.Errorf("%v, %v", rows, err)
	}
	for _, c := range []struct {
		says   string
		status int
		args   []string
	}{
		{"no dish, or more than one, is called", wrongUsage, []string{"sheet", "trifle"}},
		{"there are not so many services", wrongUsage, []string{"wrap", "--back", "7"}},
		{"--back", wrongUsage, []string{"wrap", "--back", "-1"}},
		{"roll-62", wrongUsage, []string{"labels", "--page", "a5"}},
		{"json", wrongUsage, []string{"sheet", "1", "--form", "pdf"}},
	} {
		r := try(t, "", append(c.args, "--db", db)...)
		if r.status != c.status || !strings.Contains(r.err, c.says) || r.out != "" {
			t.Errorf("%v: status %d, %q, %q", c.args, r.status, r.out, r.err)
		}
		oneLine(t, r.err)
	}
}

// TestLabelsTellOfWarm: what somebody said of food that stood warm stands on its printed label, and on no other.
func TestLabelsTellOfWarm(t *testing.T) {
	now := time.Now().UTC()
	db := filepath.Join(t.TempDir(), "k.db")
	in := ""
	for i, text := range []string{"made 3kg chilli", "made 2kg dal", "the chilli stood out for 5 hours"} {
		in += fmt.Sprintf(`{"id":"m%d","cook":"ana","at":%q,"text":%q}`+"\n", i, now.Add(time.Duration(i-60)*time.Second).Format(time.RFC3339), text)
	}
	must(t, in, "pipe", "--db", db)
	out := must(t, "", "labels", "--db", db)
	if n := strings.Count(out, "Stood warm, said "); n != 1 || strings.Count(out, "<article") != 2 {
		t.Errorf("%d notes on\n%s", n, out)
	}
	_, chilli, _ := strings.Cut(out, "Cooked chilli")
	if chilli, _, _ = strings.Cut(chilli, "</article>"); !strings.Contains(chilli, ": see chat</p>") {
		t.Errorf("the chilli's label: %s", chilli)
	}
	if again := must(t, "", "log", "--db", db); strings.Count(again, "\n") != 2 {
		t.Errorf("labels wrote something: %s", again)
	}
}
