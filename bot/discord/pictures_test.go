package discord_test

import (
	"bytes"
	"image/png"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

// shelf is enough on the shelf for a picture to help.
const shelf = "got 1kg carrots, 2kg potatoes, 500g mushrooms, 400g cheddar, 300g spinach, 1kg flour, 500g butter"

// pictured waits until a message stands with so many files.
func (k *kit) pictured(m *strict.Message, files int) *strict.Message {
	k.Helper()
	var now *strict.Message
	k.until("a message with its picture", func() bool {
		for _, x := range k.ch.Messages() {
			if x.ID == m.ID {
				now = x
			}
		}
		return now != nil && len(now.Files) == files
	})
	return now
}

// isPicture checks what stands beside a text.
func (k *kit) isPicture(m *strict.Message, name string, told ...string) {
	k.Helper()
	if len(m.Files) != 1 || m.Content == "" {
		k.Fatalf("%d files beside %q", len(m.Files), m.Content)
	}
	f := m.Files[0]
	c, err := png.DecodeConfig(bytes.NewReader(f.Data))
	if err != nil || c.Width != 880 || f.Name != name || len(f.Data) > 200_000 {
		k.Errorf("%s, %d dots wide, %d bytes: %v", f.Name, c.Width, len(f.Data), err)
	}
	for _, want := range told {
		if !strings.Contains(f.Description, want) {
			k.Errorf("no %q in the description %q", want, f.Description)
		}
	}
}

// What is left comes with a picture where it is much, a plan always, and an edit takes the picture
// away or puts another in its place. The form that is sent is as the platform wants it.
func TestPictures(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	var mu sync.Mutex
	var forms []string
	k.srv.Fault(func(r *http.Request) *strict.Fault {
		if kind, p, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind == "multipart/form-data" {
			parts := multipart.NewReader(r.Body, p["boundary"])
			form := r.Method
			for {
				part, err := parts.NextPart()
				if err != nil {
					break
				}
				form += " " + part.FormName() + " " + part.FileName() + " " + part.Header.Get("Content-Type")
				if raw, _ := io.ReadAll(part); part.FormName() == "payload_json" {
					form += " " + string(raw)
				}
			}
			mu.Lock()
			forms = append(forms, form)
			mu.Unlock()
		}
		return nil
	})
	if a := k.say(k.stove, "what's left?"); len(a.Files) > 0 {
		t.Errorf("a picture of %q", a.Content)
	}
	k.say(k.larder, shelf)
	asked := k.ch.Say(k.stove, "what's left?")
	a := k.pictured(k.answer(k.ch, asked), 1)
	k.isPicture(a, "left.png", "What is left.", "spinach: 300 g left", "Most urgent first.")
	if !strings.Contains(a.Content, "300 g spinach") {
		t.Errorf("the text does not stand by itself: %q", a.Content)
	}
	mu.Lock()
	if len(forms) == 0 || !strings.HasPrefix(forms[0], "POST payload_json  application/json {") || !strings.Contains(forms[0], `"attachments":[{"id":0,"filename":"left.png","description":"What is left.`) || !strings.HasSuffix(forms[0], " files[0] left.png image/png") {
		t.Errorf("the form: %q", forms)
	}
	mu.Unlock()
	k.srv.Edit(asked, "how much cream?")
	k.pictured(k.shows(a, "cream"), 0)
	k.srv.Edit(asked, "what's left?")
	k.isPicture(k.pictured(a, 1), "left.png", "spinach")
	wish := k.ch.Say(k.stove, "plan 2 dishes for 2 in 60 minutes")
	first := k.pictured(k.answer(k.ch, wish), 1)
	k.isPicture(first, "plan.png", "2 dishes for 2.", "cook 1:")
	k.srv.Edit(wish, "plan 1 dish for 2 in 60 minutes")
	k.until("the other plan", func() bool {
		now := k.pictured(first, 1)
		return strings.Contains(now.Files[0].Description, "1 dish for 2.") && !bytes.Equal(now.Files[0].Data, first.Files[0].Data)
	})
	begun := k.pictured(k.say(k.stove, "accept"), 1)
	k.isPicture(begun, "plan.png", "1 dish for 2.", " Now ", "stove:")
	k.srv.Press(k.stove, begun, button(t, begun, "Undo")).Wait(soon)
	k.pictured(begun, 0) // nothing is on
	if a := k.say(k.stove, "used 100g leek in the tart"); len(a.Files) > 0 {
		t.Error("a picture of a line")
	}
	k.say(k.stove, "no pictures")
	if a := k.say(k.stove, "what's left?"); len(a.Files) > 0 {
		t.Error("a picture though there are to be none")
	}
	k.say(k.stove, "pictures on")
	k.isPicture(k.say(k.stove, "what's left?"), "left.png")
}

// Without the right to attach files the text goes out alone, the operator is told once, and
// pictures come again when the right does.
func TestNoRightToAttach(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.say(k.larder, shelf)
	k.ch.Deny(strict.AttachFiles)
	for range 3 {
		if a := k.say(k.stove, "what's left?"); len(a.Files) > 0 || !strings.Contains(a.Content, "300 g spinach") {
			t.Errorf("%d files beside %q", len(a.Files), a.Content)
		}
	}
	if n := strings.Count(k.log.String(), "Attach Files"); n != 1 {
		t.Errorf("the operator is told %d times", n)
	}
	if said := k.srv.Slash(k.chef, k.ch, "kitchen", sub("show")).Wait(soon).Content; !strings.Contains(said, "Attach Files") {
		t.Errorf("who may mend it is told %q", said)
	}
	k.ch.Allow(strict.AttachFiles)
	k.until("a picture", func() bool { return len(k.say(k.stove, "what's left?").Files) == 1 })
}

// A picture that takes long to draw does not keep its text waiting: it is edited in.
func TestSlowPicture(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.pace.Draw = time.Nanosecond
	k.join()
	k.say(k.larder, shelf)
	a := k.pictured(k.say(k.stove, "what's left?"), 1)
	if k.isPicture(a, "left.png"); a.Edits != 1 {
		t.Errorf("%d edits", a.Edits)
	}
}

// Whatever becomes of the call, one message stands there, with its picture.
func TestPictureInStorm(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.say(k.larder, shelf)
	for _, kind := range []string{"route", "global", "html"} {
		k.srv.Storm(2, kind)
		asked := k.ch.Say(k.stove, "what's left?")
		k.isPicture(k.pictured(k.answer(k.ch, asked), 1), "left.png")
		k.settles()
		n := 0
		for _, m := range k.ch.Messages() {
			if m.Ref == asked.ID {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%s: %d answers", kind, n)
		}
	}
}

// A command's answer has its picture too: for all where all see it, else for the one who asks.
func TestPictureOfCommand(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.say(k.larder, shelf)
	x := k.srv.Slash(k.stove, k.ch, "left")
	k.until("the picture for one", func() bool {
		list := x.Wait(soon).Followups
		return len(list) == 1 && len(list[0].Files) == 1 && list[0].Files[0].Name == "left.png" && list[0].Flags&64 != 0
	})
	a := k.srv.Slash(k.stove, k.ch, "plan", strict.Raw{"name": "dishes", "type": 4, "value": 1}, strict.Raw{"name": "minutes", "type": 4, "value": 60}).Wait(soon)
	k.isPicture(k.pictured(a.Message, 1), "plan.png", "1 dish for 2.")
}
