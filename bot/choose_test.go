package bot_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"scullion/bot"
)

// fullRoom is a room with a crate in which there is something for every piece of kit.
func fullRoom(t *testing.T) *room {
	r := newRoom(t)
	r.say("1", "larder", "got 1kg potatoes, 800g cauliflower, 600g carrots, 500g mushrooms, 200g butter, 12 eggs, 500g yoghurt, 4 lemons, 1kg beetroot")
	return r
}

func titles(r bot.Reply) (list []string) {
	for _, i := range r.Ideas {
		list = append(list, i.Title)
	}
	return list
}

// "do 2 for the soup" keeps what it needs, holds the kit until it is ready, and
// calls then. Taking it back frees all of that.
func TestBegin(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas for the beetroot in 90 min")
	n := slices.IndexFunc(first.Ideas, func(i bot.Idea) bool { return slices.Contains(i.Kit, "oven") }) + 1
	if n == 0 {
		t.Fatalf("no oven in %v", titles(first))
	}
	idea, text := first.Ideas[n-1], fmt.Sprintf("do %d for the salad", n)
	got := r.say("7", "ana", text)
	if got.Kind != bot.Log || len(got.Entries) != len(idea.Uses) {
		t.Fatalf("%+v", got)
	}
	for i, e := range got.Entries {
		if e.Kind != "claim" || e.Item != idea.Uses[i].Item || e.Amount != idea.Uses[i].Amount || e.Dish != "salad" {
			t.Errorf("%+v, not %+v", e, idea.Uses[i])
		}
	}
	ready := r.at.Add(time.Duration(idea.Minutes) * time.Minute)
	if !strings.Contains(got.Text, "ready "+ready.Format("15:04")) {
		t.Errorf("%s", got.Text)
	}
	oven := func() bool {
		return slices.ContainsFunc(r.say("8", "bo", "ideas for the cauliflower in 90 min").Ideas, func(i bot.Idea) bool { return slices.Contains(i.Kit, "oven") })
	}
	if oven() {
		t.Error("the oven is promised twice")
	}
	_, next, err := r.b.Ring(context.Background(), r.at)
	if err != nil || !next.Equal(ready) {
		t.Errorf("rings at %v, %v", next, err)
	}
	if got := r.do(bot.Message{ID: r.byText[text], Delete: true}); got.Kind != bot.Log {
		t.Errorf("%+v", got)
	}
	if _, next, _ := r.b.Ring(context.Background(), r.at); !next.IsZero() {
		t.Errorf("a timer still runs: %v", next)
	}
	if !oven() {
		t.Error("the oven is still held")
	}
	r.say("7", "ana", text)
	if oven() {
		t.Error("said again, and the oven is free")
	}
	if got := r.say("7", "ana", "undo"); !strings.HasPrefix(got.Text, "Taken back") || !oven() {
		t.Errorf("%s", got.Text)
	}
}

// An idea turned down is not shown again in the service, to nobody; after it, it
// is. The choice goes with its message.
func TestTurnDown(t *testing.T) {
	r := fullRoom(t)
	first := r.say("7", "ana", "ideas for the carrots")
	bad := first.Ideas[1].Title
	got := r.say("7", "ana", "not 2")
	if !strings.HasPrefix(got.Text, "Not again in this service: "+bad) || len(got.Ideas) != 1 || slices.Contains(titles(first), got.Ideas[0].Title) {
		t.Fatalf("%+v", got)
	}
	offered := func(at time.Duration) bool {
		r.at = r.at.Add(at)
		a := r.say("8", "bo", "ideas for the carrots")
		for range 3 {
			if slices.Contains(titles(a), bad) {
				return true
			}
			a = r.say("8", "bo", "more")
		}
		return false
	}
	if offered(0) {
		t.Errorf("%q is offered again", bad)
	}
	r.do(bot.Message{ID: r.byText["not 2"], Delete: true})
	if !offered(0) {
		t.Errorf("%q is not offered though nobody has turned it down", bad)
	}
	r.say("7", "ana", "ideas for the carrots")
	r.say("7", "ana", "not 2")
	if !offered(13 * time.Hour) {
		t.Errorf("%q is not offered in the next service", bad)
	}
}

var product = regexp.MustCompile(`(?m)^(?:× )?([0-9.]+) `)

// Why tells numbers whose product is the score, and nothing is shown twice by more.
func TestWhyAndMore(t *testing.T) {
	r := fullRoom(t)
	seen := map[string]bool{}
	n := 0
	for text := "ideas?"; ; text = "more" {
		got := r.say("7", "ana", text)
		for _, title := range titles(got) {
			n++
			if seen[title] {
				t.Errorf("%q twice", title)
			}
			seen[title] = true
			if !strings.Contains(got.Text, fmt.Sprintf("%d ", n)) {
				t.Errorf("no number %d in %s", n, got.Text)
			}
		}
		if len(got.Ideas) == 0 || n > 30 {
			break
		}
	}
	if n < 12 {
		t.Fatalf("only %d ideas", n)
	}
	for i := 1; i <= 9; i++ {
		got := r.say("7", "ana", fmt.Sprint("why ", i))
		head, rest, _ := strings.Cut(got.Text, "\n")
		want, _ := strconv.ParseFloat(strings.TrimSuffix(head[strings.LastIndex(head, " ")+1:], "."), 64)
		score := 1.0
		for _, m := range product.FindAllStringSubmatch(rest, -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			score *= x
		}
		if score <= 0 || score/want < 0.9 || score/want > 1.1 { // each is rounded to two figures
			t.Errorf("%s\ngives %.3f", got.Text, score)
		}
	}
}

