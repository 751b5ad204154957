package food

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// stock is what a kitchen might hold; its lines go by the names it gave them.
var stock = []string{
	"leek", "celeriac", "beetroot", "cavolo nero", "red onion", "brown onion", "carrot", "potato", "cauliflower",
	"chestnut mushroom", "spinach", "lemon", "pear", "apple", "egg", "whole milk", "double cream", "butter",
	"goat's cheese", "cheddar", "natural yoghurt", "chickpea", "smoked mackerel", "chicken thigh", "filo pastry",
	"walnut", "flat-leaf parsley", "coriander leaf", "garlic", "root ginger", "red lentil", "plain flour",
	"olive oil", "caster sugar", "basmati rice", "penne", "ground cumin", "Dijon mustard", "cider vinegar",
	"table salt", "spring onion", "sweet potato", "thyme",
}

// lines makes an index over stock: a line's own name, and what its food is called.
func lines() *Index {
	x := NewIndex()
	for i, name := range stock {
		names := []string{name}
		if f, ok := Default().Food(name); ok {
			names = append(names, f.Called()...)
		}
		x.Add(i, names...)
	}
	return x
}

// certain gives the matches that stand within Close of the best, if that is Sure.
func certain(found []Match, of []string) string {
	var names []string
	for _, m := range found {
		if m.Score >= Sure && found[0].Score-m.Score < Close {
			names = append(names, of[m.ID])
		}
	}
	return strings.Join(names, "|")
}

func TestFindInStock(t *testing.T) {
	x := lines()
	for _, c := range []struct{ phrase, want, how string }{
		{"leek", "leek", "exact"}, {"Leeks", "leek", "exact"}, {"lovely fresh leeks", "leek", "exact"},
		{"organic carrots", "carrot", "exact"}, {"eggs", "egg", "exact"}, {"GOAT’S CHEESE", "goat's cheese", "exact"},
		{"goat cheese", "goat's cheese", "exact"}, {"mushrooms", "chestnut mushroom", "exact"},
		{"cream", "double cream", "exact"}, {"parsley", "flat-leaf parsley", "exact"}, {"lentils", "red lentil", "exact"},
		{"flour", "plain flour", "exact"}, {"rice", "basmati rice", "exact"}, {"mackerel", "smoked mackerel", "exact"},
		{"sugar", "caster sugar", "exact"}, {"vinegar", "cider vinegar", "exact"}, {"mustard", "Dijon mustard", "exact"},
		{"chicken", "chicken thigh", "exact"}, {"oil", "olive oil", "exact"}, {"salt", "table salt", "exact"},
		{"milk", "whole milk", "exact"}, {"pasta", "penne", "exact"}, {"cumin", "ground cumin", "exact"},
		{"cheese", "goat's cheese|cheddar", "exact"}, {"onion", "red onion|brown onion", "exact"},
		{"onions", "red onion|brown onion", "exact"}, {"brown ones", "brown onion", "part"}, {"bean", "", ""}, {"cabbage", "", ""}, {"floor", "", ""}, {"onions caramelised", "red onion|brown onion", "exact"}, {"red onins", "red onion", "slip"}, {"onion brown", "brown onion", "exact"}, {"thighs", "chicken thigh", "part"}, {"goats", "goat's cheese", "part"}, {"smoked", "smoked mackerel", "part"}, {"chicken thihgs", "chicken thigh", "slip"}, {"red", "red onion|red lentil", "part"},
		{"scallions", "spring onion", "exact"}, {"spuds", "potato", "exact"}, {"tatties", "potato", "exact"},
		{"phyllo", "filo pastry", "exact"}, {"cilantro", "coriander leaf", "exact"}, {"masoor dal", "red lentil", "exact"},
		{"chook thighs", "chicken thigh", "exact"}, {"heavy cream", "double cream", "exact"},
		{"all-purpose flour", "plain flour", "exact"}, {"plain yogurt", "natural yoghurt", "exact"},
		{"superfine sugar", "caster sugar", "exact"}, {"celery root", "celeriac", "exact"}, {"beets", "beetroot", "exact"},

		{"leeeks", "leek", "slip"}, {"caulifower", "cauliflower", "slip"}, {"lemosn", "lemon", "slip"},
		{"spinich", "spinach", "slip"}, {"beatroot", "beetroot", "slip"}, {"goats chese", "goat's cheese", "slip"},
		{"naturl yogurt", "natural yoghurt", "slip"}, {"walnts", "walnut", "slip"}, {"cavlo nero", "cavolo nero", "slip"},
		{"parsly", "flat-leaf parsley", "slip"}, {"onoins", "red onion|brown onion", "slip"}, {"yoghrt", "natural yoghurt", "slip"},
		{"potatos", "potato", "exact"}, {"carots", "carrot", "slip"}, {"buter", "butter", "slip"}, {"chikpea", "chickpea", "slip"},
		{"cauliflwr", "cauliflower", "slip"}, {"mushroms", "chestnut mushroom", "slip"}, {"galric", "garlic", "slip"},
		{"corriander", "coriander leaf", "slip"}, {"celeriack", "celeriac", "slip"}, {"chedder", "cheddar", "slip"},

		{"beat root", "beetroot", "slip"}, {"wall nuts", "walnut", "slip"}, {"spring onions", "spring onion", "exact"},
		{"springonion", "spring onion", "joined"}, {"springonions", "spring onion", "joined"}, {"chick peas", "chickpea", "exact"},

		{"leak", "leek", "sound"}, {"flower", "plain flour", "sound"}, {"pairs", "pear", "sound"}, {"time", "thyme", "sound"},
		{"collie flower", "cauliflower", "sound"},

		{"cauli", "cauliflower", "exact"}, {"cav nero", "cavolo nero", "short"}, {"parm", "", ""},
		{"crt", "", ""}, {"lek", "", ""}, {"lemo", "lemon", "slip"}, {"spnch", "spinach", "slip"},

		{"pea", "", ""}, {"peas", "", ""}, {"leaf", "", ""}, {"beef", "", ""}, {"sweet potatoes", "sweet potato", "exact"},
		{"parsnips", "", ""}, {"lime", "", ""}, {"bream", "", ""}, {"lard", "", ""}, {"chicken stock", "", ""},
		{"smoked salmon", "", ""}, {"peanut butter", "", ""}, {"green onion", "spring onion", "exact"},
		{"", "", ""}, {"!!", "", ""}, {"custard", "", ""},
	} {
		found := x.Find(c.phrase)
		got, how := certain(found, stock), ""
		if got != "" {
			how = found[0].How
		}
		if got != c.want || how != c.how {
			t.Errorf("Find(%q) = %q (%s), want %q (%s); all: %v", c.phrase, got, how, c.want, c.how, found)
		}
	}
}

