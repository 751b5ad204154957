package main

import (
	"bytes"
	"database/sql"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"scullion/bot"
)

// Every trouble with the file gives one line, exit status 1 and no panic,
// whatever the command.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(t *testing.T, db string)
		says  string
	}{
		{"ReadOnly", func(t *testing.T, db string) { mustDo(t, os.Chmod(db, 0o444)) }, "cannot be written"},
		{"Folder", func(t *testing.T, db string) { mustDo(t, os.Remove(db)); mustDo(t, os.Mkdir(db, 0o700)) }, "folder"},
		{"NotADatabase", func(t *testing.T, db string) {
			mustDo(t, os.WriteFile(db, []byte(strings.Repeat("leeks, carrots, potatoes\n", 400)), 0o600))
		}, "not a kitchen file"},
		{"Truncated", func(t *testing.T, db string) { mustDo(t, os.Truncate(db, 3*4096)) }, "damaged"},
		{"Corrupt", corrupt, "damaged"},
		{"Newer", newer, "newer"},
	} {
		for _, command := range []string{"pipe", "chat", "left --json", "ideas", "log", "check", "backup copy.db"} {
			t.Run(c.name+"/"+command, func(t *testing.T) {
				db := mustKitchen(t)
				c.spoil(t, db)
				p := program(t, append(strings.Fields(command), "--db", db)...)
				p.Dir = t.TempDir()
				p.Stdin = strings.NewReader(`{"id":"m9","cook":"stove","text":"used 100g leek"}` + "\n")
				r := end(t, p)
				if r.status != failed || !strings.Contains(r.err, c.says) || !strings.Contains(r.err, db) {
					t.Errorf("status %d, %q; want %q in it", r.status, r.err, c.says)
				}
				oneLine(t, r.err)
			})
		}
	}
}

