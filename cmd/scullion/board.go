package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"math"
	"net"
	"net/http"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"
	"rsc.io/qr"

	"scullion/bot"
	"scullion/bot/board"
	"scullion/bot/paper"
	"scullion/pantry/measure"
	"scullion/pantry/store"
)

// boardFlags are the flags of board alone.
type boardFlags struct {
	http           string
	newKey, revoke bool
}

func (a *app) boardCommand() *cobra.Command {
	o := boardFlags{}
	c := &cobra.Command{
		Use:   "board",
		Short: "Show the kitchen on a wall, live",
		Long: `Serve a page for a tablet on the wall or a phone: what is left and for whom, the
timetable, timers, dishes, what was said last, the wrap-up. It follows whatever
program writes to the kitchen, and takes messages of those who joined.

On this machine it needs no key. With --http on another address everybody needs
one: it is shown once, as a link, when the board is first started there.
--new-key makes one more, --revoke takes all of them back. All who come in see
names and what is said; without TLS in front, use a network that you trust.`,
		Example: `  scullion board
  scullion board --http 192.168.1.20:8715`,
		Args: takes(0, ""),
		RunE: func(c *cobra.Command, _ []string) error {
			if _, _, err := net.SplitHostPort(o.http); err != nil {
				return usage{fmt.Sprintf("--http takes an address with a port, like 127.0.0.1:8715, and not %q", o.http)}
			}
			return a.withStore(c.Context(), func(s *store.Store) error {
				keys := &board.Keys{File: s.Path() + ".keys"}
				if o.revoke {
					return keys.Revoke()
				}
				if isLoopback(o.http) {
					keys = nil
				}
				return a.board(c.Context(), s, a.bot(s), keys, o)
			})
		},
	}
	f := c.Flags()
	f.StringVar(&o.http, "http", "127.0.0.1:8715", "the `address` to serve at")
	f.BoolVar(&o.newKey, "new-key", false, "make one more key, and show it")
	f.BoolVar(&o.revoke, "revoke", false, "take all keys back, and leave")
	return c
}

// isLoopback says whether an address is this machine's alone.
func isLoopback(address string) bool {
	host, _, err := net.SplitHostPort(address)
	ip := net.ParseIP(host)
	return err == nil && (host == "localhost" || ip != nil && ip.IsLoopback())
}

