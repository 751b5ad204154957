package paper_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/piprate/json-gold/ld"
	"pgregory.net/rapid"

	"scullion/bot/paper"
	"scullion/pantry/account"
)

// term is a row of testdata/schema.csv.
type term struct {
	kind        string
	of, expects []string
}

const vocabulary = "https://schema.org/"

// schema reads the vocabulary, by term.
func schema(t rapid.TB) map[string]term {
	raw, err := os.ReadFile("testdata/schema.csv")
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(raw))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 30 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	terms := map[string]term{}
	for _, r := range rows[1:] {
		terms[r[1]] = term{r[0], split(r[2]), split(r[3])}
	}
	return terms
}

func split(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, ";")
}

// published answers for https://schema.org with the terms of testdata/schema.csv, and with
// nothing else.
type published map[string]term

func (p published) LoadDocument(url string) (*ld.RemoteDocument, error) {
	if strings.TrimSuffix(url, "/") != "https://schema.org" {
		return nil, fmt.Errorf("nothing is fetched from %s", url)
	}
	context := map[string]any{}
	for name, x := range p {
		def := map[string]any{"@id": vocabulary + name}
		if x.kind == "property" && slices.Contains(x.expects, "RestrictedDiet") {
			def["@type"] = "@id"
		}
		context[name] = def
	}
	return &ld.RemoteDocument{DocumentURL: url, Document: map[string]any{"@context": context}}, nil
}

// expand expands a document with a JSON-LD processor that refuses any term the context has not.
func expand(t rapid.TB, terms map[string]term, doc string) map[string]any {
	t.Helper()
	var parsed any
	if err := json.Unmarshal([]byte(doc), &parsed); err != nil {
		t.Fatal(err)
	}
	o := ld.NewJsonLdOptions("")
	o.DocumentLoader, o.SafeMode = published(terms), true
	nodes, err := ld.NewJsonLdProcessor().Expand(parsed, o)
	if err != nil || len(nodes) != 1 {
		t.Fatalf("%d nodes: %v in\n%s", len(nodes), err, doc)
	}
	return nodes[0].(map[string]any)
}

// under says whether a class is another, or under it.
func under(terms map[string]term, class, above string) bool {
	return class == above || slices.ContainsFunc(terms[class].of, func(c string) bool { return under(terms, c, above) })
}

// checkNode holds a node's properties to its class, and their values to what they expect.
func checkNode(t rapid.TB, terms map[string]term, node map[string]any) {
	t.Helper()
	types, _ := node["@type"].([]any)
	if len(types) != 1 {
		t.Errorf("a node has the types %v", types)
		return
	}
	class := strings.TrimPrefix(types[0].(string), vocabulary)
	if terms[class].kind != "class" {
		t.Errorf("%s is no class", class)
	}
	for key, values := range node {
		if key == "@type" {
			continue
		}
		name := strings.TrimPrefix(key, vocabulary)
		x := terms[name]
		if x.kind != "property" || !slices.ContainsFunc(x.of, func(of string) bool { return under(terms, class, of) }) {
			t.Errorf("%s has no property %s", class, name)
		}
		for _, v := range values.([]any) {
			checkValue(t, terms, name, x, v.(map[string]any))
		}
	}
}

// dataForms are how the vocabulary says that values of its types are written: Mass and Energy as
// "<number> <unit>", Date and Duration by ISO 8601.
var dataForms = map[string]*regexp.Regexp{
	"Mass":     regexp.MustCompile(`^\d+(\.\d+)? g$`),
	"Energy":   regexp.MustCompile(`^\d+(\.\d+)? kcal$`),
	"Date":     regexp.MustCompile(`^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$`),
	"Duration": regexp.MustCompile(`^P(\d+Y)?(\d+M)?(\d+D)?(T(\d+H)?(\d+M)?(\d+S)?)?$`),
	"Text":     regexp.MustCompile(`\S`),
}

