package terminal_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"scullion/bot"
	"scullion/bot/terminal"
	"scullion/pantry"
	"scullion/pantry/store"
)

var evening = time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)

func mustStore(t testing.TB) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func newPipe(ledger pantry.Ledger) terminal.Pipe {
	return terminal.Pipe{Bot: bot.New(ledger, bot.Options{}), Kitchen: "kitchen", Now: func() time.Time { return evening }}
}

// mustPipe sends text and gives the replies.
func mustPipe(t testing.TB, p terminal.Pipe, text string) []bot.Reply {
	t.Helper()
	var out bytes.Buffer
	if err := p.Run(t.Context(), strings.NewReader(text), &out); err != nil {
		t.Fatal(err)
	}
	return mustReplies(t, out.String())
}

func mustReplies(t testing.TB, out string) (replies []bot.Reply) {
	t.Helper()
	for l := range strings.Lines(out) {
		var r bot.Reply
		if err := json.Unmarshal([]byte(l), &r); err != nil {
			t.Fatalf("%q: %v", l, err)
		}
		replies = append(replies, r)
	}
	return replies
}

func TestPipeLines(t *testing.T) {
	long := strings.Repeat("x", 1<<20)
	for _, c := range []struct {
		name, line, to string
		says           string // in the text of the error; "" where the line is good
	}{
		{"Good", `{"id":"m1","cook":"stove","at":"2026-03-02T17:00:00Z","text":"hello"}`, "m1", ""},
		{"OnlyIDAndText", `{"id":"m1","text":"hello"}`, "m1", ""},
		{"FractionAndZone", `{"id":"m1","at":"2026-03-02T17:00:00.5+01:00","text":"hello"}`, "m1", ""},
		{"OtherFields", `{"id":"m1","text":"hello","channel":{"n":[1,2]}}`, "m1", ""},
		{"NullIsAbsent", `{"id":"m1","text":"hello","at":null,"cook":null,"edit":null}`, "m1", ""},
		{"EmptyText", `{"id":"m1","text":""}`, "m1", ""},
		{"SpaceAround", "  {\"id\":\"m1\",\"text\":\"hello\"}\t\r", "m1", ""},
		{"LongestID", `{"id":"` + strings.Repeat("é", 200) + `","text":"hello"}`, strings.Repeat("é", 200), ""},
		{"Empty", "", "", "line 1: the line is empty"},
		{"Blank", "   ", "", "the line is empty"},
		{"NotJSON", "used 2 leeks", "", "not JSON"},
		{"CutShort", `{"id":"m1","text":"used`, "m1", "ends too soon"},
		{"NoEnd", `{"id":"m1","text":"used"`, "m1", "ends too soon"},
		{"List", `["m1"]`, "", "not a JSON object"},
		{"Number", `5`, "", "not a JSON object"},
		{"Null", `null`, "", "not a JSON object"},
		{"Two", `{"id":"m1","text":"a"} {"id":"m2","text":"b"}`, "m1", "more than one"},
		{"NaN", `{"id":"m1","text":NaN}`, "m1", "not JSON"},
		{"HugeNumber", `{"id":1e309,"text":"a"}`, "", `"id" must be a string`},
		{"IDMissing", `{"text":"used 2 leeks"}`, "", `"id" is missing`},
		{"IDEmpty", `{"id":"","text":"used 2 leeks"}`, "", `"id" is missing`},
		{"IDNumber", `{"id":5,"text":"used 2 leeks"}`, "", `"id" must be a string`},
		{"IDTooLong", `{"id":"` + strings.Repeat("é", 201) + `","text":"a"}`, strings.Repeat("é", 199) + "…", "longer than 200"},
		{"IDTwice", `{"id":"m1","text":"a","id":"m2"}`, "m1", `"id" stands twice`},
		{"OtherTwice", `{"id":"m1","text":"a","x":1,"x":1}`, "m1", `"x" stands twice`},
		{"CaseMatters", `{"ID":"m1","text":"a"}`, "", `"id" is missing`},
		{"TextMissing", `{"id":"m1"}`, "m1", `"text" is missing`},
		{"TextNumber", `{"id":"m1","text":300}`, "m1", `"text" must be a string`},
		{"EditMissingText", `{"id":"m1","edit":true}`, "m1", `"text" is missing`},
		{"EditWord", `{"id":"m1","edit":"yes","text":"a"}`, "m1", `"edit" must be true or false`},
		{"EditAndDelete", `{"id":"m1","edit":true,"delete":true,"text":"a"}`, "m1", "do not go together"},
		{"CookList", `{"id":"m1","cook":["stove"],"text":"a"}`, "m1", `"cook" must be a string`},
		{"CookTooLong", `{"id":"m1","cook":"` + strings.Repeat("x", 101) + `","text":"a"}`, "m1", "longer than 100"},
		{"AtWords", `{"id":"m1","at":"tuesday","text":"a"}`, "m1", `"at" must be a time`},
		{"AtEmpty", `{"id":"m1","at":"","text":"a"}`, "m1", `"at" must be a time`},
		{"AtNumber", `{"id":"m1","at":1772470800,"text":"a"}`, "m1", `"at" must be a string`},
		{"AtNoZone", `{"id":"m1","at":"2026-03-02T17:00:00","text":"a"}`, "m1", `"at" must be a time`},
		{"InvalidUTF8", "{\"id\":\"m1\",\"text\":\"caf\xe9\"}", "", "not valid UTF-8"},
		{"Binary", "\x00\x01\x02\xff", "", "not valid UTF-8"},
		{"Deep", `{"id":"m1","text":` + strings.Repeat("[", 100_000) + `}`, "m1", "not JSON"},
		{"DeepOther", `{"id":"m1","text":"a","x":` + strings.Repeat("[", 20_000) + strings.Repeat("]", 20_000) + `}`, "m1", "not JSON"},
		{"LongestLine", `{"id":"m1","text":"used 2 leeks ` + long[:1<<20-34] + `"}`, "m1", "too long to read"}, // the bot's word, not the reader's
		{"TooLong", `{"id":"m1","text":"` + long[:1<<20-20] + `"}`, "", "longer than 1 MiB"},
		{"TenMegabytes", strings.Repeat(long, 10), "", "longer than 1 MiB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			const next = `{"id":"next","text":"hello"}`
			replies := mustPipe(t, newPipe(mustStore(t)), c.line+"\n"+next) // the last line has no end
			if len(replies) != 2 {
				t.Fatalf("%d replies to two lines", len(replies))
			}
			r := replies[0]
			if r.To != c.to {
				t.Errorf("to %q, want %q", r.To, c.to)
			}
			if isError := r.Kind == bot.Error; isError != (c.says != "") || !strings.Contains(r.Text, c.says) {
				t.Errorf("%s %q, want %q in it", r.Kind, r.Text, c.says)
			}
			if replies[1].To != "next" || replies[1].Kind == bot.Error {
				t.Errorf("the next line was not read: %+v", replies[1])
			}
		})
	}
}

