package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/tables"
)

// furnished is a store whose kitchen has rows in every table.
func furnished(t testing.TB) *Store {
	t.Helper()
	s := opened(t, newFile(t))
	do(t, s, act("in", "leek", pantry.Receive, 1000))
	do(t, s, act("use", "leek", pantry.Use, 300))
	do(t, s, act("stock", "stock", pantry.Make, 600))
	do(t, s, act("keep", "leek", pantry.Claim, 150))
	do(t, s, func(b pantry.Book) error {
		m, err := b.Message("use")
		if err != nil {
			return err
		}
		_, err = b.Revise(m, m, pantry.Edited, []pantry.Entry{entry(1, pantry.Use, 250), entry(2, pantry.Use, 100)})
		return errors.Join(err, b.AnswerChange(m, "edit 1", "used \"250g\",\r\nreally", false, []byte("changed")), b.AddDish("tart"), b.AddDish("=soup"))
	})
	do(t, s, func(b pantry.Book) error {
		cook, err := b.CookOf("77", "Stove, the")
		if err != nil {
			return err
		}
		m, err := b.Hear(pantry.Message{ID: "taught", Cook: cook, At: tuesday.In(time.FixedZone("", 3600)), Room: "r1", Edited: tuesday.UnixMicro() + 5})
		if err != nil {
			return err
		}
		return errors.Join(
			b.Teach(m, m, pantry.Said, []pantry.Lesson{{Name: "knobbly", Means: "celeriac"}, {Name: "sea beet", Cells: map[string]string{"like": "spinach"}}}),
			b.Answer(m, "'tis \xff taught", []byte(`{"Line":1}`)),
			b.Ask(cook, &pantry.Question{Message: "taught", At: tuesday, Body: []byte("?")}),
			b.Choose(pantry.Choice{Message: "taught", Cook: cook, Title: "-charred", Taken: true, At: tuesday, Until: tuesday.Add(time.Minute), Kit: []string{"ring", "oven"}}),
			b.SaveService(pantry.Service{Message: "taught", Cook: cook, Begun: tuesday, Due: tuesday.Add(time.Hour), Body: []byte("{}")}),
			b.SaveWrapUp(m, tuesday.Add(-time.Minute)),
			b.SaveDoubt(pantry.Doubt{Message: m, Told: must(b.Message("stock"))(t)}),
			b.KeepNeeds(m, []pantry.Need{{Kind: pantry.NeedAllergy, What: "milk", Count: 2, Said: "2 milk allergies"}, {Kind: pantry.NeedDiet, Who: "dee", What: "vegan", Lasting: true, Count: pantry.Everyone}}),
			b.SetTimer(pantry.Timer{Message: "taught", Part: 1, Cook: cook, Room: "r1", About: "bread", Begun: tuesday, Due: tuesday.Add(time.Minute)}))
	})
	return s
}

func exportedJSON(t testing.TB, s *Store, kitchen string) (file string) {
	t.Helper()
	file = filepath.Join(t.TempDir(), "kitchen.json")
	if err := s.ExportJSON(context.Background(), kitchen, file, nil); err != nil {
		t.Fatal(err)
	}
	return file
}

func exportedCSV(t testing.TB, s *Store, kitchen string) (dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "csv")
	if err := s.ExportCSV(context.Background(), kitchen, dir, nil); err != nil {
		t.Fatal(err)
	}
	return dir
}

// filesOf gives the text of each file in a folder.
func filesOf(t testing.TB, dir string) map[string]string {
	t.Helper()
	list := map[string]string{}
	for _, e := range must(os.ReadDir(dir))(t) {
		list[e.Name()] = string(readFile(t, filepath.Join(dir, e.Name())))
	}
	return list
}

