package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// asProgram makes this test binary behave as the program itself.
const asProgram = "SCULLION_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	os.Exit(m.Run())
}

// program is the real program as a child process, with a data folder of its
// own.
func program(t testing.TB, args ...string) *exec.Cmd {
	t.Helper()
	return as(t, os.Args[0], args...)
}

// as runs a command in whose place the program may come.
func as(t testing.TB, name string, args ...string) *exec.Cmd {
	t.Helper()
	c := exec.Command(name, args...)
	c.Env = append(os.Environ(), asProgram+"=1", "XDG_DATA_HOME="+t.TempDir(), "USER=larder", "NO_COLOR=", "TERM=xterm")
	return c
}

// result is what a call of the program came to.
type result struct {
	status   int
	out, err string
}

// try runs the program in this process.
func try(t testing.TB, in string, args ...string) result {
	t.Helper()
	var out, errOut bytes.Buffer
	env := func(name string) string {
		return map[string]string{"USER": "larder", "SCULLION_FOODS": os.Getenv("SCULLION_FOODS")}[name]
	}
	status := run(context.Background(), args, strings.NewReader(in), &out, &errOut, env)
	return result{status, out.String(), errOut.String()}
}

// must is try where nothing may go wrong; it gives what was printed.
func must(t testing.TB, in string, args ...string) string {
	t.Helper()
	r := try(t, in, args...)
	if r.status != done || r.err != "" {
		t.Fatalf("%q: status %d: %s", args, r.status, r.err)
	}
	return r.out
}

// oneLine checks that an error is one line that the program wrote.
func oneLine(t testing.TB, errOut string) {
	t.Helper()
	if strings.Count(errOut, "\n") != 1 || !strings.HasPrefix(errOut, "scullion: ") || !strings.HasSuffix(errOut, "\n") {
		t.Errorf("not one line of ours: %q", errOut)
	}
}
