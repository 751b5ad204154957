package board

import (
	"crypto/rand"
	"net/http"
	"strings"
	"sync"
	"time"
)

// A name is who speaks in the kitchen. It is nobody's proof of who they are, but two boards that are
// in use do not speak as one cook by mistake, and no board speaks as one who speaks in the chat.

const deviceCookie = "scullion_device"

// liveFor is how long a device that has said something, and shows no board, still has its name.
const liveFor = 10 * time.Minute

// boardID begins the ids of what was said on a board.
const boardID = "board-"

// mostNames is how many names are held at once.
const mostNames = 500

// names are who speaks on which device.
type names struct {
	mu   sync.Mutex
	held map[string]*holder // by the name without case
}

type holder struct {
	device string
	open   int       // boards that the device shows
	last   time.Time // when it was heard of
}

// take gives a device a name; false where another one that is in use has it.
func (n *names) take(name, device string, now time.Time) bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.held == nil {
		n.held = map[string]*holder{}
	}
	key := strings.ToLower(name)
	h := n.held[key]
	if h != nil && h.device != device && h.isLive(now) {
		return false
	}
	if h == nil || h.device != device {
		if len(n.held) >= mostNames {
			for k, o := range n.held {
				if !o.isLive(now) {
					delete(n.held, k)
				}
			}
		}
		h = &holder{device: device}
		n.held[key] = h
	}
	h.last = now
	return true
}

func (h *holder) isLive(now time.Time) bool { return h.open > 0 || now.Sub(h.last) < liveFor }

// show notes that a device shows a board as somebody, until the end is called.
func (n *names) show(name, device string, now time.Time) (end func(now time.Time)) {
	if name == "" || device == "" || !n.take(name, device, now) {
		return func(time.Time) {}
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	h := n.held[strings.ToLower(name)]
	if h == nil || h.device != device { // taken in between
		return func(time.Time) {}
	}
	h.open++
	return func(now time.Time) {
		n.mu.Lock()
		defer n.mu.Unlock()
		h.open--
		h.last = now
	}
}

// drop gives a name back.
func (n *names) drop(name, device string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if key := strings.ToLower(name); n.held[key] != nil && n.held[key].device == device {
		delete(n.held, key)
	}
}

// device tells this browser from others; one that has no mark gets one.
func (b *Board) device(w http.ResponseWriter, r *http.Request) string {
	if d := cookie(r, deviceCookie); len(d) == len(rand.Text()) {
		return d
	}
	d := rand.Text()
	b.setCookie(w, r, deviceCookie, d)
	return d
}

// mayBe says why somebody cannot speak as that name from a device; "" they can, and it is theirs.
func (b *Board) mayBe(r *http.Request, name, device string) (trouble string, err error) {
	s, err := b.o.State(r.Context())
	if err != nil {
		return "", err
	}
	for _, chat := range s.Chat {
		if strings.EqualFold(chat, name) {
			return chat + " speaks in the chat. Join by another name, like \"" + name + " 2\".", nil
		}
	}
	if !b.names.take(name, device, b.o.Now()) {
		return name + " is on another board now. Join by another name, like \"" + name + " 2\".", nil
	}
	return "", nil
}

// leave has a device speak as nobody.
func (b *Board) leave(w http.ResponseWriter, r *http.Request) {
	if name := cookOf(r); name != "" {
		b.names.drop(name, cookie(r, deviceCookie))
	}
	http.SetCookie(w, &http.Cookie{Name: cookCookie, Path: "/", HttpOnly: true, Secure: r.TLS != nil, SameSite: http.SameSiteStrictMode, MaxAge: -1})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}
