package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"scullion/bot"
	"scullion/bot/drawn"
	"scullion/bot/picture"
	"scullion/pantry/store"
)

// drawPlan writes the timetable of a plan to a new file, as a picture.
func drawPlan(p *bot.Plan, start time.Time, file string) error {
	return writeNew(file, drawn.Plan(p.At(start), start).PNG)
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

// planOn tells the plan that is on, lane by lane, and draws it into a new file where one is named.
func (a *app) planOn(ctx context.Context, file string) error {
	return a.withStore(ctx, func(s *store.Store) error {
		var plan *bot.PlanNow
		now := a.now()
		err := a.record(ctx, s, func(x *bot.Records, r *store.Record) error {
			state, err := bot.StateOf(x, r, now)
			if err == nil {
				plan = state.Plan
			}
			return err
		})
		if err != nil && !errors.Is(err, store.ErrNoKitchen) {
			return err
		}
		if plan == nil {
			return errors.New(`no plan is on; say "plan" in the kitchen, then "accept"`)
		}
		t := drawn.Plan(plan, now)
		if err := a.print(t.Text()); err != nil || file == "" {
			return err
		}
		return writeNew(file, t.PNG)
	})
}
