package strict

import (
	"fmt"
	"net/http"
)

// answer is what a request gets, and what is held against its sender.
type answer struct {
	status int
	body   any    // JSON; nil: none
	raw    string // in place of body, as it is
	header http.Header
	blame  []string
}

func ok(body any) answer      { return answer{status: http.StatusOK, body: body} }
func created(body any) answer { return answer{status: http.StatusCreated, body: body} }
func done() answer            { return answer{status: http.StatusNoContent} }

// refusal is an error in Discord's shape.
func refusal(status, code int, message string) answer {
	return answer{status: status, body: Raw{"code": code, "message": message}}
}

// because holds the refusal against the sender: no state excuses it.
func (a answer) because(page, format string, v ...any) answer {
	a.blame = append(a.blame, fmt.Sprintf(format, v...)+" ("+page+")")
	return a
}

func (a answer) write(w http.ResponseWriter, half bool) {
	body := []byte(a.raw)
	if a.body != nil {
		body = encode(a.body)
		w.Header().Set("Content-Type", "application/json")
	}
	for key, values := range a.header {
		w.Header()[http.CanonicalHeaderKey(key)] = values
	}
	if half {
		body = body[:len(body)/2]
	}
	w.WriteHeader(a.status)
	if a.status != http.StatusNoContent {
		w.Write(body) // a client that has gone is its own affair
	}
}
