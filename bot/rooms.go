package bot

import (
	"context"
	"errors"
	"time"

	"scullion/pantry"
)

// Room is a chat's room that is joined to a kitchen; see pantry.Room.
type Room = pantry.Room

// Known is what is remembered of a message of a room; see pantry.Known.
type Known = pantry.Known

// Rooms lists the rooms that are joined to kitchens.
func (b *Bot) Rooms(ctx context.Context) ([]Room, error) { return b.ledger.Rooms(ctx) }

// Join joins a room to a kitchen, or keeps what has changed of it. It is an
// error, for the one who asks, where the kitchen is another house's, or was
// begun elsewhere and is none of Options.Open.
func (b *Bot) Join(ctx context.Context, r Room) error {
	rooms, err := b.ledger.Rooms(ctx)
	if err != nil {
		return err
	}
	ours := false
	for _, o := range rooms {
		if o.Kitchen == r.Kitchen && o.House != r.House {
			return ErrTaken
		}
		ours = ours || o.Kitchen == r.Kitchen
	}
	return b.ledger.Do(ctx, r.Kitchen, func(book pantry.Book) error {
		if k := book.Kitchen(); !ours && r.Kitchen != b.o.Open && (len(k.Lines) > 0 || len(k.Cooks) > 0) {
			return ErrTaken
		}
		return book.SaveRoom(r)
	})
}

// ErrTaken is returned by Join where the kitchen is someone else's.
var ErrTaken = errors.New("a kitchen of that name is kept elsewhere: choose another name")

// Leave parts a room from its kitchen. What is in the ledger stays.
func (b *Bot) Leave(ctx context.Context, r Room) error {
	return b.ledger.Do(ctx, r.Kitchen, func(book pantry.Book) error { return book.DropRoom(r.ID) })
}

// Keep keeps what has changed of a room that is joined.
func (b *Bot) Keep(ctx context.Context, r Room) error {
	return b.ledger.Do(ctx, r.Kitchen, func(book pantry.Book) error { return book.SaveRoom(r) })
}

// KnownOf lists the messages heard in a room, newest first, at most n.
func (b *Bot) KnownOf(ctx context.Context, room string, n int) ([]Known, error) {
	return b.ledger.KnownOf(ctx, room, n)
}

// Due lists what rooms are still to be shown, in the order of its messages.
func (b *Bot) Due(ctx context.Context) (list []Posting, err error) {
	posts, err := b.ledger.DuePosts(ctx)
	for _, p := range posts {
		s, err := posting(p)
		if err != nil {
			return nil, err
		}
		if s.Due() {
			list = append(list, s)
		}
	}
	return list, err
}

// Shown keeps that a posting stands at a place as of its Rev, which the caller
// has shown. It does not wait for the disk: what is forgotten is shown again,
// and the platform knows it by its id.
func (b *Bot) Shown(ctx context.Context, p Posting, place string) (wait func() error) {
	return b.ledger.Start(ctx, p.Kitchen, func(book pantry.Book) error {
		now, err := book.Post(p.ID)
		if err != nil || now == nil {
			return err
		}
		now.Sent, now.Place = max(now.Sent, p.Rev), place
		return book.SavePost(*now)
	})
}

// Ring posts the timers that are due by now, and gives when the next one is; zero
// for none.
func (b *Bot) Ring(ctx context.Context, now time.Time) (rung []Posting, next time.Time, err error) {
	kitchens, next, err := b.ledger.DueTimers(ctx, now)
	if err != nil {
		return nil, next, err
	}
	for _, k := range kitchens {
		var list []Posting
		err := b.ledger.Do(ctx, k, func(book pantry.Book) (err error) {
			list, err = b.ring(book, now)
			return err
		})
		if err != nil {
			return rung, next, err
		}
		rung = append(rung, list...)
	}
	return rung, next, nil
}