func TestPipeMessage(t *testing.T) {
	for _, c := range []struct {
		name, line, cook string
		at               time.Time
	}{
		{"CookMissing", `{"id":"m1","text":"got 1kg leeks"}`, "cook", evening},
		{"CookOfControls", `{"id":"m1","cook":"\u0000\u001b","text":"got 1kg leeks"}`, "cook", evening},
		{"ControlsDropped", `{"id":"m1","cook":" st\u001b[2Jo\u202eve\n","text":"got 1kg leeks"}`, "st[2Jove", evening},
		{"AtGiven", `{"id":"m1","cook":"stove","at":"2026-03-01T09:30:00Z","text":"got 1kg leeks"}`, "stove", time.Date(2026, 3, 1, 9, 30, 0, 0, time.UTC)},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := mustStore(t)
			mustPipe(t, newPipe(s), c.line+"\n")
			err := s.Do(t.Context(), "kitchen", func(b pantry.Book) error {
				m, err := b.Message("m1")
				if err == nil && (m.Cook != c.cook || !m.At.Equal(c.at)) {
					t.Errorf("heard %q at %v, want %q at %v", m.Cook, m.At, c.cook, c.at)
				}
				return err
			})
			if err != nil {
				t.Fatal(err)
			}
		})
	}
}

func TestPipeOrder(t *testing.T) {
	const n = 500
	var in strings.Builder
	for i := range n {
		fmt.Fprintf(&in, `{"id":"m%d","cook":"stove","text":"got %d g leeks"}`+"\n", i, i+1)
		if i%7 == 0 {
			in.WriteString("nonsense\n")
		}
	}
	replies := mustPipe(t, newPipe(mustStore(t)), in.String())
	want := 0
	for i := range n {
		if to := replies[want].To; to != fmt.Sprintf("m%d", i) {
			t.Fatalf("reply %d is to %q", want, to)
		}
		want++
		if i%7 == 0 {
			if replies[want].Kind != bot.Error {
				t.Fatalf("reply %d is no error", want)
			}
			want++
		}
	}
	if len(replies) != want {
		t.Errorf("%d replies to %d lines", len(replies), want)
	}
}

