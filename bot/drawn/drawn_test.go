package drawn_test

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/bot/drawn"
	"scullion/bot/picture"
)

var at = time.Date(2026, 3, 2, 17, 0, 0, 0, time.UTC)

func tart() *bot.Plan {
	return &bot.Plan{Minutes: 30, Dishes: []bot.Planned{{Name: "leek tart", Portions: 2, Steps: []bot.PlanStep{
		{ID: "1", Do: "heat the oven", Minutes: 12, Kit: []string{"oven"}, Temp: 210},
		{ID: "2", Do: "boil", Start: 2, Minutes: 8, HandsOn: 1, Kit: []string{"ring"}, Temp: 100, Cook: 1},
		{ID: "3", Do: "let it rest", Start: 24, Minutes: 6},
	}}}}
}

// What is drawn is what is printed: each step in the lane of its cook for the minutes of
// hands, and in that of its kit for all of them.
func TestPlan(t *testing.T) {
	want := `1 dish for 2. From 17:00, all ready 17:30.
Dish 1: leek tart.
cook 1: 17:02 boil (8 min in all), 1 min, dish 1.
oven: 17:00 heat the oven, 210 C, 12 min, dish 1, by itself.
ring: 17:02 boil, 8 min, dish 1, by itself.
by itself: 17:24 let it rest, 6 min, dish 1, by itself.`
	if got := drawn.Plan(tart().At(at), at).Text(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Of a plan that is on what is over, what runs and what was given more is told, and that it is late.
func TestRunning(t *testing.T) {
	p := tart().At(at)
	p.On, p.Late, p.Work[0].More = true, 5, 4
	want := `1 dish for 2, 5 min late. From 17:00, all ready 17:30. Now 17:11.
Dish 1: leek tart.
cook 1: 17:02 boil (8 min in all), 1 min, dish 1, done.
oven: 17:00 heat the oven, 210 C (4 min more), 12 min, dish 1, by itself, on now.
ring: 17:02 boil, 8 min, dish 1, by itself, done.
by itself: 17:24 let it rest, 6 min, dish 1, by itself.`
	now := at.Add(11*time.Minute + 30*time.Second)
	if got := drawn.Plan(p, now).Text(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	p.Work[0].Said = true
	if got := drawn.Plan(p, now).Text(); strings.Contains(got, "on now") {
		t.Errorf("somebody said that it is done:\n%s", got)
	}
}

// However much is left, a picture of it can be made, and says that it is not all.
func TestLongStock(t *testing.T) {
	var lines []bot.StockLine
	for n := range 300 {
		lines = append(lines, bot.StockLine{Item: fmt.Sprint("food ", n), Left: "1 kg", Share: 1, Days: n})
	}
	s := drawn.Stock(lines, at)
	var b bytes.Buffer
	if err := s.PNG(&b, picture.Options{Width: 440}); err != nil {
		t.Fatal(err)
	}
	if _, err := png.Decode(&b); err != nil || !strings.HasPrefix(s.Text(), "The first 40 of 300.") || !s.Lines[1].Urgent || s.Lines[2].Urgent {
		t.Errorf("%v\n%s", err, s.Text())
	}
}
