package terminal

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"

	"github.com/peterh/liner"
)

// typist gives what is typed, a line at a time; io.EOF at the end.
type typist interface {
	ask(prompt string) (string, error)
	remember(line string) // for the history
	close()
}

// plainTypist reads lines as they come and shows no prompt.
type plainTypist struct{ lines }

func (t plainTypist) ask(string) (string, error) { return t.next() }
func (t plainTypist) remember(string)            {}
func (t plainTypist) close()                     {}

// editor is a person at a terminal, with line editing, history and completion.
type editor struct {
	state *liner.State
	file  string // where lines typed are remembered; "" nowhere
}

func newEditor(file string, words func() []string) *editor {
	e := &editor{liner.NewLiner(), file}
	e.state.SetCtrlCAborts(true)
	e.state.SetTabCompletionStyle(liner.TabPrints)
	e.state.SetWordCompleter(func(line string, pos int) (string, []string, string) {
		return complete(line, pos, words())
	})
	if f, err := os.Open(file); err == nil {
		e.state.ReadHistory(f) // a spoilt history is no reason not to open the kitchen
		f.Close()
	}
	return e
}

func (e *editor) ask(prompt string) (string, error) {
	line, err := e.state.Prompt(prompt)
	if errors.Is(err, liner.ErrPromptAborted) {
		return "", io.EOF
	}
	return line, err
}

func (e *editor) remember(line string) { e.state.AppendHistory(line) }

// close gives the terminal back and keeps the history, as well as that can be
// done.
func (e *editor) close() {
	e.state.Close()
	if e.file == "" || os.MkdirAll(filepath.Dir(e.file), 0o700) != nil {
		return
	}
	if f, err := os.OpenFile(e.file, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o600); err == nil {
		e.state.WriteHistory(f)
		f.Close()
	}
}

// askUnless asks, and gives up with io.EOF when ctx ends: then whoever is
// still reading is left behind.
func askUnless(ctx context.Context, t typist, prompt string) (string, error) {
	type answer struct {
		line string
		err  error
	}
	got := make(chan answer, 1)
	go func() {
		line, err := t.ask(prompt)
		got <- answer{line, err}
	}()
	select {
	case a := <-got:
		return a.line, a.err
	case <-ctx.Done():
		return "", io.EOF
	}
}
