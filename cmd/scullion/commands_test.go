package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
)

// service is a few messages, as the pipe takes them.
const service = `{"id":"m1","cook":"larder","at":"2026-03-03T16:00:00Z","text":"got 1.2kg leeks use by 5 march £3.60"}
{"id":"m2","cook":"larder","at":"2026-03-03T16:01:00Z","text":"got 2kg carrots"}
{"id":"m3","cook":"stove","at":"2026-03-03T17:00:00Z","text":"used 300g leek in the tart"}
{"id":"m4","cook":"stove","at":"2026-03-03T17:05:00Z","text":"used 500g carrots in the soup"}
{"id":"m4","at":"2026-03-03T17:06:00Z","edit":true,"text":"used 400g carrots in the soup"}
{"id":"m5","cook":"stove","at":"2026-03-03T17:07:00Z","text":"the radio is too loud"}
`

func mustKitchen(t testing.TB) (db string) {
	t.Helper()
	db = filepath.Join(t.TempDir(), "kitchen.db")
	must(t, service, "pipe", "--db", db)
	return db
}

func TestUsage(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_DATA_HOME", home)
	for _, c := range []struct {
		name string
		args []string
		says string
	}{
		{"UnknownCommand", []string{"frobnicate"}, `no command "frobnicate"`},
		{"NearCommand", []string{"lefr"}, "did you mean: left"},
		{"UnknownFlag", []string{"left", "--nope"}, "--nope"},
		{"UnknownShort", []string{"-z"}, "-z"},
		{"TooMany", []string{"left", "leeks"}, `takes no "leeks"`},
		{"TooFew", []string{"backup"}, "takes one FILE"},
		{"TwoFiles", []string{"restore", "a", "b"}, "takes one FILE"},
		{"ValueMissing", []string{"left", "--db"}, "--db"},
		{"Units", []string{"left", "--units", "fr"}, "one of uk, us"},
		{"KitchenEmpty", []string{"left", "--kitchen", ""}, "a name"},
		{"KitchenTwoLines", []string{"left", "--kitchen", "a\nb"}, "a name"},
		{"Cook", []string{"chat", "--cook", ""}, "a name"},
		{"MinutesZero", []string{"ideas", "--minutes", "0"}, "whole number from 1"},
		{"MinutesWord", []string{"ideas", "--minutes", "half"}, "whole number from 1"},
		{"MinutesHuge", []string{"ideas", "--minutes", "99999999999999999999"}, "whole number from 1"},
		{"PortionsBelow", []string{"ideas", "--portions", "-5"}, "whole number from 1"},
		{"KitUnknown", []string{"ideas", "--kit", "ring=2,forge=1"}, `"forge" is not kit`},
		{"KitCount", []string{"ideas", "--kit", "ring=many"}, "whole number"},
		{"NeedsUnknown", []string{"ideas", "--needs", "vegan, no fun"}, `"no fun" is not understood`},
		{"ServeUnknown", []string{"ideas", "--serve", "tepid"}, "hot or cold"},
		{"NoUnknown", []string{"ideas", "--no", "forge"}, `"forge" is not kit`},
		{"BadSwitch", []string{"left", "--json=maybe"}, "true or false"},
		{"TableOfOne", []string{"food", "leek", "--table"}, "--table takes no name"},
		{"TwoForms", []string{"log", "--json", "--csv"}, "do not go together"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := try(t, "", c.args...)
			if r.status != wrongUsage || !strings.Contains(r.err, c.says) || r.out != "" {
				t.Errorf("status %d, %q, %q; want %q", r.status, r.err, r.out, c.says)
			}
			oneLine(t, r.err)
		})
	}
	if left, err := os.ReadDir(home); err != nil || len(left) > 0 {
		t.Errorf("wrong usage left %v behind, %v", left, err)
	}
}