func TestTakenAndBack(t *testing.T) {
	s := furnished(t)
	json, csv := exportedJSON(t, s, boathouse), exportedCSV(t, s, boathouse)
	for _, table := range tables.All {
		if !bytes.Contains(readFile(t, json), []byte("\""+table.Name+"\": [\n{")) {
			t.Errorf("the kitchen of this test has no %s", table.Name)
		}
	}
	for _, from := range []string{json, csv} {
		other := opened(t, newFile(t))
		do(t, other, act("before", "leek", pantry.Receive, 5)) // a kitchen of the same name is no other
		wantFault(t, other.Import(t.Context(), from, "", nil), `there is a kitchen "boathouse" already`)
		if err := other.Import(t.Context(), from, "annexe", nil); err != nil {
			t.Fatal(err)
		}
		if got, want := readFile(t, exportedJSON(t, other, "annexe")), bytes.Replace(readFile(t, json), []byte(`"kitchen": "boathouse"`), []byte(`"kitchen": "annexe"`), 1); !bytes.Equal(got, want) {
			t.Errorf("JSON of %s:\n%s\nwant\n%s", from, got, want)
		}
		got, want := filesOf(t, exportedCSV(t, other, "annexe")), filesOf(t, csv)
		want[headName] = strings.Replace(want[headName], boathouse, "annexe", 1)
		if !maps.Equal(got, want) {
			t.Errorf("CSV of %s:\n%v\nwant\n%v", from, got, want)
		}
		if checkStore(t, other); written(t, other, "annexe") != viewed(t, other, "annexe") {
			t.Error("the writer sees another kitchen")
		}
		err := other.Do(t.Context(), "annexe", func(b pantry.Book) error {
			m, err := b.Message("use")
			if err != nil {
				return err
			}
			_, err = b.Revise(m, m, pantry.Edited, nil) // what was before is folded again
			return errors.Join(err, say(b, "next", "larder", entry(b.Kitchen().Named("leek").ID, pantry.Use, 400)))
		})
		if err != nil {
			t.Fatal(err)
		}
		if l := must(other.View(t.Context(), "annexe"))(t).Named("leek"); l.OnHand() != 600_000 {
			t.Errorf("%v on hand", l.OnHand())
		}
	}
}

const headName = "kitchen.csv"

// What is opened and never spoken in is no kitchen to be protected.
func TestImportIntoASilentKitchen(t *testing.T) {
	json := exportedJSON(t, furnished(t), boathouse)
	s := opened(t, newFile(t))
	do(t, s, func(pantry.Book) error { return nil })
	if err := s.Import(t.Context(), json, "", nil); err != nil {
		t.Fatal(err)
	}
	wantFault(t, s.Import(t.Context(), json, "", nil), "already")
}

// TestEverythingIsTaken holds the schema against what an export has: who adds a column says where
// it goes.
func TestEverythingIsTaken(t *testing.T) {
	left := map[string]string{
		"kitchen.name": "at the head", "kitchen.id": "a number of this file's", "line.id": "a number of this file's",
		"message.n": "the order of rows", "dish.n": "the order of rows",
		"balance": "folded anew from the entries; on_hand and claimed are taken, to be held against that",
		"room":    "which rooms of a chat are joined, by whom: the chat's, not the kitchen's",
		"post":    "what is still to be shown in rooms: over as soon as it is shown",
	}
	taken := map[string]bool{}
	for _, table := range tables.All {
		for _, c := range table.Columns {
			if c.Kind != tables.Sum && c.Kind != tables.Reads {
				taken[sources[table.Name].table+"."+c.Name] = true
			}
		}
	}
	db := raw(t, opened(t, newFile(t)).path)
	rows := must(db.Query(`SELECT m.name, c.name FROM sqlite_master AS m JOIN pragma_table_info(m.name) AS c WHERE m.type = 'table'`))(t)
	defer rows.Close()
	for rows.Next() {
		var table, column string
		if err := rows.Scan(&table, &column); err != nil {
			t.Fatal(err)
		}
		name := table + "." + column
		if !taken[name] && left[name] == "" && left[table] == "" && column != "kitchen" {
			t.Errorf("%s is not taken along: add it to pantry/tables/columns.csv, or say here why not", name)
		}
		delete(taken, name)
	}
	if len(taken) > 0 {
		t.Errorf("taken along, and not there: %v", slices.Collect(maps.Keys(taken)))
	}
}

