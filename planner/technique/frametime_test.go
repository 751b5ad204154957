package technique

import (
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

const tradeFrames = "../../../shared/trade/frames.csv"

// notAlike lists frames whose minutes are meant to differ, with the reason.
var notAlike = map[string]string{
	"pulse-salad": "lentils are boiled from dry here, 22 minutes; the notes have them cooked",
}

// TestFrameMinutes holds the minutes for two portions against those of a chef's
// notes, for frames of the same id: within 40 %.
func TestFrameMinutes(t *testing.T) {
	noted := tradeMinutes(t)
	n := 0
	for _, f := range Frames() {
		want, ok := noted[f.ID]
		if !ok {
			continue
		}
		n++
		got, _ := f.Minutes(middle(&f, 2))
		if off := got/want - 1; max(off, -off) > 0.4 && notAlike[f.ID] == "" {
			t.Errorf("%s: %.0f minutes for two, the notes say %.0f", f.ID, got, want)
		}
	}
	if n < 30 {
		t.Errorf("only %d frames compared", n)
	}
	t.Logf("%d frames compared", n)
}

// middle gives the middle amounts for so many portions: what is always there in
// full, what may be left out at half its least.
func middle(f *Frame, portions float64) []float64 {
	grams := make([]float64, len(f.Roles))
	for i, r := range f.Roles {
		grams[i] = portions * (r.Min + r.Max) / 2
		if r.Least == 0 {
			grams[i] = portions * r.Min / 2
		}
	}
	return grams
}

func tradeMinutes(t *testing.T) map[string]float64 {
	rows := referenceRows(t, tradeFrames)
	id, minutes := slices.Index(rows[0], "id"), slices.Index(rows[0], "minutes_for_2")
	out := map[string]float64{}
	for _, r := range rows[1:] {
		m, err := strconv.ParseFloat(r[minutes], 64)
		if err != nil {
			t.Fatalf("row %v has no minutes", r)
		}
		out[r[id]] = m
	}
	return out
}

// More food in any role never takes less time, and hands grow with it.
func TestFrameMinutesGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &Frames()[rapid.IntRange(0, len(Frames())-1).Draw(t, "frame")]
		less := make([]float64, len(f.Roles))
		for i := range less {
			less[i] = rapid.Float64Range(0, 2500).Draw(t, f.Roles[i].Name)
		}
		at := rapid.IntRange(0, len(less)-1).Draw(t, "role")
		more := slices.Clone(less)
		more[at] += rapid.Float64Range(1, 2500).Draw(t, "more")
		total, hands := f.Minutes(less)
		total2, hands2 := f.Minutes(more)
		if total2 < total-1e-9 || hands2 < hands-1e-9 || total < hands-1e-9 {
			t.Fatalf("%s: %g minutes (%g hands), then %g (%g)", f.ID, total, hands, total2, hands2)
		}
	})
}

// What is not filled is not made.
func TestFrameSkips(t *testing.T) {
	for _, f := range Frames() {
		full := middle(&f, 2)
		for i, r := range f.Roles {
			if r.Least > 0 {
				continue
			}
			without := slices.Clone(full)
			without[i] = 0
			total, hands := f.Minutes(full)
			total2, hands2 := f.Minutes(without)
			if total2 > total || hands2 >= hands {
				t.Errorf("%s without %s: %.1f minutes, %.2f hands; with it %.1f, %.2f", f.ID, r.Name, total2, hands2, total, hands)
			}
		}
	}
}