func TestNothingYet(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_DATA_HOME", home)
	const head = "at,message,cook,kind,item,amount,unit,pieces,piece,dish,approx,trim,use_by,cost,rev,why,by,in_force,taught,state\n"
	for _, c := range []struct {
		args string
		out  string
	}{
		{"left", ""}, {"left --json", "[]\n"}, {"ideas", ""}, {"ideas --json", "[]\n"},
		{"log", ""}, {"log --json", "[]\n"}, {"log --csv", head}, {"wrap", ""}, {"wrap --all", ""}, {"sheet", ""}, {"labels", ""},
	} {
		t.Run(c.args, func(t *testing.T) {
			r := try(t, "", strings.Fields(c.args)...)
			if r.status != done || r.out != c.out || !strings.Contains(r.err, "start with: scullion chat") {
				t.Errorf("status %d, %q, %q", r.status, r.out, r.err)
			}
			oneLine(t, r.err)
			other := try(t, "", append(strings.Fields(c.args), "--db", mustKitchen(t), "--kitchen", "other")...)
			if other.status != done || other.out != c.out || !strings.Contains(other.err, `kitchen "other"`) {
				t.Errorf("another kitchen: status %d, %q, %q", other.status, other.out, other.err)
			}
		})
	}
	for _, args := range []string{"check", "backup copy.db"} {
		t.Run(args, func(t *testing.T) {
			t.Chdir(t.TempDir())
			r := try(t, "", strings.Fields(args)...)
			if r.status != failed || r.out != "" || !strings.Contains(r.err, "there is no kitchen file") {
				t.Errorf("status %d, %q, %q", r.status, r.out, r.err)
			}
			oneLine(t, r.err)
		})
	}
	if left, err := os.ReadDir(home); err != nil || len(left) > 0 {
		t.Errorf("looking left %v behind, %v", left, err)
	}
}

func TestDefaultFile(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_DATA_HOME", home)
	must(t, service, "pipe")
	if _, err := os.Stat(filepath.Join(home, "scullion", "kitchen.db")); err != nil {
		t.Error(err)
	}
}

func TestFood(t *testing.T) {
	db := mustKitchen(t)
	text := must(t, "", "food", "--db", db, "celery", "root")
	for _, s := range []string{"Celeriac\n", "Weighs: one is about", "Allergens: holds celery", "USDA SR28 NDB 11141", "labels and your local food-safety rules go first"} {
		if !strings.Contains(text, s) {
			t.Errorf("of celeriac it does not say %q:\n%s", s, text)
		}
	}
	var card bot.Card
	mustRead(t, must(t, "", "food", "--json", "--db", db, "leek"), &card)
	if card.Name != "leek" || card.Refuse != 56 || card.Edible != 95 || card.Unknown || len(card.Trimmings) == 0 || card.US == nil {
		t.Errorf("the card of leek is %+v", card)
	}
	r := try(t, "", "food", "--db", db, "flobberwort")
	if r.status != failed || !strings.Contains(r.err, `no table knows "flobberwort"`) {
		t.Errorf("status %d, %q", r.status, r.err)
	}
	oneLine(t, r.err)
	rows, err := csv.NewReader(strings.NewReader(must(t, "", "food", "--table"))).ReadAll()
	if err != nil || len(rows) < 600 || rows[0][0] != "name" {
		t.Errorf("the table has %d rows, %v", len(rows), err)
	}
}