// A word that is a food of its own never passes for another that is held.
func TestNoFoodForAnother(t *testing.T) {
	for _, c := range [][2]string{
		{"pea", "pear"}, {"leek", "leaf"}, {"beet", "beef"}, {"lime", "thyme"}, {"mint", "mince"},
		{"peanut butter", "butter"}, {"coconut milk", "whole milk"}, {"sweet potato", "potato"}, {"green tomato", "tomato"},
		{"spring onion", "brown onion"}, {"chicken stock", "chicken"}, {"butter bean", "butter"}, {"water chestnut", "chestnut"},
		{"smoked mackerel", "mackerel fillet"}, {"chicken liver", "chicken thigh"}, {"red wine", "red onion"},
		{"garlic powder", "garlic"}, {"lemon juice", "lemon"}, {"rice vinegar", "rice"}, {"red pepper", "black pepper"},
	} {
		for _, held := range []int{0, 1} {
			x := NewIndex()
			x.Add(1, c[held])
			if m := x.Find(c[1-held]); len(m) > 0 && m[0].Score >= Sure {
				t.Errorf("with only %q held, %q gives %v", c[held], c[1-held], m)
			}
		}
	}
}

func TestFindInCatalogue(t *testing.T) {
	c := Default()
	var names []string
	for _, f := range c.Foods() {
		names = append(names, f.Name)
	}
	for _, q := range [][2]string{
		{"celery root", "celeriac"}, {"beets", "beetroot"}, {"zucchini", "courgette"}, {"eggplants", "aubergine"},
		{"brinjal", "aubergine"}, {"rutabaga", "swede"}, {"neeps", "swede"}, {"arugula", "rocket"}, {"shrimp", "prawn"},
		{"curd", "natural yoghurt"}, {"bok choy", "pak choi"}, {"all-purpose flour", "plain flour"}, {"EVOO", "extra virgin olive oil"},
		{"toms", "tomato"}, {"parm", "Parmesan"}, {"prsnp", "parsnip"}, {"brocolli", "broccoli"}, {"mozarella", "mozzarella"},
		{"silverbeet", "chard"}, {"bhindi", "okra"}, {"palak", "spinach"}, {"creme fraiche", "crème fraîche"},
		{"gruyere", "Gruyère"}, {"jalapenos", "jalapeño"}, {"zaatar", "za'atar"}, {"half and half", "half-fat cream"},
		{"courgete", "courgette"}, {"aubergene", "aubergine"}, {"bass ill", "basil"},
	} {
		m := c.Find(q[0])
		if len(m) == 0 || names[m[0].ID] != q[1] || m[0].Score < Sure {
			t.Errorf("Find(%q) = %v, want %s first", q[0], m, q[1])
		}
	}
}

