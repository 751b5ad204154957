package main

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// servedKitchen is a kitchen with a crate and a cupboard.
func servedKitchen(t *testing.T) (db string) {
	db = filepath.Join(t.TempDir(), "kitchen.db")
	var in strings.Builder
	for n, text := range []string{
		"got 1kg potatoes, 800g cauliflower, 600g carrots, 500g mushrooms, 12 eggs, 500g yoghurt, 4 lemons, 900g leeks, 300g cheddar, 400g spinach, 500g red onions, 200g goat's cheese",
		"got 1kg plain flour, 1l olive oil, 500g penne, 1kg basmati rice, 300g salt, 400g white bread, 2 x 400g tins of chickpeas for the cupboard",
	} {
		fmt.Fprintf(&in, `{"id":"m%d","cook":"larder","at":"2026-03-02T15:00:00Z","text":%q}`+"\n", n, text)
	}
	must(t, in.String(), "pipe", "--db", db)
	return db
}

// planned is a plan as its JSON has it, written down anew for the test.
type plannedJSON struct {
	Dishes []struct {
		Name, Frame, Palette string
		Portions             int
		Kcal                 int `json:"kcal_portion"`
		Allergens            []string
		Uses, Cupboard       []struct {
			Item   string
			Amount float64
			Unit   string
		}
		Steps []struct {
			ID, Do                  string
			Start, Minutes, HandsOn int
			Kit                     []string
			Temp                    int `json:"temp_c"`
			After                   []string
		}
		Ready int
	}
	Minutes int
	Used    float64 `json:"used_share"`
	Bound   float64 `json:"bound_share"`
	Proven  bool
	Left    []struct {
		Item   string
		Amount float64
	}
	Cautions []string
}

// What a plan promises can be checked from the outside, minute by minute and gram by gram.
func TestPlanJSON(t *testing.T) {
	db := servedKitchen(t)
	var lines []struct {
		Item string
		Free float64
	}
	mustRead(t, must(t, "", "left", "--json", "--db", db), &lines)
	free := map[string]float64{}
	for _, l := range lines {
		free[l.Item] = l.Free
	}
	for _, args := range [][]string{
		{"--dishes", "3", "--portions", "2", "--minutes", "30", "--cooks", "2"},
		{"--dishes", "2", "--portions", "2", "--minutes", "30"},
		{"--dishes", "3", "--portions", "2", "--minutes", "45", "--cooks", "2", "--no", "oven"},
		{"--dishes", "2", "--portions", "4", "--minutes", "60", "--needs", "vegetarian, nut allergy"},
	} {
		var p plannedJSON
		mustRead(t, must(t, "", append([]string{"plan", "--json", "--db", db}, args...)...), &p)
		most := 30
		cooks, ovens := 1, 2
		for i, a := range args {
			switch a {
			case "--minutes":
				fmt.Sscan(args[i+1], &most)
			case "--cooks":
				fmt.Sscan(args[i+1], &cooks)
			case "--no":
				ovens = 0
			}
		}
		if want := int(args[1][0] - '0'); len(p.Dishes) != want {
			t.Errorf("%v: %d dishes", args, len(p.Dishes))
		}
		used := map[string]float64{}
		ends := map[string]int{}
		for _, d := range p.Dishes {
			for _, u := range d.Uses {
				used[u.Item] += u.Amount
			}
			for _, s := range d.Steps {
				ends[s.ID] = s.Start + s.Minutes
			}
			if d.Kcal < 450 || d.Kcal > 900 {
				t.Errorf("%s: %d kcal", d.Name, d.Kcal)
			}
			if d.Ready > most {
				t.Errorf("%s is ready at %d of %d", d.Name, d.Ready, most)
			}
		}
		for item, n := range used {
			if n > free[item]+0.001 {
				t.Errorf("%v: %g g of %s, %g free", args, n, item, free[item])
			}
		}
		for minute := range most {
			hands, held := 0, map[string]int{}
			var temps []int
			for _, d := range p.Dishes {
				for _, s := range d.Steps {
					for _, a := range s.After {
						if end, ok := ends[a]; minute == 0 && (!ok || end > s.Start) {
							t.Errorf("%s starts at %d, after %s, which ends at %d", s.ID, s.Start, a, end)
						}
					}
					if minute < s.Start || minute >= s.Start+s.Minutes {
						continue
					}
					if minute < s.Start+s.HandsOn {
						hands++
					}
					for _, k := range s.Kit {
						held[k]++
						if k == "oven" {
							temps = append(temps, s.Temp)
						}
					}
				}
			}
			if hands > cooks || held["ring"] > 4 || held["oven"] > ovens || held["kettle"] > 1 || held["microwave"] > 1 || held["grill"] > 1 || held["blender"] > 1 {
				t.Errorf("%v, minute %d: %d hands, %v", args, minute, hands, held)
			}
			if len(temps) > 1 && slices.Max(temps)-slices.Min(temps) > 10 {
				t.Errorf("%v, minute %d: an oven at %v", args, minute, temps)
			}
		}
		if p.Used <= 0 || p.Used > p.Bound || p.Bound > 1 {
			t.Errorf("%v: used %g, bound %g", args, p.Used, p.Bound)
		}
	}
}