func TestTaughtFoods(t *testing.T) {
	db := mustKitchen(t)
	if r := try(t, "", "food", "--db", db); r.status != done || r.out != "" || !strings.Contains(r.err, "has been taught no food yet") {
		t.Errorf("status %d, %q, %q", r.status, r.out, r.err)
	}
	const lessons = `{"id":"n1","cook":"larder","at":"2026-03-03T18:00:00Z","text":"got 200g sea beet"}
{"id":"n2","cook":"larder","at":"2026-03-03T18:00:01Z","text":"new food: sea beet, like spinach, 30 g a handful, no allergens"}
{"id":"n3","cook":"larder","at":"2026-03-03T18:00:02Z","text":"long onion means leek"}
`
	must(t, lessons, "pipe", "--db", db)
	if text := must(t, "", "food", "--db", db); !strings.Contains(text, "New food: sea beet, allergens none, like spinach, parts handful=30.") || !strings.Contains(text, "Long onion is leek.") {
		t.Errorf("taught: %q", text)
	}
	var list []bot.Lesson
	mustRead(t, must(t, "", "food", "--json", "--db", db), &list)
	if len(list) != 2 || list[0].Facts["like"] != "spinach" || list[1].Means != "leek" {
		t.Errorf("taught: %+v", list)
	}
	if text := must(t, "", "food", "sea beet", "--db", db); !strings.Contains(text, "a handful about 30 g") || !strings.Contains(text, "like spinach, as this kitchen says") {
		t.Errorf("sea beet: %q", text)
	}
	if text := must(t, "", "ideas", "--item", "sea beet", "--db", db); !strings.Contains(text, "sea beet") {
		t.Errorf("ideas for a taught food: %q", text)
	}
	if text := must(t, "", "log", "--db", db); !strings.Contains(text, "taught: Long onion is leek") || !strings.Contains(text, "taught: New food: sea beet, allergens none") {
		t.Errorf("the log: %q", text)
	}
	if text := must(t, "", "log", "--csv", "--db", db); !strings.Contains(text, "n3,larder,teach,long onion,0,,,,,false,false,,,1,said,n3,true,Long onion is leek.") {
		t.Errorf("the log as CSV: %q", text)
	}
	out := must(t, `{"id":"n4","cook":"stove","at":"2026-03-03T18:00:03Z","text":"used 100g long onion in the soup"}`+"\n", "pipe", "--db", db)
	if !strings.Contains(out, `"item":"leek","amount":100`) {
		t.Errorf("a taught name: %s", out)
	}
}

func TestFoodsOfItsOwn(t *testing.T) {
	db, own := mustKitchen(t), filepath.Join(t.TempDir(), "own.csv")
	write := func(s string) { mustDo(t, os.WriteFile(own, []byte(s), 0o600)) }
	write("name,like,parts,allergens\nsea beet,spinach,handful=40,none\n")
	out := must(t, `{"id":"n1","cook":"larder","at":"2026-03-03T18:00:00Z","text":"got 2 handfuls of sea beet"}`+"\n", "pipe", "--db", db, "--foods", own)
	if !strings.Contains(out, `"item":"sea beet","amount":80`) {
		t.Errorf("got %s", out)
	}
	t.Setenv("SCULLION_FOODS", own)
	if text := must(t, "", "ideas", "--item", "sea beet", "--db", db); !strings.Contains(text, "sea beet") {
		t.Errorf("ideas: %q", text)
	}
	write("name,parts\nsea beet,handful\n")
	r := try(t, "", "left", "--db", db)
	if r.status != failed || !strings.Contains(r.err, own+`:2: parts: "handful" is not of the form clove=5; mend it`) {
		t.Errorf("status %d, %q", r.status, r.err)
	}
	oneLine(t, r.err)
	r = try(t, "", "left", "--db", db, "--foods", filepath.Join(t.TempDir(), "none.csv"))
	if r.status != failed || !strings.Contains(r.err, "none.csv: the table of foods cannot be read: ") {
		t.Errorf("status %d, %q", r.status, r.err)
	}
	oneLine(t, r.err)
}

func TestLeft(t *testing.T) {
	db := mustKitchen(t)
	var lines []struct {
		Item   string
		OnHand float64 `json:"on_hand"`
		UseBy  string  `json:"use_by"`
	}
	mustRead(t, must(t, "", "left", "--json", "--db", db), &lines)
	found := map[string]float64{}
	for _, l := range lines {
		found[l.Item] = l.OnHand
	}
	if want := map[string]float64{"leek": 900, "carrot": 1600}; !reflect.DeepEqual(found, want) {
		t.Errorf("left %v, want %v", found, want)
	}
	text := strings.ToLower(must(t, "", "left", "--db", db))
	if !strings.Contains(text, "leek") || !strings.Contains(text, "900 g") {
		t.Errorf("left says %q", text)
	}
}

