package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"scullion/bot/discord"
	"scullion/pantry/store"
)

// serveFlags are the flags of serve alone.
type serveFlags struct {
	http   string
	board  string
	listen []string
	texts  bool
	keep   int
}

// check refuses what would be taken for something else, or never be noticed.
func (o serveFlags) check() error {
	if o.board != "" && !isLoopback(o.board) {
		return usage{"--board takes an address of this machine, like 127.0.0.1:8715; for others run \"scullion board --http\" beside it, which asks for a key"}
	}
	if o.keep < 0 {
		return usage{"--keep is a number of days, or 0 for good"}
	}
	for _, id := range o.listen {
		if _, err := strconv.ParseUint(id, 10, 64); err != nil {
			return usage{fmt.Sprintf("--listen takes ids, which are numbers, and not %q: copy them in Discord's developer mode", id)}
		}
	}
	return nil
}

func (a *app) serveCommand() *cobra.Command {
	o := serveFlags{}
	c := &cobra.Command{
		Use:   "serve",
		Short: "Join the team's chat in Discord",
		Long: `Join Discord and keep count in the channels that have been made kitchens there, by
someone who may manage the channel: /kitchen open. It stays until it is told to
stop (SIGTERM, Ctrl-C); what came in while it was away is read when it is back.

The bot's token is read from SCULLION_TOKEN, or from the file that
SCULLION_TOKEN_FILE names, which nobody but its owner may read. It is never shown.

/healthz and /metrics (Prometheus) are served on this machine only, unless --http
says otherwise, and so is the board of the kitchen: see "scullion board --help".
Lines of the log hold ids and counts, no texts.`,
		Example: `  SCULLION_TOKEN_FILE=~/.config/scullion/token scullion serve
  scullion serve --db /var/lib/scullion/kitchen.db --http 127.0.0.1:9090`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			if err := o.check(); err != nil {
				return err
			}
			token, err := a.token()
			if err != nil {
				return err
			}
			return a.withStore(c.Context(), func(s *store.Store) error { return a.serve(c.Context(), s, token, o) })
		},
	}
	f := c.Flags()
	f.StringVar(&o.http, "http", "127.0.0.1:8714", "where health and metrics are served; \"\" nowhere")
	f.StringVar(&o.board, "board", "127.0.0.1:8715", "where the kitchen's board is served; \"\" nowhere")
	f.StringSliceVar(&o.listen, "listen", nil, "`ids` of bots and webhooks that are heard as cooks are")
	f.BoolVar(&o.texts, "log-texts", false, "log what is said as well, to find out what went wrong")
	f.IntVar(&o.keep, "keep", 90, "how many `days` what was said is kept in words; 0: for good. Entries always are")
	return c
}

// token reads the bot's token.
func (a *app) token() (string, error) {
	file := a.env("SCULLION_TOKEN_FILE")
	token := a.env("SCULLION_TOKEN")
	switch {
	case token != "" && file != "":
		return "", usage{"both SCULLION_TOKEN and SCULLION_TOKEN_FILE are set: unset one"}
	case file != "":
		info, err := os.Stat(file)
		if err != nil {
			return "", fmt.Errorf("the file that SCULLION_TOKEN_FILE names cannot be read: %w; put the bot's token there", err)
		}
		given := a.env("CREDENTIALS_DIRECTORY") // systemd's, which sees to who may read it
		if open := info.Mode().Perm() & 0o077; open != 0 && (given == "" || filepath.Dir(file) != given) {
			return "", fmt.Errorf("others may read the token in %s; run: chmod 600 %s", file, file)
		}
		raw, err := os.ReadFile(file)
		if err != nil {
			return "", fmt.Errorf("the file that SCULLION_TOKEN_FILE names cannot be read: %w", err)
		}
		token = string(raw)
	}
	token = strings.TrimPrefix(strings.TrimSpace(token), "Bot ")
	if token == "" {
		return "", usage{"no token: put the bot's into SCULLION_TOKEN, or into a file that SCULLION_TOKEN_FILE names"}
	}
	if strings.ContainsAny(token, " \t\r\n") {
		return "", errors.New("the token has spaces or line breaks in it: copy it anew, alone")
	}
	return token, nil
}

func (a *app) serve(ctx context.Context, s *store.Store, token string, o serveFlags) error {
	log := slog.New(slog.NewTextHandler(a.err, nil))
	other, err := a.otherServer()
	if err != nil {
		return err
	}
	metrics := discord.NewMetrics()
	talk := a.bot(s)
	client := discord.New(discord.Options{Bot: talk, Token: token, URL: other, Log: log, Texts: o.texts, Metrics: metrics, Now: a.now, Kitchen: a.kitchen, Listen: o.listen})
	if o.http != "" {
		stop, err := a.watch(o.http, client, metrics)
		if err != nil {
			return err
		}
		defer stop()
	}
	var work sync.WaitGroup
	defer work.Wait() // it uses the store, which is closed next
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	if o.board != "" {
		work.Go(func() { // without it the room still works
			if err := a.board(ctx, s, talk, nil, boardFlags{http: o.board}); err != nil {
				log.Warn("no board: "+err.Error()+", or \"\" for none", "flag", "--board")
			}
		})
	}
	if o.keep > 0 {
		work.Go(func() { a.tidy(ctx, s, log, time.Duration(o.keep)*24*time.Hour) })
	}
	return client.Run(ctx)
}

// otherServer is a server that stands in for Discord; nil none.
func (a *app) otherServer() (*url.URL, error) {
	address := a.env("SCULLION_DISCORD_URL")
	if address == "" {
		return nil, nil
	}
	u, err := url.Parse(strings.TrimSuffix(address, "/"))
	if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" {
		return nil, usage{"SCULLION_DISCORD_URL is no address, like http://127.0.0.1:8080"}
	}
	return u, nil
}

// watch serves health and metrics until stop is called.
func (a *app) watch(address string, c *discord.Client, m *discord.Metrics) (stop func(), err error) {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("health and metrics cannot be served: %w; name another address with --http, or \"\" for none", err)
	}
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", m.Handler())
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		state := c.State()
		if state != "connected" {
			w.WriteHeader(http.StatusServiceUnavailable)
		}
		fmt.Fprintln(w, state)
	})
	s := &http.Server{Handler: mux, ReadHeaderTimeout: 5 * time.Second}
	go s.Serve(l)
	return func() { s.Close() }, nil
}

// tidy forgets old words, now and once a day.
func (a *app) tidy(ctx context.Context, s *store.Store, log *slog.Logger, keep time.Duration) {
	for {
		names, err := s.Kitchens(ctx)
		for _, name := range names {
			if err == nil {
				err = s.Tidy(ctx, name, a.now().Add(-keep))
			}
		}
		if err != nil && ctx.Err() == nil {
			log.Warn("old messages could not be forgotten", "error", err)
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(24 * time.Hour):
		}
	}
}
