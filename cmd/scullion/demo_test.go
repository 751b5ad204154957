package main

import (
	"slices"
	"strings"
	"testing"
)

func TestDemoText(t *testing.T) {
	crate, service := readDemo("crate", demoCrate), readDemo("service", demoService)
	if len(crate) < 12 || len(service) < 20 {
		t.Fatalf("%d and %d turns", len(crate), len(service))
	}
	seen := map[string]bool{}
	for _, d := range append(crate, service...) {
		if seen[d.id] || d.text == "" || !strings.Contains(" larder stove pastry ", " "+d.cook+" ") {
			t.Errorf("%+v", d)
		}
		seen[d.id] = true
	}
	if n := strings.Count(demoCrate+demoService, "\n") - 2; n != len(seen) {
		t.Errorf("%d lines make %d turns", n, len(seen))
	}
}

// The demo shows every side of the talk, and once shown it changes nothing
// more.
func TestDemo(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	first := must(t, "", "chat", "--demo")
	log := must(t, "", "log", "--all", "--json", "--kitchen", "demo")
	if second := must(t, "", "chat", "--demo"); second != first {
		t.Errorf("shown again:\n%s\nat first:\n%s", second, first)
	}
	if again := must(t, "", "log", "--all", "--json", "--kitchen", "demo"); again != log {
		t.Errorf("the second showing wrote something:\n%s\nafter\n%s", again, log)
	}
	for _, kind := range []string{"receive", "use", "bin", "claim", "count"} {
		if !strings.Contains(log, `"kind":"`+kind+`"`) {
			t.Errorf("nothing shows %s", kind)
		}
	}
	for _, what := range []string{`"trim":true`, `"why":"undone"`, `"why":"corrected"`} {
		if !strings.Contains(log, what) {
			t.Errorf("nothing shows %s", what)
		}
	}
	talk := map[string]bool{"three dishes tonight, doors at half six": true, "the radio is too loud": true}
	lines := strings.Split(first, "\n")
	for _, d := range append(readDemo("crate", demoCrate), readDemo("service", demoService)...) {
		said := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, d.cook) && strings.HasSuffix(l, d.text) })
		if said < 0 || strings.HasPrefix(lines[said+1], "scullion") == talk[d.text] {
			t.Errorf("%s: %s: answered, or not, against what a newcomer should see", d.cook, d.text)
		}
		lines = lines[max(said, 0)+1:]
	}
	must(t, "", "check")
	if r := try(t, "", "left"); r.out != "" {
		t.Errorf("the demo is in the team's own kitchen: %s", r.out)
	}
}