// An export is one moment of a kitchen that others write to.
func TestExportWhileOthersWrite(t *testing.T) {
	path := newFile(t)
	s, other := opened(t, path), opened(t, path)
	do(t, s, act("in", "leek", pantry.Receive, 1000))
	var wait sync.WaitGroup
	wait.Go(func() {
		for i := range 300 {
			if err := other.Do(context.Background(), boathouse, act(fmt.Sprint("m", i), "leek", pantry.Use, 1)); err != nil {
				t.Error(err)
			}
		}
	})
	for range 5 {
		fresh := opened(t, newFile(t))
		if err := fresh.Import(t.Context(), exportedJSON(t, s, boathouse), "", nil); err != nil {
			t.Fatal(err)
		}
	}
	wait.Wait()
}

func TestExportReplacesNothing(t *testing.T) {
	s := furnished(t)
	dir := t.TempDir()
	file := filepath.Join(dir, "there")
	if err := os.WriteFile(file, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	wantFault(t, s.ExportJSON(t.Context(), boathouse, file, nil), "something of this name already")
	wantFault(t, s.ExportCSV(t.Context(), boathouse, file, nil), "something of this name already")
	wantFault(t, s.ExportCSV(t.Context(), boathouse, dir, nil), "something of this name already")
	wantFault(t, s.ExportJSON(t.Context(), boathouse, filepath.Join(dir, "no", "file"), nil), "cannot be written")
	wantFault(t, s.ExportCSV(t.Context(), boathouse, filepath.Join(dir, "no", "folder"), nil), "cannot be written")
	for _, err := range []error{s.ExportJSON(t.Context(), "annexe", filepath.Join(dir, "a"), nil), s.ExportCSV(t.Context(), "annexe", filepath.Join(dir, "b"), nil)} {
		if !errors.Is(err, ErrNoKitchen) {
			t.Errorf("a kitchen that is not there: %v", err)
		}
	}
	onlyFiles(t, dir, "there")
	if string(readFile(t, file)) != "mine" {
		t.Error("it was written to")
	}
	empty := filepath.Join(dir, "empty")
	if err := errors.Join(os.Mkdir(empty, 0o700), s.ExportCSV(t.Context(), boathouse, empty, nil)); err != nil {
		t.Error(err)
	}
}

// TestImportRefuses breaks an export in one place each, and asks for the place, the reason and
// what to do, and that nothing was written.
func TestImportRefuses(t *testing.T) {
	s := furnished(t)
	json, csv := exportedJSON(t, s, boathouse), exportedCSV(t, s, boathouse)
	for _, c := range []struct {
		name, file string // "" the JSON
		old, new   string
		says       string
	}{
		{"Version", "", `"version": 1`, `"version": 2`, `:3: this is version "2" of the format`},
		{"Format", "", `"format": "scullion kitchen"`, `"format": "x"`, `:2: the format is "x"`},
		{"Act", "", `"act":"make"`, `"act":"eat"`, `: entries: act: "eat" is not one of receive use`},
		{"Below", "", `"amount":600000`, `"amount":-600000`, ": entries: amount: -600000 is below nothing"},
		{"TooMuch", "", `"amount":600000`, `"amount":6000000000000000`, "more than a kitchen holds"},
		{"Fraction", "", `"amount":600000`, `"amount":0.5`, "amount is 0.5, not a whole number"},
		{"Line", "", `"line":"stock","act":"make"`, `"line":"stick","act":"make"`, `entries: line: there is no line "stick"`},
		{"Message", "", `{"message":"keep","rev":1,"part":0,"line"`, `{"message":"kept","rev":1,"part":0,"line"`, `entries: message: there is no message "kept"`},
		{"By", "", `"by":"use"`, `"by":"us"`, `revisions: by: there is no message "us"`},
		{"Cook", "", `{"name":"larder"`, `{"name":"lard"`, `messages: there is no cook "larder"`},
		{"Words", "", `"reads":"600 g"`, `"reads":"60 g"`, `reads says "60 g": change both or neither`},
		{"Balance", "", `"claimed":150000`, `"claimed":0`, ":14: lines: leek: claimed is 0, and the entries come to 150000"},
		{"Lost", "", `"rev":2,"part":0,"line":"leek"`, `"rev":2,"part":1,"line":"leek"`, "part 1 stands where part 0 belongs"},
		{"Revisions", "", `{"message":"use","rev":2,"by"`, `{"message":"use","rev":1,"by"`, "messages: it has rev 2, which is not among the revisions"},
		{"Revision", "", `{"message":"keep","rev":1,"part":0,"line"`, `{"message":"keep","rev":2,"part":0,"line"`, "rev 2, and the message says it has 1"},
		{"Order", "", `{"message":"keep","rev":1,"part":0,"line"`, `{"message":"in","rev":1,"part":0,"line"`, "comes too late"},
		{"Twice", "", `"id":"keep"`, `"id":"stock"`, `messages: "stock" stands twice`},
		{"ColumnTwice", "", `"id":"keep"`, `"id":"keep","id":"keep"`, "messages: id stands twice"},
		{"ColumnUnknown", "", `"id":"keep"`, `"ID":"keep"`, `there is no column "ID"`},
		{"ColumnMissing", "", `"id":"keep",`, ``, "messages: id is missing"},
		{"Null", "", `"id":"keep"`, `"id":null`, "id is <nil>, not text"},
		{"Nested", "", `"id":"keep"`, `"id":["keep"]`, "id is [, not text"},
		{"Time", "", `"at":"2026-03-03T17:00:00Z"`, `"at":"2026-03-03 17:00"`, "is not a time such as"},
		{"Comma", "", `"at":"2026-03-03T17:00:00Z"`, `"at":"2026-03-03T17:00:00,5Z"`, "is not a time such as"},
		{"Finer", "", `"due":"2026-03-03T18:00:00Z"`, `"due":"2026-03-03T18:00:00.0001Z"`, "finer than is kept"},
		{"Date", "", `"date":""`, `"date":"3 March"`, "a date is year-month-day"},
		{"Unit", "", `"unit":"g"`, `"unit":"oz"`, `lines: unit: a unit is "g" or "ml"`},
		{"Shelf", "", `"shelf":"crate"`, `"shelf":"shed"`, `lines: shelf: "shed" is not one of crate cupboard`},
		{"Lesson", "", `"means":"celeriac"`, `"means":""`, "lessons: a lesson has means or cells"},
		{"Cells", "", `"cells":"{\"like\":\"spinach\"}"`, `"cells":"null"`, "cells is not a JSON object of text"},
		{"Rule", "", `"cells":"{\"like\":\"spinach\"}"`, `"cells":"{\"rule\":\"keeps\",\"days\":\"0\",\"place\":\"fridge\"}"`, "lessons: the house rule on"},
		{"Bytes", "", `"id":"keep"`, "\"id\":\"ke\xffep\"", ":21: messages: there is text that is not UTF-8"},
		{"Surrogate", "", `"id":"keep"`, `"id":"ke\ud83dep"`, "there is text that is not UTF-8"},
		{"Cut", "", "\"timers\": [", "\"timers\": [\x00", "this is not JSON"},
		{"Tables", "", `"dishes": [`, `"plates": [`, `"plates" stands where "dishes" belongs`},
		{"After", "", "]\n}\n", "]\n}\n{}", "something after the end"},
		{"CSVAct", "entries.csv", ",make,", ",eat,", `entries.csv:6: entries: act: "eat"`},
		{"CSVLines", "messages.csv", "keep,larder", "stock,larder", `messages.csv:6: messages: "stock" stands twice`},
		{"CSVBalance", "lines.csv", "150000", "0", "lines.csv:2: lines: leek: claimed is 0"},
		{"CSVNumber", "entries.csv", ",600000,", ",6e5,", `amount: "6e5" is not a whole number`},
		{"CSVFlag", "messages.csv", ",false,", ",FALSE,", `gone: "FALSE" is not true or false`},
		{"CSVHeading", "dishes.csv", "name", "title", "dishes.csv:1: the heading must be: name"},
		{"CSVCells", "cooks.csv", "larder,,", "larder,", "cooks.csv:3: cooks: there are 2 cells where 3 belong"},
		{"CSVQuote", "dishes.csv", "tart", `ta"rt`, "dishes.csv:2: dishes: a quote stands within a cell"},
		{"CSVOpen", "dishes.csv", "tart", `"tart`, "a quote is opened and not closed"},
		{"CSVAfter", "dishes.csv", "tart", `"tart"s`, "a cell goes on after its closing quote"},
		{"CSVReturn", "dishes.csv", "tart", "ta\rrt", "a carriage return stands alone"},
		{"CSVBytes", "dishes.csv", "tart", "t\xc3rt", "text that is not UTF-8"},
		{"CSVRowLost", "dishes.csv", "tart\r\n", "", "dishes.csv: dishes: there are 1 rows, and kitchen.csv says 2"},
		{"CSVVersion", headName, ",1,boathouse", ",7,boathouse", `kitchen.csv:2: this is version "7"`},
		{"CSVName", headName, ",boathouse,", ",,", "the kitchen has no name"},
		{"CSVCount", headName, ",boathouse,2", ",boathouse,two", `cooks: "two" is not a whole number`},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := copyExport(t, json, csv, c.file, func(text string) string {
				if !strings.Contains(text, c.old) {
					t.Fatalf("no %q in %s", c.old, text)
				}
				return strings.Replace(text, c.old, c.new, 1)
			})
			fresh := opened(t, newFile(t))
			err := fresh.Import(t.Context(), path, "", nil)
			wantFault(t, err, c.says)
			if _, err2 := CheckImport(path); err2 == nil || err2.Error() != err.Error() {
				t.Errorf("a mere check says %v", err2)
			}
			if !strings.HasPrefix(err.Error(), path) {
				t.Errorf("it does not say where: %v", err)
			}
			if list := must(fresh.Kitchens(t.Context()))(t); len(list) > 0 {
				t.Errorf("it left %v", list)
			}
		})
	}
	for _, c := range []struct{ path, says string }{
		{filepath.Join(t.TempDir(), "gone.json"), "this cannot be read"},
		{t.TempDir(), "kitchen.csv: this file is missing"},
		{s.path, "this is not JSON"},
	} {
		if _, err := CheckImport(c.path); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.path, err)
		}
	}
}

