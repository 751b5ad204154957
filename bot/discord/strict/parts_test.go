package strict

import (
	"bytes"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/textproto"
	"strings"
	"testing"
)

const magic = "\x89PNG\r\n\x1a\n"

// part is one piece of a multipart body.
type part struct{ name, file, kind, data string }

func png(n int) part {
	return part{fmt.Sprintf("files[%d]", n), fmt.Sprintf("board%d.png", n), "image/png", magic + "leeks"}
}

func payloadOf(m Raw) part { return part{"payload_json", "", "application/json", string(encode(m))} }

// parts sends a multipart body.
func parts(t *testing.T, s *Server, method, path string, list ...part) reply {
	t.Helper()
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	for _, p := range list {
		h := textproto.MIMEHeader{}
		h.Set("Content-Disposition", fmt.Sprintf(`form-data; name=%q`, p.name))
		if p.file != "" {
			h.Set("Content-Disposition", fmt.Sprintf(`form-data; name=%q; filename=%q`, p.name, p.file))
		}
		if p.kind != "" {
			h.Set("Content-Type", p.kind)
		}
		to, err := w.CreatePart(h)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprint(to, p.data)
	}
	w.Close()
	return ask(t, s, method, path, body.String(), func(r *http.Request) { r.Header.Set("Content-Type", w.FormDataContentType()) })
}

func TestUploads(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	path := "/channels/" + c.ID + "/messages"
	m := note(Raw{"attachments": []any{Raw{"id": "0", "description": "The timetable"}}, "embeds": []any{Raw{"image": Raw{"url": "attachment://board0.png"}}}})
	r := parts(t, s, "POST", path, payloadOf(m), png(0), png(1)).want(t, 200, 0).raw(t)
	files := c.Messages()[0].Files
	if len(files) != 2 || files[0].Description != "The timetable" || string(files[1].Data) != magic+"leeks" || files[1].Name != "board1.png" {
		t.Fatalf("files %+v", files)
	}
	// An edit keeps what it lists, and adds what it brings.
	old := r["attachments"].([]any)[1].(Raw)["id"]
	edit := Raw{"attachments": []any{Raw{"id": old}, Raw{"id": "0", "filename": "board0.png"}}, "allowed_mentions": nobody}
	edit["embeds"] = []any{}
	parts(t, s, "PATCH", path+"/"+text(r["id"]), payloadOf(edit), part{"files[0]", "board0.png", "", magic + "more"}).want(t, 200, 0)
	files = c.Messages()[0].Files
	if len(files) != 2 || files[0].Name != "board1.png" || string(files[1].Data) != magic+"more" {
		t.Errorf("files after the edit: %+v", files)
	}
	innocent(t, s)
}

func TestWrongUploads(t *testing.T) {
	s := watched(t, Options{})
	c := galley(s)
	path := "/channels/" + c.ID + "/messages"
	many := []part{payloadOf(note(nil))}
	for i := range maxFiles + 1 {
		many = append(many, png(i))
	}
	cases := []struct {
		name string
		list []part
		says string
	}{
		{"no payload_json", []part{png(0)}, "payload_json is required"},
		{"payload_json twice", []part{payloadOf(note(nil)), payloadOf(note(nil))}, "neither a first payload_json"},
		{"payload_json that is no JSON", []part{{"payload_json", "", "", "{"}, png(0)}, "not JSON"},
		{"another part", []part{payloadOf(note(nil)), {"file", "x.txt", "", "x"}}, "neither a first payload_json"},
		{"one number twice", []part{payloadOf(note(nil)), png(0), png(0)}, "is there twice"},
		{"no filename", []part{payloadOf(note(nil)), {"files[0]", "", "text/plain", "x"}}, "has no filename"},
		{"empty", []part{payloadOf(note(nil)), {"files[0]", "x.txt", "text/plain", ""}}, "is empty"},
		{"named png", []part{payloadOf(note(nil)), {"files[0]", "x.png", "", "GIF89a..."}}, "is named x.png"},
		{"declared png", []part{payloadOf(note(nil)), {"files[0]", "x.bin", "image/png", "leeks"}}, "is declared image/png"},
		{"declared gif", []part{payloadOf(note(nil)), {"files[0]", "x.png", "image/gif", magic + "x"}}, "is declared image/gif"},
		{"big", []part{payloadOf(note(nil)), {"files[0]", "x.txt", "", strings.Repeat("x", maxFile+1)}}, "has 10485761 bytes"},
		{"many", many, "11 files"},
		{"attachment of another number", []part{payloadOf(note(Raw{"attachments": []any{Raw{"id": "1"}}})), png(0)}, "neither an upload"},
		{"attachment twice", []part{payloadOf(note(Raw{"attachments": []any{Raw{"id": "0"}, Raw{"id": 0}}})), png(0)}, "is there twice"},
		{"attachment of another name", []part{payloadOf(note(Raw{"attachments": []any{Raw{"id": "0", "filename": "y.png"}}})), png(0)}, "the upload's is"},
		{"long description", []part{payloadOf(note(Raw{"attachments": []any{Raw{"id": "0", "description": strings.Repeat("x", 1025)}}})), png(0)}, "description has 1025"},
		{"picture of another name", []part{payloadOf(note(Raw{"embeds": []any{Raw{"image": Raw{"url": "attachment://y.png"}}}})), png(0)}, "names \"y.png\", which is no upload"},
		{"picture that is none", []part{payloadOf(note(Raw{"embeds": []any{Raw{"image": Raw{"url": "attachment://x.txt"}}}})), {"files[0]", "x.txt", "", "x"}}, "which is no picture"},
	}
	for _, b := range cases {
		t.Run(b.name, func(t *testing.T) {
			before := len(s.Violations())
			if r := parts(t, s, "POST", path, b.list...); r.status < 400 {
				t.Errorf("accepted: %s", r.body)
			}
			if said := strings.Join(s.Violations()[before:], "\n"); !strings.Contains(said, b.says) {
				t.Errorf("violations %q do not say %q", said, b.says)
			}
		})
	}
	whole := part{"files[0]", "x.txt", "", strings.Repeat("x", maxFile)}
	second, third := whole, whole
	second.name, third.name = "files[1]", "files[2]"
	parts(t, s, "POST", path, payloadOf(note(nil)), whole, second, third).want(t, 413, 40005)
	if n := len(c.Messages()); n != 0 {
		t.Errorf("%d messages stand", n)
	}
}