func TestIdeas(t *testing.T) {
	db := mustKitchen(t)
	var all, quick []bot.Idea
	mustRead(t, must(t, "", "ideas", "--json", "--db", db), &all)
	if len(all) == 0 {
		t.Fatal("no idea for leeks and carrots")
	}
	mustRead(t, must(t, "", "ideas", "--json", "--db", db, "--minutes", "15", "--no", "oven", "--item", "leek"), &quick)
	for _, i := range quick {
		if i.Minutes > 15 || strings.Contains(strings.Join(i.Kit, " "), "oven") {
			t.Errorf("asked for 15 minutes and no oven, got %+v", i)
		}
	}
	if must(t, "", "ideas", "--db", db) == "" {
		t.Error("nothing said")
	}
}

func mustRead(t testing.TB, text string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), into); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
}

func TestLog(t *testing.T) {
	db := mustKitchen(t)
	type line struct {
		Message, Kind, Item, Unit, Dish, Cook, Why, By string
		Amount                                         float64
		Cost                                           float64
		UseBy                                          string `json:"use_by"`
		Rev                                            int
		InForce                                        bool `json:"in_force"`
	}
	var now, all []line
	mustRead(t, must(t, "", "log", "--json", "--db", db), &now)
	mustRead(t, must(t, "", "log", "--json", "--all", "--db", db), &all)
	for _, list := range [][]line{now, all} {
		for i := range list {
			list[i].Rev = 0 // how many steps an edit takes is the bot's business
		}
	}
	want := []line{
		{Message: "m1", Kind: "receive", Item: "leek", Unit: "g", Cook: "larder", Amount: 1200, Cost: 3.6, UseBy: "2026-03-05", Why: "said", By: "m1", InForce: true},
		{Message: "m3", Kind: "use", Item: "leek", Unit: "g", Dish: "tart", Cook: "stove", Amount: 300, Why: "said", By: "m3", InForce: true},
		{Message: "m4", Kind: "use", Item: "carrot", Unit: "g", Dish: "soup", Cook: "stove", Amount: 500, Why: "said", By: "m4"},
		{Message: "m4", Kind: "use", Item: "carrot", Unit: "g", Dish: "soup", Cook: "stove", Amount: 400, Why: "edited", By: "m4", InForce: true},
	}
	if len(now) != 4 || now[0] != want[0] || now[2] != want[1] || now[3] != want[3] {
		t.Errorf("in force: %+v", now)
	}
	if last := len(all) - 1; last < 4 || all[3] != want[2] || all[last] != want[3] {
		t.Errorf("all: %+v", all)
	}
	rows, err := csv.NewReader(strings.NewReader(must(t, "", "log", "--csv", "--db", db))).ReadAll()
	if err != nil || len(rows) != 5 || rows[3][4] != "leek" || rows[3][5] != "300" {
		t.Errorf("csv: %v, %q", err, rows)
	}
	if text := must(t, "", "log", "--db", db); !strings.Contains(text, "2026-03-03 17:00  stove     use 300 g leek for the tart\n") {
		t.Errorf("text: %s", text)
	}
}

func TestLogCSVIsNoFormula(t *testing.T) {
	for in, want := range map[string]string{"=1+1": "'=1+1", "+x": "'+x", "@x": "'@x", "leek": "leek", "": ""} {
		if got := cell(in); got != want {
			t.Errorf("cell(%q) is %q", in, got)
		}
	}
}

