package language

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// line puts what was read into one line: "guest dee: 1 gluten cereals (coeliac)".
func (x TableTalk) line() string {
	s := string(x.About)
	if x.Place != "" {
		s += " " + strings.TrimPrefix(x.Place, "table ")
	}
	if x.N > 0 {
		s += fmt.Sprint(" ", x.N)
	}
	if len(x.Who) > 0 {
		s += " " + strings.Join(x.Who, "+")
	}
	var list []string
	for _, n := range x.Needs {
		one := ""
		switch {
		case n.Count == Everyone:
			one = "all "
		case n.Count > 0:
			one = fmt.Sprint(n.Count, " ")
		}
		list = append(list, one+n.Allergy+n.Food+n.Diet+" ("+n.Said+")")
	}
	if len(list) > 0 {
		s += ": " + strings.Join(list, ", ")
	}
	if x.Doubt {
		s += " ?"
	}
	return s
}

func tableReader() *Reader {
	return &Reader{Foods: food.Default().Index(), Cooks: []string{"ana", "rose"}}
}

func TestTable(t *testing.T) {
	const nuts = "tree nuts+peanuts"
	r := tableReader()
	for _, c := range []struct{ text, want, rest string }{
		{"table: 1 nut allergy, 2 vegan", "needs: 1 " + nuts + " (nut allergy), 2 vegan (vegan)", ""},
		{"TABLE: 1 NUT ALLERGY", "needs: 1 " + nuts + " (nut allergy)", ""},
		{"table 1 nut allergy", "numbered 1: " + nuts + " (nut allergy)", ""},
		{"table 14 allergic to nuts", "numbered 14: " + nuts + " (nut allergy)", ""},
		{"and table 9 one coeliac one veggie", "numbered 9: 1 gluten cereals (coeliac), 1 vegetarian (vegetarian)", ""},
		{"table 6 says no eggs", "numbered 6: eggs (no eggs)", ""},
		{"table 6 no eggs", "numbered 6: eggs (no eggs)", ""},
		{"table 9 preg", "numbered 9: pregnant (pregnant)", ""},
		{"cal is in at 4, he's allergic to shellfish", "guest cal: crustaceans+molluscs (shellfish allergy)", "cal is in at 4."},
		{"table 7 shellfish allergy bad one", "numbered 7: crustaceans+molluscs (shellfish allergy)", ""},
		{"table 8 shellfish allergy, severe", "numbered 8: crustaceans+molluscs (shellfish allergy)", ""},
		{"need: table 6 has a nut allergy and one dairy free", "numbered 6: 1 " + nuts + " (nut allergy), 1 milk (no dairy)", ""},
		{"wedding needs: 3 coeliac, 2 vegan", "numbered wedding: 3 gluten cereals (coeliac), 2 vegan (vegan)", ""},
		{"lady on 4 coeliac", "numbered 4: gluten cereals (coeliac)", ""},
		{"two gf on 5", "numbered 5: 2 gluten cereals (no gluten)", ""},
		{"gf for 2 on table 8", "numbered 8: 2 gluten cereals (no gluten)", ""},
		{"coeliac just walked in table 3", "numbered 3: gluten cereals (coeliac)", ""},
		{"table 9 left, new people no allergies", "overat 9", ""},
		{"coeliac just in on table 8", "numbered 8: gluten cereals (coeliac)", ""},
		{"table 9 left, new people 1 nut allergy", "haveleft 9 | numbered 9: 1 " + nuts + " (nut allergy)", ""},
		{"table 9 clear", "haveleft 9", ""},
		{"table 9 gone", "haveleft 9", ""},
		{"Table - one coeliac, two vegans and a dairy intolerance", "needs: 1 gluten cereals (coeliac), 2 vegan (vegan), 1 milk (dairy intolerance)", ""},
		{"table:\n1 nut allergy\n2 vegan", "needs: 1 " + nuts + " (nut allergy) | needs: 2 vegan (vegan)", ""},
		{"table: 1 severe peanut allergy", "needs: 1 peanuts (peanut allergy)", ""},
		{"table: nut allergy x2", "needs: 2 " + nuts + " (nut allergy)", ""},
		{"table: egg and milk allergy", "needs: eggs+milk (egg and milk allergy)", ""},
		{"table: allergic to soy, sesame and mustard", "needs: soybeans+sesame+mustard (soy, sesame and mustard allergy)", ""},
		{"table: 1 allergic to strawberries", "needs: 1 strawberries (strawberry allergy)", ""},
		{"table: one lactose intolerant", "needs: 1 milk (lactose intolerance)", ""},
		{"table: dairy-free", "needs: milk (no dairy)", ""},
		{"table: no nuts", "needs: " + nuts + " (no nuts)", ""},
		{"table: 2 halal, 1 pescatarian", "needs: 2 halal (halal), 1 pescatarian (pescatarian)", ""},
		{"table: 1 nut allergy, 5 eat everything", "needs: 1 " + nuts + " (nut allergy)", ""},
		{"table of 8: 2 vegan, 1 coeliac", "of 8: 2 vegan (vegan), 1 gluten cereals (coeliac)", ""},
		{"table: 8 covers, 2 vegan", "of 8: 2 vegan (vegan)", ""},
		{"table for 6, all vegan", "of 6: all vegan (vegan)", ""},
		{"everyone at the table is vegan", "needs: all vegan (vegan)", ""},
		{"milk allergy at the table", "needs: milk (milk allergy)", ""},
		{"we've got a coeliac in tonight", "needs: 1 gluten cereals (coeliac)", ""},
		{"two vegans tonight", "needs: 2 vegan (vegan)", ""},
		{"table 4: 1 nut allergy", "numbered 4: 1 " + nuts + " (nut allergy)", ""},
		{"table 4 has a nut allergy", "numbered 4: 1 " + nuts + " (nut allergy)", ""},
		{"heads up: nut allergy on table 3!", "numbered 3: " + nuts + " (nut allergy)", ""},
		{"table 7: no gluten", "numbered 7: gluten cereals (no gluten)", ""},
		{"table 7: no nuts", "numbered 7: " + nuts + " (no nuts)", ""},
		{"dee is coeliac", "guest dee: gluten cereals (coeliac)", ""},
		{"dee's allergic to nuts", "guest dee: " + nuts + " (nut allergy)", ""},
		{"cem is vegan", "guest cem: vegan (vegan)", ""},
		{"Rose's a vegan", "guest Rose: 1 vegan (vegan)", ""},
		{"guest basil is coeliac", "guest basil: gluten cereals (coeliac)", ""},
		{"Priya has a severe peanut allergy", "guest Priya: peanuts (peanut allergy)", ""},
		{"sam can't eat fish or eggs", "guest sam: fish+eggs (no fish or eggs)", ""},
		{"sam doesn't eat meat", "guest sam: vegetarian (vegetarian)", ""},
		{"dee, bo and cem are vegan", "guest dee+bo+cem: vegan (vegan)", ""},
		{"I'm coeliac", "me: gluten cereals (coeliac)", ""},
		{"i can't eat gluten", "me: gluten cereals (no gluten)", ""},
		{"dee's coeliac, maybe", "guest dee: gluten cereals (coeliac) ?", "maybe"},
		{"table six is allergic to eggs i think", "numbered 6: eggs (egg allergy) ?", ""},
		{"dee can eat everything again", "better dee", ""},
		{"dee can eat nuts again", "better dee: " + nuts + " (no nuts)", ""},
		{"dee isn't vegan any more", "better dee: vegan (vegan)", ""},
		{"i can eat everything again", "well", ""},
		{"table: none", "over", ""},
		{"no needs at the table any more", "over", ""},
		{"late booking, no allergies", "nonesaid", "late booking"},
		{"new table 6, no allergies", "overat 6", "new table 6"},
		{"new guests on table 6, no allergies", "overat 6", "new guests on table 6"},
		{"new booking 7pm, no allergies", "nonesaid", "new booking 7pm"},
		{"the walk ins, no dietaries", "nonesaid", "the walk ins"},
		{"table 4 and table 6 are in, no allergies", "nonesaid", "table 4 and table 6 are in"},
		{"no allergies", "nonesaid", ""},
		{"no allergies tonight", "nonesaid", ""},
		{"no allergies on table 4", "overat 4", ""},
		{"ok, table: none", "over", ""},
		{"t4 false alarm no allergy", "overat 4", ""},
		{"t4 nut allergy, no dietaries", "numbered 4: " + nuts + " (nut allergy) | nonesaid 4", ""},
		{"josh is coeliac and can't have dairy", "guest josh: gluten cereals (coeliac) | guest josh: milk (no dairy)", ""},
		{"mia is vegan and has a nut allergy", "guest mia: vegan (vegan) | guest mia: " + nuts + " (nut allergy)", ""},
		{"sam is coeliac, no dairy", "guest sam: gluten cereals (coeliac) | guest sam: milk (no dairy)", ""},
		{"olive is allergic to nuts", "guest olive: " + nuts + " (nut allergy)", ""},
		{"t26 kiwi and banana allergy", "numbered 26: kiwi (kiwi allergy), banana (banana allergy)", ""},
		{"t29 tomato and egg allergy", "numbered 29: tomato (tomato allergy), eggs (egg allergy)", ""},
		{"t25 onion and garlic intolerance", "numbered 25: onion (onion intolerance), garlic (garlic intolerance)", ""},
		{"t26 blorb and banana allergy", "", "t26 blorb and banana allergy"},
		{"t4 and t5 nut allergy", "numbered 4: " + nuts + " (nut allergy) | numbered 5: " + nuts + " (nut allergy)", ""},
		{"t4 and bed 3 nut allergy", "numbered 4: " + nuts + " (nut allergy) | numbered bed 3: " + nuts + " (nut allergy)", ""},
		{"order 5 eggs", "", "order 5 eggs"},
		{"order 2 celery", "", "order 2 celery"},
		{"order 14 - dairy free", "numbered order 14: milk (no dairy)", ""},
		{"order 31 has a tree nut allergy", "numbered order 31: 1 " + nuts + " (tree nut allergy)", ""},
		{"t10 severe nut allergy carries epipen", "numbered 10: " + nuts + " (nut allergy)", ""},
		{"t12 no egg no sesame", "numbered 12: eggs (no egg), sesame (no sesame)", ""},
		{"mr khan bed 8 halal", "numbered bed 8: halal (halal)", ""},
		{"table 4 burger vegan", "", "table 4 burger vegan"},
		{"no more vegans at the table", "over: vegan (vegan)", ""},
		{"table 4: none", "overat 4", ""},
		{"table?", "who", ""},
		{"who can't eat what?", "who", ""},
		{"any allergies tonight?", "who", ""},
		{"what can't dee eat?", "who dee", ""},
		{"is dee vegan?", "who dee: vegan (vegan)", ""},
		{"dee is vegan?", "who dee: vegan (vegan)", ""},
		{"got 2kg carrots, table: 1 nut allergy. used 2 leeks!", "needs: 1 " + nuts + " (nut allergy)", "got 2kg carrots\nused 2 leeks!"},
		{"table: 1 nut allergy, dee is vegan, used 2 leeks", "needs: 1 " + nuts + " (nut allergy) | guest dee: vegan (vegan)", "used 2 leeks"},
		{"table: tree nut allergy", "needs: " + nuts + " (tree nut allergy)", ""},
		{"table 5: treenut allergy", "numbered 5: " + nuts + " (treenut allergy)", ""},
		{"table 4 halal, 8 guests", "numbered 4 8: halal (halal)", ""},
		{"table 4: halal, 8 guests, 2 vegan", "numbered 4 8: halal (halal), 2 vegan (vegan)", ""},
		{"table 6 kosher", "numbered 6: kosher (kosher)", ""},
		{"table 9 soy allergy", "numbered 9: soybeans (soy allergy)", ""},
		{"table 2 vegans", "needs: 2 vegan (vegan)", ""},
		{"table 3 coeliac and 2 vegans", "numbered 3: gluten cereals (coeliac), 2 vegan (vegan)", ""},
		{"ALLERGY table 8: milk, egg, wheat", "numbered 8: milk+eggs+gluten cereals (no milk, egg, wheat)", ""},
		{"the bride is coeliac", "needs: gluten cereals (coeliac)", ""},
		{"groom's mum allergic to celery and mustard", "needs: celery+mustard (celery and mustard allergy)", ""},
		{"best man has a lupin allergy", "needs: lupin (lupin allergy)", ""},
		{"top table no shellfish", "numbered top table: crustaceans+molluscs (no shellfish)", ""},
		{"reception: 1 coeliac", "numbered reception: 1 gluten cereals (coeliac)", ""},
		{"mrs brown in 4 is allergic to eggs", "guest 4 mrs brown: eggs (egg allergy)", ""},
		{"party of 6, one can't eat nuts", "of 6: 1 " + nuts + " (no nuts)", ""},
		{"the guy at the bar is allergic to sesame", "numbered bar: sesame (sesame allergy)", ""},
		{"school is nut free", "numbered school: " + nuts + " (no nut)", ""},
		{"14 halal, 22 veggie, 3 vegan", "needs: 14 halal (halal), 22 vegetarian (vegetarian), 3 vegan (vegan)", ""},
		{"lady on table 9 cant have egg", "numbered 9: eggs (no egg)", ""},
		{"one of the lunch lot is off dairy", "needs: milk (no dairy)", ""},
		{"3 coeliacs in for dinner", "needs: 3 gluten cereals (coeliac)", ""},
		{"table: 1 allergic to fish and kiwi", "needs: 1 fish (fish allergy), kiwi (kiwi allergy)", ""},
		{"table: 2 vegan, 1 frobnitz", "needs: 2 vegan (vegan)", "1 frobnitz"},
	} {
		list, rest := r.Table(c.text)
		var got []string
		for _, x := range list {
			got = append(got, x.line())
		}
		if g := strings.Join(got, " | "); g != c.want || rest != c.rest {
			t.Errorf("%q: %q, rest %q; want %q, rest %q", c.text, g, rest, c.want, c.rest)
		}
	}
}

