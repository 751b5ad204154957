package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"time"

	"scullion/bot"
	"scullion/bot/picture"
)

// drawPlan writes the timetable of a plan to a new file, as a picture.
func drawPlan(p *bot.Plan, start time.Time, file string) error {
	return writeNew(file, timetableOf(p, start).PNG)
}

// writeNew writes a picture to a new file.
func writeNew(file string, png func(io.Writer, picture.Options) error) error {
	var b bytes.Buffer
	if err := png(&b, picture.Options{}); err != nil {
		return err
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return notNew(file, err)
	}
	_, err = f.Write(b.Bytes())
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(file) // a part of a picture is none; the first trouble is the one to tell
		return fmt.Errorf("the picture cannot be written: %w; look at where it is to go", err)
	}
	return nil
}

// isNew says what is wrong with a file that is to be written, where there is one already.
func isNew(file string) error {
	if _, err := os.Lstat(file); err == nil {
		return notNew(file, fs.ErrExist)
	}
	return nil
}

func notNew(file string, err error) error {
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already and is left alone; name another file", file)
	}
	return fmt.Errorf("the picture cannot be written: %w; look at where it is to go", err)
}

// timetableOf is a plan as what is drawn of it.
func timetableOf(p *bot.Plan, start time.Time) picture.Timetable {
	var work []picture.Work
	for n, d := range p.Dishes {
		for _, s := range d.Steps {
			text := s.Do
			if slices.Contains(s.Kit, "oven") || slices.Contains(s.Kit, "grill") {
				text += fmt.Sprintf(", %d C", s.Temp)
			}
			work = append(work, picture.Work{From: s.Start, Minutes: s.Minutes, HandsOn: s.HandsOn, Text: text, Dish: d.Name, DishN: n + 1, Cook: s.Cook, Kit: s.Kit})
		}
	}
	dishes := "dishes"
	if len(p.Dishes) == 1 {
		dishes = "dish"
	}
	title := fmt.Sprintf("%d %s for %d", len(p.Dishes), dishes, p.Dishes[0].Portions)
	return picture.Timetable{Title: title, Begins: start, Ends: start.Add(time.Duration(p.Minutes) * time.Minute), Lanes: picture.Lanes(nil, work)}
}