// copyExport copies an export with one of its files changed; "" is the JSON.
func copyExport(t testing.TB, json, csv, file string, change func(string) string) (path string) {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if file == "" {
		write("changed.json", change(string(readFile(t, json))))
		return filepath.Join(dir, "changed.json")
	}
	for name, text := range filesOf(t, csv) {
		if name == file {
			text = change(text)
		}
		write(name, text)
	}
	return dir
}

// What other programs make of a file without changing what it says is read the same.
func TestImportOfOtherLayouts(t *testing.T) {
	s := furnished(t)
	json, csv := exportedJSON(t, s, boathouse), exportedCSV(t, s, boathouse)
	for name, c := range map[string]struct {
		file   string
		change func(string) string
	}{
		"Mark":    {"", func(s string) string { return "\xEF\xBB\xBF" + s }},
		"Blanks":  {"", func(s string) string { return strings.NewReplacer("{\"", "{\r\n\t\"", ",\n", " , ").Replace(s) }},
		"Escapes": {"", func(s string) string { return strings.ReplaceAll(s, "leek", `\u006ceek`) }},
		"CSVMark": {"dishes.csv", func(s string) string { return "\xEF\xBB\xBF" + s }},
		"CSVFeed": {"cooks.csv", func(s string) string { return strings.TrimSuffix(strings.ReplaceAll(s, "\r\n", "\n"), "\n") }},
		"CSVQuot": {"dishes.csv", func(s string) string { return strings.ReplaceAll(s, "tart", `"tart"`) }},
	} {
		t.Run(name, func(t *testing.T) {
			fresh := opened(t, newFile(t))
			if err := fresh.Import(t.Context(), copyExport(t, json, csv, c.file, c.change), "", nil); err != nil {
				t.Fatal(err)
			}
			if got, want := readFile(t, exportedJSON(t, fresh, boathouse)), readFile(t, json); !bytes.Equal(got, want) {
				t.Errorf("%s\nwant\n%s", got, want)
			}
		})
	}
}

