package food

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// published names, for what each row of storage.csv is called, the rows of the reference
// that its figure is out of.
var published = map[string][]string{
	"cooked rice":      {"cooked rice"},
	"leftover rice":    {"cooked meat or poultry", "soups and stews"}, // the chart's figure for leftovers
	"cooked poultry":   {"leftovers, any cooked dish", "cooked meat or poultry"},
	"cooked shellfish": {"cooked shellfish"},
	"cooked egg":       {"leftovers, any cooked dish"},
	"hard-boiled egg":  {"eggs, hard-boiled"},
	"cooked pulses":    {"leftovers, any cooked dish", "cooked pulses"},
	"cooked food":      {"leftovers, any cooked dish"},
	"leftovers":        {"cooked meat or poultry"},
	"soups and stews":  {"leftovers, any cooked dish", "soups and stews"},
	"home-made stock":  {"stock, home-made"},
	"prepared salad":   {"cooked prepared salads, cut fruit"},
	"made salad with egg, meat, fish or pasta": {"egg, chicken, ham, tuna or pasta salads"},
	"home-made dip":               {"houmous and similar dips"},
	"pesto":                       {"pesto"},
	"garlic or herbs in oil":      {"garlic or herbs in oil, home-made"},
	"made with raw egg":           {"leftovers, any cooked dish", "egg whites and yolks"},
	"home-made baby food":         {"baby food, home-made puree"},
	"bread":                       {"bread"},
	"plain cake":                  {"cake, plain"},
	"raw pastry and dough":        {"pastry, raw"},
	"frozen cooked rice":          {"cooked rice"},
	"frozen leftovers":            {"leftovers, any cooked dish", "cooked meat or poultry"},
	"frozen soups and stews":      {"soups and stews"},
	"frozen stock":                {"stock, home-made"},
	"thawed food":                 {"thawed food"},
	"opened milk":                 {"milk"},
	"opened yoghurt":              {"yoghurt"},
	"opened cream":                {"cream"},
	"opened butter":               {"butter"},
	"opened margarine":            {"margarine"},
	"opened tofu":                 {"tofu"},
	"opened dip":                  {"houmous and similar dips"},
	"opened pesto":                {"pesto"},
	"opened fresh pasta":          {"shop-bought fresh pasta"},
	"opened pastry":               {"pastry, raw"},
	"hard cheese, opened":         {"hard cheese (Swiss type)"},
	"soft ripened cheese, opened": {"soft ripened cheese (brie type)"},
	"cottage cheese, opened":      {"cottage cheese"},
	"egg out of its shell":        {"egg whites and yolks"},
	"sliced cooked meat, opened":  {"sliced cooked meats"},
	"bacon":                       {"bacon"},
	"hot dog sausages, opened":    {"hot dog sausages"},
	"hard sausage":                {"hard sausage, jerky"},
	"mayonnaise, opened":          {"mayonnaise, commercial"},
	"tinned food, opened":         {"tinned food"},
	"uncooked food":               {"cooked prepared salads, cut fruit"},
	"raw minced meat":             {"minced (ground) meat and poultry"},
	"opened olives":               {"olives in brine"},
	"opened bottle of sauce":      {"ketchup, mustard, soy sauce"},
	"opened jam":                  {"jam"},
	"opened peanut butter":        {"peanut butter"},
	"opened cooking oil":          {"cooking oil"},
	"opened vinegar":              {"vinegar"},
	"dried milk, opened":          {"dried milk"},
	"opened bag of salad":         {"shredded cabbage, leaf lettuce, salad greens"},
	"cut melon":                   {"cooked prepared salads, cut fruit"},
	"opened perishable food":      {"perishable food with no storage instructions"},
	"opened ready-to-eat food":    {"ready-to-eat food made or opened on site"},
}

// Every figure of storage.csv is within what the reference says of it, and for safety
// no longer than the shortest there of that jurisdiction and source.
func TestStorageIsPublished(t *testing.T) {
	rows := rowsOf(t, outside(t, "storage.csv"))
	days := func(s string, by int) int { n, _ := strconv.Atoi(s); return n * by }
	checked := 0
	for _, g := range guides() {
		if g.Days == 0 {
			continue
		}
		found := false
		for _, class := range published[g.What] {
			for _, r := range rows {
				low, high := days(r["min_days"], 1), days(r["max_days"], 1)
				if g.Place == "freezer" {
					low, high = days(r["freezer_min_months"], 30), days(r["freezer_max_months"], 30)
				}
				theirs := slices.ContainsFunc(strings.Split(g.Jurisdiction, "/"), func(j string) bool { return strings.Contains(r["jurisdiction"], j) })
				practice := strings.HasPrefix(g.Source, "common practice") == (r["status"] == "common-practice")
				if r["food_class"] != class || !theirs || !practice || g.Place != "freezer" && r["place"] != g.Place || low == 0 || strings.HasPrefix(r["state"], "unopened") {
					continue
				}
				found = true
				if g.Days > high || g.Date == "use-by" && g.Days > low || g.Date == "best-before" && g.Days < low {
					t.Errorf("%s, %s: %d days, %s says %d to %d", g.What, g.Jurisdiction, g.Days, class, low, high)
				}
				if r["status"] == "memory" && !strings.Contains(g.Source, "from memory") {
					t.Errorf("%s: the source does not say that it is from memory", g.What)
				}
				if org := firstWords.FindString(r["source"]); r["status"] != "common-practice" && !strings.Contains(g.Source, org) {
					t.Errorf("%s: source %q, published by %q", g.What, g.Source, r["source"])
				}
			}
		}
		if checked++; !found {
			t.Errorf("%s, %s: %d days, and no such row in the reference", g.What, g.Jurisdiction, g.Days)
		}
	}
	t.Logf("%d figures held against the reference", checked)
}

// firstWords tells a source of the reference.
var firstWords = regexp.MustCompile(`foodsafety\.gov|UK FSA|Health Canada|US FDA Food Code|MP55[78]|Michigan State University Extension|UK NHS`)

// Every figure in the words of temperatures.csv stands in a row of the reference on that
// topic and from that source.
func TestTemperaturesArePublished(t *testing.T) {
	rows := rowsOf(t, outside(t, "temperatures.csv"))
	topics := map[string][]string{"cooling": {"cooling"}, "fridge": {"cold holding"}, "reheating": {"reheating", "cooking equivalents", "cooling"}, "thawing": {"thawing"},
		"standing out": {"cold display", "hot holding", "room temperature"}, "refreezing": {"thawing"}, "cooking": {"cooking", "cooking equivalents"}}
	number := regexp.MustCompile(`[0-9]+`)
	for _, u := range rules() {
		for _, n := range number.FindAllString(u.Words, -1) {
			found := false
			for _, r := range rows {
				for _, topic := range topics[u.Topic] {
					all := " " + strings.Join(number.FindAllString(r["temperature_c"]+" "+r["time"]+" "+r["rule_or_advice"], -1), " ") + " "
					org, _, _ := strings.Cut(u.Source, ",")
					org, _, _ = strings.Cut(org, " (")
					within := strings.Contains(all, " "+n+" ") || n == "1" && strings.Contains(r["rule_or_advice"], "one day")
					found = found || r["topic"] == topic && within && strings.HasPrefix(r["source"], org)
				}
			}
			if !found {
				t.Errorf("%s, %q: no %s in the reference", u.Topic, u.Words, n)
			}
		}
	}
}
