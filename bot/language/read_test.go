package language

import (
	"bufio"
	"flag"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

var update = flag.Bool("update", false, "write what is read as what is expected")

func reader() *Reader { return &Reader{Foods: food.Default().Index(), Place: "uk"} }

// TestReadings holds every message of testdata/messages.txt against its
// reading in testdata/readings.txt. Messages and expected readings are our own.
func TestReadings(t *testing.T) {
	const want = "testdata/readings.txt"
	var b strings.Builder
	n := 0
	for _, m := range lines(t, "testdata/messages.txt") {
		if strings.HasPrefix(m, "#") {
			fmt.Fprintln(&b, m)
			continue
		}
		n++
		fmt.Fprintf(&b, "%-70s => %s\n", m, brief(reader().Read(strings.ReplaceAll(m, `\n`, "\n"))))
	}
	if n < 150 {
		t.Fatalf("only %d messages", n)
	}
	if *update {
		if err := os.WriteFile(want, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got := strings.Split(strings.TrimSpace(b.String()), "\n")
	for i, w := range lines(t, want) {
		if i >= len(got) || got[i] != w {
			t.Errorf("read  %s\nwant  %s", got[min(i, len(got)-1)], w)
		}
	}
}

func lines(t testing.TB, name string) (list []string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for s := bufio.NewScanner(f); s.Scan(); {
		if s.Text() != "" {
			list = append(list, s.Text())
		}
	}
	return list
}

// brief puts a reading in one line.
func brief(r Reading) string {
	var parts []string
	for _, s := range r.Statements {
		p := s.Act
		if s.Doubt {
			p += "?"
		}
		if s.Who != "" {
			p += " by " + s.Who
		}
		var items []string
		for _, it := range s.Items {
			items = append(items, briefItem(it))
		}
		p += " " + strings.Join(items, " + ")
		if len(s.From) > 0 {
			var from []string
			for _, it := range s.From {
				from = append(from, briefItem(it))
			}
			p += " from " + strings.Join(from, " + ")
		}
		if s.Dish != "" {
			p += " > " + s.Dish
		}
		parts = append(parts, p)
	}
	for _, q := range r.Questions {
		p := "ask " + string(q.About)
		if q.Food != "" {
			p += " " + briefItem(Item{Amount: q.Amount, Food: q.Food})
		}
		if len(q.Also) > 0 {
			p += " + " + strings.Join(q.Also, " + ")
		}
		if q.Minutes > 0 {
			p += fmt.Sprintf(" %d min", q.Minutes)
		}
		if q.Off != "" {
			p += " off " + q.Off
		}
		if q.To != nil {
			p += " to " + q.To.Name
		}
		if len(q.Without) > 0 {
			p += " no " + strings.Join(q.Without, ", ")
		}
		if q.About != AboutPlan { // "plan 3 dishes"
			p += briefLimits(q)
		}
		parts = append(parts, p)
	}
	if a := r.Amend; a != nil {
		parts = append(parts, strings.TrimSpace("amend "+briefItem(Item{Amount: a.Amount, Food: a.Food, Dish: a.Dish})))
	}
	if r.Undo > 0 {
		parts = append(parts, fmt.Sprint("undo ", r.Undo))
	}
	if r.Timer != nil {
		parts = append(parts, briefTimer(*r.Timer))
	}
	if r.Wrong != "" {
		parts = append(parts, "wrong: "+r.Wrong)
	}
	if c := r.Teaching; c != nil {
		var cells []string
		for _, k := range slices.Sorted(maps.Keys(c.Cells)) {
			cells = append(cells, k+"="+c.Cells[k])
		}
		p := "teach " + c.Name
		if c.Means != "" {
			p += " is " + c.Means
		}
		if c.Means != "" && !c.Sure {
			p += " perhaps"
		}
		if c.Wrong != "" {
			p += ", not read: " + c.Wrong
		}
		parts = append(parts, strings.TrimSpace(p+" "+strings.Join(cells, ", ")))
	}
	if len(parts) == 0 {
		return "-"
	}
	return strings.Join(parts, " | ")
}

func briefItem(it Item) string {
	var p []string
	a := it.Amount
	switch a.How {
	case Measured:
		p = append(p, measure.Say(a.Base, a.Kind))
		if a.Count.Num > 0 {
			p = append(p, fmt.Sprintf("in %d/%d", a.Count.Num, a.Count.Den))
		}
		if a.Unit != "" {
			p = append(p, a.Unit)
		}
	case Pieces:
		n := fmt.Sprint(a.N.Num)
		if a.N.Den != 1 {
			n += "/" + fmt.Sprint(a.N.Den)
		}
		p = append(p, strings.TrimSpace(n+" "+strings.TrimSpace(a.Size+" "+a.Part)))
	case Share:
		p = append(p, fmt.Sprintf("share %d/%d", a.N.Num, a.N.Den))
	}
	for flag, word := range map[bool]string{a.Some: "some"} {
		if flag {
			p = append(p, word)
		}
	}
	if a.EP {
		p = append(p, "EP")
	}
	if a.Approx {
		p = append(p, "about")
	}
	if it.Food == "" && (a.How != Unsaid || it.Trim) {
		p = append(p, "(it)")
	} else if it.Food != "" {
		p = append(p, "["+it.Food+"]")
	}
	if it.Trim {
		p = append(p, "trim")
	}
	if it.Cost > 0 {
		p = append(p, fmt.Sprintf("cost %d", it.Cost))
	}
	if d := it.Date; d.Set {
		p = append(p, fmt.Sprintf("date %+v", []int{d.Days, d.Weekday, d.Year, d.Month, d.Dom}))
	}
	if it.Dish != "" {
		p = append(p, "> "+it.Dish)
	}
	return strings.Join(p, " ")
}

func TestTables(t *testing.T) {
	for row, want := range map[string]string{
		"verb,used,use":             `no class "verb"`,
		"did,,use":                  "no word",
		"number,umpteen,x":          "not a number",
		"did,used,use\ndid,used,us": "stands twice",
		"did,used":                  "wrong number of fields",
	} {
		if _, err := readWords("words", strings.NewReader("class,word,value\n"+row+"\n")); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", row, err, want)
		}
	}
	if _, err := readQuestions("q", strings.NewReader("about,form\nleft,x\nleft,x\n")); err == nil {
		t.Error("a question that stands twice was taken")
	}
	if _, err := readQuestions("q", strings.NewReader("about,form\nleft,what {x}\n")); err == nil {
		t.Error("a slot that is not there was taken")
	}
	words()
	questions()
}

// FuzzRead looks for a panic, and for an amount that the text does not have:
// what is measured or counted must be said in the text, and be within bounds.
func checkLimits(t *testing.T, text string, l Limits) {
	t.Helper()
	if l.Minutes < 0 || l.Minutes > 24*60 || l.Portions < 0 || l.Portions > 500 || len(l.Avoid) > 14 || len(l.Only) > 5 {
		t.Errorf("%q: %+v", text, l)
	}
}

// checkPlanRead holds what is read of plans within what a planner can be asked.
func checkPlanRead(t *testing.T, r *Reader, text string) {
	t.Helper()
	for _, read := range []func(string) (Plan, bool){r.Plan, r.PlanChange} {
		a, ok := read(text)
		if !ok {
			continue
		}
		checkLimits(t, text, a.Limits)
		if a.Dishes < 0 || a.Dishes > 50 || a.Cooks < 0 || a.Cooks > 50 || a.Cold < 0 || a.Cold > 50 || a.Sweet < 0 || a.Sweet > 50 {
			t.Errorf("%q: %+v", text, a)
		}
	}
	list, rest := r.Table(text)
	for _, x := range list {
		if x.N < 0 || x.N > 500 || len(x.Needs) > mostNeeds {
			t.Errorf("%q: %s", text, x.line())
		}
	}
	if len(list) == 0 && rest != text {
		t.Errorf("%q: the rest is %q", text, rest)
	}
	if q := r.PlanTalk(text); q != nil && (q.N < 0 || q.N > mostSaid) {
		t.Errorf("%q: %+v", text, q)
	}
}

func FuzzRead(f *testing.F) {
	for _, m := range lines(f, "testdata/messages.txt") {
		f.Add(strings.ReplaceAll(m, `\n`, "\n"))
	}
	for _, m := range []string{"", "used -5kg leek", "used 1e309 leek", "used 999999999999999999999 kg leek", "used 1/0 leek", "used ½½ leek", "86", "\u202eused 2 leeks", "used 2\u200b leeks", "a a a a a", "half of half of a", "got000And B", "0 or a hundred", "new food:0B no Al", "used 0 to 100 leeks", "ued!thee quArters oZ", "and and 2 x 3 x 4 x 5", "used 5 3/4 1/2 ½ kg leek", "timers: 1:59:59 tart, half 12 bread", "remind me at ten to twelve to turn it in 1h 20", "stop all the 12-min leek & potato timers, x", "imer,ABd B B th10", "ideas for 6, no nuts or dairy, just the microwave", "how small for 2/0 cm potatoes in 1e9 min", "do the 99999999999 one for the soup", "more min on the timer +5", "5 more min on the tart timer", "plan 3 dishes 4 2 in 30 mins, two cooks, no oven", "make a plan: a pudding, use up all of the", "plan 99999 dishes by 25:99", "keep 1 and 3, again", "why not the squash", "running 99999999999999999999 late", "need another 5 minutes", "oven's broken", "table: 1 nut allergy, 2 vegan x 3", "dee's allergic to, and bo", "table 99999: no, table of 0: none", "200g at least", "6 fishcakes for table 2", "tables 1, 2 & 3b coeliac, beds 0", "milk's off, binned the lot", "made 12 portions of pie", "casserole: 1.2kg back in the fridge", "gt2box mf leeks6 5k", "A :", "6 cases of wine, 6 x 750ml", "t5 s2 gf, s3 vegan, s4 all good", "mr byrne rm 7; one more coeliac - on 3! make it 4", "seats 5 and 8 on table 1 swapped with 9", "wedding moved from saturday not sunday"} {
		f.Add(m)
	}
	r := reader()
	f.Fuzz(func(t *testing.T, text string) {
		checkPlanRead(t, r, text)
		got := r.Read(text)
		text = visible(text)
		for _, s := range got.Statements {
			for _, it := range append(s.Items, s.From...) {
				checkItem(t, text, it)
			}
		}
		if a := got.Amend; a != nil {
			checkItem(t, text, Item{Amount: a.Amount})
		}
		if c := got.Teaching; c != nil {
			checkTeaching(t, text, c)
		}
		if got.Timer != nil {
			for _, w := range append([]Timer{*got.Timer}, got.Timer.Also...) {
				checkTimer(t, text, w)
			}
		}
		r.Answer(text)
		checkTalk(t, r, text)
		r.NeedsHeard(text)
		r.SwapHeard(text)
		r.DayMoved(text)
		l, _ := r.Limits(text)
		for _, q := range got.Questions {
			checkLimits(t, text, q.Limits)
			if q.N < 0 || q.N > mostSaid || q.Size.Mm < 0 || q.Size.Mm > 500 {
				t.Errorf("%q: %+v", text, q)
			}
		}
		checkLimits(t, text, l)
	})
}

// checkTalk holds what the readers of talk of one kind make of a text.
func checkTalk(t *testing.T, r *Reader, text string) {
	t.Helper()
	hold, _ := r.HoldTalk(text)
	for kind, q := range map[string]*Question{"abuse": r.AbuseTalk(text), "hazard": r.Hazard(text), "answer": r.AnswerTalk(text), "hold": hold, "date": r.DateTalk(text), "keep": r.KeepTalk(text), "rule": r.RuleTalk(text),
		"made": r.MadeTalk(text), "money": r.MoneyTalk(text), "order": r.OrderTalk(text), "picture": r.PictureTalk(text), "price": r.PriceTalk(text), "spoilt": r.SpoiltTalk(text), "wrap": r.WrapTalk(text)} {
		if q != nil && (q.N < 0 && kind != "hazard" || q.N < -230 || q.N > mostSaid || q.Cost < 0 || q.Amount.Base < 0 || q.Amount.Base > measure.Most) {
			t.Errorf("%s: %q: %+v", kind, text, q)
		}
	}
	if _, a := r.Scales(text); a.Base < 0 || a.Base > measure.Most {
		t.Errorf("scales: %q: %+v", text, a)
	}
	r.Start(text)
}

// checkTeaching holds what is taught to the columns of a food table.
func checkTeaching(t *testing.T, text string, c *Teaching) {
	t.Helper()
	if !strings.Contains(text, c.Name) || !strings.Contains(text, c.Means) || c.Name == "" || (c.Means == "") == (c.Cells == nil) {
		t.Fatalf("%q: teaches %+v", text, c)
	}
	for k := range c.Cells {
		if k != "like" && !slices.Contains(food.Header(), k) {
			t.Fatalf("%q: there is no column %q", text, k)
		}
	}
}

func checkItem(t *testing.T, text string, it Item) {
	t.Helper()
	a := it.Amount
	if a.Base < 0 || a.Base > measure.Most {
		t.Fatalf("%q: amount %d", text, a.Base)
	}
	if (a.How == Pieces || a.How == Share) && (a.N.Den <= 0 || a.N.Num < 0) {
		t.Fatalf("%q: %v pieces", text, a.N)
	}
	if (a.How == Measured || a.How == Pieces) && a.Said == "" {
		t.Fatalf("%q: an amount that nothing says: %+v", text, a)
	}
	if a.Said != "all" && a.Said != "none" && a.Said != "all the" {
		heard(t, text, a.Said)
	}
	for _, w := range it.Words {
		heard(t, text, w)
	}
	if a.How == Measured && a.Count.Num == 0 && !a.Approx && !a.Vague() && a.Said != "" && isDigit(a.Said[0]) && !strings.Contains(a.Said, " x ") {
		if again := reader().Answer(a.Said).Amount; again.How == Measured && again.Base != a.Base {
			t.Fatalf("%q: %q is %d, and %d by itself", text, a.Said, a.Base, again.Base)
		}
	}
}

// heard holds words that were read against the text: each must stand there, or be
// what words.csv makes of a word that does.
func heard(t *testing.T, text, said string) {
	t.Helper()
	if strings.Contains(text, said) {
		return
	}
	l := words()
	may := map[string]bool{"0": true, "x": true} // x: "3 x 220g"
	numbers := []int64{1}
	for _, tok := range tokens(text) {
		if v := tok.val; tok.sort == digit && v.Den == 1 {
			numbers = append(numbers, v.Num, 1000*v.Num)
		}
		for _, ph := range l.first[plain(tok.raw)] {
			if ph.class == "number" {
				numbers = append(numbers, ph.ratio.Num)
			}
		}
		w := plain(tok.raw)
		for _, x := range []string{w, l.slips[w], l.sounds[w], l.mistyped[w], l.typos[w], l.swaps[w], strings.NewReplacer("o", "0", "O", "0").Replace(tok.raw)} {
			for _, part := range strings.FieldsFunc(x, func(r rune) bool { return r == ' ' || r == '-' }) {
				may[plain(part)] = true
			}
		}
	}
	for _, x := range numbers { // 6 cases of 6 x 5 kg are "36 x 5000 g"
		for _, y := range numbers {
			may[fmt.Sprint(x*y)] = may[fmt.Sprint(x*y)] || strings.Contains(said, " x ")
		}
	}
	for _, tok := range tokens(said) {
		w := plain(tok.raw)
		if tok.sort == mark || may[w] || strings.Contains(plain(text), w) || slices.ContainsFunc(strings.FieldsFunc(w, func(r rune) bool { return r == '-' }), func(part string) bool { return may[part] }) {
			continue
		}
		t.Fatalf("%q: %q of %q is not in it", text, tok.raw, said)
	}
}

func BenchmarkRead(b *testing.B) {
	var list []string
	for _, m := range lines(b, "testdata/messages.txt") {
		if !strings.HasPrefix(m, "#") {
			list = append(list, m)
		}
	}
	r := reader()
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		r.Read(list[n%len(list)])
		n++
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "messages/s")
}

// briefLimits puts what a question is held to in a few words, but for time and
// missing kit.
func briefLimits(q *Question) (p string) {
	if q.N > 0 {
		p += fmt.Sprintf(" #%d", q.N)
	}
	if q.Portions > 0 {
		p += fmt.Sprintf(" for %d", q.Portions)
	}
	if q.About == AboutIdeas || q.About == AboutWith {
		for _, s := range append([]string{q.Serve, q.Diet}, q.Only...) {
			if s != "" {
				p += " " + s
			}
		}
		for _, a := range q.Avoid {
			p += " -" + a
		}
	}
	if q.Size.Mm > 0 {
		p += fmt.Sprintf(" %g mm", q.Size.Mm)
	}
	if q.About == AboutSmall || q.Size.Mm > 0 {
		for _, s := range []string{q.Size.Cut, q.Method} {
			if s != "" {
				p += " " + s
			}
		}
	}
	return p
}
