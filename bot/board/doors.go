package board

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"time"
)

const (
	keyCookie  = "scullion_key"
	cookCookie = "scullion_cook"
	keepCookie = 90 * 24 * time.Hour
)

// Keys are who may come in from other machines: hashes, a line each, in a file of their own that
// only its owner may read. The keys themselves are shown once.
type Keys struct{ File string }

// New makes a key: 128 random bits.
func (k *Keys) New() (string, error) {
	raw := make([]byte, 16)
	rand.Read(raw)
	key := base64.RawURLEncoding.EncodeToString(raw)
	f, err := os.OpenFile(k.File, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return "", fmt.Errorf("the board's key cannot be kept: %w", err)
	}
	_, err = fmt.Fprintln(f, hash(key))
	return key, errors.Join(err, f.Close())
}

// Any says whether there is a key.
func (k *Keys) Any() (bool, error) {
	list, err := k.list()
	return len(list) > 0, err
}

// Revoke takes all keys back.
func (k *Keys) Revoke() error {
	if err := os.Remove(k.File); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the board's keys cannot be taken back: %w; remove the file", err)
	}
	return nil
}

func (k *Keys) list() ([]string, error) {
	raw, err := os.ReadFile(k.File)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return strings.Fields(string(raw)), err
}

// opens says whether a key is one of them.
func (k *Keys) opens(key string) bool {
	list, err := k.list()
	if err != nil || key == "" {
		return false
	}
	h, found := []byte(hash(key)), 0
	for _, x := range list {
		found |= subtle.ConstantTimeCompare(h, []byte(x))
	}
	return found == 1
}

func hash(key string) string {
	sum := sha256.Sum256([]byte(key))
	return hex.EncodeToString(sum[:])
}

// doors stands before every page: who may come in, from where, and what a page may do.
func (b *Board) doors(inside http.Handler) http.Handler {
	// http.CrossOriginProtection refuses what another site's page has a browser send.
	inside = http.NewCrossOriginProtection().Handler(inside)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; style-src"+styleHash+"; script-src 'self'; connect-src 'self'; img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		switch {
		case fromElsewhere(r):
			http.Error(w, "Another site's page asked for this. Open the board itself.", http.StatusForbidden)
		case b.o.Keys == nil && !isHere(r.Host): // another site's name that leads to this machine
			http.Error(w, "This board is for this machine: open it as http://127.0.0.1 or http://localhost.", http.StatusMisdirectedRequest)
		case b.o.Keys == nil:
			inside.ServeHTTP(w, r)
		case strings.HasPrefix(r.URL.Path, "/key/"):
			b.key(w, r)
		case !b.mayCome(r):
			b.write(w, r, http.StatusUnauthorized, "door", nil)
		default:
			inside.ServeHTTP(w, r)
		}
	})
}

// mayCome says whether who asks has a key, where one is needed. A browser sends the cookie to the
// host that set it alone, so that no other name of this machine has it.
func (b *Board) mayCome(r *http.Request) bool {
	return b.o.Keys == nil || b.o.Keys.opens(cookie(r, keyCookie))
}

// fromElsewhere says whether another site's page asks, and not for a page to leave it for: it
// could not read the answer, but keep the kitchen busy.
func fromElsewhere(r *http.Request) bool {
	site, h := r.Header.Get("Sec-Fetch-Site"), r.Header
	return (site == "cross-site" || site == "same-site") && (r.Method != http.MethodGet || h.Get("Sec-Fetch-Mode") != "navigate" || h.Get("Sec-Fetch-Dest") != "document")
}

// isHere says whether a host is this machine.
func isHere(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	ip := net.ParseIP(strings.Trim(name, "[]"))
	return name == "localhost" || ip != nil && ip.IsLoopback()
}

// key takes a key from a link and keeps it as a cookie. The page it answers with goes on to the
// board: after a mere redirect a browser that came from another site's link would not send the
// cookie, which is for this site alone.
func (b *Board) key(w http.ResponseWriter, r *http.Request) {
	key := strings.TrimPrefix(r.URL.Path, "/key/")
	switch {
	case r.Method == http.MethodGet && b.o.Keys.opens(key):
		b.setCookie(w, r, keyCookie, key)
		b.write(w, r, http.StatusOK, "opened", nil)
	case !b.knocks.may(b.o.Now()):
		http.Error(w, "Too many keys that do not fit. Wait a moment.", http.StatusTooManyRequests)
	default:
		b.write(w, r, http.StatusUnauthorized, "door", nil)
	}
}

func (b *Board) setCookie(w http.ResponseWriter, r *http.Request, name, value string) {
	http.SetCookie(w, &http.Cookie{Name: name, Value: value, Path: "/", HttpOnly: true, Secure: r.TLS != nil, SameSite: http.SameSiteStrictMode, MaxAge: int(keepCookie / time.Second)})
}

func cookie(r *http.Request, name string) string {
	c, err := r.Cookie(name)
	if err != nil {
		return ""
	}
	return c.Value
}

// limit lets through perSecond, and atOnce after a while of quiet.
type limit struct {
	perSecond, atOnce float64

	mu   sync.Mutex
	left float64
	at   time.Time
}

func (l *limit) may(now time.Time) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.at.IsZero() {
		l.left = l.atOnce
	} else {
		l.left = min(l.atOnce, l.left+max(0, now.Sub(l.at).Seconds())*l.perSecond)
	}
	l.at = now
	if l.left < 1 {
		return false
	}
	l.left--
	return true
}
