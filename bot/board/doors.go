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
		h.Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		switch {
		case b.o.Keys == nil && !isHere(r.Host): // another site's name that leads to this machine
			http.Error(w, "This board is for this machine: open it as http://127.0.0.1 or http://localhost.", http.StatusMisdirectedRequest)
		case b.o.Keys == nil:
			inside.ServeHTTP(w, r)
		case strings.HasPrefix(r.URL.Path, "/key/"):
			b.key(w, r)
		case !b.o.Keys.opens(cookie(r, keyCookie)):
			b.write(w, r, http.StatusUnauthorized, "door", nil)
		default:
			inside.ServeHTTP(w, r)
		}
	})
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

// key takes a key from a link, keeps it as a cookie and shows the board.
func (b *Board) key(w http.ResponseWriter, r *http.Request) {
	key := strings.TrimPrefix(r.URL.Path, "/key/")
	if !b.talk.may(time.Now()) || r.Method != http.MethodGet || !b.o.Keys.opens(key) {
		b.write(w, r, http.StatusUnauthorized, "door", nil)
		return
	}
	b.setCookie(w, r, keyCookie, key)
	http.Redirect(w, r, "/", http.StatusSeeOther)
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

// limit lets through so many a second, and some more at once.
type limit struct {
	mu   sync.Mutex
	left float64
	at   time.Time
}

const perSecond, atOnce = 5, 20

func (l *limit) may(now time.Time) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.at.IsZero() {
		l.left = atOnce
	} else {
		l.left = min(atOnce, l.left+now.Sub(l.at).Seconds()*perSecond)
	}
	l.at = now
	if l.left < 1 {
		return false
	}
	l.left--
	return true
}
