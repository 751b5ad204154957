package discord

import (
	"context"
	"encoding/json"
	"path/filepath"
	"testing"
	"unicode/utf8"

	"github.com/bwmarrin/discordgo"

	"scullion/bot"
	"scullion/pantry/store"
)

// Whatever comes over the gateway, it is read or refused, and nothing breaks.
func FuzzEvent(f *testing.F) {
	for _, s := range []string{
		`{"id":"80351110224678912","channel_id":"1","type":0,"content":"<@7> used 300g leek","author":{"id":"9","username":"stove"},"mentions":[{"id":"7","username":"pastry"}],"edited_timestamp":"2026-03-03T17:00:00.123456+00:00"}`,
		`{"id":"1","channel_id":"1","ids":["2","3"]}`, `{"content":null}`, `[]`, `{"author":null,"member":{"nick":"x"}}`,
		`{"type":3,"data":{"custom_id":"o|1|x|2","values":["1"],"options":[{"name":"open","type":1,"options":[{"name":"name","value":7}]}]},"member":{"permissions":"x"}}`,
	} {
		f.Add("MESSAGE_CREATE", s)
		f.Add("INTERACTION_CREATE", s)
	}
	f.Add("READY", `{"user":{"id":"7"},"application":{"id":"8"},"guilds":[{"id":"2","unavailable":true}]}`)
	f.Add("GUILD_DELETE", `{"id":"2"}`)
	f.Add("CHANNEL_DELETE", `{"id":"1","guild_id":"2"}`)
	f.Add("MESSAGE_DELETE_BULK", `{"ids":["5","6"],"channel_id":"1","guild_id":"2"}`)
	f.Add("MESSAGE_CREATE", `{"id":"80351110224678912","channel_id":"4","content":"hello","author":{"id":"9","username":"stove"}}`)
	s, err := store.Open(context.Background(), filepath.Join(f.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { s.Close() })
	b := bot.New(s, bot.Options{})
	f.Fuzz(func(t *testing.T, kind, raw string) {
		c := New(Options{Bot: b})
		c.alive, c.stop = context.WithCancel(context.Background())
		c.stop() // nothing is sent, and nothing waited for
		c.rooms["1"] = newRoom(c, bot.Room{ID: "1", Kitchen: "k", House: "2", Since: "1"})
		c.rooms["1"].ended = true
		err := c.take(&discordgo.Event{Type: kind, RawData: []byte(raw)})
		c.work.Wait() // what an event sets going may break as well
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal([]byte(raw), &m) == nil && c.isTalk(&m) {
			if s := m.text("7") + m.name(); !utf8.ValidString(s) {
				t.Errorf("%q", s)
			}
			m.bare()
			m.editedAt()
		}
		var i interaction
		if json.Unmarshal([]byte(raw), &i) == nil {
			i.who()
			i.may()
			i.lacking()
			i.bucket()
			for _, o := range orders {
				o.say(&i)
			}
		}
	})
}
