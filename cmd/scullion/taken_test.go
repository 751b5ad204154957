package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestExportImport(t *testing.T) {
	db, folder := mustKitchen(t), t.TempDir()
	in := func(name string) string { return filepath.Join(folder, name) }
	read := func(name string) string {
		raw, err := os.ReadFile(in(name))
		if err != nil {
			t.Fatal(err)
		}
		return string(raw)
	}
	if out := must(t, "", "export", in("a.json"), "--csv", in("csv"), "--db", db); out != "Kitchen \"kitchen\" is written to "+in("a.json")+".\nKitchen \"kitchen\" is written to "+in("csv")+".\n" {
		t.Errorf("export says %q", out)
	}
	if text := read("a.json"); !strings.Contains(text, `"line":"leek","act":"receive","amount":1200000,"reads":"1200 g"`) {
		t.Errorf("%s", text)
	}
	if text := read("csv/lines.csv"); text != "name,food,unit,shelf,on_hand,reads,claimed\r\nleek,leek,g,crate,900000,900 g,0\r\ncarrot,carrot,g,crate,1600000,1600 g,0\r\n" {
		t.Errorf("%q", text)
	}
	if out := must(t, "", "import", in("a.json"), "--db", in("b.db")); !strings.Contains(out, `Kitchen "kitchen" is in `+in("b.db")) {
		t.Errorf("import says %q", out)
	}
	must(t, "", "import", in("csv"), "--db", in("b.db"), "--kitchen", "last tuesday")
	must(t, "", "check", "--db", in("b.db"))
	must(t, "", "export", in("b.json"), "--db", in("b.db"))
	must(t, "", "export", in("c.json"), "--db", in("b.db"), "--kitchen", "last tuesday")
	if read("b.json") != read("a.json") || strings.Replace(read("c.json"), "last tuesday", "kitchen", 1) != read("a.json") {
		t.Errorf("taken along:\n%s\n%s\nwas\n%s", read("b.json"), read("c.json"), read("a.json"))
	}
	const edit = `{"id":"m3","at":"2026-03-03T18:00:00Z","edit":true,"text":"used 250g leek in the tart"}` + "\n"
	if was, is := must(t, edit, "pipe", "--db", db), must(t, edit, "pipe", "--db", in("b.db")); was != is || !strings.Contains(is, "Changed. Leek 250 g") {
		t.Errorf("the edit of an old message: %s, and there %s", is, was)
	}

	for _, c := range []struct {
		name   string
		args   []string
		status int
		says   string
	}{
		{"There", []string{"export", in("a.json"), "--db", db}, failed, "something of this name already"},
		{"NoKitchen", []string{"export", in("new"), "--db", db, "--kitchen", "annexe"}, failed, `there is no kitchen "annexe"`},
		{"NoFile", []string{"export", in("new"), "--db", in("gone.db")}, failed, "there is no kitchen file"},
		{"NoName", []string{"export", "--db", db}, wrongUsage, "takes one FILE"},
		{"OneName", []string{"export", in("new"), "--csv", in("new"), "--db", db}, wrongUsage, "cannot have one name"},
		{"Same", []string{"import", in("a.json"), "--db", db}, failed, `there is a kitchen "kitchen" already`},
		{"Gone", []string{"import", in("gone.json"), "--db", in("new.db")}, failed, "cannot be read"},
		{"Bad", []string{"import", in("bad.json"), "--db", in("new.db")}, failed, `bad.json:32: entries: act: "eat" is not one of`},
		{"BadName", []string{"import", in("name.json"), "--db", in("new.db")}, failed, "name it with --kitchen"},
	} {
		t.Run(c.name, func(t *testing.T) {
			mustDo(t, os.WriteFile(in("bad.json"), []byte(strings.Replace(read("a.json"), `"act":"receive"`, `"act":"eat"`, 1)), 0o600))
			mustDo(t, os.WriteFile(in("name.json"), []byte(strings.Replace(read("a.json"), `"kitchen": "kitchen"`, `"kitchen": "a\nb"`, 1)), 0o600))
			r := try(t, "", c.args...)
			if r.status != c.status || !strings.Contains(r.err, c.says) || r.out != "" {
				t.Errorf("status %d, %q, %q", r.status, r.out, r.err)
			}
			oneLine(t, r.err)
			for _, name := range []string{"new", "new.db", "gone.db"} {
				if _, err := os.Stat(in(name)); err == nil {
					t.Errorf("it left %s behind", name)
				}
			}
		})
	}
}