// spoiled is an export of which one file is something else.
type spoiled struct {
	json, csv string
	names     []string // of the files; "" is the JSON
	empty     *Store   // has no kitchen, and must have none
}

func newSpoiled(t testing.TB) *spoiled {
	s := furnished(t)
	x := &spoiled{json: exportedJSON(t, s, boathouse), csv: exportedCSV(t, s, boathouse), empty: opened(t, newFile(t))}
	x.names = append([]string{""}, slices.Sorted(maps.Keys(filesOf(t, x.csv)))...)
	return x
}

// text is what one of the files holds.
func (x *spoiled) text(t testing.TB, name string) string {
	if name == "" {
		return string(readFile(t, x.json))
	}
	return string(readFile(t, filepath.Join(x.csv, name)))
}

// hold asks that the export with this text in that file is refused and nothing is written, or is a
// sound kitchen that comes out as it would go in.
func (x *spoiled) hold(t testing.TB, name, text string) {
	t.Helper()
	path := copyExport(t, x.json, x.csv, name, func(string) string { return text })
	if _, err := CheckImport(path); err != nil {
		again := x.empty.Import(context.Background(), path, "", nil)
		var known *Fault
		if list := must(x.empty.Kitchens(context.Background()))(t); len(list) > 0 || !errors.As(again, &known) || again.Error() != err.Error() {
			t.Fatalf("%v, then %v, left %v", err, again, list)
		}
		return
	}
	first, second := opened(t, newFile(t)), opened(t, newFile(t))
	if err := first.Import(context.Background(), path, "", nil); err != nil {
		t.Fatal(err)
	}
	checkStore(t, first)
	kitchen := must(first.Kitchens(context.Background()))(t)[0]
	once := exportedJSON(t, first, kitchen)
	if err := second.Import(context.Background(), once, "", nil); err != nil {
		t.Fatal(err)
	}
	if a, b := readFile(t, once), readFile(t, exportedJSON(t, second, kitchen)); !bytes.Equal(a, b) {
		t.Fatalf("%s\ncame out as\n%s", a, b)
	}
}

