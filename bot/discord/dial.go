package discord

import (
	"cmp"
	"context"
	"crypto/tls"
	"encoding/json"
	"net"
	"net/http"
	"net/url"

	"github.com/gorilla/websocket"
)

// dialer makes connections that are watched, and can be cut from outside.
func (g *gateway) dialer() *websocket.Dialer {
	dial := func(ctx context.Context, network, addr string) (net.Conn, error) {
		return (&net.Dialer{Timeout: g.o.Pace.Open / 2}).DialContext(ctx, network, addr)
	}
	return &websocket.Dialer{
		HandshakeTimeout: g.o.Pace.Open / 2,
		Proxy:            g.redirect,
		NetDialContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			c, err := dial(ctx, network, addr)
			if err != nil {
				return nil, err
			}
			return g.watch(c), nil
		},
		NetDialTLSContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			c, err := dial(ctx, network, addr)
			if err != nil {
				return nil, err
			}
			host, _, err := net.SplitHostPort(addr)
			if err != nil {
				c.Close()
				return nil, err
			}
			secure := tls.Client(c, &tls.Config{ServerName: host, NextProtos: []string{"http/1.1"}, MinVersion: tls.VersionTLS12})
			if err := secure.HandshakeContext(ctx); err != nil {
				c.Close()
				return nil, err
			}
			return g.watch(secure), nil
		},
	}
}

// redirect sends a connection that resumes to where the platform wants it. The
// library goes to the address that it began with, always; this is called with its
// request before that is dialled, as the one place that can change it. There is no
// proxy. Where nothing comes of it, the next connection goes where all begin.
func (g *gateway) redirect(q *http.Request) (proxy *url.URL, err error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if to := g.resume; to != nil {
		q.URL.Host, q.Host = to.Host, to.Host
		q.URL.Path = cmp.Or(to.Path, "/")
	}
	return nil, nil
}

// resumeAt keeps where READY says that the session is to be resumed; with nil it is
// where any session is begun.
func (g *gateway) resumeAt(ready json.RawMessage) {
	var d struct {
		URL string `json:"resume_gateway_url"`
	}
	var to *url.URL
	if json.Unmarshal(ready, &d) == nil {
		if u, err := url.Parse(d.URL); err == nil && u.Host != "" {
			to = u
		}
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	g.resume = to
}
