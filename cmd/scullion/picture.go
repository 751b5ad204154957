package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"time"

	"scullion/bot"
	"scullion/bot/picture"
)

// draw writes a picture to a file.
func draw(file string, png func(io.Writer, picture.Options) error) error {
	var b bytes.Buffer
	if err := png(&b, picture.Options{}); err != nil {
		return fmt.Errorf("the picture cannot be drawn: %w", err)
	}
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("the picture cannot be kept: %w", err)
	}
	return nil
}

// timetable is a plan as a picture, begun now.
func (a *app) timetable(p bot.Plan, portions int) *picture.Timetable {
	t := &picture.Timetable{Title: fmt.Sprintf("%d dishes for %d", len(p.Dishes), portions), Begins: a.now()}
	if len(p.Dishes) == 1 {
		t.Title = fmt.Sprintf("1 dish for %d", portions)
	}
	t.Ends = t.Begins.Add(time.Duration(p.Minutes) * time.Minute)
	for _, l := range p.Lanes(func(n int) string { return fmt.Sprint("cook ", n) }) {
		x := picture.Lane{Name: l.Name}
		for _, s := range l.Steps {
			x.Steps = append(x.Steps, picture.Step{From: s.From, Minutes: s.Minutes, Text: s.Do, Dish: s.Dish, DishN: s.DishN, Alone: s.Alone})
		}
		t.Lanes = append(t.Lanes, x)
	}
	return t
}

// soon is in how many days food must go to be marked.
const soon = 1

// stock is what is left as a picture.
func stock(lines []bot.StockLine) *picture.Stock {
	s := &picture.Stock{Title: "What is left"}
	for _, l := range lines {
		who := l.Holders
		if who != "" {
			who = cmp.Or(l.Free, "none") + " free; " + who
		}
		s.Lines = append(s.Lines, picture.StockLine{Name: l.Item, Left: l.Left, Who: who, When: l.When, Share: l.Share, Held: l.Held, First: l.Days <= soon})
	}
	return s
}