// What is short, or clear only by the words beside it, is asked about.
func TestAsked(t *testing.T) {
	for said, want := range map[string]string{
		"gr lentil": "green lentil", "lek": "leek", "trt": "trout", "rd onion": "red onion", "bef broth": "beef broth",
		"beer fillet": "beef fillet", "quesant": "croissant", "graam flour": "gram flour",
	} {
		m := Default().Find(said)
		if len(m) == 0 || m[0].Name != want || m[0].Score >= Sure {
			t.Errorf("Find(%q) = %v, want %s first, and not for sure", said, m[:min(3, len(m))], want)
		}
	}
}

// A slip that may be of a food in the catalogue is not for sure one in the pantry.
func TestDoubt(t *testing.T) {
	for _, c := range []struct{ held, said string }{
		{"celeriac", "celer"}, {"liver", "live"}, {"besan", "beasn"}, {"bean", "beasn"}, {"peanut", "pin nut"}, {"nappa", "snap pa"},
	} {
		x := NewIndex()
		x.Add(1, c.held)
		if m := x.Find(c.said); len(m) == 0 || m[0].Score >= Sure {
			t.Errorf("with only %s held, %q gives %v", c.held, c.said, m)
		}
	}
}

func TestUsualFoodFirst(t *testing.T) {
	for word, want := range map[string]string{
		"onion": "brown onion", "milk": "whole milk", "cream": "double cream", "mushrooms": "button mushroom",
		"cheese": "cheddar", "rice": "long-grain rice", "sugar": "granulated sugar", "parsley": "flat-leaf parsley",
		"lentils": "red lentil", "mustard": "Dijon mustard", "oil": "olive oil", "salt": "table salt",
		"chicken": "whole chicken", "egg": "hen's egg", "coriander": "coriander leaf", "pepper": "red pepper",
		"chickpeas": "tinned chickpea", "mackerel": "mackerel", "vinegar": "cider vinegar",
	} {
		m := Default().Find(word)
		if len(m) == 0 || Default().Foods()[m[0].ID].Name != want || m[0].Score != 1 {
			t.Errorf("Find(%q) = %v, want %s first", word, m, want)
		}
		if f, ok := Default().Food(word); !ok || f.Name != want {
			t.Errorf("Food(%q) = %v, want %s", word, f, want)
		}
	}
}

func TestFirstOfEqualNamesIsTold(t *testing.T) {
	x := NewIndex()
	x.Add(7, "borscht root", "red beet", "red root")
	if m := x.Find("red"); len(m) != 1 || m[0].Name != "red beet" {
		t.Errorf("Find(red) = %v", m)
	}
}

func TestExact(t *testing.T) {
	x := lines()
	for _, c := range []struct {
		words []string
		want  string
	}{
		{[]string{"red", "onions"}, "red onion"}, {[]string{"goats", "cheese"}, "goat's cheese"},
		{[]string{"goat's", "cheese"}, "goat's cheese"}, {[]string{"flat-leaf", "parsley"}, "flat-leaf parsley"},
		{[]string{"Flat", "Leaf", "Parsley"}, "flat-leaf parsley"}, {[]string{"onion"}, "red onion|brown onion"},
		{[]string{"red"}, ""}, {[]string{"leek", "tart"}, ""}, {nil, ""}, {[]string{""}, ""}, {[]string{"-"}, ""},
		{[]string{"leak"}, ""}, {[]string{"leeeks"}, ""},
	} {
		var got []string
		for _, id := range x.Exact(c.words) {
			got = append(got, stock[id])
		}
		if strings.Join(got, "|") != c.want {
			t.Errorf("Exact(%q) = %q, want %q", c.words, got, c.want)
		}
	}
	for _, f := range Default().Foods() {
		for _, name := range f.Called() {
			if Default().Index().Exact(strings.Fields(name)) == nil {
				t.Errorf("Exact(%q) finds nothing", name)
			}
		}
	}
	words := []string{"smoked", "mackerel"}
	if n := testing.AllocsPerRun(100, func() { x.Exact(words) }); n > 0 {
		t.Errorf("Exact allocates %v times", n)
	}
	if x.MaxWords() < 3 || x.MaxWords() > 6 {
		t.Errorf("MaxWords() = %d", x.MaxWords())
	}
}