// FuzzImport reads anything at all in the place of one file of an export.
func FuzzImport(f *testing.F) {
	x := newSpoiled(f)
	for i, name := range x.names {
		text := x.text(f, name)
		f.Add(uint8(i), text)
		f.Add(uint8(i), strings.Replace(text, ",0,", ",1,", 1))
		f.Add(uint8(i), text[:len(text)/2])
	}
	f.Fuzz(func(t *testing.T, which uint8, text string) { x.hold(t, x.names[int(which)%len(x.names)], text) })
}

// TestSpoiledImport puts something in the place of something, a few times, in a file of an export.
func TestSpoiledImport(t *testing.T) {
	x := newSpoiled(t)
	rapid.Check(t, func(r *rapid.T) {
		name := rapid.SampledFrom(x.names).Draw(r, "file")
		text := x.text(t, name)
		for range rapid.IntRange(1, 2).Draw(r, "changes") {
			from := rapid.IntRange(0, len(text)).Draw(r, "from")
			to := min(len(text), from+rapid.SampledFrom([]int{0, 1, 1, 2, 30}).Draw(r, "cut"))
			put := rapid.SampledFrom([]string{"", "0", "1", "2", "9", "-", "\"", ",", "\r\n", "}", "{", "a", "\xff", "'", "\\", "null", "true", "leek", "in"}).Draw(r, "put")
			text = text[:from] + put + text[to:]
		}
		x.hold(t, name, text)
	})
}

// BenchmarkExportImport takes a service of 2,000 messages along.
func BenchmarkExportImport(b *testing.B) {
	from := must(Open(b.Context(), filled(b, 2000), Options{}))(b)
	defer from.Close()
	json := exportedJSON(b, from, boathouse)
	b.Run("Export", func(b *testing.B) {
		for b.Loop() {
			exportedJSON(b, from, boathouse)
		}
	})
	b.Run("Import", func(b *testing.B) {
		for b.Loop() {
			s := must(Open(b.Context(), newFile(b), Options{}))(b)
			if err := s.Import(b.Context(), json, "", nil); err != nil {
				b.Fatal(err)
			}
			s.Close()
		}
	})
}
