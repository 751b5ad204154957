//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
)

// seat is a person's terminal with the program in it.
type seat struct {
	*testing.T
	tty  *os.File
	cmd  *exec.Cmd
	mu   sync.Mutex
	seen strings.Builder
	news chan struct{}
	from int // how far what was seen has been looked at
	ran  chan error
}

// sit starts the program in a terminal of 80 columns.
func sit(t *testing.T, env string, args ...string) *seat {
	t.Helper()
	p := &seat{T: t, cmd: program(t, args...), news: make(chan struct{}, 1), ran: make(chan error, 1)}
	p.cmd.Env = append(p.cmd.Env, env)
	var err error
	if p.tty, err = pty.StartWithSize(p.cmd, &pty.Winsize{Rows: 24, Cols: 80}); err != nil {
		t.Skipf("no pseudo-terminal is to be had: %v", err)
	}
	t.Cleanup(func() { p.cmd.Process.Kill(); p.tty.Close() })
	go p.watch()
	return p
}

func (p *seat) watch() {
	b := make([]byte, 4096)
	for {
		n, err := p.tty.Read(b)
		p.mu.Lock()
		p.seen.Write(b[:n])
		p.mu.Unlock()
		if err != nil {
			p.ran <- p.cmd.Wait()
			return
		}
		select {
		case p.news <- struct{}{}:
		default:
		}
	}
}

// see waits until text appears after what was seen last, and gives what was
// there up to its end.
func (p *seat) see(text string) string {
	p.Helper()
	deadline := time.After(30 * time.Second)
	for {
		p.mu.Lock()
		all := p.seen.String()
		p.mu.Unlock()
		if i := strings.Index(all[p.from:], text); i >= 0 {
			part := all[p.from : p.from+i+len(text)]
			p.from += len(part)
			return part
		}
		select {
		case <-p.news:
		case <-deadline:
			p.Fatalf("%q did not appear; there was\n%q", text, all[p.from:])
		}
	}
}

func (p *seat) enter(keys string) { p.tty.WriteString(keys) }

// left waits for the program to end by itself.
func (p *seat) left() string {
	p.Helper()
	select {
	case err := <-p.ran:
		if err != nil {
			p.Fatalf("ended with %v; there was\n%s", err, p.seen.String())
		}
	case <-time.After(30 * time.Second):
		p.Fatal("the program did not end")
	}
	return p.seen.String()
}

func TestRoom(t *testing.T) {
	home := t.TempDir()
	p := sit(t, "XDG_DATA_HOME="+home, "--cook", "stove")
	p.see("Load the demo crate to try things out? (y/n) ")
	p.enter("n\r")
	p.see("stove     ")
	p.enter("got 1kg leeks\r")
	p.see("\x1b[2mscullion  \x1b[0m")
	p.see("stove     ")
	p.enter("used 300g lee\t in the tart\r") // tab makes it leek
	p.see("used 300g leek")
	p.see("700 g")
	p.see("stove     ")
	p.enter("I am pastry\r")
	p.see("say it again")
	p.see("stove     ")
	p.enter("I am pastry\r")
	p.see("You are pastry from here on")
	p.see("pastry    ")
	p.enter("\x1b[A") // up
	p.see("used 300g leek in the tart")
	p.enter("\x03") // ctrl-c
	p.left()
	history, err := os.ReadFile(filepath.Join(home, "scullion", "history"))
	if err != nil || !strings.Contains(string(history), "used 300g leek in the tart\n") {
		t.Errorf("history: %q, %v", history, err)
	}
	t.Setenv("XDG_DATA_HOME", home)
	if log := must(t, "", "log"); !strings.Contains(log, "stove     use 300 g leek for the tart") {
		t.Errorf("log: %s", log)
	}
}

func TestRoomDemoCrate(t *testing.T) {
	p := sit(t, "NO_COLOR=1")
	p.see("(y/n) ")
	p.enter("y\r")
	p.see("got 6 leeks, 1.2kg")
	p.see("larder    ")
	p.enter("what's left\r")
	p.see("1.2 kg")
	p.enter("\x04") // ctrl-d
	for l := range strings.Lines(escapes.ReplaceAllString(p.left(), "")) {
		if n := len([]rune(strings.TrimRight(l, "\r\n"))); n > 80 {
			t.Errorf("%d columns: %q", n, l)
		}
	}
}

var escapes = regexp.MustCompile(`\x1b\[[0-9;?]*[A-Za-z]`)

func TestRoomWithoutColour(t *testing.T) {
	p := sit(t, "NO_COLOR=1", "--cook", "stove", "--kitchen", "boathouse")
	p.see("(y/n) ")
	p.enter("n\r")
	p.see("stove     ")
	p.enter("got 1kg leeks\r")
	p.see("scullion  ")
	p.see("stove     ")
	p.enter("quit\r")
	if all := p.left(); strings.Contains(all, "\x1b[2m") {
		t.Errorf("there is colour: %q", all)
	}
}

func TestRoomEndsOnSignal(t *testing.T) {
	for _, s := range []syscall.Signal{syscall.SIGTERM, syscall.SIGINT} {
		t.Run(s.String(), func(t *testing.T) {
			p := sit(t, "TERM=xterm", "--cook", "stove")
			p.see("(y/n) ")
			p.enter("n\r")
			p.see("stove     ")
			p.cmd.Process.Signal(s)
			p.left()
		})
	}
}
