package board_test

import (
	"context"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/bot/board"
	"scullion/pantry/food"
	"scullion/pantry/store"
)

// wall is a board of a kitchen file, served on this machine.
type wall struct {
	testing.TB
	s      *store.Store
	talk   *bot.Bot
	board  *board.Board
	server *httptest.Server
	client *http.Client
	n      int
}

// options are those of a board of a kitchen file.
func options(s *store.Store, talk *bot.Bot) board.Options {
	records := func(ctx context.Context, do func(*bot.Records, *store.Record) error) error {
		return s.Records(ctx, "k", func(r *store.Record) error {
			x := &bot.Records{Kitchen: r.Kitchen, WrapUps: r.WrapUps, Services: r.Services, Ledger: r}
			x.Foods(food.Default())
			return do(x, r)
		})
	}
	return board.Options{
		State: func(ctx context.Context) (state *bot.State, err error) {
			err = records(ctx, func(x *bot.Records, r *store.Record) error {
				state, err = bot.StateOf(x, r, time.Now())
				return err
			})
			return state, err
		},
		Account: func(ctx context.Context) (*board.Account, error) {
			return &board.Account{Kitchen: "k", Parts: []board.Part{{Kind: "used", Name: "into dishes", Amount: "3 kg", Share: 0.6}}, Text: []string{"Wrap-up <1>"}, Dishes: []string{"tart"}, Past: []board.Past{{Name: "Tue", Binned: "200 g", Share: 0.2}}}, nil
		},
		Sheet: func(_ context.Context, n int) (string, error) {
			return map[int]string{0: "<!doctype html><html lang=\"en\"><head><title>tart</title><style>h1 { font-style: italic; }</style></head><body><main><h1>tart</h1></main></body></html>"}[n], nil
		},
		Watch: func(ctx context.Context, changed func()) error { return s.Watch(ctx, "k", 5*time.Millisecond, changed) },
		Say: func(ctx context.Context, m bot.Message) (bot.Reply, error) {
			m.Kitchen = "k"
			return talk.Handle(ctx, m)
		},
	}
}

func hang(t testing.TB, change func(*board.Options)) *wall {
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "k.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := &wall{TB: t, s: s, talk: bot.New(s, bot.Options{})}
	w.say("ana", "got 1kg leeks £3, 600ml double cream, 1kg flour, 12 eggs")
	o := options(s, w.talk)
	if change != nil {
		change(&o)
	}
	b := board.New(o)
	w.board = b
	ctx, stop := context.WithCancel(context.Background())
	ran := make(chan struct{})
	go func() { b.Run(ctx); close(ran) }()
	w.server = httptest.NewServer(b)
	jar, _ := cookiejar.New(nil)
	w.client = &http.Client{Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }, Timeout: 10 * time.Second}
	t.Cleanup(func() {
		w.server.CloseClientConnections()
		w.server.Close()
		stop()
		<-ran
		s.Close()
	})
	return w
}

// say says something in the kitchen, as in any other room.
func (w *wall) say(cook, text string) {
	w.Helper()
	w.n++
	if _, err := w.talk.Handle(context.Background(), bot.Message{Kitchen: "k", ID: text + time.Now().String(), Cook: cook, At: time.Now(), Text: text}); err != nil {
		w.Fatal(err)
	}
}

// get fetches a page.
func (w *wall) get(path string, change ...func(*http.Request)) (*http.Response, string) {
	return w.do(http.MethodGet, path, "", change...)
}

func (w *wall) do(method, path, body string, change ...func(*http.Request)) (*http.Response, string) {
	w.Helper()
	r, err := http.NewRequest(method, w.server.URL+path, strings.NewReader(body))
	if err != nil {
		w.Fatal(err)
	}
	if body != "" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for _, c := range change {
		c(r)
	}
	resp, err := w.client.Do(r)
	if err != nil {
		w.Fatal(err)
	}
	defer resp.Body.Close()
	var b strings.Builder
	buf := make([]byte, 4096)
	for {
		n, err := resp.Body.Read(buf)
		b.Write(buf[:n])
		if err != nil {
			break
		}
	}
	return resp, b.String()
}
