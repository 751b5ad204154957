package discord

import (
	"context"
	"fmt"
	"net/http"
	"time"
)

// mayLogin asks how many logins are left today, and waits where none is: the
// one after would cost the token.
func (g *gateway) mayLogin(ctx context.Context) error {
	left, reset, err := g.c.rest.logins(ctx)
	switch {
	case status(err) == http.StatusUnauthorized:
		return fmt.Errorf("%w: %s", ErrFatal, fatal[4004])
	case err != nil:
		return err
	case left > 0:
		return nil
	}
	g.c.log.Error("no login is left for today; waiting", "for", reset)
	pause(ctx, reset)
	return ctx.Err()
}

// awaitLogin keeps logins apart.
func (g *gateway) awaitLogin() error {
	g.mu.Lock()
	wait := time.Until(g.login.Add(g.o.Pace.Identify))
	g.login = time.Now().Add(max(0, wait))
	g.mu.Unlock()
	if wait > 0 {
		pause(g.c.alive, wait)
	}
	g.c.o.Metrics.logins.Inc()
	return g.c.alive.Err()
}