// TestNoTable says what has the words and is no need: orders for tables, stock, dishes, talk.
func TestNoTable(t *testing.T) {
	r := tableReader()
	for _, text := range strings.Split(`wipe the table
table 4 wants the tart
table 8 left the tart
table 8 left a tip
table 9 clear of plates
table 4 needs 2 lemons
gf chips on 3
veg on 4
table 4 is waiting
table 4 vegan tart
table 4's tart is up
table 7: no chips
table 7 no cream
table 4 no onions
no onions on table 4
table 5: 2 soups, 1 tart
table nine no dessert
table of 8 just in
table for 4
table 4 ready?
the table is clear
the table needs wiping
500g table salt
used 5g table salt in the soup
used 50g butter in table 4's tart
plan 3 dishes for 4, vegan
vegan
vegan ideas
anything vegan?
ideas for a coeliac
2 vegan dishes
no nuts
got 2 veggies
no veggies left
got 200g vegan cheese
used 200g vegan cheese in the pie
got 1kg gluten free flour
we have no nuts
we've got no eggs
there is no milk
new food: samphire, no allergens
does butter contain milk?
can vegans eat honey?
is parmesan vegetarian?
is the pesto vegan?
the tart is vegan
this is vegan
everything is vegan
tofu is vegan
chef is vegan
gran is coeliac
my gran is coeliac
she can't eat any more
he's allergic to work
I'm allergic to mornings
everyone's allergic to Mondays
i can't eat another bite
they can eat whatever
we can eat anything
dee can eat later
dee is off
cem is nuts
ana can have the cream
who's got the veg?
what can we eat?
avoid the fish
wrap up the cheese
wrap up warm
the nut allergy poster fell down
the allergen sheet is by the door
if dee is vegan we need oil
3 vegan
2 vegan, 1 tart
14 covers
table 4: 8 covers
party of 6 just in
the bride is late
the bride wants the cake out at 3
top table is ready
bar no lemons
the bar is out of limes
school is closed
the guy at the bar is asking for nuts
best man wants chips
mrs brown in 4 wants tea
the lunch lot is off
milk is off
the fish is off
put 2 leeks on table 4
dee said bo is vegan`, "\n") {
		if list, rest := r.Table(text); len(list) > 0 || rest != text {
			t.Errorf("%q: %q, rest %q", text, list[0].line(), rest)
		}
	}
}

