package bot

import (
	"context"
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
)

// Suggest is what a cook may be about to type.
type Suggest struct {
	Typed  string // so far
	Dishes bool   // dishes, not foods
	New    bool   // foods that the kitchen has not had as well
	Most   int
	At     time.Time // now, for what must go first
}

// Suggest lists names that fit what has been typed, likeliest first: what the
// reader would take it for, then names that begin with it or have its letters in
// order. With nothing typed, what must go first stands first.
func (b *Bot) Suggest(ctx context.Context, kitchen string, s Suggest) (list []string, err error) {
	err = b.ledger.Do(ctx, kitchen, func(book pantry.Book) error {
		k := book.Kitchen()
		ear := b.ears.of(k)
		switch {
		case s.Dishes:
			list = suggestDishes(k.Dishes, s)
		case s.Typed == "":
			list = nil
			for _, l := range Left(k, pantry.DateOf(s.At)) {
				list = append(list, l.Item)
			}
		default:
			list = ear.suggest(s)
		}
		return nil
	})
	return list[:min(len(list), s.Most)], err
}

func suggestDishes(dishes []string, s Suggest) []string {
	if s.Typed == "" {
		latest := slices.Clone(dishes)
		slices.Reverse(latest)
		return latest
	}
	x := food.NewIndex()
	for i, d := range dishes {
		x.Add(i, d)
	}
	return x.Suggest(s.Typed, s.Most)
}

func (x *ear) suggest(s Suggest) (list []string) {
	add := func(names ...string) {
		for _, n := range names {
			if n != "" && !slices.Contains(list, n) {
				list = append(list, n)
			}
		}
	}
	h := x.find(s.Typed)
	for _, l := range append(h.lines, x.likely(s.Typed, s.New)...) {
		add(l.Name)
	}
	for _, name := range x.lines.Suggest(s.Typed, s.Most) {
		for _, l := range x.find(name).lines {
			add(l.Name)
		}
	}
	if !s.New {
		return list
	}
	if h.food != nil {
		add(h.food.Name)
	}
	add(x.all.Index().Suggest(s.Typed, s.Most)...)
	return list
}
