package store

import (
	"context"
	"time"

	"scullion/pantry"
)

// Tidy forgets the words of a kitchen's messages that were said before a time:
// their texts, the answers that were kept to be given again, and where answers
// stand in a chat, and what was said of the tables of services, of days that are over, and of beds
// and classes that were said to be over. Entries stay, with their amounts as said, and so does what
// was said of persons for good.
func (s *Store) Tidy(ctx context.Context, kitchen string, before time.Time) error {
	return s.Do(ctx, kitchen, func(pb pantry.Book) error {
		b := pb.(*book)
		const old = "SELECT n FROM message WHERE kitchen = ?1 AND unixepoch(at) < ?2"
		for _, q := range []string{
			"UPDATE message SET text = '', reply = '' WHERE kitchen = ?1 AND unixepoch(at) < ?2 AND (text <> '' OR reply <> '')",
			`UPDATE change SET reply = '{"kind":"silent"}' WHERE message IN (` + old + ")",
			"DELETE FROM need WHERE lasting = 0 AND stays = 0 AND at < 1000 * ?2 AND day < date(?2, 'unixepoch') AND message IN (SELECT n FROM message WHERE kitchen = ?1)",
			endedPlaces, endedPlacesEnds,
			"DELETE FROM doubt WHERE by IN (" + old + ")", // whose words are gone with it
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

// endedPlaces are what was said of a bed or a class before all of it was said to be over, and
// endedPlacesEnds then that this was said.
const (
	endedPlaces = `DELETE FROM need WHERE stays = 1 AND message IN (SELECT n FROM message WHERE kitchen = ?1) AND EXISTS
		(SELECT 1 FROM need AS o JOIN message AS m ON m.n = o.message WHERE m.kitchen = ?1 AND o.stays = 1 AND o.kind = 'over' AND o.what = ''
			AND o.gone = 0 AND o.who = need.who AND o.at < 1000 * ?2 AND (o.message > need.message OR o.message = need.message AND o.part > need.part))`
	endedPlacesEnds = `DELETE FROM need WHERE stays = 1 AND kind = 'over' AND what = '' AND gone = 0 AND at < 1000 * ?2
		AND message IN (SELECT n FROM message WHERE kitchen = ?1)`
)