func TestFold(t *testing.T) {
	for in, want := range map[string]string{
		"Goat's": "goat", "goats’": "goat", "crème": "creme", "leaves": "leaf", "Potatoes": "potato", "tomatos": "tomato",
		"chillies": "chilli", "couscous": "couscous", "asparagus": "asparagus", "peas": "pea", "cos": "cos",
		"berries": "berry", "radishes": "radish", "anchovies": "anchovy", "chives": "chive", "olives": "olive",
		"bass": "bass", "cress": "cress", "jalapeños": "jalapeno", "cheeses": "cheese", "radish": "radish", "": "",
	} {
		if got := Fold(in); got != want {
			t.Errorf("Fold(%q) = %q, want %q", in, got, want)
		}
	}
	for _, w := range Default().Index().words {
		if Fold(w) != w {
			t.Errorf("Fold(%q) = %q: not settled after one step", w, Fold(w))
		}
		for _, f := range forms(w) {
			if Fold(f) != w {
				t.Errorf("%q is a form of %q, but folds to %q", f, w, Fold(f))
			}
		}
	}
}

// What is taken for regular without asking the library is so in all names of the
// catalogue, but for words that have no plural.
func TestRegularWords(t *testing.T) {
	for _, w := range Default().index.words {
		if len(w) <= 3 || tables().plurals[w] != nil {
			continue
		}
		if s := grammar().Singular(w); w[len(w)-1] != 's' && s != w && !slices.Contains([]string{"albumen", "momen", "meaux"}, w) { // no plurals
			t.Errorf("%q is taken as singular, the library has %q", w, s)
		}
		f := forms(w)
		if p := grammar().Plural(w); f[len(f)-1] != p && p != w && !strings.HasSuffix(p, "men") {
			t.Errorf("%q has the plural %q, the library %q", w, f[len(f)-1], p)
		}
	}
}

func TestSuggest(t *testing.T) {
	x := Default().Index()
	for prefix, want := range map[string]string{"cel": "celery", "cour": "courgette", "red on": "red onion", "leek": "leek", "cav": "cavolo nero"} {
		if got := x.Suggest(prefix, 8); !slices.Contains(got, want) || len(got) > 8 {
			t.Errorf("Suggest(%q) = %q, want %q in it", prefix, got, want)
		}
	}
	if x.Suggest("", 5) != nil || x.Suggest("leek", 0) != nil {
		t.Error("nothing asked for, something given")
	}
}

func TestOwnNameFindsFirst(t *testing.T) {
	foods := Default().Foods()
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.IntRange(0, len(foods)-1).Draw(t, "food")
		own := foods[at].own()
		name := own[rapid.IntRange(0, len(own)-1).Draw(t, "name")]
		words := strings.Fields(name)
		if rapid.Bool().Draw(t, "plural") {
			f := forms(Fold(words[len(words)-1]))
			words[len(words)-1] = f[rapid.IntRange(0, len(f)-1).Draw(t, "form")]
		}
		phrase := strings.Join(words, " ")
		if rapid.Bool().Draw(t, "capitals") {
			phrase = strings.ToUpper(phrase)
		}
		m := Default().Find(phrase)
		if !slices.ContainsFunc(m, func(m Match) bool { return m.ID == at && m.Score == 1 }) {
			t.Fatalf("Find(%q) = %v, want %s", phrase, m, foods[at].Name)
		}
	})
}

func TestFindAnything(t *testing.T) {
	x := lines()
	rapid.Check(t, func(t *rapid.T) { checkFind(t, x, rapid.String().Draw(t, "phrase")) })
}

type failer interface{ Fatalf(string, ...any) }

// checkFind holds for any phrase at all.
func checkFind(t failer, x *Index, phrase string) {
	found := x.Find(phrase)
	seen := map[int]bool{}
	for i, m := range found {
		if seen[m.ID] || m.Score < Ask || m.Score > 1 || m.How == "" || i > 0 && m.Score > found[i-1].Score {
			t.Fatalf("Find(%q) = %v", phrase, found)
		}
		seen[m.ID] = true
	}
	if again := x.Find(phrase); !slices.Equal(found, again) {
		t.Fatalf("Find(%q) differs: %v, %v", phrase, found, again)
	}
	x.Exact(strings.Fields(phrase))
	x.Suggest(phrase, 3)
	if utf8.ValidString(phrase) && !utf8.ValidString(Fold(phrase)) {
		t.Fatalf("Fold(%q) breaks the text", phrase)
	}
}

func FuzzFind(f *testing.F) {
	x := lines()
	for _, s := range []string{"leek", "goats chese", "beat root", "½ oignon ’", "\xff\xfe", strings.Repeat("a", 300), "œuf ß İ", "--", "crème-fraîche"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, phrase string) { checkFind(t, x, phrase) })
}
