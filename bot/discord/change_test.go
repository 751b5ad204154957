package discord_test

import (
	"context"

	"scullion/pantry"
	"scullion/pantry/store"
)

// change changes the kitchen file behind the bot's back, while it is down.
func (k *kit) change(do func(pantry.Book) error) {
	k.Helper()
	s, err := store.Open(context.Background(), k.file, store.Options{})
	if err != nil {
		k.Fatal(err)
	}
	defer s.Close()
	if err := s.Do(context.Background(), "kitchen", do); err != nil {
		k.Fatal(err)
	}
}

// unsend makes the ledger forget that the answer to a message was sent, as a
// crash between the two would.
func (k *kit) unsend(id string) {
	k.Helper()
	k.change(func(b pantry.Book) error {
		p, err := b.Post(id)
		if err != nil {
			return err
		}
		p.Sent, p.Place = 0, ""
		return b.SavePost(*p)
	})
}
