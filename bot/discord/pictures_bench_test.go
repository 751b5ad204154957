package discord

import (
	"fmt"
	"testing"
	"time"

	"scullion/bot"
)

// BenchmarkDraw is how long a text waits for its picture: a plan of three dishes, and a long list.
func BenchmarkDraw(b *testing.B) {
	at := time.Date(2026, 3, 2, 17, 0, 0, 0, time.UTC)
	plan := &bot.Plan{Minutes: 45}
	left := &bot.Look{At: at}
	for d := range 3 {
		x := bot.Planned{Name: fmt.Sprint("warm salad of roots, number ", d), Portions: 4}
		for s := range 7 {
			x.Steps = append(x.Steps, bot.PlanStep{Do: "cut up what is large, boil the carrots", Start: 5*s + d, Minutes: 8, HandsOn: 3, Cook: 1 + s%2, Kit: []string{"ring"}})
		}
		plan.Dishes = append(plan.Dishes, x)
	}
	for n := range 25 {
		left.Crate = append(left.Crate, bot.StockLine{Item: fmt.Sprint("food number ", n), Left: "700 g", Of: "1 kg", Free: "300 g", Holders: "dee 400 g for the tart", When: "2 days", Days: n / 3, Share: 0.7, Held: 0.5})
	}
	for name, l := range map[string]*bot.Look{"plan": {At: at, Plan: plan.At(at)}, "left": left} {
		b.Run(name, func(b *testing.B) {
			bytes := 0
			for b.Loop() {
				bytes = len(draw(l).png)
			}
			b.ReportMetric(float64(bytes), "bytes")
		})
	}
}
