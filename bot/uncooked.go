package bot

import (
	"cmp"
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

//go:embed uncooked.csv
var uncookedCSV string

// worked is how food that is made is got ready: what went in keeps its own date where it is not cooked.
type worked string

// The ways. Of what no word tells it is taken that it is cooked, unless it is raw meat or fish by its own name.
const (
	workedRaw    worked = "raw"    // raw meat or fish is in it
	workedCold   worked = "cold"   // nothing of it is cooked
	workedCooked worked = "cooked" // it is cooked, as far as anybody said
)

// workWord is a word of a name that tells how it is worked, and whether only at its end.
type workWord struct {
	words []string
	end   bool
	how   string
}

var workWords = sync.OnceValue(func() (list []workWord) {
	r := csv.NewReader(strings.NewReader(uncookedCSV))
	r.Comment, r.FieldsPerRecord = '#', 3
	rows, err := r.ReadAll()
	if err != nil {
		panic(err) // the table is embedded; a test walks it
	}
	for _, row := range rows[1:] {
		for w := range strings.SplitSeq(row[0], ";") {
			list = append(list, workWord{strings.Fields(food.Fold(w)), row[1] == "end", row[2]})
		}
	}
	return list
})

// tellsWork says whether a name tells by a word that it is worked so.
func tellsWork(name, how string) bool {
	words := strings.Fields(food.Fold(name))
	return slices.ContainsFunc(workWords(), func(w workWord) bool {
		if w.how != how || len(w.words) > len(words) {
			return false
		}
		for i := len(words) - len(w.words); i >= 0; i-- {
			if slices.Equal(words[i:i+len(w.words)], w.words) {
				return true
			}
			if w.end {
				break
			}
		}
		return false
	})
}

// workOf is how food is worked that goes by a name, by that and by what it is made of. Served is what is
// left of a dish: that was cooked, unless its name says otherwise.
func workOf(name string, of *drawnOn, served bool) worked {
	raw := workedCold
	if of.flesh {
		raw = workedRaw
	}
	cooked := tellsWork(name, "cooked")
	switch f, _ := food.Default().Food(name); {
	case tellsWork(name, "raw"), tellsWork(name, "readied") && !cooked:
		return raw
	case of.flesh && !served && !cooked && tellsWork(name, "shaped"):
		return workedRaw
	case tellsWork(name, "cold"):
		return workedCold
	case cooked, served:
		return workedCooked
	case of.flesh && isFlesh(f, name):
		return workedRaw
	case tellsWork(name, "worked") && of.has(lastWord(name)):
		return raw
	}
	return workedCooked
}

// fleshGroups are the groups of food that are dangerous raw, where the table says that they are not eaten so.
var fleshGroups = []string{"meat", "poultry", "game", "offal", "fish", "shellfish", "cured meat"}

// isFlesh says whether a food, which may be nil, is raw meat or fish by a name.
func isFlesh(f *food.Food, name string) bool {
	return f != nil && slices.Contains(fleshGroups, f.Group) && f.Taste.Raw == "not raw" && !planner.IsCooked(f, name) && !tellsWork(name, "cooked")
}

// isFleshLot says whether a lot of a line is raw meat or fish: as it came in, or made up of some.
func isFleshLot(o pantry.Lot, l *pantry.Line, f *food.Food) bool {
	if l.Made > 0 && o.State != "" {
		return o.State == food.Uncooked
	}
	return isFlesh(f, l.Name)
}

// drawnOn is what food was made of: the limits that it sets, and what tells how it is worked.
type drawnOn struct {
	limit             // of what is cooked of it
	uncooked limit    // of what is not
	flesh    bool     // raw meat or fish is in it
	egg      bool     // raw egg is in it
	thawed   string   // what of it was cooked or made, frozen and thawed before; "" nothing
	fresh    []string // what of it was not cooked or made before, by its names
}

// keeps is the limit for food that is worked so.
func (d *drawnOn) keeps(how worked) limit {
	if how == workedCooked {
		return d.limit
	}
	return d.uncooked
}

// has says whether one of what went in fresh is called by a word.
func (d *drawnOn) has(word string) bool {
	word = food.Fold(word)
	return slices.ContainsFunc(d.fresh, func(name string) bool { return slices.Contains(strings.Fields(food.Fold(name)), word) })
}

// join takes in what went in besides.
func (d *drawnOn) join(o drawnOn) {
	d.sooner(o.limit)
	d.uncooked.sooner(o.uncooked)
	d.thawed = cmp.Or(d.thawed, o.thawed)
	d.flesh, d.egg, d.fresh = d.flesh || o.flesh, d.egg || o.egg, append(d.fresh, o.fresh...)
}

// madeState is the state of what is made: raw or made up where it is not cooked.
func (t *turn) madeState(d *draft, l *pantry.Line, otherwise food.State) food.State {
	of, name := t.drew, l.Name
	if d.Cut { // of raw meat or fish, as was looked up
		return food.Uncooked
	}
	served := d.Dish != ""
	if served {
		if dish, in, err := t.cooked(d.Dish); err == nil {
			if drew, err := limitOf(t.book, t.ear, dish, in, t.said.At.Add(-pantry.LeftOver), t.m.At.Location()); err == nil {
				of.join(drew)
			}
		}
		name, served, otherwise = d.Dish, saysLeftOver(t.m.Text) || strings.Contains(t.m.Text, " left"), food.Cooked
	}
	if d.Dish != "" && language.SaysRaw(t.m.Text, singular(lastWord(name))) { // it was made up, and never cooked
		if of.flesh {
			return food.Uncooked
		}
		return food.MadeUp
	}
	switch how := workOf(name, &of, served); {
	case how == workedRaw:
		return food.Uncooked
	case how == workedCold && (tellsWork(name, "readied") || d.Dish != "" && tellsWork(name, "cold") && !tellsWork(name, "shaped")):
		return food.MadeUp
	}
	return otherwise
}

// uncookedGuide is the guidance for what is made and not cooked, where that for food of its name speaks of
// what is cooked: it is not reheated. A shorter rule of the house stays.
func (t *turn) uncookedGuide(g food.Guidance, ok bool, how worked, m limit) (food.Guidance, bool) {
	usual, _ := ruled(t.k, t.ear.all, "", nil, food.MadeUp, "fridge", t.country())
	if how == workedCold && ok && g.What != usual.What {
		return g, ok
	}
	name := "uncooked food"
	if how == workedRaw {
		name = "uncooked meat"
	}
	own, has := ruled(t.k, t.ear.all, name, nil, food.MadeUp, "fridge", t.country())
	if ok && g.Source == byHouse && g.Days <= own.Days {
		g.Caution = own.Caution
		return g, ok
	}
	return own, has && (how == workedCold || m.date == "") // raw meat keeps its own date
}

// mayBeRaw says whether food that was made under a name may have been made up raw.
func mayBeRaw(name string) bool {
	return tellsWork(name, "raw") || tellsWork(name, "readied") || tellsWork(name, "shaped") && !tellsWork(name, "cooked")
}

// rawCaution is the caution for raw meat and fish.
const rawCaution = " Raw: keep it below food that is ready to eat, and cook it through."

// rawNote is the caution for what was made up raw; where nobody said that it is, how to say otherwise.
func rawNote(l *pantry.Line) string {
	s := rawCaution
	name := l.Name
	if tellsWork(name, "shaped") {
		name = plural(name)
	}
	if !tellsWork(l.Name, "raw") && !tellsWork(l.Name, "readied") {
		s += " If it is cooked, say so: \"cooked the " + name + "\"."
	}
	return s
}