func TestPipeSameIDSameReply(t *testing.T) {
	p := newPipe(mustStore(t))
	const l = `{"id":"m1","cook":"stove","text":"got 1kg leeks"}` + "\n"
	var first, second bytes.Buffer
	for _, out := range []*bytes.Buffer{&first, &second} {
		if err := p.Run(t.Context(), strings.NewReader(l), out); err != nil {
			t.Fatal(err)
		}
	}
	if first.String() != second.String() {
		t.Errorf("answered\n%sand then\n%s", &first, &second)
	}
}

// A caller who waits for each answer gets it before saying more.
func TestPipeInteractive(t *testing.T) {
	ask, in := io.Pipe()
	out, answers := io.Pipe()
	ended := make(chan error, 1)
	go func() { ended <- newPipe(mustStore(t)).Run(t.Context(), ask, answers) }()
	d := json.NewDecoder(out)
	for i := range 5 {
		id := fmt.Sprint("m", i)
		fmt.Fprintf(in, `{"id":%q,"text":"hello"}`+"\n", id)
		var r bot.Reply
		if err := d.Decode(&r); err != nil || r.To != id {
			t.Fatalf("reply to %q, %v; want %q", r.To, err, id)
		}
	}
	in.Close()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

// When ctx ends, Run does not wait for input that never comes.
func TestPipeEndsWithContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	ask, in := io.Pipe()
	out, answers := io.Pipe()
	ended := make(chan error, 1)
	go func() { ended <- newPipe(mustStore(t)).Run(ctx, ask, answers) }()
	fmt.Fprintln(in, `{"id":"m1","text":"hello"}`)
	if _, err := out.Read(make([]byte, 1000)); err != nil {
		t.Fatal(err)
	}
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

// failing is a ledger that fails for good after so many jobs.
type failing struct {
	pantry.Ledger
	mu   sync.Mutex
	left int
}

var errFull = errors.New("kitchen.db: the disk is full; free some space\nand more that is for programmers")

func (f *failing) Do(ctx context.Context, kitchen string, job func(pantry.Book) error) error {
	return f.Start(ctx, kitchen, job)()
}

func (f *failing) Start(ctx context.Context, kitchen string, job func(pantry.Book) error) func() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.left--; f.left < 0 {
		return func() error { return errFull }
	}
	return f.Ledger.Start(ctx, kitchen, job)
}

func TestPipeLedgerFails(t *testing.T) {
	ledger := &failing{Ledger: mustStore(t), left: 3}
	var in strings.Builder
	for i := range 1000 {
		fmt.Fprintf(&in, `{"id":"m%d","text":"hello"}`+"\n", i)
	}
	var out bytes.Buffer
	err := newPipe(ledger).Run(t.Context(), strings.NewReader(in.String()), &out)
	if !errors.Is(err, errFull) {
		t.Errorf("ended with %v", err)
	}
	replies := mustReplies(t, out.String())
	if len(replies) < 4 || len(replies) > 200 {
		t.Fatalf("%d replies: want those before the failure and those in flight", len(replies))
	}
	for i, r := range replies {
		if r.To != fmt.Sprintf("m%d", i) {
			t.Errorf("reply %d is to %q", i, r.To)
		}
		if failed := r.Kind == bot.Error && r.Text == "kitchen.db: the disk is full; free some space"; failed != (i >= 3) {
			t.Errorf("reply %d: %s %q", i, r.Kind, r.Text)
		}
	}
}

type brokenReader struct{ io.Reader }

func (b brokenReader) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if err == io.EOF {
		err = errors.New("the line went dead")
	}
	return n, err
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("nobody listens") }

func TestPipeBrokenEnds(t *testing.T) {
	const l = `{"id":"m1","text":"hello"}` + "\n"
	var out bytes.Buffer
	err := newPipe(mustStore(t)).Run(t.Context(), brokenReader{strings.NewReader(l)}, &out)
	if err == nil || !strings.Contains(err.Error(), "went dead") || strings.Count(out.String(), "\n") != 1 {
		t.Errorf("reader: %v, %q", err, &out)
	}
	err = newPipe(mustStore(t)).Run(t.Context(), strings.NewReader(l), brokenWriter{})
	if err == nil || !strings.Contains(err.Error(), "nobody listens") {
		t.Errorf("writer: %v", err)
	}
}
