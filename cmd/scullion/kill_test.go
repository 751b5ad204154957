package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A kitchen whose program is killed again and again, and told everything again
// from some earlier point each time, ends up as one that was left in peace:
// the same ledger, the same stock, and the same answer to each message every
// time it was given.
func TestKilled(t *testing.T) {
	talks, rounds := 16, 25
	if testing.Short() {
		talks, rounds = 2, 12
	}
	var sum tally
	for seed := range talks {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			k := &killing{T: t, Rand: rand.New(rand.NewPCG(uint64(seed), 7)), lines: talk(uint64(seed), 60)}
			k.peace = filepath.Join(t.TempDir(), "peace.db")
			k.db = filepath.Join(t.TempDir(), "killed.db")
			k.want = strings.SplitAfter(must(t, strings.Join(k.lines, "\n"), "pipe", "--db", k.peace), "\n")
			if k.want = k.want[:len(k.want)-1]; len(k.want) != len(k.lines) {
				t.Fatalf("%d replies to %d lines", len(k.want), len(k.lines))
			}
			for range rounds {
				k.round()
			}
			k.finish()
			sum.add(k.tally)
		})
	}
	t.Logf("%d kills: %d before any reply, %d with replies outstanding, %d with none", sum.kills, sum.early, sum.amid, sum.late)
	if sum.early == 0 || sum.amid == 0 {
		t.Error("the kills did not fall where they matter")
	}
}

// tally says when the kills fell.
type tally struct{ kills, early, amid, late int }

func (a *tally) add(b tally) {
	a.kills, a.early, a.amid, a.late = a.kills+b.kills, a.early+b.early, a.amid+b.amid, a.late+b.late
}

type killing struct {
	*testing.T
	*rand.Rand
	tally
	lines     []string
	want      []string // the reply to each line
	peace, db string   // files of the kitchen left in peace and of the other
	acked     int      // lines answered so far
}

// round starts the program, sends what was answered from some earlier point
// and a little more, and kills it at a random moment.
func (k *killing) round() {
	k.Helper()
	from := k.IntN(min(k.acked+1, len(k.lines)))
	to := min(len(k.lines), k.acked+1+k.IntN(8))
	c := program(k, "pipe", "--db", k.db)
	in, err := c.StdinPipe()
	if err != nil {
		k.Fatal(err)
	}
	out, err := c.StdoutPipe()
	if err != nil {
		k.Fatal(err)
	}
	var errOut bytes.Buffer
	c.Stderr = &errOut
	if err := c.Start(); err != nil {
		k.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	awake := make(chan struct{})
	go trickle(ctx, in, k.lines[from:to], awake, k.Uint64())
	context.AfterFunc(ctx, func() { c.Process.Kill() })
	after, pause := -1, time.Duration(k.IntN(60_000))*time.Microsecond
	if k.IntN(3) > 0 {
		after, pause = k.IntN(to-from+1), time.Duration(k.IntN(1500))*time.Microsecond
	} else {
		time.AfterFunc(pause, cancel)
	}
	got := 0
	r := bufio.NewReader(out)
	for {
		if got == after {
			time.AfterFunc(pause, cancel)
		}
		reply, err := r.ReadString('\n')
		if err != nil {
			break
		}
		if i := from + got; i >= to || reply != k.want[i] {
			k.Fatalf("line %d was answered\n%snot\n%s", i, reply, k.want[min(i, len(k.want)-1)])
		}
		if got++; got == 1 {
			close(awake)
		}
	}
	c.Wait()
	if ctx.Err() == context.DeadlineExceeded {
		k.Fatal("the program hung")
	}
	if errOut.Len() > 0 {
		k.Fatalf("the program said %s", &errOut)
	}
	k.acked = max(k.acked, from+got)
	k.kills++
	switch {
	case got == 0:
		k.early++
	case from+got < to:
		k.amid++
	default:
		k.late++
	}
}

// trickle sends the lines in bursts, as chat comes, the second once the program
// has answered the first; it stops when the program has been killed.
func trickle(ctx context.Context, to io.Writer, lines []string, awake <-chan struct{}, seed uint64) {
	r := rand.New(rand.NewPCG(seed, 1))
	for i, l := range lines {
		if i == 1 {
			select {
			case <-awake:
			case <-ctx.Done():
				return
			}
		}
		if _, err := io.WriteString(to, l+"\n"); err != nil {
			return
		}
		if r.IntN(3) == 0 {
			time.Sleep(time.Duration(r.IntN(4000)) * time.Microsecond)
		}
	}
}

// finish sends everything once more from some earlier point, in peace, and
// compares the kitchens.
func (k *killing) finish() {
	k.Helper()
	from := k.IntN(min(k.acked+1, len(k.lines)))
	got := must(k, strings.Join(k.lines[from:], "\n"), "pipe", "--db", k.db)
	if want := strings.Join(k.want[from:], ""); got != want {
		k.Errorf("the last time from line %d the answers were\n%snot\n%s", from, got, want)
	}
	for _, command := range []string{"log --json --all", "left --json"} {
		args := strings.Fields(command)
		got, want := must(k, "", append(args, "--db", k.db)...), must(k, "", append(args, "--db", k.peace)...)
		if got != want {
			k.Errorf("%s:\n%s\nnot\n%s", command, got, want)
		}
	}
	must(k, "", "check", "--db", k.db)
}
