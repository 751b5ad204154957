package discord

import (
	"context"
	"time"
)

// longestWait is how long it may take to notice a timer set elsewhere.
const longestWait = time.Minute

// ringTimers posts each timer when it is due. Those that fell due while the bot
// was away are posted at once, and say so.
func (c *Client) ringTimers(ctx context.Context) {
	for ctx.Err() == nil {
		now := c.o.Now()
		rung, next, err := c.o.Bot.Ring(c.alive, now)
		if err != nil {
			c.log.Error("timers could not be read; trying again", "error", err)
		}
		c.show(rung)
		wait := longestWait
		if !next.IsZero() {
			wait = min(wait, max(next.Sub(now), time.Millisecond))
		}
		select {
		case <-ctx.Done():
		case <-c.rings:
		case <-time.After(wait):
		}
	}
}