// board serves the board until ctx ends. Talk is the one bot of this program: it knows what is on.
func (a *app) board(ctx context.Context, s *store.Store, talk *bot.Bot, keys *board.Keys, o boardFlags) error {
	l, err := net.Listen("tcp", o.http)
	if err != nil {
		return fmt.Errorf("the board cannot be served: %w; name another address with --http", err)
	}
	defer l.Close()
	address := addresses(l.Addr())[0]
	if keys != nil {
		some, err := keys.Any()
		if err != nil {
			return err
		}
		if !some || o.newKey {
			key, err := keys.New()
			if err != nil {
				return err
			}
			a.showKey(key, addresses(l.Addr()))
		}
	}
	fmt.Fprintln(a.err, "The board is at "+address+". Ctrl-C ends it.")
	b := a.newBoard(s, talk, keys)
	server := &http.Server{Handler: b, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, WriteTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 32 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	served := make(chan error, 1)
	go func() { served <- server.Serve(l) }()
	ran := make(chan error, 1)
	go func() { ran <- b.Run(ctx) }()
	select {
	case err = <-served:
	case err = <-ran:
	}
	server.Close() // open boards come back by themselves when it is up again
	if ctx.Err() != nil || errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// addresses are where a board that listens there is found from other machines, likely ones first.
func addresses(at net.Addr) (list []string) {
	host, port, _ := net.SplitHostPort(at.String())
	hosts := []string{host}
	if ip := net.ParseIP(host); ip != nil && ip.IsUnspecified() {
		hosts = ourAddresses()
	}
	for _, h := range hosts {
		list = append(list, "http://"+net.JoinHostPort(h, port)+"/")
	}
	return list
}

// ourAddresses are this machine's in its networks, those of version 4 first; where it is in none,
// its own.
func ourAddresses() (list []string) {
	found, _ := net.InterfaceAddrs() // without them it is still reached from here
	for _, four := range []bool{true, false} {
		for _, a := range found {
			if n, ok := a.(*net.IPNet); ok && n.IP.IsGlobalUnicast() && (n.IP.To4() != nil) == four {
				list = append(list, n.IP.String())
			}
		}
	}
	if len(list) == 0 {
		list = []string{"127.0.0.1"}
	}
	return list
}

// showKey shows a key once: as links, and in a terminal as a code to hold a phone's camera to.
func (a *app) showKey(key string, at []string) {
	fmt.Fprintln(a.err, "Open this once on each device; it is not shown again:")
	for _, address := range at {
		fmt.Fprintln(a.err, address+"key/"+key)
	}
	if f, ok := a.err.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		fmt.Fprint(a.err, code(at[0]+"key/"+key))
	}
}

// watchEvery is how often a board looks whether something was committed: a quarter of the 100 ms
// in which it is to be seen.
const watchEvery = 25 * time.Millisecond

func (a *app) newBoard(s *store.Store, talk *bot.Bot, keys *board.Keys) *board.Board {
	return board.New(board.Options{
		State: func(ctx context.Context) (state *bot.State, err error) {
			err = a.record(ctx, s, func(x *bot.Records, r *store.Record) error {
				state, err = bot.StateOf(x, r, a.now())
				return err
			})
			if errors.Is(err, store.ErrNoKitchen) {
				return &bot.State{At: a.now(), Kitchen: a.kitchen}, nil
			}
			return state, err
		},
		Account: func(ctx context.Context) (*board.Account, error) { return a.account(ctx, s) },
		Sheet:   func(ctx context.Context, n int) (string, error) { return a.sheetPage(ctx, s, n) },
		Watch:   func(ctx context.Context, changed func()) error { return s.Watch(ctx, a.kitchen, watchEvery, changed) },
		Say: func(ctx context.Context, m bot.Message) (bot.Reply, error) {
			m.Kitchen = a.kitchen
			return talk.Handle(ctx, m)
		},
		Keys: keys, Now: a.now, Log: slog.New(slog.NewTextHandler(a.err, nil)),
	})
}

// record hands do a kitchen's record with its foods.
func (a *app) record(ctx context.Context, s *store.Store, do func(*bot.Records, *store.Record) error) error {
	return s.Records(ctx, a.kitchen, func(r *store.Record) error {
		x := &bot.Records{Kitchen: r.Kitchen, WrapUps: r.WrapUps, Services: r.Services, Ledger: r}
		x.Foods(a.catalogue())
		return do(x, r)
	})
}

// mostBars is how many past services the page of the wrap-up shows.
const mostBars = 12

func (a *app) account(ctx context.Context, s *store.Store) (*board.Account, error) {
	page := &board.Account{Kitchen: a.kitchen}
	err := a.record(ctx, s, func(x *bot.Records, _ *store.Record) error {
		list, err := x.Wraps()
		if err != nil {
			return err
		}
		if w := bot.Latest(list); w != nil {
			page.Parts = parts(&w.Crate, w.GivenSays())
			page.Text, page.Lines = strings.Split(w.Say(x, a.now()), "\n"), w.SayLines(x)
		}
		if w := bot.WithDishes(list, 0); w != nil {
			for _, d := range w.Dishes {
				page.Dishes = append(page.Dishes, d.Name)
			}
		}
		for i := len(list) - 1; i >= 0 && len(page.Past) < mostBars; i-- {
			w := list[i]
			if w.Until == nil {
				continue
			}
			gone := w.Crate.Dishes.AP + w.Crate.Trim.AP + w.Crate.Binned.AP + w.Crate.Given.AP
			if gone <= 0 {
				continue
			}
			page.Past = append(page.Past, board.Past{Name: w.Until.In(a.now().Location()).Format("Mon 2 Jan 15:04"), Binned: grams(w.Crate.Binned.AP), Share: w.Crate.Binned.AP / gone})
		}
		return nil
	})
	if errors.Is(err, store.ErrNoKitchen) {
		err = nil
	}
	return page, err
}

// parts are where a crate went, but for what is unaccounted for; given is the name of what was given away.
func parts(c *bot.WrapCrate, given string) (list []board.Part) {
	all := c.Had.AP + c.Came.AP + c.Made.AP
	for _, p := range []struct {
		kind, name string
		ap         float64
	}{{"used", "into dishes", c.Dishes.AP}, {"given", given, c.Given.AP}, {"trim", "trim", c.Trim.AP}, {"binned", "binned", c.Binned.AP}, {"kept", "carried over", c.Carried.AP}} {
		if p.ap > 0 && all > 0 {
			list = append(list, board.Part{Kind: p.kind, Name: p.name, Amount: grams(p.ap), Share: p.ap / all})
		}
	}
	return list
}

// grams puts a weight in words.
func grams(g float64) string {
	return measure.Say(measure.Amount(math.Round(g*1000)), measure.Gram)
}

func (a *app) sheetPage(ctx context.Context, s *store.Store, n int) (page string, err error) {
	err = a.record(ctx, s, func(x *bot.Records, _ *store.Record) error {
		list, err := x.Wraps()
		if err != nil {
			return err
		}
		w := bot.WithDishes(list, 0)
		if w == nil || n >= len(w.Dishes) {
			return nil
		}
		sheet, err := x.Sheet(w, w.Dishes[n].Name)
		if err != nil {
			return err
		}
		o := paper.Options{Place: a.now().Location(), US: a.units == "us", Names: x.CookNames(), Storage: x.LeftoverNote(sheet, a.units)}
		if !strings.Contains(w.Currency, "+") {
			o.Currency = w.Currency
		}
		page = paper.HTML(sheet, o)
		return nil
	})
	if errors.Is(err, store.ErrNoKitchen) {
		err = nil
	}
	return page, err
}

// code is a link as a QR code in half blocks; "" where it does not fit.
func code(link string) string {
	c, err := qr.Encode(link, qr.L)
	if err != nil {
		return ""
	}
	const quiet = 2
	var b strings.Builder
	for y := -quiet; y < c.Size+quiet; y += 2 {
		for x := -quiet; x < c.Size+quiet; x++ {
			b.WriteString([]string{"█", "▄", "▀", " "}[bit(c.Black(x, y))*2+bit(c.Black(x, y+1))])
		}
		b.WriteString("\n")
	}
	return b.String()
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}
