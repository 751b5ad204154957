package discord

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/bwmarrin/discordgo"
	"pgregory.net/rapid"

	"scullion/bot"
)

func TestEscape(t *testing.T) {
	for said, want := range map[string]string{
		"Leek 300 g into the tart. 600 g left.":   "Leek 300 g into the tart. 600 g left.",
		"**bold** _it_ ~~no~~ `code` ||spoiler||": `\*\*bold\*\* \_it\_ \~\~no\~\~ ` + "\\`code\\`" + ` \|\|spoiler\|\|`,
		"# heading\n> quote\n- list":              "\\# heading\n\\> quote\n\\- list",
		"[a](https://example.org)":                `\[a\](https:` + noWidth + `//example.org)`,
		"<@123> @everyone":                        `\<@` + noWidth + `123\> @` + noWidth + `everyone`,
		`a \* b`:                                  `a \\\* b`,
		"a\r# heading\r\n- list":                  "a\n\\# heading\n\\- list",
		"discord.gg/abc":                          "discord.gg" + noWidth + "/abc",
	} {
		if got := escape(said); got != want {
			t.Errorf("%q: %q, not %q", said, got, want)
		}
	}
}

// Whatever a text is, its parts fit, none is empty, and together they say it all.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slashes := rapid.Map(rapid.IntRange(1, 2500), func(n int) string { return strings.Repeat(`\`, n) })
		word := rapid.OneOf(rapid.StringMatching(`[a-zéß🍋*]{1,900}|[a-z]{1,12}|\n{1,3}`), slashes)
		words := rapid.SliceOfN(word, 1, 60).Draw(t, "words")
		said := "a" + escape(strings.Join(words, rapid.SampledFrom([]string{" ", "\n", ""}).Draw(t, "between")))
		parts := split(said)
		for i, p := range parts {
			if n := utf8.RuneCountInString(p); n == 0 || n > mostText || !utf8.ValidString(p) {
				t.Fatalf("part %d of %d has %d characters", i, len(parts), n)
			}
			if end := len(p) - len(strings.TrimRight(p, `\`)); end%2 > 0 {
				t.Fatalf("part %d ends in an escape without its sign", i)
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

// The code that a server closes with is read, whatever comes before it and in
// whatever pieces.
func TestCloseCode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sent := []byte("HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\n\r\n")
		for _, n := range rapid.SliceOfN(rapid.SampledFrom([]int{0, 1, 125, 126, 300, 65535, 65536}), 0, 4).Draw(t, "frames") {
			switch {
			case n < 126:
				sent = append(sent, 0x81, byte(n))
			case n < 1<<16:
				sent = binary.BigEndian.AppendUint16(append(sent, 0x81, 126), uint16(n))
			default:
				sent = binary.BigEndian.AppendUint64(append(sent, 0x81, 127), uint64(n))
			}
			sent = append(sent, bytes.Repeat([]byte{0x88}, n)...)
		}
		code := rapid.SampledFrom([]int{0, 1000, 4004, 4014}).Draw(t, "code")
		if code == 0 {
			sent = append(sent, 0x88, 0)
		} else {
			sent = binary.BigEndian.AppendUint16(append(sent, 0x88, 5), uint16(code))
			sent = append(sent, "why"...)
		}
		var f frames
		for len(sent) > 0 {
			n := min(len(sent), rapid.IntRange(1, 70000).Draw(t, "piece"))
			f.take(sent[:n])
			sent = sent[n:]
		}
		if f.code != code || f.rest != 0 || len(f.head) != 0 {
			t.Fatalf("%+v, not %d", f, code)
		}
	})
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

// Nor do they repeat what a server between here and the platform has sent.
func TestBadGateway(t *testing.T) {
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.WriteHeader(http.StatusBadGateway)
		fmt.Fprint(w, "SECRET")
	}))
	defer s.Close()
	address, err := url.Parse(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	r := newRest(Options{Token: "t", URL: address, Metrics: NewMetrics()})
	_, _, err = r.send(t.Context(), "1", text("hello"))
	if said := plainError(err); !strings.Contains(said, "502") || strings.Contains(said, "SECRET") {
		t.Errorf("%q", said)
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
