package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/bwmarrin/discordgo"
	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry/store"
)

func TestEscape(t *testing.T) {
	for said, want := range map[string]string{
		"Leek 300 g into the tart. 600 g left.":   "Leek 300 g into the tart. 600 g left.",
		"**bold** _it_ ~~no~~ `code` ||spoiler||": `\*\*bold\*\* \_it\_ \~\~no\~\~ ` + "\\`code\\`" + ` \|\|spoiler\|\|`,
		"# heading\n> quote\n- list":              "\\# heading\n\\> quote\n\\- list",
		"[a](https://example.org)":                `\[a\](https:` + noWidth + `//example.org)`,
		"<@123> @everyone":                        `\<@` + noWidth + `123\> @` + noWidth + `everyone`,
		`a \* b`:                                  `a \\\* b`,
	} {
		if got := escape(said); got != want {
			t.Errorf("%q: %q, not %q", said, got, want)
		}
	}
}

// Whatever a text is, its parts fit, none is empty, and together they say it all.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zéß🍋*]{1,900}|[a-z]{1,12}`), 1, 60).Draw(t, "words")
		said := strings.Join(words, rapid.SampledFrom([]string{" ", "\n", ""}).Draw(t, "between"))
		parts := split(said)
		for i, p := range parts {
			if n := utf8.RuneCountInString(p); n == 0 || n > mostText || !utf8.ValidString(p) {
				t.Fatalf("part %d of %d has %d characters", i, len(parts), n)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if bare(strings.Join(parts, "")) != bare(said) {
			t.Fatal("the parts do not say it all")
		}
	})
}

// Buttons and menus keep the platform's limits, whatever foods are called.
func TestButtonsFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[a-z 🍋]{1,300}`)
		p := bot.Posting{ID: "i80351110224678912", Asked: "0011aabb", Spent: rapid.Bool().Draw(t, "spent"), Reply: bot.Reply{Kind: rapid.SampledFrom([]bot.Kind{bot.Log, bot.Answer, bot.Asking}).Draw(t, "kind")}}
		if labels := rapid.SliceOfN(name, 0, 8).Draw(t, "options"); len(labels) > 0 {
			p.Reply.Ask = &bot.Ask{About: name.Draw(t, "about"), Options: labels}
		}
		for _, title := range rapid.SliceOfN(name, 0, 5).Draw(t, "ideas") {
			p.Reply.Ideas = append(p.Reply.Ideas, bot.Idea{Title: title})
		}
		p.Reply.Entries = make([]bot.Entry, rapid.IntRange(0, 2).Draw(t, "entries"))
		rows := buttons(p)
		if len(rows) > mostRows || p.Spent && len(rows) > 0 {
			t.Fatalf("%d rows", len(rows))
		}
		var ids []string
		for _, r := range rows {
			if len(r.Parts) == 0 || len(r.Parts) > mostInRow {
				t.Fatalf("%d in a row", len(r.Parts))
			}
			for _, c := range r.Parts {
				if len(c.ID) > 100 || slices.Contains(ids, c.ID) || utf8.RuneCountInString(c.Label) > mostLabel {
					t.Fatalf("%+v", c)
				}
				ids = append(ids, c.ID)
				for _, o := range c.Choices {
					if n := utf8.RuneCountInString(o.Label); n == 0 || n > mostChoice {
						t.Fatalf("%+v", o)
					}
				}
			}
		}
	})
}

// A frame is read as the client has masked it. The bytes are the example of RFC
// 6455, section 5.7: a masked text message that says "Hello".
func TestFrame(t *testing.T) {
	kind, payload := frame([]byte{0x81, 0x85, 0x37, 0xfa, 0x21, 0x3d, 0x7f, 0x9f, 0x4d, 0x51, 0x58})
	if kind != 1 || string(payload) != "Hello" {
		t.Errorf("%d %q", kind, payload)
	}
	for n := range 12 {
		frame(make([]byte, n))
	}
}

// Ids are times: the example is the documentation's own. Source: Discord API
// docs, reference, "Convert Snowflake to DateTime".
func TestSnowflake(t *testing.T) {
	if got := said("175928847299117063").UTC().Format(time.RFC3339Nano); got != "2016-04-30T11:18:25.796Z" {
		t.Error(got)
	}
	if a, b := number("99"), number("100"); a >= b {
		t.Error("ids are compared as words")
	}
	at := time.UnixMilli(1_700_000_000_123)
	if got := said(idAt(at)); !got.Equal(at) {
		t.Error(got)
	}
}

// Every command is a sentence, with and without its options, and keeps the
// platform's rules.
func TestOrders(t *testing.T) {
	for name, o := range orders {
		i := &interaction{}
		i.Data.Name = name
		for _, p := range o.parameters() {
			if p.Required {
				i.Data.Options = append(i.Data.Options, option{Name: p.Name, Type: p.Type, Value: value(p)})
			}
		}
		least := o.say(i)
		i.Data.Options = nil
		for _, p := range o.parameters() {
			i.Data.Options = append(i.Data.Options, option{Name: p.Name, Type: p.Type, Value: value(p)})
		}
		most := o.say(i)
		for _, s := range []string{least, most} {
			if s == "" || strings.ContainsAny(s, "{}[]") {
				t.Errorf("/%s: %q", name, s)
			}
		}
		for _, p := range o.parameters() {
			if !strings.Contains(most, fmt.Sprint(value(p))) {
				t.Errorf("/%s leaves out %s: %q", name, p.Name, most)
			}
		}
	}
}

func value(p parameter) any {
	if p.Type == optInteger {
		return 17.0
	}
	return "the " + p.Name
}

// Errors tell neither the tokens that are in addresses nor what was said.
func TestPlainError(t *testing.T) {
	q, err := http.NewRequest("POST", "https://example.org/interactions/1/SECRET/callback", nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, err := range []error{
		&url.Error{Op: "Post", URL: q.URL.String(), Err: errors.New("refused")},
		&discordgo.RESTError{Request: q, Response: &http.Response{StatusCode: 400, Status: "400"}, ResponseBody: []byte("SECRET"), Message: &discordgo.APIErrorMessage{Code: 50035, Message: "Invalid Form Body"}},
		&discordgo.RateLimitError{RateLimit: &discordgo.RateLimit{TooManyRequests: &discordgo.TooManyRequests{RetryAfter: time.Second}, URL: q.URL.String()}},
	} {
		if s := plainError(fmt.Errorf("calling: %w", err)); s == "" || strings.Contains(s, "SECRET") {
			t.Errorf("%q", s)
		}
	}
}

// What is registered can be read back as it is.
func TestCommandsRoundTrip(t *testing.T) {
	want := commands()
	raw, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	var have []command
	if err := json.Unmarshal(raw, &have); err != nil || plainest(sorted(have)) != plainest(want) {
		t.Errorf("%v", err)
	}
}

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