func TestBackupRestoreCheck(t *testing.T) {
	db, folder := mustKitchen(t), t.TempDir()
	kept, other := filepath.Join(folder, "kept.db"), filepath.Join(folder, "other.db")
	before := must(t, "", "log", "--all", "--json", "--db", db)
	if out := must(t, "", "check", "--db", db); out != "1 kitchen, 2 lines, 5 messages, 5 entries: all balances agree.\n" {
		t.Errorf("check says %q", out)
	}
	must(t, "", "backup", kept, "--db", db)
	must(t, "", "check", "--db", kept)
	if r := try(t, "", "backup", kept, "--db", db); r.status != failed {
		t.Errorf("a backup replaced a file: %+v", r)
	}
	must(t, `{"id":"m9","cook":"stove","text":"used 100g leek"}`, "pipe", "--db", db)
	must(t, "", "restore", kept, "--db", other)
	if r := try(t, "", "restore", kept, "--db", db); r.status != failed || !strings.Contains(r.err, "--overwrite") {
		t.Errorf("restore without being told to overwrite: %+v", r)
	} else {
		oneLine(t, r.err)
	}
	must(t, "", "restore", kept, "--overwrite", "--db", db)
	for _, f := range []string{db, other} {
		if after := must(t, "", "log", "--all", "--json", "--db", f); after != before {
			t.Errorf("%s: not as before:\n%s\n%s", f, after, before)
		}
	}
	var r checked
	mustRead(t, must(t, "", "check", "--json", "--db", db), &r)
	if r.Entries != 5 || r.Wrong == nil || len(r.Wrong) != 0 {
		t.Errorf("check --json: %+v", r)
	}
	gone := try(t, "", "restore", filepath.Join(folder, "gone.db"), "--db", filepath.Join(folder, "new.db"))
	if _, err := os.Stat(filepath.Join(folder, "new.db")); gone.status != failed || err == nil {
		t.Errorf("restore of nothing: %+v", gone)
	}
	oneLine(t, gone.err)
}

func TestHelp(t *testing.T) {
	a := &app{env: os.Getenv}
	for _, c := range append(a.root().Commands(), a.root()) {
		t.Run(c.Name(), func(t *testing.T) {
			if c.Example == "" || c.Long == "" || c.Short == "" {
				t.Error("help lacks an example or words")
			}
			for l := range strings.Lines(c.Long + "\n" + c.Example) {
				if len(strings.TrimRight(l, "\n")) > 82 {
					t.Errorf("wider than a page: %q", l)
				}
			}
		})
	}
}

func TestCompletionScripts(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		if out := must(t, "", "completion", shell); !strings.Contains(out, "scullion") {
			t.Errorf("%s: %.100q", shell, out)
		}
	}
	out := try(t, "", "__complete", "ideas", "--no", "")
	if !strings.Contains(out.out, "oven") {
		t.Errorf("kit is not completed: %q", out.out)
	}
}

func TestChatPlain(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	out := must(t, "got 1kg leeks\nthe radio is too loud\nused 300g leek in the tart\n", "--cook", "stove")
	if strings.ContainsAny(out, "\x1b\r") || strings.Contains(out, "stove") || !strings.Contains(out, "300 g") || !strings.Contains(out, "700 g") {
		t.Errorf("%q", out)
	}
	if log := must(t, "", "log"); !strings.Contains(log, "stove     use 300 g leek for the tart") {
		t.Errorf("%q", log)
	}
}

// TestTableNeeds keeps ideas in the shell to the table's needs, which are said in the chat.
func TestTableNeeds(t *testing.T) {
	db := mustKitchen(t)
	now := time.Now().UTC().Format(time.RFC3339)
	must(t, `{"id":"n1","cook":"bo","at":"`+now+`","text":"got 500g butter, 300g cheddar"}
{"id":"n2","cook":"bo","at":"`+now+`","text":"table: milk allergy"}
`, "pipe", "--db", db)
	var list []bot.Idea
	mustRead(t, must(t, "", "ideas", "--json", "--db", db), &list)
	for _, i := range list {
		if slices.Contains(i.Allergens, "milk") {
			t.Errorf("%s holds milk", i.Title)
		}
	}
	if len(list) == 0 {
		t.Error("no idea without milk")
	}
}
