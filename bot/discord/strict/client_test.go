package strict

import (
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
)

// toServer sends every request to the stand-in.
type toServer struct{ host string }

func (r toServer) RoundTrip(q *http.Request) (*http.Response, error) {
	q = q.Clone(q.Context())
	q.URL.Scheme, q.URL.Host = "http", r.host
	return http.DefaultTransport.RoundTrip(q)
}

// heard keeps what a session was told.
type heard struct {
	mu    sync.Mutex
	texts []string
}

func (h *heard) add(s string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.texts = append(h.texts, s)
}

func (h *heard) all() []string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return slices.Clone(h.texts)
}

func (h *heard) has(text string) func() bool {
	return func() bool { return slices.Contains(h.all(), text) }
}

// realClient opens the client library's own session on the stand-in.
func realClient(t *testing.T, s *Server) (*discordgo.Session, *heard) {
	t.Helper()
	d, err := discordgo.New("Bot " + Token)
	if err != nil {
		t.Fatal(err)
	}
	d.Client = &http.Client{Transport: toServer{strings.TrimPrefix(s.URL(), "http://")}, Timeout: 20 * time.Second}
	d.Identify.Intents = 38401
	d.SyncEvents = true
	d.StateEnabled = false
	h := &heard{}
	d.AddHandler(func(_ *discordgo.Session, m *discordgo.MessageCreate) { h.add(m.Content) })
	d.AddHandler(func(*discordgo.Session, *discordgo.Resumed) { h.add("(resumed)") })
	d.AddHandler(func(_ *discordgo.Session, g *discordgo.GuildCreate) { h.add("(guild " + g.Name + ")") })
	if err := d.Open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	s.WaitReady(10 * time.Second)
	// A cut before the first heartbeat would have the library close twice, the second
	// time its new connection.
	soon(t, "the first heartbeat", func() bool { return s.Stats().Heartbeats > 0 })
	return d, h
}

// withNonce is the library's message with the nonce that it lacks.
type withNonce struct {
	*discordgo.MessageSend
	Nonce        string `json:"nonce"`
	EnforceNonce bool   `json:"enforce_nonce"`
}

func TestRealClient(t *testing.T) {
	t.Parallel()
	s := New(t, Options{Intents: 38401})
	c := galley(s)
	stove := s.User("stove")
	d, h := realClient(t, s)
	soon(t, "the guild is known", h.has("(guild boathouse)"))

	m := c.Say(stove, "used 300g leek in the tart")
	soon(t, "the message is heard", h.has("used 300g leek in the tart"))

	quiet := &discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{}}
	body := withNonce{&discordgo.MessageSend{Content: "Leek 300 g.", AllowedMentions: quiet,
		Reference: &discordgo.MessageReference{MessageID: m.ID}}, "n-" + m.ID, true}
	where := discordgo.EndpointChannelMessages(c.ID)
	for range 2 { // the second makes no second message
		if _, err := d.RequestWithBucketID("POST", where, body, where); err != nil {
			t.Fatal(err)
		}
	}
	stood := c.Messages()
	if len(stood) != 2 || stood[1].Ref != m.ID || stood[1].Author != s.Self() || stood[1].Pinged != nil {
		t.Fatalf("stands: %+v", stood)
	}
	if err := d.MessageReactionAdd(c.ID, m.ID, "✅"); err != nil {
		t.Fatal(err)
	}
	edited := "Leek 200 g."
	if _, err := d.ChannelMessageEditComplex(&discordgo.MessageEdit{Channel: c.ID, ID: stood[1].ID, Content: &edited, AllowedMentions: quiet}); err != nil {
		t.Fatal(err)
	}
	page, err := d.ChannelMessages(c.ID, 50, "", "", "")
	if err != nil || len(page) != 2 || page[0].Content != edited || page[1].Reactions[0].Emoji.Name != "✅" {
		t.Fatalf("the page is %v, %v", page, err)
	}
}

func TestRealClientResumes(t *testing.T) {
	t.Parallel()
	s := New(t, Options{})
	c := galley(s)
	_, h := realClient(t, s)
	s.Drop()
	c.Say(s.User("larder"), "two leeks left")
	soon(t, "the session is resumed", h.has("(resumed)"))
	soon(t, "what was missed is heard", h.has("two leeks left"))
	if st := s.Stats(); st.Resumed != 1 || st.Identifies != 1 {
		t.Errorf("stats %+v", st)
	}
	s.CutNextFrame()
	c.Say(s.User("larder"), "one leek left")
	soon(t, "what was cut is heard", h.has("one leek left"))
}

// The library closes with 1000 when the server closes, which ends its session: what
// is said meanwhile is not replayed. The stand-in must not be kinder than that.
func TestRealClientLosesItsSession(t *testing.T) {
	t.Parallel()
	s := New(t, Options{})
	c := galley(s)
	_, h := realClient(t, s)
	s.CloseWith(4000)
	soon(t, "the client answers", func() bool { return slices.Contains(s.Stats().CloseCodes, 1000) })
	c.Say(s.User("larder"), "nobody hears this")
	soon(t, "it is back", func() bool { return s.Stats().Identifies == 2 && s.Connected() })
	c.Say(s.User("larder"), "but this")
	soon(t, "later messages are heard", h.has("but this"))
	if h.has("nobody hears this")() {
		t.Error("a session that was closed with 1000 was resumed")
	}
}

func TestRealClientAnswersCommands(t *testing.T) {
	t.Parallel()
	s := New(t, Options{})
	c := galley(s)
	d, _ := realClient(t, s)
	quiet := &discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{}}
	d.AddHandler(func(d *discordgo.Session, i *discordgo.InteractionCreate) {
		row := discordgo.ActionsRow{Components: []discordgo.MessageComponent{
			discordgo.Button{Label: "all of it", Style: discordgo.PrimaryButton, CustomID: "all"}}}
		r := &discordgo.InteractionResponse{Type: discordgo.InteractionResponseChannelMessageWithSource,
			Data: &discordgo.InteractionResponseData{Content: "600 g leek", AllowedMentions: quiet,
				Flags: discordgo.MessageFlagsEphemeral, Components: []discordgo.MessageComponent{row}}}
		if i.Type == discordgo.InteractionMessageComponent {
			r.Type, r.Data.Content, r.Data.Flags = discordgo.InteractionResponseUpdateMessage, "none left", 0
		}
		if err := d.InteractionRespond(i.Interaction, r); err != nil {
			t.Error(err)
		}
	})
	_, err := d.ApplicationCommandBulkOverwrite(s.App(), c.guild.ID, []*discordgo.ApplicationCommand{{
		Name: "left", Description: "What is left", Options: []*discordgo.ApplicationCommandOption{
			{Type: discordgo.ApplicationCommandOptionString, Name: "item", Description: "A food"}}}})
	if err != nil {
		t.Fatal(err)
	}
	r := s.Slash(s.User("pastry"), c, "left", Raw{"name": "item", "value": "leek"}).Wait(5 * time.Second)
	if r.Content != "600 g leek" || !r.Ephemeral || len(c.Messages()) != 0 {
		t.Fatalf("the answer is %+v", r)
	}
	r = s.Press(s.User("pastry"), r.Message, "all").Wait(5 * time.Second)
	if r.Type != 7 || r.Content != "none left" || r.Message.Edits != 1 {
		t.Fatalf("the answer is %+v", r)
	}
}
