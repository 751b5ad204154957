package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// allowed says which of the project's packages a package may import, by the
// start of their names. What is not listed may import none of them.
var allowed = map[string][]string{
	"cmd/scullion":       {"bot", "pantry", "planner"},
	"bot/terminal":       {"bot", "bot/picture"},
	"bot/discord":        {"bot", "bot/picture", "bot/drawn"},
	"bot/discord/strict": {},
	"bot/board":          {"bot", "bot/picture", "bot/drawn"},
	"bot/drawn":          {"bot", "bot/picture"},
	"bot/picture":        {},
	"bot/paper":          {"pantry", "pantry/account", "pantry/food", "pantry/measure"},
	"bot":                {"bot/language", "bot/paper", "pantry", "pantry/account", "pantry/food", "pantry/measure", "planner", "planner/heat"},
	"bot/language":       {"pantry/measure", "pantry/food"},
	"planner":            {"planner/", "pantry/food", "pantry/measure"},
	"planner/technique":  {"pantry/food", "pantry/measure"},
	"planner/heat":       {},
	"planner/share":      {},
	"planner/timetable":  {},
	"pantry":             {"pantry/food", "pantry/measure"},
	"pantry/measure":     {},
	"pantry/food":        {"pantry/measure"},
	"pantry/account":     {"pantry", "pantry/food", "pantry/measure"},
	"pantry/tables":      {"pantry", "pantry/food", "pantry/measure"},
	"pantry/store":       {"pantry", "pantry/food", "pantry/measure", "pantry/tables"},
}

// TestLayout reads every import of the project and refuses an arrow that the
// house does not have. Tests may look anywhere.
func TestLayout(t *testing.T) {
	seen := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		from := strings.TrimPrefix(filepath.ToSlash(filepath.Dir(path)), "../../")
		rules, ok := allowed[from]
		if !ok {
			t.Errorf("%s is a package that the house does not know", from)
		}
		seen++
		for _, i := range f.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			to, ours := strings.CutPrefix(name, "scullion/")
			if ours && !may(from, rules, to) {
				t.Errorf("%s imports %s", path, name)
			}
			if lib := "github.com/bwmarrin/discordgo"; strings.HasPrefix(name, lib) && from != "bot/discord" {
				t.Errorf("%s imports %s", path, lib)
			}
			if from != "pantry/store" && (name == "database/sql" || strings.Contains(name, "sqlite")) {
				t.Errorf("%s knows the database: %s", path, name)
			}
		}
		return nil
	})
	if err != nil || seen < 50 {
		t.Fatalf("%d files: %v", seen, err)
	}
}

func may(from string, rules []string, to string) bool {
	for _, r := range rules {
		if to == r || strings.HasSuffix(r, "/") && strings.HasPrefix(to, r) {
			return true
		}
		if from == "cmd/scullion" && strings.HasPrefix(to, r+"/") {
			return true
		}
	}
	return false
}