// A message that says no more than what ideas are held to goes on from those
// shown; talk does not.
func TestRefine(t *testing.T) {
	r := fullRoom(t)
	r.say("7", "ana", "ideas for the carrots")
	got := r.say("7", "ana", "something cold")
	if len(got.Ideas) == 0 {
		t.Fatal(got.Text)
	}
	for _, i := range got.Ideas {
		if slices.Contains(i.Kit, "oven") || i.Uses[0].Item != "carrot" {
			t.Errorf("%+v", i)
		}
	}
	free := r.say("7", "ana", "for 2, no dairy")
	if len(free.Ideas) == 0 || !strings.HasSuffix(free.Text, "Left out: what holds or often carries milk. Read every label, and mind traces.") {
		t.Errorf("%s", free.Text)
	}
	for _, i := range free.Ideas {
		if i.Portions > 2 || i.Uses[0].Item != "carrot" || slices.Contains(i.Allergens, "milk") {
			t.Errorf("%+v", i)
		}
	}
	if got := r.say("7", "ana", "it's cold out here"); got.Kind != bot.Silent {
		t.Errorf("%+v", got)
	}
	if got := r.say("8", "bo", "for 2"); got.Kind != bot.Silent { // who has not asked
		t.Errorf("%+v", got)
	}
}

// Any cook may begin what another was shown; where nothing was shown, the words
// are talk.
func TestChooseFromOthers(t *testing.T) {
	r := fullRoom(t)
	for _, text := range []string{"do 2", "not that", "why 2", "do that for the soup"} {
		if got := r.say("8", "bo", text); got.Kind != bot.Silent {
			t.Errorf("%q: %+v", text, got)
		}
	}
	shown := r.say("7", "ana", "ideas?")
	if got := r.say("8", "bo", "do 2"); got.Kind != bot.Log || got.Entries[0].Cook != "bo" || got.Entries[0].Item != shown.Ideas[1].Uses[0].Item {
		t.Errorf("%+v", got)
	}
	if got := r.say("8", "bo", "more"); len(got.Ideas) == 0 || !strings.HasPrefix(got.Text, "4 ") { // goes on, though something was begun since
		t.Errorf("%+v", got)
	}
	if got := r.say("8", "bo", "do 9"); got.Kind != bot.Answer || !strings.Contains(got.Text, "No idea has the number 9") {
		t.Errorf("%+v", got)
	}
	if got := r.say("7", "ana", "do that"); got.Kind != bot.Answer || !strings.HasPrefix(got.Text, "Which one, 1, 2, 3") {
		t.Errorf("%+v", got)
	}
}

// A question that waits is answered before an idea is chosen.
func TestAnswerBeforeChoice(t *testing.T) {
	r := fullRoom(t)
	r.say("7", "ana", "ideas?")
	if got := r.say("7", "ana", "used 2 onions in the soup"); got.Kind != bot.Asking {
		t.Fatalf("%+v", got)
	}
	if got := r.say("7", "ana", "go with 2"); got.Kind != bot.Log || got.Entries[0].Kind != "use" || got.Entries[0].Item != "brown onion" {
		t.Errorf("%+v", got)
	}
}

// How long and how small are the same sum, turned round.
func TestTimes(t *testing.T) {
	r := fullRoom(t)
	small := r.say("7", "ana", "how small for potatoes in 12 minutes boiled?").Text
	m := regexp.MustCompile(`boiled (\d+) mm cubes`).FindStringSubmatch(small)
	if m == nil {
		t.Fatal(small)
	}
	long := r.say("7", "ana", "how long to boil "+m[1]+" mm cubes of potato?").Text
	if !strings.Contains(long, "boiled 12 min") {
		t.Errorf("%s\n%s", small, long)
	}
	for text, want := range map[string]string{
		"how small for swede in 3 min?":                "not in that time, however small",
		"how small for leeks in 10 min?":               "No figures for how heat goes into leek",
		"how small for potatoes?":                      "In how many minutes?",
		"how long to roast 3 cm thick chicken breast?": "Check the thickest part with a probe",
		"how long to microwave 2cm carrots?":           "in the microwave",
		"how long for beetroot?":                       "judge doneness yourself",
	} {
		if got := r.say("7", "ana", text); !strings.Contains(got.Text, want) {
			t.Errorf("%q: %s", text, got.Text)
		}
	}
}