func checkValue(t rapid.TB, terms map[string]term, name string, x term, v map[string]any) {
	t.Helper()
	fits := func(expected string) bool {
		switch value := v["@value"].(type) {
		case string:
			form := dataForms[expected]
			return form != nil && form.MatchString(value)
		case float64:
			return expected == "Number" || expected == "Integer" && value == float64(int(value))
		}
		if id, ok := v["@id"].(string); ok {
			member := terms[strings.TrimPrefix(id, vocabulary)]
			return member.kind == "member" && slices.Contains(member.of, expected)
		}
		types, _ := v["@type"].([]any)
		return len(types) == 1 && under(terms, strings.TrimPrefix(types[0].(string), vocabulary), expected)
	}
	if !slices.ContainsFunc(x.expects, fits) {
		t.Errorf("%s expects %v and has %v", name, x.expects, v)
	}
	if v["@type"] != nil {
		checkNode(t, terms, v)
	}
}

// TestJSONLDIsSchemaOrg expands sheets with a JSON-LD processor and holds every class, property
// and value against the vocabulary of schema.org as published.
func TestJSONLDIsSchemaOrg(t *testing.T) {
	terms, seen := schema(t), map[string]bool{}
	for _, s := range []*account.Sheet{tart(t), {Dish: "nothing yet"}, salad()} {
		doc := paper.JSONLD(s, options())
		checkNode(t, terms, expand(t, terms, doc))
		for name := range terms {
			if strings.Contains(doc, `"`+name+`"`) || strings.Contains(doc, vocabulary+name+`"`) {
				seen[name] = true
			}
		}
	}
	for name, x := range terms {
		if x.kind != "class" && !seen[name] {
			t.Errorf("%s is in no sheet: take it out of the table", name)
		}
	}
	// The check itself finds what is wrong.
	bad := strings.Replace(paper.JSONLD(tart(t), options()), `"recipeYield"`, `"servings"`, 1)
	var parsed any
	if err := json.Unmarshal([]byte(bad), &parsed); err != nil {
		t.Fatal(err)
	}
	o := ld.NewJsonLdOptions("")
	o.DocumentLoader, o.SafeMode = published(terms), true
	if _, err := ld.NewJsonLdProcessor().Expand(parsed, o); err == nil {
		t.Error("a term that the vocabulary has not goes unseen")
	}
}

// TestSchemaTable holds testdata/schema.csv against schema-dts, the vocabulary as types, where
// NODE_PATH has it.
func TestSchemaTable(t *testing.T) {
	types := ""
	for _, dir := range filepath.SplitList(os.Getenv("NODE_PATH")) {
		if raw, err := os.ReadFile(filepath.Join(dir, "schema-dts/dist/schema.d.ts")); err == nil {
			types = string(raw)
		}
	}
	if types == "" {
		t.Skip("schema-dts is not in NODE_PATH (npm install it there)")
	}
	body := func(class string) (extends, props string) {
		m := regexp.MustCompile(`(?ms)^interface ` + class + `Base extends ([^{]+) \{\n(.*?)^\}`).FindStringSubmatch(types)
		if m == nil {
			t.Errorf("%s is no class", class)
			return "", ""
		}
		return m[1], m[2]
	}
	for name, x := range schema(t) {
		for _, of := range x.of {
			switch x.kind {
			case "class":
				if extends, _ := body(name); !slices.Contains(strings.Split(extends, ", "), of+"Base") {
					t.Errorf("%s is under %s, not %s", name, extends, of)
				}
			case "property":
				_, props := body(of)
				m := regexp.MustCompile(`"` + name + `"\?: SchemaValue<([^,]+),`).FindStringSubmatch(props)
				want := strings.Join(x.expects, " | ")
				if m == nil || strings.TrimSuffix(m[1], " | IdReference") != want && (name != "suitableForDiet" || !strings.HasPrefix(m[1], want)) {
					t.Errorf("%s of %s expects %v", name, of, m)
				}
			case "member":
				if !regexp.MustCompile(`export type ` + of + ` = .*"https://schema.org/` + name + `"`).MatchString(types) {
					t.Errorf("%s is no member of %s", name, of)
				}
			}
		}
	}
}
