package picture

import (
	"math"
	"reflect"
	"testing"
	"time"
)

func TestLanes(t *testing.T) {
	work := []Work{
		{From: 5, Minutes: 2, HandsOn: 2, Text: "slice (leek)", Dish: "leek tart", DishN: 1, Cook: 2, Done: true, HandsDone: true},
		{From: 0, Minutes: 12, Text: "heat the oven", Dish: "leek tart", DishN: 1, Kit: []string{"oven"}},
		{From: 1, Minutes: 20, HandsOn: 3, Text: "mix, rest", Dish: "pancakes", DishN: 2, Cook: 1, On: true, HandsDone: true},
		{From: 8, Minutes: 10, HandsOn: 10, Text: "stir", Dish: "soup", DishN: 3, Cook: 1, Kit: []string{"ring", "blender"}},
	}
	want := []Lane{
		{Name: "larder", Cook: true, Steps: []Step{{From: 1, Minutes: 3, Text: "mix, rest (20 min in all)", Dish: "pancakes", DishN: 2, Done: true}, {From: 8, Minutes: 10, Text: "stir", Dish: "soup", DishN: 3}}},
		{Name: "cook 2", Cook: true, Steps: []Step{{From: 5, Minutes: 2, Text: "slice (leek)", Dish: "leek tart", DishN: 1, Done: true}}},
		{Name: "oven", Steps: []Step{{From: 0, Minutes: 12, Text: "heat the oven", Dish: "leek tart", DishN: 1, Alone: true}}},
		{Name: "ring", Steps: []Step{{From: 8, Minutes: 10, Text: "stir", Dish: "soup", DishN: 3, Twin: true}}},
		{Name: "blender", Steps: []Step{{From: 8, Minutes: 10, Text: "stir", Dish: "soup", DishN: 3, Twin: true}}},
		{Name: "by itself", Steps: []Step{{From: 1, Minutes: 20, Text: "mix, rest", Dish: "pancakes", DishN: 2, Alone: true, On: true}}},
	}
	if got := Lanes([]string{"larder", ""}, work); !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	if work[0].From != 5 {
		t.Error("the work was put in another order")
	}
	if got := Lanes([]string{"a", "b", "c"}, nil); len(got) != 3 || got[2].Name != "c" || got[2].Steps != nil {
		t.Errorf("three cooks with nothing to do: %+v", got)
	}
	if got := Lanes(nil, []Work{{Minutes: 5, HandsOn: 5, Text: "plate"}}); len(got) != 1 || got[0].Name != "by itself" {
		t.Errorf("nobody's work: %+v", got)
	}
}

func TestTimetableText(t *testing.T) {
	x := Timetable{Title: "Dinner", Begins: begun, Ends: begun.Add(30 * time.Minute), Now: begun.Add(7 * time.Minute).UTC(), Lanes: []Lane{
		{Name: "larder", Cook: true, Steps: []Step{{From: 9, Minutes: 4, Text: "fold", Dish: "leek tart", DishN: 2}, {From: 5, Minutes: 2, Text: "slice\n(leek)", Dish: "leek tart", DishN: 2, Done: true}}},
		{Name: "oven", Steps: []Step{{Minutes: 12, Text: "heat the oven", Alone: true}}},
		{Name: "ring"},
	}}
	want := `Dinner. From 17:43, all ready 18:13. Now 17:50.
Dish 2: leek tart.
larder: 17:48 slice (leek), 2 min, dish 2, done; 17:52 fold, 4 min, dish 2.
oven: 17:43 heat the oven, 12 min, by itself.
ring: nothing.`
	if got := x.Text(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if x.Lanes[0].Steps[0].From != 9 {
		t.Error("the steps were put in another order")
	}
	x.Ends, x.Now, x.Lanes = time.Time{}, time.Time{}, x.Lanes[2:]
	if got := x.Text(); got != "Dinner. From 17:43.\nring: nothing." {
		t.Errorf("with no end: %s", got)
	}
}

func TestStockText(t *testing.T) {
	s := Stock{Title: "What is left", At: begun, Lines: []StockLine{
		{Name: "leek", Left: "700 g", Free: "300 g", Claimed: "400 g tart (pastry)", Date: "use by 5 Mar", Share: 0.5833, ClaimedShare: 0.3333, Urgent: true},
		{Name: "egg", Left: "12", Share: 7, ClaimedShare: math.NaN()},
	}}
	want := `What is left. At 17:43. Most urgent first.
leek: 700 g left, 300 g free; claimed: 400 g tart (pastry); use by 5 Mar; goes first; 58% of what came, 33% claimed.
egg: 12 left; 100% of what came, 0% claimed.`
	if got := s.Text(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got := (Stock{}).Text(); got != "Nothing is left." {
		t.Error(got)
	}
}
