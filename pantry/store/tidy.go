package store

import (
	"context"
	"time"

	"scullion/pantry"
)

// Tidy forgets the words of a kitchen's messages that were said before a time:
// their texts, the answers that were kept to be given again, and where answers
// stand in a chat, and what was said of the tables of services. Entries stay, with their
// amounts as said, and so does what was said of persons for good.
func (s *Store) Tidy(ctx context.Context, kitchen string, before time.Time) error {
	return s.Do(ctx, kitchen, func(pb pantry.Book) error {
		b := pb.(*book)
		const old = "SELECT n FROM message WHERE kitchen = ?1 AND unixepoch(at) < ?2"
		for _, q := range []string{
			"UPDATE message SET text = '', reply = '' WHERE kitchen = ?1 AND unixepoch(at) < ?2 AND (text <> '' OR reply <> '')",
			`UPDATE change SET reply = '{"kind":"silent"}' WHERE message IN (` + old + ")",
			"DELETE FROM need WHERE lasting = 0 AND need.at < 1000 * ?2 AND message IN (SELECT n FROM message WHERE kitchen = ?1)",
			"DELETE FROM choice WHERE kitchen = ?1 AND at < 1000 * ?2",
			"DELETE FROM post WHERE kitchen = ?1 AND unixepoch(at) < ?2",
			"DELETE FROM question WHERE kitchen = ?1 AND unixepoch(at) < ?2",
		} {
			if err := b.w.exec(q, b.k.ID, before.Unix()); err != nil {
				return err
			}
		}
		b.w.forget()
		return nil
	})
}