func TestPlanText(t *testing.T) {
	db := servedKitchen(t)
	text := must(t, "", "plan", "--db", db, "--minutes", "45", "--cooks", "2")
	for _, want := range []string{"All ready in", "of the crate", "kcal a portion", "cook 1"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	if r := try(t, "", "plan", "--db", filepath.Join(t.TempDir(), "none.db")); r.status == done || !strings.Contains(r.err, "take the delivery in first") {
		t.Errorf("an empty kitchen: %+v", r)
	}
	for _, args := range [][]string{{"--dishes", "0"}, {"--cooks", "some"}, {"--kit", "forge=1"}, {"--needs", "no fun"}, {"--no", "forge"}, {"--seconds", "-1"}} {
		if r := try(t, "", append([]string{"plan", "--db", db}, args...)...); r.status != 2 {
			t.Errorf("%v: %+v", args, r)
		}
	}
}

// The timetable is drawn into a new file, beside the plan that is printed; what is there
// already is left alone, and said before any thinking.
func TestPlanPNG(t *testing.T) {
	db := servedKitchen(t)
	file := filepath.Join(t.TempDir(), "dinner.png")
	args := []string{"plan", "--db", db, "--minutes", "45", "--cooks", "2", "--png", file}
	if text := must(t, "", args...); !strings.Contains(text, "All ready in") {
		t.Error(text)
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(raw))
	if err != nil || img.Bounds().Dx() != 1440 || img.Bounds().Dy() < 600 {
		t.Errorf("a picture of %v: %v", img.Bounds(), err)
	}
	r := try(t, "", args...)
	if r.status != failed || r.out != "" || !strings.Contains(r.err, "is left alone") {
		t.Errorf("a second time: %+v", r)
	}
	oneLine(t, r.err)
	if again, err := os.ReadFile(file); err != nil || !bytes.Equal(again, raw) {
		t.Errorf("the file that was there has changed: %v", err)
	}
	r = try(t, "", "plan", "--db", db, "--png", filepath.Join(t.TempDir(), "no", "such", "folder.png"))
	if r.status != failed || !strings.Contains(r.err, "the picture cannot be written") {
		t.Errorf("no such folder: %+v", r)
	}
	oneLine(t, r.err)
}

// The plan that is on is told and drawn as it stands; where none is, that is said.
func TestPlanOn(t *testing.T) {
	db := servedKitchen(t)
	file := filepath.Join(t.TempDir(), "now.png")
	args := []string{"plan", "--on", "--db", db, "--png", file}
	if r := try(t, "", args...); r.status != failed || !strings.Contains(r.err, "no plan is on") {
		t.Errorf("none is on: %+v", r)
	}
	must(t, `{"id":"p1","cook":"ana","text":"plan 2 dishes for 2 in 60 minutes"}`+"\n"+`{"id":"p2","cook":"ana","text":"accept"}`+"\n", "pipe", "--db", db)
	text := must(t, "", args...)
	for _, want := range []string{"2 dishes for 2. From ", " Now ", "Dish 1: ", "\nana: "} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if img, err := png.Decode(bytes.NewReader(raw)); err != nil || img.Bounds().Dx() != 1440 {
		t.Errorf("%v", err)
	}
}
