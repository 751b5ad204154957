package technique

import (
	"io"
	"slices"
	"strings"
	"testing"
)

// goodFrame is a row that ReadFrames takes; the cases below spoil one field of it.
var goodFrame = map[string]string{
	"id": "pot", "name": "pot of roots", "family": "stew", "serve": "hot", "lead": "base", "form": "pieces",
	"roles": "base:1-3:100-200:boil;star:0-1:50-100:none", "suits": "base=leek!/potato;star=feta!",
	"never": "spinach;apple=no", "staples": "olive oil/oil 4 ml", "steps": "cut|0.5+0.4|0|hands|;boil|1+0|12|ring|100",
	"after": "", "handles": "base+star;base", "cooks": "-;base", "holds": "hot 20 min", "mixes": "2",
	"title": "{base} pot", "how": "Boil it.", "caution": "hot", "source": "common practice, no source",
}

func frameTable(rows ...map[string]string) io.Reader {
	return strings.NewReader(written(frameHeader, rows...))
}

// written writes rows as a table.
func written(header []string, rows ...map[string]string) string {
	var b strings.Builder
	b.WriteString(strings.Join(header, ",") + "\n")
	for _, row := range rows {
		for i, column := range header {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(`"` + row[column] + `"`)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func frameWith(changes ...string) map[string]string { return changed(goodFrame, changes...) }

func changed(row map[string]string, changes ...string) map[string]string {
	out := map[string]string{}
	for k, v := range row {
		out[k] = v
	}
	for i := 0; i < len(changes); i += 2 {
		out[changes[i]] = changes[i+1]
	}
	return out
}

func TestReadFramesTakesAGoodRow(t *testing.T) {
	list, err := ReadFrames("t.csv", frameTable(goodFrame))
	if err != nil || len(list) != 1 {
		t.Fatalf("got %d rows, %v", len(list), err)
	}
	f := list[0]
	base, star := f.Roles[0], f.Roles[1]
	if base.Least != 1 || base.Most != 3 || base.Min != 100 || base.Max != 200 || base.Heat != Boil || base.Boil != 12 || star.Least != 0 || star.Boil != 0 {
		t.Errorf("roles %+v", f.Roles)
	}
	if f.Lead != 0 || f.Mixes != 2 || !base.Suits[0].Best || base.Suits[1].Best || f.Never[1].Reason != "no" {
		t.Errorf("%+v", f)
	}
	if !slices.Equal(f.Handles[0], []int{0, 1}) || f.Cooks[0] != nil || !slices.Equal(f.Cooks[1], []int{0}) {
		t.Errorf("handles %v cooks %v", f.Handles, f.Cooks)
	}
	if g := f.StepGrams(0, []float64{200, 50}); g != 250 {
		t.Errorf("the first step handles %g g", g)
	}
	if total, hands := f.Minutes([]float64{200, 50}); diff(total, 0.5+1+1+12) > 1e-9 || diff(hands, 2.5) > 1e-9 {
		t.Errorf("%g minutes, %g hands", total, hands)
	}
	if total, _ := f.Minutes([]float64{0, 50}); diff(total, 0.7) > 1e-9 {
		t.Errorf("%g minutes with nothing to boil", total)
	}
}

func TestReadFramesRefuses(t *testing.T) {
	roles := func(s string) map[string]string { return frameWith("roles", s) }
	oven := "heat oven|0.2+0|12|oven|200;bake|1+0|30|oven|200"
	for name, c := range map[string]struct {
		row  map[string]string
		says string
	}{
		"no id":               {frameWith("id", ""), "id: is empty"},
		"unknown family":      {frameWith("family", "cake"), "family"},
		"unknown serve":       {frameWith("serve", "tepid"), "serve"},
		"unknown form":        {frameWith("form", "foam"), "form"},
		"no roles":            {roles(""), "no role"},
		"role short":          {roles("base:1-3:100-200"), "role:foods:grams:heat"},
		"unknown role":        {roles("hero:1-3:100-200:boil"), "role:foods:grams:heat"},
		"unknown heat":        {roles("base:1-3:100-200:hot"), "role:foods:grams:heat"},
		"role twice":          {roles("base:1:100-200:boil;base:1:10-20:none"), "already"},
		"foods backwards":     {roles("base:3-1:100-200:boil;star:0-1:50-100:none"), "roles"},
		"half a food":         {roles("base:0.5-1:100-200:boil;star:0-1:50-100:none"), "whole"},
		"no food at all":      {roles("base:0:100-200:boil;star:0-1:50-100:none"), "roles"},
		"no grams":            {roles("base:1:0-200:boil;star:0-1:50-100:none"), "roles"},
		"grams backwards":     {roles("base:1:200-100:boil;star:0-1:50-100:none"), "roles"},
		"leads nothing":       {frameWith("lead", "sauce"), "lead"},
		"lead may be empty":   {frameWith("lead", "star"), "lead"},
		"suits no such role":  {frameWith("suits", "base=leek;sauce=feta"), "no such role"},
		"suits a role twice":  {frameWith("suits", "base=leek;base=feta"), "no such role"},
		"suits nothing":       {frameWith("suits", "base=leek"), "nothing for star"},
		"suits an empty item": {frameWith("suits", "base=leek//potato;star=feta"), "empty item"},
		"handles too few":     {frameWith("handles", "base"), "1 entries for 2 steps"},
		"handles unknown":     {frameWith("handles", "base+star;sauce"), "no role"},
		"handles twice":       {frameWith("handles", "base+base;star"), "twice"},
		"nothing handles it":  {frameWith("handles", "base;base"), "no step handles star"},
		"cooks too many":      {frameWith("cooks", "-;base;base"), "3 entries"},
		"boiled by no step":   {frameWith("steps", "cut|0.5+0.4|0|hands|;fry|1+0|12|ring|"), "98 C"},
		"cooked by no step":   {frameWith("cooks", "base;-"), "no hot step"},
		"warm by hand":        {roles("base:1-3:100-200:boil;star:0-1:50-100:warm"), "no hot step cooks star"},
		"oven not heated":     {frameWith("steps", "cut|1+1|0|hands|;bake|1+0|30|oven|200"), "heats it"},
		"oven not waited for": {frameWith("steps", oven, "after", "-;-", "roles", "base:1:100-200:through;star:0-1:50-100:none"), "does not wait"},
		"oven at another heat": {frameWith("steps", strings.Replace(oven, "oven|200;", "oven|150;", 1),
			"roles", "base:1:100-200:through;star:0-1:50-100:none"), "does not wait"},
		"staple without unit": {frameWith("staples", "oil 4"), "staples"},
		"mixes too well":      {frameWith("mixes", "4"), "mixes"},
		"title of no role":    {frameWith("title", "pot"), "names no role"},
		"title of another":    {frameWith("title", "{base} and {food}"), "{food}"},
		"title that may gape": {frameWith("title", "{base} and {star}"), "{star}"},
		"no how":              {frameWith("how", ""), "how"},
		"no source":           {frameWith("source", ""), "source: is empty"},
		"id there already":    {frameWith("id", "first"), "already"},
		"title there already": {frameWith("title", "first {base}"), "already"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ReadFrames("own.csv", frameTable(frameWith("id", "first", "title", "first {base}"), c.row))
			if err == nil {
				t.Fatal("taken")
			}
			if !strings.HasPrefix(err.Error(), "own.csv:3: ") || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q does not say file, line and %q", err, c.says)
			}
		})
	}
	if _, err := ReadFrames("own.csv", strings.NewReader("id,name\n")); err == nil || !strings.HasPrefix(err.Error(), "own.csv:1: ") {
		t.Errorf("other columns: %v", err)
	}
}