func mustDo(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// corrupt leaves the first page and spoils the others.
func corrupt(t *testing.T, db string) {
	b, err := os.ReadFile(db)
	mustDo(t, err)
	for i := 4096; i < len(b); i++ {
		b[i] = byte(i*7 + i>>8)
	}
	mustDo(t, os.WriteFile(db, b, 0o600))
}

// newer sets the version that the file says it has. Its place is given in the
// SQLite file format, section 1.3: user version, four bytes from 60.
func newer(t *testing.T, db string) {
	f, err := os.OpenFile(db, os.O_WRONLY, 0)
	mustDo(t, err)
	defer f.Close()
	_, err = f.WriteAt(binary.BigEndian.AppendUint32(nil, 999), 60)
	mustDo(t, err)
}

// end runs a child to its end.
func end(t testing.TB, c *exec.Cmd) result {
	t.Helper()
	var out, errOut bytes.Buffer
	c.Stdout, c.Stderr = &out, &errOut
	if err := c.Run(); err != nil {
		if _, ok := err.(*exec.ExitError); !ok {
			t.Fatal(err)
		}
	}
	return result{c.ProcessState.ExitCode(), out.String(), errOut.String()}
}

func TestLockedFile(t *testing.T) {
	if testing.Short() {
		t.Skip("waits as long as the program does for a lock: five seconds")
	}
	db := mustKitchen(t)
	other, err := sql.Open(sql.Drivers()[0], db)
	mustDo(t, err)
	defer other.Close()
	conn, err := other.Conn(t.Context())
	mustDo(t, err)
	_, err = conn.ExecContext(t.Context(), "BEGIN EXCLUSIVE")
	mustDo(t, err)
	p := program(t, "pipe", "--db", db)
	p.Stdin = strings.NewReader(`{"id":"m9","cook":"stove","text":"used 100g leek"}` + "\n")
	r := end(t, p)
	if r.status != failed || !strings.Contains(r.err, "another program") {
		t.Errorf("status %d, %q", r.status, r.err)
	}
	oneLine(t, r.err)
	_, err = conn.ExecContext(t.Context(), "ROLLBACK")
	mustDo(t, err)
	p = program(t, "pipe", "--db", db)
	p.Stdin = strings.NewReader(`{"id":"m9","cook":"stove","text":"used 100g leek"}` + "\n")
	if r := end(t, p); r.status != done || !strings.Contains(r.out, `"kind":"log"`) {
		t.Errorf("once unlocked: %+v", r)
	}
}

// A disk that fills up loses nothing that was answered.
func TestFullDisk(t *testing.T) {
	t.Run("SmallDisk", func(t *testing.T) {
		folder := t.TempDir()
		if runtime.GOOS != "linux" || exec.Command("mount", "-t", "tmpfs", "-o", "size=600k", "tmpfs", folder).Run() != nil {
			t.Skip("a small disk cannot be made here: that takes Linux and its root")
		}
		defer exec.Command("umount", folder).Run()
		db := filepath.Join(folder, "kitchen.db")
		fill(t, db, program(t, "pipe", "--db", db))
	})
	t.Run("SizeLimit", func(t *testing.T) {
		sh, err := exec.LookPath("sh")
		if err != nil {
			t.Skip("there is no shell to set a limit with")
		}
		db := filepath.Join(t.TempDir(), "kitchen.db")
		fill(t, db, as(t, sh, "-c", `ulimit -f 600 && exec "$0" pipe --db "$1"`, os.Args[0], db))
	})
}

// fill talks to p until its disk is full, and then looks at what there is.
func fill(t *testing.T, db string, p *exec.Cmd) {
	t.Helper()
	var in strings.Builder
	for i := range 20_000 {
		fmt.Fprintf(&in, `{"id":"m%d","cook":"larder","at":"2026-03-03T16:00:00Z","text":"got %d g leeks"}`+"\n", i, i%90+10)
	}
	p.Stdin = strings.NewReader(in.String())
	r := end(t, p)
	if r.status != failed {
		t.Fatalf("status %d, %q: the disk did not fill", r.status, r.err)
	}
	oneLine(t, r.err)
	answered, refused := map[string]bool{}, 0
	for l := range strings.Lines(r.out) {
		var reply bot.Reply
		mustRead(t, l, &reply)
		if reply.Kind == bot.Log {
			answered[reply.To] = true
		} else if refused++; reply.Kind != bot.Error {
			t.Fatalf("%s", l)
		}
	}
	if len(answered) == 0 || refused == 0 {
		t.Fatalf("%d answered, %d refused", len(answered), refused)
	}
	copied := filepath.Join(t.TempDir(), "kitchen.db")
	for _, end := range []string{"", "-wal"} {
		if b, err := os.ReadFile(db + end); err == nil {
			mustDo(t, os.WriteFile(copied+end, b, 0o600))
		}
	}
	must(t, "", "check", "--db", copied)
	var log []struct{ Message string }
	mustRead(t, must(t, "", "log", "--json", "--db", copied), &log)
	for _, l := range log {
		if !answered[l.Message] {
			t.Errorf("%s was kept and not answered", l.Message)
		}
		delete(answered, l.Message)
	}
	if len(answered) > 0 {
		t.Errorf("%d messages were answered and lost", len(answered))
	}
}

// Answers that cannot be written are an error too.
func TestNobodyListens(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("there is no /dev/full here")
	}
	defer full.Close()
	db := mustKitchen(t)
	for _, command := range []string{"pipe", "chat", "left --json", "left", "ideas", "log", "log --json", "log --csv", "check"} {
		t.Run(command, func(t *testing.T) {
			p := program(t, append(strings.Fields(command), "--db", db)...)
			p.Stdin = strings.NewReader(`{"id":"m1","text":"what's left"}` + "\nwhat's left\n")
			var errOut bytes.Buffer
			p.Stdout, p.Stderr = full, &errOut
			p.Run()
			if p.ProcessState.ExitCode() != failed {
				t.Errorf("status %d, %q", p.ProcessState.ExitCode(), &errOut)
			}
			oneLine(t, errOut.String())
		})
	}
}