// TestAllergenWords holds the words for allergens to the fourteen names of the food table.
func TestAllergenWords(t *testing.T) {
	raw, err := os.ReadFile("../../pantry/food/allergens.csv")
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, row := range strings.Split(strings.TrimSpace(string(raw)), "\n")[1:] {
		names[row[:strings.Index(row, ",")]] = false
	}
	if len(names) != 14 {
		t.Fatalf("%d allergens in the food table, not 14", len(names))
	}
	for _, rows := range words().first {
		for _, ph := range rows {
			if ph.class != "allergen" {
				continue
			}
			for _, name := range strings.Split(ph.value, "+") {
				if _, ok := names[name]; !ok {
					t.Errorf("%v: %q is none of the 14", ph.words, name)
				}
				names[name] = true
			}
		}
	}
	for name, said := range names {
		if !said {
			t.Errorf("no word for %s", name)
		}
		if r := tableReader(); !regexp.MustCompile("^needs: 1 .*" + name).MatchString(readLine(r, "table: 1 "+name+" allergy")) {
			t.Errorf("table: 1 %s allergy: %q", name, readLine(r, "table: 1 "+name+" allergy"))
		}
	}
}

func readLine(r *Reader, text string) string {
	list, _ := r.Table(text)
	if len(list) != 1 {
		return ""
	}
	return list[0].line()
}
